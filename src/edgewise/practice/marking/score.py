"""Marks for one question: for the method, and for the answers as they stand."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction


@dataclass(frozen=True, slots=True)
class Score:
    """What one learner's answers to a question are worth.

    Parameters
    ----------
    name : str
        Of the question.
    marks : int
        For all of it.
    asked : int
        Cells, or one.
    right : int
        Those that are as they should be.
    followed : int
        Those that are right, or follow from what the learner wrote before.
    blank, unread : int
        Those with nothing in them, and with something that can't be read.

    Examples
    --------
    >>> score = Score("q1", marks=4, asked=8, right=5, followed=7, blank=0, unread=0)
    >>> str(score.method), str(score.answers)
    ('7/2', '5/2')
    """

    name: str
    marks: int
    asked: int
    right: int
    followed: int
    blank: int = 0
    unread: int = 0

    @property
    def method(self) -> Fraction:
        """Marks with follow-through: one error is paid for once."""
        return Fraction(self.marks * self.followed, self.asked)

    @property
    def answers(self) -> Fraction:
        """Marks for what is right as it stands."""
        return Fraction(self.marks * self.right, self.asked)
