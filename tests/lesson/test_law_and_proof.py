"""The blocks law and prove."""

from __future__ import annotations

from pathlib import Path

import pytest

from edgewise import catalogue, lesson
from edgewise.errors import EdgewiseError, Place
from edgewise.lesson import claims
from edgewise.lesson.claims import OpenClaim
from edgewise.lesson.document import Block
from edgewise.lesson.expression import Run
from edgewise.lesson.patience import Patience
from edgewise.lesson.proof import Proved
from edgewise.publish.html.page import html_of

FRONT = (
    "---\ntitle: Ferry\ndesign: serial-accumulator\nwith: {n: 6, x: 3, m: 4}\n"
    "operands: {w: [13, 11, 14]}\n---\n"
)


def report(kind: str, *lines: str) -> lesson.Report:
    body = "\n".join(lines)
    return lesson.check_text(f"{FRONT}\n```{kind}\n{body}\n```\n", "ferry.md", Path())


def message(kind: str, *lines: str) -> tuple[str, int]:
    with pytest.raises(EdgewiseError) as caught:
        report(kind, *lines)
    return str(caught.value), caught.value.exit_code


def test_a_law_is_found_and_shown() -> None:
    found = report("law", "count: edges", "over: {n: 4..12, x: 1..5}")
    assert str(found) == (
        "0 values computed, 1 claim true\n"
        "  edges = n*(x + 1): checked on 45 designs, n = 4 to 12, x = 1 to 5, m = 4; on 24 beyond,"
        " with n up to 33, x up to 17"
    )
    page = html_of(found)
    assert "<code>edges = n*(x + 1)</code>" in page
    assert "checked on 45 designs, n = 4 to 12, x = 1 to 5, m = 4" in page


def test_a_claimed_law_is_shown_as_it_was_written() -> None:
    found = report("law", "count: edges", "over: {n: m..12, x: 1..5}", "claim: n*x + n")
    assert "edges = n * x + n: checked on" in str(found)


TRAY = (
    "```circuit\ncircuit: tray turner\nparameters: {n: 4 in 1..40, k: 2 * n in 0..80}\n"
    "inputs: {d: 1}\nparts: {T: {part: flip-flop, d: d}}\noutputs: {turned: T}\n"
    "procedure: [{phase: turn, edges: k, d: 1}]\n```\n"
)


def tray(with_: str, *blocks: str) -> lesson.Report:
    front = f"---\ntitle: Trays\ndesign: here\nwith: {with_}\n---\n"
    text = "\n".join(f"```{block}\n```" for block in blocks)
    return lesson.check_text(f"{front}{TRAY}\n{text}\n", "tray.md", Path())


@pytest.mark.parametrize(("with_", "formula"), [("{n: 4}", "2*n"), ("{n: 4, k: 8}", "8")])
def test_a_parameter_that_was_not_given_follows_its_formula(with_: str, formula: str) -> None:
    """In laws and claims over a range alike; one that was given stays, equal by accident or not."""
    found = tray(
        with_,
        "law\ncount: edges\nover: {n: 1..9}",
        f"claim\nedges == {formula} for n in 1..9",
        f"prove\nclaim: edges == {formula.replace('n', '4')}",
    )
    assert f"edges = {formula}: checked on 9 designs" in str(found)
    assert f"edges == {formula} for n in 1..9: checked for n = 1 to 9" in str(found)


def test_a_claimed_law_that_ends_with_the_range_says_where() -> None:
    claim = "n*(x + ((n + 3) div 4))"
    found = report("law", "count: edges", "over: {n: 4..4, x: 1..4}", f"claim: {claim}")
    told = "checked on 4 designs, n = 4 to 4, x = 1 to 4, m = 4, and false beyond: for n=5, x=4,"
    assert f"{told} edges is 25 and the formula gives 30" in str(found)


def test_a_false_law_says_what_is_true() -> None:
    assert message("law", "count: edges", "over: {n: 4..12, x: 1..5}", "claim: n*x") == (
        'ferry.md:11:8: the law "edges = n*x" is false for n=4, x=1: edges is 8, expected 4;'
        " edges = n*(x + 1) (checked on 45 designs, n = 4 to 12, x = 1 to 5, m = 4;"
        " on 24 beyond, with n up to 33, x up to 17)",
        1,
    )


def test_where_no_formula_fits_the_page_has_the_counts() -> None:
    text = (
        "---\ntitle: L\ndesign: carry-lookahead-adder\noperands: {a: 1, b: 2, carry_in: 0}\n---\n"
    )
    law = "```law\ncount: depth\nover: {n: 1..6}\n```\n"
    page = html_of(lesson.check_text(text + law, "l.md", Path()))
    assert "no formula of the family fits the depth of carry-lookahead-adder" in page
    assert "n  depth\n1      3\n2      4\n" in page


