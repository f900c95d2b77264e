"""The steps of a lesson: rows in order, what is pointed at, what is said; and each error."""

from __future__ import annotations

from pathlib import Path
from typing import Final

import pytest

from edgewise import lesson
from edgewise.errors import EdgewiseError
from edgewise.lesson import Report
from edgewise.lesson.steps import Step

HEAD: Final = """\
---
title: Two tide gauges
design: serial-adder
with: {n: 3}
operands: {a: 5, b: 6}
---
"""


def checked(text: str) -> Report:
    return lesson.check_text(HEAD + text, "tide.md", Path())


def block(items: str) -> str:
    return f"```steps\n{items}\n```\n"


def wrong(items: str) -> list[str]:
    with pytest.raises(EdgewiseError) as found:
        checked(block(items))
    return [str(one) for one in found.value.parts()]


def test_without_a_block_every_row_is_a_step_of_its_phase() -> None:
    phases = [""] + ["load"] * 3 + ["add"] * 3
    assert checked("").steps == tuple(Step(row, phase=p) for row, p in enumerate(phases))


def test_rows_are_shown_in_the_order_written() -> None:
    items = "- 0\n- load\n- 6\n- add\n- [2, 1]\n- n"
    rows = [step.row for step in checked(block(items)).steps]
    assert rows == [0, 1, 2, 3, 6, 3, 4, 5, 6, 2, 1, 3]


def test_what_is_pointed_at_and_said() -> None:
    items = """\
- rows: n + 1
  point: [C, FA.carry-out, S(n-1), FA]
  say: |
    The first column is added.

    Look at C.
- {rows: 5..6, point: S, say: The other two.}"""
    assert checked(block(items)).steps == (
        Step(
            4,
            ("C", "FA.carry-out", "S(2)", "FA"),
            "The first column is added.\n\nLook at C.",
            phase="add",
        ),
        Step(5, ("S",), "The other two.", phase="add"),
        Step(6, ("S",), "", phase="add"),
    )


def test_what_is_asked_before_a_row_is_shown() -> None:
    steps = checked(block("- {rows: 4..5, predict: [C, S(n-1)]}\n- {rows: 6, predict: S}")).steps
    assert [step.predict for step in steps] == [("C", "S(2)"), ("C", "S(2)"), ("S",)]


def test_several_blocks_follow_one_another_under_their_headings() -> None:
    text = f"{block('- 0')}\n## Load `? n` bits\n\n{block('- load')}\n# Add\n\n{block('- add')}"
    steps = checked(text).steps
    assert [(step.row, step.section) for step in steps] == [
        (0, ""),
        *((row, "Load 3 bits") for row in range(4)),
        *((row, "Add") for row in range(3, 7)),
    ]


def test_a_say_block_is_said_once_and_its_next_rows_go_on() -> None:
    says = "```say\nGood morning.\n```\n```say\nrows: 4..5\nHere it begins.\n```\n"
    report = checked(says + block("- 3..6\n- 4\n- {rows: 5, say: My own.}"))
    assert report.opening == "Good morning."
    assert [(step.row, step.said) for step in report.steps] == [
        (3, None),
        (4, "Here it begins."),
        (5, ""),
        (6, None),
        (4, "Here it begins."),
        (5, "My own."),
    ]


def test_a_circuit_without_edges_has_one_step() -> None:
    text = HEAD.replace("serial-adder", "ripple-carry-adder").replace("6}", "6, carry_in: 1}")
    assert lesson.check_text(text, "tide.md", Path()).steps == (Step(0),)


@pytest.mark.parametrize(
    ("items", "message"),
    [
        (
            "",
            "tide.md:7:1: steps: found none, expected a list, such as - {rows: 7, point: [C], say:"
            " Look at C.}",
        ),
        (
            "rows: 3",
            "tide.md:8:1: steps: found keys and values, expected a list, as in - {rows: 7, point:"
            " [C], say: Look at C.}",
        ),
        ("- 7", "tide.md:8:3: there is no row 7: the rows are 0..6"),
        ("- 4..2", "tide.md:8:3: rows 4..2 is empty; write low..high"),
        ("- lod", "tide.md:8:3: there is no lod here; did you mean load?"),
        (
            "- {point: C}",
            "tide.md:8:3: a step does not say its rows; write {rows: 7, point: [C], say: Look at"
            " C.}",
        ),
        ("- {rows: }", "tide.md:8:9: rows: found nothing behind it, expected rows such as 6..12"),
        ("- {rows: 3, sya: Now}", "tide.md:8:13: a step has no entry sya; did you mean say?"),
        (
            "- {rows: 3, say: }",
            "tide.md:8:17: say: found nothing behind it; leave it out, and the computed sentence"
            " is said",
        ),
        (
            "- {rows: 3, point: SS}",
            "tide.md:8:20: there is no SS to point at; did you mean S?",
        ),
        (
            "- {rows: 3, point: S + 1}",
            "tide.md:8:20: point: found S + 1, expected the name of a part or net",
        ),
        ("- {rows: 3, point: S(4)}", "tide.md:8:20: S has no bit 4; its bits are 2..0, MSB first"),
        (
            "- {rows: 3, point: FA.s}",
            "tide.md:8:20: there is no FA.s to point at; did you mean FA.sum?",
        ),
        (
            "- {rows: 3, point: [A, A, A, A, A, A, A, A, A]}",
            "tide.md:8:20: point: 9 things are too many to be seen at once; the limit is 8",
        ),
        (
            "- {rows: 3, point: {A: 1}}",
            "tide.md:8:20: point: found keys and values, expected a single value",
        ),
        (
            "- {rows: 0, predict: [C]}",
            "tide.md:8:22: predict: row 0 is the start, which does not follow from a row before it",
        ),
        ("- {rows: 3, predict: SS}", "tide.md:8:22: there is no SS here; did you mean S?"),
        (
            "- {rows: 3, say: [a, b]}",
            "tide.md:8:18: say: found a list, expected a single value",
        ),
    ],
)
def test_errors_name_place_and_way_out(items: str, message: str) -> None:
    assert wrong(items) == [message]


def test_all_that_is_wrong_is_told_at_once() -> None:
    assert wrong("- 9\n- {rows: 8, point: SS}") == [
        "tide.md:8:3: there is no row 9: the rows are 0..6",
        "tide.md:9:10: there is no row 8: the rows are 0..6",
        "tide.md:9:20: there is no SS to point at; did you mean S?",
    ]


def test_too_many_steps_are_refused() -> None:
    assert wrong("- 0..6\n" * 143) == [
        "tide.md:7:1: 1,001 steps are too many to show; the limit is 1,000"
    ]
