"""Rows of flip-flops with sums between and one feedback line, as in books on codes."""

from __future__ import annotations

from typing import Any

import pytest

from edgewise import catalogue
from edgewise.views.diagram.block_diagram import diagram
from edgewise.views.diagram.options import Manner
from edgewise.views.diagram.picture import Picture
from edgewise.views.drawing.svg import svg
from edgewise.views.layout import elk
from scripts.figure_table import measured
from tests.views.runs import ran, traced, wrong

# CRC-8 of several kinds: name, numbers of the polynomial below x**8, whether bits are reflected.
KINDS: list[dict[str, Any]] = [
    {"poly": 0x07},
    {"poly": 0x31, "reflect_in": 1, "reflect_out": 1},
    {"poly": 0x9B},
    {"poly": 0xD5},
]


@pytest.mark.parametrize("numbers", KINDS)
def test_one_row_one_feedback_line_and_no_crossing(
    numbers: dict[str, Any], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(elk, "engine", None)
    trace = ran(catalogue.design("crc-register", n=8, **numbers))
    assert wrong(trace) == []
    layout = Picture(trace, Manner()).layout
    assert len({layout.box(f"R({i})").y for i in range(8)}) == 1
    found = measured(svg(diagram(trace)), "left")
    assert found.crossings == 0


def test_a_sum_stands_where_the_polynomial_has_a_term() -> None:
    # x**8 + x**5 + x**4 + 1 (CRC-8/MAXIM-DOW, of the CRC catalogue): sums before places 4 and 5.
    trace = ran(catalogue.design("crc-register", n=8, poly=0x31))
    picture = Picture(trace, Manner())
    sums = {e.id for e in picture.scene.elements if e.role == "sum"}
    assert sums == {"F", "XOR(4)", "XOR(5)"}
    places = {i: picture.layout.box(f"R({i})").x for i in range(8)}
    assert places[4] < picture.layout.box("XOR(4)").x < places[3]


@pytest.mark.parametrize("n", [4, 8, 16])
def test_the_msb_stands_left(n: int) -> None:
    layout = Picture(traced("crc-register", n), Manner()).layout
    xs = [layout.box(f"R({i})").x for i in range(n)]
    assert xs == sorted(xs, reverse=True)
    assert wrong(traced("crc-register", n)) == []


@pytest.mark.parametrize("clock", ["hidden", "wires"])
def test_in_any_manner(clock: str) -> None:
    assert wrong(traced("crc-register", 4), clock=clock) == []
