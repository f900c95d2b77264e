"""Export: a figure written as SVG, PNG, PDF or EPS.

An SVG carries its letters as outlines unless its text is asked for: few readers have the typefaces.
PNG and PDF are made with the shipped typefaces only, so that they are the same on every
machine. A PDF holds vectors and real text, and is tagged with the figure's description.
"""

from __future__ import annotations

from functools import lru_cache
from math import floor, isnan
from pathlib import Path
from typing import TYPE_CHECKING, Final

from edgewise import files
from edgewise.errors import EdgewiseError, Message
from edgewise.listing import choice
from edgewise.views.drawing import theme
from edgewise.views.drawing.column import Column, fitting
from edgewise.views.drawing.postscript import eps
from edgewise.views.drawing.svg import Drawing, svg
from edgewise.views.drawing.text_metrics import font_file
from edgewise.views.drawing.text_outlines import outlined

if TYPE_CHECKING:
    import typst

SUFFIXES: Final = (".svg", ".png", ".pdf", ".eps")
CHART_SUFFIXES: Final = SUFFIXES[:3]
"""Of a chart, which its drawing library makes as SVG."""
SCALE: Final = 2.0
"""Of a PNG for which none is given."""
_PRINTED: Final = 300.0
"""Pixels to the inch in print; common practice, no source."""
_MOST_PIXELS: Final = 100_000_000
_POINTS: Final = 0.75
"""Points in a px: 96 px and 72 pt to the inch (CSS Values and Units 4, sec. 6.2)."""
_PDF: Final = """\
#set document(title: sys.inputs.title, date: none)
#set page(width: {width}pt, height: {height}pt, margin: 0pt, fill: none)
#image(bytes(sys.inputs.svg), format: "svg", width: 100%, alt: sys.inputs.about)
"""


def png(figure: str, scale: float | None = 1.0) -> bytes:
    r"""A figure as PNG.

    Parameters
    ----------
    figure : str
        SVG.
    scale : float, optional
        Pixels to a px of the figure; 3 is about 300 to the inch. None: `SCALE`, or less where
        that would be too large a picture.

    Raises
    ------
    EdgewiseError
        If `scale` is not above 0, or the picture would have over 100 million pixels.

    Examples
    --------
    >>> png(svg(Drawing(8, 8, "A", "A.", ())), scale=2)[:8]
    b'\x89PNG\r\n\x1a\n'
    """
    import resvg_py

    _, _, width, height = _heading(figure)
    # Rounded down, so that what is offered can be drawn.
    most = floor(100 * (_MOST_PIXELS / (width * height)) ** 0.5) / 100
    if scale is None:
        scale = min(SCALE, most)
    if not 0 < scale <= most:
        raise EdgewiseError(
            Message(
                "scale-outside",
                scale=f"{scale:g}",
                most=f"{most:g}",
                width=f"{width:g}",
                height=f"{height:g}",
            )
        )
    files = [font_file(family, weight) for family, weight in theme.FONT_FILES]
    picture: bytes = bytes(
        resvg_py.svg_to_bytes(
            svg_string=figure,
            zoom=scale,
            dpi=96,
            skip_system_fonts=True,
            font_files=files,
            font_family="Source Sans 3",
        )
    )
    return picture


def pdf(figure: str, millimetres: float = 0.0) -> bytes:
    """A figure as a PDF of one page of its size: vectors, typefaces embedded.

    Parameters
    ----------
    figure : str
        SVG with a title and a description.
    millimetres : float
        The width of the page; 0: that of the figure.

    Examples
    --------
    >>> pdf(svg(Drawing(8, 8, "A", "A.", ())))[:5]
    b'%PDF-'
    """
    import typst

    title, about, width, height = _heading(figure)
    points = millimetres * 72 / 25.4 / width if millimetres else _POINTS
    page = _PDF.format(width=width * points, height=height * points).encode()
    content: bytes = typst.compile(
        page,
        font_paths=_fonts(),
        format="pdf",
        sys_inputs={"svg": figure, "title": title or "figure", "about": about or title or "figure"},
        pdf_standards="ua-1",
    )
    return content


