"""The critical path: its stations, its words, its ends."""

from __future__ import annotations

import json
from collections.abc import Callable

import pytest

from edgewise import blueprint, catalogue
from edgewise.study.cost import critical_path, models

Golden = Callable[[str, str], None]


def test_register_to_register(golden: Golden) -> None:
    design = catalogue.design("shift-add-multiplier", n=3)
    golden("path-shift-add-multiplier.txt", critical_path.longest(design.netlist).text() + "\n")


def test_input_to_output(golden: Golden) -> None:
    design = catalogue.design("carry-skip-adder", n=6, m=3, c=1)
    golden("path-carry-skip-adder.txt", critical_path.longest(design.netlist).text() + "\n")


@pytest.mark.parametrize("name", catalogue.ORDER)
@pytest.mark.parametrize("model", ["gate-count", "unit-gate", "cmos", "74hc", "74hc-worst"])
def test_the_steps_follow_one_another(name: str, model: str) -> None:
    netlist = catalogue.design(name).netlist
    path = critical_path.longest(netlist, models.technology(model))
    assert path.steps[0].kind in ("input", "flip-flop")
    assert path.steps[-1].kind in (("setup", "output") if netlist.flip_flops else ("output",))
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


def test_a_false_path_counts() -> None:
    """The carry ripples through every group of the carry-skip adder."""
    skip = catalogue.design("carry-skip-adder", n=32).netlist
    ripple = catalogue.design("ripple-carry-adder-without-carry-in", n=32).netlist
    path = critical_path.longest(skip)
    assert path.length > critical_path.longest(ripple).length
    assert path.text().endswith("; a path counts whether or not operands take it")


REGISTERED = """
circuit: registered ripple-carry adder
parameters: {n: 4}
inputs: {a_in: n, b_in: n}
nets: {c: n + 1}
join: {c(0): 0}
parts:
  A: {part: register, width: n, d: a_in}
  B: {part: register, width: n, d: b_in}
  HA: {part: half-adder, a: A(0), b: B(0), sum: sum(0), carry-out: c(1)}
  FA(i = 1..n-1):
    {part: full-adder, a: A(i), b: B(i), carry-in: c(i), sum: sum(i), carry-out: c(i+1)}
outputs: {sum: n, carry: c(n)}
operands: {a: n, b: n}
procedure: [{phase: load, edges: 1, a_in: a, b_in: b}]
computes: {sum: (a + b) mod 2**n, carry: (a + b) div 2**n}
"""
"""From registers to outputs: the adder lies behind the last flip-flop."""


@pytest.mark.parametrize("n", [2, 3, 8, 16])
def test_register_to_output(n: int) -> None:
    """By hand: 4 from the edge, 2n through the adder, 2 before the edge of a flip-flop outside.

    The adder: XOR, then AND and OR for each place, at the last an XOR, which takes as long.
    """
    netlist = blueprint.from_text(REGISTERED, "r.yaml").design({"n": n}).netlist
    path = critical_path.longest(netlist)
    assert path.length == 4 + 2 * n + 2
    first, last = path.steps[0], path.steps[-1]
    assert (first.kind, int(first.delay)) == ("flip-flop", 4)
    assert (last.kind, int(last.delay)) == ("output", 2)
    assert path.summary == f"critical path: {2 * n + 6} gate delays, from B(1) to sum({n - 1})"


def test_input_to_output_beside_a_clock() -> None:
    """By hand: 4 from an edge outside, two XOR gates, 2 before the next edge outside."""
    text = """
    circuit: past the register
    inputs: {x: 1, y: 1}
    parts:
      A: {part: flip-flop, d: x}
      P: {part: xor, in: [x, y]}
      Q: {part: xor, in: [P.out, y]}
    outputs: {stored: A.q, now: Q.out}
    operands: {x: 1, y: 1}
    procedure: [{phase: go, edges: 1}]
    """
    path = critical_path.longest(blueprint.from_text(text, "p.yaml").design().netlist)
    assert path.summary == "critical path: 10 gate delays, from y to now"
    assert path.text().splitlines()[1:-1] == [
        "y      input        4        4",
        "P.out  xor P        2        6",
        "Q.out  xor Q        2        8",
        "now    output       2       10",
    ]


def test_parts_and_nets_for_a_drawing() -> None:
    netlist = catalogue.design("serial-adder", n=4).netlist
    path = critical_path.longest(netlist)
    assert path.parts == ("B.bit(0)", "FA.X1", "FA.G2", "FA.OR", "C")
    assert [netlist.labels[net] for net in path.nets] == [
        "B(0)",
        "FA.X1.out",
        "FA.G2.out",
        "FA.carry-out",
    ]


def test_a_circuit_with_no_path() -> None:
    text = "{circuit: nothing, outputs: {}, operands: {}}"
    path = critical_path.longest(blueprint.from_text(text, "n.yaml").design().netlist)
    assert path.length == 0
    assert (path.nets, path.summary) == ((), "there is no path")
    assert path.text() == "net  through  delay  arrival\nthere is no path"


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
    path = critical_path.longest(blueprint.from_text(text, "g.yaml").design().netlist)
    assert path.summary == "critical path: 9 gate delays, from x to clock of B"
