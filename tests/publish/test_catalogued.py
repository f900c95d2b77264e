"""Whatever a learner reads comes from the catalogue of words: every design, every block.

A language is made up whose every vowel has an accent. A word without one was then written down
somewhere else, and would be English in every language; of those only names and formulas are left.
"""

from __future__ import annotations

import html
import json
import re
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import fields, is_dataclass
from pathlib import Path
from typing import Final

import pytest
from fluent.syntax import FluentParser, FluentSerializer
from fluent.syntax import ast as fluent
from fluent.syntax.visitor import Transformer

from edgewise import catalogue, lesson
from edgewise.lesson import first_example
from edgewise.lesson.pieces import Stage
from edgewise.publish.handout import build
from edgewise.publish.html import render
from edgewise.publish.slides.content import deck
from edgewise.publish.slides.shape import SHAPES
from edgewise.publish.stage import custom_element
from edgewise.words import messages
from tests.publish.test_german import LESSONS

LANGUAGE: Final = "nl"
ACCENTS: Final = str.maketrans("aeiouAEIOU", "àèìòùÀÈÌÒÙ")
_WORD: Final = re.compile(r"[^\W\d_]{3,}(?![^\W\d_]|…)")
_BARE: Final = re.compile("[aeiou]", re.IGNORECASE)
_FORMULAS: Final = frozenset(
    [
        *("after", "all", "and", "depth", "div", "edges", "end", "flip", "flops", "for", "gates"),
        *("known", "mod", "not", "or", "total"),
    ]
)
"""Words of formulas, and of what they count."""
_NAMES: Final = frozenset(("cin", "cout", "xor", "XOR", "unit", "gate", "tau"))
"""Ports as a legend explains them, a kind of gate, a cost model, its unit."""
_EVERY: Final = """\
```diagram
legend: shown
```
```edge-table
```
```coverage
```
"""
_CLOCKED: Final = """\
```timing
legend: shown
```
```steps
- 1
```
"""
_OPENED: Final = """\
---
title: Pgl
design: serial-adder
with: {n: 4}
operands: choose
language: nl
---
```diagram
open: [FA]
legend: shown
```
```stage
open: [FA]
```
```coverage
show: table
```
"""
_ASKED: Final = """\
---
title: Pgl
design: serial-adder
with: {n: 4}
operands: {a: 5, b: 7}
language: nl
---
""" + "".join(
    f"```question\n{asked}\nmarks: 2\nhint: Xx\n```\n"
    for asked in (
        "ask: next-rows\nrows: 7..8\ncolumns: [A, FA.sum, C, S]",
        "ask: cells\nrows: 5..8\ncolumns: [A, C, S]\nblank: 3",
        "ask: lane\nrows: 4..8\ncolumns: [A(0), C, S]\nlane: C",
        "ask: value\nof: S\nabout: [carry-dropped]",
        "ask: choice\nof: S",
        "ask: edges",
        "ask: formula\ncount: edges\nover: {n: 2..6}",
        "ask: false-statement\n"
        "statements: [S after 8 == 12, C after 8 == 0, S after 0 == 0, edges == 7]",
        "ask: fault\nfault: C stuck at 0\nrows: 4..8\ncolumns: [A, C, S]",
        "ask: operands\nshow: carry chain 4\noperands: {a: 1, b: 15}",
    )
)  # fmt: skip


class _Accented(Transformer):
    def visit_TextElement(self, node: fluent.TextElement) -> fluent.TextElement:  # noqa: N802
        node.value = node.value.translate(ACCENTS)
        return node


@pytest.fixture
def made_up(monkeypatch: pytest.MonkeyPatch) -> None:
    """A language of its own, so that nothing remembers German figures in it: accented German."""
    text = Path(messages.__file__).with_name("de.ftl").read_text("utf-8")
    text = FluentSerializer().serialize(_Accented().visit(FluentParser().parse(text)))
    made = messages.Catalogue(LANGUAGE, messages.sources_of(text), ".")
    own = messages._catalogue
    monkeypatch.setattr(messages, "LANGUAGES", (*messages.LANGUAGES, LANGUAGE))
    monkeypatch.setattr(messages, "_catalogue", lambda one: made if one == LANGUAGE else own(one))


def words_of(texts: Iterable[str]) -> set[str]:
    """Words of three letters or more."""
    return {word for text in texts for word in _WORD.findall(text)}


