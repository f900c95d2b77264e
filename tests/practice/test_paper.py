"""Papers: variants that differ and are equally hard, codes by which each is made again."""

from __future__ import annotations

import csv
import io
import re
from pathlib import Path
from typing import Final

import pytest

from edgewise.errors import EdgewiseError
from edgewise.practice import answer_file, paper_code
from edgewise.practice.paper import Paper, Papers, read_paper
from edgewise.practice.paper_code import ALPHABET, PaperCode
from edgewise.practice.question import ChoiceQuestion

EXAMPLE: Final = Path(__file__).parents[2] / "examples" / "three-gauges-paper.md"
FRONT: Final = "---\ntitle: T\ndesign: serial-adder\nwith: {n: 4}\noperands: {a: 3, b: 7}\n---\n"
QUESTION: Final = "```question\nask: value\nof: S\nabout: [carry-dropped]\n```\n"


@pytest.fixture(scope="module")
def paper() -> Paper:
    return read_paper(EXAMPLE)


@pytest.fixture(scope="module")
def papers(paper: Paper) -> Papers:
    return paper.variants(30, seed=5)


def written(folder: Path, text: str) -> Paper:
    path = folder / "paper.md"
    path.write_text(text, encoding="utf-8")
    return read_paper(path)


def test_operands_differ_and_questions_do_not(papers: Papers) -> None:
    variants = papers.variants
    assert len({tuple(one.operands.values()) for one in variants}) == 30
    assert len({one.code for one in variants}) == 30
    assert len({one.headings for one in variants}) == 1
    assert {one.marks for one in variants} == {17}
    assert [one.number for one in variants] == list(range(1, 31))


def test_they_are_equally_hard(papers: Papers) -> None:
    """Each feature was computed for each paper; they are the same in all of them."""
    assert len({one.features for one in papers.variants}) == 1
    assert papers.equality.tier == "alike"
    assert papers.equality.unequal == ()
    told = {tuple(q.tells for q in one.questions) for one in papers.variants}
    assert len(told) == 1


def test_every_question_of_every_variant_is_fair(papers: Papers) -> None:
    """No option twice, one right, and no misconception that is told gets the right answer."""
    for paper in papers.variants:
        for question in paper.questions:
            for idea, answer in question.wrong:
                assert answer != question.expected(question.name), (paper.code, idea)
            if isinstance(question, ChoiceQuestion):
                assert len({str(one.what) for one in question.options}) == 4
                assert sum(one.right for one in question.options) == 1


def test_the_right_letter_is_not_always_the_same(papers: Papers) -> None:
    letters = {one.questions[3].expected("q4") for one in papers.variants}
    assert letters == {"a", "b", "c", "d"}


def test_a_code_makes_the_paper_again(papers: Papers) -> None:
    again = read_paper(EXAMPLE)
    for one in (papers.variants[0], papers.variants[16], papers.variants[29]):
        found = again.variant(f" {one.code.lower()} ")
        assert found.operands == one.operands
        assert [
            {heading: q.expected(heading) for heading in q.headings} for q in found.questions
        ] == [{heading: q.expected(heading) for heading in q.headings} for q in one.questions]


def test_more_papers_begin_with_the_same_ones(paper: Paper, papers: Papers) -> None:
    assert [one.code for one in paper.variants(5, seed=5).variants] == [
        one.code for one in papers.variants[:5]
    ]
    other = paper.variants(5, seed=6).variants
    assert {one.code for one in other}.isdisjoint(one.code for one in papers.variants)


@pytest.mark.parametrize("code", ["", "M00Q", "M00QD", "00000", "Z" * 30, "M00Q!", "é"])
def test_a_code_that_is_none_is_told(paper: Paper, code: str) -> None:
    with pytest.raises(EdgewiseError) as told:
        paper.variant(code)
    assert str(told.value) == (
        f"{code[:40] or 'nothing'} is no code of this paper: a letter is wrong, or the paper's"
        " circuit, operands or questions have changed since it was printed"
    )


def test_nearly_every_letter_read_wrongly_is_noticed() -> None:
    code = PaperCode(5, 0, 16).text("a paper")
    passed = 0
    for at, letter in ((at, letter) for at in range(len(code)) for letter in ALPHABET):
        wrong = code[:at] + letter + code[at + 1 :]
        try:
            passed += wrong != code and paper_code.read(wrong, "a paper") is not None
        except EdgewiseError:
            continue
    assert passed <= 1


def test_letters_that_look_alike_are_read_alike() -> None:
    for number in range(40):
        text = PaperCode(123, 1, number).text("p")
        looked = text.replace("0", "o").replace("1", "l")
        assert paper_code.read(f"{looked[:2]}-{looked[2:]}", "p") == PaperCode(123, 1, number)


def test_wording_and_marks_may_change_after_printing(tmp_path: Path) -> None:
    before = written(tmp_path, FRONT + QUESTION)
    code = before.variants(1, 3).variants[0].code
    reworded = QUESTION.replace("about", "text: What is in S?\nmarks: 5\nhint: Add.\nabout")
    assert written(tmp_path, f"{FRONT}Read well.\n\n{reworded}").variant(code).marks == 5
    other = written(tmp_path, FRONT + QUESTION.replace("carry-dropped", "or-for-sum"))
    with pytest.raises(EdgewiseError, match="is no code of this paper"):
        other.variant(code)


