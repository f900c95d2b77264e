"""A drawing: items and words about them, and the SVG made of it.

`svg` is the only writer. What it writes is valid XML, the same for the same drawing, and
without script, style sheet or outside reference.

The format is that of W3C Scalable Vector Graphics (SVG) 1.1, 2nd edition, 2011, with the
roles of WAI-ARIA 1.2 (``img``, ``aria-labelledby``).
"""

from __future__ import annotations

import html
import re
import zlib
from dataclasses import dataclass
from typing import Final

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
from edgewise.views.drawing.theme import HATCH, INK, NONE


@dataclass(frozen=True, slots=True)
class Drawing:
    r"""A figure.

    Parameters
    ----------
    width, height : float
        Px.
    title : str
        What it shows, in a few words.
    description : str
        What it shows and its values, in sentences: for those who can't see it.
    items : tuple of Item
        Later ones lie over earlier ones.

    Examples
    --------
    >>> drawing = Drawing(40, 20, "A", "A is 1.", (Circle(20, 10, 5, fill=INK),))
    >>> print("\n".join(svg(drawing, prefix="p").splitlines()[1:]))
    <title id="p-title">A</title>
    <desc id="p-desc">A is 1.</desc>
    <rect width="40" height="20" fill="#ffffff"/>
    <circle cx="20" cy="10" r="5" fill="#1b2430"/>
    </svg>
    """

    width: float
    height: float
    title: str
    description: str
    items: tuple[Item, ...]
    ground: str = theme.PAPER


def svg(
    drawing: Drawing, *, outlined: bool = False, prefix: str = "", millimetres: float = 0.0
) -> str:
    """The drawing as an SVG document.

    Parameters
    ----------
    drawing : Drawing
    outlined : bool
        Turn text into outlines of its letters, for readers that lack the typefaces.
    prefix : str
        Begins every id, so that many figures can stand on one page. If it is empty, it is
        made from title, description and size.
    millimetres : float
        Its width on paper; 0: its own.

    Examples
    --------
    >>> empty = Drawing(8, 8, "nothing", "Nothing.", ())
    >>> svg(empty) == svg(empty), svg(empty, prefix="a") == svg(empty, prefix="b")
    (True, False)
    """
    items = outlines(drawing.items) if outlined else drawing.items
    w, h = number(drawing.width), number(drawing.height)
    heading = f"{drawing.title} {drawing.description} {w} {h}"
    title, about = escape(drawing.title), escape(drawing.description)
    if not prefix:
        prefix = f"f{zlib.crc32(heading.encode()):08x}"
    prefix = _NOT_IN_ID.sub("-", prefix)
    body = "".join(f"{mark(item)}\n" for item in items)
    wide, high = w, h
    if millimetres:
        wide = f"{number(millimetres)}mm"
        high = f"{number(millimetres * drawing.height / drawing.width)}mm"
    root = (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{wide}" height="{high}"'
        f' viewBox="0 0 {w} {h}" role="img" aria-labelledby="{prefix}-title {prefix}-desc"'
        f' font-family="{theme.FAMILIES["text"]}" font-size="{number(theme.SIZE_TEXT)}"'
        f' fill="{INK}">'
    )
    lines = [
        root,
        f'<title id="{prefix}-title">{title}</title>',
        f'<desc id="{prefix}-desc">{about}</desc>',
    ]
    if _HATCHED in body:
        lines.append(_hatch(f"{prefix}-hatch"))
        body = body.replace(_HATCHED, f'fill="url(#{prefix}-hatch)"')
    if drawing.ground != NONE:
        lines.append(f'<rect width="{w}" height="{h}" fill="{drawing.ground}"/>')
    return "\n".join([*lines, f"{body}</svg>\n"])


_HATCHED: Final = f'fill="{HATCH}"'
_NOT_IN_ID: Final = re.compile(r"[^A-Za-z0-9_-]")
# What XML 1.0, 2.2, does not allow in a document at all.
_NOT_XML: Final = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\ud800-\udfff\ufffe\uffff]")
_CENTRED: Final = ' text-anchor="middle"'


def _hatch(ident: str) -> str:
    step, weight = number(theme.HATCH_STEP), number(theme.HATCH_WEIGHT)
    return (
        f'<defs><pattern id="{ident}" width="{step}" height="{step}"'
        ' patternUnits="userSpaceOnUse" patternTransform="rotate(45)">'
        f'<rect width="{step}" height="{step}" fill="{theme.PAPER}"/>'
        f'<rect width="{weight}" height="{step}" fill="{theme.HATCH_LINE}"/></pattern></defs>'
    )


