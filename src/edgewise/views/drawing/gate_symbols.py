r"""Symbols: the shapes of gates, in distinctive shapes or as rectangles.

Distinctive shapes have the proportions of IEEE Std 91-1984: an AND is 32 wide where it is
26 high; the rear and front of an OR are arcs of radius 26; an XOR has a second rear arc 5
behind; a negation circle has the diameter 4. Rectangles follow IEC 60617-12. Lengths are px,
from the top left corner of the box that the layout knows.

::

    AND  |‾‾‾\      OR  )‾‾\      XOR  ))‾‾\      NOT  |\ o
         |    )           )   >          ))   >         | >
         |___/          )__/           ))__/            |/
"""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from math import sqrt
from typing import Final, Literal, TypeAlias

from edgewise.circuit.parts import function, part_type
from edgewise.views.drawing import theme
from edgewise.views.drawing.shapes import (
    Circle,
    Item,
    Line,
    Path,
    Text,
    line_data,
    number,
    rectangle_data,
)
from edgewise.views.drawing.text_metrics import width as text_width

Style: TypeAlias = Literal["distinctive", "rectangular"]

HEIGHT: Final = 44.0
"""Of a gate with two or three inputs."""
UNIT: Final = HEIGHT / 26
"""One unit of the standard's proportions, px."""
AND_WIDTH: Final = 32 * UNIT
RADIUS: Final = 26 * UNIT
"""Of the arcs of OR and XOR."""
XOR_GAP: Final = 5 * UNIT
"""How far the second rear arc of an XOR lies behind the first."""
CIRCLE: Final = 4 * UNIT
"""Diameter of the negation circle."""

_SHOULDER: Final = 10 * UNIT
_OR_WIDTH: Final = _SHOULDER + sqrt(3) / 2 * RADIUS
_REAR: Final = 12.0
"""From the border of the box to the rear of the outline."""
_TRIANGLE: Final = 34.0
"""Side of the triangle of a buffer."""
PITCH: Final = 14.0
"""Px between two of more than two inputs."""
_WIDTH: Final = 80.0
"""Of the box of a gate; the box is the same in both styles, so that a figure keeps its places."""
_SMALL: Final = (64.0, 40.0)
"""Width and height of the box of an inverter or buffer."""
_FRONT: Final = 20.0
"""From the front of a rectangle to the border of the box."""


@dataclass(frozen=True, slots=True)
class Symbol:
    """A gate: its box, where its wires end, and its outline.

    Parameters
    ----------
    width, height : float
    inputs : tuple of (float, float)
        Of each input: px from the top, and from the left border to the outline.
    output : (float, float)
        Px from the top, and from the right border to the outline or its circle.
    items : tuple of Item
    """

    width: float
    height: float
    inputs: tuple[tuple[float, float], ...]
    output: tuple[float, float]
    items: tuple[Item, ...]


