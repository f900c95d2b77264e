"""A question that asks for cells of an edge table: what is asked, and what is right."""

from __future__ import annotations

from dataclasses import dataclass

from edgewise.bits import Word
from edgewise.trace import Trace
from edgewise.words.messages import Words


@dataclass(frozen=True, slots=True)
class Cell:
    """One cell of an edge table.

    Parameters
    ----------
    row : int
        After which edge, 0 being the start.
    column : str
        A net, port, word, bit or slice, as :meth:`edgewise.trace.Trace.word` reads it.
    """

    row: int
    column: str

    def __str__(self) -> str:
        """As a heading of an answer sheet has it: ``S after 6``."""
        return f"{self.column} after {self.row}"

    def said(self, words: Words) -> str:
        """The same in a language.

        Examples
        --------
        >>> from edgewise.words import messages
        >>> Cell(6, "S").said(messages.of("de"))
        'S nach 6'
        """
        return words("question-cell", what=self.column, edge=self.row)


@dataclass(frozen=True, slots=True)
class TableQuestion:
    """The cells of a run that a learner fills in.

    Parameters
    ----------
    name : str
        Ours in a paper: ``q3``.
    trace : Trace
        The true run.
    cells : tuple of Cell
        In the order asked: row by row, a row's columns from left to right.
    marks : int
        For all cells right.

    Examples
    --------
    >>> from edgewise import catalogue, run
    >>> trace = run(catalogue.design("serial-adder", n=4), a=5, b=6)
    >>> question = TableQuestion("q1", trace, (Cell(8, "S"), Cell(8, "C")), marks=2)
    >>> [f"{cell}: {question.expected(cell)}" for cell in question.cells]
    ['S after 8: 1011', 'C after 8: 0']
    """

    name: str
    trace: Trace
    cells: tuple[Cell, ...]
    marks: int

    def expected(self, cell: Cell) -> Word:
        """What stands in a cell of the true run."""
        return self.trace.word(cell.column, cell.row)