def escape(text: str) -> str:
    """Text that is safe in an element and in a quoted attribute.

    Examples
    --------
    >>> escape('a < "b" & c')
    'a &lt; &quot;b&quot; &amp; c'
    """
    return html.escape(_NOT_XML.sub("\ufffd", text))


def mark(item: Item) -> str:
    """The element of one item.

    Examples
    --------
    >>> mark(Line(((0, 1), (9, 1), (9, 5)), weight=2))
    '<path d="M0 1H9V5" fill="none" stroke="#1b2430" stroke-width="2"/>'
    >>> mark(Text(10, 20, "A < B", size=12))
    '<text x="10" y="20" font-size="12">A &lt; B</text>'
    >>> print(mark(Group((), kind="dot", name="C.q", x=5)))
    <g class="dot" data-name="C.q" transform="translate(5 0)"></g>
    """
    match item:
        case Rectangle():
            radius = f' rx="{number(item.radius)}"' if item.radius else ""
            return (
                f'<rect x="{number(item.x)}" y="{number(item.y)}" width="{number(item.width)}"'
                f' height="{number(item.height)}"{radius} fill="{item.fill}"'
                f"{_stroke(item.stroke, item.weight, item.dash)}/>"
            )
        case Line():
            ends = ' stroke-linecap="round" stroke-linejoin="round"' if item.round else ""
            return (
                f'<path d="{line_data(item.points, closed=item.closed)}" fill="{item.fill}"'
                f"{_stroke(item.stroke, item.weight, item.dash)}{ends}/>"
            )
        case Path():
            stroke = _stroke(item.stroke, item.weight, item.dash)
            return f'<path d="{item.data}" fill="{item.fill}"{stroke}/>'
        case Circle():
            stroke = _stroke(item.stroke, item.weight, ())
            place = f'cx="{number(item.x)}" cy="{number(item.y)}" r="{number(item.radius)}"'
            return f'<circle {place} fill="{item.fill}"{stroke}/>'
        case Text():
            anchor = f' text-anchor="{item.anchor}"' if item.anchor != "start" else ""
            fill = f' fill="{item.fill}"' if item.fill != INK else ""
            return (
                f'<text{_face(item)}{anchor} x="{number(item.x)}" y="{number(item.y)}"'
                f"{_size(item.size)}{fill}>{escape(item.text)}</text>"
            )
        case Letters():
            return _letters(item)
        case Group():
            return _group(item)


def _group(group: Group) -> str:
    kind = f' class="{escape(group.kind)}"' if group.kind else ""
    name = f' data-name="{escape(group.name)}"' if group.name else ""
    moved = group.x or group.y
    move = f' transform="translate({number(group.x)} {number(group.y)})"' if moved else ""
    return f"<g{kind}{name}{move}>{''.join(map(mark, group.items))}</g>"


def _stroke(stroke: str, weight: float, dash: tuple[float, ...]) -> str:
    if stroke == NONE:
        return ""
    dashes = f' stroke-dasharray="{" ".join(map(number, dash))}"' if dash else ""
    return f' stroke="{stroke}" stroke-width="{number(weight)}"{dashes}'


def _face(item: Text | Letters) -> str:
    family = f' font-family="{theme.FAMILIES[item.family]}"' if item.family != "text" else ""
    weight = f' font-weight="{item.weight}"' if item.weight != theme.REGULAR else ""
    return family + weight


def _size(size: float) -> str:
    return f' font-size="{number(size)}"' if size != theme.SIZE_TEXT else ""


def _letters(item: Letters) -> str:
    runs: list[str] = []
    before = ""
    for letter, fill in zip(item.text, item.fills, strict=True):
        if fill != before:
            if before not in ("", INK):
                runs.append("</tspan>")
            if fill != INK:
                runs.append(f'<tspan fill="{fill}">')
            before = fill
        runs.append(escape(letter))
    if before not in ("", INK):
        runs.append("</tspan>")
    xs = " ".join(map(number, item.xs))
    return (
        f'<text{_face(item)}{_CENTRED} x="{xs}" y="{number(item.y)}"{_size(item.size)}>'
        f"{''.join(runs)}</text>"
    )
