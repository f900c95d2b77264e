"""Outlines: text turned into the shapes of its letters.

For readers that lack our typefaces. The shapes come from the shipped files, shaped with
HarfBuzz, so that the picture stays the same.
"""

from __future__ import annotations

import re
from dataclasses import replace
from functools import lru_cache
from html import unescape
from itertools import groupby
from typing import Any, Final

from edgewise.views.drawing.shapes import Group, Item, Letters, Path, Text, number
from edgewise.views.drawing.text_metrics import Box, box, font, width
from edgewise.views.drawing.theme import REGULAR, STRONG, Family

_SHARE = {"start": 0.0, "middle": 0.5, "end": 1.0}


def outlines(items: tuple[Item, ...]) -> tuple[Item, ...]:
    """The items without any text among them.

    Examples
    --------
    >>> [type(item).__name__ for item in outlines((Text(5, 15, "A"),))]
    ['Path']
    """
    result: list[Item] = []
    for item in items:
        match item:
            case Text():
                share = _SHARE[item.anchor]
                x = item.x - share * width(item.text, item.size, item.family, item.weight)
                data = _data(item.text, (item.family, item.weight), (x, item.y), item.size)
                result.append(Path(data, fill=item.fill, box=box(item)))
            case Letters():
                result += _letters(item)
            case Group():
                result.append(replace(item, items=outlines(item.items)))
            case _:
                result.append(item)
    return tuple(result)


_TEXT: Final = re.compile(r"<text ([^>]*)>([^<]*)</text>")
_ATTRIBUTE: Final = re.compile(r'([a-z-]+)="([^"]*)"')
_KEPT: Final = ("transform", "fill", "opacity")


def outlined(chart: str) -> str:
    """The SVG of a chart, made by the drawing library of charts, without any text in it.

    Examples
    --------
    >>> outlined('<text text-anchor="end" font-size="12px" fill="#1b2430">8</text>')[:29]
    '<path fill="#1b2430" d="M-2.9'
    """
    return _TEXT.sub(_outlined, chart)


def _outlined(found: re.Match[str]) -> str:
    named = dict(_ATTRIBUTE.findall(found[1]))
    size = float(named.get("font-size", "11px").removesuffix("px"))
    bold = named.get("font-weight", "400") in ("600", "700", "bold")
    text, weight = unescape(found[2]), STRONG if bold else REGULAR
    left = -_SHARE[named.get("text-anchor", "start")] * width(text, size, weight=weight)
    data = _data(text, ("text", weight), (left, 0.0), size)
    kept = "".join(f'{name}="{named[name]}" ' for name in _KEPT if name in named)
    return f'<path {kept}d="{data}"/>'


def _letters(item: Letters) -> list[Item]:
    """One path for each colour."""
    room: Box = box(item)
    half = width("0", item.size, item.family, item.weight) / 2
    order = sorted(range(len(item.text)), key=lambda i: item.fills[i])
    paths: list[Item] = []
    for fill, places in groupby(order, key=lambda i: item.fills[i]):
        data = "".join(
            _data(item.text[i], (item.family, item.weight), (item.xs[i] - half, item.y), item.size)
            for i in places
        )
        paths.append(Path(data, fill=fill, box=room))
    return paths


@lru_cache(maxsize=2048)  # slides and films repeat most of their texts in their places
def _data(
    text: str,
    face: tuple[Family, int],
    start: tuple[float, float],
    size: float,
) -> str:
    """Path data of a text whose base line begins at `start`."""
    from fontTools.pens.svgPathPen import SVGPathPen
    from fontTools.pens.transformPen import TransformPen

    family, weight = face
    shaped, per_em = _shaped(text, family, weight)
    scale = size / per_em
    x, y = start
    pen = SVGPathPen(None, ntos=number)
    for glyph, right, up, advance in shaped:
        place = (scale, 0, 0, -scale, x + right * scale, y - up * scale)
        _recording(glyph, family, weight).replay(TransformPen(pen, place))
        x += advance * scale
    data: str = pen.getCommands()
    return data


@lru_cache(maxsize=2048)
def _shaped(
    text: str, family: Family, weight: int
) -> tuple[tuple[tuple[int, int, int, int], ...], int]:
    """Glyph, offsets and advance of each letter in font units, and the units in an em."""
    import uharfbuzz as hb

    face = font(family, weight)
    buffer = hb.Buffer()
    buffer.add_str(text)
    buffer.guess_segment_properties()
    hb.shape(face, buffer)
    glyphs = zip(buffer.glyph_infos or (), buffer.glyph_positions or (), strict=True)
    return (
        tuple((g.codepoint, p.x_offset, p.y_offset, p.x_advance) for g, p in glyphs),
        face.face.upem,
    )


@lru_cache(maxsize=1024)
def _recording(glyph: int, family: Family, weight: int) -> Any:
    from fontTools.pens.recordingPen import RecordingPen

    pen = RecordingPen()
    font(family, weight).draw_glyph_with_pen(glyph, pen)
    return pen
