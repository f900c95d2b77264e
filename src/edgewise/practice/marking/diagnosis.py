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

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from enum import StrEnum
from functools import lru_cache
from typing import Final, TypeAlias

from edgewise.design import Design
from edgewise.practice.marking.batch import Batch, counted
from edgewise.practice.marking.beliefs import Belief, Names, pairs, singles, telling
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


@dataclass(frozen=True, slots=True)
class Fit:
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

    @property
    def rank(self) -> tuple[int, int]:
        """The smaller the better: cells against it, with what each misconception must earn."""
        return self.against + len(self.names) * (EARNS - 1), len(self.names)


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


Counts: TypeAlias = Mapping[Names, tuple[Sequence[int], Sequence[int]]]
"""For each idea, the missed and the contradicted cells of each learner of a batch."""


def tallied(batch: Batch, beliefs: Iterable[Belief]) -> Counts:
    """What speaks against each belief."""
    return {belief.names: _against(batch, batch.explained(belief)) for belief in beliefs}


def _against(batch: Batch, explained: Sequence[int]) -> tuple[list[int], list[int]]:
    cells = list(zip(batch.given, batch.right, explained, strict=True))
    missed = [given & ~(right | fits) for given, right, fits in cells]
    contradicted = [right & ~fits for _, right, fits in cells]
    return counted(missed, batch.size), counted(contradicted, batch.size)


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


def judged(read: int, wrong: int, fits: Sequence[Fit]) -> Diagnosis:
    """What is to be said of one learner.

    Parameters
    ----------
    read, wrong : int
        Cells that can be read, and the wrong ones among them.
    fits : sequence of Fit
        Of the truth, first, and of every idea.

    Examples
    --------
    >>> found = judged(12, 5, [Fit((), 5, 0), Fit(("carry-dropped",), 0, 0)])
    >>> found.status.value, found.names, found.explained, found.margin
    ('misconception', (('carry-dropped',),), 5, 5)
    >>> judged(12, 1, [Fit((), 1, 0), Fit(("carry-dropped",), 0, 0)]).status.value
    'careless'
    """
    if not read:
        return Diagnosis(Status.NOTHING)
    if not wrong:
        return Diagnosis(Status.RIGHT, read, 0, (fits[0],))
    ranks = [fit.rank for fit in fits]
    best = min(ranks)
    ideas = tuple([fit for fit, rank in zip(fits, ranks, strict=True) if rank == best])
    others = [fit.against for fit, rank in zip(fits, ranks, strict=True) if rank != best]
    margin = max(0, min(others) - ideas[0].against) if others else 0
    status = Status.CARELESS if not ideas[0].names else Status.MISCONCEPTION
    if ideas[0].against > careless_at_most(read):
        status = Status.UNEXPLAINED
    return Diagnosis(status, read, wrong, ideas, margin)


@dataclass(frozen=True, slots=True)
class Answered:
    """A batch, with the number of the learner whose answers each of its own are."""

    batch: Batch
    learners: tuple[int, ...]

    def of(self, wanted: Callable[[int], bool]) -> Answered | None:
        """The part of it that belongs to some learners; None if that is empty."""
        chosen = [i for i, learner in enumerate(self.learners) if wanted(learner)]
        if len(chosen) == len(self.learners):
            return self
        if not chosen:
            return None
        return Answered(self.batch.of(chosen), tuple([self.learners[i] for i in chosen]))


@dataclass(frozen=True, slots=True)
class Whole:
    """One answer that is right or wrong as a whole.

    Parameters
    ----------
    learner : int
    right : bool
    gives, tells : frozenset of str
        Misconceptions whose answer it is, and those whose answer to the question is wrong.
    """

    learner: int
    right: bool
    gives: frozenset[str]
    tells: frozenset[str]


@dataclass(slots=True)
class _Case:
    """One learner's cells so far, over all questions."""

    read: int = 0
    wrong: int = 0
    unfollowed: int = 0
    against: dict[Names, list[int]] | None = None

    def add(self, names: Names, missed: int, contradicted: int) -> None:
        """Count what speaks against an idea."""
        if self.against is None:
            self.against = {}
        sums = self.against.setdefault(names, [0, 0])
        sums[0] += missed
        sums[1] += contradicted

    def fits(self) -> list[Fit]:
        """The truth's, and that of each idea."""
        ideas = self.against or {}
        return [
            Fit((), self.unfollowed, 0),
            *(Fit(names, missed, contradicted) for names, (missed, contradicted) in ideas.items()),
        ]


def diagnosed(
    answered: Sequence[Answered], learners: int, wholes: Sequence[Whole] = ()
) -> list[Diagnosis]:
    """A diagnosis for each learner, from all their answers that can be read.

    Two misconceptions together are tried where no single one explains enough.
    """
    cases = [_Case() for _ in range(learners)]
    for batch in answered:
        _count_truth(batch, cases)
    for one in wholes:
        case = cases[one.learner]
        case.read += 1
        case.wrong += not one.right
        case.unfollowed += not one.right
    _try(answered, wholes, cases, lambda i: cases[i].unfollowed > 0, singles)

    def unsettled(i: int) -> bool:  # two ideas with nothing against them would be better
        two = 2 * (EARNS - 1)
        return cases[i].unfollowed > two and min(fit.rank for fit in cases[i].fits())[0] > two

    _try(answered, wholes, cases, unsettled, pairs)
    return [judged(case.read, case.wrong, case.fits()) for case in cases]


def _count_truth(one: Answered, cases: list[_Case]) -> None:
    batch = one.batch
    followed = [r | f for r, f in zip(batch.right, batch.followed, strict=True)]
    cells = list(zip(batch.given, batch.right, followed, strict=True))
    read = counted(batch.given, batch.size)
    wrong = counted([given & ~right for given, right, _ in cells], batch.size)
    unfollowed = counted([given & ~fits for given, _, fits in cells], batch.size)
    for learner, *numbers in zip(one.learners, read, wrong, unfollowed, strict=True):
        case = cases[learner]
        case.read += numbers[0]
        case.wrong += numbers[1]
        case.unfollowed += numbers[2]


def _try(
    answered: Sequence[Answered],
    wholes: Sequence[Whole],
    cases: list[_Case],
    wanted: Callable[[int], bool],
    ideas: Callable[[Design], Sequence[Belief]],
) -> None:
    """Count what speaks against each of some ideas, for the learners that it is `wanted` for."""
    parts = [part for one in answered if (part := one.of(wanted)) is not None]
    tallies = [
        tallied(part.batch, telling(ideas(part.batch.design), part.batch.design, part.batch.cells))
        for part in parts
    ]
    asked = [one for one in wholes if wanted(one.learner)]
    known = {names: None for counts in tallies for names in counts}
    if ideas is singles:
        known |= {(name,): None for one in asked for name in sorted(one.tells)}
    for part, counts in zip(parts, tallies, strict=True):
        # Where an idea has no meaning for a question, whoever holds it is right there.
        truth = _truthful(part.batch)
        for names in known:
            missed, contradicted = counts.get(names, truth)
            for learner, *numbers in zip(part.learners, missed, contradicted, strict=True):
                cases[learner].add(names, *numbers)
    for one in asked:
        for names in known:
            missed_it = not one.right and one.gives.isdisjoint(names)
            cases[one.learner].add(names, missed_it, one.right and not one.tells.isdisjoint(names))


def _truthful(batch: Batch) -> tuple[list[int], list[int]]:
    followed = [r | f for r, f in zip(batch.right, batch.followed, strict=True)]
    return _against(batch, followed)
