"""Contrast of every text with its ground, and of every mark that carries meaning.

Outside: Web Content Accessibility Guidelines (WCAG) 2.2, W3C Recommendation, 2023: relative
luminance and contrast ratio; success criterion 1.4.3 (AA: 4.5:1 for text), 1.4.11 (3:1 for
graphical objects).
"""

from __future__ import annotations

import pytest

from edgewise import catalogue, run
from edgewise.bits import Word
from edgewise.views.drawing import theme
from edgewise.views.drawing.bit_cells import cells
from edgewise.views.drawing.legend import Key
from edgewise.views.drawing.svg import Drawing
from edgewise.views.table.edge_table import edge_table
from edgewise.views.timing.timing_diagram import timing
from tests.views.measures import pairs

TEXT, GRAPHIC = 4.5, 3.0


def luminance(colour: str) -> float:
    """Relative luminance of #rrggbb, WCAG 2.2."""
    red, green, blue = (int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5))
    r, g, b = (
        c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in (red, green, blue)
    )
    return 0.2126 * r + 0.7152 * g + 0.0722 * b


def contrast(one: str, other: str) -> float:
    """Contrast ratio, WCAG 2.2: from 1 to 21."""
    darker, lighter = sorted((luminance(one), luminance(other)))
    return (lighter + 0.05) / (darker + 0.05)


def under(fill: str) -> tuple[str, ...]:
    """The colours that a fill consists of."""
    return (theme.PAPER, theme.HATCH_LINE) if fill == theme.HATCH else (fill,)


def figures() -> list[Drawing]:
    trace = run(catalogue.design("serial-adder", n=6), a=22, b=43)
    wide = run(catalogue.design("serial-adder", n=16), a=22222, b=43333)
    items = (Key().drawn(20, 20), cells(Word.parse("X0110"), 20, 60, Word.parse("11111")))
    return [
        timing(trace, legend=True),
        edge_table(trace, legend=True),
        edge_table(wide),
        Drawing(600, 200, "cells", "Cells.", items),
        Drawing(600, 200, "cells", "Cells.", items, ground=theme.PANEL),
    ]


@pytest.mark.parametrize(
    ("one", "other", "ratio"),
    [("#000000", "#ffffff", 21.0), ("#767676", "#ffffff", 4.54), ("#ffffff", "#ffffff", 1.0)],
)
def test_the_measure_gives_published_ratios(one: str, other: str, ratio: float) -> None:
    # WCAG 2.2 (range 1 to 21); #767676 is the lightest grey that passes on white (from memory).
    assert contrast(one, other) == pytest.approx(ratio, abs=0.005)


@pytest.mark.parametrize("figure", figures(), ids=lambda figure: figure.title[:20])
def test_every_text_can_be_read_on_its_ground(figure: Drawing) -> None:
    found = pairs(figure)
    assert found
    for colour, fill in found:
        for ground in under(fill):
            assert contrast(colour, ground) >= TEXT, (colour, fill)


def test_text_colours_can_be_read_on_paper_and_panel() -> None:
    for colour in (theme.INK, theme.VIOLET, theme.SLATE, theme.BRICK):
        for ground in (theme.PAPER, theme.PANEL):
            assert contrast(colour, ground) >= TEXT


def test_marks_that_carry_meaning_stand_out() -> None:
    for mark in (theme.INK, theme.VIOLET, theme.SLATE):
        for ground in (theme.PAPER, theme.PANEL):
            assert contrast(mark, ground) >= GRAPHIC
    # Amber alone is too pale; the ink outline of the band carries the contrast.
    assert contrast(theme.INK, theme.AMBER) >= GRAPHIC
