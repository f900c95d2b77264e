"""Storage elements come from the netlist: a register in a circuit used as a part is one, too."""

from __future__ import annotations

from collections import Counter

from hypothesis import given

from edgewise import blueprint
from edgewise.circuit.storage import storage
from edgewise.design import Design
from edgewise.engines import reference
from edgewise.publish.stage import storage as stores
from edgewise.study.coverage.measured import coverage
from edgewise.study.misconceptions import register
from tests.strategies import designs
from tests.web.telling import told

TIDE = """\
circuit: tide memory
inputs: {rise: 1}
parts:
  CELL: {part: tide cell, rise: rise}
  BESIDE: {part: two words, rise: rise}
  G: {part: and, in: [CELL.word(0), CELL.word(1)]}
outputs: {both: G.out, last: BESIDE.last}
operands: {a: 1}
procedure:
  - {phase: watch, edges: 2, rise: 1}
computes: {both: 1}
---
circuit: tide cell
inputs: {rise: 1}
parts:
  R: {part: shift-register, width: 2, in: rise}
outputs: {word: R}
---
circuit: two words
inputs: {rise: 1}
parts:
  E: {part: register, width: 1, d: rise}
  L: {part: flip-flop, d: E}
outputs: {last: L, early: E}
"""


def tide() -> Design:
    """A circuit that stores only inside the circuits it uses."""
    return blueprint.from_text(TIDE, "tide.yaml").design()


def test_words_inside_are_told_of() -> None:
    """In the default columns, the stage's sentences, the coverage, and who changes when."""
    design = tide()
    trace = reference.run(design, {"a": 1})
    assert trace.columns == ("rise", "CELL", "BESIDE.E", "BESIDE.L", "both")
    assert [store.name for store in stores.stores(design)] == ["CELL", "BESIDE.E", "BESIDE.L"]
    assert "CELL = 00" in told(trace, 0)
    for row in (1, 2):
        assert "CELL shifted right (1 in" in told(trace, row)
    assert coverage(design, {"a": 1}).registers == {
        "CELL": ("CELL(1)", "CELL(0)"),
        "BESIDE.E": ("BESIDE.early",),
        "BESIDE.L": ("BESIDE.last",),
    }
    believed = register.in_turn(design)
    assert believed is not None
    # E changes first, and L takes what has just come into it.
    assert str(reference.run(believed, {"a": 1}).word("last", 1)) == "1"


@given(designs())
def test_every_flip_flop_is_in_one_storing_part(design: Design) -> None:
    found = Counter(net for one in storage(design.circuit, design.netlist) for net in one.q)
    assert found == Counter(flip_flop.q for flip_flop in design.netlist.flip_flops)
    shown = {bit for bits in coverage_names(design) for bit in bits}
    assert shown == {design.netlist.labels[f.q] for f in design.netlist.flip_flops}


def coverage_names(design: Design) -> list[tuple[str, ...]]:
    """The bits of each register that the coverage knows."""
    operands = {operand.name: 0 for operand in design.operands}
    return list(coverage(design, operands).registers.values())
