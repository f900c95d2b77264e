"""The idea behind a learner's wrong cells, and how strong the evidence for it is.

An idea is held to what a learner wrote as a whole: it must give the wrong cells and spare the
right ones. What it does not explain counts against it, cell by cell, whether a wrong cell that it
does not give or a right one that it would have made wrong; and so it does against the truth, where
a cell is wrong that does not follow from the learner's own rows. Among ideas the one with the
fewest is taken, but each misconception must earn its place with `EARNS` cells more than are
explained without it. A single wrong cell is therefore never an idea. What is left unexplained must
be no more than carelessness accounts for (`careless_at_most`); else nothing is said.

The two kinds of error, and that a systematic one shows in the whole of the answers: J. S. Brown and
R. R. Burton, Cognitive Science 2(2), 1978, 155-192; that a few answers beside the rule are ideas:
K. VanLehn, *Mind Bugs*, 1990, chapter 2 (from memory).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum
from functools import lru_cache
from typing import Final, NamedTuple

from edgewise.practice.marking.beliefs import Names
from edgewise.practice.marking.f_distribution import beta

EARNS: Final = 2
"""Cells that a misconception must explain beyond what is explained without it."""
CARELESS_RATE: Final = 0.02
"""Cells that a careful learner gets wrong all the same; an assumption, no source."""
CARELESS_LEVEL: Final = 0.01
"""More careless cells than have this probability at that rate are no carelessness."""


class Status(StrEnum):
    """What can be said of a learner."""

    NOTHING = "nothing to read"
    """Nothing was written, or nothing that can be read."""
    RIGHT = "right"
    CARELESS = "careless"
    """A wrong cell or a few, and what follows from them; no idea explains them better."""
    MISCONCEPTION = "misconception"
    UNEXPLAINED = "unexplained"
    UNREADABLE = "hardly readable"
    """There are errors, but more was written that can't be read than that can."""


class Fit(NamedTuple):
    """How an idea fits what a learner wrote.

    Parameters
    ----------
    names : Names
    missed : int
        Wrong cells that it does not give.
    contradicted : int
        Right cells that it would have made wrong.
    """

    names: Names
    missed: int
    contradicted: int

    @property
    def against(self) -> int:
        """Cells that speak against it."""
        return self.missed + self.contradicted


def rank(fit: tuple[Names, int, int]) -> tuple[int, int]:
    """The smaller the better: cells against an idea, with what each misconception must earn.

    Examples
    --------
    >>> rank(Fit(("carry-dropped", "msb-first"), 1, 0))
    (3, 2)
    """
    names, missed, contradicted = fit
    return missed + contradicted + len(names) * (EARNS - 1), len(names)


@dataclass(frozen=True, slots=True)
class Diagnosis:
    """What a learner's answers say.

    Parameters
    ----------
    status : Status
    read : int
        Cells that can be read.
    wrong : int
        Of these, the wrong ones.
    ideas : tuple of Fit
        The best: one, or several that these cells do not tell apart; only the truth where the
        learner was careless at most. What was nearest where nothing is explained.
    margin : int
        Cells that tell them from the next candidate.
    """

    status: Status
    read: int = 0
    wrong: int = 0
    ideas: tuple[Fit, ...] = ()
    margin: int = 0

    @property
    def names(self) -> tuple[Names, ...]:
        """The misconceptions, where there are any; each entry is one, or two held together."""
        return tuple(f.names for f in self.ideas) if self.status is Status.MISCONCEPTION else ()

    @property
    def explained(self) -> int:
        """Wrong cells that the idea gives."""
        return self.wrong - self.ideas[0].missed if self.ideas else 0


def of_readable(found: Diagnosis, unread: int) -> Diagnosis:
    """A diagnosis, with `unread` answers that can't be read beside those that it rests on.

    Examples
    --------
    >>> found = judged(2, 2, [Fit((), 2, 0), Fit(("re-enters",), 0, 0)])
    >>> of_readable(found, 12).status.value, of_readable(found, 2).status.value
    ('hardly readable', 'misconception')
    """
    if not found.wrong or unread <= found.read:
        return found
    return Diagnosis(Status.UNREADABLE, found.read, found.wrong)


@lru_cache(maxsize=1024)
def careless_at_most(cells: int) -> int:
    """How many of so many cells may be wrong by carelessness; always one.

    Examples
    --------
    >>> [careless_at_most(cells) for cells in (1, 10, 30, 100)]
    [1, 2, 3, 6]
    """
    most = 1
    # The probability of more than `most`, by the beta function (DLMF 8.17.5).
    while most < cells and beta(CARELESS_RATE, most + 1, cells - most) > CARELESS_LEVEL:
        most += 1
    return most


def _idle(fit: tuple[Names, int, int], ideas: Sequence[Fit]) -> bool:
    """Whether it is one of some ideas with another that changes nothing: no rival of it."""
    held = set(fit[0])
    return any(held > set(one.names) and fit[1:] == one[1:] for one in ideas if one.names)


def judged(read: int, wrong: int, fits: Sequence[tuple[Names, int, int]]) -> Diagnosis:
    """What is to be said of one learner.

    Parameters
    ----------
    read, wrong : int
        Cells that can be read, and the wrong ones among them.
    fits : sequence of Fit, or of tuples like it
        Of the truth, first, and of every idea.

    Examples
    --------
    >>> found = judged(12, 5, [Fit((), 5, 0), Fit(("carry-dropped",), 0, 0)])
    >>> found.status.value, found.names, found.explained, found.margin
    ('misconception', (('carry-dropped',),), 5, 5)
    >>> judged(12, 1, [Fit((), 1, 0), Fit(("carry-dropped",), 0, 0)]).status.value
    'careless'

    A second idea that changes nothing is no rival of the first:

    >>> judged(12, 5, [Fit((), 5, 0), Fit(("carry-dropped",), 0, 0),
    ...                Fit(("carry-dropped", "read-backwards"), 0, 0)]).margin
    5
    """
    if not read:
        return Diagnosis(Status.NOTHING)
    if not wrong:
        return Diagnosis(Status.RIGHT, read, 0, (Fit(*fits[0]),))
    # As `rank`, without a call for each.
    ranks = [(m + c + len(names) * (EARNS - 1), len(names)) for names, m, c in fits]
    best = min(ranks)
    ideas = tuple([Fit(*fit) for fit, its in zip(fits, ranks, strict=True) if its == best])
    rivals = [
        fit[1] + fit[2]
        for fit, its in zip(fits, ranks, strict=True)
        if its != best and not _idle(fit, ideas)
    ]
    margin = max(0, min(rivals) - ideas[0].against) if rivals else 0
    status = Status.MISCONCEPTION if ideas[0].names else Status.CARELESS
    if ideas[0].against > careless_at_most(read):
        status = Status.UNEXPLAINED
    return Diagnosis(status, read, wrong, ideas, margin)
