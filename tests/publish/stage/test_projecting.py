"""Projecting a stage, by keys, by mouse and by touch, in pages that stand alone."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any, Final

import pytest
from playwright.sync_api import expect

from tests.publish.stages import build, row

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page

ADDER: Final = """\
---
title: Two ferry decks
design: serial-adder
with: {n: 32}
operands: {a: 3000000001, b: 123456789}
---
Many seats.
"""
AT_ONCE: Final = """\
---
title: Two ferry decks
design: ripple-carry-adder
with: {n: 8}
operands: {a: 97, b: 40, carry_in: 0}
---
All at once.
"""


def project(page: Page) -> None:
    page.get_by_role("button", name="Project").click()
    page.wait_for_selector(".stage.projected")


def helps(page: Page) -> bool:
    """Whether the bar with keys and buttons can be seen, once it has stopped fading."""
    page.wait_for_timeout(700)
    return float(page.locator(".bar").evaluate("bar => getComputedStyle(bar).opacity")) == 1


@pytest.mark.parametrize("refused", [True, False])
def test_a_finger_moves_and_ends_it(browser: Browser, built: str, *, refused: bool) -> None:
    context = browser.new_context(
        viewport={"width": 390, "height": 844}, has_touch=True, is_mobile=True
    )
    page = context.new_page()
    if refused:
        page.add_init_script("Element.prototype.requestFullscreen = async () => { throw 0; };")
    page.goto(built)
    page.get_by_role("button", name="Project").tap()
    page.keyboard.press("ArrowRight")  # a keyboard beside does not take the buttons away
    assert helps(page)
    for name in ("Back", "Next edge", "Show signals", "Black", "End"):
        box = page.locator(".bar").get_by_role("button", name=name).bounding_box()
        assert box, name
        assert box["height"] >= 44, name
        assert box["x"] >= 0, name
        assert box["x"] + box["width"] <= 390, name
        assert box["y"] + box["height"] <= 844, name
    bar = page.locator(".bar")
    bar.get_by_role("button", name="Next edge").tap()
    bar.get_by_role("button", name="Next edge").tap()
    bar.get_by_role("button", name="Back").tap()
    assert row(page) == 2
    bar.get_by_role("button", name="Show signals").tap()
    assert page.locator(".projected .timing").is_visible()
    bar.get_by_role("button", name="Black").tap()
    assert page.locator(".projected.dark").count() == 1
    bar.get_by_role("button", name="End").tap()
    page.wait_for_selector(".stage:not(.projected)")
    assert page.locator(".bar").count() == 0
    context.close()


def test_the_focus_stays_within_and_returns(opened: Page) -> None:
    project(opened)
    inside = "document.activeElement.closest('.projected') !== null"
    assert opened.evaluate(inside)
    opened.keyboard.press("ArrowRight")
    assert opened.evaluate(inside)
    seen = []
    for _ in range(7):
        opened.keyboard.press("Tab")
        assert opened.evaluate(inside)
        seen.append(opened.evaluate("document.activeElement.textContent.trim()"))
    assert {"Back", "Next edge", "Signals", "Black", "End"} <= set(seen)
    assert "Notes" not in seen
    opened.locator(".bar").get_by_role("button", name="Next edge").focus()
    opened.keyboard.press("Enter")
    assert row(opened) == 2
    opened.keyboard.press("Escape")
    assert opened.evaluate("document.activeElement.textContent") == "Project"
    role = opened.locator(".stage").get_attribute("role")
    assert (role, opened.locator(".stage").get_attribute("tabindex")) == (None, None)


def test_the_help_rests_and_comes_back(opened: Page) -> None:
    project(opened)
    assert helps(opened)
    opened.keyboard.press("ArrowRight")
    assert not helps(opened)
    opened.keyboard.press("?")
    assert helps(opened)
    opened.keyboard.press("?")
    assert not helps(opened)
    opened.mouse.move(200, 200)
    opened.mouse.move(220, 200)
    assert helps(opened)


def test_notes_are_only_where_they_are_provided(opened: Page) -> None:
    project(opened)
    assert opened.locator(".help").inner_text() == (
        "← → rows · V diagram, signals, table · B black or white · ? these keys · Esc ends"
    )
    assert not opened.locator(".bar button", has_text="Notes").is_visible()
    opened.keyboard.press("n")
    opened.wait_for_timeout(200)
    assert len(opened.context.pages) == 1
    opened.keyboard.press("Escape")
    opened.evaluate("document.querySelector('edgewise-stage').notes = []")
    project(opened)
    assert "N notes" in opened.locator(".help").inner_text()
    assert opened.locator(".bar button", has_text="Notes").is_visible()


@pytest.mark.parametrize("width", [390, 1280])
@pytest.mark.parametrize("n", [6, 32])
def test_the_whole_table_can_be_seen(
    browser: Browser, built: str, tmp_path: Path, n: int, width: int
) -> None:
    context = browser.new_context(viewport={"width": width, "height": 800})
    page = context.new_page()
    page.goto(built if n == 6 else build(tmp_path, ADDER))
    project(page)
    page.keyboard.press("v")
    page.keyboard.press("v")
    rows = page.locator(".stage .rows")
    assert rows.evaluate("rows => rows.scrollWidth <= rows.clientWidth")
    assert page.locator(".rows thead th").last.inner_text() == "S"
    page.keyboard.press("End")
    page.wait_for_timeout(100)
    last = page.locator(".rows tr.now td").last
    expect(last).to_be_in_viewport(ratio=0.95)
    if n == 32:
        assert last.inner_text() == f"= {3000000001 + 123456789}"
    page.keyboard.press("Escape")
    assert page.locator(".rows tr.now td").last.locator("i").count() == n
    assert rows.evaluate("rows => rows.style.fontSize") == ""
    context.close()


def test_a_click_finds_its_row_in_the_larger_diagram(opened: Page) -> None:
    project(opened)
    opened.keyboard.press("v")
    svg = opened.locator(".projected .timing .box svg")
    box, number = svg.bounding_box(), svg.locator(".number").nth(6).bounding_box()
    assert box
    assert number
    opened.mouse.click(number["x"] + number["width"] / 2 + 12, box["y"] + box["height"] / 2)
    assert row(opened) == 7


def test_a_design_without_edges_has_no_signals_and_no_start(tmp_path: Path, page: Page) -> None:
    page.goto(build(tmp_path, AT_ONCE))
    project(page)
    assert page.locator(".when").inner_text() == "Ripple-carry adder"
    assert page.locator(".help").inner_text() == (
        "V diagram, table · B black or white · ? these keys · Esc ends"
    )
    assert page.locator(".picture").is_visible()
    page.keyboard.press("v")
    assert page.locator(".projected .rows").is_visible()
    page.keyboard.press("v")
    assert page.locator(".picture").is_visible()
    visible = page.locator(".bar button").filter(visible=True)
    assert visible.all_inner_texts() == ["Table", "Black", "End"]


def luminance(red: int, green: int, blue: int) -> float:
    """Relative luminance of an sRGB colour. Source: WCAG 2.2, W3C Recommendation, glossary."""
    parts = [c / 255 for c in (red, green, blue)]
    linear = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in parts]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def test_what_changed_is_plain_on_black(opened: Page) -> None:
    # WCAG 2.2, 1.4.11: graphics need a contrast of 3:1; a projector in a bright room needs more.
    project(opened)
    opened.keyboard.press("ArrowRight")
    opened.keyboard.press("b")
    opened.wait_for_timeout(600)
    band = opened.locator(".projected .cell.changed .band").first.bounding_box()
    assert band
    middle: Any = {
        "x": round(band["x"] + band["width"] / 2), "y": round(band["y"] + band["height"] / 2),
        "width": 1, "height": 1,
    }  # fmt: skip
    shot = opened.screenshot(clip=middle)
    colour = opened.context.new_page().evaluate(
        """async (bytes) => {
          const image = await createImageBitmap(new Blob([new Uint8Array(bytes)]));
          const context = new OffscreenCanvas(1, 1).getContext("2d");
          context.drawImage(image, 0, 0);
          return [...context.getImageData(0, 0, 1, 1).data].slice(0, 3);
        }""",
        list(shot),
    )
    assert (luminance(*colour) + 0.05) / 0.05 >= 6
