"""The figures that matter, laid out for real and held against the clash checks.

Outside check: networkx says what a tree and a junction are.
"""

from __future__ import annotations

import itertools
from pathlib import Path
from typing import Any

import networkx as nx
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from edgewise.errors import EdgewiseError
from edgewise.views.layout import elk as layouts
from edgewise.views.layout.elk import lay_out
from edgewise.views.layout.graph import Box, Graph, Layout, PlacedWire, Port, Side, Wire
from tests.views.clashes import clashes, pieces

BITS = range(2, 17)


@pytest.fixture(autouse=True)
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A cache folder of the test's own."""
    monkeypatch.setenv("EDGEWISE_CACHE", str(tmp_path))


# ---------------------------------------------------------------- figures


def pin(name: str, side: Side, seed: tuple[int, int] | None = None) -> Box:
    return Box(name, 12 + 9 * len(name), 24, (Port(f"{name}.p", side, 12),), seed)


def gate(name: str, seed: tuple[int, int] | None = None, inputs: int = 2) -> Box:
    height = max(40, 16 * inputs)
    at = [height * (2 * i + 1) // (2 * inputs) for i in range(inputs)]
    ports = (*(Port(f"{name}.{i}", "left", y) for i, y in enumerate(at)),)
    return Box(name, 52, height, (*ports, Port(f"{name}.z", "right", height // 2)), seed)


def flip_flop_ports(name: str) -> tuple[Port, ...]:
    return Port(f"{name}.d", "left", 30), Port(f"{name}.q", "right", 30)


def register(name: str, width: float, seed: tuple[int, int], *, enable: bool) -> Box:
    ports = (Port(f"{name}.in", "left", 66), Port(f"{name}.out", "right", 66))
    below = (Port(f"{name}.en", "bottom", 24),) if enable else ()
    return Box(name, width, 96, (*ports, *below), seed)


def serial_adder(n: int, *, enable: bool = True, opened: bool = False) -> Graph:
    """Two shift registers, a full adder, its carry flip-flop, a sum register."""
    wide = 40 + 34 * n
    side: tuple[tuple[str, Side, int], ...] = (
        ("a", "left", 30),
        ("b", "left", 65),
        ("ci", "left", 100),
        ("s", "right", 30),
        ("co", "right", 100),
    )
    ports = tuple(Port(f"FA.{name}", where, at) for name, where, at in side)
    seeds = {"x1": (0, 0), "a1": (0, 1), "x2": (1, 0), "a2": (1, 1), "o1": (2, 1)}
    gates = tuple(gate(name, seed) for name, seed in seeds.items())
    boxes = [
        pin("a_in", "right", (0, 0)),
        pin("b_in", "right", (0, 2)),
        register("A", wide, (1, 0), enable=enable),
        register("B", wide, (1, 2), enable=enable),
        register("C", 110, (2, 4), enable=enable),
        Box("FA", 110, 130, ports, (3, 1), gates if opened else (), title_room=20),
        register("S", wide, (4, 1), enable=enable),
        pin("sum", "left", (5, 1)),
        pin("carry", "left", (5, 4)),
    ]
    wires = [
        Wire("a_in", "a_in.p", ("A.in",)),
        Wire("b_in", "b_in.p", ("B.in",)),
        Wire("a", "A.out", ("FA.a",)),
        Wire("b", "B.out", ("FA.b",)),
        Wire("c", "C.out", ("FA.ci", "carry.p"), "carry"),
        Wire("co", "FA.co", ("C.in",), "carry"),
        Wire("s", "FA.s", ("S.in",)),
        Wire("sum", "S.out", ("sum.p",)),
    ]
    if enable:
        boxes.append(pin("shift", "right", (0, 5)))
        wires.append(Wire("en", "shift.p", ("A.en", "B.en", "C.en", "S.en"), "control"))
    if opened:
        wires += [
            Wire("ia", "FA.a", ("x1.0", "a1.0")),
            Wire("ib", "FA.b", ("x1.1", "a1.1")),
            Wire("ic", "FA.ci", ("x2.1", "a2.1"), "carry"),
            Wire("half", "x1.z", ("x2.0", "a2.0")),
            Wire("is", "x2.z", ("FA.s",)),
            Wire("made", "a1.z", ("o1.1",)),
            Wire("passed", "a2.z", ("o1.0",)),
            Wire("ico", "o1.z", ("FA.co",), "carry"),
        ]
    return Graph(tuple(boxes), tuple(wires))


def ripple_adder(n: int) -> Graph:
    """A chain of slices, each with its own input and output pins hanging on it."""
    boxes = [pin("c_in", "left", (0, 0)), pin("c_out", "right", (n + 1, 0))]
    wires = []
    carry = "c_in.p"
    for i in range(n):
        fa = f"FA({i})"
        sides: dict[str, tuple[Side, int]] = {
            "a": ("top", 25),
            "b": ("top", 65),
            "ci": ("right", 35),
            "co": ("left", 35),
            "s": ("bottom", 45),
        }
        ports = (Port(f"{fa}.{name}", side, at) for name, (side, at) in sides.items())
        boxes.append(Box(fa, 90, 70, tuple(ports), (i + 1, 0)))
        facing: dict[str, Side] = {"a": "bottom", "b": "bottom", "s": "top"}
        for name, side in facing.items():
            own = (Port(f"{name}({i}).p", side, 18),)
            boxes.append(Box(f"{name}({i})", 36, 22, own, hangs_on=f"{fa}.{name}"))
        wires += [
            Wire(f"a{i}", f"a({i}).p", (f"{fa}.a",)),
            Wire(f"b{i}", f"b({i}).p", (f"{fa}.b",)),
            Wire(f"s{i}", f"{fa}.s", (f"s({i}).p",)),
            Wire(f"c{i}", carry, (f"{fa}.ci",), "carry"),
        ]
        carry = f"{fa}.co"
    return Graph(tuple(boxes), (*wires, Wire(f"c{n}", carry, ("c_out.p",), "carry")))


def ring(length: int, *, seeded: bool = True) -> Graph:
    """Flip-flops in a ring, as in a walking-light counter."""
    boxes = tuple(
        Box(f"F{i}", 80, 80, flip_flop_ports(f"F{i}"), (i, 0) if seeded else None)
        for i in range(length)
    )
    links = ((i, (i + 1) % length) for i in range(length))
    return Graph(boxes, tuple(Wire(f"q{i}", f"F{i}.q", (f"F{j}.d",)) for i, j in links))


def counter(bits: int, *, seeded: bool = True) -> Graph:
    """A synchronous counter: XOR and flip-flop a bit, an AND chain for the carry."""

    def at(column: int, row: int) -> tuple[int, int] | None:
        return (column, row) if seeded else None

    boxes = [pin("count", "right", at(0, 0))]
    wires = []
    carry = "count.p"
    for i in range(bits):
        last = i == bits - 1
        boxes += [
            gate(f"X{i}", at(2 * i + 1, 2)),
            Box(f"F{i}", 80, 80, flip_flop_ports(f"F{i}"), at(2 * i + 2, 2)),
            pin(f"q({i})", "left", at(2 * bits + 2, i + 3)),
            *(() if last else (gate(f"N{i}", at(2 * i + 3, 1)),)),
        ]
        more = ((), ()) if last else ((f"N{i}.0",), (f"N{i}.1",))
        wires += [
            Wire(f"t{i}", carry, (f"X{i}.0", *more[0]), "carry"),
            Wire(f"d{i}", f"X{i}.z", (f"F{i}.d",)),
            Wire(f"q{i}", f"F{i}.q", (f"X{i}.1", f"q({i}).p", *more[1])),
        ]
        carry = f"N{i}.z"
    return Graph(tuple(boxes), tuple(wires))


def lookahead(bits: int, *, seeded: bool = True) -> Graph:
    """All carries in two levels of gates: c(i+1) = g(i) + p(i) g(i-1) + … + p(i)…p(0) c(0)."""
    sinks: dict[str, list[str]] = {
        name: [] for name in (*(f"{x}({i})" for i in range(bits) for x in "pg"), "c(0)")
    }
    boxes, wires = [], []
    rows = itertools.count()
    for i in range(bits):
        sum_of = gate(f"or{i}", (2, 10 * i) if seeded else None, inputs=i + 2)
        sinks[f"g({i})"].append(f"or{i}.0")
        for j in range(i, -1, -1):
            product = f"and{i}{j}"
            factors = [*(f"p({k})" for k in range(i, j - 1, -1)), f"g({j - 1})" if j else "c(0)"]
            boxes.append(gate(product, (1, next(rows)) if seeded else None, inputs=len(factors)))
            for place, factor in enumerate(factors):
                sinks[factor].append(f"{product}.{place}")
            wires.append(Wire(product, f"{product}.z", (f"or{i}.{i - j + 1}",)))
        boxes += [sum_of, pin(f"c({i + 1})", "left", (3, i) if seeded else None)]
        wires.append(Wire(f"c{i + 1}", f"or{i}.z", (f"c({i + 1}).p",)))
    for row, (name, ends) in enumerate(sinks.items()):
        boxes.append(pin(name, "right", (0, row) if seeded else None))
        wires.append(Wire(name, f"{name}.p", tuple(ends)))
    return Graph(tuple(boxes), tuple(wires))


FIGURES = {
    "counter": counter(4),
    "counter without seeds": counter(4, seeded=False),
    "lookahead": lookahead(4),
    "lookahead without seeds": lookahead(4, seeded=False),
    "ring": ring(4),
    "ring without seeds": ring(4, seeded=False),
    "serial adder": serial_adder(6),
    "opened adder": serial_adder(6, opened=True),
    "ripple adder": ripple_adder(4),
    "nothing": Graph(()),
}


def direction_of(name: str) -> Any:
    return "left" if name == "ripple adder" else "right"


# ---------------------------------------------------------------- what must hold in all


def assert_sound(graph: Graph, layout: Layout) -> None:
    """No clash; wires are trees by networkx's word, with dots just where three ways meet."""
    assert clashes(layout) == ()
    assert [box.id for box in layout.boxes] == [box.id for box, _ in graph.walk()]
    for wire in layout.wires:
        tree = tree_of(wire)
        assert nx.is_tree(tree), wire
        forks = sorted(point for point, degree in tree.degree if degree > 2)
        assert list(wire.dots) == forks
        tips = {point for point, degree in tree.degree if degree == 1}
        ports = {name: layout.port(name) for name in (wire.source, *wire.targets)}
        assert tips == {(port.x, port.y) for port in ports.values()}
    numbers = [layout.width, layout.height]
    numbers += [x for box in layout.boxes for x in (box.x, box.y, box.width, box.height)]
    numbers += [x for wire in layout.wires for line in wire.lines for spot in line for x in spot]
    assert all(x == round(2 * x) / 2 for x in numbers)


def tree_of(wire: PlacedWire) -> nx.Graph[Any]:
    """Every half pixel of a wire as a node: no code of ours decides where lines meet."""
    tree: nx.Graph[Any] = nx.Graph()
    for (x1, y1), (x2, y2) in pieces(wire):
        steps = int(2 * (x2 - x1 + y2 - y1))
        way = (0.5, 0.0) if y1 == y2 else (0.0, 0.5)
        nx.add_path(tree, [(x1 + k * way[0], y1 + k * way[1]) for k in range(steps + 1)])
    return tree


def columns(layout: Layout) -> list[list[str]]:
    """The parts from left to right in columns, each from top to bottom."""
    found: list[list[str]] = []
    reach = -1.0
    for box in sorted((b for b in layout.boxes if not b.parent), key=lambda b: b.x):
        if box.x >= reach:
            found.append([])
        found[-1].append(box.id)
        reach = max(reach, box.x + box.width)
    return [sorted(ids, key=lambda id_: layout.box(id_).y) for ids in found]


@pytest.mark.parametrize("name", FIGURES)
def test_a_figure_is_sound(name: str) -> None:
    assert_sound(FIGURES[name], lay_out(FIGURES[name], direction_of(name)))


@pytest.mark.slow
@pytest.mark.parametrize("opened", [False, True], ids=["closed", "opened"])
@pytest.mark.parametrize("enable", [False, True], ids=["free-running", "enabled"])
def test_the_serial_adder_keeps_its_order_at_every_width(*, enable: bool, opened: bool) -> None:
    inputs = ["a_in", "b_in", "shift"] if enable else ["a_in", "b_in"]
    expected = [inputs, ["A", "B"], ["C"], ["FA"], ["S"], ["sum", "carry"]]
    inside = []
    for n in BITS:
        graph = serial_adder(n, enable=enable, opened=opened)
        layout = lay_out(graph)
        assert_sound(graph, layout)
        assert columns(layout) == expected, n
        fa = layout.box("FA")
        inside.append([(b.id, b.x - fa.x, b.y - fa.y) for b in layout.boxes if b.parent == "FA"])
    assert all(places == inside[0] for places in inside)


@pytest.mark.parametrize("opened", [False, True], ids=["closed", "opened"])
def test_the_carry_loop_is_compact_and_below(*, opened: bool) -> None:
    layout = lay_out(serial_adder(6, opened=opened))
    fa, c = layout.box("FA"), layout.box("C")
    assert c.y + c.height > fa.y + fa.height
    loop = layout.wire("co").lines[0]
    assert min(x for x, _ in loop) >= c.x - 32
    assert max(x for x, _ in loop) <= fa.x + fa.width + 32
    assert min(y for _, y in loop) >= layout.port("FA.co").y
    assert max(y for _, y in loop) <= c.y + c.height + 32
    assert layout.wire("co").dots == ()


def test_a_container_keeps_the_order_of_its_ports() -> None:
    layout = lay_out(serial_adder(4, opened=True))
    assert layout.port("FA.a").y < layout.port("FA.b").y < layout.port("FA.ci").y
    assert layout.port("FA.s").y < layout.port("FA.co").y


@pytest.mark.parametrize("n", [4, 8, 16])
def test_a_ripple_chain_is_a_perfect_row_with_the_carry_running_left(n: int) -> None:
    graph = ripple_adder(n)
    layout = lay_out(graph, "left")
    assert_sound(graph, layout)
    slices = [layout.box(f"FA({i})") for i in range(n)]
    assert len({box.y for box in slices}) == 1
    assert len({a.x - b.x for a, b in itertools.pairwise(slices)}) == 1
    assert slices[0].x > slices[-1].x
    for i in range(n + 1):
        ((start, end),) = layout.wire(f"c{i}").lines
        assert start[1] == end[1]
        assert start[0] > end[0]
    for i in range(n):
        for name, above in (("a", True), ("b", True), ("s", False)):
            ((start, end),) = layout.wire(f"{name}{i}").lines
            assert start[0] == end[0]
            assert end[1] - start[1] == 20
            assert (layout.box(f"{name}({i})").y < slices[i].y) == above


def test_flow_to_the_left_is_flow_to_the_right_seen_from_behind() -> None:
    right, left = (columns(lay_out(counter(4), way)) for way in ("right", "left"))
    assert [sorted(c) for c in left] == [sorted(c) for c in reversed(right)]


def test_a_label_gets_room_beside_the_start_of_its_wire() -> None:
    graph = serial_adder(3)
    wires = tuple(Wire(w.id, w.source, w.targets, w.kind, (30, 14)) for w in graph.wires)
    layout = lay_out(Graph(graph.boxes, wires))
    assert clashes(layout) == ()
    for wire in layout.wires:
        assert wire.label is not None
        x, y, width, height = wire.label
        assert (width, height) == (30, 14)
        start = layout.port(wire.source)
        assert x - start.x in range(12)
        assert abs(y + height / 2 - start.y) <= 12


def test_a_wire_may_run_through_a_container_or_back_around_it() -> None:
    into = Port("o.a", "left", 0), Port("o.t", "left", 1)
    out = Port("o.z", "right", 0), Port("o.u", "right", 1), Port("o.back", "top")
    box = Box("o", 0, 0, (*into, *out), children=(gate("g"),), title_room=20)
    wires = (
        Wire("in", "o.a", ("g.0",)),
        Wire("out", "g.z", ("o.z",)),
        Wire("through", "o.t", ("o.u",)),
        Wire("around", "o.z", ("o.back",)),
        Wire("on", "t.p", ("o.t",)),
        Wire("off", "o.u", ("u.p",)),
    )
    graph = Graph((box, pin("t", "right"), pin("u", "left")), wires)
    layout = lay_out(graph)
    assert_sound(graph, layout)
    assert [wire.parent for wire in layout.wires] == ["o", "o", "o", None, None, None]


# ---------------------------------------------------------------- any graph


@st.composite
def graphs(draw: st.DrawFn) -> Graph:
    """Up to 20 boxes of any size, wired forwards and backwards, some inputs from above."""
    count = draw(st.integers(2, 20))
    seeded = draw(st.booleans())
    boxes, outs, ins = [], [], []
    for i in range(count):
        width = draw(st.sampled_from([40, 60, 90.5, 200]))
        height = draw(st.sampled_from([40, 70, 100]))
        into, out = draw(st.integers(0, 4)), draw(st.integers(0, 2))
        ports = [Port(f"{i}.i{k}", "left", height * (k + 1) / (into + 1)) for k in range(into)]
        sides: tuple[Side, ...] = ("top", "bottom")
        ports += [Port(f"{i}.{s}", s, width / 2) for s in sides if draw(st.integers(0, 3)) == 0]
        ins += [(i, port.id) for port in ports]
        ports += [Port(f"{i}.o{k}", "right", height * (k + 1) / (out + 1)) for k in range(out)]
        outs += [(i, f"{i}.o{k}") for k in range(out)]
        seed = (i // 4, i % 4) if seeded else None
        boxes.append(Box(str(i), width, height, tuple(ports), seed))
    nets: dict[str, list[str]] = {}
    for i, port in ins:
        forward = [name for j, name in outs if j < i]
        back = [name for j, name in outs if j >= i]
        choice = (back or forward) if draw(st.integers(0, 4)) == 0 else forward
        if choice:
            nets.setdefault(draw(st.sampled_from(choice)), []).append(port)
    return Graph(tuple(boxes), tuple(Wire(n, n, tuple(to)) for n, to in nets.items()))


@pytest.mark.slow
@settings(max_examples=15, suppress_health_check=list(HealthCheck))
@given(graphs(), st.sampled_from(["right", "left"]))
def test_any_graph_is_sound(graph: Graph, direction: Any) -> None:
    assert_sound(graph, lay_out(graph, direction))


def test_too_large_a_figure_is_refused_before_the_engine_is_asked(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr(layouts, "engine", lambda: pytest.fail("the engine was asked"))
    most = layouts.MOST_ENDS
    ports = tuple(Port(f"B.i{i}", "left", 4.0 * i + 4) for i in range(most + 1))
    sink = Box("B", 60, 4 * most + 20, ports)
    source = Box("A", 60, 40, (Port("A.q", "right", 20),))
    wire = Wire("w", "A.q", tuple(port.id for port in ports))
    with pytest.raises(EdgewiseError) as wrong:
        lay_out(Graph((source, sink), (wire,)))
    assert str(wrong.value) == (
        "this figure has 1,001 connections, too many to be laid out; the limit is 1,000: draw less"
        " in one figure, or leave some containers closed"
    )
