"""What questions and their solutions say, in every language and in every state."""

from __future__ import annotations

from pathlib import Path

import pytest

from edgewise import lesson
from edgewise.lesson.question import Asked
from edgewise.practice import wording
from edgewise.study.operands.requirements import FEATURES
from edgewise.words.messages import LANGUAGES, of
from tests.conftest import Golden
from tests.lesson.test_question import ASKED, FRONT

RIPPLE = (
    "---\ntitle: T\ndesign: ripple-carry-adder\nwith: {n: 4}\n"
    "operands: {a: 5, b: 11, carry_in: 1}\n---\n"
)
MORE = {
    "another run": (FRONT, "ask: value\nof: A\nabout: [carry-dropped]\noperands: {w: [3, 7, 9]}"),
    "the start": (FRONT, "ask: value\nof: b_in\nafter: 0\nabout: [msb-first]"),
    "one cell": (
        FRONT,
        "ask: cells\nrows: 14..15\ncolumns: [A, C]\nblank: C after 15\nabout: [carry-dropped]",
    ),
    "no edges, a value": (RIPPLE, "ask: value\nof: sum\nabout: [carry-dropped]"),
    "no edges, one of four": (RIPPLE, "ask: choice\nof: sum"),
    "no edges, cells": (
        RIPPLE,
        "ask: cells\ncolumns: [a, b, sum]\nblank: sum after 0\nabout: [carry-dropped]",
    ),
    "no range": (FRONT, "ask: edges"),
    "a sum that overflows": (FRONT, "ask: operands\nsum: overflows\noperands: {w: [31, 31, 30]}"),
    "gates": (FRONT, "ask: formula\ncount: gates\nover: {n: 5..9}"),
    "own words": (FRONT, "ask: value\nof: A\ntext: What is the total?\nhint: Add."),
}


def piece(front: str, block: str) -> Asked:
    report = lesson.check_text(f"{front}```question\n{block}\n```\n", "t.md", Path())
    (found,) = report.pieces.values()
    assert isinstance(found, Asked)
    return found


@pytest.mark.parametrize("language", LANGUAGES)
def test_every_kind_is_asked_and_solved(golden: Golden, language: str) -> None:
    words, told = of(language), []
    blocks = {**{kind: (FRONT, block) for kind, block in ASKED.items()}, **MORE}
    for name, (front, block) in blocks.items():
        found = piece(front, block)
        question = found.question
        told.append(f"# {name}: {wording.facts(question, words)}")
        told.append(wording.asked(question, words))
        lettered = getattr(question, "lettered", ())
        told += [f"  {letter}) {wording.option(one, words)}" for letter, one in lettered]
        told += [f"  - {line}" for line in wording.solution(found, words)]
        told.append(f"  = {wording.answer(question, words)}\n")
    golden(f"questions-{language}.txt", "\n".join(told).replace("\u00a0", " "))


def test_every_feature_that_can_be_wished_has_words() -> None:
    for language in LANGUAGES:
        for feature in FEATURES:
            assert wording.feature(feature, of(language))
