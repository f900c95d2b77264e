"""The stage as a learner steps through it, in Chromium; the page around it; and its data."""

from __future__ import annotations

import json
import re
from pathlib import Path
from typing import TYPE_CHECKING, Any, Final

import pytest
from lxml import html as lxml_html
from playwright.sync_api import expect

from edgewise import catalogue, lesson
from edgewise.engines import reference
from edgewise.errors import EdgewiseError
from edgewise.publish.stage import custom_element, javascript
from tests.publish.stages import (
    LESSON,
    answer,
    begin,
    build,
    drawn,
    expected,
    in_table,
    row,
)
from tests.web.telling import told

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page


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
        assert opened.locator(".told").inner_text() == told(trace, k)
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
    assert (
        opened.locator(".ruler").get_attribute("aria-valuetext")
        == "after edge 9, with the inputs of phase add"
    )


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


def test_an_address_of_no_row_is_mended(page: Page, built: str) -> None:
    page.goto(f"{built}#row=99")
    assert row(page) == 12
    expect(page).to_have_url(re.compile("#row=12$"))


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
    moving = re.compile(r"^[01]$")
    expect(opened.locator(".ruler")).not_to_have_attribute("aria-valuenow", moving)
    opened.get_by_role("button", name="Pause").click()
    here = row(opened)
    opened.wait_for_timeout(700)
    assert row(opened) == here
    assert opened.locator(".told").get_attribute("aria-live") == "polite"


@pytest.mark.parametrize("way", ["Back", "ruler", "timing"])
def test_who_moves_stops_the_playing(opened: Page, way: str) -> None:
    opened.get_by_label("Speed").select_option("quick")
    opened.get_by_role("button", name="Play").click()
    expect(opened.locator(".ruler")).not_to_have_attribute("aria-valuenow", "0")
    if way == "Back":
        opened.get_by_role("button", name="Back").click()
    elif way == "ruler":
        opened.locator('.ruler [data-row="9"]').click()
    else:
        opened.locator(".timing .box svg").click(position={"x": 60, "y": 60})
    here = row(opened)
    opened.wait_for_timeout(700)
    assert row(opened) == here
    assert opened.get_by_role("button", name="Play").count() == 1


def test_the_focus_stays_on_the_button_at_either_end(opened: Page) -> None:
    for name, key, end in (("Next edge", "End", 12), ("Back", "Home", 0)):
        opened.locator(".ruler").focus()
        opened.keyboard.press(key)
        opened.keyboard.press("ArrowLeft" if end else "ArrowRight")
        button = opened.get_by_role("button", name=name)
        button.focus()
        opened.keyboard.press("Enter")
        assert row(opened) == end
        expect(button).to_be_focused()
        expect(button).to_have_attribute("aria-disabled", "true")
        opened.keyboard.press("ArrowLeft" if end else "ArrowRight")
        assert row(opened) == (end - 1 if end else 1)
        expect(button).to_have_attribute("aria-disabled", "false")


def test_only_what_a_store_takes_travels_to_it(tmp_path: Path, page: Page) -> None:
    lesson_text = """\
---
title: Boxes and rows
design: shift-add-multiplier
with: {n: 4}
operands: {a: 11, b: 13}
---
Stacked.
"""
    page.goto(build(tmp_path, lesson_text))
    trace = reference.run(catalogue.design("shift-add-multiplier", n=4), {"a": 11, "b": 13})
    for at in range(1, trace.edges + 1):
        ends = page.evaluate(
            """(row) => {
              const { stage } = document.querySelector("edgewise-stage");
              stage.go(row - 1, false);
              const taken = [];
              const { travel } = stage.figure;
              stage.figure.travel = (before, stores) => {
                for (const [, , store, port] of stage.figure.skeleton.ways) {
                  const name = stage.size.stores.find(([, , q]) => q.includes(store))[0];
                  if (stores(store, port)) taken.push(`${name}.${port}`);
                }
                travel.call(stage.figure, before, stores);
              };
              stage.go(row, true);
              delete stage.figure.travel;
              return taken;
            }""",
            at,
        )
        loading = str(trace.word("load", at - 1)) == "1"
        assert ("Q.d" in ends, "Q.in" in ends) == (loading, not loading)


