"""The example of a first lesson: operands that show something, and whether it comes out right."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from edgewise.bits import Word
from edgewise.design import Design, Operand, Purpose
from edgewise.engines import reference
from edgewise.study.coverage import measured
from edgewise.study.coverage.report import PARTS
from edgewise.trace import Trace

_VALUES: Final = (45, 27, 38, 51, 14, 57, 19, 34)
"""Operands of a first lesson, cut to their widths: their carries rise and fall."""


def values(design: Design) -> dict[str, int]:
    """Operands with which the design computes what it says, and leaves little idle.

    Examples
    --------
    >>> from edgewise import catalogue
    >>> values(catalogue.design("serial-adder", n=6))
    {'a': 45, 'b': 27}
    """

    def fitting(number: int, operand: Operand) -> int:
        largest = operand.numbers[-1]
        return _VALUES[number % len(_VALUES)] % (largest + 1) or largest

    def computing(first: int) -> dict[str, int]:
        tried = {o.name: fitting(i, o) for i, o in enumerate(design.operands, first)}
        while any(tried.values()) and not _holds(design, tried):
            tried = {name: value // 2 for name, value in tried.items()}
        return tried

    large = {o.name: max(0, o.numbers[-1] - i) for i, o in enumerate(design.operands)}
    several = [computing(first) for first in range(len(_VALUES) if large else 1)]
    best, fewest = several[0], -1
    for one in [*several, *([large] if large and _holds(design, large) else [])]:
        idle = len(measured.of(reference.run(design, one)).warnings(PARTS))
        if fewest < 0 or idle < fewest:
            best, fewest = one, idle
        if not idle:
            break
    return best


def _holds(design: Design, operands: Mapping[str, int]) -> bool:
    trace = reference.run(design, operands)
    return all(right(trace, purpose) for purpose in design.computes)


def answer(trace: Trace, purpose: Purpose) -> Word:
    """The word in which an answer stands at the end."""
    return trace.word(purpose.output, trace.edges if purpose.after is None else purpose.after)


def right(trace: Trace, purpose: Purpose) -> bool:
    """Whether an answer is all known, and what the design says."""
    found = trace.design.read(purpose.output, answer(trace, purpose))
    return found == trace.design.expected(trace.operands)[purpose.output]
