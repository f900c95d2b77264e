"""The pointer: a frame around what is spoken of, and an arrow to it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

from edgewise.errors import EdgewiseError
from edgewise.publish.film.board import Board, Box, Panel
from edgewise.views.diagram.elements import Element
from edgewise.views.drawing import theme
from edgewise.views.drawing.shapes import Item, Line, Rectangle

_FRAME: Final = 5.0
_ROOM: Final = 5.0
"""Between what is framed and its frame."""
_NEAR: Final = 11.0
"""Half the side of the frame around the end of a wire."""
_ARROW: Final = ((0, 0), (0, 21), (5, 16.5), (8.6, 24.5), (12.2, 23), (8.6, 15.2), (15, 14.6))
"""Corners of the arrow; its tip is the first."""


@dataclass(frozen=True, slots=True)
class Pointer:
    """Frames around things; the arrow points at the first of them.

    Examples
    --------
    >>> Pointer(((100.0, 50.0, 20.0, 20.0),)).reach
    (90.0, 40.0, 52.0, 54.0)
    """

    boxes: tuple[Box, ...]

    @property
    def reach(self) -> Box:
        """All that is drawn lies in here."""
        left = min(x for x, _, _, _ in self.boxes) - 10.0
        top = min(y for _, y, _, _ in self.boxes) - 10.0
        right = max(x + w for x, _, w, _ in self.boxes) + 22.0
        bottom = max(y + h for _, y, _, h in self.boxes) + 24.0
        return left, top, right - left, bottom - top

    def panel(self) -> Panel:
        """It, drawn."""
        items: list[Item] = [
            Rectangle(
                x - _ROOM,
                y - _ROOM,
                w + 2 * _ROOM,
                h + 2 * _ROOM,
                stroke=theme.TRAIL,
                weight=_FRAME,
                radius=8,
            )
            for x, y, w, h in self.boxes
        ]
        x, y, w, h = self.boxes[0]
        tip = x + w - 2, y + h - 2
        corners = tuple((tip[0] + dx, tip[1] + dy) for dx, dy in _ARROW)
        items.append(
            Line(corners, theme.PAPER, 2.0, fill=theme.INK, closed=True, round=True),
        )
        return Panel(tuple(items))

    def towards(self, other: Pointer, share: float) -> Pointer:
        """On the way to another one; where they differ in number, there at once."""
        if len(self.boxes) != len(other.boxes):
            return other
        return Pointer(
            tuple(
                (
                    a + share * (e - a),
                    b + share * (f - b),
                    c + share * (g - c),
                    d + share * (h - d),
                )
                for (a, b, c, d), (e, f, g, h) in zip(self.boxes, other.boxes, strict=True)
            )
        )


def pointer(board: Board, names: tuple[str, ...]) -> Pointer | None:
    """The pointer to these things, as far as the diagram shows them."""
    found = tuple(box for name in names for box in _box(board, name))
    return Pointer(found) if found else None


def _box(board: Board, name: str) -> Iterator[Box]:
    """Where a part, a port or some bits are, in units; nothing if they are not drawn."""
    picture, scale = board.picture, board.diagram_scale
    left, top = board.diagram_place
    elements = {element.id: element for element in picture.scene.walk()}
    places = {placed.id: placed for placed in picture.layout.boxes}

    def onto(box: Box) -> Box:
        x, y, w, h = (length * scale for length in box)
        return left + x, top + y, w, h

    part = elements.get(name) or next((e for e in elements.values() if e.label == name), None)
    if part is not None and part.id in places:
        placed = places[part.id]
        x1, y1, x2, y2 = part.frame if any(part.frame) else (0.0, 0.0, part.width, part.height)
        yield onto((placed.x + x1, placed.y + y1, x2 - x1, y2 - y1))
        return
    try:
        nets = set(picture.trace.design.netlist.find(name))
    except EdgewiseError:  # a part that is not drawn by itself
        return
    for element in elements.values():
        cells = _cells(element, nets)
        if cells and element.id in places:
            x, y, w, h = cells
            yield onto((places[element.id].x + x, places[element.id].y + y, w, h))
            return
    owners = (pin.id for pin in picture.scene.pins.values() if set(pin.nets) == nets)
    pin = next(owners, None)
    spot = next(((p.x, p.y) for p in picture.layout.ports if p.id == pin), None)
    if spot:
        yield onto((spot[0] - _NEAR, spot[1] - _NEAR, 2 * _NEAR, 2 * _NEAR))


def _cells(element: Element, nets: set[int]) -> Box | None:
    """The cells of these bits in an element that shows them."""
    word, size = element.word, element.cell
    if not nets or not nets.issubset(word) or len(word) > theme.FOLD:
        return None
    x, y = element.cells
    places = [len(word) - 1 - word.index(net) for net in nets]
    first, last = min(places), max(places)
    return x + first * size.width, y, (last - first + 1) * size.width, size.height
