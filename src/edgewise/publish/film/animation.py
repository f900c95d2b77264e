"""The animation: frame by frame what is drawn, from step to step.

At an edge the bits that are stored run into the storage elements; then the picture is that of the
next row, what is now held runs on along its wires, the table has a new line and the timing diagram
advances. For the rest of its time a step stands still, and nothing is drawn.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property, lru_cache
from typing import Final

from edgewise.bits import Word
from edgewise.publish.film.board import Board, Box, Panel
from edgewise.publish.film.motion import Motion, Token
from edgewise.publish.film.painter import Overlay, Painter
from edgewise.publish.film.pointer import Pointer, pointing
from edgewise.views.drawing import raster, text_metrics, theme
from edgewise.views.drawing.bit_cells import cells
from edgewise.views.drawing.shapes import Item, Rectangle, Text
from edgewise.views.drawing.theme import CellSize

STORED: Final = 0.8
"""Seconds in which what is stored runs to where it is stored."""
_WAVE: Final = 0.5
"""Seconds in which what is held runs past one part."""
_ALL_WAVES: Final = 2.0
"""Seconds that they take together, at most."""
SEEN: Final = 1.5
"""Seconds that the picture stands after a change, at least."""
_POINTING: Final = 0.4
"""Seconds in which the pointer moves."""
_CELL: Final = CellSize(width=17, height=21, digit=15, band=0, gap=0)
_WORTH: Final = 1.5
"""A way shorter than this many widths of what runs there is not worth the covering of its ends."""
_HALO: Final = 2.5
_WIDEST: Final = 8
"""A word of more bits runs as its value."""


@dataclass(frozen=True, slots=True)
class Shown:
    """A step as it is drawn: its row, the section it stands in, what is pointed at."""

    row: int
    section: str = ""
    points: tuple[str, ...] = ()
    heading: str = ""
    """Stands over the picture in place of the moment."""


@dataclass(frozen=True)
class Animation:
    """The frames of a lesson's steps."""

    board: Board
    rate: float

    @cached_property
    def _motion(self) -> Motion:
        return Motion(self.board.picture)

    def moving(self, before: Shown | None, now: Shown) -> float:
        """Seconds in which something moves when one step follows another."""
        return sum(self._parts(before, now))

    def _parts(self, before: Shown | None, now: Shown) -> tuple[float, float]:
        """Seconds before the change of the picture, and behind it."""
        pointing = _POINTING if now.points else 0.0
        if before is None or now.row != before.row + 1:
            return 0.0, self._settling(now.row) if not self.board.trace.edges else pointing
        stored = STORED if self._motion.stored(now.row) else 0.0
        return stored, max(self._settling(now.row), pointing)

    def _settling(self, row: int) -> float:
        return min(_WAVE * len(self._motion.settled(row)), _ALL_WAVES)

    def frames(
        self, painter: Painter, before: Shown | None, now: Shown, count: int
    ) -> Iterator[int]:
        """Draw the frames of a step; yields for how many frames the picture stands so."""
        first, behind = (round(part * self.rate) for part in self._parts(before, now))
        # However short the step is, a third of it stands still.
        first, behind = min(first, count // 3), min(behind, count // 3)
        if first:
            tokens = self._motion.stored(now.row)
            for number in range(first):
                painter.overlay(self._along(tokens, eased(number / first)))
                yield 1
        old = painter.still
        painter.show(painter.image(self.board.panels(now.row, now.section, now.heading)))
        steps = before is not None and now.row == before.row + 1
        hidden = self.board.advance(now.row) if steps else None
        running = steps or (before is None and not self.board.trace.edges)
        waves = self._motion.settled(now.row) if running else ()
        goes = pointing(self.board, now.points)
        came = pointing(self.board, before.points) if before else None
        for number in range(behind):
            overlays = []
            share = number / behind
            if hidden is not None and old is not None:
                overlays.append(_covered(hidden, old, share))
            overlays += self._waves(waves, share)
            overlays += _pointed(came, goes, number / (_POINTING * self.rate))
            painter.overlay(overlays)
            yield 1
        painter.overlay(_pointed(None, goes, 1.0))
        yield count - first - behind

    def _waves(self, waves: tuple[tuple[Token, ...], ...], share: float) -> list[Overlay]:
        if not waves:
            return []
        number = min(int(share * len(waves)), len(waves) - 1)
        return self._along(waves[number], eased(share * len(waves) - number))

    def _along(self, tokens: tuple[Token, ...], share: float) -> list[Overlay]:
        scale = self.board.diagram_scale
        left, top = self.board.diagram_place
        made = []
        for token in tokens:
            x, y = token.at(share)
            drawn = drawn_token(token.word)
            if token.length < drawn.box[2] * _WORTH:
                continue
            box = drawn.box
            place = left + x * scale, top + y * scale
            reach = (
                place[0] + box[0] * scale,
                place[1] + box[1] * scale,
                box[2] * scale,
                box[3] * scale,
            )
            made.append(Overlay(reach, Panel(drawn.items, *place, scale)))
        return made


@dataclass(frozen=True, slots=True)
class Drawn:
    """A word on its way, about the point where it is."""

    items: tuple[Item, ...]
    box: Box


@lru_cache(maxsize=4096)
def drawn_token(word: Word) -> Drawn:
    """The cells of a word, or its value where it is long.

    Examples
    --------
    >>> drawn_token(Word(1, 1)).box
    (-11.0, -13.0, 22.0, 26.0)
    """
    high = _CELL.height
    if word.width <= _WIDEST:
        wide = _CELL.width * word.width
        inner: tuple[Item, ...] = (cells(word, -wide / 2, -high / 2, size=_CELL),)
    else:
        text = f"= {word.value}" if word.known else "X"
        wide = text_metrics.width(text, _CELL.digit, "bits") + 8
        place = (-wide / 2, -high / 2, wide, high)
        inner = (
            Rectangle(*place, theme.PAPER, theme.INK, theme.CELL_LINE),
            Text(
                0,
                theme.MIDDLE * _CELL.digit,
                text,
                _CELL.digit,
                family="bits",
                anchor="middle",
            ),
        )
    halo = Rectangle(
        -wide / 2 - _HALO,
        -high / 2 - _HALO,
        wide + 2 * _HALO,
        high + 2 * _HALO,
        theme.PAPER,
        radius=4,
    )
    return Drawn((halo, *inner), (-wide / 2 - 2.5, -high / 2 - 2.5, wide + 5.0, high + 5.0))


def eased(share: float) -> float:
    """A share of the way that begins and ends slowly.

    Examples
    --------
    >>> eased(0), eased(0.25), eased(1)
    (0, 0.15625, 1)
    """
    return share * share * (3 - 2 * share)


def _covered(box: Box, old: raster.Image, share: float) -> Overlay:
    """What is not yet seen of the new row of the timing diagram: there the old picture stands."""
    x, y, wide, high = box
    return Overlay((x + share * wide, y, wide * (1 - share), high), old)


def _pointed(came: Pointer | None, goes: Pointer | None, share: float) -> list[Overlay]:
    if goes is None:
        return []
    shown = goes if came is None or share >= 1 else came.towards(goes, eased(share))
    return [Overlay(shown.reach, shown.panel())]
