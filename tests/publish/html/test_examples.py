"""What a page shows of its example: the coverage block, the choice, the broken run."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest
from lxml import html as lxml_html

from edgewise import lesson
from edgewise.publish.handout import build, pdf
from edgewise.publish.html import page as pages

if TYPE_CHECKING:
    from playwright.sync_api import Page

LESSON = """\
---
title: Two rain gauges
design: serial-adder
with: {n: 4}
operands: choose
---
What do they show?

```coverage
```

```fault
fault: C stuck at 0
columns: [A, B, C, S]
```

```coverage
show: sentences
parts: carries
caption: What the carry <does>
```
"""


def built(folder: Path) -> Path:
    path = folder / "rain.md"
    path.write_text(LESSON, encoding="utf-8")
    return pages.build(path, folder / "out")


def test_the_coverage_is_a_table_and_sentences(tmp_path: Path) -> None:
    tree: Any = lxml_html.fromstring(built(tmp_path).read_text("utf-8"))
    first, second = tree.xpath("//figure[@class='coverage']")
    assert (
        first.xpath("string(.//caption)")
        == "What the example a\u00a0=\u00a03, b\u00a0=\u00a07 shows"
    )
    assert first.xpath(".//th[@scope='col']/text()") == ["what", "covered", "of", "not covered"]
    line = first.xpath(".//tr[th/text()='truth-table rows of FA']")[0]
    assert [cell.text_content() for cell in line] == [
        "truth-table rows of FA",
        "4",
        "8",
        "000 010 100 101",
    ]
    assert first.xpath("ul/li/text()")[0] == (
        "4 of the 8 truth-table rows are covered by FA in sums that get into the answer, all but"
        " 000, 010, 100 and 101 (a, b, carry-in)."
    )
    assert not second.xpath(".//table")
    assert second.xpath("string(figcaption)") == "What the carry <does>"
    assert second.xpath("ul/li/text()") == [
        "A carry is generated twice, propagated once and killed once; the longest carry chain has"
        " 2 places."
    ]


def test_the_choice_is_written_down_under_the_title(tmp_path: Path) -> None:
    tree: Any = lxml_html.fromstring(built(tmp_path).read_text("utf-8"))
    told = tree.xpath("string(//header/p[@class='chosen'])").replace("\u00a0", " ")
    assert told == (
        "Chosen: a = 3, b = 7, because they show 4 of the 8 truth-table rows of the full adder and"
        " a carry chain of 2 places."
    )


def test_the_builder_tells_what_is_to_be_said(tmp_path: Path) -> None:
    (tmp_path / "rain.md").write_text(LESSON, encoding="utf-8")
    notes: list[Any] = []
    pages.build(tmp_path / "rain.md", tmp_path / "out", notes.append)
    build.build(tmp_path / "rain.md", tmp_path / "out", notes.append)
    assert [note.kind for note in notes] == ["note", "note"]
    assert notes[0] == notes[1]


@pytest.mark.usefixtures("no_stage")
def test_the_handout_has_all_of_it() -> None:
    report = lesson.check_text(LESSON, "rain.md", Path())
    sheets = build.typst_of(report)
    for text in (
        "Chosen: a = 3, b = 7, because they show",
        "Table 1. What the example a\u00a0=\u00a03, b\u00a0=\u00a07 shows",
        "4 of the 8 truth-table rows are covered by FA",
        "Figure 1. The circuit as it should be",
        "one thing is wrong",
        "What the carry <does>",
    ):
        assert text in sheets.source
    assert pdf.pdf(sheets.source, sheets.files).startswith(b"%PDF")


@pytest.mark.parametrize("width", [1100, 380])
def test_nothing_sticks_out_in_the_browser(tmp_path: Path, page: Page, width: int) -> None:
    errors: list[str] = []
    page.on("console", lambda message: errors.append(message.text))
    page.on("pageerror", lambda error: errors.append(str(error)))
    page.set_viewport_size({"width": width, "height": 800})
    page.goto(built(tmp_path).as_uri())
    assert page.evaluate("document.documentElement.scrollWidth <= innerWidth")
    table = page.locator("figure.coverage table").first
    sentences = page.locator("figure.coverage").first.locator("ul")
    above, below = table.bounding_box(), sentences.bounding_box()
    assert above is not None
    assert below is not None
    assert above["y"] + above["height"] <= below["y"]
    assert table.locator("tbody tr").count() == 9
    assert page.locator("figure.drawing .fault").count() == 0
    assert not errors
