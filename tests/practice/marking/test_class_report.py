"""The figures of a class, counted by hand on a class small enough for that."""

from __future__ import annotations

import pytest

from edgewise.engines import reference
from edgewise.practice.marking import (
    answer_sheet,
    class_marks,
    class_report,
    mark_sheet,
    overrules,
    table,
)
from edgewise.practice.marking.beliefs import singles
from edgewise.practice.marking.class_report import ClassReport
from edgewise.practice.marking.diagnosis import Status
from edgewise.practice.marking.overrules import Overrules
from edgewise.practice.table_question import TableQuestion
from tests.practice.marking.classes import (
    Filled,
    OnePaper,
    Papers,
    Plain,
    adder,
    asked,
    believed,
)

CELLS = asked(range(6, 13), ["C", "S"])
OPERANDS = {"K7": {"a": 0b011011, "b": 0b010111}, "K8": {"a": 0b011101, "b": 0b001111}}
LETTER = Plain("q2", "letter", {"q2": "b"}, (("carry-dropped", "c"),))
PAPER = Papers(
    {
        code: OnePaper(
            (Filled(TableQuestion("q1", reference.run(adder(), given), CELLS, 7)), LETTER)
        )
        for code, given in OPERANDS.items()
    }
)
HEADINGS = [f"q1: {cell}" for cell in CELLS] + ["q2"]
DROPPED = next(b for b in singles(adder()) if b.names == ("carry-dropped",))


def line(name: str, code: str, letter: str, *, dropped: bool = False) -> str:
    right = [str(PAPER.variants[code].questions[0].expected(h)) for h in HEADINGS[:-1]]
    words = believed(DROPPED, CELLS, OPERANDS[code]) if dropped else right
    return ",".join([name, code, *words, letter])


def report(old: Overrules | None = None) -> ClassReport:
    rows = [
        line("Ada", "K7", "b"),
        line("Bo", "K7", "c", dropped=True),
        line("Cy", "K8", "c", dropped=True),
        line("Di", "K8", "b"),
        line("Ed", "K7", "a"),
        ",".join(["Flo", "K8", *[""] * len(HEADINGS)]),
        line("Gil", "K7", "b").replace("K7", "Z1"),
    ]
    text = "\n".join([",".join(["learner", "code", *HEADINGS]), *rows])
    marked = class_marks.mark(answer_sheet.of_table(table.of_text(text, "x.csv"), PAPER))
    return class_report.of(marked, mark_sheet.overruled(marked, old or Overrules()))


def test_who_is_counted() -> None:
    found = report()
    assert (found.learners, found.without_paper, found.blank, found.counted) == (7, 1, 1, 5)


def test_questions_and_cells() -> None:
    found = report()
    one, two = found.items
    assert (one.learners, two.learners) == (5, 5)
    assert two.facility == two.answers == pytest.approx(2 / 5)
    assert one.answers < one.facility < 1
    assert sum(cell.began for cell in found.cells) == 2  # the two who drop the carry
    assert [cell.asked for cell in found.cells] == [5] * len(CELLS)
    right = sum(cell.right for cell in found.cells) / (5 * len(CELLS))
    assert one.answers == pytest.approx(right)


def test_ideas_and_variants() -> None:
    found = report()
    assert found.ideas == (((("carry-dropped",),), 2),)
    assert found.statuses == {Status.MISCONCEPTION: 2, Status.RIGHT: 2, Status.CARELESS: 1}
    assert [(one.code, one.learners) for one in found.variants] == [("K7", 3), ("K8", 2)]
    assert found.alpha is not None
    assert found.kr_20 is not None


def test_what_a_marker_overruled_counts() -> None:
    old = Overrules(("learner", "q2 overrule"), {"Bo": {"q2 overrule": "2"}})
    assert report(old).items[1].facility == pytest.approx(3 / 5)
    assert report(old).items[1].answers == pytest.approx(2 / 5)
    assert overrules.marks("2", 2) == 2


def test_a_class_of_nobody() -> None:
    text = "learner,code"
    marked = class_marks.mark(answer_sheet.of_table(table.of_text(text, "x.csv"), PAPER))
    found = class_report.of(marked, ())
    assert (found.learners, found.counted, found.items, found.alpha) == (0, 0, (), None)
