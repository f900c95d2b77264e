"""Slices: each flip-flop under its multiplexer, the MSB left, wires to neighbours and no further.

Outside: the universal shift register of the catalogue is that of Mano and Ciletti, Digital Design,
sec. 6.2 (from memory).
"""

from __future__ import annotations

from itertools import pairwise
from typing import Final

import pytest

from edgewise.blueprint import from_text
from edgewise.trace import Trace
from edgewise.views.diagram.block_diagram import diagram
from edgewise.views.diagram.options import Manner
from edgewise.views.diagram.picture import Picture
from edgewise.views.drawing.column import column
from edgewise.views.drawing.svg import svg
from scripts.figure_table import measured
from tests.views.clashes import clashes
from tests.views.measures import faults, texts
from tests.views.runs import crossings, ran, traced, wrong

# The counters of a bakery's tills: each place takes what the tray before it held, or keeps its own.
TILLS: Final = """\
circuit: tills
inputs: {next: 1, fresh: 3, first: 1}
parts:
  M(0): {part: multiplexer, d0: Q(0), d1: first, select: next}
  M(1): {part: multiplexer, d0: Q(1), d1: Q(0), select: next}
  M(2): {part: multiplexer, d0: fresh(2), d1: Q(0), select: next}
  Q(i = 0..2): {part: flip-flop, d: M(i).out}
outputs: {till: Q(2)}
procedure: [{phase: sell, edges: 3, next: 1, fresh: 5, first: 1}]
"""


def tills(old: str = "", new: str = "") -> Trace:
    assert old in TILLS
    return ran(from_text(TILLS.replace(old, new), "tills.yaml").design({}))


def fixed(trace: Trace) -> bool:
    return Picture(trace, Manner()).scene.fixed is not None


@pytest.mark.parametrize("narrow", [0, 1])
@pytest.mark.parametrize("n", [2, 4, 8])
def test_slices_stand_side_by_side(n: int, narrow: int) -> None:
    trace = traced("universal-shift-register", n)
    picture = Picture(trace, Manner(narrow=narrow))
    places = [
        (picture.layout.port(f"M({i}).out"), picture.layout.port(f"Q({i}).d")) for i in range(n)
    ]
    assert all(out.x == d.x and out.y < d.y for out, d in places)
    assert len({out.y for out, _ in places}) == 1
    assert all(left.x < right.x for (right, _), (left, _) in pairwise(places))
    assert clashes(picture.layout) == ()


@pytest.mark.parametrize("n", [4, 8, 16])
def test_three_crossings_to_a_slice(n: int) -> None:
    trace = traced("universal-shift-register", n)
    # Between two slices their bits pass each other; at each the word's bit and what selects cross
    # the bit of the next one.
    found = measured(svg(diagram(trace)), "left").crossings
    assert found == 3 * n - 1
    assert wrong(trace) == []


@pytest.mark.parametrize("place", ["85mm", "170mm"])
@pytest.mark.parametrize("n", [4, 8, 16])
def test_they_fit_a_page(n: int, place: str) -> None:
    room = column(place).room
    drawing = diagram(traced("universal-shift-register", n), room=room)
    assert drawing.width <= room
    assert [*faults(drawing), *crossings(drawing)] == []


def test_what_comes_from_far_is_named_over_its_input() -> None:
    trace = tills("d0: fresh(2)", "d0: Q(2)")
    assert fixed(trace)
    assert "Q(0)" in [text.text for text in texts(diagram(trace))]
    assert wrong(trace) == []


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("d0: Q(0), d1: first, select: next", "d0: Q(0), d1: first, select: Q(1)"),
        ("d: M(i).out", "d: M(i).out, enable: first"),
        ("till: Q(2)", "till: M(2).out"),
        ("till: Q(2)", "till: Q(2), again: Q(2)"),
        ("d0: fresh(2), d1: Q(0)", "d0: fresh(2), d1: fresh(1)"),  # two that need room over it
    ],
)
def test_anything_else_is_left_to_the_layout(old: str, new: str) -> None:
    assert not fixed(tills(old, new))


def test_clock_wires_are_left_to_the_layout() -> None:
    trace = traced("universal-shift-register", 4)
    assert Picture(trace, Manner(clock="wires")).scene.fixed is None
    assert wrong(trace, clock="wires") == []
