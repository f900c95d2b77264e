"""Prefix graphs: found by what the parts compute, and drawn as in books."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import Final
from xml.etree import ElementTree as ET

import pytest

from edgewise import catalogue
from edgewise.catalogue import prefix
from edgewise.circuit.builder import Builder
from edgewise.circuit.model import Circuit, Kind, Part, Port
from edgewise.circuit.parts import one_bit
from edgewise.design import Design
from edgewise.engines.reference import at_rest
from edgewise.views.diagram.block_diagram import diagram
from edgewise.views.diagram.options import Manner
from edgewise.views.diagram.picture import Picture
from edgewise.views.diagram.prefix_graph import PrefixGraph, find
from edgewise.views.diagram.prefix_operator import operator
from edgewise.views.drawing.column import column
from edgewise.views.drawing.shapes import Text
from edgewise.views.drawing.svg import svg
from edgewise.views.layout import elk
from scripts.figure_table import Point, measured, points
from tests.views.measures import faults, placed, texts
from tests.views.runs import crossings, ran, traced, wrong

Level = list[tuple[int, int]]

# ---------------------------------------------------------------- read back from the SVG


@dataclass(frozen=True)
class Seen:
    """A prefix graph as somebody sees it who has nothing but the picture."""

    nodes: dict[str, Point]
    """The middle of each."""
    black: frozenset[str]
    fed: dict[str, list[str]]
    """For every wire the nodes that it comes to."""

    @property
    def levels(self) -> int:
        return len({y for _, y in self.nodes.values()})

    @property
    def fan_out(self) -> int:
        """How many nodes of one level a node feeds, at most."""
        rows = Counter(
            (wire, self.nodes[node][1])
            for wire, nodes in self.fed.items()
            for node in nodes
            if wire.rpartition(".")[0] in self.nodes
        )
        return max(rows.values())


def seen(markup: str) -> Seen:
    root = ET.fromstring(markup)  # noqa: S314  # what edgewise itself wrote
    space = "{http://www.w3.org/2000/svg}"
    nodes, black = {}, set()
    for part in root.iter(f"{space}g"):
        kinds = {kind.get("class") for kind in part} & {"black", "grey"}
        if part.get("class") == "part" and kinds:
            name = part.get("data-name", "")
            circle = next(part.iter(f"{space}circle"))
            left, top = map(float, part.get("transform", "")[len("translate(") : -1].split())
            middle = float(circle.get("cx", "")), float(circle.get("cy", ""))
            nodes[name] = left + middle[0], top + middle[1]
            black |= {name} if "black" in kinds else set()
    fed: defaultdict[str, list[str]] = defaultdict(list)
    for wire in root.iter(f"{space}g"):
        for path in wire if wire.get("class") == "wire" else ():
            if path.get("stroke") is None:  # an arrowhead
                continue
            for x, y in points(path.get("d", ""))[-1:]:
                near = (n for n, (a, b) in nodes.items() if abs(a - x) < 9 and -1 < b - y < 11)
                fed[wire.get("data-name", "")] += near
    return Seen(nodes, frozenset(black), dict(fed))


def drawn(name: str, n: int) -> Seen:
    return seen(svg(diagram(traced(name, n))))


# Nodes; levels, as nodes on the longest path; fan-out of a node, where it is told. Computed from
# the networks' definitions for REFERENCES.md, 1.2, and equal to the formulas in the literature:
# Sklansky (n/2) log2 n, Kogge-Stone n log2 n - n + 1, Brent-Kung 2n - 2 - log2 n, Han-Carlson
# (n/2) log2 n; fan-out n/2 (Sklansky), 2 (Kogge-Stone, level by level). Kogge and Stone, IEEE
# Trans. Comp. C-22(8), 1973; Brent and Kung, IEEE Trans. Comp. C-31(3), 1982; Parhami, Computer
# Arithmetic, 6.4 and 6.5 (26 nodes and 6 levels, 49 and 4, 32 and 5 for 16 bits).
LITERATURE: Final = [
    ("sklansky-adder", 8, 12, 3, 4),
    ("sklansky-adder", 16, 32, 4, 8),
    ("sklansky-adder", 32, 80, 5, 16),
    ("kogge-stone-adder", 8, 17, 3, 2),
    ("kogge-stone-adder", 16, 49, 4, 2),
    ("kogge-stone-adder", 32, 129, 5, 2),
    ("brent-kung-adder", 8, 11, 4, None),
    ("brent-kung-adder", 16, 26, 6, None),
    ("brent-kung-adder", 32, 57, 8, None),
    ("han-carlson-adder", 8, 12, 4, None),
    ("han-carlson-adder", 16, 32, 5, None),
    ("han-carlson-adder", 32, 80, 6, None),
]


@pytest.mark.parametrize(("name", "n", "nodes", "levels", "fan_out"), LITERATURE)
def test_the_picture_has_the_counts_of_the_literature(
    name: str, n: int, nodes: int, levels: int, fan_out: int | None
) -> None:
    picture = drawn(name, n)
    assert (len(picture.nodes), picture.levels) == (nodes, levels)
    # Every column but that of the LSB ends in one grey node: its span reaches down to column 0.
    assert len(picture.nodes) - len(picture.black) == n - 1
    assert fan_out in (None, picture.fan_out)
    # Each node takes in two spans.
    taken = Counter(node for nodes in picture.fed.values() for node in nodes)
    assert set(taken.values()) == {2}


def test_an_input_column_of_a_kogge_stone_adder_feeds_log2_n_nodes() -> None:
    assert len(drawn("kogge-stone-adder", 16).fed["HA(0).carry-out"]) == 4


def test_columns_have_the_msb_left_and_levels_run_downwards() -> None:
    picture = drawn("kogge-stone-adder", 8)
    for i in range(2, 8):
        assert picture.nodes[f"N1({i})"][0] < picture.nodes[f"N1({i - 1})"][0]
        assert picture.nodes[f"N1({i})"][0] == picture.nodes[f"N2({i})"][0]
        assert picture.nodes[f"N1({i})"][1] < picture.nodes[f"N2({i})"][1]


# ---------------------------------------------------------------- crossings


def needed(network: list[Level]) -> int:
    """Crossings that a network needs with its columns side by side and its levels below another.

    What goes from a column to others, crosses every column on the way, once.
    """
    found = 0
    for level in network:
        furthest: dict[int, int] = {}
        for high, below in level:
            furthest[below] = max(high, furthest.get(below, 0))
        found += sum(high - below - 1 for below, high in furthest.items())
    return found


NETWORKS: Final[list[tuple[str, Callable[[int], list[Level]]]]] = [
    (name, network) for name, (_, network, _) in prefix.NETWORKS.items()
]


@pytest.mark.parametrize("n", [4, 5, 8, 16])
@pytest.mark.parametrize(("name", "network"), NETWORKS)
def test_no_crossing_but_those_that_the_network_needs(
    name: str, network: Callable[[int], list[Level]], n: int
) -> None:
    found = measured(svg(diagram(traced(name, n))), "down")
    assert found.crossings <= needed(network(n))
    assert found.backward == 0
    if name == "kogge-stone-adder":
        assert found.crossings == needed(network(n))


def test_kogge_stone_of_8_bits_needs_18_crossings() -> None:
    # 6 ways over one column in the second level, 4 ways over three in the third.
    assert needed(prefix.kogge_stone(8)) == 6 * 1 + 4 * 3


# ---------------------------------------------------------------- it is found in the netlist


def joined() -> tuple[tuple[Port, ...], Circuit]:
    """A node of other names and gates than the catalogue's, its outputs the other way round."""
    b = Builder("merge")
    lower, upper, pass_lower, pass_upper = (b.input(one) for one in ("gl", "gu", "pl", "pu"))
    b.output("pp", b.part("U", "and", {"in": (*pass_upper, *pass_lower)})["out"])
    none = b.part("V", "nand", {"in": (*pass_upper, *lower)})["out"]
    stop = b.part("W", "not", {"in": upper})["out"]
    b.output("gg", b.part("Y", "nand", {"in": (*none, *stop)})["out"])
    ports = (*one_bit("in", "gl", "gu", "pl", "pu"), *one_bit("out", "pp", "gg"))
    return ports, b.circuit()


