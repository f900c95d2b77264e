"""The ``compare`` block: its table, answers, chart and path on the page; every error whole."""

from __future__ import annotations

import html
from pathlib import Path

import pytest

from edgewise.errors import EdgewiseError
from edgewise.lesson.checking import check_text as check
from edgewise.lesson.compared import Compared
from edgewise.publish import markup

HEAD = """\
---
title: Loaves
design: ripple-carry-adder
with: {n: 4}
operands: {a: 3, b: 4, carry_in: 0}
---
"""


def lesson(body: str) -> str:
    return f"{HEAD}\n```compare\n{body}\n```\n"


def test_a_page_has_table_answers_chart_and_path() -> None:
    body = (
        "designs: [ripple-carry-adder, carry-skip-adder]\nover: {n: 4..6}\nchart: time\n"
        "path: ripple-carry-adder at n=4"
    )
    report = check(lesson(body), "loaves.md", Path())
    page = markup.body(report)
    assert "<td>carry-skip-adder</td>" in page
    (piece,) = report.pieces.values()
    assert isinstance(piece, Compared)
    assert len(piece.sentences) == 3
    assert all(f"<li>{html.escape(one)}</li>" in page for one in piece.sentences)
    assert "Time of one result over n" in page
    assert "longest path: 10 gate delays, from b(0) to sum(3)" in page
    assert page == markup.body(check(lesson(body), "loaves.md", Path()))


@pytest.mark.parametrize(
    ("body", "message"),
    [
        (
            "over: {n: 4..6}",
            "loaves.md:9:1: compare needs designs, as in designs:"
            " [ripple-carry-adder, carry-skip-adder]",
        ),
        (
            "designs: ripple-carry-adder",
            "loaves.md:9:1: compare needs the parameter it is over, as in over: {n: 4..32}",
        ),
        (
            "designs: ripple-carry-adder\nover: {n: 1..4000}",
            "loaves.md:10:7: these are 4,000 designs; a lesson compares up to 2,000",
        ),
        (
            "designs: ripple-carry-adder\nover: {n: 4..6}\nchart: tim",
            "loaves.md:11:8: there is no chart tim; did you mean time?",
        ),
        (
            "designs: ripple-carry-adder\nover: {n: 4..6}\npath: ripple-carry-adder at four",
            "loaves.md:11:7: path: found four, expected NAME=NUMBER, as in n=8",
        ),
    ],
)
def test_every_error_has_its_place(body: str, message: str) -> None:
    with pytest.raises(EdgewiseError) as wrong:
        check(lesson(body), "loaves.md", Path())
    assert [str(one) for one in wrong.value.parts()] == [message]