def test_too_many_variants_are_refused(tmp_path: Path) -> None:
    small = written(tmp_path, FRONT.replace("n: 4", "n: 3").replace("b: 7", "b: 5") + QUESTION)
    with pytest.raises(EdgewiseError) as told:
        small.variants(40)
    exist = small.exist("carries")
    assert str(told.value) == (
        f"{tmp_path / 'paper.md'}: there are only {exist} equally hard variants of this paper, 40"
        " are asked for; take wider operands, or fewer questions about one run"
    )
    with pytest.raises(EdgewiseError) as told:
        small.variants(0)
    assert str(told.value) == "0 variants; expected 1..1000"
    with pytest.raises(EdgewiseError) as told:
        small.variants(1, -1)
    assert str(told.value) == "seed -1; expected 0..999999999"


def test_a_file_without_questions_is_refused(tmp_path: Path) -> None:
    with pytest.raises(EdgewiseError) as told:
        written(tmp_path, FRONT + "Nothing is asked.\n")
    assert str(told.value) == (
        f"{tmp_path / 'paper.md'}: there is no question in it; a block begins with ```question and"
        " ask: next-rows"
    )


def test_values_in_the_text_follow_the_operands(papers: Papers) -> None:
    for one in papers.variants[:3]:
        assert [int(str(value)) for value in one.report.values.values()] == [*one.operands.values()]


def test_a_statement_stays_the_only_false_one(tmp_path: Path) -> None:
    block = (
        "```question\nask: false-statement\nstatements: [value(S after 8) == a + b - 8,"
        " value(A after 4) == a, value(B after 4) == b, value(S after 8) == a + b]\n"
        "about: [carry-dropped]\n```\n"
    )
    front = FRONT.replace("n: 4", "n: 6").replace("a: 3, b: 7", "a: 19, b: 29")
    block = block.replace("after 8", "after 12").replace("after 4", "after 6")
    papers = written(tmp_path, front + block).variants(8)
    for one in papers.variants:
        question = one.questions[0]
        assert isinstance(question, ChoiceQuestion)
        false = dict(question.lettered)[question.expected("q1")].what
        assert false == "value(S after 12) == a + b - 8"
        assert one.operands["a"] + one.operands["b"] < 64
    assert papers.equality.refused >= 0


def test_sentences_say_what_was_computed(paper: Paper, papers: Papers) -> None:
    first, last = papers.variants[0].code, papers.variants[-1].code
    said = papers.sentences()
    assert said[0] == f"30 papers of 6 questions, 17 marks each, seed 5: {first} to {last}."
    (exist,) = [s for s in said if s.startswith("There are")]
    number = int(re.sub(r"\D", "", exist))
    assert number == papers.equality.exist
    assert number == min(len(one.pools["alike"].numbers) for one in paper.subjects)


def test_one_file_has_every_answer(papers: Papers) -> None:
    heading, *rows = csv.reader(io.StringIO(answer_file.answers(papers)))
    assert heading == ["code", *papers.variants[0].headings]
    for row, one in zip(rows, papers.variants, strict=True):
        assert row[0] == one.code
        given = dict(zip(heading[1:], row[1:], strict=True))
        assert all(
            question.right({h: given[h] for h in question.headings}) for question in one.questions
        )


@pytest.mark.parametrize(
    ("shown", "where"),
    [
        (
            "```question\nask: choice\nof: S\n"
            "about: [carry-dropped, or-for-sum, carry-of-two]\n```",
            "the options of q2",
        ),
        (
            "```question\nask: cells\nrows: 7..8\ncolumns: [C, S]\nblank: C after 8\n"
            "about: [carry-stays-set]\n```",
            "q2",
        ),
        ("The sum is `? value(S after 8)`.", "the text"),
        ("```edge-table\nrows: 8\ncolumns: [S]\n```", "a table"),
        ("```diagram\nafter: 8\n```", "a diagram"),
        ("```timing\nrows: 6..8\ncolumns: [S]\n```", "a figure"),
        ("```stage\n```", "a stage"),
    ],
)
def test_an_answer_that_can_be_copied_is_refused(tmp_path: Path, shown: str, where: str) -> None:
    with pytest.raises(EdgewiseError) as told:
        written(tmp_path, f"{FRONT}{QUESTION}\n{shown}\n")
    assert str(told.value) == (
        f"{tmp_path / 'paper.md'}:7:1: q1: S after 8 stands in {where}, so the answer can be"
        " copied; ask for something else, or show less"
    )


def test_what_tells_nothing_of_an_answer_may_stand_there(tmp_path: Path) -> None:
    other = "```question\nask: choice\nof: S\noperands: {a: 6, b: 11}\n```\n"
    table = "```edge-table\nrows: 0..7\ncolumns: [A, S]\n```\n"
    assert written(tmp_path, f"{FRONT}{QUESTION}{other}{table}`? S after 7`\n").asked
