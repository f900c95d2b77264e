"""A figure in panels: nothing is lost, every wire that is cut can be followed, letters stay apart.

Outside: nothing beyond the figure itself, drawn uncut; numbers in circles for wires that go on
elsewhere are common practice, no source.
"""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from itertools import accumulate, pairwise

import pytest

from edgewise import catalogue
from edgewise.views.diagram.block_diagram import diagram
from edgewise.views.diagram.clipping import bounds, clipped
from edgewise.views.diagram.filmstrip import filmstrip
from edgewise.views.diagram.options import Manner
from edgewise.views.diagram.picture import Picture
from edgewise.views.drawing.column import column
from edgewise.views.drawing.shapes import Group, Item, Letters, Line, Path, Rectangle, Text
from edgewise.views.drawing.svg import Drawing
from tests.views.measures import faults, texts
from tests.views.runs import traced

SLIM = column("85mm").room
WIDE = {"shift-add-multiplier", "bit-serial-multiplier", "carry-save-accumulator", "crc-register"}
BROKEN = ["serial-adder", "bit-serial-multiplier", "crc-register", "universal-shift-register"]


def groups(items: tuple[Item, ...], kind: str) -> list[Group]:
    found = []
    for item in items:
        if isinstance(item, Group):
            found += [item] if item.kind == kind else groups(item.items, kind)
    return found


def said(drawing: Drawing) -> Counter[str]:
    """Every text but the numbers of wires that are cut, and the line that explains them."""
    every = Counter(text.text for text in texts(drawing))
    for mark in groups(drawing.items, "goes-on"):
        every -= Counter(item.text for item in mark.items if isinstance(item, Text))
    every -= Counter(["A wire goes on where its number in a circle stands again."])
    return every


def level(drawing: Drawing) -> float:
    """Px of wire from left to right."""
    lines = [i for g in groups(drawing.items, "wire") for i in g.items if isinstance(i, Line)]
    return sum(abs(b[0] - a[0]) for line in lines for a, b in pairwise(line.points))


@pytest.mark.parametrize("name", catalogue.ORDER)
def test_every_figure_fits_a_column(name: str) -> None:
    drawing = diagram(traced(name, 8 if name in WIDE else 4), room=SLIM)
    assert drawing.width <= SLIM
    assert faults(drawing) == []


@pytest.mark.parametrize("name", BROKEN)
def test_nothing_is_lost(name: str) -> None:
    picture = Picture(traced(name, 8), Manner()).fitted(SLIM, breaks=True)
    broken, whole = (
        Drawing(9, 9, "", "", tuple(one.items(2))) for one in (picture, replace(picture, room=None))
    )
    assert groups(broken.items, "panel")
    assert not groups(whole.items, "panel")
    assert said(broken) == said(whole)
    names = [{part.name for part in groups(one.items, "part")} - {""} for one in (broken, whole)]
    assert names[0] == names[1]
    # Of every wire the same is drawn, and a little more at each end that a cut makes.
    ends = len(groups(broken.items, "goes-on"))
    assert level(whole) - 1 <= level(broken) <= level(whole) + 5 * ends


@pytest.mark.parametrize("name", BROKEN)
def test_every_wire_that_is_cut_goes_on(name: str) -> None:
    broken = diagram(traced(name, 8), room=SLIM)
    panels = groups(broken.items, "panel")
    where: dict[str, set[int]] = {}
    for i, panel in enumerate(panels):
        for mark in groups(panel.items, "goes-on"):
            (text,) = [item.text for item in mark.items if isinstance(item, Text)]
            where.setdefault(text, set()).add(i)
    assert where
    assert all(len(found) > 1 for found in where.values())
    # A number is beside the end of a wire, at its height.
    for panel in panels:
        ends = [
            point
            for wire in groups(panel.items, "wire")
            for line in wire.items
            if isinstance(line, Line)
            for point in (line.points[0], line.points[-1])
        ]
        for mark in groups(panel.items, "goes-on"):
            ring = next(bounds(mark))
            x, y = (ring[0] + ring[2]) / 2, (ring[1] + ring[3]) / 2
            assert any(abs(y - b) < 1 and abs(x - a) < 40 for a, b in ends)


