"""Digits side by side: found in the nets, the LSB right, one crossing for each digit's sum."""

from __future__ import annotations

from dataclasses import replace

import pytest

from edgewise import catalogue
from edgewise.design import Design
from edgewise.engines.reference import at_rest
from edgewise.views.diagram.block_diagram import diagram
from edgewise.views.diagram.options import Manner, manner
from edgewise.views.diagram.picture import Picture
from edgewise.views.drawing.svg import svg
from scripts.figure_table import measured
from tests.views.clashes import clashes
from tests.views.measures import texts
from tests.views.runs import ran, traced, wrong


@pytest.mark.parametrize(("n", "d"), [(4, 2), (8, 2), (8, 4), (9, 3), (16, 2), (40, 2), (6, 6)])
def test_each_adder_stands_under_its_registers_and_over_its_own(n: int, d: int) -> None:
    trace = ran(catalogue.design("digit-serial-adder", n=n, d=d))
    layout = Picture(trace, Manner()).layout
    for j in range(d):
        a, b, adder, s = (layout.box(f"{name}({j})") for name in ("A", "B", "FA", "S"))
        assert max(a.y + a.height, b.y + b.height) < adder.y
        assert adder.y + adder.height < s.y
        assert a.x + a.width < b.x
        for port in "ab":  # straight down
            out = layout.port(f"{port.upper()}({j}).out")
            assert out.x == layout.port(f"FA({j}).{port}").x
    assert all(layout.box(f"FA({j})").x > layout.box(f"FA({j + 1})").x for j in range(d - 1))
    assert wrong(trace) == []
    found = measured(svg(diagram(trace)), "down")
    assert found.crossings == d  # the carry on its way back, of each sum
    assert found.backward < 0.1 * found.length


@pytest.mark.parametrize("narrow", [1, 2, 4])
def test_narrow_figures_have_it_too(narrow: int) -> None:
    picture = Picture(traced("digit-serial-adder", 8), Manner(narrow=narrow))
    assert picture.scene.fixed is not None
    assert clashes(picture.layout) == ()


def test_words_say_which_bits_they_are() -> None:
    found = {text.text for text in texts(diagram(traced("digit-serial-adder", 16)))}
    assert {"a(14,12,…,0)", "sum(15,13,…,1)"} <= found


def test_the_bits_of_a_word_are_those_of_its_register() -> None:
    trace = traced("digit-serial-adder", 8)
    scene = Picture(trace, Manner()).scene
    words = {e.label: e.word for e in scene.elements if e.role == "bit"}
    names = trace.design.netlist.names
    assert words["a(6,4,2,0)"] == tuple(names["a"][i] for i in (0, 2, 4, 6))
    stored = {e.id: e.word for e in scene.elements if e.role == "storage"}
    assert stored["S(1)"] == tuple(names["sum"][i] for i in (1, 3, 5, 7))


def test_neither_name_nor_order_of_the_text_matters() -> None:
    circuit = catalogue.design("digit-serial-adder", n=8).circuit
    other = replace(circuit, name="tides", parts=circuit.parts[::-1])
    layout = Picture(at_rest(Design("tides", other)), Manner()).layout
    assert layout.box("FA(1)").x < layout.box("FA(0)").x
    assert layout.box("FA(1)").y == layout.box("FA(0)").y


def test_with_the_wires_of_the_clock_it_is_left_to_the_layout() -> None:
    trace = traced("digit-serial-adder", 4)
    picture = Picture(trace, manner(trace.design.circuit, clock="wires"))
    assert picture.scene.fixed is None
    assert wrong(trace, clock="wires") == []


def test_without_the_clock_it_is_the_same_but_for_the_wedges() -> None:
    trace = traced("digit-serial-adder", 8)
    assert wrong(trace, clock="hidden") == []
    assert wrong(trace, symbols="rectangular") == []
