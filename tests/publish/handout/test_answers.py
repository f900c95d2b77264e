"""The answer sheet: what is wrong with the lesson's broken circuits."""

from __future__ import annotations

import re
from pathlib import Path
from typing import Final

import pytest

from edgewise import lesson
from edgewise.publish.handout import build, pdf
from edgewise.publish.handout.build import Printed
from edgewise.sheet import GATED_CLOCK_CAUTION
from edgewise.words.messages import ENGLISH

OPEN_INPUT = ENGLISH("fault-caution-open-input")

BROKEN: Final = """\
---
title: The loose wire
design: serial-adder
with: {n: 4}
operands: {a: 3, b: 7}
---
```fault
fault: FA.carry-out stuck at 0
rows: add
columns: [C, S]
```
"""
SOLVED: Final = f"""\
{BROKEN}
```fault
fault: FA.carry-out stuck at 0
rows: add
columns: [C, S]
solution: true
```
"""


def printed_of(text: str, *, blanks: bool = True) -> Printed:
    return build.typst_of(lesson.check_text(text, "buoy.md", Path()), blanks=blanks)


def told(printed: Printed) -> list[str]:
    """The paragraphs of the answer sheet, without its title."""
    return printed.answers[printed.answers.index("#heading") :].split("\n\n")


@pytest.mark.usefixtures("no_stage")
def test_the_answer_sheet_tells_what_is_wrong() -> None:
    printed = printed_of(BROKEN)
    assert "stuck" not in printed.source
    head, what, which, first, model, figure, end = told(printed)
    assert head == '#heading(level: 1)[#"What is wrong";]'
    assert what == '#heading(level: 2)[#"Table 1";]'
    assert which == (
        '#strong[#"FA.carry-out stuck at 0.";];'
        '#" The wire FA.carry-out is stuck at 0: what reads it reads 0.";'
    )
    assert OPEN_INPUT in model
    assert first == '#"The fault is first detected in the row of edge 5: C is 0 and should be 1.";'
    assert figure.startswith('#drawing("figure-1.svg", "')
    assert end == ""
    assert '[#"Figure 1. The broken circuit after edge 5, the fault marked";]' in printed.answers
    assert printed.answer_files is not None
    assert b'class="fault" data-name="FA.carry-out"' in printed.answer_files["figure-1.svg"]
    # The table is the question: with a blank handout, and with a full one.
    for blank in (True, False):
        made = printed_of(BROKEN, blanks=blank).source
        assert re.findall(r'word\("([01X_]+)"', made) == [
            word
            for row in range(4, 9)
            for word in ("0", ("0000", "0000", "0000", "1000", "0100")[row - 4])
        ]


@pytest.mark.usefixtures("no_stage")
def test_a_solution_goes_to_the_answer_sheet() -> None:
    printed = printed_of(SOLVED)
    assert "stuck" not in printed.source
    assert '#"Figure 2 and Table 2 tell what is wrong; they are on the answer sheet.";' in (
        printed.source
    )
    assert not [name for name, svg in printed.files.items() if b"stuck" in svg]
    assert "Table 2. The words of a broken circuit, MSB left: FA.carry-out stuck at 0" in (
        printed.answers
    )
    assert printed.answers.count("#drawing(") == 2
    assert printed.answers.index("Table 1") < printed.answers.index("Figure 2")
    # Without blanks there is no other sheet, and it stays where it is.
    assert "MSB left: FA.carry-out stuck at 0" in printed_of(SOLVED, blanks=False).source
    assert pdf.pdf(printed.answers, printed.answer_files or {}).startswith(b"%PDF-")


def test_a_fault_of_a_gated_clock_is_told_with_its_caution() -> None:
    text = BROKEN.replace("serial-adder", "serial-adder-gated-clock")
    text = text.replace("FA.carry-out stuck at 0", "late enable at the clock of C")
    printed = printed_of(text)
    assert f'#"{GATED_CLOCK_CAUTION}";' in printed.answers


def test_a_fault_that_the_table_does_not_show_is_told_so() -> None:
    printed = printed_of(BROKEN.replace("[C, S]", "[A]"))
    said = (
        "The fault is not detected in this table: in these columns the words are as they should be."
    )
    assert f'#"{said}' in printed.answers


def test_a_question_is_asked_on_the_handout_and_solved_on_the_answer_sheet() -> None:
    block = "```question\nask: value\nof: S\nabout: [carry-dropped]\nmarks: 2\n```\n"
    front = "---\ntitle: T\ndesign: serial-adder\nwith: {n: 4}\noperands: {a: 3, b: 7}\n---\n"
    sheets = build.typst_of(lesson.check_text(front + block, "t.md", Path()), blanks=True)
    for text in (sheets.source, sheets.answers):
        assert '"Question 1", "2 marks, level 3 of 5"' in text
        assert "What does S hold after edge 8?" in text
    assert '#answer-room(("S =", 80pt), )' in sheets.source
    assert '#strong([#"Answer: ";]);#value("1010");' in sheets.answers
    assert '#value("1010")' not in sheets.source
