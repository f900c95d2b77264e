"""Rows of a run: names, changes, and what is exported."""

from __future__ import annotations

import csv
import io
import json
from typing import TYPE_CHECKING

import pytest
from hypothesis import given
from hypothesis import strategies as st

from edgewise import blueprint, catalogue, run
from edgewise.engines import reference
from edgewise.errors import EdgewiseError, Place
from edgewise.trace import Trace
from tests.strategies import designs, operands_of

if TYPE_CHECKING:
    from tests.conftest import Golden

# Worked by hand: 22 = 010110 and 43 = 101011 enter LSB first in edges 1 to 6, the sum of the
# two leaves the full adder in edges 7 to 12; the two gauges' sum is 65 = 64 + 1.
A, B = 22, 43


@pytest.fixture(scope="module")
def gauges() -> Trace:
    text = """\
circuit: two gauges
parameters: {n: 6 in 1..64}
inputs: {shift: 1, a_in: 1, b_in: 1}
parts:
  A:  {part: shift-register, width: n, in: a_in, enable: shift}
  B:  {part: shift-register, width: n, in: b_in, enable: shift}
  FA: {part: full-adder, a: A.out, b: B.out, carry-in: C.q}
  C:  {part: flip-flop, d: FA.carry-out, enable: shift}
  S:  {part: shift-register, width: n, in: FA.sum, enable: shift}
outputs: {sum: S, carry: C.q}
operands: {a: n, b: n}
procedure:
  - {phase: load, edges: n, shift: 1, a_in: a lsb-first, b_in: b lsb-first}
  - {phase: add,  edges: n, shift: 1, a_in: X, b_in: X}
computes: {sum: (a + b) mod 2**n, carry: (a + b) div 2**n}
"""
    return run(blueprint.from_text(text, "gauges.yaml").design(), a=A, b=B)


@pytest.mark.parametrize(
    ("row", "values"),
    [
        (0, {"A": "000000", "B": "000000", "C": "0", "S": "000000"}),
        (6, {"A": "010110", "B": "101011", "C": "0", "S": "000000"}),
        (8, {"A": "XX0101", "B": "XX1010", "C": "1", "S": "010000"}),
        (12, {"A": "XXXXXX", "B": "XXXXXX", "C": "1", "S": "000001"}),
    ],
)
def test_the_worked_example(gauges: Trace, row: int, values: dict[str, str]) -> None:
    assert {name: str(gauges.word(name, row)) for name in values} == values


def test_the_law_of_the_worked_example(gauges: Trace) -> None:
    assert gauges.edges == 12
    assert gauges.design.expected(gauges.operands) == {"sum": 1, "carry": 1}
    assert gauges.word("sum", 12).value == (A + B) % 64
    assert gauges.word("carry", 12).value == (A + B) // 64


@pytest.mark.parametrize(
    ("name", "text"),
    [
        ("A", "XX0101"),
        ("A.q", "XX0101"),
        ("A(0)", "1"),
        ("A(5)", "X"),
        ("S(5..2)", "0100"),
        ("FA.a", "1"),
        ("FA.sum", "0"),
        ("FA.carry-out", "1"),
        ("FA.X1.out", "1"),
        ("FA.X1.in", "10"),
        ("A.bit(0).q", "1"),
        ("C", "1"),
        ("carry", "1"),
        ("shift", "1"),
        ("a_in", "X"),
    ],
)
def test_names(gauges: Trace, name: str, text: str) -> None:
    assert str(gauges.word(name, 8)) == text


def test_changed_bits(gauges: Trace) -> None:
    assert str(gauges.changed("A", 0)) == "000000"
    assert str(gauges.word("A", 7)) == "X01011"
    assert str(gauges.changed("A", 8)) == "011110"  # X stays X: not a change
    assert str(gauges.changed("C", 8)) == "1"


def test_phases(gauges: Trace) -> None:
    names = [phase.name if (phase := gauges.phase(row)) else None for row in (0, 1, 6, 7, 12)]
    assert names == ["load", "load", "add", "add", "add"]  # whose inputs the row holds


