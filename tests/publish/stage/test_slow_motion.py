"""Slow motion: the events inside a clock period, one by one, in Chromium."""

from __future__ import annotations

import re
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from edgewise.lesson import check_text
from edgewise.lesson.inside import Opened
from edgewise.publish.html.page import html_of
from edgewise.publish.stage.slow_motion import events
from edgewise.words import messages
from tests.outside.test_axe import complaints
from tests.publish.stages import build, drawn

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page

GOES = r"(?:^|[ :]){} goes from (\S+)(?: \(\d+\))? to (\S+?)(?: \(\d+\))?[ .,]"
LESSON = """\
---
title: Inside an edge
design: serial-adder
with: {n: 6}
operands: {a: 22, b: 43}
---
The carry comes late.

```inside
edges: 8..9
columns: [C, FA.sum, S]
```
"""


def piece_of(text: str = LESSON) -> Opened:
    (piece,) = check_text(text, "l.md", Path()).pieces.values()
    assert isinstance(piece, Opened)
    return piece


@pytest.fixture(scope="module")
def built(tmp_path_factory: pytest.TempPathFactory) -> str:
    return build(tmp_path_factory.mktemp("slow"), LESSON)


def held(page: Page) -> str:
    """The sentence of slow motion in the stage."""
    return page.locator(".slowly .slow .told").inner_text()


# ------------------------------------------------------------------ what is said


def test_each_event_is_that_of_the_simulation() -> None:
    """Every change is in one event, in order; what a sentence says of a lane is what it holds."""
    piece = piece_of()
    told = events(piece)
    assert [c for event in told for c in event.changes] == [
        change for change in piece.inside.changes if change.time <= told[-1].time
    ]
    for event in told:
        before, after = piece.inside.at(event.time - 1), piece.inside.at(event.time)
        for name in piece.figure.names:
            nets = piece.inside.nets(name)
            bits = ["".join("01X"[row[n]] for n in reversed(nets)) for row in (before, after)]
            said = re.search(GOES.format(re.escape(name)), event.said)
            assert (said is not None) == (bits[0] != bits[1])
            if said:
                assert [said[1], said[2]] == bits


def test_sentences_in_both_languages() -> None:
    said = [event.said for event in events(piece_of())]
    assert said[:4] == [
        "0 gate delays after edge 8: clock goes from 0 to 1.",
        "4 gate delays after edge 8: C goes from 0 to 1, S goes from 100000 (32) to 010000 (16)"
        " and 9 other nets change.",
        "6 gate delays after edge 8: FA.sum goes from 0 to 1, FA.carry-out goes from 1 to 0 and one"
        " other net changes.",
        "8 gate delays after edge 8: FA.sum goes from 1 to 0 and FA.carry-out goes from 0 to 1."
        " Glitch.",
    ]
    assert events(piece_of(), messages.of("de"))[3].said == (
        "8 Gatterlaufzeiten nach Flanke 8: FA.sum geht von 1 auf 0 und FA.carry-out geht von 0 auf"
        " 1. Störimpuls."
    )


def test_a_page_without_an_opened_period_has_none() -> None:
    text = LESSON.partition("```")[0]
    assert "edgewise-inside>" not in html_of(check_text(text, "l.md", Path()))


def test_a_page_stays_small() -> None:
    """What the events add to a page, compressed; the budget of a page is 250 kB."""
    import gzip

    with_, without = (
        len(gzip.compress(html_of(check_text(text, "l.md", Path())).encode()))
        for text in (LESSON, LESSON.partition("```")[0])
    )
    assert with_ < 250_000
    assert with_ - without < 12_000


# ------------------------------------------------------------------ in the figure


def test_the_figure_is_gone_through_by_mouse_and_keys(opened: Page) -> None:
    inside = opened.locator("edgewise-inside")
    said = [event.said for event in events(piece_of())]
    button = inside.get_by_role("button", name="Slow motion")
    button.click()
    told = inside.locator(".slow .told")
    assert (
        told.inner_text()
        == "Just before edge 8, with n\u00a0=\u00a06, a\u00a0=\u00a022, b\u00a0=\u00a043."
    )
    inside.get_by_role("button", name="Next event").click()
    assert told.inner_text() == said[0]
    opened.keyboard.press("ArrowRight")
    assert told.inner_text() == said[1]
    opened.keyboard.press("End")
    assert told.inner_text() == said[-1]
    inside.get_by_role("slider").focus()
    opened.keyboard.press("ArrowLeft")
    assert told.inner_text() == said[-2]
    opened.keyboard.press("Home")
    assert inside.get_by_role("slider").get_attribute("aria-valuetext") == told.inner_text()
    inside.get_by_role("button", name="End slow motion").click()
    assert inside.locator(".veil").get_attribute("visibility") == "hidden"


