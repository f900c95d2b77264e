"""Measure every figure of the catalogue: how well its wires run, and how small its letters are.

Run ``make figures``. Everything is read back from the SVG, as a reader has it before the eyes; only
where the signals flow to is asked of the layout. A test holds the table.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import combinations, pairwise
from typing import Final
from xml.etree import ElementTree as ET

from edgewise import catalogue
from edgewise.views.diagram.block_diagram import diagram
from edgewise.views.diagram.options import Manner
from edgewise.views.diagram.picture import Picture
from edgewise.views.drawing.svg import svg
from scripts.contact_sheet import traced

SIZES: Final = (4, 8, 16)
COLUMN: Final = 85 / 25.4 * 96
"""Px of a column of 85 mm."""
POINTS: Final = 0.75
"""Pt in a px."""

Point = tuple[float, float]
Piece = tuple[Point, Point]
_AGAINST: Final = {"right": (-1, 0), "left": (1, 0), "down": (0, -1)}
_STEP: Final = re.compile(r"([MHVL])([-0-9. ]+)")


@dataclass(frozen=True, slots=True)
class Measures:
    """What is measured of one figure.

    Parameters
    ----------
    crossings : int
        Places where two nets cross.
    bends : int
    length, backward : float
        Px of wire, and those of them that run against the flow of the figure.
    width, smallest : float
        Px; of the figure and of its smallest letters.
    """

    crossings: int
    bends: int
    length: float
    backward: float
    width: float
    smallest: float

    @property
    def printed(self) -> float:
        """Pt of the smallest letters in a column of 85 mm."""
        return self.smallest * POINTS * min(1.0, COLUMN / self.width)

    def __str__(self) -> str:
        share = 100 * self.backward / self.length if self.length else 0.0
        return (
            f"{self.crossings:9} {self.bends:5} {share:7.1f} % {self.width:5.0f} px"
            f" {self.printed:7.1f} pt"
        )


HEADING: Final = f"{'':40} {'n':>2} crossings bends backward    width smallest in 85 mm"


def measured(markup: str, flow: str) -> Measures:
    """The measures of a block diagram in SVG.

    Parameters
    ----------
    markup : str
    flow : {"right", "left", "down"}

    Examples
    --------
    >>> one = '<g class="wire" data-name="a"><path d="M0 5H20V9" stroke="#1b2430"/></g>'
    >>> other = '<g class="wire" data-name="b"><path d="M9 0V9" stroke="#1b2430"/></g>'
    >>> found = measured(f'<svg width="30" height="9"><g>{one}{other}</g></svg>', "right")
    >>> found.crossings, found.bends, found.length, found.backward
    (1, 1, 33.0, 0.0)
    """
    root = ET.fromstring(markup)  # noqa: S314  # what edgewise itself wrote
    nets = [
        [path for each in group if (path := each.get("d")) and each.get("stroke")]
        for group in root.iter()
        if group.get("class") == "wire"
    ]
    lines = [[points(path) for path in net] for net in nets]
    pieces = [[piece for line in net for piece in pairwise(line)] for net in lines]
    every = [piece for net in pieces for piece in net]
    sizes = [float(size) for each in root.iter() if (size := each.get("font-size"))]
    return Measures(
        sum(_crossings(a, b) for a, b in combinations(pieces, 2)),
        sum(_bends(line) for net in lines for line in net),
        sum(_length(piece) for piece in every),
        sum(_against(piece, flow) for piece in every),
        float(root.get("width", "0")),
        min(sizes),
    )


def points(path: str) -> list[Point]:
    """The corners of straight path data.

    Examples
    --------
    >>> points("M0 5H20V9")
    [(0.0, 5.0), (20.0, 5.0), (20.0, 9.0)]
    """
    x = y = 0.0
    found = []
    for letter, numbers in _STEP.findall(path):
        values = [float(one) for one in numbers.split()]
        if letter == "H":
            x = values[0]
        elif letter == "V":
            y = values[0]
        else:
            x, y = values
        found.append((x, y))
    return found


def _length(piece: Piece) -> float:
    (x1, y1), (x2, y2) = piece
    return float(((x2 - x1) ** 2 + (y2 - y1) ** 2) ** 0.5)


def _against(piece: Piece, flow: str) -> float:
    (x1, y1), (x2, y2) = piece
    dx, dy = _AGAINST[flow]
    return max((x2 - x1) * dx + (y2 - y1) * dy, 0.0)


def _bends(line: list[Point]) -> int:
    """The corners of a line; going straight on is none."""
    return sum(
        abs(_turn(a, b, c)) > 1e-6 for a, b, c in zip(line, line[1:], line[2:], strict=False)
    )


def _turn(a: Point, b: Point, c: Point) -> float:
    return (b[0] - a[0]) * (c[1] - b[1]) - (b[1] - a[1]) * (c[0] - b[0])


def _crossings(net: list[Piece], other: list[Piece]) -> int:
    """In how many places two nets cross; where one crosses a fork of the other is one place."""
    return len({spot for a in net for b in other if (spot := _crossing(a, b))})


def _crossing(one: Piece, other: Piece) -> Point | None:
    """Where two stretches cross within both."""
    (a, b), (c, d) = one, other
    if max(a[0], b[0]) < min(c[0], d[0]) or max(c[0], d[0]) < min(a[0], b[0]):
        return None
    if max(a[1], b[1]) < min(c[1], d[1]) or max(c[1], d[1]) < min(a[1], b[1]):
        return None
    ends = _turn(a, b, c), _turn(a, b, d), _turn(c, d, a), _turn(c, d, b)
    if ends[0] * ends[1] >= 0 or ends[2] * ends[3] >= 0:
        return None
    along = ends[2] / (ends[2] - ends[3])
    return round(a[0] + along * (b[0] - a[0]), 1), round(a[1] + along * (b[1] - a[1]), 1)


def table(sizes: tuple[int, ...] = SIZES) -> Iterator[str]:
    """The lines of the table, its heading first."""
    yield HEADING
    for name in catalogue.ORDER:
        for n in sizes:
            trace = traced(name, n)
            flow = Picture(trace, Manner()).scene.direction
            yield f"{name:40} {n:2} {measured(svg(diagram(trace, 0)), flow)}"


def main() -> None:
    """Print the table."""
    for line in table():
        print(line)


if __name__ == "__main__":
    main()