@pytest.mark.parametrize(
    ("lines", "expected"),
    [
        (
            ["count: edges"],
            "ferry.md:9:1: law needs the parameters it is over, as in over: {n: 1..16}",
        ),
        (["over: {n: 4}"], "ferry.md:9:11: n: found 4, expected low..high"),
        (
            ["count: edge", "over: {n: 4..9}"],
            "ferry.md:9:8: there is no count edge; did you mean edges?",
        ),
        (
            ["over: {n: 4..9}", "claims: 2"],
            "ferry.md:10:1: law has no entry claims; did you mean claim?",
        ),
    ],
)
def test_a_law_that_cannot_be_read(lines: list[str], expected: str) -> None:
    assert message("law", *lines) == (expected, 2)


def test_a_proof_of_another_design() -> None:
    found = report("prove", "design: serial-accumulator-cleared", "with: {n: 4}")
    assert str(found).splitlines()[1].endswith("for all w: checked on all 4,096 sets of operands")
    assert "checked on all 4,096 sets of operands" in html_of(found)


def test_what_is_false_is_shown_where_it_goes_wrong() -> None:
    found = report("prove", "expect: false", "with: {n: m}", "caption: A carry too many.")
    page = html_of(found)
    for told in (
        "False for w(1)=8, w(2)=8, w(3)=0, the smallest such operands.",
        "sum after 16 is 0001 (1), expected 0.",
        "After edge 12, the last of add(2), C holds a carry, and add(3) begins with it.",
        "A carry too many.",
        "<svg",
    ):
        assert told in page
    assert page == html_of(
        report("prove", "expect: false", "with: {n: m}", "caption: A carry too many.")
    )


def test_what_comes_out_otherwise_than_the_lesson_says_fails() -> None:
    assert message("prove", "with: {n: 4}") == (
        "ferry.md:9:1: expected true, but it is false for w(1)=8, w(2)=8, w(3)=0: sum after 16 is"
        " 0001 (1), expected 0. After edge 12, the last of add(2), C holds a carry, and add(3)"
        " begins with it. With 0 in C in that row, and all else as it was, the claim would be"
        " true.",
        1,
    )
    assert message("prove", "expect: false", "with: {n: 6, m: 4}") == (
        "ferry.md:9:1: expected false, but it is true: checked on all 4,096 sets of operands",
        1,
    )


@pytest.mark.parametrize(
    ("lines", "expected"),
    [
        (["expect: yes"], "ferry.md:9:9: expect: found yes, expected true or false"),
        (
            ["design: serial-adders"],
            "ferry.md:9:9: the catalogue has no design serial-adders; did you mean serial-adder?",
        ),
        (
            ["claim: Q after 3 == 1"],
            "ferry.md:9:8: there is no Q here; there is: A, B, C, FA, b_in, carry, ceil_log2,"
            " edges, end, floor_log2, known, m, …",
        ),
    ],
)
def test_a_proof_that_cannot_be_read(lines: list[str], expected: str) -> None:
    found, code = message("prove", *lines)
    assert (found.partition(" there is: ")[0], code) == (expected.partition(" there is: ")[0], 2)


TWO_MISTAKES = """circuit: gauge
inputs: {a: 1}
parts:
  G: {part: and, in: [a, b]}
  H: {part: orr, in: [a, G.out]}
outputs: {y: G.out}
"""


def test_a_proof_of_a_circuit_file_beside_the_lesson(tmp_path: Path) -> None:
    (tmp_path / "gauge.yaml").write_text(
        "{circuit: gauge, inputs: {a: 1}, operands: {a: 1}, outputs: {y: a}, computes: {y: a}}"
    )
    text = (
        "---\ntitle: t\ndesign: serial-adder\noperands: {a: 1, b: 2}\n---\n"
        "```prove\ndesign: gauge.yaml\n```\n"
    )
    found = lesson.check_text(text, "rain.md", tmp_path)
    (piece,) = found.pieces.values()
    assert isinstance(piece, Proved)
    assert piece.finding.holds


def test_two_mistakes_in_a_circuit_beside_a_proof_are_both_told(tmp_path: Path) -> None:
    (tmp_path / "gauge.yaml").write_text(TWO_MISTAKES)
    text = (
        "---\ntitle: t\ndesign: serial-adder\noperands: {a: 1, b: 2}\n---\n"
        "```prove\ndesign: gauge.yaml\n```\n"
    )
    with pytest.raises(EdgewiseError) as caught:
        lesson.check_text(text, "rain.md", tmp_path)
    assert len(caught.value.parts()) >= 2
    assert all("gauge.yaml:" in str(one) for one in caught.value.parts())


def test_what_a_lesson_has_no_time_for_is_told_once_a_block() -> None:
    block = Block("claim", "1 == 1\n2 == 2\n3 == 3\n", Place("rain.md", 30, 1), 0)
    design = catalogue.find("serial-adder")
    run = Run(design.design(), {"a": 1, "b": 2})
    with pytest.raises(OpenClaim) as caught:
        claims.check(block, design, run, Patience(0))
    assert str(caught.value) == (
        "rain.md:31:1: this claim and 2 more claims of this block were not tried: the 0 s that the"
        " claims and proofs of a lesson may take together are used up: claim less, or for smaller"
        " words, or make two lessons of it"
    )
