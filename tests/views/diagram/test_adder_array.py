"""Arrays of adders: multipliers of a user's own, found in the nets, the MSB left.

Both arrays, carries rippling in each row or saved for the next, are common practice, no source;
what they compute is held to the product of whole numbers.
"""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

import pytest

from edgewise import run
from edgewise.circuit.builder import Builder, PlacedPart
from edgewise.circuit.model import Circuit, Signal
from edgewise.design import Design, Operand
from edgewise.engines.reference import at_rest
from edgewise.trace import Trace
from edgewise.views.diagram.block_diagram import diagram
from edgewise.views.diagram.options import Manner, manner
from edgewise.views.diagram.picture import Picture
from edgewise.views.drawing.svg import svg
from scripts.figure_table import measured
from tests.views.measures import texts
from tests.views.runs import wrong


def products(b: Builder, n: int) -> list[list[Signal]]:
    a, c = b.input("trays", n), b.input("loaves", n)
    return [
        [
            b.part(f"G{j}({i})", "and", {"in": (*a[i : i + 1], *c[j : j + 1])})["out"]
            for i in range(n)
        ]
        for j in range(n)
    ]


def adder(b: Builder, name: str, *bits: Signal) -> PlacedPart:
    ports = dict(zip(("a", "b", "carry-in"), bits, strict=False))
    return b.part(name, "full-adder" if len(bits) > 2 else "half-adder", ports)


def rippling(n: int) -> Circuit:
    """Each row adds one more product to what stands above, its carries rippling to the left."""
    b = Builder("trays times loaves")
    rows = products(b, n)
    above, bits = rows[0][1:], [rows[0][0]]
    for j in range(1, n):
        carry: list[Signal] = []
        sums = []
        for i in range(n):
            taken = [*above[i : i + 1], rows[j][i], *carry]
            made = adder(b, f"R{j}({i})", *taken)
            carry = [made["carry-out"]]
            sums.append(made["sum"])
        bits.append(sums[0])
        above = [*sums[1:], *carry]
    b.output("total", tuple(bit for signal in (*bits, *above) for bit in signal))
    return b.circuit()


def saved(n: int) -> Circuit:
    """The carries of a row go to the next; the last row lets them ripple."""
    b = Builder("trays times loaves")
    rows = products(b, n)
    none: Signal = ()
    sums, carries, bits = rows[0], [none] * n, [rows[0][0]]
    for j in range(1, n):
        made = [
            adder(b, f"R{j}({i})", sums[i + 1], rows[j][i], *filter(None, [carries[i]]))
            for i in range(n - 1)
        ]
        sums = [*(one["sum"] for one in made), rows[j][n - 1]]
        carries = [*(one["carry-out"] for one in made), none]
        bits.append(sums[0])
    carry: list[Signal] = []
    for i in range(n - 1):
        one = adder(b, f"F({i})", sums[i + 1], carries[i], *carry)
        carry = [one["carry-out"]]
        bits.append(one["sum"])
    b.output("total", tuple(bit for signal in (*bits, *carry) for bit in signal))
    return b.circuit()


def multiplied(circuit: Circuit, n: int) -> Trace:
    design = Design("trays", circuit, {}, (Operand("trays", n), Operand("loaves", n)), (), ())
    return run(design, trays=(1 << n) - 3, loaves=5)


@pytest.mark.parametrize("n", [3, 4, 5, 8])
@pytest.mark.parametrize("array", [rippling, saved])
def test_columns_by_weight_and_no_crossing(array: object, n: int) -> None:
    circuit = array(n)  # type: ignore[operator]
    trace = multiplied(circuit, n)
    assert trace.word("total", 0).value == ((1 << n) - 3) * 5
    layout = Picture(trace, Manner()).layout
    for j in range(1, n):
        row = [layout.box(f"R{j}({i})") for i in range(n - 1)]
        assert len({box.y for box in row}) == 1  # a row for each bit of the other word
        assert all(one.x > other.x for one, other in pairwise(row))  # the MSB left
        if j > 1:  # a place further to the left
            assert layout.box(f"R{j}(0)").x == layout.box(f"R{j - 1}(1)").x
    assert wrong(trace) == []
    found = measured(svg(diagram(trace)), "down")
    assert (found.crossings, found.backward) == (0, 0)


@pytest.mark.parametrize("n", [3, 4, 6])
def test_saved_carries_ripple_in_the_last_row_alone(n: int) -> None:
    layout = Picture(multiplied(saved(n), n), Manner()).layout
    last = [layout.box(f"F({i})") for i in range(n - 1)]
    assert len({box.y for box in last}) == 1
    assert last[0].y > layout.box(f"R{n - 1}(0)").y


def test_products_are_named_by_their_bits_and_inputs_stand_there_as_words() -> None:
    trace = multiplied(rippling(4), 4)
    scene = Picture(trace, Manner()).scene
    named = {e.id: e.label.split("\n") for e in scene.elements if e.role == "product"}
    assert named["G2(3)"] == ["trays(3)", "loaves(2)"]
    assert len(named) == 16
    found = [text.text for text in texts(diagram(trace))]
    assert {"trays", "loaves", "total(7)"} <= {*found}


def test_an_adder_of_it_can_be_opened() -> None:
    trace = multiplied(rippling(4), 4)
    picture = Picture(trace, manner(trace.design.circuit, ["R2(1)"]))
    assert picture.scene.under == ("R2(1)+",)
    assert wrong(trace, open=["R2(1)"]) == []


@pytest.mark.parametrize("array", [rippling, saved])
def test_neither_name_nor_order_of_the_text_matters(array: object) -> None:
    circuit = array(4)  # type: ignore[operator]
    other = replace(circuit, name="tides", parts=circuit.parts[::-1])
    one = Picture(at_rest(Design("trays", circuit)), Manner()).layout
    two = Picture(at_rest(Design("tides", other)), Manner()).layout
    names = [part.name for part in circuit.parts if part.kind.role == "arithmetic"]
    assert [one.box(name).x for name in names] == [two.box(name).x for name in names]
    assert [one.box(name).y for name in names] == [two.box(name).y for name in names]


def test_an_adder_of_bits_of_two_weights_is_in_no_array() -> None:
    circuit = rippling(4)
    moved = circuit.part("R2(1)")
    assert moved is not None
    wrongly = tuple(
        replace(c, signal=moved.signal("b")) if c.port == "b" else c
        for c in circuit.part("R1(1)").connections  # type: ignore[union-attr]
    )
    parts = tuple(
        replace(part, connections=wrongly) if part.name == "R1(1)" else part
        for part in circuit.parts
    )
    scene = Picture(at_rest(Design("trays", replace(circuit, parts=parts))), Manner()).scene
    assert scene.fixed is None
