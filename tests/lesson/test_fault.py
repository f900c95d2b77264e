"""The fault block: the table of a broken run, with and without its solution."""

from __future__ import annotations

from pathlib import Path

import pytest

from edgewise import lesson
from edgewise.errors import EdgewiseError
from edgewise.lesson.broken import Broken
from edgewise.publish.handout import build
from edgewise.publish.html import render
from edgewise.sheet import GATED_CLOCK_CAUTION
from edgewise.words.messages import ENGLISH

FRONT = "---\ntitle: T\ndesign: serial-adder%s\nwith: {n: 4}\noperands: {a: 3, b: 7}\n---\n"


def checked(block: str, design: str = "") -> lesson.Report:
    return lesson.check_text(f"{FRONT % design}\n```fault\n{block}```\n", "t.md", Path())


def broken(block: str, design: str = "") -> Broken:
    (piece,) = checked(block, design).pieces.values()
    assert isinstance(piece, Broken)
    return piece


def test_the_table_is_that_of_the_broken_run() -> None:
    report = checked("fault: C stuck at 0\n")
    (piece,) = report.pieces.values()
    assert isinstance(piece, Broken)
    # Without a carry, each place is added by itself: 0011 + 0111 gives 0100.
    assert str(piece.trace.word("S", 8)) == "0100"
    assert str(report.trace.word("S", 8)) == "1010"
    assert piece.table.rows == tuple(range(9))


def test_the_exercise_does_not_tell_what_is_wrong() -> None:
    for fault in ("C stuck at 0", "FA: a and carry-in swapped", "one edge fewer in add"):
        report = checked(f"fault: '{fault}'\ncolumns: [A, S]\n")
        page = render.body(report)
        for text in (page, build.typst_of(report).source):
            assert fault not in text
            assert "swapped" not in text
            assert "stuck" not in text
            assert "one thing is wrong" in text
        assert 'class="fault"' not in page


def test_the_solution_does_and_marks_it() -> None:
    page = render.body(checked("fault: C stuck at 0\nrows: add\nsolution: true\n"))
    assert 'class="fault" data-name="C.q"' in page
    assert "The wire C is stuck at 0: what reads it reads 0." in page
    assert "MSB left: C stuck at 0" in page


def test_a_gated_clock_comes_with_its_caution() -> None:
    fault = "fault: late enable at the clock of C\nsolution: true\n"
    figure, _ = broken(fault, "-gated-clock").captioned(ENGLISH)
    assert figure.caption.endswith(GATED_CLOCK_CAUTION)
    assert ENGLISH("fault-caution-gated-clock") == GATED_CLOCK_CAUTION


def test_rows_that_the_broken_run_lacks_are_left_out() -> None:
    assert broken("fault: one edge fewer in add\nrows: 6..8\n").table.rows == (6, 7)
    assert broken("fault: one edge more in add\n").table.rows == tuple(range(10))


@pytest.mark.parametrize(
    ("block", "message"),
    [
        ("", "8:1: a fault block says what is wrong: fault: C stuck at 0"),
        (
            "fault: C stuck at 2\n",
            "9:8: serial-adder has no fault C stuck at 2; did you mean C stuck at 1?",
        ),
        ("fault: rust\n", "9:8: serial-adder has no fault rust; edgewise break lists them"),
        (
            "fault: C stuck at 0\nsolution: yes\n",
            "10:11: solution: found yes, expected true or false",
        ),
    ],
)
def test_wrong_blocks(block: str, message: str) -> None:
    with pytest.raises(EdgewiseError) as caught:
        checked(block)
    assert str(caught.value) == f"t.md:{message}"
