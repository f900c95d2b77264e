"""What a paper shows beside what it asks, so that no answer can be copied from it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from edgewise.errors import EdgewiseError, Message
from edgewise.formula import Name, parse
from edgewise.lesson.pieces import EdgeTable, Figure, Stage
from edgewise.lesson.question import Asked
from edgewise.lesson.report import Report
from edgewise.practice.question import CellsQuestion, ChoiceQuestion, Question, ValueQuestion
from edgewise.practice.table_question import Cell
from edgewise.practice.task import Refused
from edgewise.study.claims.run import Run
from edgewise.study.claims.scope import Scope, times
from edgewise.trace import Trace


@dataclass(frozen=True, slots=True)
class Shown:
    """Words that stand somewhere in a paper.

    Parameters
    ----------
    where : str
        ``question``, ``options``, ``table``, ``diagram``, ``figure``, ``stage`` or ``text``.
    trace : Trace
        The run that they are of.
    cells : tuple of Cell
    """

    where: str
    trace: Trace
    cells: tuple[Cell, ...]
    question: str = ""
    """Whose it is, if it is one's."""


def copied(report: Report, asked: Sequence[Asked]) -> Iterator[Refused]:
    """An error for each question of which an answer stands elsewhere in the paper."""
    shown = [*_of_lesson(report), *(one for piece in asked for one in _of_question(piece.question))]
    for piece in asked:
        question = piece.question
        for cell in _answers(question):
            other = next((one for one in shown if _tells(one, question, cell)), None)
            if other is not None:
                beside = (other.where, other.question) == ("question", question.name)
                told = Message(
                    "answer-given",
                    word=str(cell),
                    where="beside" if beside else other.where,
                    question=other.question,
                )
                yield piece.task.refused(told)
                break


def _answers(question: Question) -> tuple[Cell, ...]:
    match question:
        case CellsQuestion(cells=cells):
            return cells
        case ValueQuestion(cell=cell) | ChoiceQuestion(kind="choice", cell=Cell() as cell):
            return (cell,)
    return ()


def _of_question(question: Question) -> Iterator[Shown]:
    """What a question tells of its run: the cells that are not open, the options."""
    match question:
        case CellsQuestion():
            every = (Cell(row, name) for row in question.rows for name in question.columns)
            cells = tuple(cell for cell in every if cell not in question.cells)
            yield Shown("question", question.trace, cells, question.name)
        case ChoiceQuestion(kind="choice", cell=Cell() as cell):
            yield Shown("options", question.trace, (cell,), question.name)


def _of_lesson(report: Report) -> Iterator[Shown]:
    """What the text, its tables and its figures tell of the paper's run."""
    trace = report.trace
    for piece in report.pieces.values():
        match piece:
            case EdgeTable(rows=rows, columns=columns):
                cells = (Cell(row, name) for row in rows for name in columns)
                yield Shown("table", piece.trace, tuple(cells))
            case Figure(kind="diagram", rows=rows):
                nets = trace.design.netlist.top_names
                cells = (Cell(row, name) for row in rows for name in nets)
                yield Shown("diagram", piece.trace, tuple(cells))
            case Figure(rows=rows, names=names):
                cells = (Cell(row, name) for row in rows for name in names)
                yield Shown("figure", piece.trace, tuple(cells))
            case Stage():
                nets = trace.design.netlist.top_names
                cells = (Cell(row, name) for row in range(trace.edges + 1) for name in nets)
                yield Shown("stage", trace, tuple(cells))
    yield Shown("text", trace, tuple(_of_text(report)))


def _of_text(report: Report) -> Iterator[Cell]:
    scope = Scope(Run(report.trace.design, report.trace.operands))
    for value in report.lesson.values:
        for timed in times(parse(value.formula)):
            if isinstance(timed.what, Name):
                try:
                    yield Cell(scope.row_of(timed), scope.net_name(timed.what))
                except EdgewiseError:
                    continue  # no net: a number that stays as it is


def _tells(one: Shown, question: Question, cell: Cell) -> bool:
    """Whether every bit of a cell stands there."""
    same_run = dict(one.trace.operands) == dict(question.trace.operands)
    if not same_run or (one.where, one.question) == ("options", question.name):
        return False
    find = question.trace.design.netlist.find
    told = {net for shown in one.cells if shown.row == cell.row for net in find(shown.column)}
    return set(find(cell.column)) <= told
