# ruff: noqa: E501  # whole messages on one line
"""`trace --inside`: each option changes what it says it does, and each refusal is told whole."""

from __future__ import annotations

import csv
import io
import json
from typing import Any

import pytest

from edgewise.cli import main

SERIAL = ("serial-adder", "--with", "n=4", "--operands", "a=11,b=6")
SKIP = ("carry-skip-adder", "--operands", "a=1,b=15")


class Command:
    """`edgewise trace`, or another command, in this process."""

    def __init__(
        self, capsys: pytest.CaptureFixture[str], patch: pytest.MonkeyPatch, name: str = "trace"
    ) -> None:
        self.capsys, self.patch, self.name = capsys, patch, name

    def __call__(self, *words: str) -> str:
        """What it prints."""
        self.patch.setattr("sys.argv", ["edgewise", self.name, *words])
        with pytest.raises(SystemExit) as left:
            main()
        out, wrong = self.capsys.readouterr()
        assert (left.value.code or 0, wrong) == (0, "")
        return out

    def refused(self, *words: str) -> str:
        """What it says instead of an answer."""
        self.patch.setattr("sys.argv", ["edgewise", self.name, *words])
        with pytest.raises(SystemExit) as left:
            main()
        out, wrong = self.capsys.readouterr()
        assert (left.value.code, out) == (2, "")
        return wrong

    def data(self, *words: str) -> Any:
        """What it prints for programs."""
        return json.loads(self(*words, "--json"))


@pytest.fixture
def trace(capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch) -> Command:
    return Command(capsys, monkeypatch)


def changes(data: Any, *nets: str) -> list[tuple[str, str]]:
    """When the nets change, and to what."""
    return [(one["time"], one["to"]) for one in data["changes"] if one["net"] in nets]


def test_an_edge(trace: Command) -> None:
    assert trace(*SERIAL, "--inside", "6") == (
        "edge  time  net           from  to\n"
        "────  ────  ────────────  ────  ──\n"
        "   6     0  clock            0   1\n"
        "   6     4  A(0)             1   0\n"
        "   6     4  A(1)             0   1\n"
        "   6     4  A(2)             1   X\n"
        "   6     4  B(1)             1   0\n"
        "   6     4  B(2)             0   X\n"
        "   6     4  C                0   1\n"
        "   6     4  S(2)             0   1\n"
        "   6     4  S(3)             1   0\n"
        "   6     5  FA.G1.out        1   0\n"
        "   6     6  FA.sum           0   1\n"
        "   6     6  FA.carry-out     1   0\n"
        "   6     6  FA.X1.out        0   1\n"
        "   6     7  FA.G2.out        0   1\n"
        "   6     8  FA.sum           1   0\n"
        "   6     8  FA.carry-out     0   1\n"
        "   6    13  clock            1   0\n"
        "\n"
        "after edge 6 all nets have settled within 8 gate delays\n"
        "glitch: FA.sum is 0 1 0 after edge 6; it ends as it was\n"
        "glitch: FA.carry-out is 1 0 1 after edge 6; it ends as it was\n"
    )


def test_a_range_some_columns(trace: Command) -> None:
    assert trace(*SERIAL, "--inside", "6..7", "--columns", "C,S").startswith(
        "edge  time  net   from  to\n"
        "────  ────  ────  ────  ──\n"
        "   6     4  C        0   1\n"
        "   6     4  S(2)     0   1\n"
        "   6     4  S(3)     1   0\n"
        "────  ────  ────  ────  ──\n"
        "   7     4  S(1)     0   1\n"
        "   7     4  S(2)     1   0\n"
        "\n"
        "after edge 6 all nets have settled within 8 gate delays\n"
        "after edge 7 all nets have settled within 4 gate delays\n"
    )


