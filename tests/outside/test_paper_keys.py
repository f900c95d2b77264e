"""The key of a paper, worked out anew with Python's integers.

Source: addition of whole numbers; the serial accumulator as in Mano and Ciletti, *Digital Design*,
sec. 6.2 (from memory). Nothing here runs a circuit: after i edges of an addition the lowest i bits
of the sum stand at the left of A, and the carry is what those bits give over.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from pathlib import Path
from typing import Final

import pytest

from edgewise.practice.paper import Papers, Variant, read_paper
from edgewise.practice.question import ChoiceQuestion, EdgesQuestion, OperandsQuestion, Question

PAPER: Final = Path(__file__).parents[2] / "examples" / "three-gauges-paper.md"
N: Final = 6
WORDS: Final = 3


@pytest.fixture(scope="module")
def papers() -> Papers:
    return read_paper(PAPER).variants(30, seed=5)


def words_of(operands: Mapping[str, int]) -> list[int]:
    return [operands[f"w({i})"] for i in range(1, WORDS + 1)]


def after(operands: Mapping[str, int], column: str, edge: int) -> int:
    """A word of the accumulator after an edge of an addition, by integer arithmetic alone."""
    words = words_of(operands)
    word, done = divmod(edge - N, N)
    if word == WORDS:  # after the last edge
        word, done = WORDS - 1, N
    before, low = sum(words[:word]) % 2**N, 2**done - 1
    total = before + words[word]
    coming = words[word + 1] if word + 1 < WORDS else 0
    carry = ((before & low) + (words[word] & low)) >> done
    bits = (before >> done & 1) + (words[word] >> done & 1) + carry
    found: dict[str, int] = {
        "A": before >> done | (total & low) << N - done,
        "B": words[word] >> done | (coming & low) << N - done,
        "C": carry,
        "FA.sum": bits & 1,
        "FA.carry-out": bits >> 1,
    }
    return found[column]


def additions(operands: Mapping[str, int]) -> list[tuple[int, int]]:
    """The pairs that are added, one after another."""
    words = words_of(operands)
    return [(sum(words[:i]) % 2**N, words[i]) for i in range(WORDS)]


def carries(operands: Mapping[str, int]) -> tuple[int, int, int, int]:
    """Places that generate, propagate and kill a carry, and the longest chain, by hand."""
    generated = propagated = killed = longest = 0
    for a, b in additions(operands):
        run = carry = 0
        for place in range(N):
            x, y = a >> place & 1, b >> place & 1
            generated += x & y
            propagated += (x ^ y) & carry
            killed += carry & (1 - (x | y))
            run = 1 if x & y and not carry else run + 1 if (x ^ y) & carry else 1 if x & y else 0
            carry = x + y + carry >> 1
            longest = max(longest, run)
    return generated, propagated, killed, longest


def cells(question: Question, operands: Mapping[str, int]) -> None:
    for heading in question.headings:
        match = re.fullmatch(r"q\d: (\S+) after (\d+)", heading)
        assert match
        width = len(question.expected(heading))
        expected = after(operands, match[1], int(match[2]))
        assert question.expected(heading) == f"{expected:0{width}b}", heading


def test_the_key_is_what_integers_give(papers: Papers) -> None:
    for paper in papers.variants:
        q1, q2, q3, q4, q5, _ = paper.questions
        cells(q1, paper.operands)
        cells(q2, paper.operands)
        total = sum(words_of(paper.operands))
        assert q3.expected("q3") == f"{total % 2**N:06b}"
        assert isinstance(q4, ChoiceQuestion)
        chosen = dict(q4.lettered)[q4.expected("q4")].what
        assert str(chosen) == f"{sum(words_of(q4.trace.operands)) % 2**N:06b}"
        assert isinstance(q5, EdgesQuestion)
        assert q5.expected("q5") == str(q5.numbers["n"] * (q5.numbers["x"] + 1))


def test_operands_that_are_marked_right_make_such_a_chain(papers: Papers) -> None:
    """For a whole range of answers: right if and only if some chain has four places or more."""
    question = papers.variants[0].questions[5]
    assert isinstance(question, OperandsQuestion)
    given = dict(question.wish.fixed)
    seen = set()
    for w in range(32):
        shown = carries({**given, "w(2)": w})[3] >= 4
        seen.add(shown)
        assert question.right({"q6: w(2)": str(w)}) == shown, w
    assert seen == {True, False}


def test_the_papers_have_as_many_carries(papers: Papers) -> None:
    found = {carries(paper.operands)[:3] for paper in papers.variants}
    assert len(found) == 1
    spread = {name: (low, high) for name, low, high in papers.equality.spread}
    own = sum_of_runs(papers.variants[0])
    for name, number in zip(("generated", "propagated", "killed"), own, strict=True):
        assert spread[name] == (number, number)


def sum_of_runs(paper: Variant) -> tuple[int, int, int]:
    """The carries of the paper's run and of those that two questions have of their own."""
    of = [paper.operands, paper.questions[3].trace.operands, paper.questions[5].trace.operands]
    runs = [carries(operands)[:3] for operands in of]
    generated, propagated, killed = (sum(counts) for counts in zip(*runs, strict=True))
    return generated, propagated, killed
