"""A question as it stands in one paper: what is asked of a learner, and what is right."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, ClassVar, Final, Literal, TypeAlias

from edgewise.arithmetic import Numbers, evaluate_at, number
from edgewise.bits import Word
from edgewise.design import Design
from edgewise.errors import EdgewiseError, Message
from edgewise.formula import parse
from edgewise.practice.difficulty import Level
from edgewise.practice.table_question import Cell, TableQuestion
from edgewise.trace import Trace
from edgewise.words.messages import Words

if TYPE_CHECKING:
    from edgewise.study.faults.fault import Fault
    from edgewise.study.operands.requirements import Wish

Kind: TypeAlias = Literal[
    "next-rows",
    "cells",
    "lane",
    "value",
    "edges",
    "choice",
    "false-statement",
    "fault",
    "operands",
    "formula",
]
"""What is asked."""
LETTERS: Final = "abcd"
"""Of the options that one is chosen from."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Question:
    """A question of one paper.

    Parameters
    ----------
    name : str
        ``q1``, in the order of the paper.
    kind : str
        One of `Kind`.
    marks : int
        For all of it right.
    trace : Trace
        The run that it is about.
    own : bool
        Whether that run has other operands than the paper's.
    level : Level
        How hard it is, computed.
    tells : tuple of str
        Misconceptions that give a wrong answer here.
    wording, hint : str
        The author's own; empty for ours, or for none.
    """

    name: str
    kind: Kind
    marks: int
    trace: Trace
    level: Level
    own: bool = False
    tells: tuple[str, ...] = ()
    wording: str = ""
    hint: str = ""

    reads: ClassVar[str] = ""
    """How an answer is read: ``cells``, ``word``, ``number``, ``letter``, ``operand``,
    ``formula``."""

    @property
    def cells_asked(self) -> TableQuestion | None:
        """The cells to fill in, where that is what is asked."""
        return None

    @property
    def headings(self) -> tuple[str, ...]:
        """The columns of an answer sheet that it takes."""
        return (self.name,)

    def titles(self, words: Words) -> tuple[str, ...]:  # noqa: ARG002  # a name alone needs none
        """These headings in a language."""
        return self.headings

    def expected(self, heading: str) -> str:
        """A right answer, as a learner would write it in this column."""
        raise NotImplementedError(heading)

    def right(self, answers: Mapping[str, str]) -> bool:
        """Whether answers, by heading and written as `expected` writes them, are right.

        Raises
        ------
        EdgewiseError
            An answer that can't be read.
        """
        return all(
            answers.get(heading, "").strip() == self.expected(heading) for heading in self.headings
        )

    @property
    def wrong(self) -> tuple[tuple[str, str], ...]:
        """What some misconceptions answer: the name of each, and its answer as text."""
        return ()


@dataclass(frozen=True, slots=True, kw_only=True)
class CellsQuestion(Question):
    """Cells of an edge table, or of a lane of the timing diagram, to be filled in.

    Parameters
    ----------
    rows : tuple of int
        Shown, the open ones too.
    columns : tuple of str
        Shown.
    cells : tuple of Cell
        To be filled in.
    """

    rows: tuple[int, ...]
    columns: tuple[str, ...]
    cells: tuple[Cell, ...]

    reads: ClassVar[str] = "cells"

    @property
    def cells_asked(self) -> TableQuestion:
        """The cells to fill in."""
        return TableQuestion(self.name, self.trace, self.cells, self.marks)

    @property
    def headings(self) -> tuple[str, ...]:
        """One for each cell: ``q1: S after 6``."""
        return tuple(f"{self.name}: {cell}" for cell in self.cells)

    def titles(self, words: Words) -> tuple[str, ...]:
        """The same in a language: ``q1: S nach 6``."""
        return tuple(f"{self.name}: {cell.said(words)}" for cell in self.cells)

    def expected(self, heading: str) -> str:
        """What stands in the cell."""
        cell = self.cells[_at(heading, self.headings)]
        return str(self.trace.word(cell.column, cell.row))


@dataclass(frozen=True, slots=True, kw_only=True)
class ValueQuestion(Question):
    """One word after one edge.

    Parameters
    ----------
    cell : Cell
    believed : tuple of (str, Word)
        What each misconception that `tells` names gives.
    """

    cell: Cell
    believed: tuple[tuple[str, Word], ...] = ()

    reads: ClassVar[str] = "word"

    def expected(self, heading: str) -> str:
        """The word, MSB left."""
        _at(heading, self.headings)
        return str(self.trace.word(self.cell.column, self.cell.row))

    @property
    def wrong(self) -> tuple[tuple[str, str], ...]:
        """What each misconception gives."""
        return tuple((name, str(word)) for name, word in self.believed)


@dataclass(frozen=True, slots=True, kw_only=True)
class EdgesQuestion(Question):
    """How many clock edges a design takes.

    Parameters
    ----------
    numbers : mapping of str to int
        The parameters that it is asked for.
    answer : int
    believed : tuple of (str, int)
        What each misconception that `tells` names gives.
    """

    numbers: Mapping[str, int]
    answer: int
    believed: tuple[tuple[str, int], ...] = ()

    reads: ClassVar[str] = "number"

    def expected(self, heading: str) -> str:
        """The number, in decimal."""
        _at(heading, self.headings)
        return str(self.answer)

    @property
    def wrong(self) -> tuple[tuple[str, str], ...]:
        """What each misconception gives."""
        return tuple((name, str(edges)) for name, edges in self.believed)