def test_a_table_for_programs(trace: Command) -> None:
    rows = list(csv.reader(io.StringIO(trace(*SERIAL, "--inside", "6", "--columns", "C", "--csv"))))
    assert rows == [["edge", "time", "net", "from", "to"], ["6", "4", "C", "0", "1"]]
    data = trace.data(*SERIAL, "--inside", "6", "--columns", "C")
    assert data["changes"] == [dict(zip(*rows, strict=True))]
    glitch = {"edge": 6, "kind": "static", "changes": 2}
    assert data["glitches"] == [{"net": n, **glitch} for n in ("FA.sum", "FA.carry-out")]
    kept = ("design", "operands", "first", "last", "model", "unit", "period", "quiet", "violations")
    assert {key: data[key] for key in kept} == {
        "design": "serial-adder",
        "operands": {"a": 11, "b": 6},
        "first": 6,
        "last": 6,
        "model": "unit-gate",
        "unit": "gate delays",
        "period": "26",
        "quiet": True,
        "violations": [],
    }


def test_a_model(trace: Command) -> None:
    """Typical delays of the data sheets: 74HC74 14 ns, 74HC08 7 ns, 74HC86 11 ns, 74HC32 6 ns."""
    data = trace.data(*SERIAL, "--inside", "6", "--model", "74hc")
    assert (data["model"], data["unit"], data["period"]) == ("74hc", "ns", "104")
    assert changes(data, "FA.G1.out") == [("21", "0")]
    assert changes(data, "FA.X1.out") == [("25", "1")]
    assert changes(data, "FA.carry-out") == [("27", "0"), ("38", "1")]


def test_a_period_that_is_too_short(trace: Command) -> None:
    told = trace(*SERIAL, "--inside", "6..7", "--period", "6", "--columns", "C").splitlines()
    assert told[2:5] == [
        "   6     4  C       0   1",
        "────  ────  ───  ────  ──",
        "   7     4  C       1   X",
    ]
    assert told[-12:] == [
        "glitch: FA.carry-out is 1 0 1 after edge 7; it ends as it was",
        "glitch: FA.G2.out is 0 1 X after edge 7; it changes more than once",
        "set-up time not kept: A(1) stood for 2 of 4 gate delays before an edge at A.bit(0)",
        "set-up time not kept: A(2) stood for 2 of 4 gate delays before an edge at A.bit(1)",
        "set-up time not kept: B(1) stood for 2 of 4 gate delays before an edge at B.bit(0)",
        "set-up time not kept: B(2) stood for 2 of 4 gate delays before an edge at B.bit(1)",
        "set-up time not kept: FA.carry-out stood for 0 of 4 gate delays before an edge at C",
        "set-up time not kept: S(2) stood for 2 of 4 gate delays before an edge at S.bit(1)",
        "set-up time not kept: S(3) stood for 2 of 4 gate delays before an edge at S.bit(2)",
        "set-up time not kept: FA.sum stood for 0 of 4 gate delays before an edge at S.bit(3)",
        "every set-up time is kept, along whatever path, from a period of 12 gate delays on; this one is 6",
        "changes are still to come at the end: the period is too short, or the circuit never settles",
    ]
    assert told[6:8] == [
        "after edge 6 the circuit is not at rest when the period ends; its last change comes after 5 gate delays",
        "after edge 7 the circuit is not at rest when the period ends; its last change comes after 5 gate delays",
    ]


def test_at_rest_without_a_change(trace: Command) -> None:
    told = trace(*SERIAL, "--inside", "6", "--period", "4.01", "--when", "shift=0,a_in=0,b_in=0")
    assert told.splitlines()[-2] == (
        "after edge 6 the circuit is not at rest when the period ends; its last change comes after 4 gate delays"
    )
    told = trace(*SERIAL, "--inside", "6", "--period", "4", "--when", "shift=0,a_in=0,b_in=0")
    assert told.splitlines()[-2] == (
        "after edge 6 the circuit is not at rest when the period ends, and no net but the clock has changed"
    )
    run = ("serial-in-serial-out", "--with", "n=2", "--operands", "w=0", "--inside", "2")
    assert trace(*run, "--when", "serial_in=9").splitlines()[-1] == (
        "after edge 2 all nets have settled within 9 gate delays"
    )


