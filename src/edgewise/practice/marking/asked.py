"""What marking asks of a paper: its variants, their questions, and what is right."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Protocol

from edgewise.practice.table_question import TableQuestion
from edgewise.words.messages import Words


class Question(Protocol):
    """One question of one variant."""

    @property
    def name(self) -> str:
        """Ours in a paper: ``q1``."""
        ...

    @property
    def marks(self) -> int:
        """For all of it right."""
        ...

    @property
    def reads(self) -> str:
        """How an answer is read: cells, word, number, letter, operand or formula."""
        ...

    @property
    def headings(self) -> tuple[str, ...]:
        """The columns of an answer sheet that it takes."""
        ...

    def titles(self, words: Words) -> tuple[str, ...]:
        """These columns in a language."""
        ...

    @property
    def cells_asked(self) -> TableQuestion | None:
        """The cells to fill in, where that is what is asked."""
        ...

    @property
    def wrong(self) -> tuple[tuple[str, str], ...]:
        """What some misconceptions answer: the name of each, and its answer as text."""
        ...

    def expected(self, heading: str) -> str:
        """A right answer, as a learner would write it in this column."""
        ...

    def right(self, answers: Mapping[str, str]) -> bool:
        """Whether answers, by heading and written as `expected` writes them, are right."""
        ...


class Variant(Protocol):
    """One paper as a learner gets it."""

    @property
    def questions(self) -> Sequence[Question]:
        """In the order asked."""
        ...


class Paper(Protocol):
    """A paper with all its variants."""

    def variant(self, code: str) -> Variant:
        """The variant of this code; an `EdgewiseError` if there is none."""
        ...
