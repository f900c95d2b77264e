"""The board: what stands where in a picture of the film, in units of which 648 are its height.

Above stand the moment and the title. Below them the block diagram, and under or beside it the
edge table, which grows, and the timing diagram, which advances. The lowest part stays empty: there
players write the captions.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from functools import cached_property
from typing import Final, TypeAlias

from edgewise.trace import Trace
from edgewise.views.diagram.picture import Picture, when
from edgewise.views.drawing import text_metrics, theme
from edgewise.views.drawing.shapes import Group, Item, Line, Text
from edgewise.views.drawing.theme import TABLE_CELL
from edgewise.views.table.edge_table import edge_table
from edgewise.views.timing.timing_diagram import scale, timing
from edgewise.views.timing.waveforms import SLOPE
from edgewise.words.messages import Words

WIDTH, HEIGHT = 1152.0, 648.0
"""16 to 9. The smallest letters are 12 of these units: 20 px at 1080p."""
MARGIN: Final = 32.0
_HEAD: Final = 56.0
"""Where the line under the heading is; an arrow at what stands on top does not reach over it."""
_TOP: Final = 90.0
_BOTTOM: Final = 566.0
"""What lies below is left to the captions."""
_GAP: Final = 16.0
_LOWER: Final = 188.0
"""Height that table and timing have at least under a diagram."""
_BESIDE: Final = 400.0
"""Width that they have at least beside it."""
_LARGER: Final = 1.4
"""Table and timing diagram are enlarged no more than this."""
_LEAST_ROWS: Final = 5
_LARGEST, _SMALLEST = 1.5, 0.62
"""A diagram is enlarged no more than this; where it would be smaller, it stands alone."""
_TITLE, _ABOUT = 44.0, 22.0
"""Letters of a title, and of what stands under it."""
_STRONGER: Final = 1.08
"""How much wider strong letters are, at most."""
_LEAST_TIMING: Final = 230.0
_SIGNAL: Final = 34.0
"""From signal to signal of a timing diagram; above them its head."""
_TIMING_HEAD: Final = 34.0 + theme.SIZE_TEXT + theme.SIZE_SMALL + 6.0
_TABLE_HEAD: Final = 26.0 + 2 * 5.0

Box: TypeAlias = tuple[float, float, float, float]
"""Left, top, width and height."""


@dataclass(frozen=True, slots=True)
class Panel:
    """Items in a place of the picture; what lies outside of `clip` is not shown."""

    items: tuple[Item, ...]
    x: float = 0.0
    y: float = 0.0
    scale: float = 1.0
    clip: Box | None = None
    """In the items' own lengths."""


@dataclass(frozen=True, slots=True)
class _Places:
    """Where diagram, table and timing diagram are, and how much the latter two are enlarged."""

    diagram: Box
    table: Box | None = None
    times: Box | None = None
    larger: float = 1.0