@dataclass(frozen=True, slots=True)
class Option:
    """One of several things to choose from.

    Parameters
    ----------
    what : Word, str or Fault
        A value, the text of a statement, or what may be wrong with a circuit.
    right : bool
        Whether it is the one to choose.
    idea : str
        The misconception that leads to it, if one does.
    """

    what: Word | str | Fault
    right: bool = False
    idea: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class ChoiceQuestion(Question):
    """One of four to be chosen: a value, the false statement, or the fault behind a table.

    Parameters
    ----------
    options : tuple of Option
        In the order shown; ``a`` is the first.
    cell : Cell, optional
        Where the value stands.
    rows, columns
        Of the table shown, the one of the broken circuit, whose run is `trace`.
    sound : Trace, optional
        The run without the fault.
    """

    options: tuple[Option, ...]
    cell: Cell | None = None
    rows: tuple[int, ...] = ()
    columns: tuple[str, ...] = ()
    sound: Trace | None = None

    reads: ClassVar[str] = "letter"

    def expected(self, heading: str) -> str:
        """The letter."""
        _at(heading, self.headings)
        return next(letter for letter, one in self.lettered if one.right)

    def right(self, answers: Mapping[str, str]) -> bool:
        """Whether it is the letter, in upper or lower case."""
        return answers.get(self.name, "").strip().lower() == self.expected(self.name)

    @property
    def lettered(self) -> tuple[tuple[str, Option], ...]:
        """Each option with its letter."""
        return tuple(zip(LETTERS, self.options, strict=False))

    @property
    def wrong(self) -> tuple[tuple[str, str], ...]:
        """The letter that each misconception leads to."""
        return tuple((one.idea, letter) for letter, one in self.lettered if one.idea)


@dataclass(frozen=True, slots=True, kw_only=True)
class OperandsQuestion(Question):
    """Operands to be chosen so that something is seen; an answer is marked by running it.

    Parameters
    ----------
    design : Design
    wish : Wish
        What they are to show; operands that are given are fixed in it.
    example : mapping of str to int
        Operands that do.
    """

    design: Design
    wish: Wish
    example: Mapping[str, int]

    reads: ClassVar[str] = "operand"

    @property
    def headings(self) -> tuple[str, ...]:
        """One for each operand that is not given: ``q5: b``."""
        return tuple(f"{self.name}: {name}" for name in self.asked)

    @property
    def asked(self) -> tuple[str, ...]:
        """The operands that are not given."""
        return tuple(o.name for o in self.design.operands if o.name not in self.wish.fixed)

    def expected(self, heading: str) -> str:
        """The example's operand; others may be as right."""
        return str(self.example[self.asked[_at(heading, self.headings)]])

    def right(self, answers: Mapping[str, str]) -> bool:
        """Whether a run with these operands shows it."""
        from edgewise.study.operands.requirements import fulfilled

        chosen = {
            name: _whole(answers.get(heading, ""), heading)
            for name, heading in zip(self.asked, self.headings, strict=True)
        }
        values = self.design.values({**self.wish.fixed, **chosen})
        return fulfilled(self.design, self.wish, values)


@dataclass(frozen=True, slots=True, kw_only=True)
class FormulaQuestion(Question):
    """A formula for a count; one that gives the same over the whole range is as right.

    Parameters
    ----------
    quantity : str
        ``edges``.
    formula : str
    over : tuple of (str, int, int)
        Each parameter with the ends of its range.
    counts : sequence of (tuple of int, int)
        Parameters, in the order of `over`, and the count.
    fixed : mapping of str to int
        The other parameters.
    believed : tuple of (str, str)
        What each misconception that `tells` names gives, as a formula.
    """

    quantity: str
    formula: str
    over: tuple[tuple[str, int, int], ...]
    counts: Sequence[tuple[tuple[int, ...], int]]
    fixed: Mapping[str, int]
    believed: tuple[tuple[str, str], ...] = ()

    reads: ClassVar[str] = "formula"

    def expected(self, heading: str) -> str:
        """The formula, as the law has it."""
        _at(heading, self.headings)
        return self.formula

    def right(self, answers: Mapping[str, str]) -> bool:
        """Whether a formula gives each count of the range, however it is written."""
        node = parse(answers.get(self.name, "").strip())
        names = [name for name, _, _ in self.over]
        return all(
            number(
                evaluate_at(
                    node, Numbers({**self.fixed, **dict(zip(names, at, strict=True))}), None
                )
            )
            == count
            for at, count in self.counts
        )

    @property
    def wrong(self) -> tuple[tuple[str, str], ...]:
        """What each misconception gives."""
        return self.believed


def _at(heading: str, headings: tuple[str, ...]) -> int:
    if heading not in headings:
        raise EdgewiseError(Message("heading-unknown", name=heading, names=", ".join(headings)))
    return headings.index(heading)


def _whole(text: str, heading: str) -> int:
    told = text.strip()
    if not (told.isascii() and told.isdecimal() and len(told) <= 20):
        raise EdgewiseError(Message("number-expected", name=heading, found=repr(told[:40])))
    return int(told)
