"""One source: page, projected stage and handout of one lesson show the same numbers."""

from __future__ import annotations

import re
from pathlib import Path
from typing import TYPE_CHECKING, Any, Final

import pytest
from lxml import html as lxml_html

from edgewise import lesson
from edgewise.lesson import Report
from edgewise.publish.handout import build
from edgewise.publish.html import page as pages

if TYPE_CHECKING:
    from playwright.sync_api import Page

LESSON: Final = """\
---
title: Two tide gauges
design: serial-adder
with: {n: 6}
operands: {a: 39, b: 58}
---
Values: `? a`, `? b`, `? a + b`, `? A after 6`, `? S after end`, `? value(C after 9)`.

```stage
columns: [A, B, FA.sum, FA.carry-out, C, S]
```

```edge-table
columns: [A, B, FA.sum, FA.carry-out, C, S]
```
"""


@pytest.fixture(scope="module")
def report() -> Report:
    return lesson.check_text(LESSON, "tide.md", Path())


def of_trace(report: Report) -> list[list[str]]:
    """What the run itself holds, row by row."""
    columns = ("A", "B", "FA.sum", "FA.carry-out", "C", "S")
    rows = range(report.trace.edges + 1)
    return [[str(report.trace.word(name, row)) for name in columns] for row in rows]


def of_page(report: Report) -> tuple[list[str], list[list[str]]]:
    tree: Any = lxml_html.fromstring(pages.html_of(report))
    values = [v.text_content() for v in tree.xpath("//main/p[1]//*[@class='value']")]
    (table,) = tree.xpath("//main/figure//table[@class='edge-table']")
    rows = [
        ["".join(cell.text_content().split()) for cell in row.xpath("td[i]")]
        for row in table.xpath("tbody/tr")
    ]
    return values, rows


def of_handout(report: Report) -> tuple[list[str], list[list[str]]]:
    source = build.typst_of(report).source
    first = source[source.index('#"Values: "') :].split("\n", 1)[0]
    values = re.findall(r'#(?:value\()?"([01X]+|\d+)"', first)
    table = source[source.rindex("#run-table(") :]
    words = re.findall(r'word\("([01X]+)"', table)
    return values, [words[i : i + 6] for i in range(0, len(words), 6)]


def test_page_and_handout_show_the_run(report: Report) -> None:
    expected = ["39", "58", "97", "100111", "100001", "1"]
    values, rows = of_page(report)
    assert values == expected
    assert rows == of_trace(report)
    values, rows = of_handout(report)
    assert values == expected
    assert rows == of_trace(report)


@pytest.mark.browser
def test_the_projected_stage_shows_the_run(page: Page, report: Report, tmp_path: Path) -> None:
    file = tmp_path / "tide.html"
    file.write_text(pages.html_of(report), "utf-8")
    page.goto(file.as_uri())
    page.locator(".to-project").click()
    page.wait_for_selector(".stage.projected")
    shown = []
    for _ in range(report.trace.edges + 1):
        told = page.locator(".projected .picture svg").get_attribute("aria-label") or ""
        words = dict(re.findall(r"(\w+) = ([01X]+)", told))
        row = page.locator(".stage .rows tr.now td").all_text_contents()
        shown.append(["".join(cell.split()) for cell in row if cell.strip()])
        assert [words[name] for name in "ABCS"] == [shown[-1][i] for i in (0, 1, 4, 5)]
        cells = page.locator(".projected .picture g.part[data-name=S] .cell text")
        if cells.count():
            assert "".join(cells.all_text_contents()) == words["S"]
        page.keyboard.press("ArrowRight")
    assert shown == of_trace(report)
