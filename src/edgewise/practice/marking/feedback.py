"""What a learner is told of each cell: what they wrote, what is right, what follows from their own.

Facts only; `edgewise.publish.marking` says them.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum

from edgewise.practice.marking import batch as batches
from edgewise.practice.marking.class_marks import Cells, ClassMarks
from edgewise.practice.marking.reading import Reading, Way
from edgewise.practice.table_question import Cell
from edgewise.words.messages import ENGLISH, Words


class Verdict(StrEnum):
    """What becomes of one answer."""

    RIGHT = "right"
    FOLLOWS = "follows"
    """Wrong, but what the learner's own rows lead to."""
    WRONG = "wrong"
    BLANK = "blank"
    UNREAD = "unread"


@dataclass(frozen=True, slots=True)
class Told:
    """One cell of one learner.

    Parameters
    ----------
    cell : Cell
    reading : Reading
    right : str
        What stands there, MSB left.
    follows : str
        What follows from the learner's own rows.
    verdict : Verdict
    """

    cell: Cell
    reading: Reading
    right: str
    follows: str
    verdict: Verdict


def told(cells: Cells, place: int) -> tuple[Told, ...]:
    """The cells of one learner of a question, `place` being theirs in its batch."""
    batch = cells.answered.batch
    found = []
    for number, cell in enumerate(batch.cells):
        reading, own = cells.readings[number][place], batch.own[number]
        right = batches.words(batch.true[number], place)
        follows = batches.words(own, place) if own is not None else right
        found.append(Told(cell, reading, right, follows, _verdict(reading, right, follows)))
    return tuple(found)


def _verdict(reading: Reading, right: str, follows: str) -> Verdict:
    if reading.word is None:
        return Verdict.BLANK if reading.way is Way.BLANK else Verdict.UNREAD
    if reading.digits == right:
        return Verdict.RIGHT
    return Verdict.FOLLOWS if reading.digits == follows else Verdict.WRONG


def began(cells: Sequence[Told]) -> Told | None:
    """Where the error began: the first wrong cell that does not follow from those before it."""
    return next((one for one in cells if one.verdict is Verdict.WRONG), None)


@dataclass(frozen=True, slots=True)
class Doubt:
    """An answer whose reading is to be looked at.

    Parameters
    ----------
    number : int
        Of the learner.
    heading : str
    reading : Reading
    """

    number: int
    heading: str
    reading: Reading


def doubts(marked: ClassMarks, words: Words = ENGLISH) -> tuple[Doubt, ...]:
    """Every answer that may have been meant otherwise, and every one that can't be read."""
    found = []
    for one in marked.cells:
        for cell, column in zip(one.answered.batch.cells, one.readings, strict=True):
            known = {id(one): one for one in column}.values()  # many are the same object
            doubtful = {r for r in known if r.doubtful or (not r.word and r.way != Way.BLANK)}
            if doubtful:
                heading = f"{one.name}: {cell.said(words)}"
                found += [
                    Doubt(learner, heading, reading)
                    for learner, reading in zip(one.answered.learners, column, strict=True)
                    if reading in doubtful
                ]
    for (learner, _), answer in marked.wholes.items():
        found += [Doubt(learner, heading, reading) for heading, reading in answer.doubts]
    return tuple(sorted(found, key=lambda doubt: doubt.number))
