"""The pointer: an arrow whose tip is at what is spoken of."""

from __future__ import annotations

import re

import pytest

from edgewise import catalogue, run
from edgewise.views.diagram.options import Manner
from edgewise.views.diagram.picture import Picture
from edgewise.views.diagram.pointer import pointers, spots
from edgewise.views.drawing.svg import svg
from edgewise.views.registry import Wish, figure


@pytest.mark.parametrize("name", ["serial-adder", "shift-add-multiplier", "ripple-carry-adder"])
def test_every_part_is_pointed_at_within_the_picture(name: str) -> None:
    design = catalogue.design(name, n=4)
    picture = Picture(run(design, **{o.name: 0 for o in design.operands}), Manner())
    parts = [part.name for part in design.circuit.parts]
    found = spots(picture, parts)
    assert set(found) <= set(parts)
    width, height = picture.size
    assert all(0 <= x <= width and 0 <= y <= height for x, y in found.values())


def test_a_bit_is_pointed_at_in_its_own_cell() -> None:
    picture = Picture(run(catalogue.design("serial-adder", n=4), a=6, b=3), Manner())
    found = spots(picture, ["S(3)", "S(2)", "S(1)"])
    xs = [x for x, _ in found.values()]
    assert xs == sorted(xs)  # the MSB is on the left
    assert xs[1] - xs[0] == xs[2] - xs[1] > 0


def test_what_is_not_there_is_not_pointed_at() -> None:
    picture = Picture(run(catalogue.design("serial-adder", n=4), a=6, b=3), Manner())
    assert [*pointers(picture, ["rain"])] == []


def test_a_diagram_has_its_arrows_and_says_so() -> None:
    trace = run(catalogue.design("serial-adder", n=4), a=6, b=3)
    drawing = figure(trace, "diagram", Wish(after=5, point=("C", "FA.sum")))
    assert drawing.description.startswith("Arrows point at: C, FA.sum. After edge 5")
    arrows = re.findall(r'<g class="pointer" data-name="([^"]+)"', svg(drawing))
    assert arrows == ["C", "FA.sum"]
