"""Operator: a part that joins two spans of a prefix graph, told by what it computes."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import lru_cache
from itertools import permutations, product
from typing import Final, TypeAlias

from edgewise.bits import Bit
from edgewise.circuit.model import Circuit, Kind, Tie, Wire
from edgewise.circuit.truth import KLEENE
from edgewise.views.diagram.drivers import Sources

Table: TypeAlias = tuple[Bit, ...]
"""What a port is for every set of inputs."""
_SHAPES: Final = ((3, 1), (4, 2))
"""Inputs and outputs of a node."""


@dataclass(frozen=True, slots=True)
class Operator:
    """The ports of a part that joins two spans.

    Examples
    --------
    >>> from edgewise.catalogue.prefix import node
    >>> operator(node(last=False))
    Operator(generate='generate', propagate='propagate', g='g', p=('p',), p_below='p-below')
    """

    generate: str
    propagate: str
    """Empty: the span reaches down to column 0."""
    g: str
    p: tuple[str, ...]
    """The own p; where there is no propagate, p and g-below can't be told apart by it."""
    p_below: str = ""


def operator(kind: Kind) -> Operator | None:
    """The ports of a kind that computes what a node of a prefix graph does, or nothing."""
    if kind.inside is None or (len(kind.ins), len(kind.outs)) not in _SHAPES:
        return None
    if any(port.width != 1 for port in kind.ports):
        return None
    return _operator(kind)


@lru_cache(maxsize=64)
def _operator(kind: Kind) -> Operator | None:
    assert kind.inside is not None
    ins, outs = [port.name for port in kind.ins], [port.name for port in kind.outs]
    sets = list(product((0, 1), repeat=len(ins)))
    read: dict[str, Table] = {name: tuple(one[i] for one in sets) for i, name in enumerate(ins)}
    found = [_outputs(kind.inside, dict(zip(ins, one, strict=True))) for one in sets]
    made: dict[str, Table] = {}
    for name in outs:
        bits = [one.get(name) for one in found]
        if None in bits:
            return None
        made[name] = tuple(bit for bit in bits if bit is not None)
    return _matched(read, made)


def _outputs(inside: Circuit, values: Mapping[str, Bit]) -> dict[str, Bit]:
    """What gates make of these inputs; outputs that something else drives are left out."""
    sources = Sources(inside)
    parts = {part.name: part for part in inside.parts}

    def bit(wire: Wire | Tie) -> Bit | None:
        origin = sources.origin(wire)
        if isinstance(origin, Tie):
            return origin.bit
        if not origin.owner:
            return values.get(origin.port)
        part = parts[origin.owner]
        if part.kind.function is None:
            return None
        ports = part.kind.function.reads
        bits = [bit(each) for port in ports for each in part.signal(port)]
        return None if None in bits else part.kind.function.over(KLEENE)(bits)  # type: ignore[arg-type]

    found = {output.name: bit(output.signal[0]) for output in inside.outputs}
    return {name: one for name, one in found.items() if one is not None}


def _matched(read: Mapping[str, Table], made: Mapping[str, Table]) -> Operator | None:
    for generate, table in made.items():
        for g, p, below in permutations(read, 3):
            if table != tuple(a | (b & c) for a, b, c in _rows(read, g, p, below)):
                continue
            if len(made) == 1:
                return Operator(generate, "", g, (p, below))
            (propagate,) = (name for name in made if name != generate)
            (other,) = (name for name in read if name not in (g, p, below))
            if made[propagate] == tuple(a & b for a, b in _rows(read, p, other)):
                return Operator(generate, propagate, g, (p,), other)
    return None


def _rows(read: Mapping[str, Table], *names: str) -> Iterator[tuple[Bit, ...]]:
    return zip(*(read[name] for name in names), strict=True)
