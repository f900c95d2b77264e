"""Every kind of clash, made by hand, is found and named; a clean layout has none."""

from __future__ import annotations

from dataclasses import replace

import pytest

from edgewise.views.layout.graph import Layout, PlacedBox, PlacedPort, PlacedWire, Point
from tests.views.clashes import clashes

# Two boxes and two nets that cross once:
#
#     A.q ---+---- B.d
#     A.r --+|
#           ||
#           +|---- B.e      (r to e crosses the stem of q to top)
PORTS = (
    PlacedPort("A.q", 40, 20, "right", "A"),
    PlacedPort("A.r", 40, 30, "right", "A"),
    PlacedPort("B.d", 100, 20, "left", "B"),
    PlacedPort("B.e", 100, 30, "left", "B"),
    PlacedPort("L.t", 80, 60, "top", "L"),
)
BOXES = (
    PlacedBox("A", 10, 10, 30, 40),
    PlacedBox("B", 100, 10, 30, 40),
    PlacedBox("L", 70, 60, 20, 20),
)
Q = PlacedWire(
    "q", "A.q", ("B.d", "L.t"), "", None, (((40, 20), (100, 20)), ((80, 20), (80, 60))), ((80, 20),)
)
R = PlacedWire("r", "A.r", ("B.e",), "", None, (((40, 30), (100, 30)),))
CLEAN = Layout(140, 100, BOXES, PORTS, (Q, R))


def with_r(*corners: Point) -> Layout:
    return replace(CLEAN, wires=(Q, replace(R, lines=(corners,))))


def with_box(box: PlacedBox) -> Layout:
    return replace(CLEAN, boxes=(*BOXES, box))


OUT, IN = (40, 30), (100, 30)
FAULTY = {
    "overlapping boxes": (
        with_box(PlacedBox("D", 85, 75, 20, 20)),
        ["boxes L and D overlap"],
    ),
    "a box off the page": (
        with_box(PlacedBox("D", 130.5, 60, 10, 10)),
        ["box D is not inside the page"],
    ),
    "a box outside its container": (
        with_box(PlacedBox("D", 60, 70, 20, 20, parent="L")),
        ["box D is not inside L"],
    ),
    "a wire through a box": (
        with_box(PlacedBox("D", 50, 28, 10, 10)),
        ["wire r runs through box D"],
    ),
    "a wire along a border": (
        with_box(PlacedBox("D", 50, 30, 10, 10)),
        ["wire r runs through box D"],
    ),
    "a wire off the page": (
        with_r(OUT, (60, 30), (60, 100), (95, 100), (95, 30), IN),
        ["wire r leaves the page"],
    ),
    "a wire without length": (
        with_r(OUT, (60, 30), (60, 30), IN),
        ["wire r has a stretch without length"],
    ),
    "a wire that stops short": (
        with_r(OUT, (95, 30)),
        ["wire r does not end on its port B.e"],
    ),
    "a wire from the wrong side": (
        with_r(OUT, (60, 30), (60, 55), (110, 55), (110, 30), IN),
        ["wire r comes to port B.e from the wrong side", "wire r runs through box B"],
    ),
    "a wire in pieces": (
        replace(
            CLEAN,
            wires=(replace(Q, lines=(Q.lines[0], ((81, 21), (81, 22), (80, 22), (80, 60)))), R),
        ),
        ["wire q is in pieces: nothing leads to (81, 21)"],
    ),
    "two nets in one line": (
        with_r(OUT, (60, 30), (60, 20), (90, 20), (90, 30), IN),
        [
            "wires q and r overlap at (60, 20)",
            "wires q and r touch at (60, 20)",
            "wires q and r touch at (90, 20)",
            "wires q and r touch at (80, 20)",
        ],
    ),
    "a bend on another net": (
        with_r(OUT, (80, 30), (80, 31), (90, 31), (90, 30), IN),
        [
            "wires q and r touch at (80, 30)",
            "wires q and r overlap at (80, 30)",
            "wires q and r touch at (80, 31)",
        ],
    ),
    "a label on a box": (
        replace(CLEAN, wires=(Q, replace(R, label=(30, 31, 20, 5)))),
        ["the label of wire r lies on box A"],
    ),
    "a label on a wire": (
        replace(CLEAN, wires=(Q, replace(R, label=(75, 35, 20, 5)))),
        ["the label of wire r lies on wire q"],
    ),
}


def test_a_clean_layout_has_no_clash() -> None:
    assert clashes(CLEAN) == ()


@pytest.mark.parametrize("case", FAULTY)
def test_a_fault_is_found_and_named(case: str) -> None:
    layout, faults = FAULTY[case]
    assert sorted(clashes(layout)) == sorted(faults)


def test_a_slanted_wire_is_named_among_other_faults() -> None:
    assert "wire r runs askew" in clashes(with_r(OUT, (60, 31), IN))


def test_a_net_may_go_on_inside_a_container_at_its_port() -> None:
    case = PlacedBox("case", 50, 10, 80, 60)
    gate = PlacedBox("gate", 80, 30, 20, 20, parent="case")
    ports = (
        PlacedPort("A.q", 40, 40, "right", "A"),
        PlacedPort("case.a", 50, 40, "left", "case"),
        PlacedPort("gate.d", 80, 40, "left", "gate"),
    )
    outer = PlacedWire("on", "A.q", ("case.a",), "", None, (((40, 40), (50, 40)),))
    inner = PlacedWire("in", "case.a", ("gate.d",), "", "case", (((50, 40), (80, 40)),))
    layout = Layout(140, 100, (BOXES[0], case, gate), ports, (outer, inner))
    assert clashes(layout) == ()
    astray = replace(inner, lines=(((50, 40), (60, 40), (60, 5), (75, 5), (75, 40), (80, 40)),))
    assert clashes(replace(layout, wires=(outer, astray))) == ("wire in leaves case",)
