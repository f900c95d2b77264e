"""Figures of steps: the block diagram of a row with what grows below it, or what grows alone.

The places of parts, columns and edges are the same on all slides, so that nothing moves from one
to the next but what changed.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from math import ceil
from typing import Final, Literal, TypeAlias, cast, get_args

from edgewise.errors import EdgewiseError, Message, Suggestion
from edgewise.lesson.pieces import Stage
from edgewise.publish.slides.deck import Picture, pictured
from edgewise.publish.slides.shape import Box
from edgewise.spelling import close
from edgewise.trace import Trace
from edgewise.views.diagram import block_diagram
from edgewise.views.diagram import picture as diagram_picture
from edgewise.views.diagram.options import manner
from edgewise.views.diagram.pointer import headroom, pointers
from edgewise.views.drawing import theme
from edgewise.views.drawing.shapes import Group
from edgewise.views.drawing.svg import Drawing
from edgewise.views.table.edge_table import edge_table
from edgewise.views.text import alt_text
from edgewise.views.timing.timing_diagram import timing
from edgewise.words.messages import Words

Show: TypeAlias = Literal["diagram", "table", "timing"]
"""What a step shows: the block diagram, and below it the last rows of the table if there is room;
or the table or the timing diagram alone."""
SMALLEST: Final = 11.0
"""Points of the smallest letters, where that can be."""
LEAST: Final = SMALLEST / theme.SIZE_SMALL
LEAST_ROW: Final = SMALLEST / theme.SIZE_TEXT
"""Points in a px of a diagram, and of a table, in which there is no small type."""
PHASE_RULE: Final = 8.0
"""Px of the rules between phases that a table may have in some rows only."""
LARGEST: Final = 1.6
"""Points in a px of a figure, at most: a small circuit need not fill the wall."""
GAP: Final = 14.0
_ROWS: Final = 3
"""Rows that stand below a diagram: with fewer nothing is seen to grow."""
_CROP: Final = 10.0
"""Px of the margin of a figure that a slide, which has its own, does without."""


def shown(show: str) -> Show:
    """A way to show steps by its name.

    Raises
    ------
    EdgewiseError
        There is none of that name.

    Examples
    --------
    >>> shown("tabel")
    Traceback (most recent call last):
    edgewise.errors.EdgewiseError: a step can't show tabel; did you mean table?
    """
    if show not in get_args(Show):
        meant = close(show, get_args(Show))
        there = Message("step-shows", names=", ".join(get_args(Show)))
        hint = Suggestion(meant) if meant else there
        raise EdgewiseError(Message("step-show-unknown", found=show, hint=hint))
    return cast("Show", show)


@dataclass(frozen=True)
class Figures:
    """Draws the steps of one run.

    Parameters
    ----------
    trace : Trace
    wish : Stage
        Columns, opened parts and the way to draw, as the lesson's stage has them.
    room : Box
        Where the figures of a step stand, pt.
    show : {"diagram", "table", "timing"}
    words : Words
    pointed : tuple of str
        All that is pointed at in some step: there is room for its arrows in each.
    """

    trace: Trace
    wish: Stage
    room: Box
    show: Show
    words: Words
    pointed: tuple[str, ...] = ()

    def step(self, row: int, points: Sequence[str] = ()) -> tuple[Picture, ...]:
        """What is shown at a row."""
        if not self.trace.edges or self.show == "diagram":
            scale, rows, below = self._stacked
            above = pictured(self.diagram(row, points), scale)
            return (above, pictured(self._table(row, rows), below)) if rows else (above,)
        if self.show == "table":
            return (pictured(self._table(row, self._most), self._below(self._most)),)
        made, full = self._timing(row), self._timing(self.trace.edges)
        scale = min(LARGEST, self.room.width / full.width, self.room.height / full.height)
        return (pictured(made, scale, full.width),)

    def alone(self, row: int) -> Picture:
        """The diagram of a row, as large as there is room."""
        return pictured(self.diagram(row))

    @property
    def letters(self) -> float:
        """Points of the smallest letters of a step's main figure."""
        (first, *_) = self.step(self.trace.edges)
        fitting = min(LARGEST, self.room.width / first.width, self.room.height / first.height)
        size = theme.SIZE_TEXT if self.show == "table" else theme.SIZE_SMALL
        return (first.scale or fitting) * size

    # ------------------------------------------------------------------ the diagram

    @cached_property
    def _picture(self) -> diagram_picture.Picture:
        wish = self.wish
        way = manner(self.trace.design.circuit, wish.opened, wish.clock, wish.symbols)
        made = diagram_picture.Picture(self.trace, way, words=self.words)
        return made.fitted(self.room.width / LEAST)

    def diagram(self, row: int, points: Sequence[str] = ()) -> Drawing:
        """The block diagram of a row; the slide's title says which."""
        picture = self._picture
        width, height = picture.size
        arrows = tuple(pointers(picture, points))
        told = [self.words("about-pointed", names=", ".join(one.name for one in arrows))]
        told = told if arrows else []
        about = [*told, *block_diagram.sentences(self.trace, [row], self.words)]
        over = headroom(picture, self.pointed)
        items = (Group(tuple(picture.items(row)), kind="diagram"), *arrows)
        return Drawing(
            ceil(width),
            ceil(height + over),
            block_diagram.title(self.trace, row, self.words),
            alt_text.bounded(about, words=self.words),
            (Group(items, y=over),) if over else items,
        )

    # ------------------------------------------------------------------ what grows

    @cached_property
    def _columns(self) -> tuple[str, ...]:
        return self.wish.columns or self.trace.columns

    def _table(self, row: int, most: int) -> Drawing:
        rows = range(max(0, row + 1 - most), row + 1)
        made = edge_table(
            self.trace, self._columns, rows, caption="", steady=True, words=self.words
        )
        return _cropped(made)

    @cached_property
    def _most(self) -> int:
        """Rows of a table that stand on a slide in legible type."""
        rows = int(self._rows_in(self.room.height / self._below(2)))
        return max(2, min(rows, self.trace.edges + 1))

    def _timing(self, row: int) -> Drawing:
        """The rows up to this one, as many as fit side by side."""
        whole, most = self.trace.edges + 1, 1e9
        made = self._waves(range(whole), most)
        pitch = (made.width - self._waves(range(1), most).width) / max(1, whole - 1)
        room = self.room.width / LEAST
        fitting = whole - max(0, ceil((made.width - room) / pitch)) if pitch else whole
        return _cropped(self._waves(range(max(0, row + 1 - max(2, fitting)), row + 1), most))

    def _waves(self, rows: range, width: float) -> Drawing:
        return timing(
            self.trace,
            self._columns,
            rows,
            clock=self.wish.clock != "hidden",
            width=width,
            steady=True,
            words=self.words,
        )

    def _below(self, rows: int) -> float:
        """The scale of a table of so many rows."""
        made = self._table(min(rows - 1, self.trace.edges), rows)
        return min(self.room.width / made.width, 1.25)

    @cached_property
    def _stacked(self) -> tuple[float, int, float]:
        """The scale of the diagram, the rows of the table below it, and the scale of that.

        No rows, if not both would be legible.
        """
        above, room = self.diagram(0), self.room
        largest = min(LARGEST, room.width / above.width, room.height / above.height)
        if self.trace.edges + 1 < _ROWS:
            return largest, 0, 0.0
        below, scale = self._below(_ROWS), largest
        if below < LEAST_ROW:
            return largest, 0, 0.0
        while scale >= min(LEAST, largest):
            left = room.height - GAP - above.height * scale
            rows = int(self._rows_in(left / min(below, LEAST)))
            if rows >= _ROWS:
                rows = min(rows, self.trace.edges + 1)
                return scale, rows, min(below, left / self._height(rows))
            scale -= 0.01
        return largest, 0, 0.0

    @cached_property
    def _line(self) -> tuple[float, float]:
        """Px of a table of one row, and of each further one."""
        one, two = (self._table(row, 2).height for row in (0, 1))
        return one, two - one

    def _height(self, rows: int) -> float:
        """Px of a table of so many rows, the most that they take."""
        one, further = self._line
        return one + further * (rows - 1) + PHASE_RULE

    def _rows_in(self, height: float) -> float:
        one, further = self._line
        return (height - PHASE_RULE - one) / further + 1


def _cropped(drawing: Drawing) -> Drawing:
    """A figure with less of a margin."""
    moved = Group(drawing.items, x=-_CROP, y=-_CROP)
    width, height = drawing.width - 2 * _CROP, drawing.height - 2 * _CROP
    return replace(drawing, width=width, height=height, items=(moved,))
