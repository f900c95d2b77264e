"""The variables of an unrolled run: operand bits, and bits left free."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, order=True)
class Variable:
    """Bit `index` of `name`, in `row` (-1: the same in all rows, as for operands)."""

    name: str
    index: int
    row: int = -1
