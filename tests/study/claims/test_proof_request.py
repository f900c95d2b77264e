"""Findings: what is true, or where it goes wrong."""

from __future__ import annotations

import json
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from edgewise import catalogue
from edgewise.engines import reference
from edgewise.errors import EdgewiseError
from edgewise.study.claims import decision
from edgewise.study.claims.finding import Finding
from edgewise.study.claims.proof_request import prove

SERIAL = catalogue.find("serial-adder")
ACCUMULATOR = catalogue.find("serial-accumulator")
CLEARED = catalogue.find("serial-accumulator-cleared")
RIPPLE = catalogue.find("ripple-carry-adder")


def test_the_accumulator_and_the_carry_that_leaks() -> None:
    """Right but for the carry of one word that enters the next, which is found and shown."""
    finding = prove(ACCUMULATOR, {})
    assert finding.text(timed=False) == (
        "serial-accumulator, n=6, x=3, m=6\n"
        "sum after 24 == total(w) mod 2**n, for all w\n"
        "\n"
        "False for w(1)=32, w(2)=32, w(3)=0, the smallest such operands.\n"
        "sum after 24 is 000001 (1), expected 0.\n"
        "\n"
        "After edge 18, the last of add(2), C holds a carry, and add(3) begins with it.\n"
        "With 0 in C in that row, and all else as it was, the claim would be true.\n"
        "\n"
        "after edge  phase   shift_a  shift_b  b_in  A       B       FA.sum  FA.carry-out  C\n"
        "──────────  ──────  ───────  ───────  ────  ──────  ──────  ──────  ────────────  ─\n"
        "        17  add(2)  1        1        0     000001  000001  0       1             0\n"
        "──────────  ──────  ───────  ───────  ────  ──────  ──────  ──────  ────────────  ─\n"
        "        18  add(3)  1        1        X     000000  000000  1       0             1\n"
        "        19  add(3)  1        1        X     100000  X00000  0       0             0\n"
        "        23  add(3)  1        1        X     000010  XXXXX0  0       0             0\n"
        "        24  add(3)  1        1        X     000001  XXXXXX  X       X             0"
    )
    assert finding.row == 18
    assert finding.trace is not None
    assert finding.trace.rows == reference.run(ACCUMULATOR.design(), finding.operands).rows


@pytest.mark.parametrize("n", [4, 6, 16, 24])
def test_a_wider_register_or_a_cleared_carry_is_right(n: int) -> None:
    """Three words of n - 2 bits stay below 2**n; cleared, words may be as wide as A."""
    assert prove(ACCUMULATOR, {"n": n, "m": n - 2}).holds
    assert prove(CLEARED, {"n": n}).holds
    assert not prove(ACCUMULATOR, {"n": n}).holds


@settings(max_examples=25, deadline=None)
@given(st.integers(1, 3), st.integers(1, 4))
def test_the_accumulator_against_integers(n: int, x: int) -> None:
    """Wrong for some words just if a total before the last word can overflow."""
    finding = prove(ACCUMULATOR, {"n": n, "x": x})
    assert finding.holds == (x < 3)
    if not finding.holds:
        words = list(finding.operands.values())
        assert sum(words[:-1]) >= 1 << n
        assert finding.leak is not None


def test_true_findings() -> None:
    assert prove(SERIAL, {"n": 16}).text(timed=False) == (
        "serial-adder, n=16\n"
        "sum after 32 == (a + b) mod 2**n and carry after 32 == (a + b) div 2**n, for all a, b\n"
        "\n"
        "True: checked on all 4,294,967,296 operand pairs."
    )
    assert prove(RIPPLE, {"n": 32}).how == "proved by SAT"
    assert prove(SERIAL, {}, "edges == 2*n for n in 1..64").text(timed=False) == (
        "serial-adder\nedges == 2 * n for n in 1..64\n\nTrue: checked for n = 1 to 64."
    )


@pytest.mark.parametrize(
    ("claim", "operands", "text"),
    [
        (
            "S after end - 1 == (a + b) mod 2**n",
            {},
            "S after end - 1 == (a + b) mod 2**n, for all a, b\n\nFalse for a=0, b=1, the"
            " smallest such operands.\nS after end - 1 is 0010 (2), expected 1. It holds from"
            " edge 8 on.",
        ),
        (
            "S after end == a + b",
            {"b": 3},
            "S after end == a + b, for all a, with b=3\n\nFalse for a=13, b=3, the smallest such"
            " operands.\nS after end is 0000 (0), expected 16.",
        ),
        (
            "S after end < 15",
            {"a": 9, "b": 6},
            "S after end < 15, with a=9, b=6\n\nFalse for a=9, b=6, the smallest such"
            " operands.\nS after end is 1111 (15), expected less than 15. It holds after edges"
            " 0 to 7 only.",
        ),
        (
            "A after 5 == 0",
            {},
            "A after 5 == 0, for all a, b\n\nFalse for a=0, b=0, the smallest such operands.\n"
            "A after 5 is X000, which has no value: bit 3 is unknown (X). It holds at"
            " the start only.",
        ),
        (
            "edges == n + 4 for n in 1..9",
            {},
            "edges == n + 4 for n in 1..9\n\nFalse.\nAt n=1: edges is 2, expected 5.",
        ),
    ],
)
def test_false_claims_say_what_is_true(claim: str, operands: Any, text: str) -> None:
    told = prove(SERIAL, {"n": 4}, claim, operands=operands).text(timed=False)
    assert (
        told.partition("\n\nafter edge ")[0]
        == f"serial-adder{'' if ' in ' in claim else ', n=4'}\n{text}"
    )


