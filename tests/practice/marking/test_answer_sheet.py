"""Who wrote what: columns found by their headings, rows by their learners."""

from __future__ import annotations

import pytest

from edgewise.errors import EdgewiseError, Problems
from edgewise.practice.marking import answer_sheet, table
from edgewise.practice.marking.answer_sheet import AnswerSheet
from edgewise.practice.table_question import Cell
from tests.practice.marking.classes import adder, paper

PAPER = paper(adder(4), [Cell(7, "C"), Cell(8, "S")], {"K7": {"a": 7, "b": 5}})


def of(text: str) -> AnswerSheet:
    return answer_sheet.of_table(table.of_text(text, "gauges.csv"), PAPER)


def refused(text: str) -> list[str]:
    with pytest.raises(EdgewiseError) as caught:
        of(text)
    return [str(one) for one in caught.value.parts()]


def test_columns_are_found_in_any_order_and_manner() -> None:
    sheet = of("when,Q1: s AFTER 8,LEARNER,q1:C after 7, Code \n9:00, 1100 ,Zoë  Q,1, k7\n")
    (zoe,) = sheet.learners
    assert (zoe.name, zoe.code, zoe.line.number) == ("Zoë Q", "K7", 2)
    assert zoe.variant is not None
    assert sheet.texts(zoe, zoe.variant.questions[0]) == ("1", "1100")


def test_a_code_of_no_paper_is_a_fault_of_that_row_alone() -> None:
    sheet = of("learner,code,q1: C after 7,q1: S after 8\nAda,K7,1,1100\nBo,K9,1,1100\n")
    assert [one.fault for one in sheet.learners] == ["", "there is no paper K9"]


def test_a_row_with_nothing_but_a_code_is_passed_over() -> None:
    sheet = of("learner,code,q1: C after 7,q1: S after 8\n,K7,,\nBo,K7,,\n")
    assert [one.name for one in sheet.learners] == ["Bo"]


def test_missing_columns_are_told() -> None:
    assert refused("name,cod,q1: S after 8\nAda,K7,1\n") == [
        "gauges.csv:1: there is no column 'code'; did you mean cod?",
        "gauges.csv:1: there is no column 'learner'; there is: cod, name, q1: S after 8",
    ]
    assert refused("learner,code,q1: S after 8\nAda,K7,1\n") == [
        "gauges.csv:1: there is no column 'q1: C after 7'; did you mean q1: S after 8?"
    ]


def test_columns_that_are_there_twice_are_told() -> None:
    text = "learner,code,q1: C after 7,q1: S after 8,q1: S after 8\nAda,K7,1,1,1\n"
    assert refused(text) == [
        "gauges.csv:1: there are 2 columns 'q1: S after 8'; remove all but one"
    ]


def test_learners_are_told_apart_and_never_named_in_an_error() -> None:
    text = "learner,code,q1: C after 7,q1: S after 8\nAda,K7,1,1\n,K7,1,1\nAda ,K7,0,0\n"
    assert refused(text) == [
        "gauges.csv:3: this row has answers, but nothing under 'learner': write who they are from,"
        " or a number",
        "gauges.csv:4: this row is for the same learner as row 2; remove one of them, or tell the"
        " two learners apart",
    ]


def test_many_faults_are_told_in_one_go() -> None:
    rows = "".join(f",K7,{number}\n" for number in range(40))
    with pytest.raises(Problems) as caught:
        of(f"learner,code,q1: C after 7\n{rows}")
    assert str(caught.value.errors[-1]) == "and 20 errors more; mend these first"
