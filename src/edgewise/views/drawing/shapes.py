"""Items: what a drawing is made of, plain and frozen, each with its place.

Lengths are px, x grows to the right and y downwards.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Final, Literal, TypeAlias

from edgewise.views.drawing import theme
from edgewise.views.drawing.theme import INK, NONE, Family

Point: TypeAlias = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Rectangle:
    """A rectangle; `radius` rounds its corners.

    Examples
    --------
    >>> Rectangle(2, 3, 20, 10.5, fill=INK).stroke
    'none'
    """

    x: float
    y: float
    width: float
    height: float
    fill: str = NONE
    stroke: str = NONE
    weight: float = theme.OUTLINE
    """Width of the stroke."""
    dash: tuple[float, ...] = ()
    radius: float = 0.0


@dataclass(frozen=True, slots=True)
class Line:
    """Straight pieces from point to point; `closed` leads back to the first.

    Examples
    --------
    >>> Line(((0, 1), (9, 1), (9, 5)), weight=2).dash
    ()
    """

    points: tuple[Point, ...]
    stroke: str = INK
    weight: float = theme.OUTLINE
    dash: tuple[float, ...] = ()
    fill: str = NONE
    closed: bool = False
    round: bool = False
    """Round ends and corners."""


@dataclass(frozen=True, slots=True)
class Path:
    """SVG path data, for curves and for many shapes in one element.

    Raises
    ------
    ValueError
        If `data` has anything but path letters and numbers.

    Examples
    --------
    >>> Path("M0 0A5 5 0 0 1 10 0", stroke=INK).data
    'M0 0A5 5 0 0 1 10 0'
    >>> Path("url(x)")
    Traceback (most recent call last):
    ValueError: not path data: 'url(x)'
    """

    data: str
    fill: str = NONE
    stroke: str = NONE
    weight: float = theme.OUTLINE
    dash: tuple[float, ...] = ()
    box: tuple[float, float, float, float] | None = None
    """Its bounds (left, top, right, bottom), where a test should know them."""

    def __post_init__(self) -> None:
        if not _PATH_DATA.fullmatch(self.data):
            raise ValueError(f"not path data: {self.data!r}")


@dataclass(frozen=True, slots=True)
class Circle:
    """A circle: a junction dot, a negation circle.

    Examples
    --------
    >>> Circle(4, 5, 2, fill=INK).radius
    2
    """

    x: float
    y: float
    radius: float
    fill: str = NONE
    stroke: str = NONE
    weight: float = theme.OUTLINE


Anchor: TypeAlias = Literal["start", "middle", "end"]


@dataclass(frozen=True, slots=True)
class Text:
    """One line of text; `y` is its base line.

    Examples
    --------
    >>> Text(10, 20, "sum", anchor="middle").size
    14.0
    """

    x: float
    y: float
    text: str
    size: float = theme.SIZE_TEXT
    fill: str = INK
    family: Family = "text"
    weight: int = theme.REGULAR
    anchor: Anchor = "start"


@dataclass(frozen=True, slots=True)
class Letters:
    """Single letters, each centred at its own x: the digits of a row of cells.

    One text element, so that a reader who copies it gets the word.

    Examples
    --------
    >>> Letters((8, 24), 15, "01", ("#1b2430", "#ffffff")).family
    'bits'
    """

    xs: tuple[float, ...]
    y: float
    text: str
    fills: tuple[str, ...]
    size: float = theme.SIZE_DIGIT
    family: Family = "bits"
    weight: int = theme.REGULAR


@dataclass(frozen=True, slots=True)
class Group:
    """Items that belong together, moved by (`x`, `y`).

    Parameters
    ----------
    items : tuple of Item
    kind : str
        The class of the element: what it is (``cells``, ``part``, ``wire``).
    name : str
        What it stands for (``FA.sum``); becomes ``data-name``.
    x, y : float

    Examples
    --------
    >>> Group((Circle(0, 0, 2),), kind="dot", name="C.q", x=5).items[0].x
    0
    """

    items: tuple[Item, ...]
    kind: str = ""
    name: str = ""
    x: float = 0.0
    y: float = 0.0


Item: TypeAlias = Rectangle | Line | Path | Circle | Text | Letters | Group

_PATH_DATA: Final = re.compile(r"[MmLlHhVvCcSsQqTtAaZz0-9 ,.-]*")


def number(value: float) -> str:
    """A length in the fewest characters, to a hundredth of a px.

    Examples
    --------
    >>> number(3.0), number(0.125), number(-0.001), number(17.5)
    ('3', '0.12', '0', '17.5')
    """
    if value == (whole := int(value)):
        return str(whole)
    text = f"{value:.2f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def line_data(points: tuple[Point, ...], *, closed: bool = False) -> str:
    """Path data of straight pieces, short where they run level or upright.

    Examples
    --------
    >>> line_data(((0, 0), (4, 0), (4, 3), (1, 1)), closed=True)
    'M0 0H4V3L1 1Z'
    """
    (x, y), *rest = points
    data = [f"M{number(x)} {number(y)}"]
    for nx, ny in rest:
        if ny == y:
            data.append(f"H{number(nx)}")
        elif nx == x:
            data.append(f"V{number(ny)}")
        else:
            data.append(f"L{number(nx)} {number(ny)}")
        x, y = nx, ny
    return "".join(data) + ("Z" if closed else "")


def rectangle_data(x: float, y: float, width: float, height: float) -> str:
    """Path data of a rectangle.

    Examples
    --------
    >>> rectangle_data(1, 2, 10, 5)
    'M1 2h10v5h-10z'
    """
    w, h = number(width), number(height)
    return f"M{number(x)} {number(y)}h{w}v{h}h-{w}z"
