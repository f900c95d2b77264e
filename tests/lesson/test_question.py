"""The question block: every kind, every refusal with its reason, every entry that is wrong."""

from __future__ import annotations

from pathlib import Path
from typing import Final

import pytest

from edgewise import lesson
from edgewise.errors import EdgewiseError
from edgewise.lesson.question import KINDS, Asked
from edgewise.practice.question import ChoiceQuestion, OperandsQuestion, Question
from tests.conftest import Golden

FRONT: Final = (
    "---\ntitle: Rain\ndesign: serial-accumulator\nwith: {n: 6, x: 3, m: 5}\n"
    "operands: {w: [11, 22, 13]}\n---\n"
)
WRONG: Final = """
marks: 3

ask: rows

ask: values

ask: value
of: A
marks: 0

ask: value
of: A
rows: 3..4

ask: value
after: 4

ask: value
of: Q

ask: value
of: A
about: [carry-droped]

ask: value
of: A
about: [carry-kept-between-words]

ask: value
of: C
after: 15

ask: value
of: C
after: 14
about: [carry-dropped]

ask: value
of: shift_a
after: 5

ask: choice
of: A
about: [carry-dropped, or-for-sum]

ask: choice
of: C
after: 16

ask: choice
of: A
about: [wrong-end, read-backwards, one-edge-early]

ask: cells
rows: 12..14
columns: [A, C]

ask: cells
rows: 12..14
columns: [A, C]
blank: 9

ask: cells
rows: 12..14
columns: [A, C]
blank: [A]

ask: cells
rows: 12..14
columns: [A, C]
blank: [B after 13]

ask: cells
rows: 12..14
columns: [A, C]
blank: [A after 13 + 1]
about: carry-dropped

ask: lane
rows: 6..9
columns: [A, C]
lane: B

ask: lane
rows: 6
columns: [A, C]
lane: C

ask: next-rows
columns: [A]

ask: edges
about: [carry-dropped]

ask: edges
over: {n: 2-8}

ask: formula
count: edges

ask: false-statement
statements: [A after 12 == 11]

ask: false-statement
statements: [A after 12 == 11, C after 12 == 0, C after 24 == 0, total(w) == 46]

ask: false-statement
statements: [A after 12 == 12, C after 12 == 1, C after 24 == 0, total(w) == 46]

ask: false-statement
statements: [A after 12 == 12, C after 12 == 0 for all w, C after 24 == 0, total(w) == 46]

ask: false-statement
statements: [total(w) == 47, total(w) > 1, total(w) > 2, total(w) > 3]

ask: fault
rows: 12..14

ask: fault
fault: C stuck at 2

ask: fault
fault: C stuck at 0
rows: 0..5

ask: fault
fault: C stuck at 0
among: [C stuck at 1]

ask: fault
fault: C stuck at 0
rows: 12..18
columns: [A, C]
among: [FA.carry-out stuck at 0, shift_b stuck at 0, FA.sum stuck at 1]

ask: fault
fault: C stuck at 0
rows: 12..18
about: [carry-dropped]

ask: operands

ask: operands
show: carry chain 4

ask: operands
show: carry chain 9

ask: operands
show: carry chain 40

ask: operands
show: carry chain 0

ask: operands
show: carry walks

ask: operands
show: carry chain 4
given: [w(1)]

ask: operands
show: carry chain 4
operands: {w: [1,2,4]}

ask: operands
show: carry chain 4
operands: {w: [1,2,4]}
given: [w(1), w(2), w(3)]

ask: operands
show: carry chain 4
operands: {w: [1,2,4]}
given: [w(9)]

ask: operands
sum: bursts

ask: operands
show: carry chain 4
operands: {w: [1,2]}
"""
"""Blocks that are refused, an empty line between two."""
ASKED: Final = {
    "next-rows": "ask: next-rows\nrows: 7..8\ncolumns: [A]\nmarks: 4",
    "cells": "ask: cells\nrows: 12..16\ncolumns: [A, B]\nblank: 3\nabout: [msb-first]",
    "lane": "ask: lane\nrows: 12..18\ncolumns: [FA.sum, C]\nlane: C\nabout: [carry-dropped]",
    "value": "ask: value\nof: A\nhint: Add first, then shift.",
    "edges": "ask: edges\nover: {n: 5..9, x: 2..9}",
    "choice": "ask: choice\nof: A\noperands: {w: [13, 25, 20]}",
    "false-statement": (
        "ask: false-statement\nstatements: [value(A after 24) == total(w), C after 24 == 0,"
        " value(A after 12) == w(1), value(A after 18) == (w(1) + w(2)) mod 32]"
    ),
    "fault": "ask: fault\nfault: C stuck at 0\nrows: 12..18\ncolumns: [A, B, C]",
    "operands": (
        "ask: operands\nshow: carry chain 4\noperands: {w: [9, 23, 14]}\ngiven: [w(1), w(3)]"
    ),
    "formula": "ask: formula\nover: {n: 5..8, x: 2..5}",
}
"""A question of each kind."""


