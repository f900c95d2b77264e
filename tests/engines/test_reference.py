"""The reference engine: its rows by their definition, and what X means in them."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from edgewise import blueprint, catalogue, run
from edgewise.bits import X
from edgewise.circuit.model import Tie
from edgewise.circuit.netlist import CLOCK_NET, Netlist
from edgewise.design import Design
from edgewise.engines.reference import next_bit, settle
from edgewise.engines.reference import run as run_once
from edgewise.errors import DesignError
from tests.strategies import designs, known_bits, operands_of

patient = settings(suppress_health_check=[HealthCheck.too_slow], max_examples=60)


@given(st.data())
@patient
def test_rows_follow_from_their_definition(data: st.DataObject) -> None:
    """Row 0 has the start values; row k what row k-1 said; every row is settled."""
    design = data.draw(designs())
    operands = data.draw(operands_of(design))
    rows = run_once(design, operands).rows
    netlist = design.netlist
    assert len(rows) == design.edges + 1
    for flip_flop in netlist.flip_flops:
        assert rows[0][flip_flop.q] == flip_flop.start
    for before, row in pairwise(rows):
        for flip_flop in netlist.flip_flops:
            assert row[flip_flop.q] == next_bit(flip_flop, before)
    for fed, row in zip(design.schedule, rows, strict=True):
        assert tuple(row[:3]) == (0, 1, X)
        assert row[CLOCK_NET] == 1
        for name, sources in fed.items():
            for net, source in zip(netlist.inputs[name], sources, strict=True):
                if isinstance(source, Tie):
                    assert row[net] == source.bit
                else:
                    assert row[net] == operands[source.operand] >> source.index & 1
        stored = [row[flip_flop.q] for flip_flop in netlist.flip_flops]
        inputs = {name: [row[net] for net in nets] for name, nets in netlist.inputs.items()}
        assert settle(netlist, stored, inputs) == row


def completed(netlist: Netlist, data: st.DataObject) -> Netlist:
    """The netlist with every unknown start value chosen."""
    return replace(
        netlist,
        flip_flops=tuple(
            replace(f, start=data.draw(known_bits)) if f.start == X else f
            for f in netlist.flip_flops
        ),
    )


@given(st.data())
@patient
def test_what_is_known_stays_true_whatever_the_unknown_bits_are(data: st.DataObject) -> None:
    design = data.draw(designs())
    operands = data.draw(operands_of(design))
    unsure = run_once(design, operands).rows
    netlist = completed(design.netlist, data)
    rows: list[bytes] = []
    stored = [flip_flop.start for flip_flop in netlist.flip_flops]
    for row, fed in enumerate(design.schedule):
        if row:
            stored = [next_bit(flip_flop, rows[-1]) for flip_flop in netlist.flip_flops]
        inputs = {}
        for name, sources in fed.items():
            inputs[name] = [
                source.bit
                if isinstance(source, Tie)
                else operands[source.operand] >> source.index & 1
                for source in sources
            ]
            # An X that is fed is any bit, another one in each row.
            inputs[name] = [data.draw(known_bits) if b == X else b for b in inputs[name]]
        rows.append(settle(netlist, stored, inputs))
    for before, after in zip(unsure, rows, strict=True):
        for net, bit in enumerate(before):
            assert bit in (X, after[net])


def test_all_operands_of_a_small_serial_adder() -> None:
    """Integer addition, every pair at n = 3 (Python's own integers)."""
    design = catalogue.design("serial-adder", n=3)
    for a in range(8):
        for b in range(8):
            trace = run(design, a=a, b=b)
            total = trace.word("carry", trace.edges).value << 3
            assert total + trace.word("sum", trace.edges).value == a + b


def test_a_start_that_is_unknown_reaches_what_depends_on_it() -> None:
    text = """\
circuit: forgotten clear
inputs: {a: 1, b: 1}
parts:
  FA: {part: full-adder, a: a, b: b, carry-in: C.q}
  C:  {part: flip-flop, d: FA.carry-out, start: X}
outputs: {s: FA.sum, c: C}
procedure:
  - {phase: differ, edges: 2, a: 1, b: 0}
  - {phase: alike, edges: 2, a: 1, b: 1}
"""
    trace = run(blueprint.from_text(text, "tide.yaml").design())
    sums = " ".join(str(trace.word("s", k)) for k in range(5))
    carries = " ".join(str(trace.word("c", k)) for k in range(5))
    # a and b alike decide the carry, whatever came in.
    assert (sums, carries) == ("X X X 1 1", "X X X 1 1")


def test_operands_are_checked() -> None:
    with pytest.raises(DesignError) as wrong:
        run(catalogue.design("serial-adder", n=6), a=64, b=0)
    assert str(wrong.value) == "operand a is 64, which is too large; the range is 0..63 in 6 bits"


def test_a_family_is_given_as_a_list() -> None:
    text = """\
circuit: tide sum
parameters: {x: 3}
inputs: {w: 4}
operands: {h(i = 1..x): 4}
parts: {R: {part: register, width: 4, d: w}}
outputs: {r: R}
procedure: [{phase: high(i = 1..x), edges: 1, w: h(i)}]
"""
    trace = run(blueprint.from_text(text, "tide.yaml").design(), h=[3, 9, 12])
    assert [trace.word("r", k).value for k in range(4)] == [0, 3, 9, 12]


def test_without_procedure_row_0_is_the_answer() -> None:
    design: Design = catalogue.design("ripple-carry-adder", n=2)
    trace = run(design, a=3, b=1, carry_in=1)
    assert (trace.edges, str(trace.word("sum", 0)), str(trace.word("carry", 0))) == (0, "01", "1")
