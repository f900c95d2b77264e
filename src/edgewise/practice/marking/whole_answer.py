"""Answers that are right as a whole or not: a word, a number, a letter, operands, a formula."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from edgewise.errors import EdgewiseError
from edgewise.numerals import whole
from edgewise.practice.formula_guard import unguarded
from edgewise.practice.marking.asked import Question
from edgewise.practice.marking.reading import LONGEST, Reading, Way, read
from edgewise.practice.marking.score import Score

_AROUND_A_LETTER: Final = "()[]. :"


@dataclass(frozen=True, slots=True)
class WholeAnswer:
    """What one learner answered.

    Parameters
    ----------
    texts : tuple of str
        As written, heading by heading.
    read : tuple of str
        As read; nothing where nothing can be read.
    right : bool
    blank : bool
        Whether nothing was written.
    doubts : tuple of (str, Reading)
        Under which heading a reading is to be looked at.
    gives, tells : frozenset of str
        Misconceptions whose answer it is, and those whose answer is wrong.
    """

    texts: tuple[str, ...]
    read: tuple[str, ...]
    right: bool
    blank: bool
    doubts: tuple[tuple[str, Reading], ...] = ()
    gives: frozenset[str] = frozenset()
    tells: frozenset[str] = frozenset()

    @property
    def readable(self) -> bool:
        """Whether anything was written that can be read."""
        return bool(self.read) and all(self.read)

    def score(self, question: Question) -> Score:
        """All marks or none."""
        right, blank = int(self.right), int(self.blank)
        unread = int(not self.readable and not self.blank)
        return Score(question.name, question.marks, 1, right, right, blank, unread)


def answered(question: Question, texts: Sequence[str]) -> WholeAnswer:
    """Read an answer and see whether it is right.

    Whoever wrote only a part of several columns has written something that can't be read.
    """
    written = tuple(unguarded(text.strip()) for text in texts)
    blank = not any(written)
    pairs = list(zip(question.headings, written, strict=True))
    readings = [_reading(question, heading, text) for heading, text in pairs]
    found = tuple(text for text, _ in readings)
    doubts = [
        (heading, reading)
        for (heading, _), (_, reading) in zip(pairs, readings, strict=True)
        if reading is not None
    ]
    right = False
    if all(found):
        try:
            right = question.right(dict(zip(question.headings, found, strict=True)))
        except EdgewiseError:  # no formula, or operands that don't fit
            found = ("",) * len(found)
            doubts = [(heading, Reading(text, Way.UNREADABLE)) for heading, text in pairs]
    gives = frozenset(name for name, answer in question.wrong if (answer,) == found)
    tells = frozenset(name for name, _ in question.wrong)
    told = () if blank else tuple(doubts)
    return WholeAnswer(written, found, right, blank, told, gives, tells)


def _reading(question: Question, heading: str, text: str) -> tuple[str, Reading | None]:
    """The answer as `Question.right` wants it, and a reading that is to be looked at."""
    if question.reads == "word":
        word = read(text, len(question.expected(heading)))
        looked_at = word.doubtful or (word.word is None and word.way is not Way.BLANK)
        return word.digits, word if looked_at else None
    found = ""
    if len(text) <= LONGEST:
        found = text
        if question.reads == "letter":
            letter = text.strip(_AROUND_A_LETTER).casefold()
            found = letter if len(letter) == 1 and letter.isalpha() else ""
        elif question.reads in ("number", "operand"):
            number = whole("".join(text.split()), heading)
            found = "" if number is None else str(number)
    return found, None if found or not text else Reading(text, Way.UNREADABLE)
