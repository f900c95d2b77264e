"""State diagrams: what is drawn is the graph, and it can be read.

Outside: Chromium shows the stage's state; how a state diagram is drawn (circles, an arrow from
nowhere at the start, inputs and outputs at arrows) is common practice, no source.
"""

from __future__ import annotations

import re
from math import hypot
from pathlib import Path
from typing import TYPE_CHECKING
from xml.etree import ElementTree as ET

import pytest

from edgewise.engines.state_space import graph
from edgewise.state_graph import StateGraph
from edgewise.trace import Trace
from edgewise.views.drawing.column import column
from edgewise.views.drawing.svg import svg
from edgewise.views.registry import Wish, figure
from edgewise.views.states.placing import Measure
from edgewise.views.states.ring import ring
from edgewise.views.states.state_diagram import state_diagram
from edgewise.views.states.transition_table import lines
from edgewise.words.messages import of
from tests.conftest import Edgewise, Golden
from tests.publish.stages import build
from tests.views.measures import faults
from tests.views.runs import traced

if TYPE_CHECKING:
    from playwright.sync_api import Page

SVG = "{http://www.w3.org/2000/svg}"
DRAWN = [
    ("ring-counter", 4),
    ("johnson-counter", 4),
    ("modulo-counter", 5),
    ("binary-counter", 4),
    ("lfsr", 4),
    ("serial-in-serial-out", 3),
    ("crc-register", 4),
]


def graphed(name: str, size: int) -> tuple[Trace, StateGraph]:
    trace = traced(name, size)
    return trace, graph(trace.design)


@pytest.mark.parametrize(("name", "size"), DRAWN)
@pytest.mark.parametrize("language", ["en", "de"])
def test_every_letter_is_on_its_ground(name: str, size: int, language: str) -> None:
    trace, found = graphed(name, size)
    drawing = state_diagram(trace, found, 2, words=of(language))
    assert faults(drawing) == []


@pytest.mark.parametrize(("name", "size"), DRAWN)
def test_circles_and_arrows_are_those_of_the_graph(name: str, size: int) -> None:
    trace, found = graphed(name, size)
    root = ET.fromstring(svg(state_diagram(trace, found)))  # noqa: S314  # our own
    groups = [(each.get("class"), each.get("data-name")) for each in root.iter(f"{SVG}g")]
    circles = {label for kind, label in groups if kind == "state"}
    assert circles == {found.spelled(state) for state in found.states}
    arrows = sorted(str(label) for kind, label in groups if kind == "transition")
    assert arrows == sorted(
        f"{found.spelled(t.source)} {found.spelled(t.target)}" for t in found.transitions
    )
    assert sum(kind == "start" for kind, _ in groups) == len(found.starts)
    dashed = {
        each.get("data-name")
        for each in root.iter(f"{SVG}g")
        if each.get("class") == "state"
        and any(path.get("stroke-dasharray") for path in each.iter(f"{SVG}path"))
    }
    assert dashed == {found.spelled(state) for state in found.unreached}


@pytest.mark.parametrize(("name", "size"), DRAWN)
def test_circles_keep_apart_and_a_counter_crosses_nothing(name: str, size: int) -> None:
    _, found = graphed(name, size)
    measure = Measure(25, 26)
    placed = ring(list(found.states), found.transitions, measure) if found.inputs else None
    if placed is None:
        (loop,) = [one for one in found.loops if one[0] in found.reached]
        inside = [each for each in found.transitions if each.source in loop]
        placed = ring(loop, inside, measure)
        assert placed.crossings == 0
    spots = list(placed.spots.values())
    apart = [hypot(x1 - x2, y1 - y2) for i, (x1, y1) in enumerate(spots) for x2, y2 in spots[:i]]
    assert min(apart) >= 2 * measure.radius + 20


def test_the_present_state_is_solid_and_what_led_there_heavy(golden: Golden) -> None:
    trace, found = graphed("modulo-counter", 5)
    text = svg(state_diagram(trace, found, 3))
    golden("figure-states-modulo-counter.svg", text)
    root = ET.fromstring(text)  # noqa: S314  # our own
    solid = [
        each.get("data-name")
        for each in root.iter(f"{SVG}g")
        if each.get("class") == "state" and each[0].get("fill") == "#1b2430"
    ]
    assert solid == ["011"] == [str(trace.word("CNT", 3))]
    heavy = [
        each.get("data-name")
        for each in root.iter(f"{SVG}g")
        if each.get("class") == "transition" and each[0].get("stroke-width") == "3.5"
    ]
    assert heavy == ["010 011"]


