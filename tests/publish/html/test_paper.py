"""A stage on paper: nothing wider than the sheet, nothing missing without a word about it.

The width of A4 is that of ISO 216:2007, 210 mm; the margins are those of the page's own style.
"""

from __future__ import annotations

import io
import re
from pathlib import Path
from typing import TYPE_CHECKING, Final

import pikepdf
import pytest

from edgewise import catalogue
from edgewise.engines import reference
from tests.publish.stages import build

if TYPE_CHECKING:
    from playwright.sync_api import Page

SHEET: Final = int((210 - 2 * 17) / 25.4 * 96)
"""Px between the margins."""
LESSON: Final = """\
---
title: On paper
design: {design}
with: {{n: {n}}}
operands: {{a: 21, b: 43{more}}}
---
Sheets of numbers.
"""


def printed(page: Page, address: str) -> None:
    """The page as it is laid out for a print on A4."""
    page.set_viewport_size({"width": SHEET, "height": 1000})
    page.goto(address)
    page.wait_for_selector(".stage .rows table")
    page.emulate_media(media="print")
    page.wait_for_selector(".stage.laid")


def lesson(folder: Path, design: str, n: int) -> str:
    more = ", carry_in: 1" if design.startswith("ripple") else ""
    return build(folder, LESSON.format(design=design, n=n, more=more))


SIZES: Final = [
    (design, n) for design in ("serial-adder", "ripple-carry-adder") for n in (6, 8, 16, 32)
]


@pytest.mark.parametrize(("design", "n"), SIZES)
def test_nothing_is_wider_than_the_sheet(page: Page, tmp_path: Path, design: str, n: int) -> None:
    printed(page, lesson(tmp_path, design, n))
    assert page.evaluate("document.documentElement.scrollWidth") <= SHEET
    beyond = page.locator(".papers table, .papers .timing").evaluate_all(
        f"all => all.filter((one) => one.getBoundingClientRect().right > {SHEET}).length"
    )
    assert beyond == 0


@pytest.mark.parametrize("n", [6, 16, 32])
def test_every_bit_of_every_row_is_there(page: Page, tmp_path: Path, n: int) -> None:
    printed(page, lesson(tmp_path, "serial-adder", n))
    told = page.locator(".papers table").evaluate_all(
        """(tables) => {
          const found = {};
          for (const table of tables) {
            const names = [...table.querySelectorAll("thead th")].map((th) => th.textContent);
            for (const line of table.querySelectorAll("tbody tr")) {
              const cells = [...line.querySelectorAll("td:has(i)")];
              cells.forEach((cell, i) => {
                const name = names.slice(2)[i];
                (found[name] ||= [])[line.dataset.row] = cell.textContent;
              });
            }
          }
          return found;
        }"""
    )
    trace = reference.run(catalogue.design("serial-adder", n=n), {"a": 21, "b": 43})
    assert told == {
        name: [str(trace.word(name, k)) for k in range(trace.edges + 1)] for name in trace.columns
    }


@pytest.mark.parametrize(("design", "n"), [*SIZES, ("carry-save-accumulator", 6)])
def test_the_pdf_is_not_shrunk(page: Page, tmp_path: Path, design: str, n: int) -> None:
    text = LESSON.format(design=design, n=n, more="")
    if design.startswith("carry-save"):
        text = text.replace("{a: 21, b: 43}", "{w: [13, 11, 14]}")
    page.goto(build(tmp_path, text) if "save" in design else lesson(tmp_path, design, n))
    page.wait_for_selector(".stage .rows table")
    with pikepdf.open(io.BytesIO(page.pdf(format="A4", prefer_css_page_size=True))) as pdf:
        drawn = pdf.pages[0].Contents.read_bytes()
    # Chromium draws on a grid of 300 a (CSS) inch: a px, 1/96 of one, is 3.125 of it.
    first, second = re.findall(rb"([\d.]+) 0 0 -?([\d.]+) [\d.]+ [\d.]+ cm", drawn)[:2]
    assert float(first[0]) == pytest.approx(72 / 300, abs=1e-3)
    assert float(second[0]) == pytest.approx(300 / 96, abs=1e-3)
    # What was laid out for it is gone.
    assert page.locator(".papers").count() == 0
    assert page.locator(".stage .rows").is_visible()


def test_a_longer_timing_diagram_is_cut_into_lines(page: Page, tmp_path: Path) -> None:
    printed(page, lesson(tmp_path, "serial-adder", 16))
    lines = page.locator(".papers .timing")
    numbers = [
        [int(text) for text in line.locator(".number").all_text_contents()] for line in lines.all()
    ]
    assert len(numbers) > 1
    assert [k for line in numbers for k in line] == list(range(1, 33))
    assert page.locator(".stage > .timing").is_visible() is False
    for line in lines.all():
        assert "carry-out" in (line.locator(".names").text_content() or "")
    ids = page.locator("[id]").evaluate_all("all => all.map((one) => one.id)")
    assert len(set(ids)) == len(ids)


def test_one_that_fills_sheets_is_left_out_and_said_so(page: Page, tmp_path: Path) -> None:
    printed(page, lesson(tmp_path, "serial-adder", 32))
    assert page.locator(".papers .timing").count() == 0
    assert page.locator(".omitted").inner_text() == (
        "The timing diagram of these 64 edges is too long for paper; the table has the same values."
    )


def test_rows_that_are_not_yet_open_stay_closed(page: Page, tmp_path: Path) -> None:
    page.goto(lesson(tmp_path, "serial-adder", 6))
    page.locator('.ruler [data-row="9"]').click()
    page.get_by_text("Predict the next rows").click()
    page.get_by_role("button", name="Begin after the row shown").click()
    page.emulate_media(media="print")
    page.wait_for_selector(".stage.laid")
    assert page.locator('.papers tr[data-row="9"] i').count() > 0
    assert page.locator('.papers tr[data-row="10"] i').count() == 0
    veil = page.locator(".papers .veil").last
    assert float(veil.get_attribute("width") or 0) > 0


def test_what_travels_and_what_is_pressed_is_not_printed(page: Page, tmp_path: Path) -> None:
    page.goto(lesson(tmp_path, "ripple-carry-adder", 8))
    page.emulate_media(media="print")
    assert not page.get_by_role("button", name="Project").is_visible()
    assert page.locator(".papers .timing, .omitted").count() == 0
    page.emulate_media(media="screen")
    page.goto(lesson(tmp_path, "serial-adder", 6))
    page.get_by_role("button", name="Next edge").click()
    page.emulate_media(media="print")
    display = "one => getComputedStyle(one).display"
    assert page.locator(".travellers").evaluate(display) == "none"
    page.emulate_media(media="screen")
    page.wait_for_selector(".stage:not(.laid)")
    assert page.locator(".travellers").evaluate(display) == "inline"
