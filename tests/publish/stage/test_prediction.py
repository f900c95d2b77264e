"""Predicting rows on a stage, in Chromium."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Final

import pytest
from playwright.sync_api import expect

from edgewise import catalogue
from edgewise.engines import reference
from edgewise.publish.stage.storage import stores
from tests.publish.stages import (
    answer,
    begin,
    build,
    drawn,
    expected,
    fill,
    row,
    verdict,
)

if TYPE_CHECKING:
    from playwright.sync_api import Page


def test_a_right_row_opens_the_next(opened: Page) -> None:
    begin(opened, 9)
    assert opened.locator(".ruler .closed").count() == 3
    assert opened.locator(".ruler").get_attribute("aria-valuemax") == "9"
    opened.locator('.ruler [data-row="11"]').click()
    assert row(opened) == 9
    assert opened.locator('.stage tr[data-row="10"] i').count() == 0
    answer(opened, expected(opened))
    assert verdict(opened) == "Row 10 is right."
    assert row(opened) == 10
    answer(opened, expected(opened))
    answer(opened, expected(opened))
    assert verdict(opened) == "Row 12 is right. That was the last row."
    assert opened.locator(".tally").inner_text() == (
        "Right at the first try: 57 of 57 bits. Finished once."
    )


def test_each_bit_is_marked_at_once(opened: Page) -> None:
    begin(opened, 9)
    bits = expected(opened)
    answer(opened, [bits[0], 1 if bits[1] != 1 else 0])
    cells = opened.locator(".blanks .bit")
    assert "agrees" in (cells.nth(0).get_attribute("class") or "")
    assert "differs" in (cells.nth(1).get_attribute("class") or "")
    assert cells.nth(1).get_attribute("aria-label") == "A(4), 1, wrong"
    assert verdict(opened) == "A(4): 1, not what follows."


def test_what_follows_a_wrong_bit_is_marked_against_the_own_row(opened: Page) -> None:
    begin(opened, 7)
    labels = opened.evaluate(
        "document.querySelector('edgewise-stage').stage.prediction.blanks.map(({ label }) => label)"
    )
    carry = labels.index("C")
    bits = expected(opened)
    bits[carry] = 1 - bits[carry]
    answer(opened, bits)
    assert verdict(opened).startswith("In row 8, C differs from what follows.")
    opened.get_by_role("button", name="Go on with my row").click()
    assert row(opened) == 8
    assert drawn(opened, "C") == str(bits[carry])
    assert opened.locator(".told").inner_text().startswith("Row 8 is your own: C = ")
    design = catalogue.design("serial-adder", n=6)
    trace = reference.run(design, {"a": 22, "b": 43})
    other = expected(opened)
    assert other != [  # what the true row would have given
        trace.rows[9][net] for store in stores(design) for net in reversed(store.q)
    ]
    answer(opened, other)
    assert verdict(opened) == "Row 9 is right, as it follows from your own row 8."
    opened.get_by_role("button", name="Show all rows").click()
    opened.locator('.ruler [data-row="8"]').click()
    assert drawn(opened, "C") == str(trace.word("C", 8))


@pytest.mark.parametrize("n", [6, 8])
@pytest.mark.parametrize(
    ("name", "thought"),
    [
        ("or-for-sum", "One and one make one: the sum bit is 1 if any input is 1."),
        ("wrong-end", "The new bit enters at the other end of the register."),
    ],
)
def test_a_row_that_fits_one_known_misconception_is_told_its_idea(
    opened: Page, name: str, thought: str, n: int
) -> None:
    from edgewise.study.misconceptions import registry

    design = catalogue.design("serial-adder", n=n)
    if n != 6:  # the lesson's own
        opened.get_by_text("Try other numbers").click()
        opened.get_by_label("n", exact=True).select_option(str(n))
    begin(opened, n + 2)
    believed = {idea.name: other for idea, other in registry.applicable(design)}[name]
    theirs = {f.name: f for f in believed.netlist.flip_flops}
    trace = reference.run(design, {"a": 22, "b": 43})
    stored = [
        trace.rows[n + 2][next(f.q for f in design.netlist.flip_flops if f.name == one.name)]
        for one in believed.netlist.flip_flops
    ]
    fed = {
        key: [
            source.bit
            if hasattr(source, "bit")
            else trace.operands[source.operand] >> source.index & 1
            for source in sources
        ]
        for key, sources in believed.schedule[n + 2].items()
    }
    before = reference.settle(believed.netlist, stored, fed)
    names = {f.q: f.name for f in design.netlist.flip_flops}
    answer(
        opened,
        [
            reference.next_bit(theirs[names[net]], before)
            for store in stores(design)
            for net in reversed(store.q)
        ],
    )
    assert f"Your row is just what would come out if this were so: “{thought}”" in verdict(opened)


def test_a_row_that_fits_no_misconception_is_told_none(opened: Page) -> None:
    begin(opened, 8)
    bits = expected(opened)
    answer(opened, [1 - bit if bit < 2 else 0 for bit in bits])
    assert "if this were so" not in verdict(opened)
    opened.get_by_role("button", name="Show what follows").click()
    assert row(opened) == 9


def test_the_pad_fills_in_what_a_finger_chooses(opened: Page) -> None:
    begin(opened, 11)
    pad = {0: "0", 1: "1", 2: "X"}
    keys = opened.get_by_role("group", name="Fill in")
    for bit in expected(opened):
        keys.get_by_role("button", name=pad[bit], exact=True).click()
    assert verdict(opened) == "Row 12 is right. That was the last row."


def test_a_bit_can_be_taken_back(opened: Page) -> None:
    begin(opened, 11)
    answer(opened, [0, 0])
    opened.keyboard.press("Backspace")
    assert opened.locator(".blanks .bit").all_inner_texts()[:2] == ["0", ""]
    opened.keyboard.press("ArrowLeft")
    opened.keyboard.press("Delete")
    opened.keyboard.press("Backspace")
    assert opened.locator(".blanks .bit").all_inner_texts()[:2] == ["", ""]


def test_progress_stays_in_the_browser_and_can_be_forgotten(opened: Page) -> None:
    opened.get_by_text("Predict the next rows").click()
    opened.get_by_role("button", name="Begin", exact=True).click()
    assert opened.locator(".ruler .closed").count() == 1
    answer(opened, expected(opened))
    opened.get_by_role("button", name="Leave out one row more").click()
    assert opened.locator(".ruler .closed").count() == 2
    opened.reload()
    opened.get_by_text("Predict the next rows").click()
    assert opened.get_by_label("Rows left out at the end").input_value() == "2"
    assert "19 of 19" in opened.locator(".tally").inner_text()
    opened.get_by_role("button", name="Forget my progress").click()
    assert verdict(opened) == "Your progress on this page is forgotten."
    assert opened.evaluate("localStorage.length") == 0
    opened.reload()
    opened.get_by_text("Predict the next rows").click()
    assert opened.get_by_label("Rows left out at the end").input_value() == "1"


def test_a_storage_with_something_else_in_it_does_no_harm(page: Page, built: str) -> None:
    page.goto(built)
    page.evaluate("localStorage.setItem(`edgewise ${location.pathname} stage`, '{\"level\": []}')")
    page.reload()
    page.get_by_text("Predict the next rows").click()
    assert page.get_by_label("Rows left out at the end").input_value() == "1"


def test_the_focus_goes_where_one_goes_on(opened: Page) -> None:
    begin(opened, 9)
    first = opened.locator(".blanks .bit").first
    expect(first).to_be_focused()
    bits = expected(opened)
    answer(opened, [*bits[:-1], 1 - bits[-1]])
    opened.get_by_role("button", name="Go on with my row").click()
    expect(opened.locator(".blanks .bit").first).to_be_focused()
    bits = expected(opened)
    answer(opened, [*bits[:-1], 1 - bits[-1]])
    opened.get_by_role("button", name="Show what follows").click()
    expect(opened.locator(".blanks .bit").first).to_be_focused()
    opened.get_by_role("button", name="Show all rows").click()
    expect(opened.get_by_role("button", name="Begin", exact=True)).to_be_focused()


def test_wrong_bits_can_be_typed_over(opened: Page) -> None:
    begin(opened, 11)
    bits = expected(opened)
    answer(opened, [1 - bit if bit < 2 else 0 for bit in bits])
    assert "Change the marked bits, or:" in opened.locator(".prediction").inner_text()
    opened.locator(".blanks .bit").first.focus()
    for bit in bits:
        opened.keyboard.press("01x"[bit])
    assert verdict(opened) == "Row 12 is right. That was the last row."


def test_one_row_more_is_one_more_than_were_left_out(opened: Page) -> None:
    begin(opened, 9)
    for _ in range(3):
        answer(opened, expected(opened))
    opened.get_by_role("button", name="Leave out one row more").click()
    assert opened.locator(".ruler").get_attribute("aria-valuemax") == "8"
    assert opened.get_by_label("Rows left out at the end").input_value() == "4"


def test_rows_lost_to_a_new_run_are_told(opened: Page) -> None:
    begin(opened, 9)
    answer(opened, expected(opened)[:3])
    opened.get_by_text("Try other numbers").click()
    fill(opened, "a", "5")
    assert verdict(opened) == "The run has changed, so the rows you were working out are gone."
    assert opened.locator(".blanks").count() == 0


NESTED: Final = """\
---
title: A gate in the dyke
design: here
operands: {tide: 5}
---
Two stores in a row, the first inside a part.

