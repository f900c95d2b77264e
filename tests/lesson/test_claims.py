"""Claims: settled, or refused with what is true instead."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from edgewise import catalogue, formula
from edgewise.blueprint import Blueprint, from_text
from edgewise.engines import reference
from edgewise.errors import EdgewiseError, Message, Place
from edgewise.lesson.claims import FalseClaim, check
from edgewise.lesson.document import Block
from edgewise.lesson.expression import Run
from edgewise.study.claims.verdict import Verdict, settle

SERIAL = catalogue.find("serial-adder")
ACCUMULATOR = catalogue.find("serial-accumulator")
RIPPLE = catalogue.find("ripple-carry-adder")
GIVEN = {"a": 22, "b": 43}


def verdict(
    text: str, n: int = 6, blueprint: Blueprint = SERIAL, operands: dict[str, int] | None = None
) -> Verdict:
    claim = formula.parse(text, "claim")
    return settle(claim, blueprint, {"n": n}, GIVEN if operands is None else operands)


def message(text: str, n: int = 6) -> str:
    """What the lesson's build says about one claim."""
    block = Block("claim", text + "\n", Place("rain.md", 30, 1), 0)
    with pytest.raises(EdgewiseError) as caught:
        check(block, SERIAL, Run(SERIAL.design({"n": n}), GIVEN))
    return str(caught.value)


@pytest.mark.parametrize(
    ("text", "how"),
    [
        ("S after 12 == 1", "checked on this run"),
        (
            "64 * (C after end) + (S after end) == a + b for all a, b",
            "checked on all 4,096 operand pairs",
        ),
        ("A after load == a for all a", "checked on all 64 values of a"),
        ("edges == 2*n for n in 1..64", "checked for n = 1 to 64"),
        ("edges == 12 for n in 6..6", "checked for n = 6"),
        (
            "S after end == (a + b) mod 2**n for n in 1..4 for all a, b",
            "checked on all 340 operand pairs for n = 1 to 4",
        ),
        ("not known(A after 7) and known(C after 7)", "checked on this run"),
    ],
)
def test_true_claims_say_how_they_were_checked(text: str, how: str) -> None:
    found = verdict(text)
    assert (found.holds, found.how) == (True, how)


def test_a_family_stands_for_all_its_operands() -> None:
    claim = formula.parse("A after end == total(w) for all w", "claim")
    found = settle(claim, ACCUMULATOR, {"n": 5, "x": 3, "m": 3}, {})
    assert (found.holds, found.how) == (True, "checked on all 512 sets of operands")


