"""The stage on a phone: a figure of its own, no letter under 9 px, nothing cut."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Final

import pytest

from edgewise import catalogue
from edgewise.publish.stage.figure_template import skeleton
from edgewise.views.drawing.column import column
from tests.publish.stages import build, drawn
from tests.views.runs import traced

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page

LEAST: Final = 9.0
LETTERS: Final = """() => [...document.querySelectorAll(".picture svg text")].map((text) => {
  const { a, b } = text.getScreenCTM();
  return parseFloat(getComputedStyle(text).fontSize) * Math.hypot(a, b);
})"""


def lesson(design: str, n: int, operands: str = "{a: 22, b: 43}") -> str:
    return (
        f"---\ntitle: Two tide gauges\ndesign: {design}\nwith: {{n: {n}}}\n"
        f"operands: {operands}\n---\nBoth gauges.\n"
    )


def opened(browser: Browser, address: str, width: int) -> Page:
    page = browser.new_page(viewport={"width": width, "height": 800})
    page.goto(address)
    page.wait_for_selector(".picture svg")
    return page


@pytest.mark.parametrize(("design", "n"), [("serial-adder", 6), ("brent-kung-adder", 8)])
def test_a_phone_shows_the_whole_figure(
    browser: Browser, tmp_path: Path, design: str, n: int
) -> None:
    page = opened(browser, build(tmp_path, lesson(design, n)), 390)
    picture = page.locator(".picture")
    assert min(page.evaluate(LETTERS)) >= LEAST
    box = picture.locator("svg").bounding_box()
    assert box is not None
    assert box["x"] >= 0
    assert box["x"] + box["width"] <= 390
    assert page.evaluate("document.documentElement.scrollWidth") == 390
    page.close()


def test_what_is_still_wider_is_scrolled_and_not_made_smaller(
    browser: Browser, tmp_path: Path
) -> None:
    page = opened(browser, build(tmp_path, lesson("bit-serial-multiplier", 4, "{a: 5, b: 6}")), 390)
    assert min(page.evaluate(LETTERS)) >= LEAST
    assert page.evaluate("document.documentElement.scrollWidth") == 390
    wide, room = page.locator(".picture").evaluate("(one) => [one.scrollWidth, one.clientWidth]")
    assert wide > room
    page.close()


def test_a_phone_that_is_turned_keeps_its_row(browser: Browser, tmp_path: Path) -> None:
    page = opened(browser, build(tmp_path, lesson("serial-adder", 6)), 390)
    for _ in range(8):
        page.get_by_role("button", name="Next edge").click()
    narrow = page.evaluate("document.querySelector('edgewise-stage').stage.figure.skeleton.width")
    before = drawn(page, "S")
    page.set_viewport_size({"width": 800, "height": 390})
    page.wait_for_function(
        "(was) => document.querySelector('edgewise-stage').stage.figure.skeleton.width > was",
        arg=narrow,
    )
    assert drawn(page, "S") == before
    page.close()


@pytest.mark.parametrize("name", [name for name in catalogue.ORDER if "serial" in name])
def test_every_cell_on_the_page_has_a_name(name: str) -> None:
    for room in (None, column("phone").room):
        made = skeleton(traced(name, 4), room=room)
        assert all(word for word, *_ in made.words)
