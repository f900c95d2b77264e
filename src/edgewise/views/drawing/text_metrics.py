"""Lettering: how much room a text takes, measured with the shipped typefaces.

Widths come from shaping the text as a renderer does (kerning included) with HarfBuzz.
"""

from __future__ import annotations

from functools import lru_cache
from pathlib import Path
from typing import TYPE_CHECKING, Final, TypeAlias

from edgewise.views.drawing import theme
from edgewise.views.drawing.shapes import Letters, Text
from edgewise.views.drawing.theme import Family

if TYPE_CHECKING:
    import uharfbuzz as hb

_FONTS: Final = Path(__file__).parents[2] / "fonts"

Box: TypeAlias = tuple[float, float, float, float]
"""Left, top, right, bottom, px."""


def font_file(family: Family, weight: int) -> str:
    """Where the shipped file of a typeface is.

    Examples
    --------
    >>> font_file("bits", 400).endswith("IBMPlexMono-Regular.ttf")
    True
    """
    return str(_FONTS / theme.FONT_FILES[family, weight])


@lru_cache(maxsize=8)
def font(family: Family, weight: int) -> hb.Font:
    """The typeface, ready to shape text."""
    import uharfbuzz as hb

    return hb.Font(hb.Face(hb.Blob.from_file_path(font_file(family, weight))))


@lru_cache(maxsize=8192)
def lettered(text: str, family: Family = "text") -> str:
    """The text with ``?`` for each letter that the typeface does not have.

    Examples
    --------
    >>> lettered("Zoë 6 × 7 \u4e2d")
    'Zoë 6 × 7 ?'
    """
    face = font(family, theme.REGULAR)
    return "".join("?" if face.get_nominal_glyph(ord(one)) is None else one for one in text)


def ems(text: str, family: Family = "text", weight: int = theme.REGULAR) -> float:
    """Width of a text in parts of its size.

    Examples
    --------
    >>> round(ems("0110", "bits"), 3)
    2.4
    """
    if not text:
        return 0.0
    import uharfbuzz as hb

    face = font(family, weight)
    buffer = hb.Buffer()
    buffer.add_str(text)
    buffer.guess_segment_properties()
    hb.shape(face, buffer)
    advance: int = sum(place.x_advance for place in buffer.glyph_positions or ())
    units: int = face.face.upem
    return advance / units


def width(
    text: str,
    size: float = theme.SIZE_TEXT,
    family: Family = "text",
    weight: int = theme.REGULAR,
) -> float:
    """Width of one line of text, px.

    Parameters
    ----------
    text : str
    size : float
        Px.
    family : {"text", "bits"}
    weight : {400, 600}

    Examples
    --------
    >>> width("AB", 20) == 2 * width("AB", 10), width("", 20)
    (True, 0.0)
    """
    return ems(text, family, weight) * size


_SHARE: Final = {"start": 0.0, "middle": 0.5, "end": 1.0}


def box(item: Text | Letters) -> Box:
    """The room that a text takes.

    Examples
    --------
    >>> left, top, right, bottom = box(Text(50, 20, "sum", 10, anchor="middle"))
    >>> round(left + right), top, bottom
    (100, 12.5, 22.2)
    """
    top, bottom = item.y - theme.ASCENT * item.size, item.y + theme.DESCENT * item.size
    if isinstance(item, Text):
        wide = width(item.text, item.size, item.family, item.weight)
        left = item.x - _SHARE[item.anchor] * wide
        return left, top, left + wide, bottom
    half = width("0", item.size, item.family, item.weight) / 2
    return item.xs[0] - half, top, item.xs[-1] + half, bottom


def fitted(text: str, room: float, size: float = theme.SIZE_TEXT) -> str:
    """The text, shortened with an ellipsis to `room` px; empty if not even that fits.

    Examples
    --------
    >>> fitted("load", 100), fitted("initialise", 40), fitted("load", 4)
    ('load', 'initi…', '')
    """
    if width(text, size) <= room:
        return text
    for end in range(len(text) - 1, 0, -1):
        short = f"{text[:end].rstrip()}…"
        if width(short, size) <= room:
            return short
    return ""


def wrapped(text: str, room: float, size: float = theme.SIZE_TEXT) -> tuple[str, ...]:
    """The text in lines of at most `room` px, broken at blanks; none for an empty text.

    A word wider than the room stands alone.

    Examples
    --------
    >>> wrapped("two rain gauges", 80), wrapped("", 80)
    (('two rain', 'gauges'), ())
    """
    lines: list[str] = []
    for word in text.split():
        if lines and width(f"{lines[-1]} {word}", size) <= room:
            lines[-1] += f" {word}"
        else:
            lines.append(word)
    return tuple(lines)
