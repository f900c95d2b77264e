"""A German lesson has no English words of ours, neither as a page nor as a handout."""

from __future__ import annotations

import html
import re
from functools import lru_cache
from pathlib import Path
from typing import Final

import pytest
from fluent.syntax import FluentParser
from fluent.syntax import ast as fluent

from edgewise import catalogue as catalogued
from edgewise import lesson, run
from edgewise.lesson.pieces import Stage
from edgewise.publish.handout import build
from edgewise.publish.html import render
from edgewise.publish.stage import custom_element
from edgewise.words import messages

SECTIONS: Final = (
    *("caption", "choice", "claim", "compare", "coverage", "design", "fault", "figure", "finding"),
    *("handout", "key", "law", "path", "table"),
)
"""Beginnings of the names of messages that are held to be German."""
_SHORT: Final = 12
"""Messages with fewer letters of their own are found where they stand alone, if at all."""
_STORED: Final = """\
---
title: Pegelstände
design: serial-accumulator
with: {n: 4, x: 2}
operands: {w: [6, 7]}
language: de
---
Der Pegel stieg um `? w(1)` und dann um `? A after end`.
```coverage
```
```edge-table
rows: 0..8
```
```diagram
after: 4
```
```fault
fault: C stuck at 0
rows: 0..8
columns: [C, A]
```
```fault
fault: one edge more in add(2)
columns: [C, A]
```
```fault
fault: A starts unknown
columns: [B]
```
```fault
fault: C stuck at 1
rows: 0..8
columns: [C, A]
solution: true
```
```claim
A after end == (w(1) + w(2)) mod 16
edges == n*(x + 1) for n in 2..4
A after end == (w(1) + w(2)) mod 2**n for all w
not known(A after 0) or A after 0 == 0
```
```law
count: edges
over: {n: 2..6, x: 2..4}
```
```prove
design: serial-accumulator-cleared
with: {n: 3, x: 2}
```
```prove
design: serial-accumulator
with: {n: 3, x: 3}
expect: false
```
"""
_WIRED: Final = """\
---
title: Zwei Regenmesser
design: carry-lookahead-adder
with: {n: 4}
operands: {a: 5, b: 6, carry_in: 0}
language: de
---
```coverage
```
```law
count: depth
over: {n: 1..12}
```
```law
count: gates
over: {n: 1..4}
claim: (n*(n + 9)) div 2
```
"""
_CHOSEN: Final = """\
---
title: Zwei Zähler
design: serial-adder
with: {n: 4}
operands: choose
language: de
---
```compare
designs: [ripple-carry-adder, carry-lookahead-adder]
over: {n: 4..6}
chart: area-delay
```
```compare
designs: [ripple-carry-adder, carry-lookahead-adder]
over: {n: 4..6}
chart: time
need: n = 5, time <= 40
path: ripple-carry-adder at n=4
```
```compare
designs: [serial-adder, ripple-carry-adder]
over: {n: 3..5}
model: cmos
```
```timing
rows: 0..4
```
```filmstrip
rows: 2..3
```
"""
LESSONS: Final = (_STORED, _WIRED, _CHOSEN)


def parts(pattern: fluent.Pattern) -> tuple[str, int]:
    """A regular expression of what a message says, and the letters that are always in it."""
    told, letters = "", 0
    for element in pattern.elements:
        if isinstance(element, fluent.TextElement):
            told += re.escape(element.value)
            letters += len(element.value.strip())
            continue
        what = element.expression
        if isinstance(what, fluent.SelectExpression):
            told += f"(?:{'|'.join(parts(variant.value)[0] for variant in what.variants)})"
            letters += min(parts(variant.value)[1] for variant in what.variants)
        elif isinstance(what, fluent.StringLiteral):
            told += re.escape(what.value)
        else:
            told += ".+?"
    return told, letters


@lru_cache
def catalogue(language: str) -> dict[str, fluent.Pattern]:
    text = Path(messages.__file__).with_name(f"{language}.ftl").read_text("utf-8")
    body = FluentParser().parse(text).body
    return {m.id.name: m.value for m in body if isinstance(m, fluent.Message) and m.value}


def english(texts: set[str], prefix: str) -> list[tuple[str, str]]:
    """What is said in English of the messages whose names begin so."""
    found = []
    for name, pattern in catalogue("en").items():
        told, letters = parts(pattern)
        if not name.startswith(f"{prefix}-") or told == parts(catalogue("de")[name])[0]:
            continue
        if letters < _SHORT and ".+?" in told:
            continue
        reads = re.compile(told)
        search = reads.search if letters >= _SHORT else reads.fullmatch
        found += [(name, text) for text in texts if search(text)]
    return found


def of_page(report: lesson.Report) -> set[str]:
    """The texts of a page and what is read aloud of it; what a stage says is another matter."""
    made = "".join(part.html for part in render.made(report).parts) + render.facts(report)
    made = re.sub(r"<(svg|script|edgewise-[a-z]+)\b.*?</\1>", "", made, flags=re.DOTALL)
    labels = re.findall(r'aria-label="([^"]*)"', made)
    texts = re.split(r"<[^>]*>", made)
    return {html.unescape(text).strip() for text in (*labels, *texts)} - {""}


def of_handout(report: lesson.Report) -> set[str]:
    """The texts of a handout with blanks, one without, and the answers."""
    blank, full = (build.typst_of(report, blanks=blanks) for blanks in (True, False))
    made = blank.source + blank.answers + full.source
    made = re.sub(r'(#drawing\("[^"]*", )"[^"]*"', r"\1", made)  # told by the figures themselves
    texts = re.findall(r'"((?:[^"\\]|\\.)*)"', made)
    return {re.sub(r"\\(.)", r"\1", text) for text in texts}


@lru_cache
def texts(language: str, section: str) -> set[str]:
    """What is said to learners; the handout's own words stand in handouts alone."""
    found: set[str] = set()
    for report in checked(language):
        found |= of_handout(report) | (set() if section == "handout" else of_page(report))
    return found


@lru_cache
def checked(language: str) -> tuple[lesson.Report, ...]:
    return tuple(
        lesson.check_text(text.replace("language: de", f"language: {language}"), "pegel.md", Path())
        for text in LESSONS
    )


@pytest.mark.usefixtures("no_stage")
@pytest.mark.parametrize("section", SECTIONS)
def test_a_german_lesson_has_no_english_words(section: str) -> None:
    assert english(texts("de", section), section) == []


@pytest.mark.usefixtures("no_stage")
@pytest.mark.parametrize("section", SECTIONS)
def test_the_same_in_english_has_them(section: str) -> None:
    """The test above can fail."""
    assert english(texts("en", section), section)


@lru_cache
def packed(language: str) -> set[str]:
    """Every text that a stage is packed with, but for the messages themselves."""
    trace = run(catalogued.design("serial-adder", n=3), a=5, b=3)
    made = custom_element.data(
        trace, catalogued.find("serial-adder"), (), Stage(), words=messages.of(language)
    )
    assert made is not None
    texts: set[str] = set()

    def gather(value: object) -> None:
        if isinstance(value, str):
            texts.update(text.strip() for text in re.split(r"<[^>]*>", html.unescape(value)))
        elif isinstance(value, dict):
            for one in value.values():
                gather(one)
        elif isinstance(value, list):
            for one in value:
                gather(one)

    gather({key: value for key, value in made.items() if key != "words"})
    return texts - {""}


@pytest.mark.parametrize("section", ["design", "misconception", "formula", "figure"])
def test_a_german_stage_is_packed_with_no_english_words(section: str) -> None:
    assert english(packed("de"), section) == []
    assert english(packed("en"), section)