def test_a_link_to_a_row_leads_to_the_stage(page: Page, built: str) -> None:
    page.set_viewport_size({"width": 1000, "height": 500})
    page.goto(f"{built}#row=7")
    assert row(page) == 7
    expect(page.locator(".picture")).to_be_in_viewport()


def test_a_figure_too_small_to_read_can_be_enlarged(browser: Browser, built: str) -> None:
    for width, offered in ((1280, False), (600, True)):
        context = browser.new_context(viewport={"width": width, "height": 800})
        page = context.new_page()
        page.goto(built)
        larger = page.get_by_role("button", name="Larger figure")
        expect(larger).to_be_visible(visible=offered)
        if offered:
            small = page.locator(".picture svg").evaluate("one => one.clientWidth")
            larger.click()
            assert page.locator(".picture svg").evaluate("one => one.clientWidth") > small
            expect(larger).to_have_attribute("aria-pressed", "true")
        context.close()


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
    assert heads == ["phase", "after edge", "A", "S"]
    page.get_by_text("Predict the next rows").click()
    fade = page.get_by_label("Rows left out at the end")
    assert fade.locator("option").all_inner_texts() == ["1", "2", "3"]
    assert page.get_by_role("button", name="Begin after the row shown").count() == 0
    assert "enable" in (page.locator(".picture svg").text_content() or "")  # no clock is hidden
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


def test_a_figure_of_the_start_with_a_caption_gives_way_and_keeps_its_words(
    tmp_path: Path, page: Page
) -> None:
    told = "Before the first edge, both trays are empty."
    page.goto(build(tmp_path, LESSON.replace("after: 0", f"after: 0\ncaption: {told}")))
    page.wait_for_selector(".picture svg")
    assert page.get_by_text(told).is_visible()
    figures = page.locator("main > figure svg")
    assert [figure.is_visible() for figure in figures.all()] == [False]
    page.get_by_role("button", name="Next edge").click()
    assert not page.get_by_text(told).is_visible()  # it is of the start alone
    page.get_by_role("button", name="Back").click()
    assert page.get_by_text(told).is_visible()


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
    assert custom_element.element(trace) != ""
    long = catalogue.design("serial-accumulator", n=64, x=8)
    trace = reference.run(long, {o.name: 0 for o in long.operands})
    assert custom_element.element(trace) == ""


@pytest.mark.parametrize("name", catalogue.ORDER)
def test_every_catalogue_design_has_a_stage_that_works(page: Page, name: str) -> None:
    blueprint = catalogue.find(name)
    design = blueprint.design()
    trace = reference.run(design, {o.name: 1 for o in design.operands})
    wrong: list[str] = []
    page.on("pageerror", lambda error: wrong.append(str(error)))
    made = custom_element.element(trace, blueprint)
    page.set_content(f"<main>{made}</main><style>{custom_element.style()}</style>")
    page.add_script_tag(content=custom_element.module(), type="module")
    page.wait_for_selector(".stage .edge-table")
    if trace.edges:
        page.locator(".ruler").focus()
        page.keyboard.press("End")
        assert row(page) == trace.edges
    assert page.locator(".told").inner_text() == told(trace, trace.edges)
    assert wrong == []


def test_the_script_imports_nothing() -> None:
    text = javascript.script("page")
    assert not re.search(r"\b(import|export)\b", text)
    assert "</script" not in text


def test_a_claim_about_the_inside_of_a_part_finds_its_name(tmp_path: Path, page: Page) -> None:
    text = LESSON.replace("C after 12 == 1\n", "FA.X1.out after 7 == 0\n")
    page.goto(build(tmp_path, text))
    page.get_by_text("Try other numbers").click()
    assert page.locator(".rechecked li").last.get_attribute("class") == "holds"


def test_the_data_can_be_read_as_json() -> None:
    trace = reference.run(catalogue.design("serial-adder", n=4), {"a": 6, "b": 3})
    made = custom_element.element(trace, catalogue.find("serial-adder"))
    text = re.search(r'<script type="application/json">(.*?)</script>', made, re.DOTALL)
    assert text
    data = json.loads(text[1])
    assert [size["parameters"]["n"] for size in data["sizes"]] == [4, 8, 16, 32]
    assert data["own"] == {"size": 0, "operands": {"a": "6", "b": "3"}, "row": 0}