def gate(kind: str, inputs: int, style: Style = "distinctive", pitch: float = PITCH) -> Symbol:
    """The symbol of a gate.

    Parameters
    ----------
    kind : str
        Name of the gate's part type. What has no outline of its own, one that is more than one
        operation, is a rectangle in both styles.
    inputs : int
    style : {"distinctive", "rectangular"}
    pitch : float
        Least px between two of more than two inputs.

    Examples
    --------
    >>> symbol = gate("and", 2)
    >>> symbol.height, [at for at, _ in symbol.inputs], symbol.output[0]
    (44.0, [11.0, 33.0], 22.0)
    >>> [item.text for item in gate("or", 2, "rectangular").items if isinstance(item, Text)]
    ['≥1']
    """
    of, mark = function(kind), str(part_type(kind).symbol)
    base, negated, small = of.operation, of.inverted, not of.operation
    if base == "xor" and inputs > 2:
        mark = "2k+1"  # odd: =1 would say exactly one (IEC 60617-12, from memory)
    if style == "rectangular" or not (of.symmetric or small):
        placed = (_SMALL[1], (_SMALL[1] / 2,)) if small else _inputs(inputs, pitch)
        width, names = _SMALL[0] if small else _WIDTH, of.reads if len(of.reads) > 1 else ()
        room = max((text_width(name, theme.SIZE_SMALL) + 6 for name in names), default=0.0)
        return _rectangle(mark, width + room, room, placed, negated=negated)
    if small:
        return _triangle(negated=negated)
    height, ats = _inputs(inputs, pitch)
    top = (height - HEIGHT) / 2
    items: list[Item] = []
    front = _REAR + (AND_WIDTH if base == "and" else _OR_WIDTH)
    data, rear = (_and_data(top), _flat) if base == "and" else (_or_data(top), _hollow)
    if base == "xor":
        items.append(Path(_rear_arc(_REAR - XOR_GAP, top), stroke=theme.INK))
    items.append(_outline(data, (_REAR, top, front, top + HEIGHT)))
    back = _REAR - (XOR_GAP if base == "xor" else 0)
    items += _bar(back, top, ats)
    reaches = tuple(back + rear(at - top) for at in ats)
    circle, end = _circle(front, height / 2, negated=negated)
    return Symbol(
        _WIDTH,
        height,
        tuple(zip(ats, reaches, strict=True)),
        (height / 2, _WIDTH - end),
        (*items, *circle),
    )


def _inputs(count: int, pitch: float) -> tuple[float, tuple[float, ...]]:
    """Height of the box, and px from its top to each input."""
    if count <= 2:
        return HEIGHT, {1: (22.0,), 2: (11.0, 33.0)}[count]
    height = max(HEIGHT, pitch * count + 2)
    start = (height - pitch * (count - 1)) / 2
    return height, tuple(start + pitch * i for i in range(count))


def _outline(data: str, box: tuple[float, float, float, float]) -> Path:
    return Path(data, fill=theme.PAPER, stroke=theme.INK, box=box)


def _and_data(top: float) -> str:
    """Straight for 19 units, then a semicircle of radius 13."""
    straight, radius = number(_REAR + 19 * UNIT), number(13 * UNIT)
    return (
        f"M{number(_REAR)} {number(top)}H{straight}A{radius} {radius} 0 0 1 {straight}"
        f" {number(top + HEIGHT)}H{number(_REAR)}Z"
    )


def _or_data(top: float) -> str:
    """Two front arcs that meet in a point, and a hollow rear."""
    shoulder, radius = number(_REAR + _SHOULDER), number(RADIUS)
    arc = f"A{radius} {radius} 0 0"
    low = number(top + HEIGHT)
    return (
        f"M{number(_REAR)} {number(top)}H{shoulder}{arc} 1 {number(_REAR + _OR_WIDTH)}"
        f" {number(top + HEIGHT / 2)}{arc} 1 {shoulder} {low}H{number(_REAR)}"
        f"{arc} 0 {number(_REAR)} {number(top)}Z"
    )


def _rear_arc(x: float, top: float) -> str:
    radius = number(RADIUS)
    return f"M{number(x)} {number(top + HEIGHT)}A{radius} {radius} 0 0 0 {number(x)} {number(top)}"


def _flat(_y: float) -> float:
    return 0.0


def _hollow(y: float) -> float:
    """How far the rear arc lies inside its corners, `y` below the top."""
    away = abs(y - HEIGHT / 2)
    if away >= HEIGHT / 2:
        return 0.0
    return sqrt(RADIUS**2 - away**2) - sqrt(3) / 2 * RADIUS


def _bar(x: float, top: float, ats: tuple[float, ...]) -> list[Item]:
    """What makes the rear longer where inputs lie above and below the outline."""
    if ats[0] >= top:
        return []
    ends = ((ats[0], top), (top + HEIGHT, ats[-1]))
    return [Line(((x, start), (x, end))) for start, end in ends]


def _circle(front: float, middle: float, *, negated: bool) -> tuple[list[Item], float]:
    """The negation circle, if any, and where the output begins."""
    if not negated:
        return [], front
    circle = Circle(front + CIRCLE / 2, middle, CIRCLE / 2, theme.PAPER, theme.INK)
    return [circle], front + CIRCLE


