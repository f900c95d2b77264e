"""Placing: where the circles and arrows of a state diagram lie, and how often arrows cross."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import combinations, pairwise
from math import atan2, cos, hypot, pi, sin

from edgewise.state_graph import Transition

Point = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Measure:
    """The lengths of a diagram, px.

    Parameters
    ----------
    radius : float
        Of a circle.
    gap : float
        Between two circles, at least.
    """

    radius: float
    gap: float

    @property
    def pitch(self) -> float:
        """From the middle of a circle to that of the next."""
        return 2 * self.radius + self.gap


@dataclass(frozen=True, slots=True)
class Arrow:
    """A transition as it is drawn: a polyline, dense where it is a curve, from rim to rim.

    Without a transition it is the arrow from nowhere to the start.
    """

    transition: Transition | None
    points: tuple[Point, ...]


@dataclass(frozen=True, slots=True)
class Placing:
    """Circles by their state, and arrows; nothing lies left of or above (0, 0)."""

    width: float
    height: float
    spots: dict[int, Point]
    arrows: tuple[Arrow, ...]

    @property
    def crossings(self) -> int:
        """Pairs of arrows that cross."""
        return sum(_cross(a.points, b.points) for a, b in combinations(self.arrows, 2))

    def moved(self, x: float, y: float) -> Placing:
        """The same, further to the right and down."""
        spots = {state: (px + x, py + y) for state, (px, py) in self.spots.items()}
        arrows = tuple(
            replace(a, points=tuple((px + x, py + y) for px, py in a.points)) for a in self.arrows
        )
        return Placing(self.width + x, self.height + y, spots, arrows)


def framed(spots: dict[int, Point], arrows: Sequence[Arrow], around: float) -> Placing:
    """Circles and arrows, moved so that they begin at (0, 0); `around` is a circle's radius."""
    xs = [x + side for x, _ in spots.values() for side in (-around, around)]
    ys = [y + side for _, y in spots.values() for side in (-around, around)]
    xs += [x for arrow in arrows for x, _ in arrow.points]
    ys += [y for arrow in arrows for _, y in arrow.points]
    left, top = min(xs), min(ys)
    return replace(
        Placing(0, 0, spots, tuple(arrows)).moved(-left, -top),
        width=max(xs) - left,
        height=max(ys) - top,
    )


def entered(placing: Placing, states: Iterable[int], radius: float, length: float) -> Placing:
    """The same with an arrow from nowhere at some states, where they have most room for it."""
    arrows = list(placing.arrows)
    for state in states:
        x, y = placing.spots[state]
        near = [
            atan2(py - y, px - x)
            for arrow in placing.arrows
            for px, py in arrow.points
            if hypot(px - x, py - y) < radius + length
        ]
        near += [
            atan2(py - y, px - x)
            for px, py in placing.spots.values()
            if 0 < hypot(px - x, py - y) < 3 * radius + length
        ]
        free = max(_ANGLES, key=lambda a: round(min((_apart(a, b) for b in near), default=pi), 1))
        ends = (radius + length, radius)
        arrows.append(Arrow(None, tuple((x + r * cos(free), y + r * sin(free)) for r in ends)))
    return framed(placing.spots, arrows, radius)


# From the left first, as one reads.
_ANGLES = tuple(sorted((pi * i / 12 for i in range(-11, 13)), key=lambda a: -abs(a)))


def _apart(one: float, other: float) -> float:
    return abs((one - other + pi) % (2 * pi) - pi)


def packed(placings: Iterable[Placing], room: float, gap: float) -> Placing:
    """Several side by side, a new line where `room` ends."""
    x = y = high = wide = 0.0
    spots: dict[int, Point] = {}
    arrows: list[Arrow] = []
    for each in placings:
        if x and x + each.width > room:
            x, y, high = 0.0, y + high + gap, 0.0
        moved = each.moved(x, y)
        spots |= moved.spots
        arrows += moved.arrows
        wide, high = max(wide, x + each.width), max(high, each.height)
        x += each.width + gap
    return Placing(wide, y + high, spots, tuple(arrows))


def curve(start: Point, bend: Point, end: Point, steps: int = 12) -> tuple[Point, ...]:
    """A quadratic Bézier curve as points.

    Examples
    --------
    >>> curve((0, 0), (4, 8), (8, 0), steps=2)
    ((0.0, 0.0), (4.0, 4.0), (8.0, 0.0))
    """
    shares = [i / steps for i in range(steps + 1)]
    return tuple(
        tuple(  # type: ignore[misc]
            (1 - t) ** 2 * a + 2 * t * (1 - t) * b + t**2 * c
            for a, b, c in zip(start, bend, end, strict=True)
        )
        for t in shares
    )


def trimmed(points: Sequence[Point], first: Point, last: Point, radius: float) -> tuple[Point, ...]:
    """A line from the middle of one circle to that of another, cut at both rims."""
    ahead = _from_rim(points, first, radius)
    return tuple(reversed(_from_rim(tuple(reversed(ahead)), last, radius)))


def _from_rim(points: Sequence[Point], middle: Point, radius: float) -> tuple[Point, ...]:
    for i, (before, after) in enumerate(pairwise(points)):
        near, far = (hypot(x - middle[0], y - middle[1]) for x, y in (before, after))
        if far > radius >= near:
            share = (radius - near) / (far - near)
            x, y = (a + share * (b - a) for a, b in zip(before, after, strict=True))
            return ((x, y), *points[i + 1 :])
    return tuple(points)


def _cross(one: Sequence[Point], other: Sequence[Point]) -> bool:
    """Whether two polylines cross; to touch at an end is not to cross."""
    if not _boxes_meet(one, other):
        return False
    return any(_meet(a, b) for a in pairwise(one) for b in pairwise(other))


def _boxes_meet(one: Sequence[Point], other: Sequence[Point]) -> bool:
    return all(
        min(p[i] for p in one) <= max(p[i] for p in other)
        and min(p[i] for p in other) <= max(p[i] for p in one)
        for i in (0, 1)
    )


def _meet(one: tuple[Point, Point], other: tuple[Point, Point]) -> bool:
    (a, b), (c, d) = one, other
    return _turn(a, b, c) * _turn(a, b, d) < 0 and _turn(c, d, a) * _turn(c, d, b) < 0


def _turn(a: Point, b: Point, c: Point) -> float:
    return (b[0] - a[0]) * (c[1] - b[1]) - (b[1] - a[1]) * (c[0] - b[0])


def groups(states: Iterable[int], transitions: Iterable[Transition]) -> Iterator[list[int]]:
    """The states that hang together, whichever way the arrows point.

    Examples
    --------
    >>> list(groups([0, 1, 2], [Transition(0, 2), Transition(1, 1)]))
    [[0, 2], [1]]
    """
    beside: dict[int, set[int]] = {state: set() for state in states}
    for each in transitions:
        beside[each.source].add(each.target)
        beside[each.target].add(each.source)
    left = dict.fromkeys(beside)
    while left:
        first = next(iter(left))
        found, waiting = {first}, [first]
        while waiting:
            new = beside[waiting.pop()] - found
            found |= new
            waiting += new
        for state in found:
            del left[state]
        yield sorted(found)
