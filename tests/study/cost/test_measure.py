"""Costs: definitions on small circuits, every model on the catalogue, toggles from real runs."""

from __future__ import annotations

import json
from fractions import Fraction
from itertools import pairwise
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from edgewise import blueprint, catalogue
from edgewise.circuit.netlist import CLOCK_NET
from edgewise.design import Design
from edgewise.engines.reference import run
from edgewise.errors import DesignError
from edgewise.study.compare import needs
from edgewise.study.cost import gate_counts, measure, models, switching
from edgewise.study.cost.models import cmos, hc74
from edgewise.study.cost.models.gates import UNIT_GATE

MODELS = models.names()


def text(written: str) -> Design:
    return blueprint.from_text(written, "test.yaml").design()


GATED = text(
    """
    circuit: two flip-flops and a gate
    inputs: {x: 1, act: 1, zero: 1}
    parts:
      A: {part: flip-flop, d: x}
      G: {part: nand, in: [A.q, x]}
      B: {part: flip-flop, d: G.out, enable: act, clear: zero}
    outputs: {y: B.q}
    operands: {x: 1, act: 1, zero: 1}
    procedure: [{phase: go, edges: 3}]
    """
)


@pytest.mark.parametrize(
    ("model", "area", "storage", "period"),
    [
        # Six gates twice, one NAND, a multiplexer that holds, an AND that clears; 3 + 1 + (2 + 2).
        ("gate-count", 1 + 6 + 6 + 1 + 1, 14, 3 + 1 + 1 + 1 + 2),
        # Seven units twice, 1, 3 and 1; clock_to_q 4, NAND 1, multiplexer 2, AND 1, setup 2.
        ("unit-gate", 1 + 7 + 7 + 3 + 1, 18, 4 + 1 + 2 + 1 + 2),
        # 4 transistors; 24 twice; 12 for the multiplexer, 6 and 2 for AND and inverter.
        ("cmos", 4 + 24 + 24 + 12 + 6 + 2, 68, None),
        # 74HC00, 74HC74, 74HC157, 74HC08, 74HC04; all times typical, or all worst.
        ("74hc", 5, 2, 14 + 7 + 11 + 7 + 2),
        ("74hc-worst", 5, 2, 35 + 18 + 25 + 18 + 12),
    ],
)
def test_flip_flops_count_in_every_model(
    model: str, area: int, storage: int, period: int | None
) -> None:
    found = measure.of(GATED, models.technology(model))
    assert [int(found.figure(q)) for q in ("area", "storage", "logic")] == [
        area,
        storage,
        area - storage,
    ]
    if period is not None:
        assert found.period == period
        assert found.time == 3 * period
        assert found.throughput == Fraction(1, 3 * period)


def test_cmos_delays_by_hand() -> None:
    """In tau: the flip-flop's 10 and its load, the NAND gate, then what holds and clears."""
    found = measure.of(GATED, models.technology("cmos"))
    clock_to_q = 10 + Fraction(4, 3)  # it feeds a NAND gate of g = 4/3
    nand = 2 + 2  # p, and a multiplexer of g = 2
    hold = 4 + 1 + 1 + Fraction(4, 3)  # multiplexer with its inverters, into the AND gate
    clear = 2 + 1 + 1 + 1  # NAND, inverter, and the flip-flop's d
    assert found.period == clock_to_q + nand + hold + clear + 5


def test_a_circuit_without_a_clock() -> None:
    found = measure.of(catalogue.design("ripple-carry-adder", n=8))
    assert found.period is None
    assert found.edges == found.storage == 0
    assert found.figure("period") == found.time == 18
    # Flip-flops before and behind let a result come at every edge.
    assert found.throughput == Fraction(1, 18 + 4 + 2)


@pytest.mark.parametrize("name", catalogue.ORDER)
@pytest.mark.parametrize("model", MODELS)
def test_every_design_has_a_cost_in_every_model(name: str, model: str) -> None:
    design = catalogue.design(name)
    found = measure.of(design, models.technology(model))
    assert found.area >= found.storage >= 0
    assert found.area > 0
    assert found.time > 0
    assert (found.period is None) == (not design.netlist.flip_flops)
    assert (found.storage > 0) == bool(design.netlist.flip_flops)
    assert found.gates == gate_counts.gates(design.netlist)
    json.dumps(found.data())


def test_the_unit_gate_model_is_that_of_sizes() -> None:
    for name in catalogue.ORDER:
        netlist = catalogue.design(name).netlist
        area, storage = UNIT_GATE.area(netlist)
        assert area - storage == gate_counts.unit_area(netlist), name


