"""Many runs side by side, unknown bits included; what stands in a row may be written over.

Bit i of a Python number belongs to run i. A bit of all runs is a pair of such numbers, its rails:
in which runs it may be 1, in which it may be 0; where both, it is X (R. E. Bryant, "Boolean
Analysis of MOS Circuits", IEEE Transactions on CAD 6(4), 1987, encodes three values so).
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import reduce
from operator import and_, or_
from typing import TypeAlias

from edgewise.circuit.model import Tie
from edgewise.circuit.netlist import CLOCK_NET, Netlist
from edgewise.design import Design
from edgewise.engines.run_loop import Machine
from edgewise.procedure import Source

Rails: TypeAlias = tuple[int, int]
"""In which runs a bit may be 1, and in which it may be 0."""
Written: TypeAlias = Mapping[int, Rails]
"""Bits that are written over, by net; a run in which neither rail is set keeps its own."""
_NOTHING: Written = {}


@dataclass(frozen=True, slots=True)
class DualRail:
    """The five operations on rails; `mask` has a 1 for each run."""

    mask: int

    def constant(self, bit: int) -> Rails:
        """The bit in all runs."""
        return (self.mask if bit else 0, self.mask if bit != 1 else 0)

    def bit_not(self, a: Rails) -> Rails:
        """NOT."""
        return a[1], a[0]

    def all_of(self, bits: Sequence[Rails]) -> Rails:
        """AND."""
        return reduce(and_, [bit[0] for bit in bits]), reduce(or_, [bit[1] for bit in bits])

    def any_of(self, bits: Sequence[Rails]) -> Rails:
        """OR."""
        return reduce(or_, [bit[0] for bit in bits]), reduce(and_, [bit[1] for bit in bits])

    def odd(self, bits: Sequence[Rails]) -> Rails:
        """XOR."""
        one, zero = bits[0]
        for other in bits[1:]:
            one, zero = one & other[1] | zero & other[0], one & other[0] | zero & other[1]
        return one, zero

    def bit_mux(self, select: Rails, when_0: Rails, when_1: Rails) -> Rails:
        """Multiplexer; known where an unknown `select` chooses between two alike."""
        return (
            select[0] & when_1[0] | select[1] & when_0[0],
            select[0] & when_1[1] | select[1] & when_0[1],
        )

    def unsure(self, bit: Rails) -> bool:
        """Whether it is X in any run."""
        return bit[0] & bit[1] != 0


@dataclass(frozen=True, slots=True)
class Row:
    """One row of all runs.

    Parameters
    ----------
    values : list of Rails
        By net, with what was written over.
    followed : mapping of int to Rails
        What stood at the nets that were written over: what follows from the row before, and from
        what was written at other nets of this one.
    """

    values: list[Rails]
    followed: Mapping[int, Rails]


def rows(
    design: Design,
    operands: Mapping[str, Sequence[int]],
    runs: int,
    written: Mapping[int, Written] | None = None,
    last: int | None = None,
) -> Iterator[Row]:
    """Row after row, every net in every run.

    Parameters
    ----------
    design : Design
    operands : mapping of str to sequence of int
        The bits of each operand in all runs, LSB first, as `planes` gives them.
    runs : int
        How many there are.
    written : mapping of int to Written, optional
        What is written over, by row; the run goes on from that.
    last : int, optional
        The last row that is wanted.

    Examples
    --------
    A carry that was forgotten in one of two runs, and what follows from that:

    >>> from edgewise import catalogue
    >>> design = catalogue.design("serial-adder", n=2)
    >>> carry = design.netlist.find("C")[0]
    >>> operands = {"a": planes([1, 1]), "b": planes([1, 1])}
    >>> adding = rows(design, operands, 2, {3: {carry: (0b00, 0b10)}})
    >>> row = list(adding)[4]
    >>> [[rail[0] >> run & 1 for rail in map(row.values.__getitem__, design.netlist.find("S"))]
    ...  for run in range(2)]
    [[0, 1], [0, 0]]
    """
    logic = DualRail((1 << runs) - 1)

    machine, netlist = Machine(logic), design.netlist
    edge = machine.edge(netlist)
    stored = [logic.constant(one.start) for one in netlist.flip_flops]
    for number, fed in enumerate(design.schedule[: design.edges + 1]):
        if last is not None and number > last:
            return
        inputs = {name: [_fed(one, operands, logic) for one in of] for name, of in fed.items()}
        over = written.get(number, _NOTHING) if written else _NOTHING
        row = _settled(machine, netlist, stored, inputs, over)
        yield row
        stored = edge(row.values)


def next_stored(
    design: Design,
    operands: Mapping[str, Sequence[int]],
    runs: int,
    stored: Sequence[Rails],
    row: int,
) -> list[Rails]:
    """What each flip-flop stores at the edge after a row, in all runs.

    Parameters
    ----------
    design : Design
    operands : mapping of str to sequence of int
        As for `rows`.
    runs : int
    stored : sequence of Rails
        What each flip-flop holds in that row, whatever the run would have it.
    row : int

    Examples
    --------
    >>> from edgewise import catalogue
    >>> design = catalogue.design("ring-counter", n=2)
    >>> next_stored(design, {}, 2, [(0b01, 0b10), (0b10, 0b01)], 0)
    [(2, 1), (1, 2)]
    """
    logic = DualRail((1 << runs) - 1)
    machine = Machine(logic)
    fed = design.schedule[min(row, len(design.schedule) - 1)]
    inputs = {
        name: [_fed(source, operands, logic) for source in sources] for name, sources in fed.items()
    }
    return machine.edge(design.netlist)(machine.settle(design.netlist, stored, inputs))


def _fed(source: Source, operands: Mapping[str, Sequence[int]], logic: DualRail) -> Rails:
    """A bit that an input is fed."""
    if isinstance(source, Tie):
        return logic.constant(source.bit)
    of = operands[source.operand]
    one = of[source.index] if source.index < len(of) else 0
    return one, one ^ logic.mask


def planes(values: Sequence[int]) -> list[int]:
    """The bits of an operand in all runs, LSB first, from its value in each run.

    Examples
    --------
    >>> planes([1, 2, 3]) == [0b101, 0b110]
    True
    """
    width = max((value.bit_length() for value in values), default=0) or 1
    joined = "".join([f"{value:0{width}b}" for value in reversed(values)])
    return [int(joined[width - 1 - i :: width] or "0", 2) for i in range(width)]


def _settled(
    machine: Machine[Rails],
    netlist: Netlist,
    stored: Sequence[Rails],
    inputs: Mapping[str, Sequence[Rails]],
    over: Written,
) -> Row:
    """A row, each net in its turn written over before any gate reads it."""
    if not over:
        return Row(machine.settle(netlist, stored, inputs), _NOTHING)
    logic, of = machine.logic, machine.gate
    followed: dict[int, Rails] = {}
    values = [logic.constant(0)] * netlist.size
    values[1], values[2], values[CLOCK_NET] = (logic.constant(bit) for bit in (1, 2, 1))
    given: list[tuple[int, Rails]] = []
    for name, nets in netlist.inputs.items():
        given += zip(nets, inputs[name], strict=True)
    given += zip([one.q for one in netlist.flip_flops], stored, strict=True)
    for net, bit in given:
        values[net] = _over(net, bit, over, followed) if net in over else bit
    for gate in netlist.gates:
        bit, net = of(gate.operator, [values[net] for net in gate.inputs]), gate.output
        if gate.cover and logic.unsure(bit):
            bit = gate.cover.value(values, logic)
        values[net] = _over(net, bit, over, followed) if net in over else bit
    return Row(values, followed)


def _over(net: int, bit: Rails, over: Written, followed: dict[int, Rails]) -> Rails:
    """What stands at a net that is written over; what stood there is noted."""
    followed[net], (one, zero) = bit, over[net]
    kept = ~(one | zero)
    return bit[0] & kept | one, bit[1] & kept | zero
