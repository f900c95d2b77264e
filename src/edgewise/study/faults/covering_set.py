"""Covering sets: the fewest examples that together show every fault that can be shown."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Final

from edgewise.design import Design
from edgewise.engines.exhaustive import compiler
from edgewise.engines.exhaustive.operand_space import Space
from edgewise.engines.symbolic.terms import Terms
from edgewise.errors import DesignError, Message
from edgewise.study.faults.detection import detections
from edgewise.study.faults.fault import Fault
from edgewise.study.faults.models import faults


@dataclass(frozen=True, slots=True)
class CoveringSet:
    """Operand sets that together detect every fault that can be detected.

    Parameters
    ----------
    operands : tuple of mapping of str to int
    faults : int
        How many faults they detect.
    fewest : bool
        Whether no smaller number of sets does; if False, the search was cut short.
    """

    operands: tuple[Mapping[str, int], ...]
    faults: int
    fewest: bool


MOST_SETS: Final = 12
"""Operand bits up to which the fewest examples are looked for."""
_TRIES: Final = 200_000
"""Steps of the search, at most."""


def fewest_examples(design: Design, tried: Sequence[Fault] | None = None) -> CoveringSet:
    """The fewest operand sets that detect every fault that any operands detect.

    Only for designs of up to 12 operand bits: the search is exact as far as its steps reach.

    Raises
    ------
    DesignError
        Too many operand bits.

    Examples
    --------
    >>> from edgewise import catalogue
    >>> found = fewest_examples(catalogue.design("serial-in-parallel-out", n=4))
    >>> found.fewest, [dict(one) for one in found.operands]
    (True, [{'w': 0}, {'w': 1}])
    """
    space, terms = Space.of(design), Terms()
    if space.bits > MOST_SETS:
        raise DesignError(
            Message("fewest-examples-bits", design=design.name, count=space.bits, most=MOST_SETS)
        )
    found = faults(design) if tried is None else tuple(tried)
    masks = [m for m in compiler.masks(terms, detections(design, found, terms), space) if m]
    chosen, exact = cover(masks)
    return CoveringSet(tuple(space.decode(number) for number in chosen), len(masks), exact)


def cover(masks: Sequence[int]) -> tuple[tuple[int, ...], bool]:
    """The fewest positions such that each mask has a 1 at one of them; whether that is sure.

    Examples
    --------
    >>> cover([0b0011, 0b0110, 0b1100])
    ((1, 2), True)
    """
    needed: list[int] = []
    for mask in sorted(set(masks), key=int.bit_count):
        if not any(mask & other == other for other in needed):
            needed.append(mask)
    search = _Cover(needed)
    greedy = search.greedy()
    for size in range(len(greedy)):
        better = search.within(0, size)
        if search.steps > _TRIES:
            return greedy, False
        if better is not None:
            return tuple(sorted(better)), True
    return greedy, True


class _Cover:
    def __init__(self, needed: list[int]) -> None:
        self.needed, self.steps = needed, 0
        columns: dict[int, int] = {}
        for row, mask in enumerate(needed):
            for position in _ones(mask):
                columns[position] = columns.get(position, 0) | 1 << row
        self.columns: dict[int, int] = {}
        """Position by what it covers; of equals the lowest, none that another one outdoes."""
        for position, covers in sorted(
            columns.items(), key=lambda one: (-one[1].bit_count(), one[0])
        ):
            if not any(covers & other == covers for other in self.columns):
                self.columns[covers] = position

    def greedy(self) -> tuple[int, ...]:
        left, chosen = (1 << len(self.needed)) - 1, []
        while left:
            covers = max(self.columns, key=lambda c: (c & left).bit_count())
            chosen.append(self.columns[covers])
            left &= ~covers
        return tuple(sorted(chosen))

    def within(self, covered: int, size: int) -> list[int] | None:
        """Positions that cover what is left, at most `size`."""
        left = ((1 << len(self.needed)) - 1) & ~covered
        if not left:
            return []
        self.steps += 1
        if not size or self.steps > _TRIES:
            return None
        row = min(_ones(left), key=lambda r: self.needed[r].bit_count())
        for covers, position in self.columns.items():
            if covers >> row & 1:
                rest = self.within(covered | covers, size - 1)
                if rest is not None:
                    return [position, *rest]
        return None


def _ones(mask: int) -> list[int]:
    return [i for i in range(mask.bit_length()) if mask >> i & 1]
