"""The stage in a notebook: what Python hands over, and what the module makes of it."""

from __future__ import annotations

import json
import sys
from typing import TYPE_CHECKING, Any

import pytest

from edgewise import catalogue, widget
from edgewise.engines import reference
from edgewise.errors import EdgewiseError
from edgewise.lesson.pieces import Stage
from edgewise.publish.stage import custom_element, design_data

if TYPE_CHECKING:
    from playwright.sync_api import Page

BLUEPRINT = catalogue.find("serial-adder")
TRACE = reference.run(BLUEPRINT.design({"n": 4}), {"a": 6, "b": 3})


def test_without_the_extra_the_error_says_what_to_install(monkeypatch: pytest.MonkeyPatch) -> None:
    widget._kind.cache_clear()
    monkeypatch.setitem(sys.modules, "anywidget", None)
    with pytest.raises(EdgewiseError) as wrong:
        widget.widget(TRACE)
    assert str(wrong.value) == (
        "a widget needs the package anywidget; install it with: pip install edgewise[notebook]"
    )


def test_a_run_too_long_is_refused() -> None:
    design = catalogue.design("serial-accumulator", n=64, x=8)
    trace = reference.run(design, {operand.name: 0 for operand in design.operands})
    with pytest.raises(EdgewiseError) as wrong:
        widget.widget(trace)
    assert str(wrong.value) == (
        "serial-accumulator is too large for a stage: it has 576 edges and 5 gates, and the"
        " limits are 400 and 8000; draw its figures instead"
    )


def test_the_widget_holds_stage_and_row() -> None:
    pytest.importorskip("anywidget")
    widget._kind.cache_clear()
    made: Any = widget.widget(TRACE, BLUEPRINT, Stage(row=3))
    assert made.row == 3
    assert json.loads(made.stage)["sizes"][0]["parameters"] == {"n": 4}
    assert made._esm


def test_the_module_draws_the_stage_and_keeps_the_row(page: Page) -> None:
    made = custom_element.data(TRACE, BLUEPRINT, (), Stage())
    assert made is not None
    page.set_content("<div id=place></div>")
    page.add_style_tag(content=widget.style())
    page.evaluate(
        """async (text) => {
            const address = URL.createObjectURL(new Blob([text], { type: "text/javascript" }));
            globalThis.made = (await import(address)).default;
        }""",
        widget.module(),
    )
    page.wait_for_function("globalThis.made")
    page.evaluate(
        """(text) => {
          const kept = { stage: text, row: 2 };
          globalThis.saved = 0;
          globalThis.acts = {};
          globalThis.model = {
            get: (name) => kept[name],
            set: (name, value) => { kept[name] = value; },
            save_changes: () => { globalThis.saved += 1; },
            on: (event, act) => { globalThis.acts[event] = act; },
            off: (event) => { delete globalThis.acts[event]; },
          };
          const el = document.getElementById("place");
          globalThis.away = globalThis.made.render({ model: globalThis.model, el });
        }""",
        design_data.text(made),
    )
    ruler = page.locator(".ruler")
    assert ruler.get_attribute("aria-valuenow") == "2"
    looks = "one => [getComputedStyle(one).borderTopWidth, getComputedStyle(one).fontFamily]"
    border, family = page.locator(".edge-table i").first.evaluate(looks)
    assert (border, "Edgewise Mono" in family) == ("1px", True)
    page.get_by_role("button", name="Next edge").click()
    assert page.evaluate("[model.get('row'), saved]") == [3, 1]
    page.evaluate("model.set('row', 6); acts['change:row']()")
    assert ruler.get_attribute("aria-valuenow") == "6"
    assert "#" not in page.url
    assert page.evaluate("away(); Object.keys(acts).length") == 0
