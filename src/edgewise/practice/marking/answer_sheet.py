"""The answers of a class: who wrote what, in which column, for which paper."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Final

from edgewise.errors import EdgewiseError, Message, nearest, raise_all
from edgewise.practice.marking.asked import Paper, Question, Variant
from edgewise.practice.marking.table import Line, Table
from edgewise.words.messages import ENGLISH, Words

CODE: Final = "code"
LEARNER: Final = "learner"


@dataclass(frozen=True, slots=True)
class Learner:
    """One row of an answer sheet.

    Parameters
    ----------
    line : Line
    name : str
        As the teacher calls the learner.
    code : str
        Of the paper.
    variant : Variant, optional
        None where no paper has this code.
    fault : str
        Why there is none.
    """

    line: Line
    name: str
    code: str
    variant: Variant | None
    fault: str = ""


@dataclass(frozen=True)
class AnswerSheet:
    """The rows of a class with the columns in which their answers stand.

    Parameters
    ----------
    table : Table
    learners : tuple of Learner
    columns : mapping of str to int
        Where each heading of a question stands.
    """

    table: Table
    learners: tuple[Learner, ...]
    columns: dict[str, int]
    _places: dict[int, tuple[int, ...]] = field(default_factory=dict, repr=False)

    def texts(self, learner: Learner, question: Question) -> tuple[str, ...]:
        """What a learner wrote for a question, heading by heading."""
        places = self._places.get(id(question))
        if places is None:
            places = tuple([self.columns[heading] for heading in question.headings])
            self._places[id(question)] = places
        cells = learner.line.cells
        return tuple([cells[place] for place in places])


def of_table(table: Table, paper: Paper, words: Words = ENGLISH) -> AnswerSheet:
    """Find learners, papers and columns by their headings, in the paper's language or in English.

    Raises
    ------
    EdgewiseError or Problems
        A heading that is missing or there twice, rows without a learner, a learner who is there
        twice; told by their rows, never by a name.
    """
    places = _Places.of(table)
    code, name = places.found((CODE, LEARNER))
    variants: dict[str, Variant | str] = {}
    # A row with nothing but a code was prepared for somebody who did not come.
    lines = [line for line in table.lines if any(line.cells[:code]) or any(line.cells[code + 1 :])]
    learners = [_learner(line, code, name, paper, variants) for line in lines]
    _check(table, learners)
    known = [variant for variant in variants.values() if not isinstance(variant, str)]
    asked = [one for variant in known for one in variant.questions]
    titles = {
        heading: title
        for one in asked
        for heading, title in zip(one.headings, one.titles(words), strict=True)
    }
    wanted = [heading if places.has(heading) else title for heading, title in titles.items()]
    columns = dict(zip(titles, places.found(wanted), strict=True))
    return AnswerSheet(table, tuple(learners), columns)


def key(heading: str) -> str:
    """A heading without blanks and in lower case: ``Q1: s after 6`` is ``q1:Safter6`` as well.

    Examples
    --------
    >>> key(" Q1:  S after 6") == key("q1: s AFTER 6")
    True
    """
    return "".join(heading.split()).casefold()


@dataclass(frozen=True, slots=True)
class _Places:
    """Where headings stand, as they are written (blanks aside) and in lower case."""

    table: Table
    exact: dict[str, list[int]]
    lowered: dict[str, list[int]]

    @classmethod
    def of(cls, table: Table) -> _Places:
        """All headings of a table."""
        exact: dict[str, list[int]] = {}
        lowered: dict[str, list[int]] = {}
        for number, heading in enumerate(table.headings):
            exact.setdefault("".join(heading.split()), []).append(number)
            lowered.setdefault(key(heading), []).append(number)
        return cls(table, exact, lowered)

    def has(self, heading: str) -> bool:
        """Whether there is such a column."""
        return key(heading) in self.lowered

    def found(self, headings: Sequence[str]) -> list[int]:
        """The column of each heading; nets that differ in case alone are told apart."""
        columns: list[int] = []
        wrong: list[Message] = []
        for heading in headings:
            there = self.exact.get("".join(heading.split())) or self.lowered.get(key(heading), [])
            columns += there[:1]
            if not there:
                near = nearest(heading, [one for one in self.table.headings if one])
                wrong.append(Message("column-unknown", name=repr(heading), suggestion=near))
            elif len(there) > 1:
                wrong.append(Message("columns-same", name=repr(heading), count=len(there)))
        raise_all(EdgewiseError(told, self.table.place(1)) for told in wrong)
        return columns


def _learner(
    line: Line, code: int, name: int, paper: Paper, variants: dict[str, Variant | str]
) -> Learner:
    written = "".join(line.cells[code].split()).upper()
    if written not in variants:
        try:
            variants[written] = paper.variant(written)
        except EdgewiseError as wrong:
            variants[written] = wrong.message
    found = variants[written]
    told = " ".join(line.cells[name].split())
    if isinstance(found, str):
        return Learner(line, told, line.cells[code], None, found)
    return Learner(line, told, written, found)


def _check(table: Table, learners: Sequence[Learner]) -> None:
    """Each row has a learner, and no learner a second row."""
    wrong = []
    rows: dict[str, int] = {}
    for one in learners:
        number = one.line.number
        if not one.name:
            wrong.append(
                EdgewiseError(
                    Message("row-without-learner", heading=repr(LEARNER)), table.place(number)
                )
            )
        elif (first := rows.setdefault(one.name, number)) != number:
            wrong.append(
                EdgewiseError(Message("row-of-same-learner", first=first), table.place(number))
            )
    raise_all(wrong)
