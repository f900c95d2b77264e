"""Label: where the name of a net stands beside a wire that was laid without room for it."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from edgewise.views.layout.graph import Layout, PlacedWire, Point

Room = tuple[float, float, float, float]
"""Left, top, width, height."""
_AWAY = 4.0


def room(layout: Layout, wire: PlacedWire, size: tuple[float, float]) -> Room:
    """The place beside a wire where a text of this size meets fewest boxes and wires.

    Examples
    --------
    >>> wire = PlacedWire("w", "s", ("t",), "", None, (((0, 20), (80, 20)),))
    >>> room(Layout(80, 40, (), (), (wire,)), wire, (30, 12))
    (0.0, 4.0, 30, 12)
    """
    obstacles = [*_obstacles(layout)]

    def met(place: Room) -> int:
        left, top, wide, high = place
        outside = left < 0 or top < 0 or left + wide > layout.width or top + high > layout.height
        return 9 * outside + sum(
            left < x2 and x1 < left + wide and top < y2 and y1 < top + high
            for x1, y1, x2, y2 in obstacles
        )

    return min(_places(wire, size), key=met)


def _places(wire: PlacedWire, size: tuple[float, float]) -> Iterator[Room]:
    wide, high = size
    for (x1, y1), (x2, y2) in _pieces(wire):
        for share in (0.0, 0.5, 1.0):
            if y1 == y2:
                left = min(x1, x2) + share * max(abs(x2 - x1) - wide, 0.0)
                yield left, y1 - _AWAY - high, wide, high
                yield left, y1 + _AWAY, wide, high
            else:
                top = min(y1, y2) + share * max(abs(y2 - y1) - high, 0.0)
                yield x1 + _AWAY, top, wide, high
                yield x1 - _AWAY - wide, top, wide, high


def _pieces(wire: PlacedWire) -> Iterator[tuple[Point, Point]]:
    for line in wire.lines:
        yield from pairwise(line)


def _obstacles(layout: Layout) -> Iterator[Room]:
    """Left, top, right, bottom of every box and of every piece of a wire."""
    for box in layout.boxes:
        yield box.x, box.y, box.x + box.width, box.y + box.height
    for wire in layout.wires:
        for (x1, y1), (x2, y2) in _pieces(wire):
            yield min(x1, x2) - 1, min(y1, y2) - 1, max(x1, x2) + 1, max(y1, y2) + 1
