"""A part with a fault inside is no longer decided by its truth table."""

from __future__ import annotations

import re
from itertools import product

import pytest

from edgewise import catalogue
from edgewise.bits import X
from edgewise.circuit.builder import Builder
from edgewise.circuit.flatten import flatten
from edgewise.circuit.netlist import Netlist
from edgewise.design import Design, Operand
from edgewise.engines import reference
from edgewise.study.edits import circuit_edits
from edgewise.study.faults.fault import Fault
from edgewise.study.faults.models import faults
from edgewise.words.messages import ENGLISH

OPEN_INPUT = ENGLISH("fault-caution-open-input")


def adder() -> Design:
    """A full adder alone."""
    b = Builder("full adder alone")
    fed = {port: b.input(port) for port in ("a", "b", "carry-in")}
    placed = b.part("FA", "full-adder", fed)
    b.output("sum", placed["sum"])
    b.output("carry", placed["carry-out"])
    return Design("adder", b.circuit(), {}, tuple(Operand(name, 1) for name in fed))


def answer(netlist: Netlist, bits: tuple[int, ...]) -> list[int]:
    """Sum and carry."""
    inputs = {name: [bit] for name, bit in zip(netlist.inputs, bits, strict=True)}
    row = reference.settle(netlist, [], inputs)
    return [row[netlist.outputs[name][0]] for name in ("sum", "carry")]


FAULTS = [fault for fault in faults(adder(), inside=True) if fault.kind == "stuck"]


@pytest.mark.parametrize("fault", FAULTS, ids=lambda fault: fault.name)
def test_a_known_bit_is_what_every_completion_gives(fault: Fault) -> None:
    """With any wire inside or outside stuck: never a bit that some completion contradicts."""
    netlist = fault.design.netlist
    for bits in product((0, 1, X), repeat=3):
        ways = product(*((0, 1) if bit == X else (bit,) for bit in bits))
        possible = [answer(netlist, way) for way in ways]
        for position, bit in enumerate(answer(netlist, bits)):
            if bit != X:
                assert {one[position] for one in possible} == {bit}, bits


def test_a_fault_outside_leaves_the_truth_table() -> None:
    """With b stuck at 1, a = 1 alone decides the carry."""
    netlist = flatten(adder().circuit)
    stuck = circuit_edits.stuck(netlist, netlist.inputs["b"][0], 1)
    assert [gate.cover is not None for gate in stuck.gates if gate.name == "FA.OR"] == [True]
    assert answer(stuck, (1, 0, X)) == [X, 1]
    inside = circuit_edits.stuck(netlist, netlist.names["FA.G1.out"][0], 0)
    assert not any(gate.cover for gate in inside.gates)


@pytest.mark.parametrize(
    "name", ["serial-adder", "serial-accumulator-cleared", "ripple-carry-adder"]
)
def test_no_fault_calls_an_open_wire_a_constant(name: str) -> None:
    """A stuck wire is said to be stuck; what an open input really does is said beside it."""
    for fault in faults(catalogue.design(name), inside=True):
        assert not re.search(r"\bopen\b|not connected|tied", fault.sentence)
        if fault.kind == "stuck":
            assert f"stuck at {fault.name[-1]}" in fault.sentence
            assert OPEN_INPUT in fault.cautions
