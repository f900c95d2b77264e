"""What the nets of a flat circuit are called, those inside parts by their whole path."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from functools import cached_property
from typing import TypeAlias

from edgewise.circuit.model import CLOCK
from edgewise.circuit.plan import Nets, Plan, Stamp


class Names(Mapping[str, Nets]):
    """Net numbers by name, worked out when first asked for: costs need gates, not names.

    Otherwise as the dictionary that `told` gives, and pickled as one.

    Examples
    --------
    >>> names = Names(lambda: {"rain": (4,)})
    >>> names["rain"], names == {"rain": (4,)}
    ((4,), True)
    """

    def __init__(self, told: Callable[[], dict[str, Nets]]) -> None:
        self._tell = told

    @cached_property
    def _told(self) -> dict[str, Nets]:
        return self._tell()

    def __getitem__(self, name: str) -> Nets:
        return self._told[name]

    def __iter__(self) -> Iterator[str]:
        return iter(self._told)

    def __len__(self) -> int:
        return len(self._told)

    def __repr__(self) -> str:
        return repr(self._told)

    def __reduce__(self) -> tuple[type, tuple[dict[str, Nets]]]:
        return dict, (self._told,)


def names(plan: Plan, numbers: Sequence[int]) -> dict[str, Nets]:
    """Names of a whole circuit, once the nets of its plan have their final `numbers`."""
    driven, read = in_plan(plan)
    return {name: tuple([numbers[net] for net in nets]) for name, nets in (driven | read).items()}


def in_plan(plan: Plan) -> tuple[dict[str, Nets], dict[str, Nets]]:
    """What names stand for in the plan of a whole circuit; those of input ports apart.

    A net is called after what drives it, so that names of input ports come after all others.
    """
    driven: dict[str, Nets] = {}
    read: dict[str, Nets] = {}
    for name, nets, fed in _listed(plan, {}):
        # The inputs of the circuit itself, which have no dot, are driven from outside.
        (read if fed and "." in name else driven)[name] = nets
    return driven, read


_Entry: TypeAlias = tuple[str, Nets, bool]
"""A name, what it stands for, and whether that is fed from outside: an input."""


def _listed(plan: Plan, insides: dict[int, list[_Entry]]) -> list[_Entry]:
    """All names in a plan; `insides` are those in plans met before, by the plan's id."""
    found = [
        (name, nets, name in plan.inputs)
        for name, nets in plan.nets.items()
        if name != CLOCK and "." not in name
    ]
    stamps = (one for one, _ in plan.elements if isinstance(one, Stamp))
    numbers = range(plan.size)
    for part in plan.circuit.parts:
        at = {connection.port: plan.at(connection.signal) for connection in part.connections}
        found += [
            (f"{part.name}.{port.name}", at[port.name], port.direction == "in")
            for port in part.kind.ports
        ]
        if part.kind.word:
            found.append((part.name, at[part.kind.word], False))
        if part.kind.inside:
            stamp = next(stamps)
            if id(stamp.plan) not in insides:
                insides[id(stamp.plan)] = _listed(stamp.plan, insides)
            here = stamp.inside(numbers)
            found += [
                (f"{part.name}.{name}", tuple([here[net] for net in nets]), fed)
                for name, nets, fed in insides[id(stamp.plan)]
            ]
    found += [(name, nets, False) for name, nets in plan.outputs.items()]
    return found
