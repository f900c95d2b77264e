"""Claims about every row: what is settled, what is said of it, and what is refused."""

from __future__ import annotations

import pytest

from edgewise import blueprint, catalogue
from edgewise.engines import reference
from edgewise.engines.replay import prolonged
from edgewise.errors import EdgewiseError
from edgewise.study.claims.every_row import always
from edgewise.study.claims.proof_request import prove
from tests.conftest import Edgewise

FAR = 40
"""Edges of the runs that what is proved is held against."""


@pytest.mark.parametrize(
    ("name", "numbers", "claim"),
    [
        ("lfsr", {"n": 4}, "S != 0"),
        ("ring-counter", {"n": 4}, "R == 1 or R == 2 or R == 4 or R == 8"),
        ("johnson-counter", {"n": 3}, "R != 2 and R != 5"),
        ("modulo-counter", {"m": 6, "k": 3}, "CNT < m"),
        ("binary-counter", {"n": 3, "k": 1}, "terminal_count == 0 or CNT == 7"),
    ],
)
def test_what_is_proved_holds_in_every_row_of_a_long_run(
    name: str, numbers: dict[str, int], claim: str
) -> None:
    design = catalogue.design(name, **numbers)
    found = always(design, claim)
    assert (found.outcome, found.how) == (
        "proved",
        "proved for every row by induction, the last phase going on for ever",
    )
    trace = reference.run(prolonged(design, FAR), {})
    kept = {word: [trace.word(word, k).value for k in range(FAR + 1)] for word in trace.columns}
    m = numbers.get("m", 0)
    holds = {
        "lfsr": lambda k: kept["S"][k] != 0,
        "ring-counter": lambda k: kept["R"][k].bit_count() == 1,
        "johnson-counter": lambda k: kept["R"][k] not in (2, 5),
        "modulo-counter": lambda k: kept["CNT"][k] < m,
        "binary-counter": lambda k: not kept["terminal_count"][k] or kept["CNT"][k] == 7,
    }[name]
    assert all(map(holds, range(FAR + 1)))


def test_it_goes_on_behind_the_procedure() -> None:
    """The run of two edges never shows 6; the circuit, clocked on, does after edge 6."""
    design = catalogue.design("binary-counter", n=3, k=2)
    found = prove(catalogue.find("binary-counter"), {"n": 3, "k": 2}, "CNT != 6", always=True)
    assert design.edges == 2
    assert found.text(timed=False) == (
        "binary-counter, n=3, k=2\nCNT != 6, in every row\n\nFalse.\n"
        "CNT after 6 is 110 (6), expected something else than 6.\n\n"
        "after edge  phase  CNT  terminal_count\n"
        "──────────  ─────  ───  ──────────────\n"
        "         5  count  101  0\n"
        "         6  count  110  0"
    )


def test_the_smallest_operands_show_it_and_those_given_stay() -> None:
    design = catalogue.design("serial-adder", n=4)
    found = always(design, "C == 0", {"a": 3})
    assert (found.outcome, dict(found.operands), found.row) == ("refuted", {"a": 3, "b": 1}, 5)
    assert found.asked.lines() == (
        "serial-adder, n=4",
        "C == 0, in every row, for all b, with a=3",
    )
    assert always(design, "not known(C) or C == 0", {"a": 0}).outcome == "proved"


def test_members_of_a_family_are_told_one_by_one_where_some_are_given() -> None:
    design = catalogue.design("serial-accumulator", n=2, x=3)
    asked = always(design, "known(C)", {"w(2)": 1}).asked
    assert asked.lines()[1] == "known(C), in every row, for all w(1), w(3), with w(2)=1"


def test_what_no_induction_over_32_rows_settles_is_left_open() -> None:
    """A register that takes 70 rows to give away what it must never give."""
    design = blueprint.from_text(
        "circuit: long\nparts:\n  R: {part: shift-register, width: 70, in: R.q(69)}\n"
        "outputs: {y: R.out}\n",
        "long.yaml",
    ).design()
    found = always(design, "y == 0")
    assert found.answer() == (
        "Undecided: no 32 rows in a row were enough for an induction.",
        "A stronger claim may do: say also what keeps it true from one row to the next.",
    )


@pytest.mark.parametrize(
    ("claim", "message"),
    [
        (
            "S after 3 == 0",
            "the claim:1:1: S after 3 == 0 speaks of one row; a claim about every row has no"
            " “after”",
        ),
        (
            "a == 3",
            "the claim:1:1: a == 3 reads nothing of a row; name a register, a net or an output",
        ),
        ("S + 3", "the claim:1:1: S + 3 is a number, not a truth"),
        (
            "S >= 0 for n in 1..3",
            "the claim:1:1: a claim about every row is made of one design, for all operands; leave"
            " out “for …”",
        ),
    ],
)
def test_what_is_no_claim_about_every_row(claim: str, message: str) -> None:
    with pytest.raises(EdgewiseError) as error:
        always(catalogue.design("serial-adder"), claim)
    assert str(error.value) == message


def test_the_command_needs_a_claim(edgewise: Edgewise) -> None:
    answer = edgewise("prove", "serial-adder", "--always")
    assert (answer.out, answer.code) == ("", 2)
    assert answer.err == (
        "what holds in every row is claimed of one design; give a claim about one row, as in"
        " R != 0\n"
    )
    answer = edgewise("prove", "lfsr", "--with", "n=8", "--claim", "S != 0", "--always")
    assert answer.code == 0
    assert "True: proved for every row by induction, the last phase going on for" in answer.out
