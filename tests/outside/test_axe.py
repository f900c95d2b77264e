"""The built pages, held to WCAG 2.2 AA by axe-core in Chromium.

Source: axe-core 4.14.1 (Deque Systems, MPL-2.0), rules tagged wcag2a, wcag2aa, wcag21a,
wcag21aa, wcag22aa and best-practice.
"""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Final

import pytest

from edgewise import catalogue
from edgewise.engines import reference
from edgewise.lab.wiring import check, placement
from edgewise.lab.wiring.sheet import Sheet
from edgewise.publish.bench import page as bench
from edgewise.publish.html import page as pages
from edgewise.words import messages
from tests.web import workshop

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page

EXAMPLES: Final = sorted((Path(__file__).parents[2] / "examples").glob("*.md"))
TAGS: Final = ("wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice")
RUN: Final = """\
(tags) => axe.run(document, { runOnly: { type: "tag", values: tags } }).then((found) =>
  found.violations.map(({ id, help, nodes }) =>
    `${id}: ${help}: ${nodes.map(({ target }) => target.join(" ")).join("; ")}`))
"""


@pytest.fixture(scope="module")
def built(tmp_path_factory: pytest.TempPathFactory) -> dict[str, str]:
    """The address of each example's page."""
    out = tmp_path_factory.mktemp("axe")
    return {path.stem: pages.build(path, out).as_uri() for path in EXAMPLES}


def complaints(page: Page) -> list[str]:
    """What axe finds."""
    page.evaluate(workshop.axe())
    return list(page.evaluate(RUN, list(TAGS)))


@pytest.mark.parametrize("name", [path.stem for path in EXAMPLES])
@pytest.mark.parametrize("width", [320, 1280])
def test_axe_finds_nothing(browser: Browser, built: dict[str, str], name: str, width: int) -> None:
    context = browser.new_context(viewport={"width": width, "height": 900}, bypass_csp=True)
    page = context.new_page()
    page.goto(f"{built[name]}#row=2")
    assert complaints(page) == []
    for summary in page.locator(".stage summary").all():
        if summary.is_visible():  # a circuit without edges has nothing to predict
            summary.click()
    drawn = page.get_by_role("button", name="At random")
    if drawn.count():  # a counter has no operands to draw
        drawn.first.click()
    assert complaints(page) == []
    begin = page.get_by_role("button", name="Begin after the row shown")
    if begin.count() and begin.first.is_visible():
        begin.first.click()
        page.locator(".blanks .bit").first.focus()
        for key in "01x01x":
            page.keyboard.press(key)
        assert complaints(page) == []
        page.get_by_role("button", name="Copy my attempts").first.click()
        assert complaints(page) == []
    field = page.locator(".field input")
    if field.count():
        field.first.fill("many")
        assert complaints(page) == []
    larger = page.get_by_role("button", name="Larger figure")
    if larger.count() and larger.first.is_visible():
        larger.first.click()
        assert complaints(page) == []
    page.get_by_role("button", name="Project").first.click()
    for key in "vvbv":
        page.keyboard.press(key)
        page.mouse.move(40, 40)  # the bar comes back
        page.mouse.move(60, 40)
        page.wait_for_timeout(300)
        assert complaints(page) == []
    context.close()


@pytest.mark.parametrize("width", [320, 1280])
def test_axe_finds_nothing_on_a_bench_sheet(browser: Browser, tmp_path: Path, width: int) -> None:
    design = catalogue.design("johnson-counter", n=4)
    board = placement.wired(design)
    sheet = Sheet(board, reference.run(design, {}))
    path = tmp_path / "bench.html"
    path.write_text(bench.html_of(sheet, check.check(board), messages.ENGLISH), "utf-8")
    context = browser.new_context(viewport={"width": width, "height": 900}, bypass_csp=True)
    page = context.new_page()
    page.goto(path.as_uri())
    assert complaints(page) == []
    context.close()


def test_axe_finds_nothing_without_scripts(browser: Browser, built: dict[str, str]) -> None:
    context = browser.new_context(bypass_csp=True)
    page = context.new_page()
    for address in built.values():
        text = Path(address.removeprefix("file://")).read_text("utf-8")
        page.set_content(text.replace('<script type="module">', '<script type="text/none">'))
        assert page.locator(".still").count() >= 1
        assert complaints(page) == []
    context.close()
