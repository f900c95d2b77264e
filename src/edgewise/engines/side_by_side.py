"""Many runs side by side: bit i of a Python number belongs to run i. What is unknown is run as 0.

A run takes the time of a few; for counting over a sample of operands.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import reduce
from operator import and_, or_, xor

from edgewise.circuit.model import Tie
from edgewise.design import Design
from edgewise.engines.run_loop import Machine
from edgewise.procedure import Source


@dataclass(frozen=True, slots=True)
class Lanes:
    """One bit of every run; `mask` has a 1 for each run."""

    mask: int

    def constant(self, bit: int) -> int:
        """The bit in all runs; X is 0."""
        return self.mask if bit == 1 else 0

    def bit_not(self, a: int) -> int:
        """NOT."""
        return a ^ self.mask

    def all_of(self, bits: Sequence[int]) -> int:
        """AND."""
        return reduce(and_, bits)

    def any_of(self, bits: Sequence[int]) -> int:
        """OR."""
        return reduce(or_, bits)

    def odd(self, bits: Sequence[int]) -> int:
        """XOR."""
        return reduce(xor, bits)

    def bit_mux(self, select: int, when_0: int, when_1: int) -> int:
        """Multiplexer."""
        return select & (when_0 ^ when_1) ^ when_0

    def unsure(self, _bit: int) -> bool:
        """Never: nothing is unknown."""
        return False


def rows(design: Design, operands: Mapping[str, Sequence[int]], runs: int) -> Iterator[list[int]]:
    """Row after row, every net in every run.

    Parameters
    ----------
    design : Design
    operands : mapping of str to sequence of int
        The words of each operand, run after run; see `Design.patterns`.
    runs : int
        How many there are.

    Examples
    --------
    >>> from edgewise import catalogue
    >>> design = catalogue.design("ripple-carry-adder", n=2)
    >>> (row,) = rows(design, {"a": [1, 3], "b": [2, 1], "carry_in": [0, 0]}, 2)
    >>> [row[net] for net in design.netlist.outputs["sum"]]
    [1, 1]
    """
    logic = Lanes((1 << runs) - 1)
    lanes = {
        (name, i): sum((value >> i & 1) << run for run, value in enumerate(values))
        for name, values in operands.items()
        for i in range(max(value.bit_length() for value in values))
    }

    def bit(source: Source) -> int:
        if isinstance(source, Tie):
            return logic.constant(source.bit)
        return lanes.get((source.operand, source.index), 0)

    feeds = (
        {name: [bit(source) for source in sources] for name, sources in fed.items()}
        for fed in design.schedule[: design.edges + 1]
    )
    return Machine(logic).rows(design.netlist, feeds)
