"""Toggles with glitches: counted change by change, and told beside those without."""

from __future__ import annotations

import pytest

from edgewise import catalogue, run
from edgewise.circuit.netlist import CLOCK_NET
from edgewise.study.compare.comparison import compare
from edgewise.study.cost import glitches, models, switching
from edgewise.study.inside import Manner, inside

RESULTS = 4
CLOCKED = ("digit-serial-adder", "shift-add-multiplier", "crc-register", "binary-counter")
"""Designs in whose rows nothing is unknown."""


@pytest.mark.parametrize("model", ["unit-gate", "74hc"])
@pytest.mark.parametrize("name", ["kogge-stone-adder", "carry-lookahead-adder", *CLOCKED])
def test_each_change_is_counted(name: str, model: str) -> None:
    """Against `inside`, run by run, from the same operands."""
    design = catalogue.design(name)
    netlist, technology = design.netlist, models.technology(model)
    words = switching.operands(design, RESULTS, 7)
    runs = [run(design, **{one: words[one][at] for one in words}) for at in range(RESULTS)]
    nets = {gate.output for gate in netlist.gates if CLOCK_NET not in gate.inputs}
    nets |= {one.q for one in netlist.flip_flops}
    manner, counts = Manner(technology), []
    for at, trace in enumerate(runs):
        if design.edges:
            assert not any(2 in row[CLOCK_NET:] for row in trace.rows)  # X is run as 0 there
            moment = inside(trace, 1, design.edges, manner)
        else:
            moment = inside(runs[(at + 1) % RESULTS], 0, manner=manner, before=trace)
        counts.append(sum(change.net in nets for change in moment.changes))
    found = glitches.toggles(design, technology, RESULTS, 7)
    assert found.total == sum(counts) >= switching.toggles(design, RESULTS, 7).total


def test_the_settled_toggles_are_among_them() -> None:
    """Without delays that differ there is no glitch in a tree of one level: nothing is added."""
    design = catalogue.design("ring-counter", n=4)
    assert glitches.toggles(design, results=4).total == switching.toggles(design, 4).total


def test_a_comparison_has_both() -> None:
    found = compare([catalogue.find("ripple-carry-adder")], {"n": (8, 8)}, activity=True)
    heading, row = found.cells()
    assert heading[-2:] == ["toggles", "with glitches"]
    assert row[-2:] == ["17.6 ± 0.3", "23.6 ± 0.6"]
    assert found.data()["costs"][0]["toggles_in_time"] == pytest.approx(23.6, abs=0.05)
    assert (
        "With glitches each change of these nets in between counts too, with the delays of the"
        " model; gates swallow pulses that are shorter than their delay."
    ) in found.notes()
