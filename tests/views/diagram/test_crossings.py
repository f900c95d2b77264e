"""Crossings counted once more, from the SVG alone, by other means than the table of figures.

The table multiplies turns of pieces of lines; here the lines of a net are painted on a grid of
half pixels, and a crossing is a spot where one net goes left and right and another up and down.
That two lines cross where they share a point inside both is geometry; no source.
"""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Iterator
from itertools import pairwise
from typing import Final
from xml.dom import minidom

import pytest

from edgewise.views.diagram.block_diagram import diagram
from edgewise.views.diagram.options import Manner
from edgewise.views.diagram.picture import Picture
from edgewise.views.drawing.column import column
from edgewise.views.drawing.svg import svg
from scripts.figure_table import measured
from tests.views.runs import traced

SAMPLE: Final = [
    ("serial-adder", 8),
    ("serial-adder-parallel-load", 4),
    ("carry-save-accumulator", 8),
    ("ripple-carry-adder-subtractor", 8),
    ("carry-lookahead-adder", 4),
    ("carry-select-adder", 16),
    ("kogge-stone-adder", 8),
    ("han-carlson-adder", 16),
    ("shift-add-multiplier", 4),
    ("shift-add-multiplier", 8),
    ("bit-serial-multiplier", 8),
    ("universal-shift-register", 4),
    ("crc-register", 8),
]
_PEN: Final = re.compile(r"[MLHV]|-?\d+(?:\.\d+)?")

Spot = tuple[int, int]


def corners(path: str) -> list[tuple[float, float]]:
    """The corners of a path of lines, read token by token."""
    found: list[tuple[float, float]] = []
    letter, numbers = "", list[float]()
    for token in _PEN.findall(path):
        if token.isalpha():
            letter, numbers = token, []
            continue
        numbers.append(float(token))
        x, y = found[-1] if found else (0.0, 0.0)
        if letter == "H":
            found.append((numbers.pop(), y))
        elif letter == "V":
            found.append((x, numbers.pop()))
        elif len(numbers) == 2:
            found.append((numbers[0], numbers[1]))
            numbers = []
    return found


def nets(markup: str) -> Iterator[dict[Spot, set[str]]]:
    """Of every wire: the spots that it covers, half px apart, each with where it goes on."""
    for group in minidom.parseString(markup).getElementsByTagName("g"):  # noqa: S318  # our own
        if group.getAttribute("class") != "wire":
            continue
        covered: defaultdict[Spot, set[str]] = defaultdict(set)
        for path in group.getElementsByTagName("path"):
            if path.getAttribute("stroke"):
                paint(corners(path.getAttribute("d")), covered)
        yield covered


def paint(line: list[tuple[float, float]], covered: defaultdict[Spot, set[str]]) -> None:
    points = [(round(2 * x), round(2 * y)) for x, y in line]
    for (x1, y1), (x2, y2) in pairwise(points):
        assert x1 == x2 or y1 == y2, "a wire runs aslant"
        dx, dy = (x2 > x1) - (x2 < x1), (y2 > y1) - (y2 < y1)
        forth = {(1, 0): "rl", (-1, 0): "lr", (0, 1): "du", (0, -1): "ud"}.get((dx, dy), "")
        for step in range(abs(x2 - x1) + abs(y2 - y1)):
            covered[x1 + dx * step, y1 + dy * step].add(forth[0])
            covered[x1 + dx * (step + 1), y1 + dy * (step + 1)].add(forth[1])


def crossings(markup: str) -> int:
    across: defaultdict[Spot, int] = defaultdict(int)
    down: defaultdict[Spot, int] = defaultdict(int)
    both: defaultdict[Spot, int] = defaultdict(int)
    for covered in nets(markup):
        for spot, ways in covered.items():
            level, upright = {"l", "r"} <= ways, {"u", "d"} <= ways
            across[spot] += level
            down[spot] += upright
            both[spot] += level and upright
    # A net that forks there crosses itself nowhere, but another net it does.
    return sum(across[spot] * down[spot] - both[spot] for spot in across if spot in down)


def wired(*paths: str) -> str:
    groups = "".join(f'<g class="wire"><path stroke="#000" d="{path}"/></g>' for path in paths)
    return f'<svg xmlns="http://www.w3.org/2000/svg">{groups}</svg>'


@pytest.mark.parametrize(
    ("paths", "number"),
    [
        (("M0 5H20", "M10 0V10"), 1),
        (("M0 5H20", "M10 5V10"), 0),  # a touch is none
        (("M0 5H20V20", "M10 0V10H30"), 2),
        (("M0 5H10H20", "M10 0V5V10"), 1),  # where both lines have a corner that is none
        (("M0 5.5H20", "M4 0V10", "M6 0V10"), 2),
    ],
)
def test_the_counter_itself(paths: tuple[str, ...], number: int) -> None:
    assert crossings(wired(*paths)) == number


@pytest.mark.parametrize(("name", "n"), SAMPLE)
@pytest.mark.parametrize("room", [None, column("85mm").room], ids=["wide", "85mm"])
def test_the_table_counts_the_same(name: str, n: int, room: float | None) -> None:
    trace = traced(name, n)
    markup = svg(diagram(trace, room=room))
    flow = Picture(trace, Manner()).fitted(room).scene.direction
    assert crossings(markup) == measured(markup, flow).crossings
