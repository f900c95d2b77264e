"""Hints: what stands in the way where no law is found."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import TypeAlias

from edgewise.words.lists import equations
from edgewise.words.messages import ENGLISH, Words


@dataclass(frozen=True, slots=True)
class TooFew:
    """A formula that agrees with too few designs beyond those that determined it."""

    formula: str
    agree: int
    solved: int
    needed: int

    def told(self, words: Words = ENGLISH) -> str:
        """How many it would take."""
        counts = {"agree": self.agree, "solved": self.solved, "needed": self.needed}
        return words("law-too-few", formula=self.formula, **counts)


@dataclass(frozen=True, slots=True)
class Accident:
    """A formula that fits what was asked for, and no further.

    Examples
    --------
    >>> print(Accident("2*n", 8, (("n", 9),), 18, 19).told())
    2*n agrees with all 8, but not beyond: for n = 9 it gives 18, and 19 is counted
    """

    formula: str
    agree: int
    case: tuple[tuple[str, int], ...]
    value: Fraction | int
    count: int

    def told(self, words: Words = ENGLISH) -> str:
        """Where it stops fitting."""
        facts = {"formula": self.formula, "case": equations(self.case), "value": str(self.value)}
        return words("law-accident", agree=self.agree, count=self.count, **facts)


@dataclass(frozen=True, slots=True)
class Later:
    """A law that begins after the first numbers of the one parameter."""

    name: str
    first: int
    law: str

    def told(self, words: Words = ENGLISH) -> str:
        """Where it begins."""
        return words("law-later", name=self.name, first=self.first, law=self.law)


Hint: TypeAlias = TooFew | Accident | Later