def foreign(texts: Iterable[str], report: lesson.Report, text: str) -> set[str]:
    """Words that are neither the catalogue's nor the lesson's, nor names of its design."""
    design = report.trace.design
    names = (design.name, *design.netlist.names, *design.parameters, *report.trace.operands)
    known = words_of((*names, *(phase.name for phase in design.procedure), text))
    known |= _FORMULAS | _NAMES
    return {word for word in words_of(texts) - known if _BARE.search(word)}


def strings(value: object) -> Iterator[str]:
    """Every text in a value, those of its fields, items and entries included."""
    if isinstance(value, str):
        yield from spoken(value)
    elif is_dataclass(value):
        for one in fields(value):
            if one.name not in {"style", "kind"}:
                yield from strings(getattr(value, one.name))
    elif isinstance(value, Mapping):
        yield from strings(list(value.values()))
    elif isinstance(value, list | tuple):
        for one in value:
            yield from strings(one)


def spoken(markup: str) -> Iterator[str]:
    """The texts of HTML or SVG, and what is read aloud of it."""
    markup = re.sub(r"<(style|script|edgewise-[a-z]+)\b.*?</\1>", "", markup, flags=re.DOTALL)
    said = re.findall(r' (?:aria-label|alt)="([^"]*)"', markup)
    yield from map(html.unescape, (*said, *re.split("<[^>]*>", markup)))


def of_page(report: lesson.Report) -> Iterator[str]:
    """What a page says, but for its stage."""
    yield from spoken("".join(part.html for part in render.made(report).parts))
    yield from spoken(render.facts(report))


def of_handout(report: lesson.Report) -> Iterator[str]:
    """What a handout says, and its answers, figures included."""
    for blanks in (True, False):
        made = build.typst_of(report, blanks=blanks)
        for source in (made.source, made.answers):
            for text in re.findall(r'"((?:[^"\\]|\\.)*)"', source or ""):
                yield "" if text.endswith(".svg") else text.replace(r"\u{a}", "\n")


def of_slides(report: lesson.Report) -> Iterator[str]:
    """What slides say, and their notes."""
    yield from strings(deck(report, SHAPES["16:9"]).slides)


def checked(text: str, language: str = LANGUAGE) -> lesson.Report:
    text = re.sub("language: [a-z]+", f"language: {language}", text)
    return lesson.check_text(text, "pgl.md", Path())


def example(name: str) -> str:
    """A lesson about a design of the catalogue, with every block that shows it."""
    design = catalogue.design(name)
    values = first_example.values(design)
    members = {member for family in design.families.values() for member in family}
    given = {one: number for one, number in values.items() if one not in members}
    lists = {family: [values[one] for one in ms] for family, ms in design.families.items()}
    front = f"---\ntitle: Pgl\ndesign: {name}\n"
    front += f"operands: {json.dumps(given | lists)}\n" if values else ""
    blocks = _EVERY + (_CLOCKED if design.edges else "")
    return f"{front}language: nl\n---\n{blocks}"


@pytest.mark.usefixtures("made_up", "no_stage")
@pytest.mark.parametrize("name", catalogue.ORDER)
def test_a_page_about_each_design_says_nothing_of_its_own(name: str) -> None:
    report = checked(text := example(name))
    assert foreign(of_page(report), report, text) == set()


@pytest.mark.usefixtures("made_up", "no_stage")
@pytest.mark.parametrize("what", [of_page, of_handout, of_slides])
@pytest.mark.parametrize("text", [*LESSONS, _OPENED, _ASKED])
def test_neither_page_nor_handout_nor_slides_say_anything_of_their_own(
    what: Callable[[lesson.Report], Iterator[str]], text: str
) -> None:
    report = checked(text)
    assert foreign(what(report), report, text) == set()


@pytest.mark.usefixtures("no_stage")
@pytest.mark.parametrize("what", [of_page, of_handout, of_slides])
def test_the_same_in_english_does(what: Callable[[lesson.Report], Iterator[str]]) -> None:
    """The tests above can fail."""
    report = checked(_ASKED, "en")
    assert foreign(what(report), report, _ASKED)


@pytest.mark.usefixtures("made_up")
@pytest.mark.parametrize("name", ["carry-skip-adder", "serial-accumulator"])
def test_a_stage_is_packed_with_nothing_of_its_own(name: str) -> None:
    report = checked(text := example(name))
    made = custom_element.data(report.trace, report.blueprint, (), Stage(), words=report.words)
    assert made is not None
    del made["words"]
    sentences = [text for text in strings(made) if " " in text.strip()]
    assert foreign(sentences, report, text) == set()
