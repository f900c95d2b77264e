"""State graphs of circuits, held against textbooks and against independent programs.

Outside: NetworkX finds components and what is reached; the period of a ring counter (n), of a
switch-tail ring (2n), of a maximal LFSR (2**n - 1) and the sixteen states of a CRC register are
those of textbooks (Mano and Ciletti, Digital Design, on counters; Golomb, Shift Register Sequences;
both from memory); a shift register of n bits walks the de Bruijn graph B(2, n).
"""

from __future__ import annotations

import random
from itertools import product

import networkx as nx
import pytest

from edgewise import blueprint, catalogue
from edgewise.circuit.netlist import Netlist
from edgewise.engines import reference
from edgewise.engines.state_space import cubes, graph
from edgewise.errors import EdgewiseError
from edgewise.state_graph import StateGraph
from tests.conftest import Edgewise


def of(name: str, size: int) -> StateGraph:
    first = catalogue.find(name).parameters[0].name
    return graph(catalogue.design(name, **{first: size}))


def followed(netlist: Netlist, state: int, inputs: dict[str, list[int]]) -> int:
    """The next state by the reference engine, one row."""
    bits = [state >> i & 1 for i in range(len(netlist.flip_flops))]
    row = reference.settle(netlist, bits, inputs)
    return sum(bit << i for i, bit in enumerate(reference.edge(netlist)(row)))


def fits(way: str, bits: str) -> bool:
    return all(digit in ("-", bit) for digit, bit in zip(way, bits, strict=True))


@pytest.mark.parametrize(
    ("name", "size"),
    [
        ("modulo-counter", 11),
        ("johnson-counter", 4),
        ("lfsr", 5),
        ("crc-register", 4),
        ("parallel-in-serial-out", 3),
        ("carry-save-accumulator", 3),
        ("serial-accumulator-cleared", 2),
        ("universal-shift-register", 3),
    ],
)
def test_every_transition_is_that_of_the_reference(name: str, size: int) -> None:
    first = catalogue.find(name).parameters[0].name
    design = catalogue.design(name, **{first: size})
    found, netlist = graph(design), design.netlist
    chance = random.Random(f"{name} {size}")  # noqa: S311  # not for secrets
    places = [(n, i) for n, nets in netlist.inputs.items() for i in reversed(range(len(nets)))]
    for _ in range(200):
        state = chance.randrange(1 << found.bits)
        fed = {n: [chance.randrange(2) for _ in nets] for n, nets in netlist.inputs.items()}
        names = {netlist.labels[netlist.inputs[n][i]]: str(fed[n][i]) for n, i in places}
        bits = "".join(names[one] for one in found.inputs)
        ways = [
            each
            for each in found.transitions
            if each.source == state and (not each.when or any(fits(w, bits) for w in each.when))
        ]
        assert [each.target for each in ways] == [followed(netlist, state, fed)]


@pytest.mark.parametrize(
    ("name", "size", "period"),
    [
        ("ring-counter", 5, 5),
        ("johnson-counter", 5, 10),
        ("lfsr", 6, 63),
        ("binary-counter", 5, 32),
        ("modulo-counter", 10, 10),
    ],
)
def test_counters_go_round_as_in_textbooks(name: str, size: int, period: int) -> None:
    found = of(name, size)
    assert len(found.reached) == period
    assert found.loops[0] == tuple(sorted(found.reached))
    ways = nx.DiGraph((each.source, each.target) for each in found.transitions)
    (cycle,) = nx.simple_cycles(ways.subgraph(found.reached))
    assert len(cycle) == period


def test_a_shift_register_walks_a_de_bruijn_graph() -> None:
    found = of("serial-in-serial-out", 4)
    ways = nx.DiGraph((each.source, each.target) for each in found.transitions)
    shifts = {(s, s >> 1 | bit << 3) for s in range(16) for bit in (0, 1)}
    assert set(ways.edges) == shifts
    shorter = nx.DiGraph((s, (s << 1 | bit) % 8) for s in range(8) for bit in (0, 1))
    assert nx.is_isomorphic(ways, nx.line_graph(shorter))


