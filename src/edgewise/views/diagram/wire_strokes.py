"""Strokes: how a wire is drawn, by what it holds and what it is.

A routed net is a tree. It is cut where its branches part, so that each stretch is drawn by
the bits that pass there: a bus until only one of its bits goes on.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable
from dataclasses import dataclass
from itertools import pairwise
from typing import Final

from edgewise.bits import Bit
from edgewise.views.drawing import theme
from edgewise.views.drawing.shapes import number
from edgewise.views.layout.graph import PlacedWire, Point, Side

_LENGTH: Final = 8.0
"""Of an arrowhead."""
_HALF: Final = 4.0
OVERLAP: Final = 1
"""Px by which lines that meet at a port overlap."""


@dataclass(frozen=True, slots=True)
class Stroke:
    """Colour, weight and dashes of a line.

    Examples
    --------
    >>> Stroke("#1b2430", 3.5).dash
    ()
    """

    colour: str
    weight: float
    dash: tuple[float, ...] = ()


def stroke(kind: str, bits: tuple[Bit, ...]) -> Stroke:
    """The stroke of a wire that holds these bits.

    Parameters
    ----------
    kind : {"", "carry", "control", "clock"}
    bits : tuple of Bit
        One, or those of a bus, whose values a wire does not tell.

    Examples
    --------
    >>> from edgewise.bits import X
    >>> stroke("carry", (1,)).weight, stroke("", (0, 1)).weight, stroke("", (X,)).dash
    (3.5, 2.375, (5.0, 4.0))
    """
    colour = {"carry": theme.VIOLET, "control": theme.SLATE, "clock": theme.SLATE}.get(
        kind, theme.INK
    )
    if kind == "clock":
        return Stroke(colour, theme.LIGHT)
    if len(bits) != 1:
        return Stroke(theme.SLATE if kind == "control" else colour, theme.BUS)
    weight, dash = theme.wire(bits[0])
    if kind == "control":
        weight = theme.LIGHT_ONE if bits[0] == 1 else theme.LIGHT
    return Stroke(colour, weight, dash)


@dataclass(frozen=True, slots=True)
class Stretch:
    """A piece of a tree without branches, and the targets behind it."""

    points: tuple[Point, ...]
    targets: frozenset[str]


def stretches(wire: PlacedWire, ends: Callable[[str], Point]) -> tuple[Stretch, ...]:
    """The tree of a net, cut where it branches; from the source outwards.

    At a port a stretch goes on for `OVERLAP`, so that no seam shows where the next begins.

    Parameters
    ----------
    wire : PlacedWire
    ends : function
        Where a port lies.

    Examples
    --------
    >>> lines = ((0, 0), (9, 0)), ((4, 0), (4, 5))
    >>> wire = PlacedWire("w", "s", ("t", "u"), "", None, lines)
    >>> where = {"s": (0, 0), "t": (9, 0), "u": (4, 5)}
    >>> [(s.points, sorted(s.targets)) for s in stretches(wire, where.__getitem__)]
    [(((-1, 0), (4, 0)), ['t', 'u']), (((4, 0), (10, 0)), ['t']), (((4, 0), (4, 6)), ['u'])]
    """
    beside = _beside(wire)
    start = ends(wire.source)
    targets = {ends(target): target for target in wire.targets}
    behind: dict[tuple[Point, Point], frozenset[str]] = {}

    def collect(here: Point, before: Point | None) -> frozenset[str]:
        found = {targets[here]} if here in targets and before is not None else set()
        for there in beside[here]:
            if there != before:
                behind[here, there] = collect(there, here)
                found |= behind[here, there]
        return frozenset(found)

    collect(start, None)
    made: list[Stretch] = []

    def follow(here: Point, there: Point) -> None:
        line = [here, there]
        while len(onward := [p for p in beside[line[-1]] if p != line[-2]]) == 1:
            if line[-1] in targets:
                break
            line.append(onward[0])
        shown = [_beyond(line[1], here) if here == start else here, *line[1:]]
        if line[-1] in targets:
            shown[-1] = _beyond(line[-2], line[-1])
        made.append(Stretch(tuple(shown), behind[here, there]))
        for after in onward:
            follow(line[-1], after)

    for first in beside[start]:
        follow(start, first)
    return tuple(made)


def arrow(spot: Point, side: Side) -> str:
    """Path data of the arrowhead of a wire that comes to a port from the right or from below.

    Signals run to the right and downwards; what runs against that says so. Empty elsewhere.

    Examples
    --------
    >>> arrow((20, 8), "right"), arrow((20, 8), "left")
    ('M20 8L28 4V12Z', '')
    """
    x, y = map(number, spot)
    if side == "right":
        right = number(spot[0] + _LENGTH)
        return f"M{x} {y}L{right} {number(spot[1] - _HALF)}V{number(spot[1] + _HALF)}Z"
    if side == "bottom":
        low = number(spot[1] + _LENGTH)
        return f"M{x} {y}L{number(spot[0] - _HALF)} {low}H{number(spot[0] + _HALF)}Z"
    return ""


def _beyond(before: Point, end: Point) -> Point:
    """The end of a straight line, moved on by `OVERLAP`."""
    (x1, y1), (x2, y2) = before, end
    if y1 == y2:
        return x2 + (OVERLAP if x2 > x1 else -OVERLAP), y2
    return x2, y2 + (OVERLAP if y2 > y1 else -OVERLAP)


def _beside(wire: PlacedWire) -> dict[Point, list[Point]]:
    """The corners, ends and dots of a tree, each with those next to it."""
    corners = {point for line in wire.lines for point in line}
    beside: defaultdict[Point, list[Point]] = defaultdict(list)
    for line in wire.lines:
        for a, b in pairwise(line):
            low, high = min(a, b), max(a, b)
            on = sorted(p for p in corners if low <= p <= high and _between(low, p, high))
            for left, right in pairwise(on if a == low else on[::-1]):
                if right not in beside[left]:
                    beside[left].append(right)
                    beside[right].append(left)
    return beside


def _between(low: Point, point: Point, high: Point) -> bool:
    level = low[1] == point[1] == high[1] and low[0] <= point[0] <= high[0]
    return level or (low[0] == point[0] == high[0] and low[1] <= point[1] <= high[1])