@dataclass(frozen=True)
class Board:
    """The places of a lesson's film.

    Examples
    --------
    >>> from edgewise import catalogue, run
    >>> from edgewise.views.diagram.options import Manner
    >>> from edgewise.words.messages import ENGLISH
    >>> trace = run(catalogue.design("serial-adder", n=4), a=6, b=3)
    >>> board = Board(Picture(trace, Manner()), trace.columns, "Rain", ENGLISH)
    >>> board.tabled, board.timed
    (('A', 'B', 'S'), ('FA.sum', 'FA.carry-out', 'C'))
    """

    picture: Picture
    columns: tuple[str, ...]
    name: str
    """The lesson's title."""
    words: Words = field(repr=False)

    @property
    def trace(self) -> Trace:
        """The run."""
        return self.picture.trace

    # ------------------------------------------------------------ places

    @cached_property
    def _places(self) -> _Places:
        w, h = self.picture.size
        wide, high = WIDTH - 2 * MARGIN, _BOTTOM - _TOP
        alone = _Places((MARGIN, _TOP, wide, high))
        if not self.trace.edges:
            return alone
        under = min(wide / w, (high - _GAP - _LOWER) / h, _LARGEST)
        beside = min((wide - _GAP - _BESIDE) / w, high / h, _LARGEST)
        if max(under, beside) < _SMALLEST:
            return alone
        if under >= beside:
            top = _TOP + under * h + _GAP
            rest = (MARGIN, top, wide, _BOTTOM - top)
            larger = self._larger(wide, rest[3])
            return _Places(
                (MARGIN, _TOP, wide, under * h), *self._side_by_side(rest, larger), larger
            )
        left = MARGIN + beside * w + _GAP
        rest = (left, _TOP, WIDTH - MARGIN - left, high)
        return _Places((MARGIN, _TOP, beside * w, high), *self._stacked(rest))

    def _side_by_side(self, room: Box, larger: float) -> tuple[Box | None, Box | None]:
        x, y, wide, high = room
        names = self._words_within(wide)
        used = self._table_width(names) * larger if names else 0.0
        left = wide - used - (_GAP * larger if used else 0.0)
        table = (x, y, used, high) if used else None
        times = (x + wide - left, y, left, high) if left >= _LEAST_TIMING else None
        return table, times

    def _larger(self, wide: float, high: float) -> float:
        """How much table and timing diagram can be enlarged under the diagram of a short run."""
        names = self._words_within(wide)
        others = self._others(names)
        used = self._table_width(names) + _GAP if names else 0.0
        if others:
            first, pitch = scale(self.trace, others, words=self.words)
            used += first + pitch * (self.trace.edges + 1)
        rows = min(_LEAST_ROWS, self.trace.edges + 1)
        down = _TABLE_HEAD + rows * self._pitch(names) if names else 0.0
        signals = _TIMING_HEAD + _SIGNAL * (min(len(others), 3) + 1) if others else 0.0
        return max(1.0, min(_LARGER, wide / used, high / max(down, signals)))

    def _stacked(self, room: Box) -> tuple[Box | None, Box | None]:
        x, y, wide, high = room
        if not self._words_within(wide):
            return None, (x, y, wide, high)
        half = (high - _GAP) / 2
        return (x, y, wide, half), (x, y + half + _GAP, wide, half)

    def _words_within(self, wide: float) -> tuple[str, ...]:
        """The columns of more than one bit, as many as there is room for."""
        kept: tuple[str, ...] = ()
        for name in self.columns:
            if self.trace.word(name, 0).width > 1 and self._table_width((*kept, name)) <= wide:
                kept = (*kept, name)
        return kept

    def _table_width(self, names: tuple[str, ...]) -> float:
        return edge_table(self.trace, names, (0,), caption="").width - 2 * theme.MARGIN + _GAP

    @cached_property
    def tabled(self) -> tuple[str, ...]:
        """The columns of the table."""
        table = self._places.table
        return self._words_within(table[2] / self._places.larger) if table else ()

    @cached_property
    def timed(self) -> tuple[str, ...]:
        """The signals of the timing diagram: single bits first."""
        times = self._places.times
        if times is None:
            return ()
        high = times[3] / self._places.larger
        most = int((high + 2 * theme.MARGIN - _TIMING_HEAD) // _SIGNAL) - 1
        return self._others(self.tabled)[: max(most, 0)]

    def _others(self, tabled: tuple[str, ...]) -> tuple[str, ...]:
        """The columns that stand in no table, single bits first."""
        others = [name for name in self.columns if name not in tabled]
        given = {net.name for net in self.trace.design.circuit.inputs}
        others.sort(key=lambda name: (self.trace.word(name, 0).width > 1, name in given))
        return tuple(others)

    @cached_property
    def diagram_scale(self) -> float:
        """How much the diagram is enlarged."""
        _, _, wide, high = self._places.diagram
        w, h = self.picture.size
        return min(wide / w, high / h, _LARGEST)

    @cached_property
    def diagram_place(self) -> tuple[float, float]:
        """Where the top left corner of the diagram is."""
        x, y, wide, high = self._places.diagram
        w, h = (length * self.diagram_scale for length in self.picture.size)
        return x + (wide - w) / 2, y + (high - h) / 2

    # ------------------------------------------------------------ pictures

    def title(self, lines: Sequence[str]) -> Panel:
        """The title of the lesson, and under it what runs."""
        room = WIDTH - 4 * MARGIN
        title = text_metrics.wrapped(self.name, room, _TITLE * _STRONGER)
        y = HEIGHT / 2 - 40 - (len(title) - 1) * _TITLE / 2
        items: list[Item] = []
        for line in title:
            items.append(Text(2 * MARGIN, y, line, _TITLE, weight=theme.STRONG))
            y += _TITLE * 1.2
        items.append(Line(((2 * MARGIN, y - 20), (WIDTH - 2 * MARGIN, y - 20)), theme.INK))
        for line in lines:
            y += _ABOUT * 1.5
            items.append(Text(2 * MARGIN, y - 16, fitted(line, room, _ABOUT), _ABOUT, theme.SLATE))
        return Panel(tuple(items))

    def panels(self, row: int, section: str = "", heading: str = "") -> Iterator[Panel]:
        """Everything that stands still while a row is shown; its moment is the heading, if none."""
        yield self._heading(heading or when(self.trace, row, self.words), section)
        yield self.diagram(row)
        yield from self._table(row)
        yield from self._timing(row)

    def diagram(self, row: int) -> Panel:
        """The block diagram."""
        items = tuple(self.picture.items(row))
        return Panel(items, *self.diagram_place, self.diagram_scale)

    def _heading(self, moment: str, section: str) -> Panel:
        moment = (
            moment[:1].upper() + moment[1:] or section or self.name
        )  # without edges there is none
        moment = fitted(moment, (WIDTH - 2 * MARGIN) / _STRONGER, 24.0)
        room = WIDTH - 2 * MARGIN - text_metrics.width(moment, 24.0, weight=theme.STRONG) - 40
        about = " · ".join(one for one in (self.name, section) if one not in ("", moment))
        if text_metrics.width(about, 16.0) > room:
            about = fitted(section or self.name, room, 16.0) if room > 0 else ""
        return Panel(
            (
                Text(MARGIN, _HEAD - 14, moment, 24.0, weight=theme.STRONG),
                Text(WIDTH - MARGIN, _HEAD - 14, about, 16.0, theme.SLATE, anchor="end"),
                Line(((MARGIN, _HEAD), (WIDTH - MARGIN, _HEAD)), theme.RULE, theme.OUTLINE),
            )
        )

    def _table(self, row: int) -> Iterator[Panel]:
        place, larger = self._places.table, self._places.larger
        if place is None or not self.tabled:
            return
        x, y, _, high = place
        most = max(1, int((high / larger - _TABLE_HEAD) // self._pitch(self.tabled)))
        first = max(0, row - most + 1)
        rows = range(first, min(first + most, self.trace.edges + 1))
        drawn = edge_table(self.trace, self.tabled, rows, caption="", words=self.words)
        corner = x - theme.MARGIN * larger, y - theme.MARGIN * larger
        yield Panel(_until(drawn.items, row), *corner, larger)

    def _pitch(self, names: tuple[str, ...]) -> float:
        """From row to row of a table."""
        folded = any(self.trace.word(name, 0).width > theme.FOLD for name in names)
        return TABLE_CELL.pitch_down + 5.0 + (theme.SIZE_SMALL + 5 if folded else 0.0)

    def _timing(self, row: int) -> Iterator[Panel]:
        place, larger = self._places.times, self._places.larger
        if place is None or not self.timed:
            return
        x, y, *_ = place
        rows, step = self._page(row)
        drawn = timing(self.trace, self.timed, rows, width=1e6, words=self.words)
        axis = tuple(item for item in drawn.items if not _advances(item))
        waves = tuple(item for item in drawn.items if _advances(item))
        # The mark of the next edge stands on the border of the row.
        end = step[0] + step[1] * (row - rows[0] + 1) - 4.0
        clip = (0.0, 0.0, drawn.width if row == self.trace.edges else end, drawn.height)
        corner = x - theme.MARGIN * larger, y - theme.MARGIN * larger
        yield Panel(axis, *corner, larger)
        yield Panel(waves, *corner, larger, clip)

    def _page(self, row: int) -> tuple[range, tuple[float, float]]:
        """The rows of the timing diagram that has this row, and its scale."""
        place, larger = self._places.times, self._places.larger
        assert place is not None
        left, pitch = scale(self.trace, self.timed, words=self.words)
        most = max(1, int((place[2] / larger + theme.MARGIN - left - SLOPE) // pitch))
        first = row - row % most
        rows = range(first, min(first + most, self.trace.edges + 1))
        return rows, scale(self.trace, self.timed, rows, words=self.words)

    def advance(self, row: int) -> Box | None:
        """The part of the picture in which the timing diagram gets a new row."""
        place, larger = self._places.times, self._places.larger
        if place is None or not self.timed:
            return None
        rows, (left, pitch) = self._page(row)
        x = place[0] + larger * (left + pitch * (row - rows[0]) - 4.0 - theme.MARGIN)
        top = place[1] + larger * (_TIMING_HEAD - 34.0)
        high = larger * (_SIGNAL * (len(self.timed) + 1) + 8)
        return x, top, larger * (pitch + 8.0), min(high, HEIGHT - top)


def _advances(item: Item) -> bool:
    return isinstance(item, Group) and item.kind in ("clock", "signal")


def _until(items: tuple[Item, ...], row: int) -> tuple[Item, ...]:
    """The items of a table up to a row."""
    kept: list[Item] = []
    for item in items:
        if isinstance(item, Group) and item.kind == "row" and int(item.name) > row:
            while not (isinstance(kept[-1], Group) and kept[-1].kind == "row"):
                kept.pop()
            break
        kept.append(item)
    return tuple(kept)


def fitted(text: str, room: float, size: float) -> str:
    """The text, its end left out where there is too little room; empty if nothing fits.

    Examples
    --------
    >>> fitted("Two rain gauges", 200, 16), fitted("Two rain gauges", 60, 16)
    ('Two rain gauges', 'Two ra…')
    """
    if text_metrics.width(text, size) <= room:
        return text
    while text and text_metrics.width(f"{text}…", size) > room:
        text = text[:-1].rstrip()
    return f"{text}…" if text else ""
