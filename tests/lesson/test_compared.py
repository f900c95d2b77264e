"""The ``compare`` block: its table, answers, chart and path on the page; every error whole."""

from __future__ import annotations

import html
from pathlib import Path

import pytest

from edgewise.errors import EdgewiseError
from edgewise.lesson.checking import check_text as check
from edgewise.lesson.compared import Compared
from edgewise.publish import captions
from edgewise.publish.html import render

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
    page = render.body(report)
    assert "<td>carry-skip-adder</td>" in page
    (piece,) = report.pieces.values()
    assert isinstance(piece, Compared)
    (told,) = piece.sentences()
    assert told == (
        "Which to take: for the least area, carry-skip-adder at n = 4, 5 (24 to 34),"
        " ripple-carry-adder and carry-skip-adder at n = 6 (42); for the least time,"
        " carry-skip-adder at n = 4 (8), ripple-carry-adder and carry-skip-adder at n = 5, 6 (12 to"
        " 14); for the least area-delay product, carry-skip-adder at n = 4, 5 (192 to 408),"
        " ripple-carry-adder and carry-skip-adder at n = 6 (588); ripple-carry-adder takes carry_in"
        " too; carry-skip-adder settles sooner than its critical path, which no operands take, at"
        " n = 6."
    )
    assert f"<p>{html.escape(captions.unbroken(told))}</p>" in page
    assert "Time of one result over n" in page
    assert "<caption>critical path: 10 gate delays, from b(0) to sum(3); a path counts" in page
    assert '<td>FA(0).X1.out</td><td>xor FA(0).X1</td><td class="right">2</td>' in page
    assert page == render.body(check(lesson(body), "loaves.md", Path()))


ONE = "designs: ripple-carry-adder\n"
OVER = f"{ONE}over: {{n: 4..6}}\n"


