"""Rows of adders whose results are stored, and where their operands come from.

A row in which each carry goes to the next adder adds two words; what the words are is read
from the nets. Adders that do not pass carries on to one another are told of one by one if they
are few, else as a row.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import Any, Final

from edgewise.circuit.netlist import CLOCK_NET, Gate
from edgewise.circuit.parts import function
from edgewise.design import Design
from edgewise.publish.stage.storage import NO_NET, families, runs, stores

FEW: Final = 3
"""Adders that are told of one by one, at most."""


@dataclass(frozen=True, slots=True)
class Adder:
    """A full adder or half adder."""

    name: str
    a: int
    b: int
    carry_in: int
    """-1: a half adder."""
    carry_from: str
    """``stored`` where the carry comes from a flip-flop, ``none`` for the constant 0."""
    sum: int
    carry: int

    def data(self) -> list[Any]:
        """As plain lists."""
        return [
            self.name,
            self.a,
            self.b,
            self.carry_in,
            self.carry_from,
            self.sum,
            self.carry,
        ]


@dataclass(frozen=True, slots=True)
class Addend:
    """A word that a row of adders adds.

    Parameters
    ----------
    nets : tuple of int
        LSB first.
    name : str
        The store, input or slice that it comes from; empty: from elsewhere.
    through : str
        ``and``, ``xor`` where a gate at each bit, with the net `control`, stands between;
        empty: nothing does.
    control : int
    control_name : str
    """

    nets: tuple[int, ...]
    name: str = ""
    through: str = ""
    control: int = NO_NET
    control_name: str = ""

    def data(self) -> list[Any]:
        """As plain lists."""
        return [list(self.nets), self.name, self.through, self.control, self.control_name]


@dataclass(frozen=True, slots=True)
class AdderRow:
    """Adders that are told of together, the lowest place first.

    `addends` are the two words that they add; none where carries are not passed on.
    """

    name: str
    adders: tuple[Adder, ...]
    addends: tuple[Addend, ...] = ()

    def data(self) -> list[Any]:
        """As plain lists."""
        return [self.name, [a.data() for a in self.adders], [a.data() for a in self.addends]]


def adders(design: Design) -> tuple[AdderRow, ...]:
    """The adders whose results are stored.

    Examples
    --------
    >>> from edgewise import catalogue
    >>> row, = adders(catalogue.design("shift-add-multiplier", n=4))
    >>> row.name, [(a.name, a.through, a.control_name) for a in row.addends]
    ('FA(3..0)', [('H', '', ''), ('M', 'and', 'Q(0)')])
    """
    every = stores(design)
    stored = {net for store in every for net in (*store.takes, *store.loads)}
    chains, single = _chains(list(_all(design)))
    single = [adder for adder in single if {adder.sum, adder.carry} & stored]
    rows = [AdderRow(adder.name, (adder,)) for adder in single]
    if len(single) > FEW:
        rows = [AdderRow(_name(single), tuple(single))]
    words = _Words(design)
    for chain in chains:
        if stored.intersection(net for adder in chain for net in (adder.sum, adder.carry)):
            addends = (words.addend(a.a for a in chain), words.addend(a.b for a in chain))
            rows.append(AdderRow(_name(chain), tuple(chain), addends))
    return tuple(rows)


def _all(design: Design) -> Iterable[Adder]:
    held = {flip_flop.q for flip_flop in design.netlist.flip_flops}
    names = design.netlist.names
    for part in design.circuit.parts:
        if part.kind.role != "arithmetic":
            continue
        ports = {p.name: names[f"{part.name}.{p.name}"][0] for p in part.kind.ports}
        carry_in = ports.get("carry-in", NO_NET)
        carry_from = "none" if carry_in == 0 else "stored" if carry_in in held else ""
        yield Adder(
            part.name,
            ports["a"],
            ports["b"],
            carry_in,
            carry_from,
            ports["sum"],
            ports["carry-out"],
        )


def _chains(every: Sequence[Adder]) -> tuple[list[list[Adder]], list[Adder]]:
    """Adders that pass carries on to one another, lowest place first; and all others."""
    follows: dict[int, Adder] = {}
    for adder in every:
        if adder.carry_in > CLOCK_NET:
            follows.setdefault(adder.carry_in, adder)  # a carry goes on to one of those it feeds
    driven = {adder.carry for adder in every}
    chains, single = [], []
    for adder in every:
        if adder.carry_in in driven and follows[adder.carry_in] is adder:
            continue
        chain = [adder]
        while chain[-1].carry in follows:
            chain.append(follows[chain[-1].carry])
        if len(chain) > 1:
            chains.append(chain)
        else:
            single.append(adder)
    return chains, single


def _name(some: Sequence[Adder]) -> str:
    """``FA(3..0)``; where the names have nothing in common, one of them and how many more."""
    found = runs([adder.name for adder in some], [1] * len(some))
    return found[0][0] if len(found) == 1 else f"{some[0].name} and {len(some) - 1} more"


class _Words:
    """The words of a design by their nets."""

    def __init__(self, design: Design) -> None:
        self.netlist = design.netlist
        self.places: dict[int, tuple[str, str, int]] = {}
        """By net: the word in full, its base for a slice, and the bit's index."""
        for family in families(stores(design)):
            lowest = family.members[-1]
            if len(lowest.q) > 1:
                for member in family.members:
                    self._put(member.name, member.name, member.q)
            elif len(family.members) > 1:
                base, _, low = family.name[:-1].rpartition("..")
                stages = [member.q[0] for member in reversed(family.members)]
                self._put(family.name, base.rpartition("(")[0], stages, int(low))
        for name, nets in self.netlist.inputs.items():
            self._put(name, name, nets)
        self.widths = Counter(name for name, _, _ in self.places.values())

    def _put(self, name: str, base: str, nets: Sequence[int], low: int = 0) -> None:
        for index, net in enumerate(nets, low):
            self.places.setdefault(net, (name, base, index))

    def name(self, nets: Sequence[int]) -> str:
        """What a word is called, if its bits stand in a row in a store or an input."""
        found = [self.places.get(net) for net in nets]
        first = found[0]
        if first is None:
            return ""
        name, base, low = first
        if found != [(name, base, index) for index in range(low, low + len(nets))]:
            return ""
        return name if len(nets) == self.widths[name] else f"{base}({low + len(nets) - 1}..{low})"

    def addend(self, some: Iterable[int]) -> Addend:
        """Where an operand comes from."""
        nets = tuple(some)
        name = self.name(nets)
        if name:
            return Addend(nets, name)
        gates = [self._drivers.get(net) for net in nets]
        for through in ("and", "xor"):
            inputs = [
                g.inputs
                for g in gates
                if g and function(g.operator).plain == through and len(g.inputs) == 2
            ]
            if len(inputs) < len(nets):
                continue
            for control in sorted(set(inputs[0]).intersection(*inputs)):
                others = [one if two == control else two for one, two in inputs]
                name = self.name(others)
                if control > CLOCK_NET and name:
                    return Addend(nets, name, through, control, self.netlist.labels[control])
        return Addend(nets)

    @cached_property
    def _drivers(self) -> Mapping[int, Gate]:
        return {gate.output: gate for gate in self.netlist.gates}