def _triangle(*, negated: bool) -> Symbol:
    width, height = _SMALL
    front = _REAR + sqrt(3) / 2 * _TRIANGLE
    top = (height - _TRIANGLE) / 2
    corners = ((_REAR, top), (front, height / 2), (_REAR, top + _TRIANGLE))
    outline = _outline(line_data(corners, closed=True), (_REAR, top, front, top + _TRIANGLE))
    circle, end = _circle(front, height / 2, negated=negated)
    return Symbol(
        width, height, ((height / 2, _REAR),), (height / 2, width - end), (outline, *circle)
    )


def _rectangle(
    mark: str, width: float, room: float, inputs: tuple[float, tuple[float, ...]], *, negated: bool
) -> Symbol:
    """A rectangle with its mark, right of some room for the names of inputs."""
    height, ats = inputs
    front = width - _FRONT
    outline = _outline(rectangle_data(_REAR, 0, front - _REAR, height), (_REAR, 0.0, front, height))
    middle = (_REAR + room + front) / 2
    text = Text(middle, 17, mark, theme.SIZE_NAME, weight=theme.STRONG, anchor="middle")
    circle, end = _circle(front, height / 2, negated=negated)
    return Symbol(
        width,
        height,
        tuple((at, _REAR) for at in ats),
        (height / 2, width - end),
        (outline, text, *circle),
    )


def turned(symbol: Symbol) -> Symbol:
    """The symbol a quarter clockwise: its inputs above, the first one right, its output below.

    The numbers of inputs and output are then px from the left, and from top and bottom.

    Examples
    --------
    >>> symbol = turned(gate("and", 2))
    >>> symbol.width, symbol.height, [at for at, _ in symbol.inputs]
    (44.0, 80.0, [33.0, 11.0])
    """
    wide = symbol.height
    return Symbol(
        wide,
        symbol.width,
        tuple((wide - at, reach) for at, reach in symbol.inputs),
        (wide - symbol.output[0], symbol.output[1]),
        tuple(_turned(item, wide) for item in symbol.items),
    )


def backwards(symbol: Symbol) -> Symbol:
    """The symbol turned round: its inputs at the right, the first one lowest, its output left.

    Examples
    --------
    >>> symbol = backwards(gate("and", 2))
    >>> symbol.width, [at for at, _ in symbol.inputs], symbol.output[0]
    (80.0, [33.0, 11.0], 22.0)
    """
    high = symbol.height
    return Symbol(
        symbol.width,
        high,
        tuple((high - at, reach) for at, reach in symbol.inputs),
        (high - symbol.output[0], symbol.output[1]),
        turned(turned(symbol)).items,
    )


def _turned(item: Item, wide: float) -> Item:
    match item:
        case Path():
            box = item.box
            bounds = (wide - box[3], box[0], wide - box[1], box[2]) if box else None
            return replace(item, data=_turned_data(item.data, wide), box=bounds)
        case Line():
            return replace(item, points=tuple((wide - y, x) for x, y in item.points))
        case Circle():
            return replace(item, x=wide - item.y, y=item.x)
        case Text():  # stays upright, in the middle
            return replace(item, x=wide / 2, y=item.x + theme.MIDDLE * item.size)
    raise AssertionError(item)


_STEP: Final = re.compile("([A-Za-z])([-0-9. ]*)")


def _turned_data(data: str, wide: float) -> str:
    x = y = 0.0
    steps: list[str] = []
    for letter, text in _STEP.findall(data):
        values = [float(one) for one in text.split()]
        before = ""
        match letter:
            case "M" | "L":
                x, y = values
            case "H":
                x = values[0]
            case "V":
                y = values[0]
            case "h":
                x += values[0]
            case "v":
                y += values[0]
            case "A":
                *shape, x, y = values
                before = " ".join(map(number, shape)) + " "
            case _:
                steps.append("Z")
                continue
        kind = letter if letter in "MA" else "L"
        steps.append(f"{kind}{before}{number(wide - y)} {number(x)}")
    return "".join(steps)
