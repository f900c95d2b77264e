"""Longest paths against networkx on the same graph.

Outside: the library networkx (BSD), `dag_longest_path_length`, on a graph that is built here from
the netlist: a node for each net, an edge for each way through a gate, with its delay.
"""

from __future__ import annotations

from collections.abc import Iterator

import networkx as nx
import pytest

from edgewise import blueprint, catalogue
from edgewise.circuit.netlist import Netlist
from edgewise.study.cost import measure, models
from edgewise.study.cost.critical_path import longest
from edgewise.study.cost.technology import Technology

NUMBERS = {"crc-register": {"n": 16, "poly": 0x1021, "x": 2}, "modulo-counter": {"m": 11}}


def ways(netlist: Netlist, technology: Technology) -> Iterator[tuple[object, object, int]]:
    """From where to where, and how long it takes."""
    timing = technology.timing(netlist)
    for gate, delay in zip(netlist.gates, timing.gates, strict=True):
        yield from ((net, gate.output, delay) for net in gate.inputs)
    clocked = bool(netlist.flip_flops)
    for net in (net for bits in netlist.inputs.values() for net in bits):
        yield "begin", net, timing.outside[0] if clocked else 0
    stored = zip(netlist.flip_flops, timing.clock_to_q, timing.setup, strict=True)
    for flip_flop, clock_to_q, setup in stored:
        yield "begin", flip_flop.q, clock_to_q
        ports = (flip_flop.d, flip_flop.enable, flip_flop.clear, flip_flop.gate)
        for port, before in zip(ports, (*setup, 0), strict=True):
            if port is not None:
                yield port, "end", before
    # Outside stands a plain flip-flop behind each output, as one stands before each input.
    after = timing.outside[1] if clocked else 0
    yield from ((net, "end", after) for bits in netlist.outputs.values() for net in bits)


def graph(netlist: Netlist, technology: Technology) -> nx.DiGraph:
    found = nx.DiGraph()
    for start, end, delay in ways(netlist, technology):
        known = found.get_edge_data(start, end, {"weight": delay})["weight"]
        found.add_edge(start, end, weight=max(known, delay))
    reached = nx.descendants(found, "begin") | {"begin"}
    return found.subgraph(reached & (nx.ancestors(found, "end") | {"end"}))


@pytest.mark.parametrize("name", catalogue.ORDER)
@pytest.mark.parametrize("model", ["gate-count", "unit-gate", "cmos", "74hc", "74hc-worst"])
def test_length(name: str, model: str) -> None:
    technology = models.technology(model)
    netlist = catalogue.design(name, **NUMBERS.get(name, {"n": 16})).netlist
    expected = nx.dag_longest_path_length(graph(netlist, technology))
    path = longest(netlist, technology)
    assert path.length == technology.units(expected)
    assert sum(step.delay for step in path.steps) == path.length


@pytest.mark.parametrize("name", ["kogge-stone-adder", "carry-skip-adder", "shift-add-multiplier"])
def test_the_path_is_one_of_the_longest(name: str) -> None:
    """Its nets follow one another in the graph, and their delays add up to the length."""
    technology = models.technology("cmos")
    netlist = catalogue.design(name, n=16).netlist
    found = graph(netlist, technology)
    nets = ["begin", *longest(netlist, technology).nets, "end"]
    assert nx.path_weight(found, nets, "weight") == nx.dag_longest_path_length(found)


BEHIND = """
circuit: a tree of XOR gates behind a register
parameters: {n: 3}
inputs: {x: 2**n, late: 1}
nets: {t: 2**(n+1)}
join: {"t(2**(n+1)-1..2**n)": R, t(0): 0}
parts:
  R: {part: register, width: 2**n, d: x}
  P(i = 1..2**n-1): {part: xor, in: [t(2*i), t(2*i+1)], out: t(i)}
  G: {part: and, in: [t(1), late]}
outputs: {parity: t(1), masked: G.out}
operands: {x: 2**n, late: 1}
procedure: [{phase: load, edges: 1}]
"""


@pytest.mark.parametrize("model", ["gate-count", "unit-gate", "cmos", "74hc", "74hc-worst"])
@pytest.mark.parametrize("n", [1, 2, 4])
def test_a_path_that_ends_at_an_output(model: str, n: int) -> None:
    technology = models.technology(model)
    design = blueprint.from_text(BEHIND, "behind.yaml").design({"n": n})
    found = graph(design.netlist, technology)
    expected = technology.units(nx.dag_longest_path_length(found))
    path = longest(design.netlist, technology)
    assert (path.length, path.steps[-1].kind) == (expected, "output")
    assert measure.of(design, technology).period == expected
