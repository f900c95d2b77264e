"""The bench sheet: the page in Chromium, the PDF read back, and what both must say."""

from __future__ import annotations

import io
from functools import lru_cache
from pathlib import Path
from typing import TYPE_CHECKING

import pikepdf
import pytest

from edgewise import catalogue
from edgewise.engines import reference
from edgewise.lab.wiring import check, placement
from edgewise.lab.wiring.check import Checked
from edgewise.lab.wiring.sheet import LIGHT_OHMS, RATED, Sheet, light_current
from edgewise.publish.bench import blocks, pdf
from edgewise.publish.bench import page as sheet_page
from edgewise.publish.bench.blocks import Picture, Points, Table
from edgewise.words import messages

if TYPE_CHECKING:
    from playwright.sync_api import Page

ADDER = ("serial-adder", (("n", 4),), (("a", 5), ("b", 6)))


@lru_cache(maxsize=8)
def made(
    name: str, chosen: tuple[tuple[str, int], ...] = (), operands: tuple[tuple[str, int], ...] = ()
) -> tuple[Sheet, Checked]:
    design = catalogue.design(name, **dict(chosen))
    board = placement.wired(design)
    return Sheet(board, reference.run(design, dict(operands))), check.check(board)


@pytest.mark.browser
def test_the_page_has_a_box_for_every_line(page: Page, tmp_path: Path) -> None:
    sheet, checked = made(*ADDER)
    path = tmp_path / "bench.html"
    path.write_text(html(sheet, checked), "utf-8")
    wrong: list[str] = []
    page.on("console", lambda message: wrong.append(message.text))
    page.goto(path.as_uri())
    boxes = page.locator("input[type=checkbox]")
    rows = sum(len(b.lines) for b in told(sheet, checked) if isinstance(b, Table))
    points = sum(len(b.texts) for b in told(sheet, checked) if isinstance(b, Points) and b.ticked)
    assert boxes.count() == rows + points
    boxes.nth(3).check()
    assert boxes.nth(3).is_checked()
    assert page.locator("figure svg").count() == 1
    width = page.evaluate("document.documentElement.scrollWidth - innerWidth")
    assert (wrong, width <= 0) == ([], True)


def told(sheet: Sheet, checked: Checked) -> list[blocks.Block]:
    return list(blocks.blocks(sheet, checked, messages.ENGLISH))


def html(sheet: Sheet, checked: Checked, language: str = "en") -> str:
    return sheet_page.html_of(sheet, checked, messages.of(language))


@pytest.mark.parametrize("language", ["en", "de"])
def test_the_pdf_is_tagged_and_its_figures_are_described(language: str) -> None:
    """ISO 14289-1:2014, 7.1 and 7.3: a tagged document with a title, each figure with a text."""
    content = pdf.pdf_of(*made(*ADDER), messages.of(language))
    with pikepdf.open(io.BytesIO(content)) as read:
        assert bool(read.Root.MarkInfo.Marked)
        assert str(read.Root.Lang) == language
        texts = [str(one.Alt) for one in read.objects if _is_figure(one)]
    assert len(texts) == 1
    assert texts[0].startswith("U1 (74HC194), U2 (74HC194)")


def _is_figure(one: object) -> bool:
    return isinstance(one, pikepdf.Dictionary) and one.get("/S") == "/Figure"


def test_every_wire_of_the_board_is_on_the_sheet() -> None:
    """Pin by pin, read off the tables of wires."""
    sheet, checked = made(*ADDER)
    lines = {
        (line[1].split()[0], line[2].split()[0])
        for block in told(sheet, checked)
        if isinstance(block, Table) and block.narrow
        for line in block.lines
    }
    assert {(str(wire.start), str(wire.end)) for wire in sheet.board.wires} <= lines
    for one in sheet.board.beside:
        last = {"switch": 2, "clear": 2, "button": 3, "light": 2}[one.what]
        assert (f"{one.name}-{last}", "GND") in lines


def test_a_light_stays_below_what_an_output_gives() -> None:
    """Outside: 4 mA, at which makers state the levels of a 74HC output (4.5 V; docs/bench.md)."""
    assert 1.5 < light_current() < RATED == 4.0
    assert light_current(LIGHT_OHMS // 3) > RATED


def test_a_gated_clock_brings_its_caution() -> None:
    sheet, _ = made("serial-adder-gated-clock", (("n", 4),), (("a", 5), ("b", 6)))
    gated = [one for one in sheet.cautions if one.message == "bench-caution-gated"]
    assert [dict(one.facts) for one in gated] == [{"switches": "SW1", "count": 1}]
    plain, _ = made(*ADDER)
    assert all(one.message != "bench-caution-gated" for one in plain.cautions)


def test_packages_are_drawn_with_all_their_pins() -> None:
    sheet, checked = made(*ADDER)
    (picture,) = (block for block in told(sheet, checked) if isinstance(block, Picture))
    names = [item.name for item in picture.drawing.items if hasattr(item, "name")]
    assert names == [package.name for package in sheet.board.packages]
