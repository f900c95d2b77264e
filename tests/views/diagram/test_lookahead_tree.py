"""Lookahead trees: found in the nets, the LSB right, units under what they serve, nothing crossed.

Outside: the catalogue's carry-lookahead adder is that of Mano and Ciletti, Digital Design, sec.
4.5 (from memory); crossings are counted by two scripts that share nothing.
"""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise
from typing import Final

import pytest

from edgewise import catalogue
from edgewise.blueprint import from_text
from edgewise.views.diagram.block_diagram import diagram
from edgewise.views.diagram.lookahead_tree import find
from edgewise.views.diagram.options import Manner
from edgewise.views.diagram.picture import Picture
from edgewise.views.drawing.column import column
from edgewise.views.drawing.svg import svg
from scripts.figure_table import measured
from tests.views.clashes import clashes
from tests.views.measures import faults, texts
from tests.views.runs import crossings, ran, traced, wrong

NAMES: Final = ["carry-lookahead-adder", "carry-lookahead-adder-without-carry-in"]


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("n", [2, 4, 5, 8, 16, 20])
def test_nothing_crosses(name: str, n: int) -> None:
    trace = traced(name, n)
    picture = Picture(trace, Manner())
    root = find(trace.design.circuit)
    assert root is not None
    boxes = [picture.layout.box(leaf.part.name) for leaf in root.leaves()]
    assert len({box.y for box in boxes}) == 1
    assert all(after.x + after.width < before.x for before, after in pairwise(boxes))
    below = picture.layout.box(root.part.name)
    assert all(box.y + box.height < below.y for box in boxes)
    assert wrong(trace) == []
    assert measured(svg(diagram(trace)), "left").crossings == 0


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("n", [4, 8, 16])
def test_it_stands_in_a_column_of_85_millimetres(name: str, n: int) -> None:
    trace = traced(name, n)
    room = column("85mm").room
    picture, drawing = Picture(trace, Manner()).fitted(room, breaks=True), diagram(trace, room=room)
    assert drawing.width <= room
    assert bool(picture.panels) == (n > 4)
    assert [*clashes(picture.layout), *faults(drawing), *crossings(drawing)] == []
    # Only the unit is cut, no wire: there is nothing to say about numbers.
    assert not any("goes on" in text.text for text in texts(drawing))


def test_units_serve_groups_and_units() -> None:
    root = find(catalogue.design("carry-lookahead-adder", n=20).circuit)
    assert root is not None
    low, high = root.members
    assert (root.part.name, low.part.name, high.part.name) == ("LA", "LA1(0)", "group(4)")
    assert [leaf.part.name for leaf in low.leaves()] == [f"group({i})" for i in range(4)]
    assert low.given == (("generate", "g0"), ("propagate", "p0"))
    assert (high.into, high.carry and high.carry.port) == ("carry-in", "c1")


def test_neither_name_nor_order_of_the_text_matters() -> None:
    circuit = catalogue.design("carry-lookahead-adder", n=16).circuit
    assert find(replace(circuit, name="tides", parts=circuit.parts[::-1])) == find(circuit)


# Two ovens and the unit that makes the carry between them: a bakery counts its trays.
OVENS: Final = """\
circuit: two ovens
inputs: {trays: 2, sold: 2}
parts:
  oven(0): {part: half-adder, a: trays(0), b: sold(0)}
  oven(1): {part: half-adder, a: trays(1), b: sold(1)}
  ahead: {part: two places, g: oven(0).carry-out, h: oven(1).carry-out, q: oven(1).sum}
  more(1): {part: xor, in: [oven(1).sum, ahead.low]}
outputs: {all: [more(1).out, oven(0).sum], rest: ahead.high}
operands: {trays: 2, sold: 2}
---
circuit: two places
inputs: {g: 1, h: 1, q: 1}
parts:
  both: {part: and, in: [g, q]}
  any: {part: or, in: [h, both.out]}
  same: {part: buffer, in: g}
outputs: {low: same.out, high: any.out}
"""


def test_parts_of_any_name() -> None:
    trace = ran(from_text(OVENS, "ovens.yaml").design({}))
    found = find(trace.design.circuit)
    assert found is not None
    assert found.part.name == "ahead"
    assert wrong(trace) == []


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("in: [oven(1).sum, ahead.low]", "in: [oven(0).sum, ahead.low]"),  # another's p
        ("in: [oven(1).sum, ahead.low]", "in: [oven(1).sum, ahead.high]"),  # two carries go out
        ("rest: ahead.high", "rest: trays(1)"),  # an input goes straight to an output
        ("part: half-adder, a: trays(0), b: sold(0)", "part: half-adder, a: trays(0), b: 1"),
    ],
)
def test_anything_else_is_left_to_the_layout(old: str, new: str) -> None:
    assert old in OVENS
    trace = ran(from_text(OVENS.replace(old, new), "ovens.yaml").design({}))
    assert find(trace.design.circuit) is None
