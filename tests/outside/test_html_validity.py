"""The built pages, held to the HTML standard by a validator that is not ours.

Source: html-validate 9.0.0 (MIT), rule set ``html-validate:standard``, which follows the
WHATWG HTML Living Standard's content models and attribute values.
"""

from __future__ import annotations

import json
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
    from playwright.sync_api import Page

EXAMPLES: Final = sorted((Path(__file__).parents[2] / "examples").glob("*.md"))


def complaints(folder: Path, text: str) -> list[str]:
    """What the validator finds in a page."""
    path = folder / "page.html"
    path.write_text(text, encoding="utf-8")
    config = workshop.HERE / "html-validate.json"
    found_in = folder / "found.json"
    made = workshop.tool(
        "html-validate", "--config", str(config), "--formatter", f"json={found_in}", str(path)
    )
    assert found_in.exists(), made.stderr
    return [
        f"{found['line']}:{found['column']}: {found['ruleId']}: {found['message']}"
        for file in json.loads(found_in.read_text("utf-8"))
        for found in file["messages"]
    ]


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_a_built_page_is_valid(tmp_path: Path, path: Path) -> None:
    text = pages.build(path, tmp_path / "out").read_text("utf-8")
    assert complaints(tmp_path, text) == []


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_what_the_script_makes_of_it_is_valid(tmp_path: Path, page: Page, path: Path) -> None:
    page.goto(pages.build(path, tmp_path / "out").as_uri())
    for summary in page.locator(".stage summary").all():
        if summary.is_visible():  # a circuit without edges has nothing to predict
            summary.click()
    begin = page.get_by_role("button", name="Begin", exact=True)
    if begin.count() and begin.first.is_visible():
        begin.first.click()
    body = page.locator("edgewise-stage").first.inner_html()
    text = (
        '<!DOCTYPE html>\n<html lang="en"><head><title>stage</title></head>'
        f"<body><main>{body}</main></body></html>\n"
    )
    assert complaints(tmp_path, text) == []


def test_a_bench_sheet_is_valid(tmp_path: Path) -> None:
    design = catalogue.design("johnson-counter", n=4)
    board = placement.wired(design)
    sheet = Sheet(board, reference.run(design, {}))
    text = bench.html_of(sheet, check.check(board), messages.ENGLISH)
    assert complaints(tmp_path, text) == []


def test_the_validator_finds_what_is_wrong(tmp_path: Path) -> None:
    head = '<!DOCTYPE html>\n<html lang="en"><head><title>x</title></head>'
    text = f"{head}<body><p><div></div></p></body></html>"
    assert complaints(tmp_path, text) != []