def test_a_claim_over_parameters_names_the_case() -> None:
    finding = prove(SERIAL, {}, "C after end == 0 or a > 2 or b > 0 for n in 2..5")
    assert finding.holds
    finding = prove(SERIAL, {}, "S after 4 == (a + b) mod 2**n for n in 2..5")
    assert (finding.parameters, dict(finding.operands)) == ({"n": 3}, {"a": 0, "b": 1})
    assert finding.why[0].startswith("At n=3: S after 4 is 100 (4), expected 1.")


def test_two_designs() -> None:
    same = prove(SERIAL, {"n": 16}, against=RIPPLE, operands={"carry_in": 0})
    assert same.text(timed=False) == (
        "serial-adder, n=16\nripple-carry-adder, n=16\n"
        "the same answers for all operands, with carry_in=0\n"
        "\n"
        "True: proved by SAT."
    )
    other = prove(SERIAL, {"n": 3}, against=RIPPLE, operands={"carry_in": 1})
    assert other.text(timed=False).partition("\n\nafter edge ")[0] == (
        "serial-adder, n=3\nripple-carry-adder, n=3\n"
        "the same answers for all operands, with carry_in=1\n"
        "\n"
        "False for a=0, b=0, carry_in=1, the smallest such operands.\n"
        "sum is 000 (0) in serial-adder after edge 6, and 001 (1) in ripple-carry-adder."
    )


def test_parameters_of_two_designs() -> None:
    """Each takes those that it has; what the first has by default the second has too."""
    finding = prove(SERIAL, {}, against=RIPPLE, operands={"carry_in": 0})
    assert finding.asked.lines()[:2] == ("serial-adder, n=6", "ripple-carry-adder, n=6")


def test_time_up_is_undecided(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(decision, "PATIENCE", -1.0)
    finding = prove(SERIAL, {"n": 30}, limit=0)
    assert (finding.outcome, finding.holds) == ("undecided", False)
    assert finding.text(timed=False).endswith(
        "\n\nUndecided: no proof in 0 s.\nGive it more time, or take smaller words."
    )


def test_undecided_tells_the_limit_that_was_given(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(decision, "PATIENCE", -1.0)
    finding = prove(SERIAL, {"n": 30}, limit=1e-9)
    assert finding.how == "undecided: no proof in 1e-09 s"


def test_data_is_json(golden: Any) -> None:
    finding = prove(ACCUMULATOR, {"n": 3})
    data = finding.data() | {"seconds": 0, "detail": ""}
    golden("prove-accumulator.json", json.dumps(data, indent=1) + "\n")


def test_a_leak_is_told_only_where_the_carry_alone_is_at_fault() -> None:
    assert _leak(prove(ACCUMULATOR, {"n": 4}, "A after end == total(w) mod 2**n")) == 12
    assert _leak(prove(ACCUMULATOR, {"n": 4}, "A after end == total(w)")) is None
    assert _leak(prove(SERIAL, {"n": 4}, "S after 7 == (a + b) mod 2**n")) is None


def _leak(finding: Finding) -> int | None:
    return finding.leak.row if finding.leak else None


@pytest.mark.parametrize(
    ("asked", "message"),
    [
        ({"numbers": {"m": 4}}, "serial-adder has no parameter m; there is: n"),
        (
            {"claim": "Q after 3 == 1"},
            "the claim:1:1: there is no Q here; there is: A, B, C, S, a, a_in, b, b_in, bcd,"
            " carry, ceil_log2, edges, …",
        ),
        ({"claim": "S after"}, "the claim:1:8: can't read 'S after': the formula ends too early"),
        ({"operands": {"c": 1}}, "there is no operand c; there is: a, b"),
        (
            {"operands": {"a": 99}},
            "operand a is 99, which is too large; the range is 0..63 in 6 bits",
        ),
        (
            {"against": RIPPLE, "claim": "S after 12 == 0"},
            "give a claim, or another design to compare with, not both",
        ),
        (
            {"against": RIPPLE},
            "serial-adder can't be compared with ripple-carry-adder: operand carry_in is only in"
            " ripple-carry-adder; give carry_in one value",
        ),
        (
            {"against": RIPPLE, "numbers": {"x": 3}},
            "neither serial-adder nor ripple-carry-adder has a parameter x; there is: n",
        ),
    ],
)
def test_what_is_wrong_is_said(asked: dict[str, Any], message: str) -> None:
    with pytest.raises(EdgewiseError) as caught:
        prove(SERIAL, asked.pop("numbers", {}), **asked)
    assert str(caught.value).startswith(message)


def test_a_design_that_does_not_say_what_it_computes() -> None:
    from edgewise.blueprint import from_text

    wire = "{circuit: wire, inputs: {x: 2}, outputs: {y: x}, operands: {x: 2}}"
    with pytest.raises(EdgewiseError) as caught:
        prove(from_text(wire, "wire.yaml"), {})
    assert "wire does not say what it computes; give a claim, or add to the circuit" in str(
        caught.value
    )
    assert prove(from_text(wire, "wire.yaml"), {}, "y == x").holds
