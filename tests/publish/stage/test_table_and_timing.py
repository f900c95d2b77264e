"""The edge table and the timing diagram of a stage on the screen."""

from __future__ import annotations

from itertools import pairwise
from pathlib import Path
from typing import TYPE_CHECKING, Final

import pytest

from edgewise import catalogue
from edgewise.engines import reference
from edgewise.views.timing.timing_diagram import value
from tests.publish.stages import build

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page

TEXT: Final = """\
---
title: Two bakery counters
design: {design}
with: {{n: {n}}}
operands: {{{operands}}}
---
Counted.

```claim
{claim}
```
"""


def made(folder: Path, design: str, n: int, operands: str, claim: str = "1 == 1") -> str:
    return build(folder, TEXT.format(design=design, n=n, operands=operands, claim=claim))


# ---------------------------------------------------------------- the table


@pytest.mark.parametrize(("n", "x"), [(6, 1), (6, 3), (16, 2)])
@pytest.mark.parametrize("width", [390, 1280])
def test_the_box_scrolls_by_whole_rows(
    browser: Browser, tmp_path: Path, n: int, x: int, width: int
) -> None:
    text = TEXT.format(design="serial-accumulator", n=n, operands="w: 5", claim="1 == 1")
    text = text.replace(f"n: {n}", f"n: {n}, x: {x}").replace("w: 5", f"w: {[5] * x}")
    context = browser.new_context(viewport={"width": width, "height": 900})
    page = context.new_page()
    page.goto(build(tmp_path, text))
    page.locator(".ruler").focus()
    edges = int(page.locator(".ruler").get_attribute("aria-valuemax") or 0)
    moves, before = 0, 0
    for key in [*["ArrowRight"] * edges, *["ArrowLeft"] * edges]:
        page.keyboard.press(key)
        seen = page.evaluate(
            """async () => {
              await new Promise(requestAnimationFrame);
              await new Promise(requestAnimationFrame);
              const box = document.querySelector(".stage .rows");
              const place = (one) => one.getBoundingClientRect();
              const head = place(box.querySelector("thead")).bottom, end = place(box).bottom;
              const cut = (one) => place(one).top < head - 1 && place(one).bottom > head + 1;
              const now = place(box.querySelector("tr.now"));
              return {
                whole: now.top >= head - 1 && now.bottom <= end + 1,
                cut: [...box.querySelectorAll("tbody tr")].filter(cut).length,
                caption: box.scrollTop > 0 && place(box.querySelector("caption")).bottom > head + 1,
                top: box.scrollTop,
              };
            }"""
        )
        assert (seen["whole"], seen["cut"], seen["caption"]) == (True, 0, False)
        moves, before = moves + (seen["top"] != before), seen["top"]
    assert moves < edges  # only when the row could not be seen
    context.close()


def test_without_edges_there_are_words_only(tmp_path: Path, page: Page) -> None:
    page.goto(made(tmp_path, "ripple-carry-adder", 8, "a: 97, b: 40, carry_in: 0"))
    heads = page.locator(".stage .edge-table thead th").all_inner_texts()
    assert heads == ["a", "b", "carry_in", "c", "sum", "carry"]
    assert page.locator(".stage .edge-table caption").inner_text() == (
        "The words, MSB left (n\u00a0=\u00a08, a\u00a0=\u00a097, b\u00a0=\u00a040,"
        " carry_in\u00a0=\u00a00)"
    )
    assert page.locator(".stage .edge-table tbody th").count() == 0
    assert page.locator(".stage .rows").get_attribute("aria-label") == "Table of the words"


@pytest.mark.parametrize("width", [390, 768, 1280])
def test_without_edges_the_buttons_keep_apart(browser: Browser, tmp_path: Path, width: int) -> None:
    context = browser.new_context(viewport={"width": width, "height": 900})
    page = context.new_page()
    page.goto(made(tmp_path, "ripple-carry-adder", 32, "a: 97, b: 40, carry_in: 0"))
    larger = page.get_by_role("button", name="Larger figure").bounding_box()
    project = page.get_by_role("button", name="Project").bounding_box()
    told = page.locator(".told").bounding_box()
    assert larger
    assert project
    assert told
    assert project["y"] - (larger["y"] + larger["height"]) >= 6
    assert told["x"] <= project["x"] <= told["x"] + told["width"]
    middles = [box["x"] + box["width"] / 2 for box in (larger, project)]
    assert middles[0] == pytest.approx(middles[1], abs=1.5)
    context.close()


