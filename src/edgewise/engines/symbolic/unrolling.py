"""A procedure unrolled: every net of every row as a Boolean term over operand bits.

X is kept exactly: each bit has two rails, `one` (it is 1) and `unknown` (it is X), so that
an unrolled run agrees with the reference engine bit for bit, X included. Where no X can
arrive the second rail folds to the constant false and costs nothing.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import reduce
from typing import Final

from edgewise.bits import X
from edgewise.circuit.model import Tie
from edgewise.design import Design, Source
from edgewise.engines.run_loop import Machine
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

    def constant(self, bit: int) -> Rail:
        """The rail of a constant bit."""
        return constant(bit)

    def all_of(self, bits: Sequence[Rail]) -> Rail:
        """AND of one bit or more."""
        return reduce(self.bit_and, bits)

    def any_of(self, bits: Sequence[Rail]) -> Rail:
        """OR of one bit or more."""
        return reduce(self.bit_or, bits)

    def odd(self, bits: Sequence[Rail]) -> Rail:
        """XOR of one bit or more."""
        return reduce(self.bit_xor, bits)

    def unsure(self, bit: Rail) -> bool:
        """Whether it may be X."""
        return bit.unknown != FALSE


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
    schedule = design.schedule if last is None else design.schedule[: last + 1]
    feeds = (
        {name: [_rail(source, terms) for source in sources] for name, sources in inputs.items()}
        for inputs in schedule
    )
    return tuple(Machine(Logic(terms)).rows(design.netlist, feeds))


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

    Goes from each net to the first of its sources that may be X, until an initial state or an
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
