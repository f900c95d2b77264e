"""The mark of a fault: at its wire or part, whatever is drawn of it."""

from __future__ import annotations

from collections.abc import Iterator

import pytest

from edgewise import catalogue, run
from edgewise.engines import reference
from edgewise.errors import EdgewiseError
from edgewise.study.faults.models import faults
from edgewise.trace import Trace
from edgewise.views.diagram.block_diagram import diagram
from edgewise.views.diagram.fault_mark import flashes
from edgewise.views.diagram.options import manner
from edgewise.views.diagram.picture import Picture
from edgewise.views.drawing import theme
from edgewise.views.drawing.shapes import Group, Item, Text
from edgewise.views.drawing.svg import Drawing, svg
from tests.conftest import Golden


def adder() -> Trace:
    return run(catalogue.design("serial-adder", n=4), a=3, b=7)


def tips(drawing: Drawing) -> dict[str, tuple[float, float]]:
    """Where each flash points, by what it marks; that of the heading has no name."""

    def walk(items: tuple[Item, ...], x: float, y: float) -> Iterator[tuple[str, float, float]]:
        for item in items:
            if isinstance(item, Group):
                if item.kind == "fault":
                    yield item.name, x + item.x, y + item.y
                yield from walk(item.items, x + item.x, y + item.y)

    return {name: (x, y) for name, x, y in walk(drawing.items, 0, 0) if name}


def words(drawing: Drawing) -> list[str]:
    return [item.text for item in drawing.items if isinstance(item, Text)]


def test_a_marked_figure(golden: Golden) -> None:
    fault = next(f for f in faults(adder().design) if f.name == "C stuck at 0")
    broken = reference.run(fault.design, {"a": 3, "b": 7})
    drawing = diagram(broken, mark=fault.where, fault=fault.name)
    golden("figure-diagram-fault.svg", svg(drawing))
    assert drawing.description.startswith("Marked as faulty: C stuck at 0.")


def test_every_single_fault_can_be_drawn() -> None:
    """In the sound circuit, so that the layout is looked for once."""
    picture = Picture(adder(), manner(adder().design.circuit))
    for fault in faults(adder().design, inside=True):
        found = list(flashes(picture, fault.where))
        assert len(found) == len(fault.where), fault.name


def test_where_it_points() -> None:
    trace = adder()
    picture = Picture(trace, manner(trace.design.circuit))
    spots = {port.id: (port.x, port.y) for port in picture.layout.ports}
    boxes = {box.id: box for box in picture.layout.boxes}
    found = {one.name: (one.x, one.y) for one in flashes(picture, ["FA.sum", "FA.a", "A", "A(2)"])}
    assert found["FA.sum"] == (spots["FA.sum"][0] + 9, spots["FA.sum"][1])
    assert found["FA.a"] == (spots["FA.a"][0] - 9, spots["FA.a"][1])
    a = boxes["A"]
    for name in ("A", "A(2)"):
        x, y = found[name]
        assert a.x < x < a.x + a.width
        assert a.y <= y < a.y + a.height
    # Bit 2 of four stands second from the left.
    assert found["A(2)"][0] < a.x + a.width / 2


def test_what_is_inside_is_marked_at_the_part_unless_that_is_open() -> None:
    assert tips(diagram(adder(), mark=["FA.G1"])).keys() == {"FA.G1"}
    shut, opened = (
        tips(diagram(adder(), open=parts, mark=["FA.G1"]))["FA.G1"] for parts in ((), ("FA",))
    )
    assert shut != opened


def test_what_is_folded_away_is_only_said() -> None:
    trace = run(catalogue.design("ripple-carry-adder", n=32), a=3, b=7, carry_in=0)
    drawing = diagram(trace, mark=["c(12)"], fault="c(12) stuck at 0")
    assert tips(drawing) == {}
    assert words(drawing) == ["c(12) stuck at 0 (not drawn here)"]


def test_the_colour_of_errors_is_only_in_marked_figures() -> None:
    assert theme.BRICK in svg(diagram(adder(), mark=["C"]))
    assert theme.BRICK not in svg(diagram(adder()))


def test_without_a_text_the_names_stand_above() -> None:
    assert words(diagram(adder(), mark=["FA.a", "FA.b"])) == [
        "after edge 8, inputs of phase add",
        "FA.a, FA.b",
    ]


def test_a_fault_of_the_procedure_is_only_said() -> None:
    drawing = diagram(adder(), fault="one edge fewer in add")
    assert words(drawing)[-1] == "one edge fewer in add"
    assert tips(drawing) == {}


def test_what_there_is_not_can_not_be_marked() -> None:
    with pytest.raises(EdgewiseError) as caught:
        diagram(adder(), mark=["FA.sun", "Z"])
    assert str(caught.value).splitlines()[0].startswith("there is nothing called Z to mark")
