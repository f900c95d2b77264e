"""Every block diagram of the catalogue: nothing overlaps, everything keeps its place."""

from __future__ import annotations

import io
import time
from collections.abc import Iterator
from typing import TYPE_CHECKING, Any

import numpy as np
import pytest
from lxml import etree
from PIL import Image

from edgewise import catalogue, run
from edgewise.circuit.builder import Builder
from edgewise.circuit.model import Tie
from edgewise.design import Design
from edgewise.engines import reference
from edgewise.errors import EdgewiseError
from edgewise.sheet import GATED_CLOCK_CAUTION
from edgewise.trace import Trace
from edgewise.views.diagram.block_diagram import diagram
from edgewise.views.diagram.options import Manner, manner
from edgewise.views.diagram.picture import Picture
from edgewise.views.drawing import theme
from edgewise.views.drawing.export import png
from edgewise.views.drawing.shapes import Group, Item, Letters, Line, Path, Rectangle, Text
from edgewise.views.drawing.svg import Drawing, svg
from edgewise.views.layout import elk
from tests.conftest import Golden
from tests.views.measures import faults, placed, texts
from tests.views.runs import SIZES, crossings, traced, wrong

if TYPE_CHECKING:
    from playwright.sync_api import Page


@pytest.fixture(autouse=True, scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Iterator[None]:
    """A cache folder of these tests' own."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("EDGEWISE_CACHE", str(tmp_path_factory.mktemp("cache")))
        yield


def part(drawing: Drawing, name: str) -> Group:
    """The group of one part."""
    waiting = list(drawing.items)
    while waiting:
        item = waiting.pop()
        if isinstance(item, Group):
            if item.kind == "part" and item.name == name:
                return item
            waiting += item.items
    pytest.fail(f"there is no part {name} in the drawing")


def places(trace: Trace, **options: Any) -> dict[str, tuple[float, float]]:
    chosen = Picture(trace, manner(trace.design.circuit, **options))
    return {box.id: (box.x, box.y) for box in chosen.layout.boxes}


@pytest.mark.parametrize("name", catalogue.ORDER)
def test_both_styles_of_symbols_have_the_same_places(name: str) -> None:
    trace = traced(name, 4)
    opened = [part.name for part in trace.design.circuit.parts if part.kind.inside]
    for parts in ((), opened):
        distinctive, rectangular = (
            places(trace, opened=parts, symbols=style) for style in ("distinctive", "rectangular")
        )
        assert distinctive == rectangular != {}


# ---------------------------------------------------------------- every figure


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("name", catalogue.ORDER)
def test_nothing_overlaps_and_nothing_is_clipped(name: str, size: int) -> None:
    trace = traced(name, size)
    assert wrong(trace) == []
    etree.fromstring(svg(diagram(trace)).encode())


@pytest.mark.parametrize(
    "options", [{"clock": "hidden"}, {"clock": "wires"}, {"symbols": "rectangular"}]
)
@pytest.mark.parametrize("name", catalogue.ORDER)
def test_nothing_overlaps_in_any_manner(name: str, options: dict[str, Any]) -> None:
    assert wrong(traced(name, 4), **options) == []


def test_the_measure_of_crossings_finds_one() -> None:
    line = Line(((0, 50), (100, 50)))
    drawing = Drawing(100, 100, "", "", (Group((line, Text(20, 53, "sum")), x=5),))
    assert crossings(drawing) == ["'sum' lies on the line (5.0, 49.25, 105.0, 50.75)"]


@pytest.mark.parametrize(
    ("name", "opened"),
    [
        ("serial-adder", "FA"),
        ("serial-adder", "A"),
        ("serial-adder-gated-clock", "A"),
        ("johnson-counter", "R"),
        ("binary-counter", "CNT"),
        ("binary-counter", "CNT.step(0)"),
        ("carry-lookahead-adder", "LA"),
        ("ripple-carry-adder", "FA(1)"),
        ("universal-shift-register", "M(0)"),
        ("parallel-in-serial-out", "R"),
    ],
)
def test_opened_parts(name: str, opened: str) -> None:
    trace = traced(name, 4)
    assert wrong(trace, open=[opened]) == []
    box = {e.id: e for e in Picture(trace, manner(trace.design.circuit, [opened])).scene.walk()}
    # Of a row, its inside stands under it.
    assert box[f"{opened}+" if f"{opened}+" in box else opened].inside


# ---------------------------------------------------------------- golden figures


@pytest.mark.parametrize(
    ("figure", "name", "after", "options"),
    [
        ("serial-adder", "serial-adder", 5, {"legend": True}),
        ("serial-adder-open", "serial-adder", 5, {"open": ["FA"]}),
        ("serial-adder-rectangular", "serial-adder", 5, {"open": ["FA"], "symbols": "rectangular"}),
        ("ripple-carry-adder", "ripple-carry-adder", 0, {}),
        ("johnson-counter", "johnson-counter", 3, {}),
        ("universal-shift-register", "universal-shift-register", 2, {}),
    ],
)
def test_golden(
    golden: Golden, figure: str, name: str, after: int, options: dict[str, Any]
) -> None:
    text = svg(diagram(traced(name, 4), after, **options))
    assert len(text) < 60_000
    golden(f"figure-diagram-{figure}.svg", text)


# ---------------------------------------------------------------- it keeps its place


def test_the_scene_is_the_same_in_every_row() -> None:
    trace = traced("serial-adder", 4)
    first = svg(diagram(trace, 0)), svg(diagram(trace, 5))
    assert first[0] != first[1]
    for row in range(trace.edges + 1):
        for name in ("A", "FA", "C", "S"):
            here, there = part(diagram(trace, row), name), part(diagram(trace, 0), name)
            assert (here.x, here.y) == (there.x, there.y)


@pytest.mark.parametrize("clock", ["wedge", "hidden"])
def test_order_is_the_same_for_any_width_and_opened(clock: Any) -> None:
    def order(size: int, opened: tuple[str, ...]) -> tuple[list[str], list[str]]:
        at = places(traced("serial-adder", size), opened=opened, clock=clock)
        at = {name: at[name] for name in ("A", "B", "C", "FA", "S")}
        across = sorted(at, key=lambda name: (round(at[name][0] / 40), name))
        down = sorted(("A", "B"), key=lambda name: at[name][1])
        assert at["C"][1] > at["FA"][1]
        return across, down

    seen = {str(order(size, opened)) for size in SIZES for opened in ((), ("FA",))}
    assert seen == {str((["A", "B", "C", "FA", "S"], ["A", "B"]))}


def test_a_chain_runs_from_right_to_left_in_one_row() -> None:
    at = places(traced("ripple-carry-adder", 8))
    xs = [at[f"FA({i})"][0] for i in range(8)]
    assert xs == sorted(xs, reverse=True)
    assert len({at[f"FA({i})"][1] for i in range(8)}) == 1
    assert at["carry_in"][0] > xs[0]
    assert at["carry"][0] < xs[-1]


def test_a_long_chain_is_folded() -> None:
    drawing = diagram(traced("ripple-carry-adder", 16))
    names = [text.text for text in texts(drawing) if text.text.startswith("FA")]
    assert sorted(names) == sorted(f"FA({i})" for i in (*range(6), *range(11, 16)))
    below = [text.text for text in texts(drawing) if "=" in text.text]
    assert below == [
        "a = 0000000000010110 (22)",
        "b = 0000000000101011 (43)",
        "sum = 0000000001000010 (66)",
    ]


# ---------------------------------------------------------------- values


def test_values_by_weight_and_fill() -> None:
    trace = traced("serial-adder", 4)
    for row in range(trace.edges + 1):
        drawing = diagram(trace, row)
        for name in ("A", "B", "C", "S"):
            shown = [i for i, _ in placed((part(drawing, name),)) if isinstance(i, Letters)]
            assert shown[0].text == str(trace.word(name, row))
        assert _weight(drawing, "A.out") == theme.wire(trace.word("A(0)", row).bit(0))


def _weight(drawing: Drawing, source: str) -> tuple[float, tuple[float, ...]]:
    waiting = list(drawing.items)
    while waiting:
        item = waiting.pop()
        if isinstance(item, Group):
            if item.kind == "wire" and item.name == source:
                line = item.items[0]
                assert isinstance(line, Line)
                return line.weight, line.dash
            waiting += item.items
    pytest.fail(f"no wire leaves {source}")


def test_the_carry_path_is_violet_and_controls_are_slate() -> None:
    drawing = diagram(traced("serial-adder", 4), 5)
    colours = {
        group.name: {item.stroke for item in group.items if isinstance(item, Line)}
        for group in _groups(drawing, "wire")
    }
    assert {name for name, found in colours.items() if found == {theme.VIOLET}} == {
        "FA.carry-out",
        "C.q",
        "C.q!",  # where the stored carry leaves the loop, at the other side of C
    }
    slate = {name for name, found in colours.items() if found == {theme.SLATE}}
    assert slate == {"shift.", "C.enable:name.", "S.enable:name."}


def _groups(drawing: Drawing, kind: str) -> list[Group]:
    found, waiting = [], list(drawing.items)
    while waiting:
        item = waiting.pop()
        if isinstance(item, Group):
            found += [item] * (item.kind == kind)
            waiting += item.items
    return found


def test_a_hidden_clock_hides_only_the_clock() -> None:
    trace = traced("serial-adder-parallel-load", 4)
    names = {group.name for group in _groups(diagram(trace, clock="hidden"), "part")}
    assert names == {group.name for group in _groups(diagram(trace), "part")}
    assert not any(e.wedge for e in Picture(trace, Manner(clock="hidden")).scene.walk())


def test_what_does_not_run_to_the_right_has_an_arrowhead() -> None:
    wires = {group.name: group for group in _groups(diagram(traced("serial-adder", 4)), "wire")}
    heads = {name for name, wire in wires.items() if any(isinstance(i, Path) for i in wire.items)}
    assert heads == {"FA.carry-out"}
    chain = {
        group.name: group for group in _groups(diagram(traced("ripple-carry-adder", 4)), "wire")
    }
    heads = {name for name, wire in chain.items() if any(isinstance(i, Path) for i in wire.items)}
    assert heads == {"carry_in.", *(f"FA({i}).carry-out" for i in range(4))}


@pytest.mark.parametrize("clock", ["wedge", "hidden", "wires"])
def test_a_gated_clock_shows_its_gate_and_the_caution(clock: Any) -> None:
    drawing = diagram(traced("serial-adder-gated-clock", 4), clock=clock)
    assert "gate" in {group.name for group in _groups(drawing, "part")}
    assert "gate.out" in {group.name for group in _groups(drawing, "wire")}
    assert GATED_CLOCK_CAUTION in drawing.description


def test_rectangular_symbols_say_what_depends_on_what() -> None:
    """Dependency notation of IEC 60617-12, from memory: C1, 1D, 1R, EN2, M3."""
    trace = traced("serial-adder-parallel-load", 4)
    marked = {t.text for t in texts(diagram(trace, symbols="rectangular"))}
    assert {"1,3D", "1,2D", "EN2", "1R", "M3", "C1", "C1/2→"} <= marked
    assert not {"enable", "clear", "d"} & marked


def test_rectangular_symbols_have_their_marks_and_distinctive_ones_none() -> None:
    trace = traced("serial-adder", 4)
    marks = {"=1", "&", "≥1", "SRG4"}
    found = {t.text for t in texts(diagram(trace, open=["FA"], symbols="rectangular"))}
    assert marks <= found
    assert marks.isdisjoint({t.text for t in texts(diagram(trace, open=["FA"]))})


@pytest.mark.parametrize(
    ("name", "stores"),
    [
        ("serial-adder-parallel-load", {"A", "B", "S"}),
        ("serial-accumulator", {"A", "B"}),
        ("digit-serial-adder", {"A(0)", "A(1)", "B(0)", "B(1)", "S(0)", "S(1)"}),
        ("binary-counter", {"CNT"}),
    ],
)
def test_words_have_a_common_control_block(name: str, stores: set[str]) -> None:
    """IEC 60617-12, from memory: what acts on every bit stands at a block with a neck."""
    trace = traced(name, 8)
    scene = Picture(trace, manner(trace.design.circuit, symbols="rectangular")).scene
    blocks = {element.id: element for element in scene.elements if element.block}
    assert {*blocks} == stores
    for element in blocks.values():
        kind = trace.design.circuit.part(element.id)
        roles = {port.name: port.role for port in kind.kind.ins} if kind else {}
        for pin in element.pins:
            acts_on_all = roles.get(pin.port, "data") != "data" or pin.port == "terminal-count"
            assert (pin.at > element.block and pin.side != "bottom") == acts_on_all
    assert _necks(diagram(trace, symbols="rectangular")) == stores
    assert _necks(diagram(trace)) == set()


def _necks(drawing: Drawing) -> set[str]:
    return {part.name for part in _groups(drawing, "part") if any(map(_is_neck, part.items))}


def _is_neck(item: Item) -> bool:
    return isinstance(item, Line) and len(item.points) == 8 and not item.closed


def test_adders_of_a_row_have_their_mark() -> None:
    for name, mark in (("bit-serial-multiplier", "Σ"), ("carry-lookahead-adder", "CPG")):
        trace = traced(name, 4)
        assert mark in {t.text for t in texts(diagram(trace, symbols="rectangular"))}
        assert mark not in {t.text for t in texts(diagram(trace))}


def test_names_stand_beside_their_wires() -> None:
    drawing = diagram(traced("serial-adder", 4), names=["FA.sum", "FA.carry-out"])
    assert {"FA.sum", "FA.carry-out"} <= {text.text for text in texts(drawing)}
    assert faults(drawing) == []


def test_title_and_description() -> None:
    drawing = diagram(run(catalogue.design("serial-adder", n=4), a=6, b=3), 5)
    assert drawing.title == "Block diagram after edge 5: bit-serial adder, n = 4, a = 6, b = 3"
    assert drawing.description == (
        "After edge 5, with the inputs of phase add: shift is 1, a_in is unknown, b_in is unknown,"
        " A is X011,"
        " B is X001, FA.sum is 0, FA.carry-out is 1, C is 0, S is 1000 (8). Its parts: A, a shift"
        " register of 4 bits; B, a shift register of 4 bits; FA, a full adder; C, a flip-flop;"
        " S, a shift register of 4 bits."
    )


# ---------------------------------------------------------------- other circuits


def _alone(b: Builder, **inputs: tuple[int, ...]) -> Trace:
    design = Design("made", b.circuit())
    return Trace(design, {}, (reference.settle(design.netlist, [], inputs),))


def test_constants_and_wide_gates() -> None:
    b = Builder("alarm")
    w = b.input("w", 6)
    b.output("any", b.part("G1", "or", {"in": (*w, Tie(0))})["out"])
    b.output("all", b.part("G2", "nand", {"in": w})["out"])
    assert wrong(_alone(b, w=(0, 1, 0, 1, 0, 0))) == []


def test_a_circuit_with_nothing_to_draw_but_a_wire() -> None:
    b = Builder("through")
    b.output("out", b.input("in"))
    assert wrong(_alone(b, **{"in": (1,)})) == []


# ---------------------------------------------------------------- errors


@pytest.mark.parametrize(
    ("options", "message"),
    [
        ({"after": 9}, "there is no row 9: the rows are 0..8"),
        ({"open": ["Fa"]}, "there is no part Fa to open; did you mean FA?"),
        ({"open": ["C"]}, "C is a flip-flop; it has no inside to open"),
        ({"open": ["FA.X7"]}, "there is no part FA.X7 to open; did you mean FA.X2?"),
        ({"clock": "off"}, "clock is 'off'; expected wedge, hidden or wires"),
        ({"symbols": "old"}, "symbols is 'old'; expected distinctive or rectangular"),
        ({"names": ["FA.som"]}, "there is no FA.som here; did you mean FA.sum?"),
        (
            {"names": ["A"]},
            "no wire of this figure carries A; name a net between two parts that are drawn, or"
            " open the part that it is in",
        ),
    ],
)
def test_errors(options: dict[str, Any], message: str) -> None:
    with pytest.raises(EdgewiseError) as caught:
        diagram(traced("serial-adder", 4), **options)
    assert str(caught.value) == message


# ---------------------------------------------------------------- speed and renderers


def test_a_second_figure_starts_no_engine(monkeypatch: pytest.MonkeyPatch) -> None:
    trace = traced("serial-adder", 4)
    diagram(trace)

    def refuse() -> None:
        pytest.fail("the layout engine was started")

    monkeypatch.setattr(elk, "engine", refuse)
    start = time.perf_counter()
    svg(diagram(trace, 3))
    # 30 ms alone on the machine; tests share it.
    assert time.perf_counter() - start < 0.2


@pytest.mark.browser
@pytest.mark.parametrize("options", [{}, {"open": ["FA"]}])
def test_two_renderers_show_the_same(page: Page, options: dict[str, Any]) -> None:
    """Outside check: Chromium against resvg, text as outlines."""
    drawing = diagram(traced("serial-adder", 4), 5, **options)
    text = svg(drawing, outlined=True)
    width, height = int(drawing.width), int(drawing.height)
    page.set_viewport_size({"width": width, "height": height})
    page.set_content(f"<style>body{{margin:0}}svg{{display:block}}</style>{text}")
    pictures = [
        np.asarray(Image.open(io.BytesIO(data)).convert("RGB"), dtype=int)
        for data in (png(text), page.screenshot())
    ]
    assert pictures[0].shape == pictures[1].shape
    apart = np.abs(pictures[0] - pictures[1]).max(axis=2)
    assert apart.mean() < 1.0
    assert (apart > 96).mean() < 0.002


def test_frames_of_opened_parts_lie_under_their_wires() -> None:
    drawing = diagram(traced("serial-adder", 4), 5, open=["FA"])
    order = [item for item, _ in placed(drawing.items)]
    panel = next(
        i for i, e in enumerate(order) if isinstance(e, Rectangle) and e.fill == theme.PANEL
    )
    assert panel < next(i for i, e in enumerate(order) if isinstance(e, Line))
