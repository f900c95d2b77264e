"""A projected stage follows the lesson's steps: rows in order, pointer, sentence."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Final

import pytest

from edgewise.publish.stage import javascript
from edgewise.views.diagram.pointer import SHAPE
from edgewise.views.drawing.shapes import line_data
from tests.publish.stages import LESSON, build, row

if TYPE_CHECKING:
    from playwright.sync_api import Page

STEPS: Final = """\
```steps
- 6
- {rows: 8, point: [C, FA.carry-out], say: Look at the carry.}
- [7, 8]
- {rows: 9..10, say: Two more.}
- 0
```
```say
rows: 6
Only for me.
```
"""


def told(page: Page) -> str:
    return page.locator(".told").inner_text()


def pointers(page: Page) -> int:
    return page.locator(".pointers g").count()


@pytest.fixture
def projected(tmp_path: Path, page: Page) -> Page:
    page.goto(build(tmp_path, LESSON + STEPS))
    page.get_by_role("button", name="Project").click()
    page.wait_for_selector(".stage.projected")
    return page


def test_the_keys_go_through_the_steps_and_back(projected: Page) -> None:
    page = projected
    seen = [row(page)]
    for _ in range(7):
        page.keyboard.press("ArrowRight")
        seen.append(row(page))
    assert seen == [6, 8, 7, 8, 9, 10, 0, 0]
    page.keyboard.press("ArrowLeft")
    assert row(page) == 10
    page.keyboard.press("Home")
    assert row(page) == 6
    page.keyboard.press("End")
    assert row(page) == 0


def test_pointer_and_sentence_are_those_of_the_step(projected: Page) -> None:
    page = projected
    assert told(page).startswith("Edge 6, phase load:")
    assert "Only for me" not in page.content()
    assert pointers(page) == 0
    page.keyboard.press("ArrowRight")
    assert (told(page), pointers(page)) == ("Look at the carry.", 2)
    page.keyboard.press("ArrowRight")
    assert told(page).startswith("Edge 7, phase add:")
    page.keyboard.press("ArrowRight")  # the same row again has a sentence of its own
    assert told(page).startswith("Edge 8, phase add:")
    assert pointers(page) == 0
    page.keyboard.press("ArrowRight")
    page.keyboard.press("ArrowRight")  # what is said of two rows goes on
    assert (row(page), told(page)) == (10, "Two more.")
    page.keyboard.press("Escape")
    assert told(page).startswith("Edge 10, phase add:")


def test_the_steps_are_of_the_lessons_own_run_alone(projected: Page) -> None:
    page = projected
    page.keyboard.press("Escape")
    page.locator(".stage summary").first.click()
    page.get_by_label("a", exact=True).fill("21")
    page.get_by_role("button", name="Project").click()
    page.keyboard.press("Home")
    page.keyboard.press("ArrowRight")
    assert (row(page), told(page).partition(",")[0]) == (1, "Edge 1")


def test_the_buttons_follow_them_too(projected: Page) -> None:
    page = projected
    page.mouse.move(300, 300)
    page.mouse.move(310, 310)
    bar = page.locator(".bar")
    assert bar.get_by_role("button", name="Back").get_attribute("aria-disabled") == "true"
    bar.get_by_role("button", name="Next edge").click()
    assert row(page) == 8


def test_the_pages_pointer_has_the_figures_outline() -> None:
    data = line_data(SHAPE)
    assert f'const POINTER = "{data}Z";' in javascript.source("figure.js")
