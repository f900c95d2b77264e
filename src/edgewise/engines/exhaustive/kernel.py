"""A kernel goes through a part of a space of operand sets; the contract of those who make them."""

from __future__ import annotations

from typing import Protocol

from edgewise.engines.exhaustive.lanes import Plan
from edgewise.engines.exhaustive.llvm_ir import Sink


class Kernel(Protocol):
    """A plan made ready to run; can be sent to another process."""

    def run(self, start: int, stop: int) -> tuple[int, ...]:
        """Go through the steps start … stop - 1 of the plan's outermost loop.

        Returns
        -------
        tuple of int
            ``count``: for each predicate, the number of sets. ``any``: the first step in
            which a predicate is true, or `stop`. ``masks``: for each predicate a number
            whose bit i tells of the i-th set from the start of the first step.
        """
        ...


class Maker(Protocol):
    """Makes kernels."""

    @property
    def name(self) -> str:
        """For reports: ``compiled for vectors of 512 bits``."""
        ...

    @property
    def lane_bits(self) -> int:
        """Sets that are handled at once, as a power of two."""
        ...

    def kernel(self, plan: Plan, sink: Sink) -> Kernel:
        """A kernel of this plan."""
        ...