def checked(block: str, front: str = FRONT) -> lesson.Report:
    return lesson.check_text(f"{front}```question\n{block}\n```\n", "rain.md", Path())


def asked(block: str, front: str = FRONT) -> Question:
    (piece,) = checked(block, front).pieces.values()
    assert isinstance(piece, Asked)
    return piece.question


def test_questions_that_are_wrong_or_unfair_are_refused(golden: Golden) -> None:
    told = []
    for block in WRONG.strip("\n").split("\n\n"):
        with pytest.raises(EdgewiseError) as refused:
            checked(block)
        told.append(f"{block}\n    {refused.value}\n")
    golden("lesson-questions-refused.txt", "\n".join(told))


def test_each_kind_can_be_asked() -> None:
    assert ASKED.keys() == KINDS.keys()
    for kind, block in ASKED.items():
        question = asked(block)
        assert (question.kind, question.name) == (kind, "q1")
        answers = {heading: question.expected(heading) for heading in question.headings}
        assert question.right(answers), kind
        assert 1 <= question.level.number <= 5
        assert (question.cells_asked is None) == (kind not in {"next-rows", "cells", "lane"})


def test_the_headings_of_an_answer_sheet() -> None:
    assert asked(ASKED["next-rows"]).headings == ("q1: A after 7", "q1: A after 8")
    assert asked(ASKED["value"]).headings == ("q1",)
    assert asked(ASKED["operands"]).headings == ("q1: w(2)",)
    with pytest.raises(EdgewiseError) as told:
        asked(ASKED["value"]).expected("q2")
    assert str(told.value) == "there is no heading q2; there are q1"


def test_cells_by_information_tell_what_they_are_about() -> None:
    """The cells chosen are where the wrong run differs, and nothing that is fed is asked."""
    question = asked("ask: cells\nrows: 12..18\nblank: 4\nabout: [carry-dropped]")
    assert question.cells_asked is not None
    cells = question.cells_asked.cells
    inputs = {net.name for net in question.trace.design.circuit.inputs}
    assert len(cells) == 4
    assert not inputs & {cell.column for cell in cells}


def test_wrong_options_are_what_misconceptions_give() -> None:
    """Without a carry, 11 + 22 + 13 is their exclusive or (common practice, no source)."""
    question = asked("ask: choice\nof: A\nabout: [carry-dropped, or-for-sum, carry-of-two]")
    assert isinstance(question, ChoiceQuestion)
    words = {one.idea: str(one.what) for one in question.options}
    assert words[""] == f"{11 + 22 + 13:06b}"
    assert words["carry-dropped"] == f"{11 ^ 22 ^ 13:06b}"
    assert len(set(words.values())) == 4


def test_a_formula_is_marked_by_its_values() -> None:
    question = asked(ASKED["formula"])
    assert question.right({"q1": "n + n * x"})
    assert question.right({"q1": "x*n+n"})
    assert not question.right({"q1": "n*x"})
    with pytest.raises(EdgewiseError, match="there is no number named q"):
        question.right({"q1": "q + 1"})


def test_operands_are_marked_by_running_them() -> None:
    question = asked(ASKED["operands"])
    assert isinstance(question, OperandsQuestion)
    rights = [w for w in range(32) if question.right({"q1: w(2)": str(w)})]
    assert 23 in rights
    assert 0 < len(rights) < 32
    with pytest.raises(EdgewiseError) as told:
        question.right({"q1: w(2)": "many"})
    assert str(told.value) == "q1: w(2): found 'many', expected a number in decimal"


def test_a_lesson_tells_how_many_questions_it_asks() -> None:
    report = checked(ASKED["next-rows"])
    assert str(report) == "0 values computed, 0 claims true\n1 question asked, 4 marks"


def test_a_design_without_edges_is_asked_about_as_it_stands() -> None:
    front = (
        "---\ntitle: T\ndesign: ripple-carry-adder\nwith: {n: 4}\n"
        "operands: {a: 5, b: 11, carry_in: 1}\n---\n"
    )
    assert asked("ask: value\nof: sum\nabout: [carry-dropped]", front).expected("q1") == "0001"