def test_the_veil_begins_where_the_event_is(opened: Page) -> None:
    """Against the place of a figure at the scale of time."""
    inside = opened.locator("edgewise-inside")
    inside.get_by_role("button", name="Slow motion").click()
    inside.get_by_role("slider").fill("4")
    xs = inside.evaluate(
        """(element) => {
          const x = (one) => Number(one.getAttribute("x"));
          const at = [...element.querySelectorAll(".axis text[text-anchor]")];
          const label = (text) => x(at.filter((t) => t.textContent === text)[0]);
          const now = element.querySelector(".now").getAttribute("d").match(/^M([0-9.]+)/)[1];
          return [label("0"), label("10"), Number(now), x(element.querySelector(".veil rect"))];
        }"""
    )
    zero, ten, now, veil = xs
    assert events(piece_of())[3].time == 8 * piece_of().inside.ticks
    assert now == pytest.approx(zero + 0.8 * (ten - zero), abs=0.02)
    assert 0 < veil - now < 10


# ------------------------------------------------------------------ on the stage


def test_the_stage_shows_each_event_in_its_diagram(opened: Page) -> None:
    piece = piece_of()
    assert opened.locator(".slowly button").count() == 0
    opened.locator('.ruler [data-row="8"]').click()
    row = drawn(opened, "S")
    opened.locator(".slowly").get_by_role("button", name="Slow motion").click()
    for event in (None, *events(piece)):
        if event:
            opened.locator(".slowly").get_by_role("button", name="Next event").click()
            assert held(opened) == event.said
        bits = piece.inside.at(event.time) if event else list(piece.inside.start)
        for name in ("A", "S", "C"):
            nets = piece.inside.nets(name)
            assert drawn(opened, name) == "".join("01X"[bits[net]] for net in reversed(nets))
    opened.locator(".slowly").get_by_role("button", name="End slow motion").click()
    assert drawn(opened, "S") == row
    assert opened.locator(".stage > .told").is_visible()


def test_arrow_keys_in_slow_motion_leave_the_row_alone(opened: Page) -> None:
    opened.locator('.ruler [data-row="8"]').click()
    opened.locator(".slowly button").click()
    opened.locator(".slowly").get_by_role("button", name="Next event").click()
    opened.keyboard.press("ArrowRight")
    assert held(opened) == events(piece_of())[1].said
    assert opened.locator(".ruler").get_attribute("aria-valuenow") == "8"
    opened.locator(".ruler").press("ArrowRight")
    assert opened.locator(".slowly .slow").count() == 0
    assert opened.locator(".ruler").get_attribute("aria-valuenow") == "9"


def test_other_operands_have_no_slow_motion(opened: Page) -> None:
    opened.locator('.ruler [data-row="8"]').click()
    opened.locator(".slowly button").click()
    opened.get_by_text("Try other numbers").click()
    opened.get_by_label("a", exact=True).fill("21")
    slowly = opened.locator(".slowly")
    assert slowly.locator("button").count() == 0
    assert slowly.inner_text() == (
        "Slow motion shows the lesson's own operands; with others its events would not be these."
    )
    opened.get_by_label("a", exact=True).fill("22")
    assert slowly.locator("button").count() == 1


def test_axe_finds_nothing_in_slow_motion(browser: Browser, built: str) -> None:
    context = browser.new_context(bypass_csp=True)
    page = context.new_page()
    page.goto(built)
    page.locator('.ruler [data-row="8"]').click()
    page.locator(".slowly button").click()
    page.locator("edgewise-inside").get_by_role("button", name="Slow motion").click()
    page.locator("edgewise-inside").get_by_role("button", name="Next event").click()
    assert complaints(page) == []
    context.close()
