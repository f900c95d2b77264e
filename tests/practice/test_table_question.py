"""What a table question asks for is what the run holds."""

from __future__ import annotations

from edgewise import catalogue, run
from edgewise.practice.table_question import Cell, TableQuestion


def test_the_right_answer_is_the_sum() -> None:
    trace = run(catalogue.design("serial-adder", n=6), a=19, b=30)
    question = TableQuestion("q1", trace, (Cell(trace.edges, "S"),), marks=1)
    assert [str(cell) for cell in question.cells] == ["S after 12"]
    assert question.expected(question.cells[0]).value == 19 + 30
