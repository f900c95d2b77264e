"""True delays: exact where they are said to be, shown by operands, told in every state."""

from __future__ import annotations

import random
import time
from itertools import product

import networkx as nx
import pytest

from edgewise import blueprint, catalogue, run
from edgewise.circuit.netlist import CLOCK_NET, Gate, Netlist
from edgewise.design import Design
from edgewise.engines.sat import last_change, lateness
from edgewise.engines.sat.lateness import Effort
from edgewise.engines.sat.moments import Course
from edgewise.engines.symbolic.variables import Variable
from edgewise.engines.timed.delays import Delays
from edgewise.engines.timed.simulation import Stimulus, simulate
from edgewise.study.cost import models, path_count, true_delay
from edgewise.study.cost.true_delay import TrueDelay
from edgewise.study.inside import Manner, inside
from edgewise.words import messages

ADDERS = [name for name in catalogue.ORDER if "adder" in name and not catalogue.design(name).edges]


def at_16(name: str) -> Design:
    return catalogue.design(name, n=16)


@pytest.mark.parametrize("model", ["unit-gate", "74hc", "cmos"])
@pytest.mark.parametrize("name", ADDERS)
def test_every_adder_of_16_bits_is_exact(name: str, model: str) -> None:
    begun = time.process_time()
    found = true_delay.of(at_16(name), models.technology(model))
    assert time.process_time() - begun < 10
    assert found.at == found.most <= found.longest
    assert found.false == (name == "carry-skip-adder") == bool(found.paths)
    assert found.shown is not None
    assert found.shown.at == found.at


@pytest.mark.parametrize("name", ["kogge-stone-adder", "brent-kung-adder", "sklansky-adder"])
def test_a_prefix_adder_of_64_bits(name: str) -> None:
    begun = time.process_time()
    found = true_delay.of(catalogue.design(name, n=64))
    assert time.process_time() - begun < 60
    assert found.at == found.most == found.longest
    assert found.shown is not None


@pytest.mark.parametrize("name", ["carry-skip-adder", "carry-select-adder"])
def test_the_operands_show_it_inside(name: str) -> None:
    """What is said is seen by `trace --inside 0 --before`."""
    design = at_16(name)
    shown = true_delay.of(design).shown
    assert shown is not None
    assert shown.pulses == "inertial"
    before, after = (run(design, **pair) for pair in (shown.before, shown.operands))
    moment = inside(after, 0, manner=Manner(), before=before)
    outputs = [net for nets in design.netlist.outputs.values() for net in nets]
    settled = moment.settled(0, outputs)
    assert settled is not None
    assert settled == shown.at * moment.ticks


def at_random(seed: int) -> Course:
    """A few gates with delays at random; every gate that nothing reads is an end."""
    draw = random.Random(seed)  # noqa: S311  # cases, no secrets
    inputs = draw.randint(2, 4)
    size, gates = CLOCK_NET + 1 + inputs, list[Gate]()
    for number in range(draw.randint(3, 12)):
        operator = draw.choice(["and", "or", "nand", "nor", "xor", "xnor", "not", "multiplexer"])
        wide = {"not": 1, "multiplexer": 3}.get(operator, draw.randint(2, 3))
        read = tuple(draw.randrange(CLOCK_NET + 1, size) for _ in range(wide))
        gates.append(Gate(operator, read, size, f"g{number}"))
        size += 1
    x = tuple(range(CLOCK_NET + 1, CLOCK_NET + 1 + inputs))
    netlist = Netlist(size, {"x": x}, {}, tuple(gates), (), {})
    ends = {gate.output for gate in gates} - {net for gate in gates for net in gate.inputs}
    return Course(
        netlist,
        tuple(draw.randint(1, 5) for _ in gates),
        dict.fromkeys(x, 0),
        {net: Variable("x", i) for i, net in enumerate(x)},
        tuple((net, draw.randint(0, 2)) for net in sorted(ends)),
    )


def played(course: Course, start: list[int], after: tuple[int, ...], *, transport: bool) -> int:
    """When the last end changes."""
    delays = Delays(tuple((one, one) for one in course.delays), (), transport)
    stimuli = [Stimulus(0, net, bit) for net, bit in zip(course.begins, after, strict=True)]
    changes = simulate(course.netlist, delays, start, stimuli, until=1000).changes
    more = dict(course.ends)
    return max([0, *(c.time + more[c.net] for c in changes if c.net in more)])


def rest(course: Course, before: tuple[int, ...]) -> list[int]:
    """Every net, settled: what a simulation from anything comes to."""
    start = [0, 1, 2, 1] + [2] * (course.netlist.size - 4)
    stimuli = [Stimulus(0, net, bit) for net, bit in zip(course.begins, before, strict=True)]
    delays = Delays(((1, 1),) * len(course.delays), ())
    for change in simulate(course.netlist, delays, start, stimuli, until=1000).changes:
        start[change.net] = change.after
    return start


@pytest.mark.parametrize("seed", range(40))
def test_circuits_at_random_against_every_pair(seed: int) -> None:
    """The engine in time plays all words after unknown ones, and all pairs of words."""
    course = at_random(seed)
    words = list(product((0, 1), repeat=len(course.begins)))
    unknown = [0, 1, 2, 1] + [2] * (course.netlist.size - 4)
    floating = max(played(course, unknown, word, transport=False) for word in words)
    found = lateness.latest(course, tries=())
    assert (found.at, found.most) == (floating, floating)
    exact = max(
        played(course, rest(course, one), other, transport=True) for one in words for other in words
    )
    pair = last_change.changed(course, found.most)
    assert (pair.at if pair else 0) == exact <= floating


