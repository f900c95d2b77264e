"""The preview: what is wrong with a lesson, what its example leaves unseen, and how both look."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING, Final

import pytest

from edgewise.publish.preview.preview import Preview
from tests.web import workshop
from tests.web.watched import Running, end, opened, started, watched

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page

# The sum of two small counts without a common 1 shows no carry.
LESSON: Final = """\
---
title: Two tide gauges
design: serial-adder
with: {n: 6}
operands: {a: 1, b: 2}
---
The first gauge told `? a`.

```stage
columns: [A, B, C, S]
```

The sum:

```claim
S after 12 == (a + b) mod 64    for all a, b
```
"""
NO_CARRY: Final = "The carry flip-flop C is never set: this example would look the same without it."
WHERE: Final = "Line 16, column 1"
WRONG: Final = (
    'the claim "S after 11 == (a + b) mod 64" is false for a=0, b=1: S after 11 is 000010 (2),'
    " expected 1. It holds from edge 12 on."
)
FALSE: Final = f"{WHERE}: {WRONG}"
ROWS: Final = """\
after edge  phase  shift  a_in  b_in  A       B       FA.sum  FA.carry-out  C  S
──────────  ─────  ─────  ────  ────  ──────  ──────  ──────  ────────────  ─  ──────
        10  add    1      X     X     XXXX00  XXXX00  0       0             0  000100
        11  add    1      X     X     XXXXX0  XXXXX0  0       0             0  000010
        12  add    1      X     X     XXXXXX  XXXXXX  X       X             0  000001"""
TAGS: Final = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]
AUDIT: Final = """\
(tags) => axe.run(document, { runOnly: { type: "tag", values: tags } }).then((found) =>
  found.violations.map(({ id, nodes }) => `${id}: ${nodes.map((n) => n.html).join(" ")}`))
