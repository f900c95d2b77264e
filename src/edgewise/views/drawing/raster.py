"""Raster: the items of a drawing on pixels, for the frames of a film.

`svg` writes the same items as text; this draws them with Skia, much faster than a reader of SVG
could. Text is drawn as its outlines, so no typeface has to be installed.
"""

from __future__ import annotations

from collections.abc import Iterable
from functools import lru_cache
from typing import Any, Final, TypeAlias

from edgewise.errors import EdgewiseError, Message
from edgewise.views.drawing import theme
from edgewise.views.drawing.shapes import (
    Circle,
    Group,
    Item,
    Letters,
    Line,
    Path,
    Rectangle,
    Text,
    line_data,
)
from edgewise.views.drawing.text_outlines import outlines
from edgewise.views.drawing.theme import HATCH, NONE

# Skia has no type information.
Canvas: TypeAlias = Any
Image: TypeAlias = Any
Surface: TypeAlias = Any
NEEDED: Final = Message("film-packages")
"""What is told where they are missing."""
_HATCH_TILE: Final = 4.0
"""Tiles are drawn this much larger, so that the strokes of the hatch stay smooth."""


def library() -> Any:
    """Skia.

    Raises
    ------
    EdgewiseError
        It is not installed.
    """
    try:
        import skia
    except ImportError:
        raise EdgewiseError(NEEDED) from None
    return skia


def draw(canvas: Canvas, items: Iterable[Item]) -> None:
    """Draw items on a canvas, later ones over earlier ones.

    Examples
    --------
    >>> import skia
    >>> surface = skia.Surface(4, 4)
    >>> draw(surface.getCanvas(), [Rectangle(0, 0, 4, 4, fill=theme.AMBER)])
    >>> hex(surface.makeImageSnapshot().bitmap().getColor(1, 1))
    '0xfff2a900'
    """
    for item in outlines(tuple(items)):
        _draw(canvas, item)


def _draw(canvas: Canvas, item: Item) -> None:
    match item:
        case Group():
            canvas.save()
            canvas.translate(item.x, item.y)
            for one in item.items:
                _draw(canvas, one)
            canvas.restore()
        case Text() | Letters():  # those of a group are outlines by now
            raise AssertionError("text is drawn as outlines")
        case _:
            _shape(canvas, item)


def _shape(canvas: Canvas, item: Rectangle | Line | Path | Circle) -> None:
    skia = library()
    shape = _geometry(item)
    if item.fill != NONE:
        paint = skia.Paint(AntiAlias=True)
        if item.fill == HATCH:
            paint.setShader(_hatch())
        else:
            paint.setColor(colour(item.fill))
        canvas.drawPath(shape, paint)
    if item.stroke != NONE:
        paint = skia.Paint(AntiAlias=True, Style=skia.Paint.kStroke_Style)
        paint.setColor(colour(item.stroke))
        paint.setStrokeWidth(item.weight)
        if isinstance(item, Line) and item.round:
            paint.setStrokeCap(skia.Paint.kRound_Cap)
            paint.setStrokeJoin(skia.Paint.kRound_Join)
        dash = () if isinstance(item, Circle) else item.dash
        if dash:
            paint.setPathEffect(skia.DashPathEffect.Make(list(dash), 0))
        canvas.drawPath(shape, paint)


def colour(written: str) -> int:
    """A colour of the theme as Skia takes it.

    Examples
    --------
    >>> hex(colour("#f2a900"))
    '0xfff2a900'
    """
    return 0xFF000000 | int(written.removeprefix("#"), 16)


def _geometry(item: Rectangle | Line | Path | Circle) -> Any:
    skia = library()
    match item:
        case Rectangle():
            place = skia.Rect.MakeXYWH(item.x, item.y, item.width, item.height)
            made = skia.Path()
            made.addRoundRect(place, item.radius, item.radius)
            return made
        case Circle():
            return skia.Path.Circle(item.x, item.y, item.radius)
        case Line():
            return _path(line_data(item.points, closed=item.closed))
        case Path():
            return _path(item.data)


@lru_cache(maxsize=4096)
def _path(data: str) -> Any:
    from fontTools.svgLib.path import parse_path

    pen = _Pen()
    parse_path(data, pen)
    return pen.path


class _Pen:
    """Takes path data apart: the pen protocol of fontTools."""

    def __init__(self) -> None:
        self.path = library().Path()

    def moveTo(self, point: tuple[float, float]) -> None:  # noqa: N802  # of the protocol
        self.path.moveTo(*point)

    def lineTo(self, point: tuple[float, float]) -> None:  # noqa: N802
        self.path.lineTo(*point)

    def curveTo(self, *points: tuple[float, float]) -> None:  # noqa: N802
        self.path.cubicTo(*(length for point in points for length in point))

    def qCurveTo(self, *points: tuple[float, float]) -> None:  # noqa: N802
        self.path.quadTo(*(length for point in points for length in point))

    def closePath(self) -> None:  # noqa: N802
        self.path.close()

    def endPath(self) -> None:  # noqa: N802
        """Leave the path open."""


@lru_cache(maxsize=1)
def _hatch() -> Any:
    """Upright strokes on paper, turned by 45 degrees, as the pattern of the SVG."""
    skia = library()
    side = round(theme.HATCH_STEP * _HATCH_TILE)
    surface = skia.Surface(side, side)
    canvas = surface.getCanvas()
    canvas.clear(colour(theme.PAPER))
    stroke = skia.Rect.MakeWH(theme.HATCH_WEIGHT * _HATCH_TILE, side)
    canvas.drawRect(stroke, skia.Paint(Color=colour(theme.HATCH_LINE)))
    matrix = skia.Matrix.RotateDeg(45).preScale(1 / _HATCH_TILE, 1 / _HATCH_TILE)
    repeat = skia.TileMode.kRepeat
    smooth = skia.SamplingOptions(skia.FilterMode.kLinear, skia.MipmapMode.kLinear)
    return surface.makeImageSnapshot().makeShader(repeat, repeat, smooth, matrix)
