"""A lesson with a stage, and what is done with one in Chromium."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Final

from edgewise.publish.html import page as pages

if TYPE_CHECKING:
    from playwright.sync_api import Page

LESSON: Final = """\
---
title: Two bakery counters
design: serial-adder
with: {n: 6}
operands: {a: 22, b: 43}
---
The two counters.

```diagram
after: 0
```
```claim
S after 12 == (a + b) mod 64    for all a, b
edges == 2*n                    for n in 1..64
S after 11 == 2 * ((a + b) mod 32)  for all a, b
C after 12 == 1
```
"""


def build(folder: Path, text: str) -> str:
    path = folder / "lesson.md"
    path.write_text(text, encoding="utf-8")
    return pages.build(path, folder / "out").as_uri()


def row(page: Page) -> int:
    return int(page.locator(".ruler").get_attribute("aria-valuenow") or "")


def drawn(page: Page, name: str) -> str:
    """The bits in the cells of a register of the figure, MSB left."""
    return str(
        page.evaluate(
            """(name) => {
              const { figure } = document.querySelector("edgewise-stage").stage;
              const at = figure.skeleton.words.findIndex(([word]) => word === name);
              return figure.svg.querySelector(`g.word[data-name="${at}"]`).textContent;
            }""",
            name,
        )
    )


def in_table(page: Page) -> str:
    return page.locator(".stage .edge-table tr.now th[scope=row]").inner_text()


def fill(page: Page, name: str, value: str) -> None:
    page.get_by_label(name, exact=True).fill(value)


def expected(page: Page) -> list[int]:
    """The bits that follow, in the order of the blanks."""
    return list(
        page.evaluate(
            """() => {
              const { prediction } = document.querySelector("edgewise-stage").stage;
              return prediction.blanks.map(({ flipFlop }) => prediction.expected[flipFlop]);
            }"""
        )
    )


def answer(page: Page, bits: list[int]) -> None:
    page.locator(".blanks .bit").first.focus()
    for bit in bits:
        page.keyboard.press("01x"[bit])


def begin(page: Page, at: int) -> None:
    page.locator(f'.ruler [data-row="{at}"]').click()
    page.get_by_text("Predict the next rows").click()
    page.get_by_role("button", name="Begin after the row shown").click()


def verdict(page: Page) -> str:
    return page.locator(".verdict").inner_text()