@lru_cache(maxsize=1)
def _fonts() -> typst.Fonts:
    import typst

    folder = str(Path(font_file("text", theme.REGULAR)).parent)
    return typst.Fonts(
        include_system_fonts=False, include_embedded_fonts=False, font_paths=[folder]
    )


def write(
    figure: Drawing | str,
    path: str | Path,
    *,
    scale: float | None = 1.0,
    text: bool = False,
    column: Column | None = None,
) -> None:
    """Write a figure to a file whose suffix says how: ``.svg``, ``.png``, ``.pdf`` or ``.eps``.

    The file is written beside and then renamed, so that no reader sees half of it.

    Parameters
    ----------
    figure : Drawing or str
        A drawing, or the SVG of a chart.
    path : str or Path
    scale : float, optional
        For PNG; see `png`.
    text : bool
        For SVG: text instead of outlines of its letters; a reader needs the typefaces then.
    column : Column, optional
        Where it is to stand: it gets that width. A PNG without `scale` has 300 pixels to the inch.

    Raises
    ------
    EdgewiseError
        Unknown suffix, no such folder, a place that can't be written to, or letters that would be
        too small in the column.
    """
    path = Path(path)
    kind = check(path, chart=isinstance(figure, str))
    if isinstance(figure, str):
        content = _of_chart(figure, kind, scale, text=text)
    else:
        wide = 0.0
        if column is not None:
            fitting(figure.width, column)
            wide = column.shown(figure.width)
            scale = wide / 25.4 * _PRINTED / figure.width if scale is None else scale
        content = _of_drawing(figure, kind, scale, wide, text=text)
    files.save(path, content)


def _of_chart(chart: str, kind: str, scale: float | None, *, text: bool) -> bytes:
    if kind == ".png":
        return png(chart, scale)
    if kind == ".pdf":
        return pdf(chart)
    return (chart if text else outlined(chart)).encode()


def _of_drawing(
    drawing: Drawing, kind: str, scale: float | None, wide: float, *, text: bool
) -> bytes:
    if kind == ".png":
        return png(svg(drawing), scale)
    if kind == ".pdf":
        return pdf(svg(drawing), wide)
    if kind == ".eps":
        return eps(drawing, wide)
    return svg(drawing, outlined=not text, millimetres=wide).encode()


def check(path: Path, *, chart: bool = False) -> str:
    """See that a figure can have this name, before it is drawn; its suffix tells the format.

    Raises
    ------
    EdgewiseError
        Unknown suffix, or no such folder.

    Examples
    --------
    >>> check(Path("adder.EPS"))
    '.eps'
    >>> check(Path("costs.eps"), chart=True)
    Traceback (most recent call last):
    edgewise.errors.EdgewiseError: can't write costs.eps: its name ends in .eps; a chart is \
written as .svg, .png or .pdf
    """
    kinds, what = (CHART_SUFFIXES, "chart") if chart else (SUFFIXES, "figure")
    files.check_suffix(path, kinds, Message("written-as", kind=what, suffixes=choice(kinds)))
    if not path.parent.is_dir():
        raise EdgewiseError(Message("folder-missing", path=str(path), folder=str(path.parent)))
    return path.suffix.lower()


def _heading(figure: str) -> tuple[str, str, float, float]:
    """Title, description, width and height of an SVG."""
    from xml.etree import ElementTree as ET

    try:
        root = ET.fromstring(figure)  # noqa: S314 - our own SVG, no entities
        box = [float(part) for part in root.get("viewBox", "").split()]
        width, height = (float(root.get(side, "nan").removesuffix("px")) for side in _SIDES)
    except (ET.ParseError, ValueError) as wrong:
        raise EdgewiseError(Message("figure-expected", why=str(wrong))) from None
    if isnan(width) or isnan(height):
        if len(box) != 4:
            raise EdgewiseError(Message("figure-sizeless"))
        _, _, width, height = box
    title, about = (root.findtext(f"{_NAMESPACE}{tag}", "") for tag in ("title", "desc"))
    return title, about, width, height


_SIDES: Final = ("width", "height")
_NAMESPACE: Final = "{http://www.w3.org/2000/svg}"