@pytest.mark.parametrize("operator", ["and", "or", "nand", "nor", "xor", "xnor"])
@pytest.mark.parametrize("inputs", [2, 3, 4, 5, 7, 9, 16, 17, 33])
def test_wide_gates_have_cells_and_parts(operator: str, inputs: int) -> None:
    """Wider is never cheaper or quicker, and a tree of parts takes in every input."""
    assert cmos.transistors(operator, inputs) >= 2 * inputs
    assert cmos.parasitic(operator, inputs + 1) >= cmos.parasitic(operator, inputs)
    levels = hc74.gates_for(operator, inputs)
    arriving = inputs
    for level in levels:
        taken = sum(width for kind, width in level if kind != "not")
        if taken:
            assert taken >= arriving - (taken < arriving)
            arriving = len(level) + max(arriving - taken, 0)
    assert arriving == 1
    assert levels[-1][0][0] in (operator, "not")


def test_packages_are_whole() -> None:
    netlist = catalogue.design("ripple-carry-adder-without-carry-in", n=4).netlist
    assert hc74.packages(netlist) == {"74HC08": 2, "74HC32": 1, "74HC86": 2}


def test_an_unknown_model() -> None:
    with pytest.raises(DesignError) as caught:
        models.technology("unit-gates")
    assert str(caught.value) == "there is no cost model unit-gates; did you mean unit-gate?"


# ---------------------------------------------------------------------- toggles


def counted(design: Design, results: int, seed: int) -> int:
    """Toggles once more, row by row from the reference's traces."""
    netlist = design.netlist
    nets = [gate.output for gate in netlist.gates if CLOCK_NET not in gate.inputs]
    nets += [flip_flop.q for flip_flop in netlist.flip_flops]
    words = switching.operands(design, results, seed)
    runs = [
        run(design, {name: values[i] for name, values in words.items()}) for i in range(results)
    ]
    rows = [
        [[min(trace.rows[k][n], 1) for n in nets] for k in range(trace.edges + 1)] for trace in runs
    ]
    if design.edges:
        pairs = [(one, next_) for trace in rows for one, next_ in pairwise(trace)]
    else:
        settled = [trace[0] for trace in rows]
        pairs = list(zip(settled, settled[1:] + settled[:1], strict=True))
    return sum(a != b for one, other in pairs for a, b in zip(one, other, strict=True))


@pytest.mark.parametrize(
    "name",
    [
        "ripple-carry-adder",
        "carry-select-adder",
        "serial-adder-parallel-load",
        "shift-add-multiplier",
        "carry-save-accumulator",
        "lfsr",
        "crc-register",
    ],
)
def test_toggles_are_those_of_the_traces(name: str) -> None:
    """Of designs in whose runs nothing is unknown."""
    design = catalogue.design(name, n=5)
    found = switching.toggles(design, 12, 7)
    assert found.total == counted(design, 12, 7)
    assert found.mean == Fraction(found.total, 12)


def test_toggles_with_a_gated_clock() -> None:
    """The AND gate in the clock does not count: it follows every pulse."""
    enabled, gated = (
        switching.toggles(catalogue.design(name, n=6)).total
        for name in ("serial-adder", "serial-adder-gated-clock")
    )
    assert enabled == gated


@settings(max_examples=10)
@given(st.integers(1, 300), st.integers(0, 5))
def test_toggles_depend_on_the_seed_alone(results: int, seed: int) -> None:
    design = catalogue.design("serial-subtractor", n=3)
    assert switching.toggles(design, results, seed) == switching.toggles(design, results, seed)


def test_a_design_without_operands_has_toggles() -> None:
    """A 4-bit counter: bit i toggles every 2**i edges, and its carry gates with it."""
    found = switching.toggles(catalogue.design("binary-counter", n=4, k=16), 1)
    assert found.total >= 16 + 8 + 4 + 2


def test_the_page_on_costs_has_every_lab_part() -> None:
    text = (Path(__file__).parents[3] / "docs" / "costs.md").read_text("utf-8")
    lines = [[cell.strip() for cell in line.split("|")[1:-1]] for line in text.splitlines()]
    told = [cells for cells in lines if len(cells) == 6 and cells[0].startswith("74HC")]
    expected = [
        [
            part.name,
            str(part.holds),
            part.what,
            str(part.typical),
            str(part.worst),
            part.source if part.mark == "SEEN" else "from memory",
        ]
        for part in hc74.ALL
    ]
    setup = [str(hc74.SETUPS[column]) for column in ("typical", "worst")]
    expected.append(["74HC74", "", "its set-up time", *setup, "from memory"])
    assert told == expected
    for column, conditions in hc74.CONDITIONS.items():
        assert f"{column} at {conditions}" in text.replace("\n", " ")


def test_a_need_may_name_the_product_as_a_chart_does() -> None:
    adders = [catalogue.find(name) for name in ("ripple-carry-adder", "carry-lookahead-adder")]
    for name in ("area-delay", "area-delay product", "area_delay"):
        found = needs.need(adders, f"n = 32, {name} <= 10000").found
        assert [one.design for one in found] == ["carry-lookahead-adder"]
