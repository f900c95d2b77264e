"""The pointer of a step: arrows at what is spoken of, moving from one thing to the next."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from edgewise.publish.film.board import Board, Box, Panel
from edgewise.views.diagram.pointer import RIM, SHAPE, pointer, spots
from edgewise.views.layout.graph import Point

_SCALE: Final = 1.15
"""Larger than on paper: it is to be seen from the last row."""


@dataclass(frozen=True, slots=True)
class Pointer:
    """Arrows with their tips at some points of the picture.

    Examples
    --------
    >>> Pointer(((100.0, 50.0),)).towards(Pointer(((120.0, 50.0),)), 0.5).tips
    ((110.0, 50.0),)
    """

    tips: tuple[Point, ...]

    @property
    def reach(self) -> Box:
        """All that is drawn lies in here."""
        xs = [x + _SCALE * dx for x, _ in self.tips for dx, _ in SHAPE]
        ys = [y + _SCALE * dy for _, y in self.tips for _, dy in SHAPE]
        left, top = min(xs) - RIM, min(ys) - RIM
        return left, top, max(xs) + RIM - left, max(ys) + RIM - top

    def panel(self) -> Panel:
        """The arrows, drawn."""
        return Panel(tuple(pointer(x / _SCALE, y / _SCALE) for x, y in self.tips), scale=_SCALE)

    def towards(self, other: Pointer, share: float) -> Pointer:
        """On the way to another one; where they differ in number, there at once."""
        if len(self.tips) != len(other.tips):
            return other
        return Pointer(
            tuple(
                (a + share * (c - a), b + share * (d - b))
                for (a, b), (c, d) in zip(self.tips, other.tips, strict=True)
            )
        )


def pointing(board: Board, names: tuple[str, ...]) -> Pointer | None:
    """The pointer at these things, as far as the diagram shows them."""
    left, top = board.diagram_place
    scale = board.diagram_scale
    found = spots(board.picture, names).values()
    tips = tuple((left + x * scale, top + y * scale) for x, y in found)
    return Pointer(tips) if tips else None
