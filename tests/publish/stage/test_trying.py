"""Trying other numbers, sizes, states at power-up and ways of showing on a stage, in Chromium."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, Final

import pytest

from edgewise import catalogue
from edgewise.bits import X
from edgewise.engines import reference
from tests.publish.stages import (
    build,
    drawn,
    fill,
    row,
)
from tests.web import telling

if TYPE_CHECKING:
    from playwright.sync_api import Page


# ---------------------------------------------------------------------- trying


def test_other_numbers_are_run_here(opened: Page) -> None:
    opened.get_by_text("Try other numbers").click()
    fill(opened, "a", "63")
    fill(opened, "b", "1")
    opened.locator(".ruler").focus()
    opened.keyboard.press("End")
    trace = reference.run(catalogue.design("serial-adder", n=6), {"a": 63, "b": 1})
    assert drawn(opened, "S") == str(trace.word("S", 12)) == "000000"
    assert drawn(opened, "C") == "1"
    assert opened.locator(".told").inner_text() == telling.told(trace, 12)
    assert "b\u00a0=\u00a01" in opened.locator(".stage caption").inner_text()
    states = opened.locator(".rechecked li").evaluate_all("all => all.map((one) => one.className)")
    assert states == ["holds", "holds", "holds", "holds"]


def test_a_claim_that_fails_for_the_new_numbers_says_so(opened: Page) -> None:
    opened.get_by_text("Try other numbers").click()
    fill(opened, "a", "1")
    last = opened.locator(".rechecked li").last
    assert last.get_attribute("class") == "fails"
    assert "does not hold for these numbers: C after 12 is 0; expected 1" in last.inner_text()


def test_another_size_has_its_own_figure(opened: Page) -> None:
    opened.get_by_text("Try other numbers").click()
    opened.get_by_label("n", exact=True).select_option("32")
    fill(opened, "a", str(2**32 - 1))
    fill(opened, "b", "1")
    opened.locator(".ruler").focus()
    opened.keyboard.press("End")
    assert row(opened) == 64
    assert (opened.locator(".picture svg").text_content() or "").count("= 0") == 1  # S
    assert drawn(opened, "C") == "1"
    fill(opened, "a", "5")
    said = opened.locator(".rechecked li").first.inner_text()
    assert "does not hold for these numbers: S after 12 is 000" in said
    assert "(0); (a + b) mod 64 is 6" in said


@pytest.mark.parametrize(
    ("written", "told"),
    [
        ("64", "Operand a is 64, which is too large; the range is 0..63 in 6 bits."),
        ("-1", "Operand a is -1, which is negative; the range is 0..63 in 6 bits."),
        ("", "Operand a is missing; give a number in 0..63."),
        ("six", "Operand a: “six” is not a whole number; the range is 0..63 in 6 bits."),
        ("<b>", "Operand a: “<b>” is not a whole number; the range is 0..63 in 6 bits."),
    ],
)
def test_a_number_out_of_range_is_refused_with_the_range(
    opened: Page, written: str, told: str
) -> None:
    opened.get_by_text("Try other numbers").click()
    fill(opened, "a", written)
    assert opened.get_by_role("alert").inner_text() == told
    assert "a\u00a0=\u00a022" in opened.locator(".stage caption").inner_text()
    assert opened.get_by_label("a", exact=True).get_attribute("aria-invalid") == "true"
    fill(opened, "a", "0b101")
    assert opened.locator(".wrong").inner_text() == ""
    assert "a\u00a0=\u00a05" in opened.locator(".stage caption").inner_text()


def test_the_longest_carry_and_the_way_back(opened: Page) -> None:
    opened.get_by_text("Try other numbers").click()
    opened.get_by_role("button", name="Longest carry").click()
    assert opened.get_by_label("a", exact=True).input_value() == "63"
    opened.get_by_role("button", name="At random").click()
    opened.get_by_label("n", exact=True).select_option("8")
    opened.get_by_role("button", name="The lesson's numbers").click()
    assert opened.get_by_label("a", exact=True).input_value() == "22"
    assert row(opened) == 0
    assert opened.locator(".ruler .mark").count() == 13


def test_nothing_is_claimed_of_numbers_that_can_not_be_run(opened: Page) -> None:
    opened.get_by_text("Try other numbers").click()
    counted = opened.locator(".counted")
    assert counted.inner_text() == "Of the lesson's 4 claims 4 hold for these numbers."
    fill(opened, "a", "64")
    claims = opened.locator(".rechecked li")
    assert claims.evaluate_all("all => all.map((one) => one.className)") == ["unchecked"] * 4
    assert claims.first.locator(".how").inner_text() == "not checked for these numbers"
    assert counted.inner_text() == (
        "The claims are checked again when every operand is in its range."
    )
    fill(opened, "a", "1")
    assert claims.last.get_attribute("class") == "fails"
    assert counted.inner_text() == (
        "Of the lesson's 4 claims 3 hold for these numbers, 1 does not."
    )


def test_operands_that_do_not_fit_a_new_size_keep_their_low_bits(opened: Page) -> None:
    opened.get_by_text("Try other numbers").click()
    opened.get_by_label("n", exact=True).select_option("4")
    assert opened.locator(".also").inner_text() == (
        "a = 22 does not fit in 4 bits; its low 4 bits make 6."
        " b = 43 does not fit in 4 bits; its low 4 bits make 11."
    )
    trace = reference.run(catalogue.design("serial-adder", n=4), {"a": 6, "b": 11})
    opened.locator(".ruler").focus()
    opened.keyboard.press("End")
    assert opened.locator(".told").inner_text() == telling.told(trace, 8)
    assert opened.locator(".wrong").inner_text() == ""


def offered(page: Page, folder: Path, front: str) -> bool:
    page.goto(build(folder, f"---\ntitle: Offered\n{front}\n---\nIn short.\n"))
    page.get_by_text("Try other numbers").click()
    return page.get_by_role("button", name="Longest carry").count() == 1


def test_a_longest_carry_is_offered_where_operands_are_added(tmp_path: Path, page: Page) -> None:
    times = "design: shift-add-multiplier\nwith: {n: 4}\noperands: {a: 11, b: 13}"
    assert not offered(page, tmp_path, times)
    less = "design: serial-subtractor\nwith: {n: 4}\noperands: {a: 11, b: 9}"
    assert not offered(page, tmp_path, less)
    ripple = "design: ripple-carry-adder\nwith: {n: 4}\noperands: {a: 9, b: 3, carry_in: 1}"
    assert offered(page, tmp_path, ripple)
    page.get_by_role("button", name="Longest carry").click()
    values = {name: page.get_by_label(name, exact=True).input_value() for name in OPERANDS}
    assert values == {"a": "15", "b": "1", "carry_in": "1"}


OPERANDS: Final = ("a", "b", "carry_in")

FERRY: Final = """\
---
title: Ferry decks
design: serial-accumulator
with: {n: 6, x: 3}
operands: {w: [13, 11, 14]}
---
```stage
open: [FA]
columns: [A, C]
```
"""


def sizes_shown(page: Page) -> dict[str, str]:
    return {name: page.get_by_label(name, exact=True).input_value() for name in ("n", "x", "m")}


def test_each_parameter_is_chosen_by_itself(tmp_path: Path, page: Page) -> None:
    page.goto(build(tmp_path, FERRY))
    page.get_by_text("Try other numbers").click()
    page.get_by_label("x", exact=True).select_option("5")
    page.get_by_label("n", exact=True).select_option("8")
    assert sizes_shown(page) == {"n": "8", "x": "5", "m": "8"}
    assert page.locator(".also").inner_text() == "This page has n = 8 only with m = 8."
    assert page.locator(".ruler .mark").count() == 1 + 8 * 6
    page.get_by_label("w(5)", exact=True).fill("100")
    page.locator(".ruler").focus()
    page.keyboard.press("End")
    operands = {"w(1)": 13, "w(2)": 11, "w(3)": 14, "w(4)": 0, "w(5)": 100}
    trace = reference.run(catalogue.design("serial-accumulator", n=8, x=5), operands)
    assert page.locator(".told").inner_text() == telling.told(trace, 48)
    page.get_by_role("button", name="The lesson's numbers").click()
    assert sizes_shown(page) == {"n": "6", "x": "3", "m": "6"}
    assert page.locator(".also").inner_text() == ""


def test_the_state_at_power_up_can_be_chosen(opened: Page) -> None:
    opened.get_by_text("Try other numbers").click()
    start = opened.get_by_label("At power-up")
    assert start.locator("option").all_inner_texts() == [
        "as the circuit says",
        "unknown (X)",
        "all 0",
        "all 1",
    ]
    design = catalogue.design("serial-adder", n=6)
    for text, bit in (("unknown (X)", X), ("all 0", 0), ("all 1", 1)):
        start.select_option(text)
        stored = tuple(replace(one, start=bit) for one in design.netlist.flip_flops)
        other = replace(design, altered=replace(design.netlist, flip_flops=stored))
        trace = reference.run(other, {"a": 22, "b": 43})
        for key, at in (("Home", 0), ("End", 12)):
            opened.locator(".ruler").focus()
            opened.keyboard.press(key)
            assert [drawn(opened, name) for name in "ABCS"] == [
                str(trace.word(name, at)) for name in "ABCS"
            ]
    assert "at power-up all\u00a01" in opened.locator(".stage caption").inner_text()
    start.select_option("unknown (X)")
    first = opened.locator(".rechecked li").first
    assert first.get_attribute("class") == "fails"
    opened.get_by_role("button", name="The lesson's numbers").click()
    assert start.input_value() == "-1"
    assert first.get_attribute("class") == "holds"


# ---------------------------------------------------------------------- showing


def test_symbols_change_and_everything_keeps_its_place(opened: Page) -> None:
    opened.locator(".ruler").focus()
    opened.keyboard.press("ArrowRight")
    places = "() => [...document.querySelectorAll('.picture g.part')].map(\
 (part) => part.getAttribute('transform'))"
    before = opened.evaluate(places)
    opened.get_by_text("Change how it is shown").click()
    opened.get_by_label("Symbols").select_option("rectangles")
    assert "SRG6" in (opened.locator(".picture svg").text_content() or "")
    assert opened.evaluate(places) == before != []
    assert row(opened) == 1
    assert drawn(opened, "B") == "100000"
    opened.get_by_label("Symbols").select_option("distinctive shapes")
    assert "SRG6" not in (opened.locator(".picture svg").text_content() or "")


def test_a_part_drawn_open_can_be_closed(tmp_path: Path, page: Page) -> None:
    page.goto(build(tmp_path, FERRY))
    page.get_by_text("Change how it is shown").click()
    assert "X1" in page.locator(".picture svg").inner_html()
    page.get_by_label("FA", exact=True).select_option("closed")
    assert "X1" not in page.locator(".picture svg").inner_html()
    page.get_by_text("Try other numbers").click()
    page.get_by_label("n", exact=True).select_option("4")
    assert "X1" not in page.locator(".picture svg").inner_html()
    page.get_by_label("FA", exact=True).select_option("open")
    assert "X1" in page.locator(".picture svg").inner_html()


def test_the_table_can_tell_numbers_beside_bits(opened: Page) -> None:
    opened.get_by_text("Change how it is shown").click()
    opened.get_by_label("Words in the table").select_option("bits and numbers")
    trace = reference.run(catalogue.design("serial-adder", n=6), {"a": 22, "b": 43})
    cells = opened.locator('.stage .edge-table tr[data-row="6"] .number').all_inner_texts()
    assert [cell.strip() for cell in cells] == [f"= {trace.word(n, 6).value}" for n in "ABS"]
    unknown = opened.locator('.stage .edge-table tr[data-row="7"] .number').first
    assert unknown.inner_text().strip() == "= ?"


def test_what_the_lesson_left_open_follows_the_width(tmp_path: Path, page: Page) -> None:
    front = "design: serial-accumulator\nwith: {n: 5, x: 2}\noperands: {w: [9, 11]}"
    page.goto(build(tmp_path, f"---\ntitle: Two decks\n{front}\n---\nIn short.\n"))
    page.get_by_text("Try other numbers").click()
    for n in ("4", "8", "32"):
        page.get_by_label("n", exact=True).select_option(n)
        assert sizes_shown(page) == {"n": n, "x": "2", "m": n}
    page.get_by_label("n", exact=True).select_option("5")
    page.get_by_label("x", exact=True).select_option("1")
    page.get_by_label("x", exact=True).select_option("2")
    assert page.get_by_label("w(2)", exact=True).input_value() == "11"
