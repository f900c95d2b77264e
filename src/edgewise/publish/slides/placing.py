"""Placing: where on a slide everything stands, and how large, for whoever writes it.

Text is set as large as there is room for, never smaller than can be read from the last row; what
then does not fit goes on on a further slide.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Final

from edgewise.publish.slides.deck import Line, Picture, Slide, Style
from edgewise.publish.slides.figures import GAP, LARGEST
from edgewise.publish.slides.shape import Box, Shape
from edgewise.views.drawing import text_metrics, theme
from edgewise.views.drawing.theme import Family
from edgewise.words.messages import Words

SIZES: Final = (28.0, 26.0, 24.0, 22.0, 20.0)
"""Points of a line of text, the largest that fits; 20 is legible from the last row of a lecture
room (common practice, no source)."""
SHARES: Final[dict[Style, float]] = {"plain": 1.0, "bullet": 1.0, "formula": 0.9, "note": 0.8}
"""Size of a style beside that of a plain line."""
AFTER: Final[dict[Style, float]] = {"plain": 0.5, "bullet": 0.4, "formula": 0.15, "note": 0.6}
"""Room below a line, in ems."""
LEADING: Final = 1.2
TITLES: Final = ((1, 30.0), (1, 27.0), (2, 25.0), (2, 22.0))
"""Lines of a title and its points, as long as it fits."""
TITLE_LEADING: Final = 1.05
WIDER: Final = 1.13
"""A slide's own typeface, which every reader has, beside ours, which are measured."""
INDENT: Final = 0.9
"""Of an item of a list, ems."""
_TABLE_SIZES: Final = (20.0, 18.0, 16.0, 14.0, 12.0, 11.0)
_ROW: Final = 1.7
"""Height of a row of a table, ems."""
_CELL_MARGINS: Final = 17.0


@dataclass(frozen=True, slots=True)
class PlacedPicture:
    """A picture in its box."""

    picture: Picture
    box: Box


@dataclass(frozen=True, slots=True)
class PlacedTable:
    """A table in its box, and its type in points."""

    rows: tuple[tuple[str, ...], ...]
    box: Box
    size: float


@dataclass(frozen=True, slots=True)
class Placed:
    """A slide of which everything has its place."""

    slide: Slide
    title_size: float
    text: Box | None
    size: float
    pictures: tuple[PlacedPicture, ...] = ()
    table: PlacedTable | None = None


def placed(slide: Slide, shape: Shape, words: Words) -> Iterator[Placed]:
    """A slide, or several if its lines need more than one.

    Examples
    --------
    >>> from edgewise.publish.slides.shape import SHAPES
    >>> from edgewise.words.messages import ENGLISH
    >>> long = Slide("Claims", tuple(Line("edges == 2*n", "formula") for _ in range(30)))
    >>> [len(one.slide.lines) for one in placed(long, SHAPES["16:9"], ENGLISH)]
    [17, 13]
    """
    room = shape.content
    rest = slide
    number = 1
    while True:
        kept = _fitting(rest.lines, room, whole=bool(rest.pictures or rest.table))
        title = slide.title
        if number > 1:
            title = words("slides-continued", title=slide.title, number=number)
        last = kept == len(rest.lines)
        shown = replace(rest, title=title, lines=rest.lines[:kept])
        yield _one(shown if last else replace(shown, pictures=(), table=()), shape)
        if last:
            return
        rest = replace(rest, lines=rest.lines[kept:], notes="")
        number += 1


def _one(slide: Slide, shape: Shape) -> Placed:
    room = shape.content
    with_more = bool(slide.pictures or slide.table)
    most = room.height * (0.5 if with_more else 1.0)
    size = next((s for s in SIZES if height(slide.lines, s, room.width) <= most), SIZES[-1])
    text, top = None, room.y
    if slide.lines:
        high = height(slide.lines, size, room.width)
        text = Box(room.x, room.y, room.width, high if with_more else room.height)
        top += high + GAP if with_more else 0.0
    left = Box(room.x, top, room.width, room.y + room.height - top)
    pictures = tuple(_stacked(slide.pictures, left))
    table = _table(slide.table, left) if slide.table else None
    return Placed(slide, _title_size(slide.title, shape.title), text, size, pictures, table)


