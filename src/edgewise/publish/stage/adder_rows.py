"""Rows of adders whose results are stored, and where their operands come from.

A row in which each carry goes to the next adder adds two words; what the words are is read
from the nets. Adders that do not pass carries on to one another are told of as a row if they are
one family or many, else one by one.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from typing import Any, Final

from edgewise.circuit.netlist import CLOCK_NET
from edgewise.circuit.parts import function
from edgewise.design import Design
from edgewise.publish.stage.storage import NO_NET, runs
from edgewise.publish.stage.word_names import WordNames, inverts

FEW: Final = 3
"""Adders of different names that are told of one by one, at most."""


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
    carry_read: str = "more"
    """By whom its carry is read: ``nobody``, flip-flops alone (``stores``), or ``more``."""

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
            self.carry_read,
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
        ``not`` where an inverter does; empty: nothing does.
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

    `addends` are the two words that they add, the two bits of a single adder; none where many
    pass no carries on.
    """

    name: str
    adders: tuple[Adder, ...]
    addends: tuple[Addend, ...] = ()

    def data(self) -> list[Any]:
        """As plain lists."""
        return [self.name, [a.data() for a in self.adders], [a.data() for a in self.addends]]


def adders(design: Design, words: WordNames | None = None) -> tuple[AdderRow, ...]:
    """The adders whose results are stored; `words` are the design's own, if at hand.

    Examples
    --------
    >>> from edgewise import catalogue
    >>> row, = adders(catalogue.design("shift-add-multiplier", n=4))
    >>> row.name, [(a.name, a.through, a.control_name) for a in row.addends]
    ('FA(3..0)', [('H', '', ''), ('M', 'and', 'Q(0)')])
    """
    words = words or WordNames(design)
    stored = {net for store in words.stores for net in (*store.takes, *store.loads)}
    chains, single = _chains(list(_all(design)))
    single = [adder for adder in single if {adder.sum, adder.carry} & stored]
    rows = [
        AdderRow(one.name, (one,), (_addend(words, [one.a]), _addend(words, [one.b])))
        for one in single
    ]
    if len(single) > FEW or (len(single) > 1 and _is_run(single)):
        rows = [AdderRow(_name(single), tuple(single))]
    for chain in chains:
        if stored.intersection(net for adder in chain for net in (adder.sum, adder.carry)):
            addends = tuple(
                _addend(words, nets) for nets in zip(*((a.a, a.b) for a in chain), strict=True)
            )
            rows.append(AdderRow(_name(chain), tuple(chain), addends))
    return tuple(rows)


def _all(design: Design) -> Iterable[Adder]:
    held = {flip_flop.q for flip_flop in design.netlist.flip_flops}
    names = design.netlist.names
    read_by = _readers(design)
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
            read_by(ports["carry-out"]),
        )


def _readers(design: Design) -> Callable[[int], str]:
    """Tells of a net who reads it: ``more``, ``stores`` alone, or ``nobody``."""
    netlist = design.netlist
    seen = {one for outputs in netlist.outputs.values() for one in outputs}
    seen.update(*(gate.inputs for gate in netlist.gates))
    seen.update(net for f in netlist.flip_flops for net in (f.enable, f.clear, f.gate) if net)
    stored = {flip_flop.d for flip_flop in netlist.flip_flops}
    return lambda net: "more" if net in seen else "stores" if net in stored else "nobody"


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


def _is_run(some: Sequence[Adder]) -> bool:
    """Whether they are one family, as `_name` would tell it."""
    return len(runs([adder.name for adder in some], [1] * len(some))) == 1


def _name(some: Sequence[Adder]) -> str:
    """``FA(3..0)``; where the names have nothing in common, one of them and how many more."""
    found = runs([adder.name for adder in some], [1] * len(some))
    return found[0][0] if len(found) == 1 else f"{some[0].name} and {len(some) - 1} more"


def _addend(words: WordNames, nets: Sequence[int]) -> Addend:
    """Where an operand comes from."""
    nets = tuple(nets)
    name = words.name(nets)
    if name:
        return Addend(nets, name)
    gates = [words.drivers.get(net) for net in nets]
    inverted = [gate.inputs[0] for gate in gates if gate and inverts(gate)]
    if len(inverted) == len(nets) and words.name(inverted):
        return Addend(nets, words.name(inverted), "not")
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
            name = words.name(others)
            if control > CLOCK_NET and name:
                return Addend(nets, name, through, control, words.netlist.labels[control])
    return Addend(nets)
