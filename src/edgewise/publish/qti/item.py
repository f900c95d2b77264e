"""Items: what a question is for a course platform, whatever version of the format is written."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import Final

from edgewise.bits import Word
from edgewise.lesson.pieces import Figure
from edgewise.practice import wording
from edgewise.practice.paper import Variant
from edgewise.practice.question import (
    CellsQuestion,
    ChoiceQuestion,
    EdgesQuestion,
    OperandsQuestion,
    Question,
    ValueQuestion,
)
from edgewise.publish.lanes import without_lane
from edgewise.views.drawing.svg import svg
from edgewise.views.registry import Wish
from edgewise.words.messages import Words

MOST_ANSWERS: Final = 1024
"""Answers to one field that may be right, at most."""


@dataclass(frozen=True, slots=True)
class Blank:
    """Something to be typed in.

    Parameters
    ----------
    identifier : str
        ``R1``.
    label : str
        What it is, for who can't see where it stands: ``A after 13``.
    right : tuple of str
        Every answer that is right.
    length : int
        Characters expected.
    """

    identifier: str
    label: str
    right: tuple[str, ...]
    length: int


@dataclass(frozen=True, slots=True)
class Choice:
    """One of several options; `exact` for bits and formulas."""

    identifier: str
    text: str
    exact: bool = False


@dataclass(frozen=True, slots=True)
class Told:
    """What is told of an answer: to whom it responds, the answer, and the sentence."""

    identifier: str
    response: str
    answer: str
    text: str


Cell = str | Blank
"""A cell of a table: text, or something to be typed in."""


@dataclass(frozen=True, slots=True)
class Item:
    """One question.

    Parameters
    ----------
    identifier : str
        ``paper-M00T7-q1``; it begins with a letter, as the format asks.
    title, language, prompt : str
    marks : int
    facts : str
        The run that it is about.
    table : tuple of tuple of Cell
        Its heading first; empty for none.
    picture : tuple of (str, str)
        A figure as SVG, and what it shows; empty for none.
    blanks : tuple of Blank
        Those that are in no table.
    choices : tuple of Choice
    right : str
        The choice that is right.
    told : tuple of Told
        Of wrong answers that a misconception leads to: the thought.
    """

    identifier: str
    title: str
    language: str
    prompt: str
    marks: int
    facts: str = ""
    table: tuple[tuple[Cell, ...], ...] = ()
    picture: tuple[str, ...] = ()
    blanks: tuple[Blank, ...] = ()
    choices: tuple[Choice, ...] = ()
    right: str = ""
    told: tuple[Told, ...] = ()

    @property
    def fields(self) -> tuple[Blank, ...]:
        """All that is to be typed in."""
        inside = (cell for line in self.table for cell in line if isinstance(cell, Blank))
        return (*inside, *self.blanks)

    @property
    def each(self) -> Fraction:
        """Marks for each thing that is typed in."""
        return Fraction(self.marks, max(len(self.fields), 1))


def items(paper: Variant) -> tuple[tuple[Item, ...], tuple[str, ...]]:
    """The items of a paper, and the names of questions that no item can mark.

    A formula is marked by equivalence, several operands by running them: a platform can do
    neither.
    """
    made = {question.name: item_of(paper, question) for question in paper.questions}
    return (
        tuple(item for item in made.values() if item is not None),
        tuple(name for name, item in made.items() if item is None),
    )


def item_of(paper: Variant, question: Question) -> Item | None:
    """The item of a question, if there can be one."""
    words = paper.report.words
    body = _body(question, words)
    if body is None:
        return None
    identifier = f"paper-{paper.code}-{question.name}"
    title = f"{paper.report.lesson.front.title}: {wording.heading(question, words)}"
    return Item(
        identifier=identifier,
        title=title,
        language=words.language,
        prompt=wording.asked(question, words),
        marks=question.marks,
        facts=_facts(question),
        **body,  # type: ignore[arg-type]  # its fields, by name
    )


def _facts(question: Question) -> str:
    """The run; of operands to be chosen only what is not the answer."""
    trace = question.trace
    chosen = question.asked if isinstance(question, OperandsQuestion) else ()
    numbers = {**trace.design.parameters, **trace.operands}
    numbers = {name: value for name, value in numbers.items() if name not in chosen}
    told = [trace.design.circuit.name, *(f"{name} = {value}" for name, value in numbers.items())]
    return ", ".join(told)


def _body(question: Question, words: Words) -> dict[str, object] | None:
    match question:
        case CellsQuestion(kind="lane"):
            return _lane(question, words)
        case CellsQuestion():
            return {"table": _table(question, words)}
        case ChoiceQuestion():
            return _choices(question, words)
        case ValueQuestion() | EdgesQuestion():
            right = question.expected(question.name)
            blank = Blank("R1", words("question-answer"), (right,), len(right))
            return {"blanks": (blank,), "told": _told(question, "R1", words)}
        case OperandsQuestion(asked=(name,)):
            return _operand(question, name)
    return None


def _blanks(question: CellsQuestion, words: Words) -> dict[tuple[int, str], Blank]:
    return {
        (cell.row, cell.column): Blank(
            f"R{number}",
            cell.said(words),
            (question.expected(heading),),
            len(question.expected(heading)),
        )
        for number, (cell, heading) in enumerate(
            zip(question.cells, question.headings, strict=True), 1
        )
    }


def _table(question: CellsQuestion, words: Words) -> tuple[tuple[Cell, ...], ...]:
    blanks, trace = _blanks(question, words), question.trace
    lines: list[tuple[Cell, ...]] = [(words("table-after-edge"), *question.columns)]
    for row in question.rows:
        edge = str(row) if row else words("table-start")
        cells = (blanks.get((row, name)) or str(trace.word(name, row)) for name in question.columns)
        lines.append((edge, *cells))
    return tuple(lines)


def _lane(question: CellsQuestion, words: Words) -> dict[str, object]:
    wish = Wish(names=question.columns, rows=question.rows, words=words)
    figure = Figure(question.trace, "timing", wish, question.rows, question.columns)
    drawn = without_lane(figure.drawing(), question.cells[0].column, words)
    about = f"{drawn.title.rstrip('.')}. {drawn.description}"
    return {"picture": (svg(drawn), about), "blanks": tuple(_blanks(question, words).values())}


def _choices(question: ChoiceQuestion, words: Words) -> dict[str, object]:
    choices = tuple(
        Choice(letter, wording.option(one, words), isinstance(one.what, Word | str))
        for letter, one in question.lettered
    )
    body: dict[str, object] = {
        "choices": choices,
        "right": question.expected(question.name),
        "told": _told(question, "R1", words),
    }
    if question.kind == "fault":
        trace = question.trace
        heading = (words("table-after-edge"), *question.columns)
        body["table"] = (
            heading,
            *(
                (
                    str(row) if row else words("table-start"),
                    *(str(trace.word(name, row)) for name in question.columns),
                )
                for row in question.rows
            ),
        )
    return body


def _operand(question: OperandsQuestion, name: str) -> dict[str, object] | None:
    """A single operand: every number that is right, found by running each."""
    (operand,) = (o for o in question.design.operands if o.name == name)
    if 1 << operand.width > MOST_ANSWERS:
        return None
    (heading,) = question.headings
    numbers = [str(number) for number in operand.numbers]
    right = tuple(number for number in numbers if question.right({heading: number}))
    return {"blanks": (Blank("R1", name, right, max(map(len, numbers))),)}


def _told(question: Question, response: str, words: Words) -> tuple[Told, ...]:
    """The thought behind each wrong answer; where two lead to the same, the first."""
    seen: dict[str, Told] = {}
    for idea, answer in question.wrong:
        seen.setdefault(answer, Told(idea, response, answer, wording.thought(idea, words)))
    return tuple(seen.values())
