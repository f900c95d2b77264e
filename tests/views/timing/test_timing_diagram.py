"""Timing diagrams."""

from __future__ import annotations

import re
from itertools import pairwise

import pytest
from lxml import etree

from edgewise import catalogue, run
from edgewise.errors import EdgewiseError
from edgewise.trace import Trace
from edgewise.views.drawing.shapes import Group, Line, Text
from edgewise.views.drawing.svg import Drawing, svg
from edgewise.views.text.alt_text import MOST
from edgewise.views.timing.timing_diagram import timing
from tests.conftest import Golden
from tests.views.measures import faults, texts

NAMES = ["a_in", "b_in", "A", "B", "FA.sum", "FA.carry-out", "C", "S"]


def trace(n: int = 6) -> Trace:
    most = 2**n - 1
    return run(catalogue.design("serial-adder", n=n), a=22 % most, b=43 % most)


def groups(drawing: Drawing, kind: str) -> list[Group]:
    return [item for item in drawing.items if isinstance(item, Group) and item.kind == kind]


def test_serial_adder(golden: Golden) -> None:
    golden("figure-timing-serial-adder.svg", svg(timing(trace(), NAMES, legend=True)))


def test_some_rows(golden: Golden) -> None:
    golden("figure-timing-rows.svg", svg(timing(trace(), ["A", "C"], range(6, 10), clock=False)))


@pytest.mark.parametrize("n", [1, 2, 4, 8, 16, 32])
def test_no_text_meets_another_or_leaves_the_picture(n: int) -> None:
    drawing = timing(trace(n), legend=True)
    assert not faults(drawing)
    etree.fromstring(svg(drawing).encode())


@pytest.mark.parametrize("name", catalogue.ORDER)
def test_every_design_with_a_clock_has_one(name: str) -> None:
    design = catalogue.design(name)
    if design.edges:
        operands = {operand.name: 1 for operand in design.operands}
        assert not faults(timing(run(design, **operands)))


def test_the_scale_is_the_same_at_any_length() -> None:
    def pitch(last: int) -> float:
        edges = groups(timing(trace(), ["A"], range(1, last)), "edges")[0]
        first, second = [i.x for i in edges.items if isinstance(i, Text) and i.text.isdigit()][:2]
        return second - first

    assert {pitch(last) for last in range(3, 13)} == {pitch(12)}


def test_a_long_run_breaks_into_lines_of_equal_scale() -> None:
    drawing = timing(trace(16), ["S"])
    lines = groups(drawing, "edges")
    places = [
        [item.x for item in line.items if isinstance(item, Text) and item.text.isdigit()]
        for line in lines
    ]
    assert sum(map(len, places)) == 32
    assert len(lines) > 1
    assert len({b - a for line in places for a, b in pairwise(line)}) == 1
    assert drawing.width <= 760


def test_every_edge_is_numbered_once_and_every_phase_named() -> None:
    said = [text.text for text in texts(timing(trace()))]
    assert [text for text in said if text.isdigit() and len(text) < 3] == [
        str(edge) for edge in range(1, 13)
    ]
    assert [text for text in said if text in {"load", "add"}] == ["load", "add", "add"]
    assert "start" in said


def test_a_level_holds_from_its_edge_to_the_next() -> None:
    # C is 0 up to row 7 and 1 from row 8 on: its line rises at edge 8 and nowhere else.
    drawing = timing(trace(), ["C"], range(6, 13))
    edges = {i.text: i.x for i in groups(drawing, "edges")[0].items if isinstance(i, Text)}
    (signal,) = groups(drawing, "signal")
    data = " ".join(item.data for item in signal.items)  # type: ignore[union-attr]
    slopes = re.findall(r"M([0-9.]+) [0-9.]+L", data)
    assert [float(x) for x in slopes] == [edges["8"]]


def test_every_edge_that_arrives_at_what_is_shown_is_marked() -> None:
    (clock,) = groups(timing(trace(), ["C"], range(6, 13)), "clock")
    assert len([item for item in clock.items if not isinstance(item, Line)]) == 7


def test_the_description_says_the_values() -> None:
    drawing = timing(trace(), ["C", "S"], range(6, 10))
    assert drawing.title == "Timing diagram, edges 6 to 9: bit-serial adder, n = 6, a = 22, b = 43"
    assert drawing.description == (
        "Phase load is edge 6, add is edges 7 to 9."
        " C is 0 after edge 6, 1 after edge 8."
        " S is 000000 (0) after edge 6, 100000 (32) after edge 7, 010000 (16) after edge 8,"
        " 001000 (8) after edge 9."
    )
    assert len(timing(trace(32)).description) <= MOST


def test_it_stays_small() -> None:
    assert len(svg(timing(trace(), legend=True)).encode()) < 60_000


@pytest.mark.parametrize(
    ("names", "rows", "message"),
    [
        (["FA.summ"], None, "there is no FA.summ here; did you mean FA.sum?"),
        (["A"], range(11, 15), "there is no row 13: the rows are 0..12"),
        (["A"], [], "no row was chosen; the rows are 0..12"),
        (["A"], [3, 5], "the rows of a timing diagram follow one another; row 5 comes after row 3"),
        ([], None, f"no net was chosen; name at least one of: {', '.join(['shift', *NAMES])}"),
        (
            ["FA.summ", "shft"],
            [99],
            """\
there is no FA.summ here; did you mean FA.sum?
there is no shft here; did you mean shift?
there is no row 99: the rows are 0..12""",
        ),
    ],
)
def test_bad_choices_are_said_whole(names: list[str], rows: list[int], message: str) -> None:
    with pytest.raises(EdgewiseError) as caught:
        timing(trace(), names, rows)
    assert str(caught.value) == message


def test_a_circuit_without_edges_has_no_timing() -> None:
    adder = run(catalogue.design("ripple-carry-adder", n=4), a=9, b=6, carry_in=1)
    with pytest.raises(EdgewiseError) as caught:
        timing(adder)
    assert str(caught.value) == (
        "ripple-carry-adder has no clock edges, so there is no timing to draw;"
        " draw its diagram or its table"
    )
