"""Single stuck-at faults of the full adder, against an evaluation in NumPy by brute force.

The five-gate full adder (two XOR, two AND, one OR; Mano and Ciletti, Digital Design, sec. 4.5,
from memory) has 16 lines: eight wires, and eight branches of the four that branch. Each stuck
at 0 or 1 makes 32 single faults.
"""

from __future__ import annotations

from itertools import combinations

import numpy as np
import numpy.typing as npt

from edgewise import blueprint
from edgewise.design import Design
from edgewise.engines.exhaustive import compiler
from edgewise.engines.exhaustive.operand_space import Space
from edgewise.engines.symbolic.terms import Terms
from edgewise.study.faults.covering_set import fewest_examples
from edgewise.study.faults.detection import detections
from edgewise.study.faults.fault import Fault
from edgewise.study.faults.models import faults

FULL_ADDER = """
circuit: one full adder
inputs: {a: 1, b: 1, c: 1}
parts: {FA: {part: full-adder, a: a, b: b, carry-in: c}}
outputs: {sum: FA.sum, carry: FA.carry-out}
operands: {a: 1, b: 1, c: 1}
computes: {sum: (a + b + c) mod 2, carry: (a + b + c) div 2}
"""
# Wires, and branches as (wire, gate that reads it).
LINES = (
    *("a", "b", "c", "X1", "X2", "G1", "G2", "OR"),
    *(("a", "X1"), ("a", "G1"), ("b", "X1"), ("b", "G1")),
    *(("c", "X2"), ("c", "G2"), ("X1", "X2"), ("X1", "G2")),
)
Line = str | tuple[str, str]


def evaluate(line: Line | None = None, bit: int = 0) -> npt.NDArray[np.uint8]:
    """Sum and carry for the eight patterns a b c = 000 … 111, with one line stuck."""
    patterns = np.arange(8, dtype=np.uint8)
    wires: dict[str, npt.NDArray[np.uint8]] = {}

    def drive(name: str, value: npt.NDArray[np.uint8]) -> None:
        wires[name] = np.full(8, bit, np.uint8) if line == name else value

    def read(name: str, gate: str) -> npt.NDArray[np.uint8]:
        return np.full(8, bit, np.uint8) if line == (name, gate) else wires[name]

    for i, name in enumerate("abc"):
        drive(name, (patterns >> (2 - i) & 1).astype(np.uint8))
    drive("X1", read("a", "X1") ^ read("b", "X1"))
    drive("G1", read("a", "G1") & read("b", "G1"))
    drive("X2", read("X1", "X2") ^ read("c", "X2"))
    drive("G2", read("X1", "G2") & read("c", "G2"))
    drive("OR", wires["G1"] | wires["G2"])
    return np.stack([wires["X2"], wires["OR"]])


def shown(line: Line, bit: int) -> frozenset[int]:
    """The patterns for which a stuck line shows."""
    differs = (evaluate(line, bit) != evaluate()).any(axis=0)
    return frozenset(int(pattern) for pattern in np.flatnonzero(differs))


def design() -> Design:
    return blueprint.from_text(FULL_ADDER, "fa.yaml").design()


def stuck(of: Design) -> tuple[Fault, ...]:
    return tuple(fault for fault in faults(of, inside=True) if fault.kind == "stuck")


def test_every_fault_is_shown_by_the_same_patterns() -> None:
    wanted = sorted(sorted(shown(line, bit)) for line in LINES for bit in (0, 1))
    adder, terms = design(), Terms()
    masks = compiler.masks(terms, detections(adder, stuck(adder), terms), Space.of(adder))
    found = sorted(sorted(i for i in range(8) if mask >> i & 1) for mask in masks)
    assert found == wanted
    assert len(wanted) == 32


def test_the_fewest_patterns_that_show_all() -> None:
    needed = [shown(line, bit) for line in LINES for bit in (0, 1)]
    fewest = next(
        size
        for size in range(1, 9)
        if any(all(n & {*some} for n in needed) for some in combinations(range(8), size))
    )
    adder = design()
    found = fewest_examples(adder, stuck(adder))
    assert (len(found.operands), found.faults, found.fewest) == (fewest, 32, True)
    patterns = {Space.of(adder).number(operands) for operands in found.operands}
    assert all(patterns & n for n in needed)
