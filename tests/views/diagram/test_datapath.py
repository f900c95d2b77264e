"""Datapaths: the adders one box, the registers under it, found in the nets alone."""

from __future__ import annotations

from dataclasses import replace
from typing import Final

import pytest

from edgewise.blueprint import from_text
from edgewise.design import Design
from edgewise.engines.reference import at_rest
from edgewise.trace import Trace
from edgewise.views.diagram.block_diagram import diagram
from edgewise.views.diagram.options import Manner
from edgewise.views.diagram.picture import Picture
from edgewise.views.drawing.column import column
from edgewise.views.drawing.svg import Drawing, svg
from scripts.figure_table import measured
from tests.views.clashes import clashes
from tests.views.measures import faults, texts
from tests.views.runs import crossings, ran, traced, wrong

ACCUMULATOR: Final = """\
circuit: rain accumulator
parameters: {n: 8 in 1..64}
inputs: {clear: 1, word: n}
nets: {c: n + 1, s: n}
join: {c(0): 0}
parts:
  FA(i = 0..n-1):
    {part: full-adder, a: A(i), b: word(i), carry-in: c(i), sum: s(i), carry-out: c(i+1)}
  A: {part: register, width: n, d: s, clear: clear}
outputs: {total: A}
operands: {w(i = 1..3): n}
procedure:
  - {phase: clear, edges: 1, clear: 1, word: 0}
  - {phase: add(i = 1..3), edges: 1, clear: 0, word: w(i)}
computes: {total: total(w) mod 2**n}
"""


def accumulator(n: int) -> Trace:
    return ran(from_text(ACCUMULATOR, "rain.yaml").design({"n": n}))


def figure(trace: Trace, room: float | None = None) -> tuple[Picture, Drawing]:
    return Picture(trace, Manner()).fitted(room), diagram(trace, min(2, trace.edges), room=room)


@pytest.mark.parametrize("n", [5, 8, 16, 20])
def test_the_multiplier_has_one_adder_over_its_registers(n: int) -> None:
    trace = traced("shift-add-multiplier", n)
    layout = Picture(trace, Manner()).layout
    adder, high, low = (layout.box(name) for name in (f"FA({n - 1}..0)", "H", "Q"))
    assert adder.y + adder.height < high.y == low.y
    assert (adder.x, adder.width) == (high.x, high.width)
    assert high.x + high.width < low.x  # the MSB left
    assert layout.box("M").y + layout.box("M").height < adder.y
    assert wrong(trace) == []


@pytest.mark.parametrize("n", [5, 8, 16])
def test_no_wire_of_it_crosses_another_and_few_run_back(n: int) -> None:
    trace = traced("shift-add-multiplier", n)
    found = measured(svg(diagram(trace)), "down")
    assert found.crossings == 0
    assert found.backward < 0.05 * found.length


@pytest.mark.parametrize("n", [2, 4, 8])
def test_it_stands_in_a_column_of_85_millimetres(n: int) -> None:
    trace = traced("shift-add-multiplier", n)
    picture, drawing = figure(trace, column("85mm").room)
    assert drawing.width <= column("85mm").room
    assert [*clashes(picture.layout), *faults(drawing), *crossings(drawing)] == []


def test_arrows_say_where_the_bits_move() -> None:
    shifted = {
        e.id: e.arrow for e in Picture(traced("shift-add-multiplier", 8), Manner()).scene.elements
    }
    assert {name for name, arrow in shifted.items() if arrow == "right"} == {"H", "Q"}
    kept = Picture(accumulator(8), Manner()).scene.elements
    assert {e.arrow for e in kept} == {""}


def test_each_wire_says_which_bits_it_takes() -> None:
    drawing = diagram(traced("shift-add-multiplier", 8))
    written = {text.text: text.order for text in texts(drawing)}
    assert {"(7..1)", "(0)", "(15..8)", "(7..0)", "8"} <= {*written}
    assert written["H"] < written["(7..1)"]  # what stands in its frame is drawn after it


@pytest.mark.parametrize("n", [2, 4, 5, 8, 16])
@pytest.mark.parametrize("room", [None, column("85mm").room])
def test_an_accumulator_is_its_register_under_its_adder(n: int, room: float | None) -> None:
    picture, drawing = figure(accumulator(n), room)
    assert picture.scene.fixed is not None
    assert drawing.width <= (room or drawing.width)
    assert [*clashes(picture.layout), *faults(drawing), *crossings(drawing)] == []
    assert measured(svg(drawing), "down").crossings == 0


@pytest.mark.parametrize("n", [2, 4, 8])
def test_a_row_that_no_register_feeds_becomes_a_datapath_where_it_is_narrow(n: int) -> None:
    trace = traced("ripple-carry-adder-subtractor", n)
    picture, drawing = figure(trace, column("85mm").room)
    assert drawing.width <= column("85mm").room
    assert [*clashes(picture.layout), *faults(drawing), *crossings(drawing)] == []
    if n == 8:
        assert f"FA({n - 1}..0)" in {e.id for e in picture.scene.elements}


def test_every_net_between_two_parts_that_are_drawn_has_its_bits() -> None:
    scene = Picture(traced("shift-add-multiplier", 8), Manner()).scene
    for thread in scene.threads:
        nets = {net for end in thread.targets for net in scene.pins[end].nets}
        assert nets <= {*scene.pins[thread.source].nets}


def test_neither_name_nor_order_of_the_text_matters() -> None:
    design = accumulator(8).design
    circuit = replace(design.circuit, name="tides", parts=design.circuit.parts[::-1])
    scene = Picture(at_rest(Design("tides", circuit)), Manner()).scene
    assert "FA(7..0)" in {e.id for e in scene.elements}


@pytest.mark.parametrize("name", ["FA(3)", "FA(3).carry-out", "G(2)"])
def test_a_fault_in_one_of_the_adders_is_marked_at_all_of_them(name: str) -> None:
    drawing = diagram(traced("shift-add-multiplier", 8), mark=[name])
    assert [text.text for text in texts(drawing) if text.text == name] == [name]
    assert svg(drawing).count('class="fault"') == 2  # beside its name, and at the part


def test_the_legend_has_its_buses() -> None:
    for trace in (accumulator(8), traced("carry-skip-adder", 8)):
        assert "several bits" in {text.text for text in texts(diagram(trace, legend=True))}