def test_what_is_said_of_it_is_computed() -> None:
    trace, found = graphed("modulo-counter", 5)
    drawing = state_diagram(trace, found, 3)
    assert drawing.title == "State diagram after edge 3: modulo-m counter, m = 5, k = 5"
    assert drawing.description.startswith(
        "5 of 8 states are reached from the start. After edge 3 the state is 011. After 000 comes"
        " 001."
    )
    assert drawing.description.endswith(
        "3 states are not reached; a way leads back from there to those that are used."
    )
    german = state_diagram(trace, found, 3, words=of("de")).description
    assert german.startswith("5 von 8 Zuständen werden vom Start aus erreicht.")
    ring_of_4 = state_diagram(*graphed("ring-counter", 4)).description
    assert "12 states are not reached; no way leads back to those that are used." in ring_of_4


@pytest.mark.parametrize(("name", "size"), DRAWN)
def test_it_fits_a_column(name: str, size: int) -> None:
    trace, found = graphed(name, size)
    place = column("120mm")
    drawing = figure(trace, "states", Wish(graph=found, room=place.room))
    assert drawing.width <= place.room


def test_a_table_says_the_same() -> None:
    _, found = graphed("serial-in-serial-out", 3)
    heading, *rows = lines(found)
    assert heading == ("state (R)", "serial_in", "next state")
    assert ("101", "0", "010") in rows
    assert len(rows) == len(found.transitions)


def test_many_unused_states_are_left_out_and_counted(edgewise: Edgewise, tmp_path: Path) -> None:
    path = tmp_path / "ring.svg"
    words = ("draw", "ring-counter", "--with", "n=8", "--figure", "states", "--text")
    assert edgewise(*words, "-o", str(path)).code == 0
    text = path.read_text("utf-8")
    assert text.count('class="state"') == 8
    assert "248 states that are not reached are left out." in text


LESSON = """\
---
title: The tide mill's counter
design: modulo-counter
with: {m: 5, k: 9}
---
It counts its turns.

```stage
```

```state-diagram
```

```state-diagram
after: 3
caption: After three turns.
```
"""


@pytest.mark.browser
def test_the_stage_marks_its_state(page: Page, tmp_path: Path) -> None:
    page.goto(build(tmp_path, LESSON) + "#row=6")
    page.wait_for_selector(".picture svg")
    # A figure is on the page once more, for a phone, and hidden.
    seen = "() => [...document.querySelectorAll('.{}.here')].filter((g) => g.checkVisibility())"
    here, led = (
        f"{seen.format(kind)}.map((g) => g.dataset.name)" for kind in ("state", "transition")
    )
    assert page.evaluate(here) == ["001"]
    assert page.evaluate(led) == ["000 001"]
    page.get_by_role("button", name="Next edge").click()
    assert page.evaluate(here) == ["010"]
    fill = "() => getComputedStyle(document.querySelector('.state.here circle')).fill"
    assert page.evaluate(fill) == "rgb(27, 36, 48)"
    # Of a diagram with a row of its own nothing changes.
    assert page.locator("g.states:not(.following) .here").count() == 0


def test_a_lesson_tells_transitions_in_a_table(tmp_path: Path) -> None:
    address = build(tmp_path, LESSON)
    text = Path(address.removeprefix("file://")).read_text("utf-8")
    assert "<caption>State diagram: modulo-m counter, m = 5, k = 9</caption>" in text
    row = re.compile(r"<tr><td>111</td><td>0</td><td>000</td></tr>")
    assert len(row.findall(text)) == 2


def test_a_lesson_refuses_what_cannot_be_drawn(edgewise: Edgewise, tmp_path: Path) -> None:
    path = tmp_path / "adder.md"
    front = "title: T\ndesign: ripple-carry-adder\noperands: {a: 1, b: 2, carry_in: 0}"
    path.write_text(f"---\n{front}\n---\n\n```state-diagram\n```\n")
    answer = edgewise("build", str(path), "--out", str(tmp_path))
    assert answer.code == 2
    assert answer.err.endswith(
        "adder.md:7:1: ripple-carry-adder has no flip-flop, so it has no states to draw or list\n"
    )