"""


@pytest.fixture
def preview(tmp_path: Path) -> Preview:
    path = tmp_path / "tide.md"
    path.write_text(LESSON, "utf-8")
    return Preview(path)


@pytest.fixture
def running(tmp_path: Path) -> Iterator[Running]:
    yield from watched(tmp_path, LESSON)


def save(preview: Preview, old: str, new: str) -> None:
    text = preview.path.read_text("utf-8")
    assert old in text
    preview.path.write_text(text.replace(old, new), "utf-8")


# ---------------------------------------------------------------- what it says


def test_it_says_what_the_example_leaves_unseen(preview: Preview) -> None:
    state = preview.build()
    assert [str(remark) for remark in state.remarks] == [f"Line 5, column 11: warning: {NO_CARRY}"]
    assert [remark.line for remark in state.remarks] == [5]
    save(preview, "{a: 1, b: 2}", "{a: 22, b: 43}")
    assert [str(remark) for remark in preview.build().remarks] == []


def test_it_says_why_an_example_was_chosen(preview: Preview) -> None:
    save(preview, "{a: 1, b: 2}", "{choose: [carry chain 2], between: 2..30}")
    (remark,) = preview.build().remarks
    assert str(remark) == (
        "Line 5, column 11: note: chosen: a = 3, b = 22, because they show 6 of the 8"
        " truth-table rows of the full adder and a carry chain of 2 places; 13 of 16"
        " misconceptions give a wrong answer"
    )


def test_rows_stand_below_a_false_claim(preview: Preview) -> None:
    preview.build()
    save(preview, "S after 12", "S after 11")
    state = preview.build()
    (fault,) = state.faults
    assert (fault.line, fault.where, fault.message) == (16, WHERE, WRONG)
    assert fault.details == ROWS
    below = "\n".join(f"  {line}" for line in ROWS.splitlines())
    assert str(fault) == f"{FALSE}\n{below}"
    # Errors first: what the example leaves unseen is said again once they are mended.
    assert state.remarks == ()
    save(preview, "S after 11", "S after 12")
    assert len(preview.build().remarks) == 1


def test_an_error_without_rows_has_none(preview: Preview) -> None:
    save(preview, "b: 2", "b: 99")
    (fault,) = preview.build().faults
    assert fault.details == ""
    assert str(fault) == f"{fault.where}: {fault.message}"


def test_the_terminal_is_told_too(tmp_path: Path) -> None:
    path = tmp_path / "tide.md"
    path.write_text(LESSON, "utf-8")
    run = started(path)
    out = run.process.stdout
    assert out is not None
    assert out.readline() == f"{path}: Line 5, column 11: warning: {NO_CARRY}\n"
    assert out.readline().startswith(f"{path}: built in ")
    run.save("S after 12", "S after 11")
    told = [out.readline() for _ in range(6)]
    assert told == [f"{path}: {FALSE}\n", *(f"  {line}\n" for line in ROWS.splitlines())]
    end(run)


# ---------------------------------------------------------------- in the browser


@pytest.mark.browser
def test_a_warning_stands_above_and_goes_when_heeded(page: Page, running: Running) -> None:
    complaints = opened(page, running)
    page.wait_for_selector(".remark")
    assert page.locator(".remark").all_inner_texts() == [f"Warning: {NO_CARRY} Line 5, column 11"]
    assert page.locator(".spoken[role=status]").text_content() == f"warning: {NO_CARRY}"
    assert page.evaluate("document.querySelector('main').firstElementChild.className") == (
        "remark warning"
    )
    assert page.locator(".standing").is_hidden()
    # Another save leaves it, and says nothing aloud again.
    page.evaluate(
        "window.said = 0; new MutationObserver(() => said++).observe("
        "document.querySelector('.spoken'), {childList: true})"
    )
    running.save("The sum:", "Their sum:")
    page.wait_for_selector("text=Their sum:")
    assert page.locator(".remark").count() == 1
    assert page.evaluate("said") == 0
    running.save("{a: 1, b: 2}", "{a: 22, b: 43}")
    page.wait_for_selector(".remark", state="detached")
    assert page.locator(".spoken").text_content() == ""
    assert complaints == []


@pytest.mark.browser
def test_a_warning_that_comes_does_not_move_the_reader(page: Page, running: Running) -> None:
    running.save("{a: 1, b: 2}", "{a: 22, b: 43}")
    opened(page, running)
    page.wait_for_selector("main p:has-text('told 22')")
    assert page.locator(".remark").count() == 0
    page.evaluate("scrollTo(0, document.body.scrollHeight)")
    claims = "document.querySelector('.claims').getBoundingClientRect().top"
    before = page.evaluate(claims)
    assert page.evaluate("scrollY") > 100
    running.save("{a: 22, b: 43}", "{a: 1, b: 2}")
    page.wait_for_selector(".remark")
    assert abs(page.evaluate(claims) - before) < 3


@pytest.mark.browser
def test_the_rows_of_a_false_claim_can_be_read(page: Page, running: Running) -> None:
    complaints = opened(page, running)
    running.save("S after 12", "S after 11")
    page.wait_for_selector(".fault")
    assert page.locator(".fault [role=alert]").inner_text() == FALSE
    rows = page.get_by_role("group", name="The rows to look at")
    assert rows.inner_text() == ROWS
    assert page.locator(".remark").count() == 0
    # A table wider than the screen is scrolled by itself, with keys too.
    page.set_viewport_size({"width": 360, "height": 700})
    assert page.evaluate("document.documentElement.scrollWidth") <= 360
    rows.focus()
    rows.evaluate("rows => { rows.onscroll = () => rows.classList.add('moved'); }")
    page.keyboard.press("ArrowRight")
    page.wait_for_selector(".fault pre.moved")
    assert complaints == []


@pytest.mark.browser
@pytest.mark.parametrize("width", [320, 1280])
def test_axe_finds_nothing_wrong_with_either(
    browser: Browser, running: Running, width: int
) -> None:
    context = browser.new_context(viewport={"width": width, "height": 900}, bypass_csp=True)
    page = context.new_page()
    opened(page, running)
    page.wait_for_selector(".remark")
    page.evaluate(workshop.axe())
    assert page.evaluate(AUDIT, TAGS) == []
    running.save("S after 12", "S after 11")
    page.wait_for_selector(".fault pre")
    assert page.evaluate(AUDIT, TAGS) == []
    context.close()


@pytest.mark.browser
def test_markup_in_a_claim_is_none_in_its_rows(page: Page, running: Running) -> None:
    opened(page, running)
    running.save("S after 12 == (a + b) mod 64    for all a, b", "S after 12 == 5 <b>")
    page.wait_for_selector(".fault")
    assert "<b>" in page.locator(".fault").inner_text()
    assert page.locator(".fault b").all_inner_texts() == ["Line 16, column 17: "]
