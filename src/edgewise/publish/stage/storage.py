"""Stores: the parts of a design that keep bits, and what decides what they do at an edge.

``web/actions.js`` reads them as data.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any, Final

from edgewise.circuit.netlist import CLOCK_NET, Gate, Netlist
from edgewise.circuit.parts import part_type
from edgewise.circuit.storage import Storage, storage
from edgewise.design import Design

NO_NET: Final = -1
_MEMBER: Final = re.compile(r"(.+)\(([0-9]{1,6})\)")


@dataclass(frozen=True, slots=True)
class Store:
    """A storage element, for sentences.

    Parameters
    ----------
    name : str
    does : str
        What it does where no control says otherwise: ``take``, ``shift``, ``count``.
    q : tuple of int
        Net numbers, LSB first.
    takes : tuple of int
        Nets it stores when it neither loads nor shifts to the left: its ``d`` or ``in``.
    load, left : int
        Nets that choose; -1: not there.
    loads, left_in : tuple of int
        What is stored then.
    controls : tuple of int
        What feeds its ports ``enable``, ``clear`` and ``clock``; -1: nothing, or the bare clock.
        The flip-flops inside need not have them: the enable of a counter is in its logic.
    direction : str
        ``left`` for a shift register that shifts to the left; else ``right``.
    by : tuple of str
        What feeds ``enable``, ``clear``, ``clock``, ``load`` and ``left``, by name; empty where
        nothing does, or a constant.
    """

    name: str
    does: str
    q: tuple[int, ...]
    takes: tuple[int, ...]
    load: int
    left: int
    loads: tuple[int, ...]
    left_in: tuple[int, ...]
    controls: tuple[int, int, int]
    direction: str
    by: tuple[str, str, str, str, str] = ("", "", "", "", "")

    def data(self) -> list[Any]:
        """As plain lists."""
        return [
            self.name,
            self.does,
            list(self.q),
            list(self.takes),
            self.load,
            self.left,
            list(self.loads),
            list(self.left_in),
            list(self.controls),
            self.direction,
            list(self.by),
        ]


def stores(design: Design) -> tuple[Store, ...]:
    """The storage elements of a design, as they stand in the circuit, those inside parts too.

    Examples
    --------
    >>> from edgewise import catalogue
    >>> [store.name for store in stores(catalogue.design("serial-adder"))]
    ['A', 'B', 'C', 'S']
    """
    drivers = {gate.output: gate for gate in design.netlist.gates}
    found = storage(design.circuit, design.netlist)
    return tuple(_store(design.netlist, drivers, one) for one in found)


def _store(netlist: Netlist, drivers: Mapping[int, Gate], one: Storage) -> Store:
    part, names = one.part, netlist.names
    what = part_type(part.kind.name)

    def nets(port: str) -> tuple[int, ...]:
        return names[f"{one.path}.{port}"] if part.signal(port) else ()

    def net(port: str) -> int:
        return nets(port)[0] if nets(port) else NO_NET

    def by(port: str) -> str:
        return _label(netlist, drivers, net(port))

    clock = net("clock")
    return Store(
        one.name,
        what.does,
        one.q,
        names[f"{one.path}.{what.stores}"] if what.stores else (),
        net("load"),
        net("left"),
        nets("d") if net("load") != NO_NET else (),
        nets("left-in"),
        (net("enable"), net("clear"), NO_NET if clock == CLOCK_NET else clock),
        str(dict(part.kind.settings).get("direction", "right")),
        (by("enable"), by("clear"), by("clock"), by("load"), by("left")),
    )


def _label(netlist: Netlist, drivers: Mapping[int, Gate], net: int) -> str:
    """The name of a control; of a gated clock, that of the net which gates it."""
    if net <= CLOCK_NET:
        return ""
    gate = drivers.get(net)
    gating = [one for one in gate.inputs if one != CLOCK_NET] if gate else []
    gated = gate is not None and CLOCK_NET in gate.inputs and len(gating) == 1
    return netlist.labels[gating[0] if gated else net]


# ---------------------------------------------------------------------- families


@dataclass(frozen=True, slots=True)
class Family:
    """Stores that are told of as one: the stages of a word, equal parts, or one store alone.

    Parameters
    ----------
    name : str
        ``R(3..0)``, or the name of the only member.
    members : tuple of Store
        The highest index first.
    """

    name: str
    members: tuple[Store, ...]


def families(some: Sequence[Store]) -> list[Family]:
    """Stores of one name and width with indices in a row, as one; each where its first stands.

    Examples
    --------
    >>> from edgewise import catalogue
    >>> [f.name for f in families(stores(catalogue.design("carry-save-accumulator", n=4)))]
    ['S(3..0)', 'C(3..1)']
    """
    found = runs([store.name for store in some], [len(store.q) for store in some])
    return [Family(name, tuple(some[place] for place in places)) for name, places in found]


def runs(names: Sequence[str], widths: Sequence[int]) -> list[tuple[str, list[int]]]:
    """Names whose indices follow one another, as one: its name, and places in the list given.

    Examples
    --------
    >>> runs(["C", "R(0)", "R(1)", "R(2)", "R(4)"], [1, 1, 1, 1, 1])
    [('C', [0]), ('R(2..0)', [3, 2, 1]), ('R(4)', [4])]
    """
    bases: dict[tuple[str, int], list[tuple[int, int]]] = {}
    for place, (name, width) in enumerate(zip(names, widths, strict=True)):
        member = _MEMBER.fullmatch(name)
        key = (f"{member[1]}(", width) if member else (name, width)
        bases.setdefault(key, []).append((int(member[2]) if member else 0, place))
    found = []
    for (base, _), members in bases.items():
        members.sort()
        start = 0
        for end in range(1, len(members) + 1):
            if end < len(members) and members[end][0] == members[end - 1][0] + 1:
                continue
            run = members[start:end][::-1]
            one = names[run[0][1]]
            found.append(
                (f"{base}{run[0][0]}..{run[-1][0]})" if len(run) > 1 else one, [p for _, p in run])
            )
            start = end
    return found
