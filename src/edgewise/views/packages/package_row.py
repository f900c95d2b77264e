"""Packages seen from above, side by side: pin 1 left of the notch, then down and up again.

A pin's number stands at the pin, its name inside, its net outside. A bar over a name says that it
is active low; a ring at a pin, that it is a measuring point.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final, Literal, TypeAlias

from edgewise.views.drawing import theme
from edgewise.views.drawing.shapes import Circle, Group, Item, Line, Path, Rectangle, Text
from edgewise.views.drawing.svg import Drawing
from edgewise.views.drawing.text_metrics import width as lettered_width

Wired: TypeAlias = Literal["signal", "tied", "supply", "open"]
"""What is at a pin: a net, a rail for an unused input, the supply, or nothing."""

PITCH: Final = 20.0
BODY: Final = 96.0
LEG: Final = 26.0
"""From the body to where a net's name begins."""
_HEAD: Final = 26.0
_NOTCH: Final = 7.0
_NAMES: Final = 40.0
"""Room for a net's name, at least."""
_RING: Final = 4.5


@dataclass(frozen=True, slots=True)
class Leg:
    """A pin: its number, its name, and what is wired to it.

    Parameters
    ----------
    number : int
    name : str
    net : str
        What stands outside; empty for nothing.
    wired : str
    low : bool
        Active low.
    point : bool
        A measuring point.
    """

    number: int
    name: str
    net: str
    wired: Wired
    low: bool = False
    point: bool = False


@dataclass(frozen=True, slots=True)
class Drawn:
    """A package: its name on the board, its chip, and its pins, pin 1 first."""

    name: str
    chip: str
    legs: tuple[Leg, ...]


def package_row(
    packages: Sequence[Drawn], title: str, description: str, width: float = 0.0
) -> Drawing:
    """Packages side by side, each in the same room, in as many rows as `width` asks for.

    Examples
    --------
    >>> legs = tuple(Leg(i, f"P{i}", "", "open") for i in range(1, 15))
    >>> drawing = package_row([Drawn("U1", "74HC00", legs)], "U1", "One package.")
    >>> round(drawing.height)
    198
    """
    room = max([_NAMES, *(_width(_outside(leg)) + 4 for p in packages for leg in p.legs)])
    cell = BODY + 2 * (LEG + room)
    across = max(1, int((width - 2 * theme.MARGIN + theme.GAP) // (cell + theme.GAP)))
    across = min(across, len(packages)) if width else len(packages)
    items: list[Item] = []
    top = theme.MARGIN
    for first in range(0, len(packages), across):
        row = packages[first : first + across]
        for column, package in enumerate(row):
            x = theme.MARGIN + column * (cell + theme.GAP) + LEG + room
            items.append(Group(tuple(_package(package)), "package", package.name, x, top))
        top += _HEAD + max(len(p.legs) for p in row) // 2 * PITCH + 2 * theme.GAP
    wide = 2 * theme.MARGIN + across * cell + (across - 1) * theme.GAP
    return Drawing(
        wide, top - theme.GAP + theme.MARGIN - theme.GAP, title, description, tuple(items)
    )


def _width(text: Text) -> float:
    return lettered_width(text.text, text.size, text.family, text.weight)


def _outside(leg: Leg) -> Text:
    """What is written outside a pin."""
    fill = theme.INK if leg.wired == "signal" else theme.SLATE
    weight = theme.STRONG if leg.wired == "supply" else theme.REGULAR
    return Text(0, 0, leg.net, theme.SIZE_SMALL, fill, weight=weight)


def _package(package: Drawn) -> Iterator[Item]:
    rows = len(package.legs) // 2
    height = rows * PITCH
    yield Text(0, 14, package.name, theme.SIZE_NAME, weight=theme.STRONG)
    yield Text(BODY, 14, package.chip, theme.SIZE_SMALL, theme.SLATE, anchor="end")
    body = Rectangle(
        0, _HEAD, BODY, height, theme.PANEL, theme.INK, theme.OUTLINE, (), theme.RADIUS
    )
    yield body
    middle = BODY / 2
    notch = (
        f"M{middle - _NOTCH:g} {_HEAD:g}A{_NOTCH:g} {_NOTCH:g} 0 0 0 {middle + _NOTCH:g} {_HEAD:g}"
    )
    yield Path(notch, theme.PAPER, theme.INK)
    for leg in package.legs:
        yield from _leg(leg, rows)


def _leg(leg: Leg, rows: int) -> Iterator[Item]:
    left = leg.number <= rows
    row = leg.number - 1 if left else 2 * rows - leg.number
    y = _HEAD + (row + 0.5) * PITCH
    base = y + theme.MIDDLE * theme.SIZE_SMALL
    edge, way = (0.0, -1.0) if left else (BODY, 1.0)
    used = leg.wired != "open"
    end = edge + way * (LEG - 4)
    yield Line(((edge, y), (end, y)), theme.INK if used else theme.RULE, theme.THIN)
    number_x = edge + way * 3
    yield Text(
        number_x, y - 3, str(leg.number), _NUMBER, theme.SLATE, anchor="end" if left else "start"
    )
    inside = Text(
        edge - way * 5,
        base,
        leg.name,
        theme.SIZE_SMALL,
        theme.INK,
        anchor="start" if left else "end",
    )
    yield inside
    if leg.low:
        wide = _width(inside)
        start = inside.x if left else inside.x - wide
        yield Line(((start, base - 10), (start + wide, base - 10)), weight=theme.THIN)
    if leg.point:
        yield Circle(end + way * 1, y, _RING, theme.PAPER, theme.INK, theme.OUTLINE)
    if leg.net:
        told = _outside(leg)
        x = edge + way * (LEG + (4 if leg.point else 0))
        yield Text(
            x,
            base,
            told.text,
            told.size,
            told.fill,
            told.family,
            told.weight,
            "end" if left else "start",
        )


_NUMBER: Final = 12.0
