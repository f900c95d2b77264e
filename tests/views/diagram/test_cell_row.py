"""Rows of cells: found in the nets, every cell drawn like every other, the MSB left."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise
from typing import Final

import pytest

from edgewise import catalogue
from edgewise.circuit.model import Circuit
from edgewise.design import Design
from edgewise.engines.reference import at_rest
from edgewise.publish.stage.figure_template import skeleton
from edgewise.views.diagram.block_diagram import diagram
from edgewise.views.diagram.options import Manner
from edgewise.views.diagram.picture import Picture
from edgewise.views.drawing.svg import svg
from edgewise.views.layout import elk
from edgewise.views.layout.graph import PlacedBox, PlacedPort
from scripts.figure_table import measured
from tests.views.runs import traced, wrong

# Crossings at n = 8 before cells were found, by the same measure.
BEFORE: Final = {
    "carry-save-accumulator": 106,
    "shift-add-multiplier": 80,
    "bit-serial-multiplier": 49,
    "ripple-carry-adder-subtractor": 65,
}


def picture(name: str, n: int = 4) -> Picture:
    return Picture(traced(name, n), Manner())


def box(name: str, part: str) -> PlacedBox:
    return picture(name).layout.box(part)


def port(name: str, pin: str) -> PlacedPort:
    return picture(name).layout.port(pin)


@pytest.mark.parametrize("name", BEFORE)
def test_fewer_than_a_third_of_the_crossings(name: str) -> None:
    shown = picture(name, 8)
    found = measured(svg(diagram(traced(name, 8))), shown.scene.direction)
    assert 3 * found.crossings < BEFORE[name]
    assert found.backward < 0.05 * found.length


@pytest.mark.parametrize("name", BEFORE)
@pytest.mark.parametrize("n", [2, 5, 8, 16])
def test_nothing_overlaps(name: str, n: int) -> None:
    assert wrong(traced(name, n)) == []
    assert picture(name, n).scene.fixed is not None


@pytest.mark.parametrize("name", BEFORE)
def test_no_layout_engine_is_asked(name: str, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(elk, "engine", None)
    assert picture(name, 16).layout.width > 0


@pytest.mark.parametrize("name", BEFORE)
def test_cells_repeat_with_the_msb_left(name: str) -> None:
    layout = picture(name, 4).layout
    places = [(layout.box(f"FA({i})").x, layout.box(f"FA({i})").y) for i in range(4)]
    steps = {a[0] - b[0] for a, b in pairwise(places)}
    assert len(steps) == 1
    assert steps.pop() > 0
    assert len({y for _, y in places}) == 1


def test_a_saved_carry_stands_directly_under_its_adder() -> None:
    name = "bit-serial-multiplier"
    for i in range(4):
        assert port(name, f"C({i}).d").x == port(name, f"FA({i}).carry-out").x
        assert port(name, f"C({i}).q").x == port(name, f"FA({i}).carry-in").x
        assert box(name, f"C({i})").y > box(name, f"FA({i})").y


def test_sums_move_right_and_carries_left_through_flip_flops_in_the_row() -> None:
    for name, store in (("bit-serial-multiplier", "R"), ("carry-save-accumulator", "C")):
        for i in (1, 2, 3):
            assert box(name, f"FA({i})").x < box(name, f"{store}({i})").x
            assert box(name, f"{store}({i})").x < box(name, f"FA({i - 1})").x
            assert port(name, f"{store}({i}).d").y == port(name, f"{store}({i}).q").y


def test_each_bit_of_a_register_stands_in_its_column() -> None:
    name = "shift-add-multiplier"
    for i in range(4):
        assert port(name, f"H.q!{i}").x == port(name, f"FA({i}).a").x
        middle = box(name, f"H({i})").x + box(name, f"H({i})").width / 2
        assert middle == port(name, f"H.q!{i}").x
    assert box(name, "H").x < box(name, "Q").x


def renamed(circuit: Circuit) -> Circuit:
    """The same circuit with its parts in another order."""
    return replace(circuit, name="two tide gauges", parts=circuit.parts[::-1])


@pytest.mark.parametrize("name", BEFORE)
def test_neither_name_nor_order_of_the_text_matters(name: str) -> None:
    design = catalogue.design(name)
    trace = at_rest(Design("gauges", renamed(design.circuit)))
    assert Picture(trace, Manner()).scene.fixed is not None


def test_a_row_with_anything_else_in_it_is_left_to_the_layout() -> None:
    # A multiplexer before the carry flip-flop.
    assert picture("serial-adder-subtractor").scene.fixed is None


def test_the_page_has_every_bit_and_every_way() -> None:
    design = traced("bit-serial-multiplier", 4).design
    made = skeleton(traced("bit-serial-multiplier", 4))
    shown = {net for _, nets, *_ in made.words for net in nets}
    assert {flip_flop.q for flip_flop in design.netlist.flip_flops} <= shown
    ends = {port for *_, port in made.ways}
    assert ends == {"d", "in"}


def test_the_critical_path_is_marked() -> None:
    path = [("M(0)", "0"), ("G(0).out", "1"), ("FA(0).carry-out", "4"), ("FA(1).sum", "6")]
    path += [("H.d(0)", "6")]
    drawing = svg(diagram(traced("shift-add-multiplier", 4), path=path))
    assert drawing.count('class="path"') == 4


@pytest.mark.parametrize("n", [2, 4, 8])
def test_the_gate_of_the_last_two_carries_stands_left_of_the_row(n: int) -> None:
    trace = traced("twos-complement-adder-subtractor", n)
    layout = Picture(trace, Manner()).layout
    assert layout.box("V").x + layout.box("V").width < layout.box(f"FA({n - 1})").x
    assert layout.port("V.out").x == layout.box("V").x
    assert layout.port(f"FA({n - 1}).carry-out").y in {
        port.y for port in layout.ports if port.box == "V"
    }
    # Only the sign's sum is crossed, by the carry that comes into its place.
    assert measured(svg(diagram(trace)), "left").crossings == 1
    for options in ({}, {"symbols": "rectangular"}, {"clock": "hidden"}):
        assert wrong(trace, **options) == []