def _title_size(title: str, box: Box) -> float:
    for most, size in TITLES:
        lines = len(_wrapped(title, size, box.width, "text", theme.STRONG))
        if lines <= most and lines * size * TITLE_LEADING <= box.height:
            return size
    return TITLES[-1][1]


def _fitting(lines: Sequence[Line], room: Box, *, whole: bool) -> int:
    """How many lines stand on a slide in the smallest type; with figures below, on half of it."""
    most = room.height * (0.5 if whole else 1.0)
    if height(lines, SIZES[-1], room.width) <= most:
        return len(lines)
    kept = 1
    while kept < len(lines) and height(lines[: kept + 1], SIZES[-1], room.width) <= room.height:
        kept += 1
    # What belongs to a formula stays with it.
    while 1 < kept < len(lines) and lines[kept].style == "note":
        kept -= 1
    return kept


def height(lines: Sequence[Line], size: float, width: float) -> float:
    """Points that lines take from top to bottom."""
    total = 0.0
    for line in lines:
        high = size * SHARES[line.style]
        total += high * (LEADING * len(set_in(line, size, width)) + AFTER[line.style])
    return total


def set_in(line: Line, size: float, width: float) -> tuple[str, ...]:
    """A line as it is broken at this size of a plain line."""
    high = size * SHARES[line.style]
    family: Family = "bits" if line.style == "formula" else "text"
    indent = INDENT * high if line.style == "bullet" else 0.0
    return _wrapped(line.text, high, width - indent, family, theme.REGULAR)


def _wrapped(text: str, size: float, width: float, family: Family, weight: int) -> tuple[str, ...]:
    wider = 1.0 if family == "bits" else WIDER
    found: list[str] = []
    for word in text.split():
        longer = f"{found[-1]} {word}" if found else word
        if found and text_metrics.width(longer, size, family, weight) * wider <= width:
            found[-1] = longer
        else:
            found.append(word)
    return tuple(found) or ("",)


def _stacked(pictures: Sequence[Picture], room: Box) -> Iterator[PlacedPicture]:
    """Pictures one below the other; those without a scale share what room there is."""
    free = [picture for picture in pictures if not picture.scale]
    used = sum(picture.height * picture.scale for picture in pictures if picture.scale)
    used += GAP * (len(pictures) - 1)
    high = sum(picture.height for picture in free)
    y = room.y
    for picture in pictures:
        wide = picture.room or picture.width
        scale = picture.scale or min(
            LARGEST, room.width / wide, max(1.0, room.height - used) / high
        )
        # What was measured for a whole slide shrinks where text stands above it.
        scale = min(scale, room.width / wide, (room.height - (y - room.y)) / picture.height)
        x = room.x + (room.width - wide * scale) / 2
        yield PlacedPicture(picture, Box(x, y, picture.width * scale, picture.height * scale))
        y += picture.height * scale + GAP


def _table(rows: tuple[tuple[str, ...], ...], room: Box) -> PlacedTable:
    """In the largest type in which it fits, if only in small type."""

    def fits(size: float) -> bool:
        wide, high = sum(_widths(rows, size)), len(rows) * size * _ROW
        return wide <= room.width and high <= room.height

    size = next(filter(fits, _TABLE_SIZES), _TABLE_SIZES[-1])
    wide = min(sum(_widths(rows, size)), room.width)
    return PlacedTable(rows, Box(room.x, room.y, wide, len(rows) * size * _ROW), size)


def widths(table: PlacedTable) -> tuple[float, ...]:
    """Of the columns of a table."""
    wanted = _widths(table.rows, table.size)
    share = table.box.width / sum(wanted)
    return tuple(width * share for width in wanted)


def _widths(rows: tuple[tuple[str, ...], ...], size: float) -> tuple[float, ...]:
    columns = zip(*rows, strict=True)
    widest = (max(text_metrics.width(cell, size) for cell in column) for column in columns)
    return tuple(width * WIDER + _CELL_MARGINS for width in widest)
