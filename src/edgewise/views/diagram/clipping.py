"""Clipping: what of drawn items lies between two uprights, and the boxes around them."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from itertools import pairwise
from typing import Final, TypeAlias

from edgewise.views.drawing import text_metrics
from edgewise.views.drawing.shapes import Circle, Group, Item, Line, Path, Rectangle
from edgewise.views.layout.graph import Point

Span: TypeAlias = tuple[float, float]
Box: TypeAlias = tuple[float, float, float, float]

_PATH: Final = re.compile(r"([A-Za-z])([^A-Za-z]*)")
_NUMBER: Final = re.compile(r"-?\d+\.?\d*")


def clipped(item: Item, span: Span, home: Span) -> Iterator[Item]:
    """What of an item lies in a span; what has no length belongs to its `home`.

    Examples
    --------
    >>> [one.points for one in clipped(Line(((0, 5), (90, 5))), (10, 40), (10, 40))]
    [((10, 5.0), (40, 5.0))]
    """
    left, right = span
    match item:
        case Group():
            inner = (left - item.x, right - item.x), (home[0] - item.x, home[1] - item.x)
            kept = tuple(part for each in item.items for part in clipped(each, *inner))
            if kept:
                yield replace(item, items=kept)
        case Line() if not item.closed:
            for points in _runs(item.points, left, right):
                yield replace(item, points=points)
        case Rectangle() if (
            item.x < left < item.x + item.width or item.x < right < item.x + item.width
        ):
            yield from _open(item, left, right)
        case _:
            for box in bounds(item):
                if home[0] <= (box[0] + box[2]) / 2 < home[1]:
                    yield item


def _runs(points: Sequence[Point], left: float, right: float) -> Iterator[tuple[Point, ...]]:
    """The stretches of a polyline between two uprights."""
    run: list[Point] = []
    for (x1, y1), (x2, y2) in pairwise(points):
        if x1 == x2:
            inside = left <= x1 <= right
            ends = ((x1, y1), (x2, y2)) if inside else None
        else:
            low, high = max(min(x1, x2), left), min(max(x1, x2), right)
            at = [(x, y1 + (y2 - y1) * (x - x1) / (x2 - x1)) for x in (low, high)]
            ends = (at[0], at[1]) if x1 < x2 else (at[1], at[0])
            ends = ends if low < high else None
        if ends is None or (run and run[-1] != ends[0]):
            if len(run) > 1:
                yield tuple(run)
            run = []
        if ends is not None:
            run = run or [ends[0]]
            run.append(ends[1])
    if len(run) > 1:
        yield tuple(run)


def _open(item: Rectangle, left: float, right: float) -> Iterator[Item]:
    """A rectangle with an open side where it is cut."""
    start, end = max(item.x, left), min(item.x + item.width, right)
    top, low = item.y, item.y + item.height
    yield Rectangle(start, top, end - start, item.height, item.fill)
    sides: list[tuple[Point, ...]] = [((start, top), (end, top)), ((start, low), (end, low))]
    if start == item.x:
        sides = [((end, top), (start, top), (start, low), (end, low))]
    elif end == item.x + item.width:
        sides = [((start, top), (end, top), (end, low), (start, low))]
    for side in sides:
        yield Line(side, item.stroke, item.weight, item.dash)


def closed(items: Sequence[Item], most: float) -> tuple[Item, ...]:
    """The items, with no empty stretch from top to bottom longer than `most`.

    Examples
    --------
    >>> from edgewise.views.drawing.shapes import Circle
    >>> far = closed((Circle(9, 0, 5), Circle(9, 200, 5)), 30)
    >>> [*bounds(far[1])]
    [(4.0, 35.0, 14.0, 45.0)]
    """
    spans = sorted(_heights(items, 0.0))
    end, gaps = spans[0][1] if spans else 0.0, list[Span]()
    for top, low in spans:
        if top - end > most:
            gaps.append((top, top - end - most))
        end = max(end, low)
    return tuple(_raised(item, gaps, 0.0) for item in items) if gaps else tuple(items)


def _heights(items: Iterable[Item], y: float) -> Iterator[Span]:
    """From where to where each thing that is drawn reaches."""
    for item in items:
        if isinstance(item, Group):
            yield from _heights(item.items, y + item.y)
        else:
            yield from ((box[1] + y, box[3] + y) for box in bounds(item))


def _raised(item: Item, gaps: Sequence[Span], y: float) -> Item:
    """The item as much higher as the gaps above it are to be shorter."""
    tops = [top for top, _ in _heights((item,), y)]
    shifts = {sum(by for at, by in gaps if at <= top) for top in tops}
    if isinstance(item, Group) and (len(shifts) > 1 or item.kind == "wire"):
        inner = tuple(_raised(each, gaps, y + item.y) for each in item.items)
        return replace(item, items=inner)
    by = max(shifts, default=0.0)
    if not by:
        return item
    match item:
        case Group():
            return replace(item, y=item.y - by)
        case Line():
            return replace(item, points=tuple((x, y - by) for x, y in item.points))
        case _:
            return Group((item,), y=-by)


def bounds(item: Item) -> Iterator[Box]:
    """The box around an item; none around an empty group."""
    match item:
        case Group():
            boxes = [moved(box, item) for each in item.items for box in bounds(each)]
            if boxes:
                lefts, tops, rights, lows = zip(*boxes, strict=True)
                yield min(lefts), min(tops), max(rights), max(lows)
        case Line():
            xs, ys = zip(*item.points, strict=True)
            yield min(xs), min(ys), max(xs), max(ys)
        case Rectangle():
            yield item.x, item.y, item.x + item.width, item.y + item.height
        case Circle():
            r = item.radius
            yield item.x - r, item.y - r, item.x + r, item.y + r
        case Path():
            yield item.box or _of_path(item.data)
        case _:
            yield text_metrics.box(item)


def moved(box: Box, group: Group) -> Box:
    """The box of something in a group, where the group has it."""
    return box[0] + group.x, box[1] + group.y, box[2] + group.x, box[3] + group.y


def _of_path(data: str) -> Box:
    """Around all points of path data, those that only bend a curve, too."""
    xs, ys = [], []
    x = y = 0.0
    for letter, rest in _PATH.findall(data):
        numbers = [float(one) for one in _NUMBER.findall(rest)]
        if letter in "Hh":
            x = numbers[-1] + (x if letter == "h" else 0.0)
        elif letter in "Vv":
            y = numbers[-1] + (y if letter == "v" else 0.0)
        elif letter == "A":
            x, y = numbers[-2:]
        else:
            for px, py in zip(numbers[::2], numbers[1::2], strict=False):
                x, y = px, py
                xs.append(x)
                ys.append(y)
        xs.append(x)
        ys.append(y)
    return min(xs), min(ys), max(xs), max(ys)
