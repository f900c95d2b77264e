"""A large class diagnosed in shares: here, in a pool of processes, or on a cluster.

What a share needs goes there, answers and operands, never a name; every place gives the same.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from edgewise.practice.marking.diagnosis import Diagnosis
from edgewise.practice.marking.evidence import Answered, Whole, diagnosed
from edgewise.study.cost.sweep import Here, Progress, Workplace, hand_out

SIZE: Final = 5_000
"""Learners in a share that goes elsewhere, at most."""
ALONE: Final = 20_000
"""Learners in a share that stays in this process: the more, the less is done for each."""


@dataclass(frozen=True)
class Share:
    """Some learners, numbered from 0, and their answers."""

    answered: tuple[Answered, ...]
    learners: int
    wholes: tuple[Whole, ...]


def shares(
    answered: Sequence[Answered], learners: int, wholes: Sequence[Whole], size: int = SIZE
) -> tuple[Share, ...]:
    """A class in shares, in its order."""
    return tuple(
        _share(answered, first, min(first + size, learners), wholes)
        for first in range(0, learners, size)
    )


def _share(answered: Sequence[Answered], first: int, end: int, wholes: Sequence[Whole]) -> Share:
    parts = [part for one in answered if (part := one.of(lambda i: first <= i < end))]
    moved = tuple(
        Answered(part.batch, tuple([learner - first for learner in part.learners]))
        for part in parts
    )
    own = tuple(
        Whole(one.learner - first, one.right, one.gives, one.tells)
        for one in wholes
        if first <= one.learner < end
    )
    return Share(moved, end - first, own)


def of_share(share: Share) -> list[Diagnosis]:
    """The diagnoses of one share."""
    return diagnosed(share.answered, share.learners, share.wholes)


def of_class(
    answered: Sequence[Answered],
    learners: int,
    wholes: Sequence[Whole] = (),
    place: Workplace = Here,
    progress: Progress | None = None,
) -> list[Diagnosis]:
    """A diagnosis for each learner of a class.

    Parameters
    ----------
    answered : sequence of Answered
    learners : int
    wholes : sequence of Whole
    place : Workplace
        Where the work is done.
    progress : function, optional
    """
    size = ALONE if place is Here else SIZE
    parts = shares(answered, learners, wholes, size)
    return [one for told in hand_out(of_share, parts, place, progress) for one in told]