@pytest.mark.parametrize(
    ("name", "row", "message"),
    [
        ("AA", 0, "there is no AA here; did you mean A?"),
        ("FA.sm", 0, "there is no FA.sm here; did you mean FA.sum?"),
        ("A(6)", 0, "A has no bit 6; its bits are 5..0, MSB first"),
        ("A(0..3)", 0, "A has no slice (0..3); its bits are 5..0, MSB first"),
        ("A", 13, "there is no row 13: the rows are 0..12"),
        ("A", -1, "there is no row -1: the rows are 0..12"),
    ],
)  # fmt: skip
def test_messages(gauges: Trace, name: str, row: int, message: str) -> None:
    with pytest.raises(EdgewiseError) as wrong:
        gauges.word(name, row, Place("tide.md", 4, 2))
    assert str(wrong.value) == f"tide.md:4:2: {message}"


def test_a_design_without_edges_has_row_0_only() -> None:
    trace = run(catalogue.design("ripple-carry-adder", n=4), a=9, b=6, carry_in=1)
    assert trace.edges == 0
    assert str(trace.word("sum", 0)) == "0000"
    with pytest.raises(EdgewiseError) as wrong:
        trace.word("sum", 1)
    assert str(wrong.value) == "there is no row 1: there is only row 0"
    heading = trace.text().splitlines()[0].split()
    assert heading == ["after", "edge", "a", "b", "carry_in", "c", "sum", "carry"]


# ---------------------------------------------------------------------- exported


def test_text(gauges: Trace, golden: Golden) -> None:
    golden("trace-two-gauges.txt", gauges.text() + "\n")


def test_columns_and_rows_may_be_chosen(gauges: Trace) -> None:
    assert gauges.text(["A", "FA.sum"], range(5, 8)).splitlines() == [
        "after edge  phase  A       FA.sum",
        "──────────  ─────  ──────  ──────",
        "         5  load   101100  0",
        "──────────  ─────  ──────  ──────",
        "         6  add    010110  1",
        "         7  add    X01011  0",
    ]


def test_columns_show_each_net_once(gauges: Trace) -> None:
    nets = [gauges.design.netlist.find(name) for name in gauges.columns]
    assert len(set(nets)) == len(nets)
    assert {"A", "B", "S", "C", "FA.sum", "FA.carry-out", "shift"} <= set(gauges.columns)


def test_csv_reads_back(gauges: Trace) -> None:
    text = gauges.csv()
    assert text.count("\r\n") == text.count("\n") == 14  # RFC 4180: each record ends in CR LF
    heading, *rows = csv.reader(io.StringIO(text, newline=""))
    assert tuple(heading) == ("after edge", "phase", *gauges.columns)
    assert [row[0] for row in rows] == ["start", *map(str, range(1, 13))]
    assert tuple(map(tuple, [heading, *rows])) == gauges.table()


def test_json_reads_back(gauges: Trace) -> None:
    read = json.loads(gauges.json())
    assert read["design"] == "two-gauges"
    assert read["parameters"] == {"n": 6}
    assert read["operands"] == {"a": A, "b": B}
    assert read["edges"] == 12
    assert read["phases"] == [
        {"phase": "load", "first": 1, "last": 6},
        {"phase": "add", "first": 7, "last": 12},
    ]
    assert [row["row"] for row in read["rows"]] == list(range(13))
    assert read["rows"][0]["phase"] == "load"
    assert read["rows"][8]["values"]["A"] == "XX0101"


@given(st.data())
def test_any_run_is_exported(data: st.DataObject) -> None:
    design = data.draw(designs())
    trace = reference.run(design, data.draw(operands_of(design)))
    heading, *rows = csv.reader(io.StringIO(trace.csv(), newline=""))
    read = json.loads(trace.json())
    assert len(rows) == len(read["rows"]) == design.edges + 1
    for row, cells in enumerate(rows):
        for name, text in zip(heading[2:], cells[2:], strict=True):
            assert text == str(trace.word(name, row)) == read["rows"][row]["values"][name]
    assert len(trace.text().splitlines()) >= design.edges + 3