```circuit
circuit: dyke
inputs: {tide_in: 1}
parts:
  D: {part: delay, x: tide_in}
  F: {part: flip-flop, d: D.y}
outputs: {late: F.q}
operands: {tide: 3}
procedure:
  - {phase: rise, edges: 3, tide_in: tide lsb-first}
---
circuit: delay
inputs: {x: 1}
parts:
  I: {part: flip-flop, d: x}
outputs: {y: I.q}
```
"""


def test_what_is_stored_inside_a_part_is_asked_for_too(tmp_path: Path, page: Page) -> None:
    page.goto(build(tmp_path, NESTED))
    begin(page, 2)
    assert page.locator(".blanks .bit").count() == 2  # F, and I inside the other
    answer(page, expected(page))
    assert verdict(page) == "Row 3 is right. That was the last row."


def test_right_rows_are_typed_one_after_another(opened: Page) -> None:
    begin(opened, 9)
    for _ in range(3):
        for bit in expected(opened):
            opened.keyboard.press("01x"[bit])
    assert verdict(opened) == "Row 12 is right. That was the last row."
    assert opened.locator(".tally").inner_text().startswith("Right at the first try: 57 of 57")
    expect(opened.get_by_role("button", name="Leave out one row more")).to_be_focused()


def test_a_row_with_a_hole_is_not_gone_on_with(opened: Page) -> None:
    begin(opened, 9)
    bits = expected(opened)
    answer(opened, [*bits[:-1], 1 - bits[-1]])
    go_on = opened.get_by_role("button", name="Go on with my row")
    assert go_on.count() == 1
    opened.keyboard.press("Backspace")
    assert go_on.count() == 0
    assert verdict(opened) == ""
