"""Markup in every text of a lesson and a circuit shows as text, on the page and in its stage."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Final

import pytest

from edgewise import blueprint as blueprints
from edgewise.circuit.netlist import Netlist
from edgewise.design import Design, Feed, Operand, Phase, Purpose
from edgewise.engines import reference
from edgewise.formula import parse
from edgewise.lesson.pieces import Stage
from edgewise.publish.html import page as pages
from edgewise.publish.stage import custom_element

if TYPE_CHECKING:
    from playwright.sync_api import Page

EVIL: Final = (
    "<img src=x onerror=\"document.title='hit'\">",
    "</script><script>document.title='hit'</script>",
    "<!--<script>",
    "]]><svg onload=\"document.title='hit'\">",
    "\"'><b onmouseover=\"document.title='hit'\">&lt;i&gt;",
)

LESSON: Final = """\
---
title: '{quoted}'
design: here
operands: {{w: 5}}
---
{text}

# {text}

```circuit
circuit: '{quoted}'
about: '{quoted}'
source: '{quoted}'
parameters: {{n: 3}}
inputs: {{in: 1}}
parts:
  R: {{part: shift-register, width: n, in: in}}
outputs: {{word: R}}
operands: {{w: n}}
procedure:
  - {{phase: enter, edges: n, in: w lsb-first}}
computes: {{word: w}}
```
```diagram
caption: '{quoted}'
```
```edge-table
caption: '{quoted}'
```
```claim
R after 3 == w    # {text}
```
"""


def nothing_ran(page: Page) -> None:
    """Step, try and predict; then see that the page has no element that is not ours."""
    hits: list[str] = []
    page.on("dialog", lambda dialog: hits.append(dialog.message))
    page.locator(".ruler").focus()
    page.keyboard.press("End")
    for summary in page.locator(".stage summary").all():
        summary.click()
    page.get_by_role("button", name="At random").click()
    page.get_by_role("button", name="Begin", exact=True).click()
    page.locator(".blanks .bit").first.focus()
    page.keyboard.type("01x")
    page.wait_for_timeout(50)
    assert page.title() != "hit"
    assert page.locator("img").count() == 0
    assert page.locator("[onerror], [onload], [onmouseover]").count() == 0
    assert page.locator("script:not([type])").count() == 0
    assert hits == []


@pytest.mark.parametrize("text", EVIL)
def test_markup_in_a_lesson_shows_as_text(tmp_path: Path, page: Page, text: str) -> None:
    path = tmp_path / "lesson.md"
    path.write_text(LESSON.format(text=text, quoted=text.replace("'", "''")), encoding="utf-8")
    page.goto(pages.build(path, tmp_path / "out").as_uri())
    assert page.title() == text
    assert text in (page.locator(".stage").get_attribute("aria-label") or "")
    nothing_ran(page)


@pytest.mark.parametrize("text", EVIL)
def test_markup_in_every_name_of_a_design_shows_as_text(page: Page, text: str) -> None:
    """Names that no circuit text could have, for whoever builds a circuit in Python."""
    made = blueprints.from_text(
        "circuit: x\ninputs: {in: 1}\nparts:\n  R: {part: flip-flop, d: in}\noutputs: {y: R.q}\n"
        "operands: {w: 1}\nprocedure:\n  - {phase: p, edges: 2, in: w lsb-first}\n",
        "x.yaml",
    ).design()
    netlist = made.netlist
    names = dict(netlist.names) | {text: netlist.names["R"]}
    altered = Netlist(
        netlist.size,
        netlist.inputs,
        {text: netlist.names["R"]},
        netlist.gates,
        netlist.flip_flops,
        names,
    )
    design = Design(
        text,
        made.circuit,
        {text: 3},
        (Operand(text, 1),),
        (Phase(text, 2, (Feed("in", text, "lsb-first"),)),),
        (Purpose(text, parse("1"), 2),),
        altered=altered,
    )
    trace = reference.run(design, {text: 1})
    element = custom_element.element(trace, wish=Stage(columns=(text,)))
    page.set_content(f"<title>before</title><main>{element}</main>")
    page.add_script_tag(content=custom_element.module(), type="module")
    page.wait_for_selector(".stage .edge-table")
    assert page.locator(".stage thead th").last.inner_text() == text
    assert page.locator(".stage .try label code").text_content() == text
    assert f"phase {text}" in next_told(page)
    nothing_ran(page)


def next_told(page: Page) -> str:
    page.get_by_role("button", name="Next edge").click()
    return page.locator(".told").inner_text()