def test_pulses(trace: Command) -> None:
    """An exclusive or takes 2: its inputs differ for 1 only, unless pulses of any length pass."""
    run = ("ripple-carry-adder", "--with", "n=1", "--operands", "a=1,b=1,carry_in=1")
    told = (*run, "--inside", "0", "--before", "a=0,b=1,carry_in=0", "--when", "carry_in=1")
    assert changes(trace.data(*told), "FA(0).sum") == []
    passed = trace.data(*told, "--pulses", "transport")
    assert changes(passed, "FA(0).sum") == [("3", "0"), ("4", "1")]


def test_spread_and_seed(trace: Command) -> None:
    run = (*SERIAL, "--inside", "6")
    exact, moved = trace(*run), trace(*run, "--spread", "20")
    assert trace(*run, "--spread", "20", "--seed", "1") == moved
    assert len({exact, moved, trace(*run, "--spread", "20", "--seed", "2")}) == 3
    for one in trace.data(*run, "--spread", "20")["changes"]:
        if one["net"].startswith(("A", "B", "S")):
            assert 3.2 <= float(one["time"]) <= 4.8  # clock-to-Q 4, a fifth less or more


def test_when_inputs_change(trace: Command) -> None:
    data = trace.data(*SERIAL, "--inside", "3", "--when", "b_in=5,a_in=0.5")
    assert changes(data, "a_in") == [("0.5", "1")]
    assert changes(data, "b_in") == [("5", "0")]


def test_a_late_clock(trace: Command) -> None:
    """The clock reaches A after 9 more: A shows what it stores at 9 + 4, and has lost a bit."""
    told = trace(*SERIAL, "--inside", "1..2", "--late", "A=9", "--columns", "A,B").splitlines()
    assert told[2] == "   1    13  A(3)     0   1"
    assert told[-1] == "A(3) ends at 0; row by row it is 1 after edge 2"


@pytest.mark.parametrize(("outcome", "bit"), [("X", "X"), ("old", "0"), ("new", None)])
def test_what_is_stored(trace: Command, outcome: str, bit: str | None) -> None:
    """The carry changed 1 before the edge, from 0 to 1, and had to stand for 4."""
    run = (*SERIAL, "--inside", "6..7", "--period", "9", "--outcome", outcome)
    data = trace.data(*run, "--columns", "C")
    assert data["violations"][0] == {
        "kind": "setup",
        "part": "C",
        "net": "FA.carry-out",
        "edge": "9",
        "change": "8",
        "needed": "4",
    }
    assert changes(data, "C")[1:] == ([("4", bit)] if bit else [])


def test_before(trace: Command) -> None:
    unknown = trace.data(*SKIP, "--inside", "0")
    assert {one["from"] for one in unknown["changes"]} == {"X"}
    known = trace.data(*SKIP, "--inside", "0", "--before", "a=0,b=15")
    assert known["changes"][0] == {"edge": "0", "time": "0", "net": "a(0)", "from": "0", "to": "1"}
    assert trace(*SKIP, "--inside", "0", "--before", "a=1,b=15") == (
        "edge  time  net  from  to\n\nno net changes\n"
    )