@pytest.mark.parametrize(
    ("name", "size"), [("ring-counter", 4), ("modulo-counter", 5), ("carry-save-accumulator", 3)]
)
def test_loops_and_what_is_reached_are_those_of_networkx(name: str, size: int) -> None:
    found = of(name, size)
    ways = nx.DiGraph((each.source, each.target) for each in found.transitions)
    (start,) = found.starts
    assert found.reached == {start, *nx.descendants(ways, start)}
    loops = {
        tuple(sorted(group))
        for group in nx.strongly_connected_components(ways)
        if len(group) > 1 or ways.has_edge(*(min(group),) * 2)
    }
    assert set(found.loops) == loops
    back = {s for s in ways if found.reached & {s, *nx.descendants(ways, s)}}
    assert found.stranded == set(ways) - back


def test_a_johnson_counter_never_leaves_its_unused_states() -> None:
    found = of("johnson-counter", 4)
    assert found.unreached == found.stranded
    assert len(found.stranded) == 8


def test_conditions_hold_for_exactly_the_inputs_they_are_of() -> None:
    chance = random.Random(4)  # noqa: S311  # not for secrets
    for width in (1, 2, 3, 4):
        digits = ["".join(bits) for bits in product("01", repeat=width)]
        for _ in range(60):
            where = chance.getrandbits(1 << width)
            ways = [*cubes(where, width)]
            held = [any(fits(way, each) for way in ways) for each in digits]
            assert held == [bool(where >> k & 1) for k in range(1 << width)]
            for way in ways:  # none could be left out
                rest = [one for one in ways if one != way]
                assert any(
                    fits(way, each) and not any(fits(one, each) for one in rest) for each in digits
                )


DETECTOR = """\
circuit: detector of 11
inputs: {x: 1}
parts:
  Q: {part: flip-flop, d: x}
  both: {part: and, in: [Q.q, x]}
outputs: {found: both.out}
procedure:
  - {phase: look, edges: 3, x: 1}
"""


def test_outputs_that_depend_on_inputs_stand_at_the_transitions() -> None:
    found = graph(blueprint.from_text(DETECTOR, "detector.yaml").design())
    assert (found.inputs, found.outputs, found.mealy) == (("x",), (), ("found",))
    ways = {(t.source, *t.when, t.target, t.output) for t in found.transitions}
    assert ways == {(0, "0", 0, "0"), (0, "1", 1, "0"), (1, "0", 0, "0"), (1, "1", 1, "1")}


def test_outputs_of_the_state_alone_stand_with_it() -> None:
    found = of("modulo-counter", 5)
    assert found.outputs == ("terminal_count",)
    assert {s for s in found.states if found.shown[s] == "1"} == {4}


@pytest.mark.parametrize(
    ("words", "message"),
    [
        (
            ("ripple-carry-adder",),
            "ripple-carry-adder has no flip-flop, so it has no states to draw or list\n",
        ),
        (
            ("serial-adder",),
            "serial-adder has 19 flip-flops, 524,288 states; states are worked out for up to 12"
            " flip-flops: choose a smaller size\n",
        ),
        (
            ("parallel-in-serial-out", "--with", "n=9"),
            "parallel-in-serial-out has 9 flip-flops and 10 input bits that matter to them; its"
            " states are worked out up to 16 together: choose a smaller size\n",
        ),
        (
            ("serial-adder", "--with", "n=2"),
            "a state diagram shows up to 32 states and 40 transitions; serial-adder reaches 128 of"
            " 128 states, with 634 transitions: choose a smaller size\n",
        ),
        (
            ("johnson-counter", "--with", "n=4,k=2", "--after", "9"),
            "there is no row 9: the rows are 0..2\n",
        ),
    ],
)
def test_what_has_no_diagram_is_refused(
    edgewise: Edgewise, words: tuple[str, ...], message: str
) -> None:
    answer = edgewise("draw", *words, "--figure", "states", "-o", "x.svg")
    assert (answer.code, answer.err) == (2, message)


def test_a_bit_that_nobody_drives_is_refused() -> None:
    text = DETECTOR.replace("d: x", "d: X")
    with pytest.raises(EdgewiseError) as caught:
        graph(blueprint.from_text(text, "detector.yaml").design())
    assert str(caught.value) == (
        "detector-of-11 reads a bit that is always unknown, so its states can't be told apart:"
        " drive every input of its parts"
    )
