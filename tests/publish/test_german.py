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

from edgewise import lesson
from edgewise.publish.handout import build
from edgewise.publish.html import render
from edgewise.words import messages

SECTIONS: Final = ("handout",)
"""Beginnings of the names of messages that are held to be German."""
_SHORT: Final = 12
"""Messages with fewer letters of their own are found only where they stand alone."""
_LESSON: Final = """\
---
title: Pegelstände
design: serial-accumulator
with: {n: 4, x: 2}
operands: {w: [6, 7]}
lang: de
---
Der Pegel stieg um `= w(1)` und dann um `= A after end`.
```run-table
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
fault: C stuck at 1
rows: 0..8
columns: [C, A]
solution: true
```
"""


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
    texts = re.findall(r'"((?:[^"\\]|\\.)*)"', made)
    return {re.sub(r"\\(.)", r"\1", text) for text in texts}


@lru_cache
def texts(text: str, section: str) -> set[str]:
    """What is said to learners; the handout's own words stand in handouts alone."""
    report = checked(text)
    return of_handout(report) | (set() if section == "handout" else of_page(report))


@lru_cache
def checked(text: str) -> lesson.Report:
    return lesson.check_text(text, "pegel.md", Path())


@pytest.mark.usefixtures("no_stage")
@pytest.mark.parametrize("section", SECTIONS)
def test_a_german_lesson_has_no_english_words(section: str) -> None:
    assert english(texts(_LESSON, section), section) == []


@pytest.mark.usefixtures("no_stage")
@pytest.mark.parametrize("section", SECTIONS)
def test_the_same_in_english_has_them(section: str) -> None:
    """The test above can fail."""
    assert english(texts(_LESSON.replace("lang: de\n", "lang: en\n"), section), section)
