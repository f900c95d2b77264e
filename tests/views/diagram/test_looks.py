"""What a designer says about a picture: `look` in the text, drawn, refused, and written again."""

from __future__ import annotations

from typing import Final

import pytest

from edgewise.blueprint import from_text
from edgewise.circuit import writing
from edgewise.circuit.builder import Builder
from edgewise.circuit.model import LOOKS
from edgewise.design import Design
from edgewise.engines.reference import at_rest
from edgewise.errors import EdgewiseError
from edgewise.trace import Trace
from edgewise.views.diagram.block_diagram import diagram
from edgewise.views.diagram.options import Manner
from edgewise.views.diagram.picture import Picture
from tests.views.runs import ran

TOTAL: Final = """\
circuit: tray total
parameters: {n: 8 in 1..32}
inputs: {trays: n}
operands: {trays: n}
nets: {c: n + 1, next: n}
join: {c(0): 0}
parts:
  FA(i = 0..n-1):
    {part: full-adder, LOOK a: T(i), b: trays(i), carry-in: c(i), sum: next(i), carry-out: c(i+1)}
  T: {part: register, width: n, d: next}
outputs: {total: T}
procedure: [{phase: add, edges: 3}]
"""


def total(look: str, n: int = 8) -> Trace:
    written = f"look: {look}," if look else ""
    return ran(from_text(TOTAL.replace("LOOK", written), "trays.yaml").design({"n": n}))


def names(look: str, n: int, narrow: int = 0) -> set[str]:
    return {e.id for e in Picture(total(look, n), Manner(narrow=narrow)).scene.elements}


def test_each_look_is_drawn() -> None:
    assert "FA(7..0)" in names("", 8)
    assert "FA(3)" in names("", 4)
    assert "FA(7)" in names("row", 8)
    assert "FA(7)" in names("row", 8, narrow=2)
    assert "FA(3..0)" in names("datapath", 4)
    assert Picture(total("plain", 4), Manner()).scene.fixed is None


@pytest.mark.parametrize("look", ["", "plain", "row", "datapath"])
def test_it_comes_back_from_the_text_written_of_it(look: str) -> None:
    circuit = total(look).design.circuit
    assert {part.look for part in circuit.parts} == {"", look}
    text = writing.text(circuit)
    assert (f"look: {look}" in text) == bool(look)
    behaviour = "operands: {trays: 8}\nprocedure: [{phase: add, edges: 3}]\n"
    assert from_text(text + behaviour, "again.yaml").design({}).circuit == circuit


def test_it_changes_nothing_else() -> None:
    one, other = total("row"), total("plain")
    assert one.rows == other.rows
    assert one.design.netlist.names == other.design.netlist.names


def test_an_unknown_look() -> None:
    with pytest.raises(EdgewiseError) as wrong:
        total("table")
    assert str(wrong.value) == (
        "trays.yaml:9:30: part FA(0): look is table; expected plain, row, array, groups,"
        " datapath or prefix-graph"
    )


def test_a_look_that_the_parts_do_not_make() -> None:
    with pytest.raises(EdgewiseError) as wrong:
        diagram(total("groups"))
    assert str(wrong.value) == (
        "trays.yaml:8:3: FA(0) asks for look: groups, but the parts do not make groups that hand"
        " one bit on; leave look out, or write look: plain"
    )


def test_two_looks() -> None:
    text = TOTAL.replace("LOOK", "look: row,").replace("register,", "register, look: array,")
    trace = ran(from_text(text, "trays.yaml").design({}))
    with pytest.raises(EdgewiseError) as wrong:
        diagram(trace)
    assert str(wrong.value) == (
        "trays.yaml:10:3: FA(0) asks for look: row, T for look: array; a figure has one of them:"
        " leave one out"
    )


def test_plain_takes_a_carry_flip_flop_from_under_its_adder() -> None:
    b = Builder("two gauges")
    one, other, kept = b.input("one"), b.input("other"), b.net("kept")
    ports = {"a": one, "b": other, "carry-in": kept}
    adder = b.part("FA", "full-adder", ports, look="plain")
    b.part("C", "flip-flop", {"d": adder["carry-out"], "q": kept})
    b.output("sum", adder["sum"])
    assert Picture(at_rest(Design("gauges", b.circuit())), Manner()).scene.loop is None


def test_every_look_is_documented(request: pytest.FixtureRequest) -> None:
    page = (request.config.rootpath / "docs" / "circuit-text.md").read_text(encoding="utf-8")
    rows = [line.split("`")[1] for line in page.splitlines() if line.startswith("| `")]
    assert [row for row in rows if row in LOOKS] == [*LOOKS]
