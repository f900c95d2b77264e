"""Figures in every language: each design has them, and none says a word of another language."""

from __future__ import annotations

import pytest
from fluent.syntax import FluentParser
from fluent.syntax import ast as fluent

from edgewise import catalogue
from edgewise.views.drawing.svg import Drawing, svg
from edgewise.views.registry import Wish, figure
from edgewise.views.table.edge_table import edge_table_html
from edgewise.words.messages import ENGLISH, LANGUAGES, Words, of
from tests.conftest import Golden
from tests.views.measures import faults, texts
from tests.views.runs import traced

GERMAN = of("de")
PREFIXES = ("figure-", "legend-", "timing-", "table-")


def fixed(words: Words) -> set[str]:
    """The messages of figures that ask for no fact, as they are said."""
    found = set()
    for prefix in PREFIXES:
        for entry in FluentParser().parse(words.source(prefix)).body:
            assert isinstance(entry, fluent.Message)
            assert entry.value is not None
            if all(isinstance(part, fluent.TextElement) for part in entry.value.elements):
                found.add(words(entry.id.name))
    return found


def drawn(name: str, kind: str, words: Words, size: int = 4) -> Drawing | None:
    trace = traced(name, size)
    if kind == "timing" and not trace.edges:
        return None
    rows = range(min(trace.edges, 2) + 1) if kind == "filmstrip" else None
    return figure(trace, kind, Wish(rows=rows, legend=True, words=words))


@pytest.mark.parametrize("kind", ["diagram", "timing", "table"])
def test_a_german_figure(golden: Golden, kind: str) -> None:
    drawing = drawn("serial-adder", kind, GERMAN)
    assert drawing is not None
    golden(f"figure-{kind}-german.svg", svg(drawing))


@pytest.mark.parametrize("language", LANGUAGES)
@pytest.mark.parametrize("name", catalogue.ORDER)
def test_every_design_is_drawn_in_every_language(name: str, language: str) -> None:
    for kind in ("timing", "table", "filmstrip"):
        drawing = drawn(name, kind, of(language))
        assert drawing is None or not faults(drawing)
    drawing = drawn(name, "diagram", of(language))
    assert drawing is not None
    assert not faults(drawing)
    own = traced(name, 4).design.circuit.name
    assert (own in drawing.title) == (language == "en" or own == of(language)(f"design-{name}"))


@pytest.mark.parametrize("kind", ["diagram", "timing", "table"])
def test_no_english_message_stands_in_a_german_figure(kind: str) -> None:
    english = fixed(ENGLISH) - fixed(GERMAN)
    assert {"clock", "start", "phase", "unknown"} <= english
    for size in (4, 16):
        drawing = drawn("serial-adder", kind, GERMAN, size)
        assert drawing is not None
        assert english.isdisjoint(text.text for text in texts(drawing))
        english_one = drawn("serial-adder", kind, ENGLISH, size)
        assert english_one is not None
        assert not english.isdisjoint(text.text for text in texts(english_one))


def test_a_german_table_of_a_page() -> None:
    table = edge_table_html(traced("serial-adder", 4), words=GERMAN)
    assert '<th scope="col">nach Flanke</th>' in table
    assert '<th scope="row">Start</th>' in table


def test_the_designs_of_the_catalogue_are_called_in_english_as_in_their_circuits() -> None:
    for name in catalogue.ORDER:
        assert ENGLISH(f"design-{name}") == catalogue.design(name).circuit.name
        assert ENGLISH(f"design-about-{name}") == catalogue.find(name).about.rstrip(".")
