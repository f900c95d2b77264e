"""What many learners wrote in the same cells of one design, compared side by side.

Bit i of a mask belongs to learner i of the batch.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import Final, TypeAlias

from edgewise.design import Design
from edgewise.engines import dual_rail
from edgewise.engines.dual_rail import Rails
from edgewise.practice.marking.beliefs import Belief, truth
from edgewise.practice.table_question import Cell

Mask: TypeAlias = int
"""Learners."""
_MAY_BE_1: Final = str.maketrans("01X.", "0110")
_MAY_BE_0: Final = str.maketrans("01X.", "1010")


@dataclass(frozen=True)
class Batch:
    """Learners who were asked for the same cells, their operands being their own.

    Parameters
    ----------
    design : Design
    cells : tuple of Cell
    operands : tuple of mapping of str to int
        Of each learner.
    answers : tuple of tuple of str
        For each cell what each learner wrote: its bits, MSB left, or as many ``.`` where nothing
        can be read.

    Examples
    --------
    >>> from edgewise import catalogue
    >>> design = catalogue.design("serial-adder", n=2)
    >>> cells = (Cell(3, "C"), Cell(4, "S"))
    >>> batch = Batch(design, cells, ({"a": 1, "b": 1},) * 3, (("1", "0", "0"), ("10", "00", "10")))
    >>> batch.right, batch.followed
    ((1, 5), (1, 3))
    """

    design: Design
    cells: tuple[Cell, ...]
    operands: tuple[Mapping[str, int], ...]
    answers: tuple[tuple[str, ...], ...]

    @property
    def size(self) -> int:
        """How many learners there are."""
        return len(self.operands)

    @cached_property
    def lanes(self) -> Mapping[str, Sequence[int]]:
        """The bits of each operand, LSB first."""
        return {
            one.name: dual_rail.planes([one.pattern(of[one.name]) for of in self.operands])
            for one in self.design.operands
        }

    @cached_property
    def written(self) -> tuple[tuple[Rails, ...], ...]:
        """The bits of each cell, LSB first, as they were written."""
        return tuple(_packed(answers) for answers in self.answers)

    @cached_property
    def given(self) -> tuple[Mask, ...]:
        """For each cell, who wrote something that can be read."""
        return tuple(one | zero for (one, zero), *_ in self.written)

    def seen(self, belief: Belief, *, own: bool) -> tuple[tuple[Rails, ...] | None, ...]:
        """The bits of each cell as a believer has them, or None where they have no such cell.

        Parameters
        ----------
        belief : Belief
        own : bool
            Whether each row follows from what the learner wrote before it; else from the start.
        """
        at: dict[int, list[tuple[int, tuple[int, ...]]]] = {}
        over: dict[int, dict[int, Rails]] = {}
        for number, (cell, bits) in enumerate(zip(self.cells, self.written, strict=True)):
            nets = belief.nets(cell)
            if nets is not None:
                at.setdefault(cell.row, []).append((number, nets))
                if own:
                    over.setdefault(cell.row, {}).update(zip(nets, bits, strict=True))
        found: list[tuple[Rails, ...] | None] = [None] * len(self.cells)
        rows = dual_rail.rows(belief.design, self.lanes, self.size, over, last=max(at, default=0))
        for number, row in enumerate(rows):
            for cell_number, nets in at.get(number, ()):
                found[cell_number] = tuple(
                    [row.followed.get(net) or row.values[net] for net in nets]
                )
        return tuple(found)

    def agreeing(self, seen: Iterable[tuple[Rails, ...] | None]) -> tuple[Mask, ...]:
        """For each cell, who wrote just that; where a believer has no such cell, what is right."""
        return tuple(
            [
                right if bits is None else _alike(written, bits, given)
                for written, bits, given, right in zip(
                    self.written, seen, self.given, self.right, strict=True
                )
            ]
        )

    @cached_property
    def true(self) -> tuple[tuple[Rails, ...], ...]:
        """The bits of each cell as they are."""
        found = self.seen(truth(self.design), own=False)
        return tuple(bits for bits in found if bits is not None)

    @cached_property
    def right(self) -> tuple[Mask, ...]:
        """For each cell, who has it right."""
        compared = zip(self.written, self.true, self.given, strict=True)
        return tuple([_alike(written, true, given) for written, true, given in compared])

    @cached_property
    def own(self) -> tuple[tuple[Rails, ...] | None, ...]:
        """The bits of each cell as they follow from the learner's own rows."""
        return self.seen(truth(self.design), own=True)

    @cached_property
    def followed(self) -> tuple[Mask, ...]:
        """For each cell, whose answer follows from their own rows."""
        return self.agreeing(self.own)

    def explained(self, belief: Belief) -> tuple[Mask, ...]:
        """For each cell, whose answer a belief explains, from the start or from their own rows."""
        plain = self.agreeing(self.seen(belief, own=False))
        own = self.agreeing(self.seen(belief, own=True))
        return tuple([one | other for one, other in zip(plain, own, strict=True)])

    def of(self, learners: Sequence[int]) -> Batch:
        """Some of the learners."""
        return Batch(
            self.design,
            self.cells,
            tuple([self.operands[i] for i in learners]),
            tuple([tuple([answers[i] for i in learners]) for answers in self.answers]),
        )


def _packed(answers: Sequence[str]) -> tuple[Rails, ...]:
    width = len(answers[0]) if answers else 0
    joined = "".join(reversed(answers))
    ones, zeros = joined.translate(_MAY_BE_1), joined.translate(_MAY_BE_0)
    return tuple(
        (int(ones[width - 1 - i :: width], 2), int(zeros[width - 1 - i :: width], 2))
        for i in range(width)
    )


def _alike(written: Sequence[Rails], seen: Sequence[Rails], given: Mask) -> Mask:
    for (one, zero), (other_one, other_zero) in zip(written, seen, strict=True):
        given &= ~(one ^ other_one | zero ^ other_zero)
    return given


def counted(masks: Iterable[Mask], learners: int) -> list[int]:
    """In how many masks each learner is.

    Examples
    --------
    >>> counted([0b01, 0b11, 0b01], 2)
    [3, 1]
    """
    planes: list[int] = []
    for mask in masks:
        carry, place = mask, 0
        while carry:
            if place == len(planes):
                planes.append(0)
            planes[place], carry = planes[place] ^ carry, planes[place] & carry
            place += 1
    if len(planes) > 8:
        digits = [f"{plane:0{learners}b}" for plane in reversed(planes)]
        return [int("".join(bits), 2) for bits in zip(*digits, strict=True)][::-1]
    # A byte for each learner: the digits "0" and "1" differ in their last bit.
    lowest, total = int.from_bytes(b"\x01" * learners, "big"), 0
    for place, plane in enumerate(planes):
        total |= (int.from_bytes(f"{plane:0{learners}b}".encode(), "big") & lowest) << place
    return list(total.to_bytes(learners, "little"))


def words(bits: Sequence[Rails], learner: int) -> str:
    """The word that a learner has there, MSB left."""
    return "".join(
        "X" if one >> learner & zero >> learner & 1 else str(one >> learner & 1)
        for one, zero in reversed(bits)
    )
