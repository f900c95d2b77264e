"""Results of a course platform as CSV, made answers of.

The terms are those of 1EdTech's QTI Results Reporting (from memory).
"""

from __future__ import annotations

from pathlib import Path

import pytest

from edgewise.errors import EdgewiseError
from edgewise.practice.marking import answer_sheet, class_marks, results, table
from edgewise.practice.paper import Paper, read_paper

PAPER = Path(__file__).parents[3] / "examples" / "three-gauges-paper.md"


@pytest.fixture(scope="module")
def paper() -> Paper:
    return read_paper(PAPER)


def rows(paper: Paper, learner: str, wrong: str = "") -> list[str]:
    """What a platform tells of somebody who has all fields right, or the first one wrong."""
    (variant,) = paper.variants(1, seed=5).variants
    return [
        f"{learner},paper-{variant.code}-{question.name},R{number},"
        + (wrong if wrong and question.name == "q1" and number == 1 else question.expected(head))
        for question in variant.questions
        for number, head in enumerate(question.headings, 1)
    ]


def test_right_answers_have_all_marks_and_a_wrong_one_is_found(paper: Paper) -> None:
    lines = ["sourcedId,item identifier,Response-Variable,candidateResponse"]
    lines += [*rows(paper, "a1"), *rows(paper, "b2", "000000")]
    found = table.of_text("\n".join(lines), "results.csv")
    assert results.is_results(found)
    marked = class_marks.mark(answer_sheet.of_table(results.answers(found, paper), paper))
    right, wrong = marked.results
    assert [score.answers == score.marks for score in right.scores] == [True] * 6
    assert [score.answers == score.marks for score in wrong.scores] == [False] + [True] * 5
    assert (right.learner.name, right.learner.line.number) == ("a1", 2)


def test_a_table_of_answers_is_none_of_results() -> None:
    for heads in ("learner,code,q1", "learner,code,item,value", "learner,item"):
        assert not results.is_results(table.of_text(f"{heads}\n", "x.csv"))


def test_what_the_paper_does_not_have_is_told_row_by_row(paper: Paper) -> None:
    first, second = (one.code for one in paper.variants(2, seed=5).variants)
    text = "\n".join(
        [
            "candidate,item,responseVariable,value",
            f"a,paper-{first}-q1,R99,0",
            f"a,paper-{first}-q9,R1,0",
            "a,quiz-7,R1,0",
            f"a,paper-{first}-q4,R1,b",
            f"a,paper-{second}-q4,,b",
            f"a,paper-{second}-q4,R1,b",
        ]
    )
    with pytest.raises(EdgewiseError) as told:
        results.answers(table.of_text(text, "r.csv"), paper)
    assert [str(one) for one in told.value.parts()] == [
        f"r.csv:2: paper-{first}-q1 has no response R99; expected R1 to R10",
        f"r.csv:3: paper {first} has no question q9",
        "r.csv:4: quiz-7 is no item of a paper; expected one as paper-CODE-q1",
        f"r.csv:6: paper-{second}-q4 has no response nothing; expected R1",
        f"r.csv:7: this learner has items of two papers, {first} and {second}",
    ]
