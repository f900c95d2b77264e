"""A full adder with its carry flip-flop under it, and names beside wires laid without room."""

from __future__ import annotations

from itertools import pairwise
from typing import Any

import pytest

from edgewise import catalogue
from edgewise.views.diagram.block_diagram import diagram
from edgewise.views.diagram.options import Manner, manner
from edgewise.views.diagram.picture import Picture
from edgewise.views.drawing.svg import svg
from scripts.figure_table import measured
from tests.views.clashes import clashes
from tests.views.measures import faults, texts
from tests.views.runs import crossings, traced, wrong

SERIAL = [
    "serial-adder",
    "serial-adder-parallel-load",
    "serial-adder-gated-clock",
    "serial-subtractor",
    "serial-accumulator",
    "serial-accumulator-cleared",
]
CHOSEN = "serial-adder-subtractor"


@pytest.mark.parametrize("n", [4, 8, 16])
def test_a_multiplexer_that_loads_the_carry_stands_beside_its_flip_flop(n: int) -> None:
    trace = traced(CHOSEN, n)
    layout = Picture(trace, Manner()).layout
    adder, store, chosen = map(layout.box, ("FA", "C", "next"))
    assert (store.x, store.width) == (adder.x, adder.width)
    assert chosen.x > store.x + store.width
    # It looks left: its output and the flip-flop's data are at one height.
    assert layout.port("next.out").y == layout.port("C.d").y
    assert layout.port("next.out").x < layout.port("next.d0").x
    drawing = diagram(trace)
    assert {"load", "subtract"} <= {text.text for text in texts(drawing)}
    found = measured(svg(drawing), "right")
    assert found.crossings == 0
    assert found.backward < 0.06 * found.length


@pytest.mark.parametrize("options", [{}, {"clock": "hidden"}, {"symbols": "rectangular"}])
@pytest.mark.parametrize("narrow", [0, 1, 2])
def test_nothing_overlaps_there(options: dict[str, Any], narrow: int) -> None:
    trace = traced(CHOSEN, 4)
    assert wrong(trace, **options) == []
    assert clashes(Picture(trace, Manner(narrow=narrow)).layout) == ()


@pytest.mark.parametrize("name", SERIAL)
def test_the_carry_flip_flop_stands_directly_under_its_adder(name: str) -> None:
    layout = Picture(traced(name, 8), Manner()).layout
    adder, store = layout.box("FA"), layout.box("C")
    assert (store.x, store.width) == (adder.x, adder.width)
    assert 0 < store.y - (adder.y + adder.height) < 40
    # It is read from right to left: d at the right, q at the left.
    assert layout.port("C.d").x == adder.x + adder.width
    assert layout.port("C.q").x == adder.x


@pytest.mark.parametrize("name", SERIAL)
@pytest.mark.parametrize("clock", ["wedge", "hidden", "wires"])
def test_nothing_overlaps(name: str, clock: str) -> None:
    assert wrong(traced(name, 4), clock=clock) == []


def test_the_serial_adder_has_one_crossing_and_hardly_a_wire_backwards() -> None:
    found = measured(svg(diagram(traced("serial-adder", 8))), "right")
    assert found.crossings == 1
    assert found.backward < 0.05 * found.length


@pytest.mark.parametrize("name", SERIAL)
@pytest.mark.parametrize(("size", "narrow"), [(4, 0), (8, 0), (16, 0), (8, 1), (4, 2), (8, 4)])
def test_no_wire_runs_under_the_carry_flip_flop(name: str, size: int, narrow: int) -> None:
    picture = Picture(traced(name, size), Manner(narrow=narrow))
    layout, store = picture.layout, picture.layout.box("C")
    stacked = picture.scene.loop is not None and len(picture.scene.loop.members) > 2
    under = [
        wire.id
        for wire in layout.wires
        for line in wire.lines
        for (x1, y1), (x2, y2) in pairwise(line)
        if min(y1, y2) >= store.y + store.height
        and max(x1, x2) > store.x
        and min(x1, x2) < store.x + store.width
    ]
    # Where the register that takes in the sum stands under both, its wire comes from above.
    assert set(under) <= ({"FA.sum~"} if stacked else set())
    # Of the serial adder with a gated clock, the gate itself stands lowest.
    low = max(y for wire in layout.wires for line in wire.lines for _, y in line)
    assert low <= max(box.y + box.height for box in layout.boxes)


def test_a_control_is_named_at_the_registers_behind_the_adder() -> None:
    picture = Picture(traced("serial-adder", 4), Manner())
    names = [e for e in picture.scene.elements if e.role == "input" and e.label == "shift"]
    assert sorted(e.hangs_on or "" for e in names) == ["", "C.enable", "S.enable"]
    assert len({e.word for e in names}) == 1


def test_an_opened_adder_has_no_flip_flop_under_it() -> None:
    trace = traced("serial-adder", 4)
    picture = Picture(trace, manner(trace.design.circuit, ["FA"]))
    assert picture.scene.loop is None


@pytest.mark.parametrize(
    ("name", "net"),
    [
        ("serial-adder", "FA.carry-out"),
        ("shift-add-multiplier", "Q.out"),
    ],
)
def test_a_name_stands_beside_a_wire_that_was_laid_without_room_for_it(name: str, net: str) -> None:
    drawing = diagram(traced(name, 4), names=[net])
    assert net in [text.text for text in texts(drawing)]
    assert faults(drawing) == crossings(drawing) == []


def test_the_catalogue_has_all_of_them() -> None:
    assert set(SERIAL) <= set(catalogue.ORDER)
