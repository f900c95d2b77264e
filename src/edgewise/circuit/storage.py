"""The storage elements of a circuit, inside the circuits that it uses as parts too."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from edgewise.circuit.insides import once_a_kind
from edgewise.circuit.model import Circuit, Kind, Part
from edgewise.circuit.netlist import Netlist


@dataclass(frozen=True, slots=True)
class Storage:
    """A part of the house that stores: a flip-flop, a register of any kind, a counter.

    Parameters
    ----------
    name : str
        ``A``; inside a circuit used as a part ``CELL.A``, or ``CELL`` alone where that is the
        word that the circuit gives.
    path : str
        Where it is: ``CELL.A``.
    part : Part
    q : tuple of int
        Net numbers, LSB first.
    """

    name: str
    path: str
    part: Part
    q: tuple[int, ...]


@once_a_kind
def stores(kind: Kind) -> bool:
    """Whether a kind of part is a flip-flop or has one inside.

    Examples
    --------
    >>> from edgewise.circuit import parts
    >>> stores(parts.kind("counter", {"width": 2}, {})), stores(parts.kind("not", {}, {"in": 1}))
    (True, False)
    """
    if kind.inside is None:
        return kind.role == "storage"
    return any(map(stores, kind.inside.kinds))


def storage(circuit: Circuit, netlist: Netlist) -> Iterator[Storage]:
    """Everything in a circuit that stores, in text order.

    Examples
    --------
    >>> from edgewise import catalogue
    >>> design = catalogue.design("serial-adder", n=4)
    >>> [one.name for one in storage(design.circuit, design.netlist)]
    ['A', 'B', 'C', 'S']
    """
    for part in circuit.parts:
        yield from within(part, netlist)


def within(part: Part, netlist: Netlist, path: str = "") -> Iterator[Storage]:
    """A storage element, or those inside a part."""
    here = path + part.name
    if part.kind.inside is None or part.kind.role != "circuit":
        if stores(part.kind):
            yield Storage(here, here, part, netlist.names[here])
        return
    if not stores(part.kind):
        return
    word = netlist.names[here] if part.kind.word else None
    for inner in part.kind.inside.parts:
        for one in within(inner, netlist, f"{here}."):
            name = here if one.q == word else one.name
            yield Storage(name, one.path, one.part, one.q)
