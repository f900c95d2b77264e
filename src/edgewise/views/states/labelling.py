"""Labelling: where the conditions of transitions stand on their arrows."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from itertools import pairwise
from math import hypot
from typing import Final, TypeAlias

from edgewise.state_graph import Transition
from edgewise.views.states.placing import Placing, Point

Label: TypeAlias = tuple[float, float, float, float]
"""Its middle (x, y), its width and height."""
_SHARES: Final = (0.5, 0.42, 0.58, 0.34, 0.66, 0.26, 0.74, 0.18, 0.82)
"""Places that are tried along an arrow, in shares of its length."""
_STEP: Final = 6.0
_WORST: Final = 20
"""To hide a circle or a label is as bad as to hide so many arrows."""


def labelling(
    placed: Placing, radius: float, sizes: Mapping[Transition, tuple[float, float]]
) -> Iterator[tuple[Transition, Label]]:
    """A place for each label, where it hides least.

    Examples
    --------
    >>> from edgewise.views.states.placing import Arrow
    >>> way = Transition(0, 1, ("1",))
    >>> placed = Placing(90, 10, {0: (5, 5), 1: (85, 5)}, (Arrow(way, ((10, 5), (80, 5))),))
    >>> [label for _, label in labelling(placed, 5, {way: (9, 15)})]
    [(45.0, 5.0, 9, 15)]
    """
    lines = [(arrow, [*_dense(arrow.points)]) for arrow in placed.arrows]
    taken: list[Label] = []
    for arrow in placed.arrows:
        if arrow.transition is None or arrow.transition not in sizes:
            continue
        others = [dots for other, dots in lines if other is not arrow]
        tried = [(*_along(arrow.points, share), *sizes[arrow.transition]) for share in _SHARES]
        best = min(tried, key=lambda label: _hidden(label, placed, radius, taken, others))
        taken.append(best)
        yield arrow.transition, best


def _hidden(
    label: Label,
    placed: Placing,
    radius: float,
    taken: Sequence[Label],
    others: Sequence[Sequence[Point]],
) -> int:
    """How much lies under a label."""
    x, y, wide, high = label
    labels = sum(
        abs(x - a) < (wide + w) / 2 and abs(y - b) < (high + h) / 2 for a, b, w, h in taken
    )
    circles = sum(
        hypot(max(abs(x - a) - wide / 2, 0), max(abs(y - b) - high / 2, 0)) < radius + 1
        for a, b in placed.spots.values()
    )
    arrows = sum(
        any(abs(x - a) < wide / 2 + 1 and abs(y - b) < high / 2 + 1 for a, b in dots)
        for dots in others
    )
    return _WORST * (labels + circles) + arrows


def _along(points: Sequence[Point], share: float) -> Point:
    """The point at a share of a line's length."""
    lengths = [hypot(b[0] - a[0], b[1] - a[1]) for a, b in pairwise(points)]
    left = share * sum(lengths)
    for (a, b), length in zip(pairwise(points), lengths, strict=True):
        if left <= length and length:
            part = left / length
            return a[0] + part * (b[0] - a[0]), a[1] + part * (b[1] - a[1])
        left -= length
    return points[-1]


def _dense(points: Sequence[Point]) -> Iterator[Point]:
    """Points of a line that are a few px apart."""
    for (x1, y1), (x2, y2) in pairwise(points):
        steps = max(1, int(hypot(x2 - x1, y2 - y1) // _STEP))
        for i in range(steps + 1):
            yield x1 + (x2 - x1) * i / steps, y1 + (y2 - y1) * i / steps
