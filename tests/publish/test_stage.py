"""The stage as a learner meets it, in Chromium: step, try, predict; and what is in its data."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, Any, Final

import pytest
from lxml import html as lxml_html
from playwright.sync_api import expect

from edgewise import catalogue, lesson
from edgewise.bits import X
from edgewise.engines import reference
from edgewise.errors import EdgewiseError
from edgewise.publish import page as pages
from edgewise.publish import script, sentences, stage

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page

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


@pytest.fixture(scope="module")
def built(tmp_path_factory: pytest.TempPathFactory) -> str:
    """The address of a page with a stage."""
    return build(tmp_path_factory.mktemp("stage"), LESSON)


def build(folder: Path, text: str) -> str:
    path = folder / "lesson.md"
    path.write_text(text, encoding="utf-8")
    return pages.build(path, folder / "out").as_uri()


@pytest.fixture
def opened(page: Page, built: str) -> Iterator[Page]:
    """The page, opened; whatever goes wrong in its script fails the test."""
    wrong: list[str] = []
    page.on("pageerror", lambda error: wrong.append(str(error)))
    page.on("console", lambda said: wrong.append(said.text) if said.type == "error" else None)
    page.goto(built)
    yield page
    assert wrong == []


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


# ---------------------------------------------------------------------- stepping


def test_a_step_moves_everything(opened: Page) -> None:
    assert row(opened) == 0
    assert "At the start: A = 000000" in opened.locator(".told").inner_text()
    opened.get_by_role("button", name="Next edge").click()
    assert row(opened) == 1
    assert in_table(opened) == "1"
    assert drawn(opened, "B") == "100000"
    cursor = opened.locator(".timing .cursor")
    first = float(cursor.get_attribute("x") or "")
    opened.get_by_role("button", name="Next edge").click()
    assert float(cursor.get_attribute("x") or "") > first
    opened.get_by_role("button", name="Back").click()
    assert row(opened) == 1
    expect(opened).to_have_url(re.compile("#row=1$"))


def test_every_row_shows_the_values_of_the_trace(opened: Page) -> None:
    trace = reference.run(catalogue.design("serial-adder", n=6), {"a": 22, "b": 43})
    opened.locator(".ruler").focus()
    for k in range(13):
        assert row(opened) == k
        for name in ("A", "B", "C", "S", "shift", "a_in"):
            assert drawn(opened, name) == str(trace.word(name, k))
        changed = opened.locator(".picture .cell.changed").count()
        words = ("A", "B", "C", "S", "shift", "a_in", "b_in")
        assert changed == sum(trace.changed(name, k).ones.bit_count() for name in words)
        assert opened.locator(".told").inner_text() == sentences.told(trace, k)
        opened.keyboard.press("ArrowRight")
    assert row(opened) == 12


def test_keys_move(opened: Page) -> None:
    opened.locator(".ruler").focus()
    for key, wanted in (
        ("End", 12),
        ("ArrowLeft", 11),
        ("ArrowDown", 10),
        ("ArrowUp", 11),
        ("Home", 0),
        ("ArrowLeft", 0),
        ("ArrowRight", 1),
        ("PageUp", 5),
    ):
        opened.keyboard.press(key)
        assert row(opened) == wanted
    opened.get_by_role("button", name="Next edge").focus()
    opened.keyboard.press("ArrowRight")
    assert row(opened) == 6


def test_a_click_on_an_edge_moves_there(opened: Page) -> None:
    opened.locator('.ruler [data-row="9"]').click()
    assert row(opened) == 9
    assert opened.locator(".ruler").get_attribute("aria-valuetext") == "after edge 9, phase add"


def test_a_click_in_the_timing_diagram_moves_there(opened: Page) -> None:
    pitch = opened.evaluate("document.querySelector('edgewise-stage').stage.timing.pitch")
    opened.locator(".timing .box svg").click(position={"x": 10 + 4.5 * pitch, "y": 90})
    assert row(opened) == 4


def test_the_address_keeps_the_row(page: Page, built: str) -> None:
    page.goto(f"{built}#row=8")
    assert row(page) == 8
    page.reload()
    assert row(page) == 8
    page.evaluate("location.hash = '#row=3'")
    expect(page.locator(".ruler")).to_have_attribute("aria-valuenow", "3")
    page.goto("about:blank")
    page.goto(f"{built}#row=999999")
    assert row(page) == 12


def test_the_bits_travel_for_a_moment(opened: Page) -> None:
    moving = opened.evaluate(
        """() => {
          document.querySelector("edgewise-stage").stage.go(1, true);
          return [...document.querySelectorAll(".traveller")].map((one) => one.textContent);
        }"""
    )
    assert sorted(moving) == ["0", "0", "0", "1"]  # b_in is 1
    tokens = opened.locator(".travellers .traveller")
    expect(tokens).to_have_count(0)
    opened.keyboard.press("ArrowLeft")
    assert tokens.count() == 0


def test_nothing_travels_where_motion_is_not_wanted(browser: Browser, built: str) -> None:
    context = browser.new_context(reduced_motion="reduce")
    page = context.new_page()
    page.goto(built)
    page.get_by_role("button", name="Next edge").click()
    assert row(page) == 1
    assert page.locator(".traveller").count() == 0
    context.close()


def test_it_plays_and_pauses(opened: Page) -> None:
    opened.get_by_label("Speed").select_option("quick")
    opened.get_by_role("button", name="Play").click()
    assert opened.locator(".told").get_attribute("aria-live") == "off"
    expect(opened.locator(".ruler")).to_have_attribute("aria-valuenow", "2")
    opened.get_by_role("button", name="Pause").click()
    here = row(opened)
    opened.wait_for_timeout(700)
    assert row(opened) == here
    assert opened.locator(".told").get_attribute("aria-live") == "polite"


def finger(page: Page, place: str, dx: int) -> None:
    """Draw a finger across an element."""
    page.evaluate(
        """([place, dx]) => {
          const element = document.querySelector(place);
          const { left, top, width, height } = element.getBoundingClientRect();
          const [x, y] = [left + width / 2, top + height / 2];
          const touch = (by) => new Touch({
            identifier: 1, target: element, clientX: x + by, clientY: y });
          const send = (kind, touches, changed) => element.dispatchEvent(new TouchEvent(kind, {
            bubbles: true, cancelable: true, touches, changedTouches: changed }));
          send("touchstart", [touch(0)], [touch(0)]);
          send("touchend", [], [touch(dx)]);
        }""",
        [place, dx],
    )


@pytest.mark.parametrize("place", [".picture", ".told", ".ruler"])
def test_a_finger_moves(browser: Browser, built: str, place: str) -> None:
    context = browser.new_context(viewport={"width": 390, "height": 844}, has_touch=True)
    page = context.new_page()
    page.goto(f"{built}#row=5")
    finger(page, place, -90)
    assert row(page) == 6
    finger(page, place, 90)
    finger(page, place, 90)
    assert row(page) == 4
    finger(page, place, 12)
    assert row(page) == 4
    page.locator('.ruler [data-row="7"]').tap()
    assert row(page) == 7
    context.close()


# ---------------------------------------------------------------------- trying


def fill(page: Page, name: str, value: str) -> None:
    page.get_by_label(name, exact=True).fill(value)


def test_other_numbers_are_run_here(opened: Page) -> None:
    opened.get_by_text("Try other numbers").click()
    fill(opened, "a", "63")
    fill(opened, "b", "1")
    opened.locator(".ruler").focus()
    opened.keyboard.press("End")
    trace = reference.run(catalogue.design("serial-adder", n=6), {"a": 63, "b": 1})
    assert drawn(opened, "S") == str(trace.word("S", 12)) == "000000"
    assert drawn(opened, "C") == "1"
    assert opened.locator(".told").inner_text() == sentences.told(trace, 12)
    assert "b\u00a0=\u00a01" in opened.locator(".stage caption").inner_text()
    states = opened.locator(".rechecked li").evaluate_all("all => all.map((one) => one.className)")
    assert states == ["holds", "holds", "holds", "holds"]


def test_a_claim_that_fails_for_the_new_numbers_says_so(opened: Page) -> None:
    opened.get_by_text("Try other numbers").click()
    fill(opened, "a", "1")
    last = opened.locator(".rechecked li").last
    assert last.get_attribute("class") == "fails"
    assert "does not hold for these numbers: C after 12 is 0 (0); expected 1" in last.inner_text()


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
        ("64", "operand a is 64, which is too large; the range is 0..63 in 6 bits."),
        ("-1", "operand a is -1, which is negative; the range is 0..63 in 6 bits."),
        ("", "operand a is missing; give a number in 0..63."),
        ("six", "operand a: “six” is not a whole number; the range is 0..63 in 6 bits."),
        ("<b>", "operand a: “<b>” is not a whole number; the range is 0..63 in 6 bits."),
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
    assert page.locator(".also").inner_text() == "With n = 8 this page has m = 8."
    assert page.locator(".ruler .mark").count() == 1 + 8 * 6
    page.get_by_label("w(5)", exact=True).fill("100")
    page.locator(".ruler").focus()
    page.keyboard.press("End")
    operands = {"w(1)": 13, "w(2)": 11, "w(3)": 14, "w(4)": 0, "w(5)": 100}
    trace = reference.run(catalogue.design("serial-accumulator", n=8, x=5), operands)
    assert page.locator(".told").inner_text() == sentences.told(trace, 48)
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


# ---------------------------------------------------------------------- predicting


def expected(page: Page) -> list[int]:
    """The bits that follow, in the order of the blanks."""
    return list(
        page.evaluate(
            """() => {
              const { ahead } = document.querySelector("edgewise-stage").stage;
              return ahead.blanks.map(({ flipFlop }) => ahead.expected[flipFlop]);
            }"""
        )
    )


def answer(page: Page, bits: list[int]) -> None:
    page.locator(".blanks .bit").first.focus()
    for bit in bits:
        page.keyboard.press("01x"[bit])


def begin(page: Page, at: int) -> None:
    page.locator(f'.ruler [data-row="{at}"]').click()
    page.get_by_text("Work it out ahead").click()
    page.get_by_role("button", name="Begin after the row shown").click()


def verdict(page: Page) -> str:
    return page.locator(".verdict").inner_text()


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
    assert cells.nth(1).get_attribute("aria-label") == "A bit 4, 1, wrong"
    assert verdict(opened) == "A bit 4: 1, not what follows."


def test_what_follows_a_wrong_bit_is_marked_against_the_own_row(opened: Page) -> None:
    begin(opened, 7)
    labels = opened.evaluate(
        "document.querySelector('edgewise-stage').stage.ahead.blanks.map(({ label }) => label)"
    )
    carry = labels.index("C")
    bits = expected(opened)
    bits[carry] = 1 - bits[carry]
    answer(opened, bits)
    assert verdict(opened).startswith("In row 8, C differs from what follows.")
    opened.get_by_role("button", name="Go on with my row").click()
    assert row(opened) == 8
    assert drawn(opened, "C") == str(bits[carry])
    assert opened.locator(".told").inner_text().startswith("(Your own rows.)")
    design = catalogue.design("serial-adder", n=6)
    trace = reference.run(design, {"a": 22, "b": 43})
    other = expected(opened)
    assert other != [  # what the true row would have given
        trace.rows[9][net] for store in sentences.stores(design) for net in reversed(store.q)
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
def test_a_row_that_fits_one_known_slip_is_told_its_idea(
    opened: Page, name: str, thought: str, n: int
) -> None:
    from edgewise.study import slips

    design = catalogue.design("serial-adder", n=n)
    if n != 6:  # the lesson's own
        opened.get_by_text("Try other numbers").click()
        opened.get_by_label("n", exact=True).select_option(str(n))
    begin(opened, n + 2)
    believed = {slip.name: other for slip, other in slips.applicable(design)}[name]
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
            for store in sentences.stores(design)
            for net in reversed(store.q)
        ],
    )
    assert f"Your row is just what would come out if this were so: “{thought}”" in verdict(opened)


def test_a_row_that_fits_no_slip_is_told_none(opened: Page) -> None:
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
    opened.get_by_text("Work it out ahead").click()
    opened.get_by_role("button", name="Begin", exact=True).click()
    assert opened.locator(".ruler .closed").count() == 1
    answer(opened, expected(opened))
    opened.get_by_role("button", name="Leave out one row more").click()
    assert opened.locator(".ruler .closed").count() == 2
    opened.reload()
    opened.get_by_text("Work it out ahead").click()
    assert opened.get_by_label("Rows left out at the end").input_value() == "2"
    assert "19 of 19" in opened.locator(".tally").inner_text()
    opened.get_by_role("button", name="Forget my progress").click()
    assert verdict(opened) == "Your progress on this page is forgotten."
    assert opened.evaluate("localStorage.length") == 0
    opened.reload()
    opened.get_by_text("Work it out ahead").click()
    assert opened.get_by_label("Rows left out at the end").input_value() == "1"


def test_a_storage_with_something_else_in_it_does_no_harm(page: Page, built: str) -> None:
    page.goto(built)
    page.evaluate("localStorage.setItem(`edgewise ${location.pathname} stage`, '{\"level\": []}')")
    page.reload()
    page.get_by_text("Work it out ahead").click()
    assert page.get_by_label("Rows left out at the end").input_value() == "1"


# ---------------------------------------------------------------------- the block

BLOCK: Final = """\
---
title: Two bakery counters
design: serial-adder
with: {{n: 4}}
operands: {{a: 6, b: 3}}
---
```stage
{options}
```
"""


def test_the_block_has_options(tmp_path: Path, page: Page) -> None:
    options = "after: 5\ncolumns: [A, S]\nclock: hidden\nopen: FA\nfade: 1..3"
    page.goto(build(tmp_path, BLOCK.format(options=options)))
    assert row(page) == 5
    heads = page.locator(".stage .edge-table thead th").all_inner_texts()
    assert heads == ["phase", "edge", "A", "S"]
    page.get_by_text("Work it out ahead").click()
    fade = page.get_by_label("Rows left out at the end")
    assert fade.locator("option").all_inner_texts() == ["1", "2", "3"]
    assert page.get_by_role("button", name="Begin after the row shown").count() == 0
    assert "enable" not in (page.locator(".picture svg").text_content() or "")
    assert "X1" in page.locator(".picture svg").inner_html()


@pytest.mark.parametrize(
    ("options", "told"),
    [
        ("fade: 2..3", "8:7: fade: found 2..3, expected 1..k, such as 1..3"),
        ("fade: 9", "8:7: fade: 9 rows can't be left out; the last row is 8"),
        ("fade: some", "8:7: fade: found some, expected 1..k, such as 1..3"),
        ("after: 9", "8:8: there is no row 9: the rows are 0..8"),
    ],
)
def test_wrong_options_are_refused(tmp_path: Path, options: str, told: str) -> None:
    path = tmp_path / "lesson.md"
    path.write_text(BLOCK.format(options=options), encoding="utf-8")
    with pytest.raises(EdgewiseError) as wrong:
        lesson.check(path)
    assert str(wrong.value) == f"{path}:{told}"


def test_two_stages_keep_apart(tmp_path: Path, page: Page) -> None:
    text = BLOCK.format(options="after: 2") + "\n```stage\nafter: 4\n```\n"
    page.goto(build(tmp_path, text))
    rulers = page.locator(".ruler")
    assert [rulers.nth(i).get_attribute("aria-valuenow") for i in (0, 1)] == ["2", "4"]
    rulers.nth(1).focus()
    page.keyboard.press("ArrowRight")
    rulers.nth(0).focus()
    page.keyboard.press("ArrowRight")
    expect(page).to_have_url(re.compile("#stage-2-row=5&row=3$"))
    page.reload()
    assert [rulers.nth(i).get_attribute("aria-valuenow") for i in (0, 1)] == ["3", "5"]


# ---------------------------------------------------------------------- the page around it


def test_every_page_has_a_stage_after_its_first_figure(tmp_path: Path) -> None:
    tree: Any = lxml_html.fromstring(
        Path(build(tmp_path, LESSON).removeprefix("file://")).read_text("utf-8")
    )
    (made,) = tree.xpath("//edgewise-stage")
    assert made.xpath("preceding-sibling::*[1]/@class") == ["drawing repeated"]


def test_a_figure_of_the_start_gives_way_to_the_stage(
    tmp_path: Path, browser: Browser, built: str
) -> None:
    asked = {"as it is": built}
    for name, options in {
        "later": "after: 6",
        "worded": "after: 0\ncaption: Our own words.",
    }.items():
        folder = tmp_path / name
        folder.mkdir()
        asked[name] = build(folder, LESSON.replace("after: 0", options))
    shown = {}
    for scripts in (True, False):
        context = browser.new_context(java_script_enabled=scripts)
        page = context.new_page()
        for name, address in asked.items():
            page.goto(address)
            shown[name, scripts] = page.locator("figure.drawing").first.is_visible()
        context.close()
    assert shown == {
        ("as it is", True): False,
        ("later", True): True,
        ("worded", True): True,
        ("as it is", False): True,
        ("later", False): True,
        ("worded", False): True,
    }


def test_without_scripts_the_own_run_remains(browser: Browser, built: str) -> None:
    context = browser.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto(built)
    still = page.locator("edgewise-stage .still")
    assert still.locator("svg").is_visible()
    assert still.locator("tbody tr").count() == 13
    assert page.locator(".ruler").count() == 0
    context.close()


def test_no_request_leaves_the_page(page: Page, built: str) -> None:
    asked: list[str] = []
    page.on("request", lambda request: asked.append(request.url))
    page.goto(built)
    page.get_by_text("Try other numbers").click()
    page.get_by_role("button", name="At random").click()
    begin(page, 9)
    answer(page, expected(page))
    assert [url for url in asked if not url.startswith("data:")] == [built]


def test_the_policy_lets_no_other_script_run(page: Page, built: str) -> None:
    page.goto(built)
    page.evaluate(
        """() => {
          const script = document.createElement("script");
          script.textContent = "document.title = 'run'";
          document.body.append(script);
        }"""
    )
    assert page.title() == "Two bakery counters"


@pytest.mark.parametrize("width", [320, 640, 1280])
def test_nothing_makes_the_page_scroll_sideways(browser: Browser, built: str, width: int) -> None:
    context = browser.new_context(viewport={"width": width, "height": 700})
    page = context.new_page()
    page.goto(f"{built}#row=7")
    for summary in page.locator(".stage summary").all():
        summary.click()
    page.get_by_role("button", name="Begin after the row shown").click()
    assert page.evaluate("document.documentElement.scrollWidth") <= width
    context.close()


def test_the_print_has_figure_and_whole_table(page: Page, built: str) -> None:
    page.goto(f"{built}#row=9")
    page.emulate_media(media="print")
    assert page.locator(".picture svg").is_visible()
    assert not page.locator(".moves").is_visible()
    assert not page.locator(".ruler").is_visible()
    box = page.locator(".stage .rows")
    assert box.evaluate("box => box.scrollHeight <= box.clientHeight")


# ---------------------------------------------------------------------- data


def test_a_design_too_long_for_a_ruler_has_no_stage() -> None:
    trace = reference.run(catalogue.design("serial-adder", n=64), {"a": 1, "b": 1})
    assert stage.element(trace) != ""
    long = catalogue.design("serial-accumulator", n=64, x=8)
    trace = reference.run(long, {o.name: 0 for o in long.operands})
    assert stage.element(trace) == ""


@pytest.mark.parametrize("name", catalogue.ORDER)
def test_every_catalogue_design_has_a_stage_that_works(page: Page, name: str) -> None:
    blueprint = catalogue.find(name)
    design = blueprint.design()
    trace = reference.run(design, {o.name: 1 for o in design.operands})
    wrong: list[str] = []
    page.on("pageerror", lambda error: wrong.append(str(error)))
    made = stage.element(trace, blueprint)
    page.set_content(f"<main>{made}</main><style>{stage.style()}</style>")
    page.add_script_tag(content=stage.module(), type="module")
    page.wait_for_selector(".stage .edge-table")
    if trace.edges:
        page.locator(".ruler").focus()
        page.keyboard.press("End")
        assert row(page) == trace.edges
    assert page.locator(".told").inner_text() == sentences.told(trace, trace.edges)
    assert wrong == []


def test_the_script_has_every_module_once_and_no_import() -> None:
    text = script.joined("stage")
    assert not re.search(r"^\s*(import|export)\b", text, re.MULTILINE)
    modules = re.findall(r"^const (\w+) = \(\(\) => \{$", text, re.MULTILINE)
    assert len(set(modules)) == len(modules)
    assert {"simulator", "formulas", "sentences", "figure", "ahead", "stage"} <= set(modules)
    assert modules[-1] == "stage"


def test_a_claim_about_the_inside_of_a_part_finds_its_name(tmp_path: Path, page: Page) -> None:
    text = LESSON.replace("C after 12 == 1\n", "FA.X1.out after 7 == 0\n")
    page.goto(build(tmp_path, text))
    page.get_by_text("Try other numbers").click()
    assert page.locator(".rechecked li").last.get_attribute("class") == "holds"


def test_the_data_can_be_read_as_json() -> None:
    trace = reference.run(catalogue.design("serial-adder", n=4), {"a": 6, "b": 3})
    made = stage.element(trace, catalogue.find("serial-adder"))
    text = re.search(r'<script type="application/json">(.*?)</script>', made, re.DOTALL)
    assert text
    data = json.loads(text[1])
    assert [size["parameters"]["n"] for size in data["sizes"]] == [4, 8, 16, 32]
    assert data["own"] == {"size": 0, "operands": {"a": "6", "b": "3"}, "row": 0}
