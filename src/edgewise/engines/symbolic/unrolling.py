"""A procedure unrolled: every net of every row as a Boolean term over operand bits.

X is kept exactly: each bit has two rails, `one` (it is 1) and `unknown` (it is X), so that
an unrolled run agrees with the reference engine bit for bit, X included. Where no X can
arrive the second rail folds to the constant false and costs nothing.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from functools import reduce
from typing import Final

from edgewise.bits import X
from edgewise.circuit.cover import Cover, Literal
from edgewise.circuit.model import Tie
from edgewise.circuit.netlist import CLOCK_NET, FlipFlop, Netlist
from edgewise.design import Design, Source
from edgewise.engines.symbolic.terms import FALSE, TRUE, Term, Terms
from edgewise.engines.symbolic.variables import Variable


@dataclass(frozen=True, slots=True)
class Rail:
    """A bit as terms: 1 where `one`, X where `unknown`, else 0; never both."""

    one: Term
    unknown: Term = FALSE


ZERO: Final = Rail(FALSE)
ONE: Final = Rail(TRUE)
UNKNOWN: Final = Rail(FALSE, TRUE)

Row = Sequence[Rail]
"""A bit for each net of a netlist."""


def constant(bit: int) -> Rail:
    """The rail of a constant bit."""
    return UNKNOWN if bit == X else ONE if bit else ZERO


@dataclass(frozen=True, slots=True)
class Logic:
    """The three-valued operators of `edgewise.bits`, on rails."""

    terms: Terms

    def bit_not(self, a: Rail) -> Rail:
        """NOT."""
        return Rail(self.terms.either(a.one, a.unknown) ^ 1, a.unknown)

    def bit_and(self, a: Rail, b: Rail) -> Rail:
        """AND: X where both may be 1 and one is X."""
        t = self.terms
        one = t.both(a.one, b.one)
        if a.unknown == b.unknown == FALSE:
            return Rail(one)
        may = t.both(t.either(a.one, a.unknown), t.either(b.one, b.unknown))
        return Rail(one, t.both(may, one ^ 1))

    def bit_or(self, a: Rail, b: Rail) -> Rail:
        """OR: by De Morgan."""
        return self.bit_not(self.bit_and(self.bit_not(a), self.bit_not(b)))

    def bit_xor(self, a: Rail, b: Rail) -> Rail:
        """XOR: X where either is X."""
        t = self.terms
        unknown = t.either(a.unknown, b.unknown)
        return Rail(t.both(t.differ(a.one, b.one), unknown ^ 1), unknown)

    def bit_mux(self, select: Rail, when_0: Rail, when_1: Rail) -> Rail:
        """Multiplexer: with an unknown select known where both choices are and agree."""
        t = self.terms
        one = t.choose(select.one, when_0.one, when_1.one)
        unknown = t.choose(select.one, when_0.unknown, when_1.unknown)
        if select.unknown == FALSE:
            return Rail(one, unknown)
        both_one = t.both(when_0.one, when_1.one)
        both_zero = t.both(
            t.either(when_0.one, when_0.unknown) ^ 1, t.either(when_1.one, when_1.unknown) ^ 1
        )
        blurred = t.both(both_one ^ 1, both_zero ^ 1)
        return Rail(
            t.choose(select.unknown, one, both_one), t.choose(select.unknown, unknown, blurred)
        )

    def gate(self, operator: str, inputs: Sequence[Rail]) -> Rail:
        """The output of a netlist gate."""
        if operator == "multiplexer":
            return self.bit_mux(*inputs)
        if operator in ("not", "buffer"):
            return self.bit_not(inputs[0]) if operator == "not" else inputs[0]
        fold, inverted = self._folds[operator]
        result = reduce(fold, inputs)
        return self.bit_not(result) if inverted else result

    def sum(self, cover: Cover, row: Row) -> Rail:
        """What a complete sum gives for a row."""

        def bit(literal: Literal) -> Rail:
            return row[literal >> 1] if literal & 1 else self.bit_not(row[literal >> 1])

        products = []
        for one in cover.products:
            factors = [bit(literal) for literal in one.every]
            if one.some:
                factors.append(reduce(self.bit_or, map(bit, one.some)))
            products.append(reduce(self.bit_and, factors))
        return reduce(self.bit_or, products, ZERO)

    @property
    def _folds(self) -> Mapping[str, tuple[Callable[[Rail, Rail], Rail], bool]]:
        return {
            "and": (self.bit_and, False),
            "nand": (self.bit_and, True),
            "or": (self.bit_or, False),
            "nor": (self.bit_or, True),
            "xor": (self.bit_xor, False),
            "xnor": (self.bit_xor, True),
        }


def settle(
    logic: Logic, netlist: Netlist, stored: Sequence[Rail], inputs: Mapping[str, Sequence[Rail]]
) -> Row:
    """Every net of one row; the twin of `edgewise.engines.reference.settle`."""
    values = [ZERO] * netlist.size
    values[:3] = [ZERO, ONE, UNKNOWN]
    values[CLOCK_NET] = ONE
    for name, nets in netlist.inputs.items():
        for net, bit in zip(nets, inputs[name], strict=True):
            values[net] = bit
    for flip_flop, bit in zip(netlist.flip_flops, stored, strict=True):
        values[flip_flop.q] = bit
    for gate in netlist.gates:
        rail = logic.gate(gate.operator, [values[net] for net in gate.inputs])
        if gate.cover and rail.unknown != FALSE:
            rail = logic.sum(gate.cover, values)
        values[gate.output] = rail
    return values


def next_rail(logic: Logic, flip_flop: FlipFlop, row: Row) -> Rail:
    """What a flip-flop stores at the edge after `row`; the twin of `reference.next_bit`."""
    held = row[flip_flop.q]
    stored = row[flip_flop.d]
    if flip_flop.enable is not None:
        stored = logic.bit_mux(row[flip_flop.enable], held, stored)
    if flip_flop.cover and stored.unknown != FALSE:
        stored = logic.sum(flip_flop.cover, row)
    if flip_flop.clear is not None:
        stored = logic.bit_mux(row[flip_flop.clear], stored, ZERO)
    if flip_flop.gate is not None:
        stored = logic.bit_mux(row[flip_flop.gate], held, stored)
    return stored


def unroll(design: Design, terms: Terms, last: int | None = None) -> tuple[Row, ...]:
    """Rows 0 … `last` (default: all) of a design's run, over its operand bits.

    Variables are ``Variable(operand, index)``.

    Examples
    --------
    >>> from edgewise import catalogue
    >>> rows = unroll(catalogue.design("serial-adder", n=4), Terms())
    >>> len(rows)
    9
    """
    logic, netlist = Logic(terms), design.netlist
    stored = [constant(f.start) for f in netlist.flip_flops]
    rows: list[Row] = []
    schedule = design.schedule if last is None else design.schedule[: last + 1]
    for number, inputs in enumerate(schedule):
        if number:
            stored = [next_rail(logic, f, rows[-1]) for f in netlist.flip_flops]
        fed = {name: [_rail(s, terms) for s in sources] for name, sources in inputs.items()}
        rows.append(settle(logic, netlist, stored, fed))
    return tuple(rows)


def _rail(source: Source, terms: Terms) -> Rail:
    if isinstance(source, Tie):
        return constant(source.bit)
    return Rail(terms.variable(Variable(source.operand, source.index)))


@dataclass(frozen=True, slots=True)
class Entry:
    """Where an X came from: the net and the row that let it in."""

    net: int
    row: int


def entry_of_unknown(design: Design, rows: Sequence[Row], net: int, row: int) -> Entry:
    """Follow an X that may stand at `net` in `row` back to where it was let in.

    Goes from each net to the first of its sources that may be X, until a start state or an
    input.
    """
    netlist = design.netlist
    drivers = {gate.output: gate.inputs for gate in netlist.gates}
    stores = {f.q: (f.d, f.enable, f.clear, f.gate) for f in netlist.flip_flops}
    while True:
        values = rows[row]
        if net in drivers:
            net = next((n for n in drivers[net] if values[n].unknown != FALSE), 2)
        elif net in stores and row:
            before = rows[row - 1]
            sources = [n for n in (*stores[net], net) if n is not None]
            row -= 1
            net = next((n for n in sources if before[n].unknown != FALSE), net)
        else:
            return Entry(net, row)
        if net == X:
            return Entry(net, row)
