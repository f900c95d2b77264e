"""Telling: the sentences of the stage without a page, word for word those of its own script."""

from __future__ import annotations

from pathlib import Path
from typing import Any, Final

import pytest

from edgewise import catalogue, lesson, run
from edgewise.publish.stage import telling
from edgewise.words import messages
from tests.web.telling import every

RUNS: Final = (
    ("serial-adder", {"n": 4}, {"a": 6, "b": 11}),
    ("shift-add-multiplier", {"n": 3}, {"a": 6, "b": 7}),
    ("ripple-carry-adder", {"n": 4}, {"a": 6, "b": 11, "carry_in": 1}),
    ("serial-accumulator", {"n": 4, "x": 3}, {"w": (3, 9, 14)}),
)
LESSON: Final = """\
---
title: Brot und Brezeln
language: de
design: serial-adder
with: {n: 2}
operands: {a: 1, b: 1}
---
```steps
- 2
- {rows: 3, say: Jetzt entsteht ein Übertrag.}
- 4
```
"""


@pytest.mark.parametrize("language", ["en", "de"])
@pytest.mark.parametrize(("name", "parameters", "operands"), RUNS)
def test_the_same_sentences_as_on_the_page(
    name: str, parameters: dict[str, int], operands: dict[str, Any], language: str
) -> None:
    trace = run(catalogue.design(name, **parameters), **operands)
    told = telling.sentences(trace, range(trace.edges + 1), messages.of(language))
    assert tuple(told.values()) == every(trace, language)


def test_only_the_rows_asked_for() -> None:
    trace = run(catalogue.design("serial-adder", n=4), a=6, b=11)
    assert list(telling.sentences(trace, (7, 2, 7))) == [2, 7]


def test_a_lesson_says_its_own_words_or_the_computed_ones() -> None:
    report = lesson.check_text(LESSON, "brot.md", Path())
    first, own, last = telling.of(report)
    assert own.said == "Jetzt entsteht ein Übertrag."
    assert own.sentence.startswith("Flanke 3, Phase add: ")
    assert first.said == first.sentence
    assert last.heading == "Nach Flanke 4, mit den Eingängen der Phase add"