def test_a_node_is_known_by_what_it_computes() -> None:
    ports, inside = joined()
    found = operator(Kind("merge", ports, (), inside))
    assert found is not None
    assert (found.generate, found.propagate, found.g) == ("gg", "pp", "gu")
    assert (found.p, found.p_below) == (("pu",), "pl")


@pytest.mark.parametrize("name", ["kogge-stone-adder", "brent-kung-adder"])
def test_names_do_not_matter(name: str) -> None:
    circuit = catalogue.design(name, n=8).circuit
    renamed = replace(circuit, name="two bakery counters", parts=circuit.parts[::-1])
    graph = find(renamed)
    assert graph is not None
    assert len(graph.nodes) == len(known(circuit).nodes)


def known(circuit: Circuit) -> PrefixGraph:
    graph = find(circuit)
    assert graph is not None
    return graph


@pytest.mark.parametrize("name", [name for name in catalogue.ORDER if name not in prefix.NETWORKS])
def test_nothing_else_is_taken_for_one(name: str) -> None:
    assert find(catalogue.design(name).circuit) is None


def test_a_graph_with_anything_else_in_it_is_none() -> None:
    circuit = catalogue.design("kogge-stone-adder", n=4).circuit
    extra = replace(circuit.parts[0], name="SPARE")
    assert find(replace(circuit, parts=(*circuit.parts, extra))) is None
    # A sum that takes the carry of another column.
    one, other = circuit.part("XOR(2)"), circuit.part("XOR(3)")
    assert one is not None
    assert other is not None
    swapped: list[Part] = [p for p in circuit.parts if p not in (one, other)]
    carry, p = other.signal("in")
    signal = (*one.signal("in")[:1], p)
    moved = tuple(replace(c, signal=signal) if c.port == "in" else c for c in other.connections)
    assert carry != signal[0]
    parts = (*swapped, one, replace(other, connections=moved))
    assert find(replace(circuit, parts=parts)) is None