@pytest.mark.parametrize(
    ("options", "told"),
    [
        ("--inside x", "--inside: found 'x'; expected an edge or a range of edges, as in 8 or 8..9"),
        ("--inside 8..", "--inside: found '8..'; expected an edge or a range of edges, as in 8 or 8..9"),
        ("--inside -1", "--inside: found '-1'; expected an edge or a range of edges, as in 8 or 8..9"),
        ("--inside 3..2", "--inside: 3..2 is empty; write 2..3"),
        ("--inside 0", "there is no edge 0 to look behind; the edges are 1..8"),
        ("--inside 9", "there is no edge 9 to look behind; the edges are 1..8"),
        ("--inside 2..900", "there is no edge 2..900 to look behind; the edges are 1..8"),
        ("--inside 1 --model steam", "there is no cost model steam; there is: 74hc, 74hc-worst, cmos, gate-count, unit-gate"),
        ("--inside 1 --pulses both", "--pulses is both; expected inertial or transport"),
        ("--inside 1 --outcome Y", "--outcome is Y; expected X, old, new or either"),
        ("--inside 1 --spread 91", "the spread is 91 %; expected 0..90"),
        ("--inside 1 --spread -1", "the spread is -1 %; expected 0..90"),
        ("--inside 1 --period x", "--period: found 'x'; expected a time of 0 or more with two decimals at most, as in 12.5"),
        ("--inside 1 --period 1.234", "--period: found '1.234'; expected a time of 0 or more with two decimals at most, as in 12.5"),
        ("--inside 1 --period 0", "the period is too short; give more than 0"),
        ("--inside 1 --period 3", "input shift is to change 4 gate delays after the edge, but the period is 3 gate delays; make the period longer"),
        ("--inside 1 --when shift=99", "input shift is to change 99 gate delays after the edge, but the period is 26 gate delays; make the period longer"),
        ("--inside 1 --when shift", "--when: found 'shift'; expected a time of 0 or more with two decimals at most, each as in NAME=12.5"),
        ("--inside 1 --when shift=1,shift=2", "--when: shift is given twice"),
        ("--inside 1 --when tidy=1", "there is no input tidy; there is: a_in, b_in, shift"),
        ("--inside 1 --late A=-1", "--late: found 'A=-1'; expected a time of 0 or more with two decimals at most, each as in NAME=12.5"),
        ("--inside 1 --late A=1,A=1", "--late: A is given twice"),
        ("--inside 1 --late a_in=1", "a_in does not store: the clock does not come to it"),
        ("--inside 1 --before a=1", "--before is for a circuit without clock edges, --inside 0; the row before an edge is known"),
        ("--inside 1 --columns tidy", "there is no tidy here; there is: A, B, C, S, a_in, b_in, carry, shift, sum"),
        ("--inside 1 --seed 2", "--seed has no effect without --spread"),
        ("--inside 1 --json --csv", "give --json or --csv, not both"),
        ("--model cmos", "--model has no effect without --inside"),
        ("--period 9 --pulses transport --spread 1 --seed 2 --when a_in=1 --late A=1 --outcome X --before a=1", "--period and --pulses and --spread and --seed and --when and --late and --outcome and --before have no effect without --inside"),
    ],
)  # fmt: skip
def test_what_is_refused(trace: Command, options: str, told: str) -> None:
    assert trace.refused(*SERIAL, *options.split()) == f"{told}\n"


def test_refused_without_clock_edges(trace: Command) -> None:
    assert trace.refused(*SKIP, "--inside", "1") == (
        "there is no edge 1 to look behind; there are none: ask for 0\n"
    )
    assert trace.refused(*SKIP, "--inside", "0", "--before", "a=0") == (
        "operand b is missing; give a number in 0..255\n"
    )


def test_too_many_periods(trace: Command) -> None:
    run = ("serial-adder", "--with", "n=60", "--operands", "a=1,b=1", "--inside", "1..101")
    assert trace.refused(*run) == (
        "101 clock periods are too many to look into; the limit is 100\n"
    )


def test_no_gate_knows_sooner_than_its_inputs(trace: Command) -> None:
    """From unknown operands: the carry comes 1 after the AND gate that decides it."""
    run = ("ripple-carry-adder", "--with", "n=2", "--operands", "a=1,b=3,carry_in=0")
    data = trace.data(*run, "--inside", "0")
    assert changes(data, "FA(0).G1.out") == [("1", "1")]
    assert changes(data, "c(1)") == [("2", "1")]
