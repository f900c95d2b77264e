"""Shapes of gates."""

from __future__ import annotations

from itertools import pairwise

import pytest

from edgewise.views.drawing import gate_symbols
from edgewise.views.drawing.shapes import Circle, Line, Path, Text

KINDS = ("and", "or", "xor", "nand", "nor", "xnor", "not", "buffer")


@pytest.mark.parametrize("style", ["distinctive", "rectangular"])
@pytest.mark.parametrize("kind", KINDS)
def test_negation_has_its_circle(kind: str, style: gate_symbols.Style) -> None:
    inputs = 1 if kind in ("not", "buffer") else 2
    symbol = gate_symbols.gate(kind, inputs, style)
    circles = [item for item in symbol.items if isinstance(item, Circle)]
    assert len(circles) == (kind in ("nand", "nor", "xnor", "not"))
    assert len(symbol.inputs) == inputs
    for circle in circles:
        at, reach = symbol.output
        assert circle.y == at
        assert circle.x + circle.radius == pytest.approx(symbol.width - reach)


@pytest.mark.parametrize("kind", ["and", "or", "xor"])
@pytest.mark.parametrize("count", [2, 3, 4, 5, 9])
def test_many_inputs_meet_the_outline_or_a_longer_rear(kind: str, count: int) -> None:
    symbol = gate_symbols.gate(kind, count)
    ats = [at for at, _ in symbol.inputs]
    assert ats == sorted(ats)
    assert ats[0] + ats[-1] == pytest.approx(symbol.height)
    assert all(b - a >= gate_symbols.PITCH for a, b in pairwise(ats))
    bars = [item for item in symbol.items if isinstance(item, Line)]
    assert len(bars) == (2 if ats[0] < (symbol.height - gate_symbols.HEIGHT) / 2 else 0)


def test_wires_reach_into_the_hollow_rear_of_an_or() -> None:
    flat = gate_symbols.gate("and", 3).inputs
    hollow = gate_symbols.gate("or", 3).inputs
    assert [reach for _, reach in flat] == [12.0, 12.0, 12.0]
    assert hollow[1][1] > hollow[0][1] > 12.0


def test_rectangles_have_the_marks_of_iec_60617_12() -> None:
    """Marks from memory (IEC 60617-12)."""
    marks = {"and": "&", "or": "≥1", "xor": "=1", "nand": "&", "nor": "≥1", "xnor": "=1"}
    for kind, mark in (marks | {"not": "1", "buffer": "1"}).items():
        count = 2 if kind in marks else 1
        items = gate_symbols.gate(kind, count, "rectangular").items
        assert [item.text for item in items if isinstance(item, Text)] == [mark]


def test_an_xor_of_three_inputs_is_odd_not_exactly_one() -> None:
    """``2k+1``: an odd number of inputs is 1 (IEC 60617-12, from memory)."""
    for count, mark in ((2, "=1"), (3, "2k+1"), (5, "2k+1")):
        items = gate_symbols.gate("xor", count, "rectangular").items
        assert [item.text for item in items if isinstance(item, Text)] == [mark]


def test_outlines_say_their_bounds() -> None:
    for kind in KINDS:
        symbol = gate_symbols.gate(kind, 1 if kind in ("not", "buffer") else 2)
        outline = next(i for i in symbol.items if isinstance(i, Path) and i.box)
        assert outline.box is not None
        assert outline.box[2] <= symbol.width
