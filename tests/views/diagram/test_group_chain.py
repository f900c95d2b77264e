"""Groups side by side: found in the nets, the LSB right, words over and under each."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise
from typing import Final

import pytest

from edgewise import catalogue
from edgewise.blueprint import from_text
from edgewise.design import Design
from edgewise.engines.reference import at_rest
from edgewise.trace import Trace
from edgewise.views.diagram.block_diagram import diagram
from edgewise.views.diagram.group_chain import find
from edgewise.views.diagram.options import Manner
from edgewise.views.diagram.picture import Picture
from edgewise.views.drawing.column import column
from edgewise.views.drawing.svg import svg
from scripts.figure_table import measured
from tests.views.clashes import clashes
from tests.views.measures import faults, texts
from tests.views.runs import crossings, ran, traced, wrong

GROUPED: Final = ["carry-skip-adder", "carry-select-adder", "carry-increment-adder"]

# A bakery adds trays of two ovens, each oven two bits at a time.
OVENS: Final = """\
circuit: two ovens
inputs: {trays: 6, sold: 6}
parts:
  oven(0): {part: pair of places, x: trays(1..0), y: sold(1..0), more: 0}
  oven(1): {part: pair of places, x: trays(3..2), y: sold(3..2), more: oven(0).over}
  oven(2): {part: pair of places, x: trays(5..4), y: sold(5..4), more: oven(1).over}
outputs: {all: [oven(2).both, oven(1).both, oven(0).both], rest: oven(2).over}
operands: {trays: 6, sold: 6}
---
circuit: pair of places
inputs: {x: 2, y: 2, more: 1}
parts:
  low:  {part: full-adder, a: x(0), b: y(0), carry-in: more}
  high: {part: full-adder, a: x(1), b: y(1), carry-in: low.carry-out}
outputs: {both: [high.sum, low.sum], over: high.carry-out}
"""


def ovens() -> Trace:
    return ran(from_text(OVENS, "ovens.yaml").design({}))


@pytest.mark.parametrize("name", GROUPED)
@pytest.mark.parametrize("n", [6, 8, 16])
def test_groups_stand_side_by_side_the_lsb_right(name: str, n: int) -> None:
    trace = traced(name, n)
    picture = Picture(trace, Manner())
    boxes = [picture.layout.box(part.name) for part in trace.design.circuit.parts]
    assert len({box.y for box in boxes}) == 1
    assert all(after.x + after.width < before.x for before, after in pairwise(boxes))
    assert wrong(trace) == []
    found = measured(svg(diagram(trace)), picture.scene.direction)
    assert (found.crossings, found.bends, found.backward) == (0, 0, 0)


@pytest.mark.parametrize("name", GROUPED)
@pytest.mark.parametrize("n", [4, 8, 16])
def test_they_stand_in_rows_in_a_column_of_85_millimetres(name: str, n: int) -> None:
    trace = traced(name, n)
    room = column("85mm").room
    picture, drawing = Picture(trace, Manner()).fitted(room), diagram(trace, room=room)
    assert drawing.width <= room
    assert [*clashes(picture.layout), *faults(drawing), *crossings(drawing)] == []
    assert measured(svg(drawing), "left").crossings == 0


@pytest.mark.parametrize("narrow", [0, 1, 2, 3, 4])
def test_parts_of_any_name_and_a_constant_carry(narrow: int) -> None:
    picture = Picture(ovens(), Manner(narrow=narrow))
    ys = [picture.layout.box(f"oven({i})").y for i in range(3)]
    assert len({*ys}) == {0: 1, 1: 1, 2: 2, 3: 3, 4: 3}[narrow]
    assert clashes(picture.layout) == ()


def test_words_say_which_bits_they_are() -> None:
    found = {text.text for text in texts(diagram(ovens()))}
    assert {"trays(5..4)", "sold(1..0)", "all(3..2)", "rest"} <= found
    assert wrong(ovens()) == []


def test_neither_name_nor_order_of_the_text_matters() -> None:
    circuit = catalogue.design("carry-skip-adder", n=16).circuit
    other = replace(circuit, name="tides", parts=circuit.parts[::-1])
    assert find(other) == find(circuit)
    assert Picture(at_rest(Design("tides", other)), Manner()).scene.fixed is not None


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("more: oven(1).over", "more: oven(0).over"),  # one carry to two groups
        ("y: sold(5..4)", "y: [sold(5), trays(0)]"),  # a word of bits of two inputs
        ("rest: oven(2).over", "rest: trays(0)"),  # an input goes straight to an output
        ("y: sold(3..2)", "y: oven(0).both"),  # more than one bit is handed on
    ],
)
def test_anything_else_is_left_to_the_layout(old: str, new: str) -> None:
    assert old in OVENS
    trace = ran(from_text(OVENS.replace(old, new), "ovens.yaml").design({}))
    assert find(trace.design.circuit) is None


COUNTED: Final = """\
circuit: two counted ovens
inputs: {tray: 1}
parts:
  first:  {part: oven, tray: tray}
  second: {part: oven, tray: first.full}
outputs: {full: second.full, now: first.now, then: second.now}
procedure: [{phase: bake, edges: 3, tray: 1}]
---
circuit: oven
inputs: {tray: 1}
parts: {K: {part: counter, width: 2, enable: tray}}
outputs: {now: K, full: K.terminal-count}
"""


def test_groups_that_store_have_a_clock() -> None:
    trace = ran(from_text(COUNTED, "ovens.yaml").design({}))
    assert find(trace.design.circuit) is not None
    for clock in ("wedge", "hidden", "wires"):
        assert wrong(trace, clock=clock) == []
    assert Picture(trace, Manner(clock="wires")).scene.fixed is None
    assert {"now", "then"} <= {text.text for text in texts(diagram(trace))}
