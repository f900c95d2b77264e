"""Two netlists that others published: read, counted, proved.

Outside: `adder.v` and `dec.v` of the EPFL combinational benchmarks, `lsils/benchmarks`,
commit 94e25f33 (MIT, see data/epfl/LICENSE), read by pyslang, an independent front end of
IEEE Std 1800. The benchmarks' own table gives 1020 two-input ANDs at depth 255 for the adder
and 304 at depth 3 for the decoder (seen when the copy was made).
"""

from __future__ import annotations

import re
from dataclasses import replace
from functools import lru_cache
from pathlib import Path
from typing import Any, Final

from edgewise.circuit.builder import Builder
from edgewise.circuit.model import Circuit, Signal
from edgewise.design import Design, Purpose
from edgewise.engines.replay import left_free
from edgewise.engines.sat import bounded
from edgewise.formula import parse
from edgewise.study.cost import gate_counts

DATA: Final = Path(__file__).parent / "data" / "epfl"


class Reading:
    """A module of one-bit ports and assignments of two-input ANDs and ORs, as a circuit."""

    def __init__(self, path: Path) -> None:
        from pyslang import syntax

        self.kinds = syntax.SyntaxKind
        self.tree = syntax.SyntaxTree.fromFile(str(path))  # its nodes live as long as it does
        assert not list(self.tree.diagnostics)
        root: Any = self.tree.root
        (self.module,) = root.members
        self.builder = Builder(self.module.header.name.valueText)
        self.nets: dict[str, Signal] = {}

    def circuit(self) -> Circuit:
        ports: dict[str, list[str]] = {"input": [], "output": []}
        for member in self.module.members:
            if member.kind == self.kinds.PortDeclaration:
                named = [d.name.valueText for d in member.declarators if hasattr(d, "name")]
                ports[str(member.header).strip()] += named
        for name, width in words(ports["input"]).items():
            for i, wire in enumerate(self.builder.input(name, width)):
                self.nets[f"{name}[{i}]"] = (wire,)
        for member in self.module.members:
            if member.kind == self.kinds.ContinuousAssign:
                (assignment,) = member.assignments
                self.assign(assignment.left.identifier.valueText, assignment.right)
        for name, width in words(ports["output"]).items():
            bits = [
                self.nets[f"{name}[{i}]"] if width > 1 else self.nets[name] for i in range(width)
            ]
            self.builder.output(name, tuple(wire for bit in bits for wire in bit))
        return self.builder.circuit()

    def assign(self, target: str, right: Any) -> None:
        operators = {
            self.kinds.BinaryAndExpression: "and",
            self.kinds.BinaryOrExpression: "or",
        }
        inputs = (*self.operand(right.left), *self.operand(right.right))
        gate = self.builder.part(f"gate {target}", operators[right.kind], {"in": inputs})
        self.nets[target] = gate["out"]

    def operand(self, node: Any) -> Signal:
        if node.kind == self.kinds.IdentifierName:
            return self.nets[node.identifier.valueText]
        assert node.kind == self.kinds.UnaryBitwiseNotExpression
        name = node.operand.identifier.valueText
        if f"not {name}" not in self.nets:
            inverter = self.builder.part(f"not {name}", "not", {"in": self.nets[name]})
            self.nets[f"not {name}"] = inverter["out"]
        return self.nets[f"not {name}"]


def words(names: list[str]) -> dict[str, int]:
    """Width of each word, from the names of its bits: a[0], a[1]… or cOut."""
    found: dict[str, int] = {}
    for name in names:
        base = re.sub(r"\[\d+\]$", "", name)
        found[base] = found.get(base, 0) + 1
    return found


@lru_cache
def read(name: str, **purposes: str) -> Design:
    design = left_free(Reading(DATA / name).circuit(), 0)
    computes = tuple(Purpose(output, parse(text)) for output, text in purposes.items())
    return replace(design, computes=computes).check()


def test_the_adder_has_1020_gates_at_depth_255() -> None:
    netlist = read("adder.v").netlist
    assert {name: len(bits) for name, bits in netlist.inputs.items()} == {"a": 128, "b": 128}
    assert {name: len(bits) for name, bits in netlist.outputs.items()} == {"f": 128, "cOut": 1}
    assert (gate_counts.gates(netlist), gate_counts.depth(netlist)) == (1020, 255)
    assert gate_counts.gates(netlist, two_input=True) == 1020
    counts = gate_counts.gate_counts(netlist)
    assert set(counts) == {"and", "or", "not"}
    assert counts["and"] + counts["or"] == 1020


def test_the_adder_adds_128_bits() -> None:
    design = read("adder.v", f="(a + b) mod 2**128", cOut="(a + b) div 2**128")
    found = bounded.computes(design)
    assert (found.outcome, found.method) == ("proved", "SAT")


def test_the_adder_does_not_subtract() -> None:
    design = read("adder.v", f="(a - b) mod 2**128")
    found = bounded.computes(design)
    assert found.outcome == "refuted"
    assert found.counterexample is not None
    assert dict(found.counterexample.operands) == {"a": 0, "b": 1}


def test_the_decoder_has_304_gates_at_depth_3() -> None:
    netlist = read("dec.v").netlist
    assert (gate_counts.gates(netlist), gate_counts.depth(netlist)) == (304, 3)
    assert gate_counts.gate_counts(netlist) == {"and": 304, "not": 8}


def test_the_decoder_is_one_hot() -> None:
    """Output selectp2[k] is for the number k and selectp1[k] for 128 + k."""
    design = read("dec.v", selectp2="2**count mod 2**128", selectp1="2**count div 2**128")
    assert bounded.computes(design).outcome == "proved"
