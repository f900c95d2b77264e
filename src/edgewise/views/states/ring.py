"""Ring: states on a circle, clockwise in their order; what leads into a ring stands around it."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from itertools import combinations, pairwise
from math import cos, hypot, pi, sin

from edgewise.state_graph import Transition
from edgewise.views.states.placing import Arrow, Measure, Placing, Point, curve, framed, trimmed

_LOOP = 0.45
"""Half the angle, in radians, between the ends of an arrow that leads back to its circle."""
_PASSES = 4


def ring(states: Sequence[int], transitions: Sequence[Transition], measure: Measure) -> Placing:
    """Some states that hang together, the first one on top, and the transitions between them.

    Examples
    --------
    >>> ways = [Transition(0, 1), Transition(1, 2), Transition(2, 0)]
    >>> placed = ring([0, 1, 2], ways, Measure(20, 30))
    >>> placed.crossings, len(placed.arrows)
    (0, 3)
    """
    after = {each.source: each.target for each in transitions}
    if len(after) == len(transitions):
        spots = _around(states, after, measure)
    else:
        spots = _on_circle(_ordered(states, transitions), measure)
    return framed(spots, [*_arrows(spots, transitions, measure)], measure.radius)


def _around(states: Sequence[int], after: Mapping[int, int], measure: Measure) -> dict[int, Point]:
    """One state follows each: a loop, and trees that lead into it, which cross nothing."""
    loop = _loop(states, after)
    before: defaultdict[int, list[int]] = defaultdict(list)
    for state in states:
        if state not in loop:
            before[after[state]].append(state)
    leaves = {state: _leaves(state, before) for state in loop}
    total = sum(leaves.values())
    spots: dict[int, Point] = {}
    # An arrow that leads back to its own circle keeps the place above it.
    free = 0.8 if len(loop) == 1 else 0.0
    scale = (2 * pi - 2 * free) / total
    between = [(leaves[a] + leaves[b]) / 2 * scale for a, b in pairwise([*loop, loop[0]])]
    inner = 0.0 if free else measure.pitch / (2 * sin(min(between) / 2))
    angle = free - pi / 2 - (0.0 if free else leaves[loop[0]] * scale / 2)
    for state in loop:
        wide = leaves[state] * scale
        _tree(state, (angle, wide), inner, before, measure, spots)
        angle += wide
    return spots


def _loop(states: Sequence[int], after: Mapping[int, int]) -> list[int]:
    state = states[0]
    for _ in states:
        state = after[state]
    loop = [state]
    while after[loop[-1]] != state:
        loop.append(after[loop[-1]])
    return _begun(loop, states[0])


def _begun(order: list[int], first: int) -> list[int]:
    """The same round, from `first` on if it is in it."""
    place = order.index(first if first in order else min(order))
    return order[place:] + order[:place]


def _leaves(state: int, before: Mapping[int, Sequence[int]]) -> int:
    return sum(_leaves(one, before) for one in before.get(state, ())) or 1


def _tree(  # a state, its share of the circle, and where it may stand
    state: int,
    share: tuple[float, float],
    distance: float,
    before: Mapping[int, Sequence[int]],
    measure: Measure,
    spots: dict[int, Point],
) -> None:
    start, wide = share
    middle = start + wide / 2
    spots[state] = distance * cos(middle), distance * sin(middle)
    sources = before.get(state, ())
    parts = [_leaves(one, before) for one in sources]
    least = sum(parts) * measure.pitch / wide if parts else 0.0
    further = max(distance + measure.pitch, least)
    for source, part in zip(sources, parts, strict=True):
        own = wide * part / sum(parts)
        _tree(source, (start, own), further, before, measure, spots)
        start += own


def _on_circle(order: Sequence[int], measure: Measure) -> dict[int, Point]:
    count = len(order)
    radius = measure.pitch / (2 * sin(pi / count)) if count > 1 else 0.0
    angles = [2 * pi * i / count - pi / 2 for i in range(count)]
    return {
        state: (radius * cos(angle), radius * sin(angle))
        for state, angle in zip(order, angles, strict=True)
    }


def _ordered(states: Sequence[int], transitions: Sequence[Transition]) -> list[int]:
    """An order around the circle in which few chords cross: each state is tried in every place."""
    ends = {(min(t.source, t.target), max(t.source, t.target)) for t in transitions}
    chords = [pair for pair in ends if pair[0] != pair[1]]
    order = list(states)
    best = _cost(order, chords)
    for _ in range(_PASSES):
        before = best
        for state in states:
            rest = [one for one in order if one != state]
            for place in range(len(rest)):
                tried = [*rest[:place], state, *rest[place:]]
                cost = _cost(tried, chords)
                if cost < best:
                    order, best = tried, cost
        if best == before or best[0] == 0:
            break
    return _begun(order, states[0])


def _cost(order: Sequence[int], chords: Sequence[tuple[int, int]]) -> tuple[int, int]:
    """Chords that cross, then how far they reach."""
    at = {state: place for place, state in enumerate(order)}
    spans = [(min(at[a], at[b]), max(at[a], at[b])) for a, b in chords]
    crossed = sum(a < c < b < d or c < a < d < b for (a, b), (c, d) in combinations(spans, 2))
    return crossed, sum(min(b - a, len(order) - b + a) for a, b in spans)


def _arrows(
    spots: Mapping[int, Point], transitions: Sequence[Transition], measure: Measure
) -> Iterator[Arrow]:
    pairs = {(each.source, each.target) for each in transitions}
    drawn: defaultdict[tuple[int, int], int] = defaultdict(int)
    for each in transitions:
        pair = each.source, each.target
        start, end = spots[each.source], spots[each.target]
        turn, drawn[pair] = drawn[pair], drawn[pair] + 1
        if start == end:
            yield Arrow(each, _back(start, measure.radius * (1 + 0.7 * turn)))
            continue
        aside = 0.16 if pair[::-1] in pairs else 0.0
        points = curve(start, _bend(start, end, aside + 0.16 * turn, measure), end)
        yield Arrow(each, trimmed(points, start, end, measure.radius))


def _bend(start: Point, end: Point, aside: float, measure: Measure) -> Point:
    """Between neighbours straight; else towards the middle, clear of the circles on the way."""
    (x1, y1), (x2, y2) = start, end
    x, y = (x1 + x2) / 2, (y1 + y2) / 2
    far = hypot(x2 - x1, y2 - y1)
    inward = 0.35 if far > 1.3 * measure.pitch and hypot(x1, y1) > 0 and hypot(x2, y2) > 0 else 0.0
    if abs(hypot(x1, y1) - hypot(x2, y2)) > 1:
        inward = 0.0
    return x * (1 - inward) - (y2 - y1) * aside, y * (1 - inward) + (x2 - x1) * aside


def _back(spot: Point, out: float) -> tuple[Point, ...]:
    """A loop at the side of a circle that looks away from the middle."""
    x, y = spot
    away = hypot(x, y)
    ux, uy = (x / away, y / away) if away > 1 else (0.0, -1.0)
    radius = out
    rim = [(_turned(ux, uy, angle)) for angle in (-_LOOP, _LOOP)]
    start, end = ((x + vx * radius, y + vy * radius) for vx, vy in rim)
    # A cubic curve; its two inner points lie on the prolonged radii.
    p1, p2 = ((x + vx * radius * 2.6, y + vy * radius * 2.6) for vx, vy in rim)
    steps = [i / 14 for i in range(15)]
    return tuple(
        tuple(  # type: ignore[misc]
            (1 - t) ** 3 * a + 3 * t * (1 - t) ** 2 * b + 3 * t**2 * (1 - t) * c + t**3 * d
            for a, b, c, d in zip(start, p1, p2, end, strict=True)
        )
        for t in steps
    )


def _turned(x: float, y: float, angle: float) -> Point:
    return x * cos(angle) - y * sin(angle), x * sin(angle) + y * cos(angle)
