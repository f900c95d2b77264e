"""The ``hazard`` block: its table and sentences in both languages; every error whole."""

from __future__ import annotations

from pathlib import Path

import pytest

from edgewise.errors import EdgewiseError
from edgewise.lesson.checking import check_text as check
from edgewise.lesson.composed import Composed, Grid, Listing
from edgewise.publish.html import render

LESSON = """\
---
title: Rain gauges
language: {language}
design: {design}
with: {{n: {n}}}
---

```hazard
{body}
```
"""


def lesson(
    body: str = "", design: str = "ripple-carry-adder", n: int = 1, language: str = "en"
) -> str:
    operands = "a: 1, b: 1" + (", carry_in: 1" if "ripple" in design else "")
    text = LESSON.format(design=design, n=n, body=body, language=language)
    return text.replace("---\n\n", f"operands: {{{operands}}}\n---\n\n", 1)


def composed(text: str) -> Composed:
    (piece,) = check(text, "rain.md", Path()).pieces.values()
    assert isinstance(piece, Composed)
    return piece


def test_table_and_sentences() -> None:
    piece = composed(lesson("output: carry\ncaption: Why the carry flickers"))
    assert piece == Composed(
        (
            Grid(
                ("output", "hazard", "before", "changes", "seen", "added gates"),
                (
                    (
                        "carry",
                        "static\u00a01",
                        "a=1,\u00a0b=1,\u00a0carry_in=1",
                        "a\u00a0↓",
                        "1\u00a00\u00a01",
                        "AND(b, carry_in), AND(a, carry_in)",
                    ),
                ),
                "Why the carry flickers",
            ),
            Listing(
                (
                    (
                        "1 output of 1 has a hazard while one input changes: gates and wires may"
                        " take so long that it changes more often than it has to",
                    ),
                    (
                        "with its added gates each output computes the same and has no hazard of"
                        " this kind any more: proved; an AND goes into an OR behind the output, an"
                        " OR into an AND",
                    ),
                )
            ),
        )
    )


def test_german() -> None:
    grid, said = composed(lesson(language="de")).content
    assert isinstance(grid, Grid)
    assert grid.caption == "Hazards von ripple-carry-adder"
    assert grid.heading[:3] == ("Ausgang", "Hazard", "vorher")
    assert isinstance(said, Listing)
    assert said.items[1] == ("ohne Hazard: sum",)


def test_a_circuit_without_hazards_has_no_table() -> None:
    piece = composed(lesson("output: sum(0)", n=2))
    assert [type(one) for one in piece.content] == [Listing]


def test_a_page() -> None:
    page = render.body(check(lesson("model: 74hc"), "rain.md", Path()))
    assert "<td>static\u00a01</td>" in page
    assert "Hazards of ripple-carry-adder" in page


@pytest.mark.parametrize(
    ("text", "message"),
    [
        (
            lesson(design="serial-adder"),
            "rain.md:9:1: serial-adder has flip-flops; hazards are looked for in circuits without",
        ),
        (
            lesson("output: a"),
            "rain.md:10:9: a is not an output; the outputs are sum, carry",
        ),
        (
            lesson("output: summ"),
            "rain.md:10:9: there is no summ here; did you mean sum?",
        ),
        (
            lesson("model: steam"),
            "rain.md:10:8: there is no cost model steam; there is: 74hc, 74hc-worst, cmos,"
            " gate-count, unit-gate",
        ),
        (
            lesson("outputs: sum"),
            "rain.md:10:1: hazard has no entry outputs; did you mean output?",
        ),
    ],
)
def test_what_is_refused(text: str, message: str) -> None:
    with pytest.raises(EdgewiseError) as caught:
        check(text, "rain.md", Path())
    assert str(caught.value) == message
