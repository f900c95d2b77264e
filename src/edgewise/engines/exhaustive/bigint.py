"""Kernels in plain Python: one big whole number holds a bit of many operand sets.

The stand-in for compiled kernels where there is no compiler for the machine; same plans,
same results.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from itertools import chain

from edgewise.engines.exhaustive.lanes import Plan
from edgewise.engines.exhaustive.llvm_ir import Sink
from edgewise.engines.symbolic.terms import Term
from edgewise.engines.symbolic.variables import Variable


@dataclass(frozen=True)
class Slices:
    """Makes kernels of big whole numbers.

    Parameters
    ----------
    lane_bits : int
        2**lane_bits operand sets are handled at once.

    Examples
    --------
    >>> Slices().name
    'Python whole numbers of 65536 bits'
    """

    lane_bits: int = 16

    @property
    def name(self) -> str:
        """For reports."""
        return f"Python whole numbers of {1 << self.lane_bits} bits"

    def kernel(self, plan: Plan, sink: Sink) -> SlicedKernel:
        """A kernel of this plan."""
        return SlicedKernel(plan, sink)


@dataclass(frozen=True)
class SlicedKernel:
    """Evaluates the terms of a plan block by block."""

    plan: Plan
    sink: Sink

    def run(self, start: int, stop: int) -> tuple[int, ...]:
        """Go through some steps; see `edgewise.engines.exhaustive.kernel.Kernel.run`."""
        if self.sink == "any":
            for step in range(start, stop):
                if any(chain.from_iterable(self._step(step))):
                    return (step,)
            return (stop,)
        blocks = chain.from_iterable(map(self._step, range(start, stop)))
        if self.sink == "masks":
            return tuple(self._joined(values) for values in zip(*blocks, strict=True))
        totals = [0] * len(self.plan.roots)
        times = [times for copies in self.plan.roots for _, times in copies]
        owner = [i for i, copies in enumerate(self.plan.roots) for _ in copies]
        for block in blocks:
            for i, weight, lanes_true in zip(owner, times, block, strict=True):
                totals[i] += weight * lanes_true.bit_count()
        return tuple(totals)

    def _joined(self, blocks: tuple[int, ...]) -> int:
        """Blocks of lanes, one after the other, as one number."""
        size = (1 << len(self.plan.lanes)) // 8
        if not size:  # then the whole space has fewer than eight sets
            return blocks[0]
        return int.from_bytes(b"".join(b.to_bytes(size, "little") for b in blocks), "little")

    def _step(self, step: int) -> Iterator[list[int]]:
        """For each block of lanes of a step, the roots' values."""
        slowest_first = [variable for loop in self.plan.loops[1:] for variable in reversed(loop)]
        outer = {v: step >> bit & 1 for bit, v in enumerate(self.plan.loops[0])}
        for inner in range(1 << self.plan.inner_bits):
            counted = {v: inner >> bit & 1 for bit, v in enumerate(reversed(slowest_first))}
            yield self._block(outer | counted)

    def _block(self, counted: Mapping[Variable, int]) -> list[int]:
        terms, bits = self.plan.terms, len(self.plan.lanes)
        full = (1 << (1 << bits)) - 1
        lanes = {variable: bit for bit, variable in enumerate(self.plan.lanes)}
        roots = [root for copies in self.plan.roots for root, _ in copies]
        values: dict[int, int] = {0: 0}

        def value(term: Term) -> int:
            return values[term >> 1] ^ full if term & 1 else values[term >> 1]

        for number in terms.reached(roots):
            node = terms.nodes[number]
            if node.operator == "and":
                values[number] = value(node.left) & value(node.right)
            elif node.operator == "xor":
                values[number] = value(node.left) ^ value(node.right)
            elif node.variable in lanes:
                values[number] = pattern(lanes[node.variable], bits)
            elif node.variable is not None:
                values[number] = full if counted[node.variable] else 0
        return [value(root) for root in roots]


def pattern(bit: int, bits: int) -> int:
    """Has a 1 at every position below 2**bits whose own bit number `bit` is 1.

    Examples
    --------
    >>> f"{pattern(1, 3):08b}"
    '11001100'
    """
    half = 1 << bit
    block = ((1 << half) - 1) << half
    for size in range(bit + 1, bits):
        block |= block << (1 << size)
    return block