def test_longer_paths_are_counted() -> None:
    """Against networkx: every path of a graph with a node for each net, one by one."""
    design = catalogue.design("carry-skip-adder", n=6, m=2)
    netlist, timing = design.netlist, models.technology("unit-gate").timing(design.netlist)
    graph = nx.DiGraph()
    for gate, delay in zip(netlist.gates, timing.gates, strict=True):
        graph.add_edges_from((net, gate.output, {"weight": delay}) for net in gate.inputs)
    begins = [net for nets in netlist.inputs.values() for net in nets]
    ends = [net for nets in netlist.outputs.values() for net in nets]
    lengths = [
        nx.path_weight(graph, path, "weight")
        for begin in begins
        for end in ends
        for path in nx.all_simple_paths(graph, begin, end)
    ]
    free = {net: Variable("", net) for net in begins}
    zeros = dict.fromkeys(begins, 0)
    course = Course(netlist, timing.gates, zeros, free, tuple((end, 0) for end in ends))
    for most in range(max(lengths) + 1):
        assert path_count.longer(course, most) == sum(length > most for length in lengths)


# ---------------------------------------------------------------------- what is said


def told(found: TrueDelay, language: str = "en") -> list[str]:
    return list(found.sentences(messages.of(language)))


def test_a_false_path_is_told() -> None:
    found = true_delay.of(catalogue.design("carry-skip-adder", n=12, m=4))
    assert told(found) == [
        "true delay: 20 gate delays; whatever operands follow on others, nothing changes later",
        "40 paths are longer and false: no operands take them; they end in carry (28), sum(11)"
        " (26), sum(10) (24), sum(9) (22)",
        "shown by a = 8, b = 2024 after a = 8, b = 2040: the last output changes 20 gate"
        " delays later",
    ]
    assert told(found, "de") == [
        "wahre Verzögerung: 20 Gatterlaufzeiten; welche Operanden auch auf andere folgen, später"
        " ändert sich nichts",
        "40 Pfade sind länger und falsch: keine Operanden nehmen sie; sie enden in carry (28),"
        " sum(11) (26), sum(10) (24), sum(9) (22)",
        "gezeigt von a = 8, b = 2024 nach a = 8, b = 2040: der letzte Ausgang ändert sich 20"
        " Gatterlaufzeiten später",
    ]


def test_a_true_path_is_told() -> None:
    found = true_delay.of(catalogue.design("ripple-carry-adder", n=2))
    assert told(found) == [
        "true delay: 6 gate delays; whatever operands follow on others, nothing changes later",
        "shown by a = 0, b = 0, carry_in = 1 after a = 0, b = 1, carry_in = 1: the last output"
        " changes 6 gate delays later",
    ]


def test_what_is_stored_bounds_it() -> None:
    """The carry of a multiplier's adder never ripples through with all of its partial product."""
    assert told(true_delay.of(catalogue.design("shift-add-multiplier", n=4))) == [
        "true delay: at most 16 gate delays, clock-to-Q and set-up time counted, whatever is"
        " stored",
        "6 paths are longer and false: no operands take them; they end in H.bit(2).d (18),"
        " H.bit(3).d (18)",
    ]
    assert told(true_delay.of(catalogue.design("serial-adder", n=4))) == []


def test_pulses_that_gates_would_swallow_are_told() -> None:
    found = true_delay.of(at_16("carry-select-adder"), models.technology("cmos"))
    assert told(found)[-1] == (
        "shown by a = 12, b = 32764 after a = 4, b = 32764: the last output changes 98 tau later,"
        " where gates pass pulses of any length"
    )


def test_too_little_effort_is_told() -> None:
    found = true_delay.of(at_16("carry-skip-adder"), effort=Effort(terms=300))
    assert found.at < found.most < found.longest
    assert told(found) == [
        "true delay: 8 to 37 gate delays; more was not found with the effort there is",
        "2 paths are longer and false: no operands take them; they end in carry (38)",
    ]


WIRED = """
circuit: {name}
inputs: {{x: 1}}
parts: {{Z: {part}}}
outputs: {{z: Z.out}}
operands: {{x: 1}}
"""


def test_a_constant_never_changes() -> None:
    text = WIRED.format(name="shut", part="{part: and, in: [x, 0]}")
    found = true_delay.of(blueprint.from_text(text, "shut.yaml").design())
    assert told(found) == [
        "true delay: 0 gate delays; whatever operands follow on others, nothing changes later",
        "one path is longer and false: no operands take it; it ends in z (1)",
    ]


def test_data() -> None:
    found = true_delay.of(catalogue.design("carry-skip-adder", n=4, m=2))
    assert found.data() == {
        "model": "unit-gate",
        "unit": "gate delays",
        "longest": 10,
        "at": 8,
        "most": 8,
        "false_paths": 4,
        "false_ends": {"carry": 10},
        "shown": {
            "before": {"a": 1, "b": 7},
            "operands": {"a": 1, "b": 5},
            "at": 8,
            "pulses": "inertial",
        },
    }
