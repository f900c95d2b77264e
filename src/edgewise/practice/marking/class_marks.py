"""A whole class marked: scores, diagnoses, and how each cell was read."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import TypeAlias

from edgewise.practice.marking import shares, whole_answer
from edgewise.practice.marking.answer_sheet import AnswerSheet, Learner
from edgewise.practice.marking.asked import Question
from edgewise.practice.marking.batch import Batch, counted
from edgewise.practice.marking.diagnosis import Diagnosis, of_readable
from edgewise.practice.marking.evidence import Answered, Whole
from edgewise.practice.marking.reading import Reading, Way, read
from edgewise.practice.marking.score import Score
from edgewise.practice.marking.whole_answer import WholeAnswer
from edgewise.practice.table_question import Cell, TableQuestion
from edgewise.study.cost.sweep import Here, Progress, Workplace

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
    wholes : mapping of (int, str) to WholeAnswer
        The other answers, by learner and question.
    """

    results: tuple[Result, ...]
    cells: tuple[Cells, ...]
    wholes: Mapping[tuple[int, str], WholeAnswer] = field(default_factory=dict)


def mark(
    sheet: AnswerSheet, place: Workplace = Here, progress: Progress | None = None
) -> ClassMarks:
    """Mark all answers of a class.

    Parameters
    ----------
    sheet : AnswerSheet
    place : Workplace
        Where diagnoses are made; every place gives the same.
    progress : function, optional
        Is told how many shares of the class are diagnosed, and how many there are.
    """
    groups: dict[_Key, list[tuple[int, Question]]] = {}
    scores: list[dict[str, Score]] = [{} for _ in sheet.learners]
    wholes: dict[tuple[int, str], WholeAnswer] = {}
    known: dict[tuple[int, tuple[str, ...]], WholeAnswer] = {}
    for number, learner in enumerate(sheet.learners):
        for question in learner.variant.questions if learner.variant else ():
            asked = question.cells_asked
            if asked is not None:
                groups.setdefault(_key(question, asked), []).append((number, question))
                continue
            texts = sheet.texts(learner, question)
            answer = known.get((id(question), texts))
            if answer is None:
                answer = known[id(question), texts] = whole_answer.answered(question, texts)
            wholes[number, question.name] = answer
            scores[number][question.name] = answer.score(question)
    cells = tuple(_cells(sheet, members) for members in groups.values())
    for one in cells:
        for number, score in one.scores().items():
            scores[number][one.name] = score
    answered = [one.answered for one in cells]
    diagnoses = shares.of_class(answered, len(sheet.learners), _wholes(wholes), place, progress)
    results = zip(sheet.learners, scores, diagnoses, strict=True)
    return ClassMarks(tuple([_result(*one) for one in results]), cells, wholes)


def _key(question: Question, asked: TableQuestion) -> _Key:
    design = asked.trace.design
    sizes = tuple(design.parameters.items())
    return (question.name, question.marks, design.name, sizes, asked.cells)


def _wholes(answers: Mapping[tuple[int, str], WholeAnswer]) -> list[Whole]:
    return [
        Whole(number, answer.right, answer.gives, answer.tells)
        for (number, _), answer in answers.items()
        if answer.readable
    ]


def _result(learner: Learner, scores: Mapping[str, Score], diagnosis: Diagnosis) -> Result:
    if learner.variant is None:
        return Result(learner, (), None)
    told = tuple([scores[q.name] for q in learner.variant.questions])
    return Result(learner, told, of_readable(diagnosis, sum([one.unread for one in told])))


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
    answers = tuple(_digits(column, width) for column, width in zip(readings, widths, strict=True))
    batch = Batch(design, cells, tuple(operands), answers)
    answered = Answered(batch, tuple(number for number, _ in members))
    return Cells(first.name, first.marks, answered, readings)


def _digits(column: Sequence[Reading], width: int) -> tuple[str, ...]:
    """The bits of each reading, or dots; what is the same object is written out once."""
    known = {id(one): one for one in column}
    digits = {number: one.digits or "." * width for number, one in known.items()}
    return tuple([digits[id(one)] for one in column])


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
