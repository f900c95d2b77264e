"""The longest path: its stations, its words, its ends."""

from __future__ import annotations

import json
from collections.abc import Callable

import pytest

from edgewise import blueprint, catalogue
from edgewise.study import cost, paths

Golden = Callable[[str, str], None]


def test_register_to_register(golden: Golden) -> None:
    design = catalogue.design("shift-add-multiplier", n=3)
    golden("path-shift-add-multiplier.txt", paths.longest(design.netlist).text() + "\n")


def test_input_to_output(golden: Golden) -> None:
    design = catalogue.design("carry-skip-adder", n=6, m=3, c=1)
    golden("path-carry-skip-adder.txt", paths.longest(design.netlist).text() + "\n")


@pytest.mark.parametrize("name", catalogue.ORDER)
@pytest.mark.parametrize("model", ["gate-count", "unit-gate", "cmos", "74hc"])
def test_the_steps_follow_one_another(name: str, model: str) -> None:
    netlist = catalogue.design(name).netlist
    path = paths.longest(netlist, cost.technology(model))
    assert path.steps[0].kind in ("input", "flip-flop")
    assert path.steps[-1].kind == ("setup" if netlist.flip_flops else "output")
    drivers = {gate.output: gate for gate in netlist.gates}
    at = path.steps[0].at
    for before, step in zip(path.steps, path.steps[1:], strict=False):
        at += step.delay
        assert step.at == at
        if step.kind == "gate":
            assert before.net in drivers[step.net].inputs
            assert drivers[step.net].name == step.part
        else:
            assert step.net == before.net
    assert path.length == at
    json.dumps(path.data())


def test_a_false_path_is_left_in() -> None:
    """The carry ripples through every group of the carry-skip adder; no operands make it."""
    skip = paths.longest(catalogue.design("carry-skip-adder", n=32).netlist)
    ripple = paths.longest(catalogue.design("ripple-carry-adder-without-carry-in", n=32).netlist)
    assert skip.length > ripple.length
    assert skip.text().endswith("; false paths, which no operands take, are left in")


def test_parts_and_nets_for_a_drawing() -> None:
    netlist = catalogue.design("serial-adder", n=4).netlist
    path = paths.longest(netlist)
    assert path.parts == ("B.bit(0)", "FA.X1", "FA.G2", "FA.OR", "C")
    assert [netlist.labels[net] for net in path.nets] == [
        "B(0)",
        "FA.X1.out",
        "FA.G2.out",
        "FA.carry-out",
    ]


def test_a_circuit_with_no_path() -> None:
    text = "{circuit: nothing, outputs: {}, operands: {}}"
    path = paths.longest(blueprint.from_text(text, "n.yaml").design().netlist)
    assert path.length == 0
    assert (path.nets, path.summary) == ((), "there is no path")
    assert path.text().endswith(
        "there is no path; false paths, which no operands take, are left in"
    )


def test_a_late_enable_of_a_gated_clock_is_an_end() -> None:
    text = """
    circuit: gated late
    inputs: {x: 1}
    parts:
      A: {part: flip-flop, d: x}
      P: {part: xor, in: [A.q, x]}
      Y: {part: xor, in: [P.out, x]}
      gate: {part: and, in: [clock, Y.out]}
      B: {part: flip-flop, d: x, clock: gate.out}
    outputs: {y: B.q}
    operands: {x: 1}
    procedure: [{phase: go, edges: 1}]
    """
    path = paths.longest(blueprint.from_text(text, "g.yaml").design().netlist)
    assert path.summary == "longest path: 9 gate delays, from x to clock of B"
