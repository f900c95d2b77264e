"""An opened part of a row, of groups, of a graph or of a datapath: all the rest stays in place."""

from __future__ import annotations

import pytest

from edgewise.publish.stage.figure_template import skeleton
from edgewise.views.diagram.block_diagram import diagram
from edgewise.views.diagram.options import Manner, manner
from edgewise.views.diagram.picture import Picture
from tests.views.runs import traced, wrong

OPENED = [
    ("ripple-carry-adder", 4, "FA(1)", "FA(1)"),
    ("carry-skip-adder", 8, "group(1)", "group(1)"),
    ("brent-kung-adder", 4, "HA(0)", "HA(0)"),
    ("bit-serial-multiplier", 4, "FA(0)", "FA(0)"),
    ("shift-add-multiplier", 4, "FA(3)", "FA(3)"),
    ("shift-add-multiplier", 8, "FA(3)", "FA(7..0)"),
    ("universal-shift-register", 4, "M(2)", "M(2)"),
]


@pytest.mark.parametrize(("name", "n", "part", "within"), OPENED)
def test_everything_else_keeps_its_place(name: str, n: int, part: str, within: str) -> None:
    trace = traced(name, n)
    shut = Picture(trace, Manner())
    opened = Picture(trace, manner(trace.design.circuit, [part]))
    before, after = shut.layout, opened.layout
    assert after.boxes[: len(before.boxes)] == before.boxes
    assert after.wires[: len(before.wires)] == before.wires
    inside = after.box(f"{part}+")
    assert inside.y >= before.height
    assert {e.id for e in opened.scene.elements if e.shown} == {within}
    assert wrong(trace, open=[part]) == []


@pytest.mark.parametrize(("name", "n", "part"), [one[:3] for one in OPENED])
def test_the_inside_shows_the_bits_of_the_part(name: str, n: int, part: str) -> None:
    trace = traced(name, n)
    pins = Picture(trace, manner(trace.design.circuit, [part])).scene.pins
    ports = [p.name for p in trace.design.circuit.part(part).kind.ports]  # type: ignore[union-attr]
    for port in ports:
        held = [pin for pin in pins.values() if pin.id == f"{part}.{port}+"]
        assert [pin.nets for pin in held] == [tuple(trace.design.netlist.names[f"{part}.{port}"])]


def test_several_parts_stand_below_one_another_and_parts_in_parts_in_them() -> None:
    trace = traced("carry-skip-adder", 8)
    wanted = ["group(0).HA(1)", "group(1)"]
    picture = Picture(trace, manner(trace.design.circuit, wanted))
    assert picture.scene.under == ("group(0)+", "group(1)+")
    first, second = (picture.layout.box(name) for name in picture.scene.under)
    assert first.y + first.height < second.y
    assert picture.layout.box("group(0).HA(1)").parent == "group(0)+"
    assert wrong(trace, open=wanted) == []


def test_a_page_and_a_path_have_them_too() -> None:
    trace = traced("shift-add-multiplier", 8)
    made = skeleton(trace, opened=["FA(3)"])
    assert made.height > skeleton(trace).height
    path = [("FA(0).carry-out", "2"), ("FA(1).carry-out", "4"), ("FA(2).sum", "6")]
    assert diagram(traced("ripple-carry-adder", 4), open=["FA(1)"], path=path).items
