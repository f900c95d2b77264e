"""A whole class marked: scores, diagnoses, and how each cell was read."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TypeAlias

from edgewise.practice.marking.answer_sheet import AnswerSheet, Learner
from edgewise.practice.marking.asked import Question
from edgewise.practice.marking.batch import Batch, counted
from edgewise.practice.marking.diagnosis import Answered, Diagnosis, diagnosed
from edgewise.practice.marking.reading import Reading, Way, read
from edgewise.practice.marking.score import Score
from edgewise.practice.table_question import Cell

_Key: TypeAlias = tuple[str, int, str, tuple[tuple[str, int], ...], tuple[Cell, ...]]
"""Question, marks, design with its parameters, and cells: what learners must share."""


@dataclass(frozen=True)
class Cells:
    """The answers of many learners to one question that asks for the same cells.

    Parameters
    ----------
    name : str
        Of the question.
    marks : int
    answered : Answered
    readings : tuple of tuple of Reading
        For each cell, that of each learner.
    """

    name: str
    marks: int
    answered: Answered
    readings: tuple[tuple[Reading, ...], ...]

    def scores(self) -> dict[int, Score]:
        """By number of the learner."""
        batch, size = self.answered.batch, self.answered.batch.size
        right = counted(batch.right, size)
        either = [r | f for r, f in zip(batch.right, batch.followed, strict=True)]
        followed, given = counted(either, size), counted(batch.given, size)
        asked = len(batch.cells)
        scores = {}
        for place, learner in enumerate(self.answered.learners):
            blank = 0
            if given[place] < asked:
                blank = sum(column[place].way is Way.BLANK for column in self.readings)
            unread = asked - given[place] - blank
            scores[learner] = Score(
                self.name, self.marks, asked, right[place], followed[place], blank, unread
            )
        return scores


@dataclass(frozen=True, slots=True)
class Result:
    """What a learner is told.

    Parameters
    ----------
    learner : Learner
    scores : tuple of Score
        Question by question; none where no paper has the learner's code.
    diagnosis : Diagnosis, optional
        None where nothing was asked that could tell.
    """

    learner: Learner
    scores: tuple[Score, ...]
    diagnosis: Diagnosis | None


@dataclass(frozen=True)
class ClassMarks:
    """A class, marked.

    Parameters
    ----------
    results : tuple of Result
        In the order of the answer sheet.
    cells : tuple of Cells
        The questions that ask for cells.
    """

    results: tuple[Result, ...]
    cells: tuple[Cells, ...]


def mark(sheet: AnswerSheet) -> ClassMarks:
    """Mark all answers of a class."""
    groups: dict[_Key, list[tuple[int, Question]]] = {}
    names: dict[str, None] = {}
    for number, learner in enumerate(sheet.learners):
        for question in learner.variant.questions if learner.variant else ():
            names[question.name] = None
            asked = question.cells_asked
            if asked is not None:
                design = asked.trace.design
                sizes = tuple(design.parameters.items())
                key = (question.name, question.marks, design.name, sizes, asked.cells)
                groups.setdefault(key, []).append((number, question))
    cells = tuple(_cells(sheet, members) for members in groups.values())
    scores: dict[str, dict[int, Score]] = {}
    for one in cells:
        scores.setdefault(one.name, {}).update(one.scores())
    diagnoses = diagnosed([one.answered for one in cells], len(sheet.learners))
    results = tuple(
        Result(
            learner,
            tuple(scores[name][number] for name in names if number in scores.get(name, ())),
            diagnoses[number] if learner.variant else None,
        )
        for number, learner in enumerate(sheet.learners)
    )
    return ClassMarks(results, cells)


def _cells(sheet: AnswerSheet, members: Sequence[tuple[int, Question]]) -> Cells:
    asked = [question.cells_asked for _, question in members]
    (first, *_), operands = asked, [one.trace.operands for one in asked if one is not None]
    assert first is not None
    design, cells = first.trace.design, first.cells
    widths = [len(design.netlist.find(cell.column)) for cell in cells]
    texts = [sheet.texts(sheet.learners[number], question) for number, question in members]
    readings = tuple(
        _column([row[place] for row in texts], width) for place, width in enumerate(widths)
    )
    readings = _in_their_manner(readings, widths)
    answers = tuple(
        tuple([reading.digits or "." * width for reading in column])
        for column, width in zip(readings, widths, strict=True)
    )
    batch = Batch(design, cells, tuple(operands), answers)
    answered = Answered(batch, tuple(number for number, _ in members))
    return Cells(first.name, first.marks, answered, readings)


def _column(texts: Sequence[str], width: int) -> tuple[Reading, ...]:
    known = {text: read(text, width) for text in set(texts)}
    return tuple([known[text] for text in texts])


def _in_their_manner(
    readings: tuple[tuple[Reading, ...], ...], widths: Sequence[int]
) -> tuple[tuple[Reading, ...], ...]:
    """Bits that could be a decimal number are one for whoever writes words in decimal.

    That is who wrote one in decimal beyond doubt, and none in all its bits.
    """
    open_to = {place for column in readings for place, one in enumerate(column) if one.other}
    if not open_to:
        return readings
    wide = [c for c, width in zip(readings, widths, strict=True) if width > 2]
    decimal = {
        place
        for place in open_to
        if any(column[place].way is Way.DECIMAL for column in wide)
        and not any(column[place].way is Way.BITS for column in wide)
    }
    return tuple(
        tuple([one.in_decimal() if place in decimal else one for place, one in enumerate(column)])
        for column in readings
    )
