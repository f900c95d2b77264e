"""What speaks against each idea, counted for a whole class, and what is to be said of each learner.

Single misconceptions are tried for whoever has an error, two together where no single one explains
enough.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Hashable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import TypeAlias

from edgewise.design import Design
from edgewise.practice.marking.batch import Batch, counted
from edgewise.practice.marking.beliefs import Belief, Names, pairs, singles, telling
from edgewise.practice.marking.diagnosis import EARNS, Diagnosis, judged, rank

Counts: TypeAlias = tuple[Sequence[int], Sequence[int]]
"""The missed and the contradicted cells of each learner of a batch."""


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


@dataclass(frozen=True, slots=True)
class _Tried:
    """Ideas that were tried for some learners: what speaks against each, learner by learner."""

    learners: Collection[int]
    ideas: Mapping[Names, tuple[list[int], list[int]]]

    def fits(self, learner: int) -> list[tuple[Names, int, int]]:
        """Of each idea, if they were tried for a learner."""
        if learner not in self.learners:
            return []
        return [(names, m[learner], c[learner]) for names, (m, c) in self.ideas.items()]


@dataclass(slots=True)
class _Class:
    """What is known of each learner so far."""

    read: list[int]
    wrong: list[int]
    unfollowed: list[int]
    """Wrong answers that do not follow from the learner's own."""
    tried: list[_Tried] = field(default_factory=list)

    @classmethod
    def of(cls, learners: int) -> _Class:
        """Learners who have written nothing yet."""
        return cls([0] * learners, [0] * learners, [0] * learners)

    def fits(self, learner: int) -> list[tuple[Names, int, int]]:
        """The truth's, and that of each idea."""
        found: list[tuple[Names, int, int]] = [((), self.unfollowed[learner], 0)]
        for tried in self.tried:
            found += tried.fits(learner)
        return found


def diagnosed(
    answered: Sequence[Answered], learners: int, wholes: Sequence[Whole] = ()
) -> list[Diagnosis]:
    """A diagnosis for each learner, from all their answers that can be read.

    Parameters
    ----------
    answered : sequence of Answered
        The cells.
    learners : int
        How many there are.
    wholes : sequence of Whole
        The other answers.
    """
    found = _Class.of(learners)
    for batch in answered:
        _count_truth(batch, found)
    for one in wholes:
        found.read[one.learner] += 1
        found.wrong[one.learner] += not one.right
        found.unfollowed[one.learner] += not one.right
    erring = {i for i, number in enumerate(found.unfollowed) if number}
    found.tried.append(_tried(answered, wholes, erring, learners, singles))
    two = 2 * (EARNS - 1)  # what two ideas would have against them if nothing else had
    unsettled = {i for i in erring if min(map(rank, found.fits(i)))[0] > two}
    found.tried.append(_tried(answered, wholes, unsettled, learners, pairs))
    return [judged(found.read[i], found.wrong[i], found.fits(i)) for i in range(learners)]


def _count_truth(one: Answered, found: _Class) -> None:
    batch = one.batch
    cells = list(zip(batch.given, batch.right, _fitting(batch), strict=True))
    wrong = [given & ~right for given, right, _ in cells]
    unfollowed = [given & ~fits for given, _, fits in cells]
    for masks, sums in (
        (batch.given, found.read),
        (wrong, found.wrong),
        (unfollowed, found.unfollowed),
    ):
        for learner, number in zip(one.learners, counted(masks, batch.size), strict=True):
            sums[learner] += number


def _fitting(batch: Batch) -> list[int]:
    """For each cell, whose answer is right or follows from their own."""
    return [right | followed for right, followed in zip(batch.right, batch.followed, strict=True)]


def _tried(
    answered: Sequence[Answered],
    wholes: Sequence[Whole],
    wanted: Collection[int],
    learners: int,
    ideas: Callable[[Design], Sequence[Belief]],
) -> _Tried:
    """Count what speaks against each of some ideas, for the learners that are `wanted`."""
    parts = [part for one in answered if (part := one.of(wanted.__contains__)) is not None]
    tallies = [_tallied(part.batch, ideas) for part in parts]
    asked = [one for one in wholes if one.learner in wanted]
    known = {names: None for counts in tallies for names in counts}
    if ideas is singles:
        known |= {(name,): None for one in asked for name in sorted(one.tells)}
    sums = {names: ([0] * learners, [0] * learners) for names in known}
    for part, counts in zip(parts, tallies, strict=True):
        # Where an idea has no meaning for a question, whoever holds it is right there.
        truth = _against(part.batch, _fitting(part.batch))
        for names, of_class in sums.items():
            for numbers, into in zip(counts.get(names, truth), of_class, strict=True):
                for learner, number in zip(part.learners, numbers, strict=True):
                    into[learner] += number
    for one in asked:
        for names, (missed, contradicted) in sums.items():
            missed[one.learner] += not one.right and one.gives.isdisjoint(names)
            contradicted[one.learner] += one.right and not one.tells.isdisjoint(names)
    return _Tried(wanted, sums)


def _tallied(batch: Batch, ideas: Callable[[Design], Sequence[Belief]]) -> dict[Names, Counts]:
    """What speaks against each idea that could fill in the cells in another way.

    Ideas that fill them in alike are run once: who holds a second one that is about reading the
    answer fills in a table as with the first alone.
    """
    known: dict[Hashable, Counts] = {}
    found = {}
    for belief in telling(ideas(batch.design), batch.design, batch.cells):
        key = belief.filling(batch.cells)
        if key not in known:
            known[key] = _against(batch, batch.explained(belief))
        found[belief.names] = known[key]
    return found


def _against(batch: Batch, explained: Sequence[int]) -> Counts:
    cells = list(zip(batch.given, batch.right, explained, strict=True))
    missed = [given & ~(right | fits) for given, right, fits in cells]
    contradicted = [right & ~fits for _, right, fits in cells]
    return counted(missed, batch.size), counted(contradicted, batch.size)