@pytest.mark.parametrize(
    ("body", "message"),
    [
        ("", "8:1: compare needs designs, as in designs: [ripple-carry-adder, carry-skip-adder]"),
        (
            "over: {n: 4..6}",
            "9:1: compare needs designs, as in designs: [ripple-carry-adder, carry-skip-adder]",
        ),
        (ONE, "9:1: compare needs the parameter it is over, as in over: {n: 4..32}"),
        (
            "designs: {n: 4}\nover: {n: 4..6}",
            "9:10: designs: found keys and values, expected a list, as in […]",
        ),
        (
            "designs: []\nover: {n: 4..6}",
            "9:10: designs: found an empty list, expected one design at least",
        ),
        ("designs: [[a]]\nover: {n: 4..6}", "9:11: designs: found a list, expected a single value"),
        (
            "designs: [ripple-cary-adder, carry-skip-adder]\nover: {n: 4..6}",
            "9:11: the catalogue has no design ripple-cary-adder; did you mean ripple-carry-adder?",
        ),
        (
            "designs: [carry-skip-adder, ripple-carry-adder, carry-skip-adder]\nover: {n: 4..6}",
            "9:49: carry-skip-adder is named twice",
        ),
        (
            ONE + "over: 4..6",
            "10:7: over: found a single value, expected keys and values, as in {n: 4..32}",
        ),
        (ONE + "over: {n: 6..4}", "10:7: n = 6..4 is empty; write low..high"),
        (ONE + "over: {n: four}", "10:11: there is no number named four; there is: n"),
        (ONE + "over: {n: 4..}", "10:14: found nothing where a formula was expected"),
        (
            ONE + "over: {n: 4..6, m: 1..2}",
            "10:7: found ranges for n and m; compare over one of them and give the others one"
            " number",
        ),
        (ONE + "over: {k: 4..6}", "10:7: ripple-carry-adder has no parameter k; there is: n"),
        (ONE + "over: {n: [4]}", "10:11: n: found a list, expected a single value"),
        (ONE + "over: {}", "9:1: compare needs the parameter it is over, as in over: {n: 4..32}"),
        (
            ONE + "over: {n: 1..4000}",
            "10:7: these are 4,000 designs; a lesson compares up to 2,000",
        ),
        (
            OVER + "with: 4",
            "11:7: with: found a single value, expected keys and values, as in {d: 2}",
        ),
        (OVER + "with: {k: 4}", "11:8: none of these designs has a parameter k; there is: n"),
        (OVER + "with: {n: 4}", "11:8: n stands behind over; leave it out of with"),
        (OVER + "with: {m: x}", "11:11: there is no number named x; there is: n"),
        (
            OVER + "model: unit-gat",
            "11:8: there is no cost model unit-gat; did you mean unit-gate?",
        ),
        (OVER + "model: [a]", "11:8: model: found a list, expected a single value"),
        (OVER + "chart: tim", "11:8: there is no chart tim; did you mean time?"),
        (
            OVER + "chart: toggles",
            "11:8: chart: a lesson counts no toggles; edgewise compare --activity does",
        ),
        (OVER + "chart: area-delay\nat: 9", "12:5: n = 9 was not compared; expected 4..6"),
        (OVER + "chart: area-delay\nat: x", "12:5: there is no number named x; there is: n"),
        (OVER + "at: 5", "11:5: at: is of chart: area-delay; add that, or leave at out"),
        (
            OVER + "chart: time\nat: 5",
            "12:5: at: is of chart: area-delay; add that, or leave at out",
        ),
        (
            ONE + "need: ' '",
            "10:8: a need has no condition; write, for example, n = 32, time <= 40",
        ),
        (
            ONE + "need: n = 8, time",
            "10:7: time is no condition; write a comparison, for example time <= 40",
        ),
        (ONE + "need: n = 8, tme <= 9", "10:7: there is no quantity tme; did you mean time?"),
        (
            ONE + "need: n = 8, time <= 9 volts",
            "10:7: time <= 9 volts: found the unit volts; expected gate delays in the model"
            " unit-gate",
        ),
        (
            ONE + "need: time <= 9",
            "10:7: the need does not say for which size; add, for example, n = 32",
        ),
        (
            ONE + "need: n = 8, time <=",
            "10:14: can't read 'time <=': the formula ends too early; expected a name or a number",
        ),
        (
            "designs: [ripple-carry-adder, carry-skip-adder]\nneed: m = 8, time <= 9",
            "10:7: ripple-carry-adder has no parameter m; leave it out",
        ),
        (
            ONE + "need: m = 8",
            "10:7: there is no quantity m; there is: area, area_delay, edges, flip_flops, gates,"
            " logic, n, period, storage, time, toggles",
        ),
        (
            OVER + "path: a b",
            "11:7: path: found a b, expected a design, as in ripple-carry-adder at n=8",
        ),
        (
            OVER + "path: ripple-cary-adder",
            "11:7: the catalogue has no design ripple-cary-adder; did you mean ripple-carry-adder?",
        ),
        (
            OVER + "path: ripple-carry-adder at four",
            "11:7: path: found four, expected NAME=NUMBER, as in n=8",
        ),
        (
            OVER + "path: ripple-carry-adder at k=9",
            "11:7: ripple-carry-adder has no parameter k; there is: n",
        ),
        (
            OVER + "path: ''",
            "11:8: path: found nothing, expected a design, as in ripple-carry-adder at n=8",
        ),
        (OVER + "path: ripple-carry-adder at n=4, n=5", "11:7: path: n is given twice"),
        (
            OVER + "colour: red",
            "11:1: compare has no entry colour; there is: at, caption, chart, designs, model,"
            " need, over, path, with",
        ),
        (OVER + "caption: [a]", "11:10: caption: found a list, expected a single value"),
        (
            f"{ONE}model: gate-count\nneed: n = 4, time <= 9 ns",
            "11:7: time <= 9 ns: found the unit ns; expected gate levels in the model gate-count",
        ),
    ],
)
def test_every_error_has_its_place(body: str, message: str) -> None:
    with pytest.raises(EdgewiseError) as wrong:
        check(lesson(body), "loaves.md", Path())
    assert [str(one) for one in wrong.value.parts()] == [f"loaves.md:{message}"]


def test_all_that_is_wrong_is_told_at_once() -> None:
    with pytest.raises(EdgewiseError) as wrong:
        check(lesson("designs: [tide-adder]\nover: {n: x}\nmodel: [a]"), "loaves.md", Path())
    assert str(wrong.value) == (
        "loaves.md:9:11: the catalogue has no design tide-adder; did you mean serial-adder?\n"
        "loaves.md:10:11: there is no number named x; there is: n\n"
        "loaves.md:11:8: model: found a list, expected a single value"
    )


def test_designs_that_can_t_be_built_are_told_at_the_block() -> None:
    with pytest.raises(EdgewiseError) as wrong:
        check(lesson(ONE + "over: {n: 0..0}"), "loaves.md", Path())
    assert str(wrong.value) == (
        "loaves.md:8:1: none of the designs can be built: ripple-carry-adder, n=0: parameter n is"
        " 0; the range is 1..256"
    )


def test_without_a_design_of_its_own_a_lesson_still_compares() -> None:
    text = lesson(f"{OVER}chart: tim").replace("design: ripple", "design: riple")
    with pytest.raises(EdgewiseError) as wrong:
        check(text, "loaves.md", Path())
    assert [str(one) for one in wrong.value.parts()] == [
        "loaves.md:3:9: the catalogue has no design riple-carry-adder; did you mean"
        " ripple-carry-adder?",
        "loaves.md:11:8: there is no chart tim; did you mean time?",
    ]
