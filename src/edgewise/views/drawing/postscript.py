"""PostScript: a figure as EPS, for publishers who take nothing else.

Vectors only, letters as outlines, so that no typeface is asked for. The format is that of Adobe's
PostScript Language Reference (3rd edition, 1999), at language level 1, and of the Encapsulated
PostScript File Format Specification 3.0 (1992): one page, its bounding box, no operator that it
forbids.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import ceil, floor
from typing import TYPE_CHECKING, Any, Final

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
    number,
)
from edgewise.views.drawing.text_outlines import outlines
from edgewise.views.drawing.theme import HATCH, NONE

if TYPE_CHECKING:
    from edgewise.views.drawing.svg import Drawing

_POINTS: Final = 0.75
"""Points in a px: 96 px and 72 pt to the inch (CSS Values and Units 4, sec. 6.2)."""
_LONGEST: Final = 200
"""Letters of a title: a line has up to 255 (Document Structuring Conventions 3.0, sec. 3)."""
_FILE: Final = """\
%!PS-Adobe-3.0 EPSF-3.0
%%BoundingBox: 0 0 {across} {up}
%%HiResBoundingBox: 0 0 {wide:.3f} {high:.3f}
%%Title: ({title})
%%Creator: (edgewise)
%%Pages: 1
%%EndComments
%%BeginProlog
/edgewise 12 dict def edgewise begin
/m /moveto load def /l /lineto load def /c /curveto load def /h /closepath load def
/f /fill load def /s /stroke load def /rgb /setrgbcolor load def
end
%%EndProlog
%%Page: 1 1
edgewise begin gsave
0 {high:.3f} translate {points:.6f} -{points:.6f} scale
{body}
grestore end
%%EOF
"""


def eps(drawing: Drawing, millimetres: float = 0.0) -> bytes:
    """A figure as Encapsulated PostScript.

    Parameters
    ----------
    drawing : Drawing
    millimetres : float
        Its width on paper; 0: its own.

    Examples
    --------
    >>> from edgewise.views.drawing.svg import Drawing
    >>> eps(Drawing(8, 8, "A", "A.", ()))[:23]
    b'%!PS-Adobe-3.0 EPSF-3.0'
    """
    points = millimetres * 72 / 25.4 / drawing.width if millimetres else _POINTS
    wide, high = drawing.width * points, drawing.height * points
    items = outlines(drawing.items)
    if drawing.ground != NONE:
        items = (Rectangle(0, 0, drawing.width, drawing.height, fill=drawing.ground), *items)
    return _FILE.format(
        across=ceil(wide),
        up=ceil(high),
        wide=wide,
        high=high,
        points=points,
        title=_comment(drawing.title),
        body="\n".join(_drawn(items)),
    ).encode("ascii")


def _drawn(items: Sequence[Item]) -> Iterator[str]:
    """The operators of each item."""
    for item in items:
        match item:
            case Group():
                moved = item.x or item.y
                if moved:
                    yield f"gsave {number(item.x)} {number(item.y)} translate"
                yield from _drawn(item.items)
                if moved:
                    yield "grestore"
            case Text() | Letters():
                raise TypeError("letters become outlines before they are drawn")
            case _:
                yield from _shape(item)


def _shape(item: Rectangle | Line | Path | Circle) -> Iterator[str]:
    """What fills an item, then its stroke, as in SVG."""
    pen = _pen(_data(item))
    path = "\n".join(pen.steps)
    if not path:
        return
    if item.fill == HATCH:
        yield f"{path}\ngsave {_ink(theme.PAPER)} f grestore"
        yield f"gsave clip newpath {_ink(theme.HATCH_LINE)}"
        yield from _hatch(pen.corners)
        yield "grestore newpath"
    elif item.fill != NONE:
        yield f"{path}\n{_ink(item.fill)} f"
    if item.stroke != NONE:
        dash = () if isinstance(item, Circle) else item.dash
        ends = int(isinstance(item, Line) and item.round)
        yield f"{path}\n{_ink(item.stroke)} {number(item.weight)} setlinewidth"
        yield f"[{' '.join(map(number, dash))}] 0 setdash {ends} setlinecap {ends} setlinejoin s"


def _hatch(corners: Sequence[tuple[float, float]]) -> Iterator[str]:
    """Slanted strokes over the bounds of a path, in step with those of every other path."""
    xs, ys = zip(*corners, strict=True)
    left, right, top, low = min(xs), max(xs), min(ys), max(ys)
    yield f"{number(theme.HATCH_WEIGHT)} setlinewidth [] 0 setdash 0 setlinecap"
    # Along a stroke x + y is the same; SVG turns its pattern by 45 degrees.
    step, first = theme.HATCH_STEP * 2**0.5, theme.HATCH_WEIGHT / 2 * 2**0.5
    for k in range(floor((left + top - first) / step), ceil((right + low - first) / step) + 1):
        total = first + k * step
        yield f"{_at(total - top, top)} m {_at(total - low, low)} l s"


def _data(item: Rectangle | Line | Path | Circle) -> str:
    """The outline of an item as SVG path data."""
    match item:
        case Path():
            return item.data
        case Line():
            return line_data(item.points, closed=item.closed)
        case Circle():
            half = f"A{number(item.radius)} {number(item.radius)} 0 0 1"
            left, right = _at(item.x - item.radius, item.y), _at(item.x + item.radius, item.y)
            return f"M{left}{half} {right}{half} {left}Z"
        case Rectangle():
            return _rounded(item)


def _rounded(item: Rectangle) -> str:
    left, top = item.x, item.y
    right, low = left + item.width, top + item.height
    if not item.radius:
        return line_data(((left, top), (right, top), (right, low), (left, low)), closed=True)
    r = min(item.radius, item.width / 2, item.height / 2)
    turn = f"A{number(r)} {number(r)} 0 0 1"
    sides = ((right - r, top), (right, low - r), (left + r, low), (left, top + r))
    ends = ((right, top + r), (right - r, low), (left, low - r), (left + r, top))
    pieces = (f"L{_at(*side)}{turn} {_at(*end)}" for side, end in zip(sides, ends, strict=True))
    return f"M{_at(left + r, top)}{''.join(pieces)}Z"


def _pen(data: str) -> Any:
    """A pen that drew this path data: its operators, and the points that bound it."""
    from fontTools.pens.basePen import BasePen
    from fontTools.svgLib.path import parse_path

    class Pen(BasePen):  # type: ignore[misc]  # fontTools has no types
        """Writes PostScript; the base makes cubic curves of all others."""

        def __init__(self) -> None:
            super().__init__()
            self.steps: list[str] = []
            self.corners: list[tuple[float, float]] = []

        def _draw(self, letter: str, *points: tuple[float, float]) -> None:
            self.corners += points
            self.steps.append(" ".join((*(_at(x, y) for x, y in points), letter)))

        def _moveTo(self, pt: tuple[float, float]) -> None:  # noqa: N802
            self._draw("m", pt)

        def _lineTo(self, pt: tuple[float, float]) -> None:  # noqa: N802
            self._draw("l", pt)

        def _curveToOne(self, *points: tuple[float, float]) -> None:  # noqa: N802
            self._draw("c", *points)

        def _closePath(self) -> None:  # noqa: N802
            self._draw("h")

    pen = Pen()
    parse_path(data, pen)
    return pen


def _at(x: float, y: float) -> str:
    return f"{number(x)} {number(y)}"


def _ink(colour: str) -> str:
    parts = (int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5))
    return f"{' '.join(f'{part:.4g}' for part in parts)} rgb"


def _comment(text: str) -> str:
    """A text as a PostScript string of printable ASCII."""
    plain = "".join(letter if " " <= letter <= "~" else "?" for letter in text)[:_LONGEST]
    return plain.replace("\\", "\\\\").replace("(", "\\(").replace(")", "\\)")