def test_a_design_without_edges() -> None:
    found = verdict("sum + 16 * carry == a + b + carry_in for all a, b, carry_in", 4, RIPPLE, {})
    assert (found.holds, found.how) == (True, "checked on all 512 sets of operands")


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        (
            "S after 11 == (a + b) mod 64      for all a, b",
            'rain.md:31:1: the claim "S after 11 == (a + b) mod 64" is false for a=0, b=1:'
            " S after 11 is 000010 (2), expected 1. It holds from edge 12 on.",
        ),
        (
            "  S after 11 == 1  # early",
            'rain.md:31:3: the claim "S after 11 == 1" is false: S after 11 is 000010 (2),'
            " expected 1. It holds from edge 12 on.",
        ),
        (
            "A after 2 == a for all a",
            'rain.md:31:1: the claim "A after 2 == a" is false for a=1: A after 2 is 010000 (16),'
            " expected 1. It holds after edge 6 only.",
        ),
        (
            "C after 7 == 1",
            'rain.md:31:1: the claim "C after 7 == 1" is false: C after 7 is 0, expected 1.'
            " It holds from edge 8 on.",
        ),
        (
            "S after 7 == 0",
            'rain.md:31:1: the claim "S after 7 == 0" is false: S after 7 is 100000 (32),'
            " expected 0. It holds after edges 0 to 6 only.",
        ),
        (
            "edges == 2*n + 1 for n in 3..64",
            'rain.md:31:1: the claim "edges == 2 * n + 1" is false for n=3: edges is 6,'
            " expected 7.",
        ),
        (
            "S after 2*n - 1 == (a + b) mod 2**n for n in 2..4 for all a, b",
            'rain.md:31:1: the claim "S after 2 * n - 1 == (a + b) mod 2**n" is false for n=2,'
            " a=0, b=1: S after 2 * n - 1 is 10 (2), expected 1. It holds from edge 4 on.",
        ),
        (
            "A after 8 == 5",
            'rain.md:31:1: the claim "A after 8 == 5" is false: A after 8 is XX0101, which has no'
            " value: bits 4 and 5 are unknown (X).",
        ),
        (
            "5 > S after 7",
            'rain.md:31:1: the claim "5 > S after 7" is false: S after 7 is 100000 (32), expected'
            " less than 5. It holds after edges 0 to 6 and from edge 10 on.",
        ),
        (
            "a < b and b < 40",
            'rain.md:31:1: the claim "a < b and b < 40" is false: b is 43, expected less than 40.',
        ),
        (
            "S after 12 == 2 or C after 12 == 0",
            'rain.md:31:1: the claim "S after 12 == 2 or C after 12 == 0" is false: S after 12 is'
            " 000001 (1), expected 2; and C after 12 is 1, expected 0."
            " It holds after edges 0 to 7 and 11 only.",
        ),
        (
            "not S after 12 == 1",
            'rain.md:31:1: the claim "not S after 12 == 1" is false: S after 12 == 1 is true'
            " (S after 12 is 000001 (1)). It holds after edges 0 to 11 only.",
        ),
        (
            "known(A after 8)",
            'rain.md:31:1: the claim "known(A after 8)" is false: known(A after 8) is false'
            " (A after 8 is XX0101). It holds after edges 0 to 6 only.",
        ),
        (
            "S after 3 != 0",
            'rain.md:31:1: the claim "S after 3 != 0" is false: S after 3 is 000000 (0), expected'
            " something else than 0. It holds from edge 7 on.",
        ),
    ],
)
def test_a_false_claim_says_what_is_true(text: str, expected: str) -> None:
    assert message(text) == expected


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        (
            "S = 1",
            "rain.md:31:3: can't read 'S = 1': found '=': a comparison is written ==",
        ),
        (
            "S after 12 == 1 for all a, d",
            "rain.md:31:1: for all d: there is no operand d; there is: a, b",
        ),
        (
            "edges == 2*m for m in 1..4",
            "rain.md:31:1: m is not a parameter of serial-adder; there is: n",
        ),
        ("edges == 2*n for n in 4..1", "rain.md:31:1: n in 4..1 is empty; write low..high"),
        (
            "edges == 2*n for n in 1..65",
            "rain.md:31:1: parameter n is 65; the range is 1..64",
        ),
        (
            "edges == 2*n for n in 1..9999",
            "rain.md:31:1: this claim asks for 9,999 designs; the limit is 4,096",
        ),
        (
            "S after end == a + b for n in 3..6",
            "rain.md:31:1: n=3: operand a is 22, which is too large; the range is 0..7 in 3 bits",
        ),
        ("S after 12", "rain.md:31:1: found 000001 where something true or false was expected"),
        (
            "Z after 12 == 1 for all a",
            "rain.md:31:1: there is no Z here; there is: A, B, C, S, a, a_in, b, b_in, bcd,"
            " carry, ceil_log2, edges, …",
        ),
    ],
)
def test_a_claim_that_cannot_be_settled(text: str, expected: str) -> None:
    assert message(text) == expected


def test_many_operand_sets_are_gone_through_or_proved() -> None:
    claim = "S after end == (a + b) mod 2**n for all a, b"
    assert (verdict(claim, 3).engine, verdict(claim, 9).engine) == ("reference", "native")
    assert verdict(claim, 16).how == "checked on all 4,294,967,296 operand pairs"
    assert verdict(claim, 40).how == "proved by SAT"


def test_too_many_operand_sets_for_a_claim_that_cannot_be_compiled() -> None:
    assert message("A after load == 0 or a**b == b for all a, b", n=9) == (
        "rain.md:31:1: for all a, b means 2^18 = 262,144 runs at n=9, one by one, since the claim"
        " can't be compiled (a**b: neither side of ** is constant); every combination is run up"
        " to 2^16 = 65,536: claim it for smaller words, or for fewer"
        " operands"
    )