# ---------------------------------------------------------------- what is in the picture


@pytest.mark.parametrize("n", [2, 3, 5, 8])
@pytest.mark.parametrize("name", prefix.NETWORKS)
def test_with_a_carry_in_and_any_number_of_bits(name: str, n: int) -> None:
    trace = ran(catalogue.design(name, n=n, c=1))
    assert wrong(trace) == []
    assert any(item.text == "carry_in" for item in texts(diagram(trace)))


def test_a_network_of_carries_alone() -> None:
    b = Builder("carry network")
    g, p = b.input("g", 4), b.input("p", 4)
    below = g[:1]
    carries = [*below]
    for i in range(1, 4):
        ports = {"g": g[i : i + 1], "p": p[i : i + 1], "g-below": below}
        below = b.part(f"K({i})", prefix.node(last=True), ports)["generate"]
        carries += below
    b.output("c", tuple(carries))
    trace = at_rest(Design("carry-network", b.circuit()))
    assert known(trace.design.circuit).nodes[-1].level == 3
    assert wrong(trace) == []
    assert measured(svg(diagram(trace)), "down").crossings == 0


def test_values_stand_in_the_picture() -> None:
    trace = traced("kogge-stone-adder", 8)
    picture = Picture(trace, Manner())
    elements = {element.id: element for element in picture.scene.elements}
    for part in trace.design.circuit.parts:
        if part.name.startswith("N"):
            ports = [port for port in ("propagate", "generate") if part.kind.port(port)]
            nets = tuple(trace.design.netlist.names[f"{part.name}.{port}"][0] for port in ports)
            assert elements[part.name].word == nets
    assert picture.work == 0


