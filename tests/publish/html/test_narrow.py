"""A page on a phone: nothing smaller than 9 px, nothing cut without a hint, the answer in view.

Outside: Debian's Chromium lays it out; 9 px as the smallest is the issue's own rule.
"""

from __future__ import annotations

import re
from pathlib import Path
from typing import TYPE_CHECKING, Final

import pytest

from edgewise.publish.html import page as pages

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page

LESSON: Final = """\
---
title: Two rain gauges
design: serial-adder
with: {n: 8}
operands: {a: 22, b: 43}
---
Two gauges count.

```diagram
after: 9
```
```timing
```
```edge-table
rows: 8..12
```
```compare
designs: [ripple-carry-adder, carry-lookahead-adder]
over: {n: 4..8}
chart: time
```
"""
LETTERS: Final = """() => [...document.querySelectorAll("figure svg text, .picture svg text")]
  .filter((text) => text.checkVisibility()).map((text) => {
    const { a, b } = text.getScreenCTM();
    return parseFloat(getComputedStyle(text).fontSize) * Math.hypot(a, b);
  })"""


def built(folder: Path, text: str = LESSON) -> str:
    path = folder / "rain.md"
    path.write_text(text, encoding="utf-8")
    return pages.build(path, folder / "out").as_uri()


def phone(browser: Browser, address: str, width: int = 360) -> Page:
    page = browser.new_page(viewport={"width": width, "height": 740})
    page.goto(address)
    page.wait_for_selector(".picture svg")
    return page


@pytest.fixture(scope="module")
def lesson(tmp_path_factory: pytest.TempPathFactory) -> str:
    return built(tmp_path_factory.mktemp("narrow"))


@pytest.mark.browser
def test_figures_and_charts_are_laid_out_for_it(browser: Browser, lesson: str) -> None:
    page = phone(browser, lesson)
    assert min(page.evaluate(LETTERS)) >= 9
    fits = "e => e.scrollWidth <= e.clientWidth"
    boxes = page.locator(".drawing > .box:visible")
    assert boxes.count() == 3
    assert all(boxes.nth(i).evaluate(fits) for i in range(3))
    assert page.evaluate("document.documentElement.scrollWidth <= innerWidth")
    page.set_viewport_size({"width": 1100, "height": 740})
    assert page.locator(".slim:visible").count() == 0
    assert page.locator(".wide:visible").count() == 3


@pytest.mark.browser
def test_a_figure_for_a_phone_of_360_pixels_is_not_cut(browser: Browser, tmp_path: Path) -> None:
    text = LESSON.replace("serial-adder", "ripple-carry-adder").replace("n: 8", "n: 16")
    text = text.replace("b: 43", "b: 43, carry_in: 1")
    head, _, _ = text.partition("```diagram")
    page = phone(browser, built(tmp_path, f"{head}```stage\n```\n"))
    picture = page.locator(".picture")
    assert picture.evaluate("e => e.scrollWidth <= e.clientWidth")
    assert picture.evaluate("e => e.querySelector('svg').getBoundingClientRect().width") > 340
    assert min(page.evaluate(LETTERS)) >= 9
    assert page.evaluate("document.documentElement.scrollWidth <= innerWidth")


@pytest.mark.browser
def test_a_wide_table_shows_the_answer_first_and_keeps_its_rows_in_sight(
    browser: Browser, lesson: str
) -> None:
    page = phone(browser, lesson)
    for box in (page.locator("figure > .box:has(> .edge-table)"), page.locator(".stage .rows")):
        table = box.filter(has=page.locator("tr")).first
        table.scroll_into_view_if_needed()
        page.wait_for_timeout(100)
        frame = table.bounding_box()
        answer = table.locator("th.answer").first.bounding_box()
        row = table.locator('th[scope="row"]').first.bounding_box()
        assert frame
        assert answer
        assert row
        assert frame["x"] - 1 <= row["x"]
        assert row["x"] + row["width"] <= answer["x"] + 1
        assert answer["x"] + answer["width"] <= frame["x"] + frame["width"] + 1
        # More at the left shows: a shadow, which lies still while the table moves.
        assert table.evaluate("e => e.scrollLeft > 0")
        ground = table.evaluate("e => getComputedStyle(e).backgroundImage")
        assert ground.count("linear-gradient") == 4


def test_a_page_begins_with_its_first_sentence_then_the_stage(tmp_path: Path) -> None:
    text = re.sub(r"```diagram.*?```\n```timing\n```\n", "", LESSON, flags=re.DOTALL)
    address = built(tmp_path, text)
    page = Path(address.removeprefix("file://")).read_text("utf-8")
    sentence, stage = page.index("Two gauges count."), page.index("<edgewise-stage")
    assert sentence < stage < page.index('class="edge-table"')
    bare = built(tmp_path, "---\ntitle: T\ndesign: ring-counter\n---\n# Only a heading\n")
    assert "<edgewise-stage" in Path(bare.removeprefix("file://")).read_text("utf-8")
