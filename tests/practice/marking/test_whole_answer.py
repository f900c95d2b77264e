"""Answers that are right as a whole: how each kind is read, and when it is right."""

from __future__ import annotations

import pytest

from edgewise.practice.marking.reading import LONGEST, Way
from edgewise.practice.marking.whole_answer import WholeAnswer, answered
from tests.practice.marking.classes import Plain

WRONG = (("carry-dropped", "0100"), ("or-for-sum", "1111"))
WORD = Plain("q2", "word", {"q2": "1100"}, WRONG)
NUMBER = Plain("q3", "number", {"q3": "12"})
LETTER = Plain("q4", "letter", {"q4": "b"}, (("carry-dropped", "c"),))
OPERANDS = Plain("q5", "operand", {"q5: a": "7", "q5: b": "5"})
FORMULA = Plain("q6", "formula", {"q6": "2*n"})


@pytest.mark.parametrize(
    ("question", "texts", "read"),
    [
        (WORD, ["1100"], "1100"),
        (WORD, ["12"], "1100"),
        (WORD, ["0xC"], "1100"),
        (NUMBER, ["12"], "12"),
        (NUMBER, [" 1 2 "], "12"),
        (NUMBER, ["0b1100"], "12"),
        (LETTER, ["B"], "b"),
        (LETTER, ["(b)"], "b"),
        (LETTER, ["b."], "b"),
        (OPERANDS, ["7", "0b101"], "7"),
        (FORMULA, [" 2*n "], "2*n"),
        (Plain("q7", "formula", {"q7": "-n"}), ["'-n"], "-n"),
    ],
)
def test_what_is_right(question: Plain, texts: list[str], read: str) -> None:
    found = answered(question, texts)
    assert (found.right, found.read[0]) == (True, read)
    score = found.score(question)
    assert (score.right, score.blank, score.unread) == (1, 0, 0)
    assert score.method == score.answers == question.marks


@pytest.mark.parametrize(
    ("question", "texts"),
    [
        (WORD, ["twelve"]),
        (WORD, ["10000"]),
        (NUMBER, ["twelve"]),
        (NUMBER, ["1" * (LONGEST + 1)]),
        (OPERANDS, ["7", ""]),
        (OPERANDS, ["7", "x"]),
        (FORMULA, ["nonsense"]),
    ],
)
def test_what_cannot_be_read(question: Plain, texts: list[str]) -> None:
    found = answered(question, texts)
    assert (found.right, found.readable, found.blank) == (False, False, False)
    assert found.doubts or texts[-1] == ""
    assert found.score(question).unread == 1


def test_what_is_blank() -> None:
    found = answered(OPERANDS, ["", " "])
    assert (found.right, found.readable, found.blank, found.doubts) == (False, False, True, ())
    assert found.score(OPERANDS).blank == 1


def test_an_answer_that_an_idea_gives_is_told() -> None:
    found = answered(WORD, ["4"])
    assert found == WholeAnswer(
        ("4",),
        ("0100",),
        right=False,
        blank=False,
        gives=frozenset({"carry-dropped"}),
        tells=frozenset({"carry-dropped", "or-for-sum"}),
    )
    assert answered(LETTER, ["C"]).gives == {"carry-dropped"}


def test_a_reading_in_doubt_is_told() -> None:
    found = answered(WORD, ["10"])
    ((heading, reading),) = found.doubts
    assert (heading, reading.way, str(reading.other)) == ("q2", Way.PADDED, "1010")