def test_no_layout_engine_is_asked(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(elk, "engine", None)
    assert diagram(traced("han-carlson-adder", 32)).width < 2400


def test_the_legend_tells_the_nodes() -> None:
    drawing = diagram(traced("kogge-stone-adder", 4), legend=True)
    said = [item.text for item, _ in placed(drawing.items) if isinstance(item, Text)]
    assert said[-2:] == ["g and p", "g alone"]


def test_the_critical_path_is_marked() -> None:
    path = [("b(0)", "0"), ("HA(0).carry-out", "1"), ("N1(1).generate", "3")]
    path += [("N2(3).generate", "5"), ("carry", "5")]
    drawing = svg(diagram(traced("kogge-stone-adder", 4), path=path))
    assert drawing.count('class="path"') == 4
    assert drawing.count('class="delay"') == 4


def test_a_fault_is_marked_at_its_node() -> None:
    drawing = svg(diagram(traced("kogge-stone-adder", 4), mark=["N1(2)", "N2(3).OR"]))
    assert drawing.count('class="fault" data-name="N') == 2


# ---------------------------------------------------------------- buffers


def buffered(n: int, network: Callable[[int], list[Level]]) -> Circuit:
    """A prefix adder with a buffer in each column of each level that has no node there."""
    b = Builder("buffered prefix adder")
    one, other = b.input("a", n), b.input("b", n)
    halves = [b.part(f"HA({i})", "half-adder", {"a": one[i], "b": other[i]}) for i in range(n)]
    g, p = [half["carry-out"] for half in halves], [half["sum"] for half in halves]
    low, levels = list(range(n)), network(n)
    for number, level in enumerate(levels, 1):
        from_g, from_p, reach = list(g), list(p), list(low)
        for i in range(n):
            lower = next((j for k, j in level if k == i), None)
            needs_p = low[i] > 0
            if lower is None:
                g[i] = b.part(f"BG{number}({i})", "buffer", {"in": from_g[i]})["out"]
                if needs_p:
                    p[i] = b.part(f"BP{number}({i})", "buffer", {"in": from_p[i]})["out"]
                continue
            last = reach[lower] == 0
            ports = {"g": from_g[i], "p": from_p[i], "g-below": from_g[lower]}
            ports |= {} if last else {"p-below": from_p[lower]}
            placed = b.part(f"N{number}({i})", prefix.node(last=last), ports)
            g[i], low[i] = placed["generate"], reach[lower]
            p[i] = p[i] if last else placed["propagate"]
    bits = [*halves[0]["sum"]]
    for i in range(1, n):
        ports = {"in": (*g[i - 1], *halves[i]["sum"])}
        bits += b.part(f"XOR({i})", "xor", ports)["out"]
    b.output("sum", tuple(bits))
    b.output("carry", g[-1])
    return b.circuit()


@pytest.mark.parametrize("n", [4, 8, 16])
@pytest.mark.parametrize("network", [prefix.kogge_stone, prefix.sklansky, prefix.brent_kung])
def test_a_span_without_a_node_passes_a_buffer(
    n: int, network: Callable[[int], list[Level]]
) -> None:
    circuit = buffered(n, network)
    graph = known(circuit)
    levels = network(n)
    nodes = [node for node in graph.nodes if node.below is not None]
    assert len(nodes) == sum(map(len, levels))
    assert len(graph.nodes) == n * len(levels)  # a node or a buffer everywhere
    trace = at_rest(Design("buffered", circuit))
    assert wrong(trace) == []
    assert "buffer" in {text.text for text in texts(diagram(trace, legend=True))}
    markup = svg(diagram(trace))
    assert markup.count('class="buffer"') == len(graph.nodes) - len(nodes)
    assert seen(markup).levels == len(levels)
    assert measured(markup, "down").crossings == needed(levels)


def test_a_buffer_of_half_a_span_makes_no_graph() -> None:
    circuit = buffered(4, prefix.kogge_stone)
    lost = circuit.part("BP1(0)") or circuit.part("BG1(0)")
    assert lost is not None
    renamed = [replace(part, kind=replace(part.kind, name="delay")) for part in (lost,)]
    parts = tuple(renamed[0] if part is lost else part for part in circuit.parts)
    assert find(replace(circuit, parts=parts)) is None


@pytest.mark.parametrize("name", ["brent-kung-adder", "kogge-stone-adder"])
def test_sixteen_columns_fit_a_page_with_every_name(name: str) -> None:
    room = column("170mm").room
    drawing = diagram(traced(name, 16), room=room)
    assert drawing.width <= room
    assert [*faults(drawing), *crossings(drawing)] == []
    said = {text.text for text in texts(drawing)}
    assert {f"{word}({i})" for word in ("a", "b", "sum", "p") for i in range(16)} <= said
