"""One look: style sheets, the page's script and the handout have that of `views/drawing/theme`."""

from __future__ import annotations

import re
from io import BytesIO
from pathlib import Path
from typing import TYPE_CHECKING, Final

import pytest
from PIL import Image

from edgewise.publish import look
from edgewise.publish.handout import pdf, run_tables
from edgewise.publish.html import page as pages
from edgewise.publish.stage import custom_element
from edgewise.views.drawing import theme
from edgewise.views.drawing.shapes import number
from edgewise.views.timing import timing_diagram, waveforms

if TYPE_CHECKING:
    from playwright.sync_api import Page

PUBLISH: Final = Path(look.__file__).parent
SHEETS: Final = sorted([*PUBLISH.rglob("*.css"), *PUBLISH.rglob("*.typ")])
COLOUR: Final = re.compile(
    r"#(?:[0-9a-fA-F]{3,4}){1,2}\b|\b(?:rgb|hsl|luma|cmyk)a?\(|\b(?:white|black)\b"
)
OWN: Final = re.compile(r"--([a-z-]+):")
USED: Final = re.compile(r"var\(--([a-z-]+)")


@pytest.mark.parametrize("sheet", SHEETS, ids=lambda sheet: sheet.name)
def test_no_sheet_has_a_colour_or_a_typeface_of_its_own(sheet: Path) -> None:
    text = sheet.read_text("utf-8").replace("white-space", "")
    assert not COLOUR.findall(text)
    assert not re.findall("Source Sans|IBM Plex|Edgewise (?:Sans|Mono)", text)


def test_a_colour_would_be_found() -> None:
    assert COLOUR.findall("a { color: #1b2430; background: white; stroke: rgb(1, 2, 3) }") == [
        "#1b2430",
        "white",
        "rgb(",
    ]


@pytest.mark.parametrize("sheet", SHEETS, ids=lambda sheet: sheet.name)
def test_each_name_in_a_sheet_means_something(sheet: Path) -> None:
    text = sheet.read_text("utf-8")
    there = {*OWN.findall(look.css(":root")), *OWN.findall(text), "wide"}  # the page's own
    assert set(USED.findall(text)) <= there


def test_every_name_of_the_look_is_used() -> None:
    text = "".join(sheet.read_text("utf-8") for sheet in SHEETS) + look.css(":root")
    made = {*OWN.findall(look.css(":root")), *re.findall(r"#let ([a-z-]+)", look.typst())}
    unused = {name for name in made if not re.search(rf"(?<!#let )(?<!--){name}\b(?!:)", text)}
    unused -= set(USED.findall(text))
    assert not unused


def constants(name: str) -> dict[str, float]:
    """The numbers that a module of the page's script is built on, by name."""
    text = (PUBLISH / "stage" / "web" / name).read_text("utf-8")
    lines = re.findall(r"^const (.*);$", text, re.MULTILINE)
    pairs = [pair for line in lines for pair in re.findall(r"([A-Z_]+) = ([\d.]+)(?:,|$)", line)]
    return {key: float(value) for key, value in pairs}


def test_the_script_folds_and_places_as_a_figure_does() -> None:
    found = constants("figure.js")
    assert {name: found[name] for name in ("FOLD", "FOLD_LOW", "MIDDLE", "SMALL")} == {
        "FOLD": theme.FOLD,
        "FOLD_LOW": theme.FOLD_LOW,
        "MIDDLE": theme.MIDDLE,
        "SMALL": theme.SIZE_SMALL,
    }


def test_the_script_draws_signals_as_a_figure_does() -> None:
    found = constants("timing.js")
    wanted = {
        "HIGH": waveforms.HEIGHT,
        "SLOPE": waveforms.SLOPE,
        "LINE": timing_diagram._ROW,
        "LEAST": timing_diagram._PITCH,
        "BITS": timing_diagram._BITS,
        "BETWEEN": timing_diagram._LINE_GAP,
    }
    assert {name: found[name] for name in wanted} == wanted


def test_a_handout_breaks_words_where_its_tables_reckon() -> None:
    text = (PUBLISH / "handout" / "handout.typ").read_text("utf-8")
    assert set(re.findall(r"\.chunks\((\d+)\)", text)) == {str(run_tables._LONGEST)}


def test_a_handout_prints_the_ink_of_the_figures() -> None:
    (made,) = pdf.pictures('#setup(title: "Tide", word("1", "0", 60pt, h: 60pt))', {})
    seen = Image.open(BytesIO(made)).convert("RGB").getcolors(1 << 20) or ()
    assert tuple(bytes.fromhex(theme.INK[1:])) in {colour for _, colour in seen}


@pytest.mark.browser
def test_a_page_shows_the_look(page: Page) -> None:
    """Colours and weights as the browser computes them (CSS Custom Properties, level 1)."""
    style = pages.style() + custom_element.style()
    page.set_content(
        f"<style>{style}</style><edgewise-stage><div class=stage><svg><g class='net one'>"
        "<path d='M0 0H9'/></g><g class='net bus'><path d='M0 0H9'/></g><g class='net unknown'>"
        "<path d='M0 0H9'/></g><g class='net carry'><path d='M0 0H9'/></g></svg>"
        "<table class=edge-table><td><i class=unknown>X</i></table></div></edgewise-stage>"
    )
    told = page.evaluate(
        "[...document.querySelectorAll('path')].map((one) => { const s = getComputedStyle(one);"
        " return [s.stroke, s.strokeWidth, s.strokeDasharray]; })"
    )

    def rgb(colour: str) -> str:
        return f"rgb({', '.join(map(str, bytes.fromhex(colour[1:])))})"

    dashes = ", ".join(f"{length:g}px" for length in theme.DASH)
    ink = rgb(theme.INK)
    assert told == [
        [ink, f"{theme.THICK:g}px", "none"],
        [ink, f"{number(theme.BUS)}px", "none"],
        [ink, f"{theme.THIN:g}px", dashes],
        [rgb(theme.VIOLET), f"{theme.THIN:g}px", "none"],
    ]
    hatch = page.locator("i.unknown").evaluate("(one) => getComputedStyle(one).backgroundImage")
    assert rgb(theme.HATCH_LINE) in hatch