def test_every_row_has_the_same_panels() -> None:
    trace = traced("serial-adder", 8)
    one, other = (diagram(trace, row, room=SLIM) for row in (3, 12))
    assert (one.width, one.height) == (other.width, other.height)
    assert [p.x for p in groups(one.items, "panel")] == [p.x for p in groups(other.items, "panel")]


def test_a_filmstrip_is_broken_too() -> None:
    drawing = filmstrip(traced("serial-adder", 8), [3, 4], room=SLIM)
    assert drawing.width <= SLIM
    count = len(groups(drawing.items, "panel"))
    assert count >= 4
    assert count % 2 == 0


def test_a_box_that_is_cut_has_an_open_side() -> None:
    box = Rectangle(0, 0, 100, 20, "#ffffff", "#1b2430")
    fill, line = clipped(box, (40, 120), (40, 120))
    assert isinstance(fill, Rectangle)
    assert [fill.x, fill.width] == [40, 60]
    assert fill.stroke == "none"
    assert isinstance(line, Line)
    assert [*line.points] == [(40, 0), (100, 0), (100, 20), (40, 20)]
    middle = [*clipped(box, (40, 60), (40, 60))]
    assert [one.points for one in middle if isinstance(one, Line)] == [
        ((40, 0), (60, 0)),
        ((40, 20), (60, 20)),
    ]


def test_bounds_know_every_shape() -> None:
    letters = Letters((5.0, 15.0), 10.0, "01", ("#000000", "#000000"))
    items = (Path("M1 2H9V5Q3 4 2 8A3 3 0 0 1 4 11", "#000000"), letters)
    boxes = [box for item in items for box in bounds(item)]
    assert [*boxes[0]] == [1, 2, 9, 11]
    assert boxes[1][0] < 5
    assert boxes[1][2] > 15


@pytest.mark.parametrize("name", ["serial-adder-gated-clock", "serial-adder-subtractor"])
def test_no_panel_is_empty_for_long(name: str) -> None:
    drawing = diagram(traced(name, 8), room=SLIM)
    for panel in groups(drawing.items, "panel"):
        spans = sorted((box[1], box[3]) for leaf in leaves(panel.items) for box in bounds(leaf))
        ends = [*accumulate((low for _, low in spans), max)]
        assert all(top - end <= 28 for end, (top, _) in zip(ends, spans[1:], strict=False))


def leaves(items: tuple[Item, ...]) -> list[Item]:
    """What is drawn, each in a group of its own that has its place."""
    found: list[Item] = []
    for item in items:
        if isinstance(item, Group):
            found += [Group((one,), x=item.x, y=item.y) for one in leaves(item.items)]
        else:
            found.append(item)
    return found


def test_constants_and_controls_stay_with_what_they_hold() -> None:
    picture = Picture(traced("digit-serial-adder", 8), Manner()).fitted(SLIM, breaks=True)
    assert picture.panels is not None
    homes = {pin.id: element.role for element in picture.scene.walk() for pin in element.pins}
    given = {thread.source for thread in picture.scene.threads}
    assert {"tie", "input"} <= {homes[source] for source in given}
    cut = {homes[source] for source in given & set(picture.panels.numbers)}
    assert cut <= {"adder", "cell", "storage"}


def test_no_cut_runs_along_the_side_of_a_part() -> None:
    picture = Picture(traced("bit-serial-multiplier", 16), Manner()).fitted(SLIM, breaks=True)
    assert picture.panels is not None
    wide = picture.layout.box("M")
    for cut in picture.panels.cuts:
        assert min(abs(cut - wide.x), abs(cut - wide.x - wide.width)) >= 10


@pytest.mark.parametrize("name", ["serial-accumulator", "serial-subtractor"])
def test_no_panel_has_wires_alone(name: str) -> None:
    trace = traced(name, 4)
    parts = {part.name for part in trace.design.circuit.parts}
    for panel in groups(diagram(trace, room=SLIM).items, "panel"):
        assert parts & {part.name for part in groups(panel.items, "part")}
