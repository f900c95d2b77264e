"""Measures of a drawing: where its texts are, and what lies under them."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import combinations
from typing import Final

from edgewise.views.drawing import theme
from edgewise.views.drawing.shapes import Circle, Group, Item, Letters, Line, Path, Rectangle, Text
from edgewise.views.drawing.svg import Drawing
from edgewise.views.drawing.text_metrics import Box, box

SLACK: Final = 0.25
"""Px by which boxes may touch."""


@dataclass(frozen=True)
class Written:
    """A text, its box on the page, and the colours of its letters with their middles."""

    text: str
    box: Box
    letters: tuple[tuple[float, str], ...]
    order: int


@dataclass(frozen=True)
class Ground:
    """A filled box on the page."""

    box: Box
    fill: str
    order: int


def placed(items: tuple[Item, ...], x: float = 0, y: float = 0) -> Iterator[tuple[Item, Box]]:
    """Give every item that is not a group, in drawing order, with its group's move."""
    for item in items:
        if isinstance(item, Group):
            yield from placed(item.items, x + item.x, y + item.y)
        else:
            yield item, (x, y, x, y)


def moved(room: Box, by: Box) -> Box:
    left, top, right, bottom = (a + b for a, b in zip(room, by, strict=True))
    return left, top, right, bottom


def texts(drawing: Drawing) -> list[Written]:
    """Every text of a drawing."""
    found = []
    for order, (item, by) in enumerate(placed(drawing.items)):
        if isinstance(item, Text):
            left, _, right, _ = room = moved(box(item), by)
            found.append(Written(item.text, room, (((left + right) / 2, item.fill),), order))
        elif isinstance(item, Letters):
            letters = zip(item.xs, item.fills, strict=True)
            middles = tuple((x + by[0], fill) for x, fill in letters)
            found.append(Written(item.text, moved(box(item), by), middles, order))
    return found


def faults(drawing: Drawing) -> list[str]:
    """Say which texts overlap one another or leave the picture."""
    written = texts(drawing)
    said = [
        f"{text.text!r} leaves the picture"
        for text in written
        if text.box[0] < 0
        or text.box[1] < 0
        or text.box[2] > drawing.width
        or text.box[3] > drawing.height
    ]
    said += [f"{a.text!r} meets {b.text!r}" for a, b in combinations(written, 2) if meet(a, b)]
    return said


def meet(a: Written, b: Written) -> bool:
    return (
        a.box[0] + SLACK < b.box[2]
        and b.box[0] + SLACK < a.box[2]
        and a.box[1] + SLACK < b.box[3]
        and b.box[1] + SLACK < a.box[3]
    )


def grounds(drawing: Drawing) -> list[Ground]:
    """Every filled box, the picture's own ground first."""
    found = [Ground((0, 0, drawing.width, drawing.height), drawing.ground, -1)]
    for order, (item, by) in enumerate(placed(drawing.items)):
        match item:
            case Rectangle(fill=fill) if fill != theme.NONE:
                room = (item.x, item.y, item.x + item.width, item.y + item.height)
                found.append(Ground(moved(room, by), fill, order))
            case Path(fill=fill) if fill != theme.NONE:
                boxes = [item.box] if item.box else pieces(item.data)
                found += [Ground(moved(room, by), fill, order) for room in boxes]
            case Line(fill=fill) if fill != theme.NONE:
                room = bounds(list(item.points))
                found.append(Ground(moved(room, by), fill, order))
            case Circle(fill=fill) if fill != theme.NONE:
                r = item.radius
                room = (item.x - r, item.y - r, item.x + r, item.y + r)
                found.append(Ground(moved(room, by), fill, order))
    return found


_STEP: Final = re.compile(r"([MLHVhvz Z])([-0-9. ]*)")


def pieces(data: str) -> list[Box]:
    """Bounds of the closed pieces of straight path data."""
    found: list[Box] = []
    points: list[tuple[float, float]] = []
    x = y = 0.0
    for letter, numbers in _STEP.findall(data):
        values = [float(n) for n in numbers.split()]
        match letter:
            case "M" | "L":
                x, y = values
                if letter == "M":
                    points = []
            case "H":
                x = values[0]
            case "V":
                y = values[0]
            case "h":
                x += values[0]
            case "v":
                y += values[0]
            case _:
                found.append(bounds(points))
                continue
        points.append((x, y))
    return found


def bounds(points: list[tuple[float, float]]) -> Box:
    xs, ys = zip(*points, strict=True)
    return min(xs), min(ys), max(xs), max(ys)


def pairs(drawing: Drawing) -> set[tuple[str, str]]:
    """Give every pair of a letter's colour and the fill right under it."""
    under = grounds(drawing)
    found = set()
    for text in texts(drawing):
        y = (text.box[1] + text.box[3]) / 2
        for x, colour in text.letters:
            last = max(
                (g for g in under if g.order < text.order and inside(g.box, x, y)),
                key=lambda g: g.order,
            )
            found.add((colour, last.fill))
    return found


def inside(room: Box, x: float, y: float) -> bool:
    return room[0] <= x <= room[2] and room[1] <= y <= room[3]
