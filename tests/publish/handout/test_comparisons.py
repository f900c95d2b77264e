"""A comparison on paper: the table of the page, cell by cell, and text that stays text."""

from __future__ import annotations

import re
from pathlib import Path
from typing import Any

from lxml import html as lxml_html

from edgewise import lesson
from edgewise.publish.handout import build, comparisons
from edgewise.publish.html import render

LESSON = """\
---
title: Loaves
design: ripple-carry-adder
with: {n: 4}
operands: {a: 3, b: 4, carry_in: 0}
---

```compare
designs: [ripple-carry-adder, carry-skip-adder]
over: {n: 4..6}
```
"""


def test_the_handout_has_the_table_of_the_page() -> None:
    report = lesson.check_text(LESSON, "loaves.md", Path())
    source = build.typst_of(report).source
    (line,) = (
        line for line in source.splitlines() if "carry-skip-adder" in line and "#own" in line
    )
    table = line[line.index("#own-table(") :]
    tree: Any = lxml_html.fromstring(render.body(report))
    (shown,) = tree.xpath("//figure[contains(@class, 'comparison')]//table")
    expected = [cell.text_content() for cell in shown.xpath(".//th | .//td")]
    assert re.findall(r'\[#"([^"]*)";\]', table) == expected
    assert "carry-skip-adder" in expected


def test_text_of_a_table_stays_text() -> None:
    made = comparisons.table([("n", "design"), ("4", '#panic("x") ]')])
    assert made == (
        '#own-table(2, (right + top, start + top, ), ([#"n";], [#"design";], ),'
        ' [#"4";], [#"#panic(\\"x\\") ]";], )'
    )
