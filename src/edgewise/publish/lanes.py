"""Lanes of a timing diagram that are left to be drawn."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import Final

from edgewise.views.drawing import theme
from edgewise.views.drawing.shapes import Group, Item, Line, Text
from edgewise.views.drawing.svg import Drawing
from edgewise.words.messages import Words

_LANE_TOP: Final = -14.83
_LANE_BOTTOM: Final = 5.17
"""From the base line of a signal's name to the top and bottom of its lane, px."""
_BEFORE: Final = 12.0
"""Px of a lane before the first edge."""


def span(drawing: Drawing) -> tuple[float, float]:
    """The left and right end of a timing diagram's lanes."""
    guides = [
        x
        for item in drawing.items
        if isinstance(item, Group) and item.kind == "guides"
        for line in item.items
        if isinstance(line, Line)
        for x, _ in line.points
    ]
    return min(guides, default=0.0) - _BEFORE, drawing.width - theme.MARGIN


def without_lane(drawing: Drawing, lane: str, words: Words) -> Drawing:
    """A timing diagram in which the signal of one lane is left to be drawn."""
    ends = span(drawing)
    return replace(
        drawing,
        title=words("handout-emptied", title=drawing.title),
        description=words("question-lane-missing", lane=lane),
        items=tuple(_laneless(drawing.items, lane, ends)),
    )


def _laneless(items: tuple[Item, ...], lane: str, ends: tuple[float, float]) -> Iterator[Item]:
    before: Item | None = None
    for item in items:
        match item:
            case Group(kind="signal", name=name) if name == lane and isinstance(before, Text):
                yield open_lane(item, before.y, ends)
            case Group():
                yield replace(item, items=tuple(_laneless(item.items, lane, ends)))
            case _:
                yield item
        before = item


def open_lane(signal: Group, base: float, ends: tuple[float, float]) -> Group:
    """A lane's place, its name's base line given, without its signal."""
    left, right = ends
    lines = (
        Line(((left, y), (right, y)), theme.RULE, theme.HAIR)
        for y in (base + _LANE_TOP, base + _LANE_BOTTOM)
    )
    return Group(tuple(lines), signal.kind, signal.name)