def test_a_false_claim_exits_with_1_and_a_bad_one_with_2() -> None:
    assert FalseClaim(Message("time-up")).exit_code == 1
    block = Block("claim", "edges == 1\n", Place("rain.md", 30, 1), 0)
    run = Run(SERIAL.design(), GIVEN)
    with pytest.raises(FalseClaim):
        check(block, SERIAL, run)
    mixed = Block("claim", "edges == 1\nedges ==\n", Place("rain.md", 30, 1), 0)
    with pytest.raises(EdgewiseError) as caught:
        check(mixed, SERIAL, run)
    assert caught.value.exit_code == 2
    assert str(caught.value) == (
        'rain.md:31:1: the claim "edges == 1" is false: edges is 12, expected 1.\n'
        "rain.md:32:9: can't read 'edges ==': the formula ends too early; expected a name or"
        " a number"
    )


SLOPPY = """\
circuit: two bits
parameters: {n: 2}
inputs: {a: n, b: n}
nets: {s: n}
parts:
  G(i = 0..n-1): {part: xor, in: [a(i), b(i)], out: s(i)}
outputs: {s: s}
operands: {a: n, b: n}
"""


def test_the_smallest_counterexample_is_reported() -> None:
    """Fewest ones first, then their order; by brute force over all sets."""
    blueprint = from_text(SLOPPY, "two.yaml")
    found = settle(formula.parse("s == a + b for all a, b", "claim"), blueprint, {}, {})
    design = blueprint.design()
    failing = [
        (a.bit_count() + b.bit_count(), a, b)
        for a in range(4)
        for b in range(4)
        if reference.run(design, {"a": a, "b": b}).word("s", 0).value != a + b
    ]
    _, a, b = min(failing)
    assert dict(found.counterexample) == {"a": a, "b": b}
    assert str(found.why) == "s is 00 (0), expected 2"
    assert not found.instead


@settings(max_examples=40)
@given(st.integers(1, 6), st.data())
def test_running_all_operands_agrees_with_integer_addition(n: int, data: st.DataObject) -> None:
    """The claim over all operands against Python's own integers, one row at a time."""
    row = data.draw(st.integers(0, 2 * n))
    found = verdict(f"S after {row} == (a + b) mod 2**n for all a, b", n=n)
    assert found.holds == (row == 2 * n)


def test_runs_of_many_operands_are_those_of_the_reference_engine() -> None:
    from edgewise.study.claims.shared_runs import Steps

    design = ACCUMULATOR.design({"n": 3, "x": 2})
    steps = Steps(design)
    for first in range(8):
        for second in range(8):
            operands = {"w(1)": first, "w(2)": second}
            assert steps.run(design, operands).rows == reference.run(design, operands).rows


def test_comments_and_empty_lines() -> None:
    block = Block("claim", "# all of it\n\nedges == 12 # yes\n", Place("rain.md", 30, 1), 0)
    checked = check(block, SERIAL, Run(SERIAL.design(), GIVEN))
    assert checked is not None
    assert [s.text for s in checked.statements] == ["edges == 12"]
    assert str(checked.statements[0].place) == "rain.md:33:1"


def test_a_false_claim_shows_the_rows_that_it_reads() -> None:
    design = catalogue.find("serial-adder")
    run = Run(design.design({"n": 4}), {"a": 3, "b": 6})
    block = Block("claim", "(C after 6) + (C after 7) == 1\n", Place("rain.md", 8, 1), 0)
    with pytest.raises(FalseClaim) as caught:
        check(block, design, run)
    assert str(caught.value) == (
        'rain.md:9:1: the claim "(C after 6) + (C after 7) == 1" is false: (C after 6) +'
        " (C after 7) is 2, expected 1."
    )
    assert [line.split()[0] for line in caught.value.details.splitlines()[2:]] == ["6", "7", "8"]
    assert caught.value.details.splitlines()[0].split()[-1] == "S"


def test_a_claim_about_no_row_shows_none() -> None:
    design = catalogue.find("serial-adder")
    run = Run(design.design({"n": 4}), {"a": 3, "b": 6})
    block = Block("claim", "edges == 3*n\n", Place("rain.md", 8, 1), 0)
    with pytest.raises(FalseClaim) as caught:
        check(block, design, run)
    assert caught.value.details == ""
