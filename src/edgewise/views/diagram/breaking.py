"""Breaking: a picture that is wider than the page, in panels one below the other.

It is cut where no part stands and few wires run; a wire that is cut has the same number at both
ends, in a circle, and keeps its weight. The panels are in the order of the flow.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from itertools import pairwise
from typing import Final

from edgewise.views.diagram.clipping import Box, Span, bounds, clipped, closed, moved
from edgewise.views.drawing import theme
from edgewise.views.drawing.shapes import (
    Circle,
    Group,
    Item,
    Letters,
    Line,
    Path,
    Rectangle,
    Text,
)
from edgewise.views.layout.graph import Point

_CLEAR: Final = 4.0
"""Px that a cut keeps from everything but wires that run straight through it."""
_STUB: Final = 3.5
"""Px of wire beyond a cut."""
_MARK: Final = 8.5
"""Radius of the circle around a number."""
_EDGE: Final = 10.0
"""Px that a cut through a part keeps from its sides."""
_BESIDE: Final = 3.0
_NEAR: Final = 48.0
"""Px from a part in which what is drawn with it belongs to it."""
_OVER: Final = 24.0
"""Px that an input or output may reach over a cut."""
_ENDS: Final = _STUB + _BESIDE + 2 * _MARK
"""Px that the numbers take at a cut."""
_STEP: Final = 16.0
"""Px from one place that is tried for a cut to the next."""
_EMPTY: Final = 28.0
"""Px of a panel, from top to bottom, that may be empty."""
_BETWEEN: Final = 14.0
"""Px between two panels."""


@dataclass(frozen=True, slots=True)
class Break:
    """Where a picture is cut, and the number of each wire that is.

    Parameters
    ----------
    cuts : tuple of float
        From the left; where the picture begins and ends is none.
    width : float
        Of the uncut picture.
    numbers : mapping of str to int
        By the name of the wire.
    loose : mapping of str to float
        The parts that may reach over a cut a little, away from their wire: where it is, in shares
        of their width from the left. They go where that is.
    leftward : bool
        Whether the first panel is the one on the right.
    """

    cuts: tuple[float, ...]
    width: float
    numbers: dict[str, int]
    loose: Mapping[str, float] = field(default_factory=dict)
    leftward: bool = False

    @property
    def spans(self) -> list[Span]:
        """Left and right end of each panel, in the order in which they are read."""
        spans = list(pairwise((0.0, *self.cuts, self.width)))
        return spans[::-1] if self.leftward else spans

    def panels(self, items: Sequence[Item]) -> tuple[list[Group], float, float]:
        """The items in panels, the width of the widest and the height of all."""
        made, y, wide = [], 0.0, 0.0
        for left, right in self.spans:
            cut = closed([*self._cut(items, left, right)], _EMPTY)
            boxes = [box for item in cut for box in bounds(item)]
            if not boxes:
                continue
            first, top = min(b[0] for b in boxes), min(b[1] for b in boxes)
            last, low = max(b[2] for b in boxes), max(b[3] for b in boxes)
            made.append(Group(cut, "panel", x=theme.MARGIN - first, y=y + theme.MARGIN - top))
            wide = max(wide, last - first + 2 * theme.MARGIN)
            y += low - top + theme.MARGIN + _BETWEEN
        return made, wide, y - _BETWEEN + theme.MARGIN

    def _cut(self, items: Sequence[Item], left: float, right: float) -> Iterator[Item]:
        ends: list[tuple[float, float, int]] = []
        for item in items:
            if isinstance(item, Group) and item.name in self.loose:
                at = self.loose[item.name]
                boxes = bounds(item)
                yield from (item for a, _, b, _ in boxes if left <= a + at * (b - a) < right)
                continue
            wire = isinstance(item, Group) and item.kind == "wire"
            beyond = _STUB if wire else 0.0
            span = (left - beyond if left else left, right + beyond)
            yield from clipped(item, span, (left, right))
            if isinstance(item, Group) and wire:
                for cut, side in ((left, -1), (right, 1)):
                    number = self.numbers.get(item.name)
                    if number and 0 < cut < self.width:
                        ends += [(cut, y, side * number) for y in _crossed(item, cut)]
        yield from _marks(ends)


def broken(
    items: Sequence[Item],
    whole: Collection[str],
    held: Collection[str],
    loose: Mapping[str, float],
    size: Point,
    room: float,
) -> Break | None:
    """Where to cut a picture for the room there is; None if that can't be.

    Parameters
    ----------
    items : sequence of Item
    whole : collection of str
        Names of the parts that must stay in one piece.
    held : collection of str
        Names of the wires that are not cut.
    loose : mapping of str to float
        As of `Break`.
    size : (float, float)
        Of the picture.
    room : float
    """
    wires = [each for each in items if isinstance(each, Group) and each.kind == "wire"]
    free = [
        (x, sum(len(_crossed(wire, x)) for wire in wires))
        for gap in _gaps(_blocked(items, whole, held, loose), size[0])
        for x in _tried(*gap)
    ]
    boxes = [box for item in items for box in bounds(item)]
    ends = min(box[0] for box in boxes), max(box[2] for box in boxes)
    parts = [
        (box[0] + box[2]) / 2
        for item in items
        if isinstance(item, Group) and item.name in whole and item.name not in loose
        for box in bounds(item)
    ]
    cuts = _chosen(free, parts, ends, room - 2 * theme.MARGIN)
    if not cuts:
        return None
    names = [wire.name for wire in wires if any(_crossed(wire, cut) for cut in cuts)]
    numbers = {name: i + 1 for i, name in enumerate(dict.fromkeys(names))}
    return Break(cuts, size[0], numbers, loose)


def _gaps(blocked: Iterable[Span], width: float) -> Iterator[Span]:
    """What is free between stretches that are not."""
    end = 0.0
    for left, right in sorted(blocked):
        if left > end:
            yield end, left
        end = max(end, right)
    if width > end:
        yield end, width


def _tried(left: float, right: float) -> list[float]:
    """Places for a cut in a gap: its middle, in a long one more."""
    steps = max(1, int((right - left) // _STEP))
    return [left + (right - left) * (i + 0.5) / steps for i in range(steps)]


def parted(items: Iterable[Item], sizes: Mapping[str, Point]) -> Iterator[Item]:
    """The items, with what lies far outside its part (the slash of a bus) by itself."""
    for item in items:
        if not (isinstance(item, Group) and item.name in sizes):
            yield item
            continue
        wide, high = sizes[item.name]
        near = [
            all(
                -_NEAR <= x <= wide + _NEAR and -_NEAR <= y <= high + _NEAR
                for left, top, right, low in bounds(one)
                for x, y in [((left + right) / 2, (top + low) / 2)]
            )
            for one in item.items
        ]
        own = [one for one, here in zip(item.items, near, strict=True) if here]
        yield replace(item, items=tuple(own))
        for one, here in zip(item.items, near, strict=True):
            if not here:
                yield Group((one,), "part", x=item.x, y=item.y)


def _chosen(
    free: Sequence[tuple[float, int]], parts: Sequence[float], ends: Span, room: float
) -> tuple[float, ...]:
    """The fewest cuts that leave no panel wider than the room; of these through the fewest wires.

    Of several such ways the most even one; rather not one with a panel of wires alone. A cut
    through a wire needs room for its number.
    """
    places = [(ends[0], 0), *free, (ends[1], 0)]
    ways: list[tuple[int, int, int, float, tuple[float, ...]] | None] = [(0, 0, 0, 0.0, ())]
    for i, (x, crossed) in enumerate(places[1:], 1):
        found = [
            (
                way[0] + 1,
                way[1] + (not any(before <= part < x for part in parts)),
                way[2] + crossed,
                way[3] + (x - before) ** 2,
                (*way[4], x),
            )
            for way, (before, cut) in zip(ways, places[:i], strict=True)
            if way and x - before + _ENDS * ((cut > 0) + (crossed > 0)) <= room
        ]
        ways.append(min(found) if found else None)
    return ways[-1][4][:-1] if ways[-1] else ()


def _blocked(
    items: Iterable[Item],
    whole: Collection[str],
    held: Collection[str],
    loose: Mapping[str, float],
) -> Iterator[Span]:
    """Where no cut may be."""
    for item in items:
        if isinstance(item, Group) and item.kind == "wire":
            yield from _by_wire(item)
            if item.name in held:
                yield from ((left, right) for left, _, right, _ in bounds(item))
        elif isinstance(item, Group) and item.name not in whole:
            for each in item.items:
                if isinstance(each, Text | Letters | Circle | Path):
                    yield from (_around(moved(box, item)) for box in bounds(each))
                elif isinstance(each, Rectangle):
                    left, _, right, _ = moved(next(bounds(each)), item)
                    yield from ((x - _EDGE, x + _EDGE) for x in (left, right))
        else:
            at = loose.get(item.name) if isinstance(item, Group) else None
            for left, right in (_around(box) for box in bounds(item)):
                over = 0.0 if at is None else min(_OVER, (right - left) / 2)
                yield left + over * (at or 0.0), right - over * (1 - (at or 0.0))


def _by_wire(wire: Group) -> Iterator[Span]:
    """Where a wire turns, and what is drawn with it."""
    for each in wire.items:
        if isinstance(each, Line):
            for (x1, y1), (x2, y2) in pairwise(each.points):
                if y1 != y2:
                    yield min(x1, x2) - _CLEAR, max(x1, x2) + _CLEAR
        else:
            yield from (_around(box) for box in bounds(each))


def _around(box: Box) -> Span:
    return box[0] - _CLEAR, box[2] + _CLEAR


def _pieces(wire: Group) -> Iterator[tuple[Point, Point]]:
    for each in wire.items:
        if isinstance(each, Line):
            yield from pairwise(each.points)


def _crossed(wire: Group, x: float) -> set[float]:
    """At which heights a wire runs through a cut."""
    return {
        a[1] for a, b in _pieces(wire) if a[1] == b[1] and min(a[0], b[0]) < x < max(a[0], b[0])
    }


def _marks(ends: Iterable[tuple[float, float, int]]) -> Iterator[Item]:
    """The numbers of cut wires beside their ends; in two columns where they are close."""
    before: dict[tuple[float, bool], tuple[float, int]] = {}
    for cut, y, number in sorted(set(ends)):
        side = 1 if number > 0 else -1
        last, column = before.get((cut, number > 0), (-99.0, 0))
        column = 1 - column if y - last < 2 * _MARK + 1 else 0
        before[cut, number > 0] = y, column
        x = cut + side * (_STUB + _BESIDE + _MARK + column * (2 * _MARK + 2))
        ring = Circle(x, y, _MARK, theme.PAPER, theme.INK, theme.HAIR)
        base = y + theme.MIDDLE * theme.SIZE_SMALL
        text = Text(x, base, str(abs(number)), theme.SIZE_SMALL, anchor="middle")
        if column:
            start = cut + side * _STUB
            yield Line(((start, y), (x - side * _MARK, y)), theme.SLATE, theme.HAIR)
        yield Group((ring, text), "goes-on")