def test_long_claims_stay_in_their_panel(browser: Browser, tmp_path: Path) -> None:
    context = browser.new_context(viewport={"width": 320, "height": 900})
    page = context.new_page()
    claim = "S after 64 == (a + b) mod 4294967296"
    page.goto(made(tmp_path, "serial-adder", 32, "a: 4000000001, b: 294967299", claim))
    page.get_by_text("Try other numbers").click()
    page.get_by_label("n", exact=True).select_option("8")
    page.get_by_label("n", exact=True).select_option("32")
    page.evaluate(
        """() => {
          const how = document.querySelector(".rechecked .how");
          how.textContent = `S after 64 is ${"01".repeat(16)} (1431655765); expected 7`;
        }"""
    )
    panel = page.locator(".rechecked")
    assert panel.evaluate("panel => panel.scrollWidth <= panel.clientWidth")
    assert page.evaluate("document.documentElement.scrollWidth") <= 320
    context.close()


@pytest.mark.parametrize("colours", ["light", "dark"])
def test_cells_are_told_apart_in_colours_of_the_readers_own(
    browser: Browser, tmp_path: Path, colours: str
) -> None:
    context = browser.new_context(
        forced_colors="active", color_scheme="dark" if colours == "dark" else "light"
    )
    page = context.new_page()
    page.goto(made(tmp_path, "serial-adder", 32, "a: 4000000001, b: 294967299") + "#row=34")
    page.wait_for_selector(".stage .edge-table i.unknown")
    for place in (".edge-table i", ".edge-table i.one", ".edge-table i.unknown"):
        look = page.locator(f".stage .rows {place}").first.evaluate(
            "one => { const { color, backgroundColor, backgroundImage } = getComputedStyle(one);"
            " return [color, backgroundColor, backgroundImage.startsWith('repeating')]; }"
        )
        paper, ink = "rgb(255, 255, 255)", "rgb(27, 36, 48)"
        if place.endswith("one"):
            assert look == [paper, ink, False]
        elif place.endswith("unknown"):
            assert look[0] == ink
            assert look[2] is True
    assert page.locator(".stage .rows i.one").first.inner_text() == "1"
    assert page.locator(".stage .rows i.unknown").first.inner_text() == "X"
    context.close()


# ---------------------------------------------------------------- the timing diagram


@pytest.mark.parametrize("n", [8, 9, 16])
def test_numbers_are_told_from_bits_as_in_the_printed_figure(
    tmp_path: Path, page: Page, n: int
) -> None:
    page.goto(made(tmp_path, "serial-adder", n, "a: 10, b: 101"))
    written = page.locator(".stage .timing .value").all_text_contents()
    trace = reference.run(catalogue.design("serial-adder", n=n), {"a": 10, "b": 101})
    expected = []
    for name in ("A", "B", "S"):
        words = [trace.word(name, k) for k in range(trace.edges + 1)]
        runs = [word for k, word in enumerate(words) if not k or word != words[k - 1]]
        expected += [value(word) for word in runs if value(word)]
    assert written == expected
    assert ("= 10" in written) == (n > 8)
    assert ("00001010" in written) == (n == 8)


@pytest.mark.parametrize(
    ("design", "n", "operands"),
    [
        ("carry-save-accumulator", 4, "w: [3, 5, 6]"),
        ("universal-shift-register", 4, "w: 5"),
        ("shift-add-multiplier", 4, "a: 11, b: 13"),
    ],
)
def test_phases_of_one_edge_have_their_names(
    tmp_path: Path, page: Page, design: str, n: int, operands: str
) -> None:
    page.goto(made(tmp_path, design, n, operands))
    spans = catalogue.design(design, n=n).spans
    named = page.locator(".stage .timing .phase text").all_text_contents()
    assert named == [phase.name for phase, _, _ in spans]
    boxes = [one.bounding_box() for one in page.locator(".stage .timing .phase text").all()]
    for left, right in pairwise(boxes):
        assert left
        assert right
        assert left["x"] + left["width"] + 2 <= right["x"]


def test_a_name_without_room_is_a_title(tmp_path: Path, page: Page) -> None:
    circuit = """\
---
title: A long word for one edge
design: here
operands: {a: 5}
---
```circuit
circuit: holder
parameters: {n: 4}
inputs: {d: n}
parts:
  R: {part: register, width: n, d: d}
outputs: {q: R}
operands: {a: n}
procedure:
  - {phase: clear_everything_at_once, edges: 1, d: 0}
  - {phase: take, edges: 2, d: a}
computes: {q: a}
```
"""
    page.goto(build(tmp_path, circuit))
    phases = page.locator(".stage .timing .phase")
    assert phases.first.locator("title").text_content() == "clear_everything_at_once"
    assert phases.locator("text").all_text_contents() == ["take"]
