"""A run as a value change dump, read back by a reader that others wrote, and held to the trace.

Outside: pyvcd's reader of IEEE 1364-2005, clause 18; and iverilog, whose own dump of the exported
circuit on its bench shows the same values just before each edge.
"""

from __future__ import annotations

import io
import itertools
import re
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from edgewise import blueprint, catalogue
from edgewise.blueprint import Blueprint
from edgewise.circuit.clocks import falling
from edgewise.engines import reference
from edgewise.lab import dump, export
from edgewise.lab.dump import PERIOD
from edgewise.trace import Trace
from tests import strategies
from tests.lab import judges
from tests.lab.runs import some_run


class Read:
    """What pyvcd reads: the declared variables, and their bits at each time."""

    def __init__(self, text: str) -> None:
        from vcd.reader import TokenKind, tokenize

        self.widths: dict[str, int] = {}
        self.changes: dict[str, list[tuple[int, str]]] = {}
        self.unit, time = "", 0
        names: dict[str, list[str]] = {}  # one code may be that of several names
        for token in tokenize(io.BytesIO(text.encode())):
            data: Any = token.data
            match token.kind:
                case TokenKind.VAR:
                    names.setdefault(data.id_code, []).append(data.reference)
                    self.widths[data.reference] = data.size
                    self.changes[data.reference] = []
                case TokenKind.TIMESCALE:
                    self.unit = f"{int(data.magnitude)} {data.unit.value}"
                case TokenKind.CHANGE_TIME:
                    assert data >= time
                    time = data
                case TokenKind.CHANGE_SCALAR | TokenKind.CHANGE_VECTOR:
                    bits = data.value if isinstance(data.value, str) else f"{data.value:b}"
                    for name in names[data.id_code]:
                        self.changes[name].append((time, self.extended(bits, name)))
        self.last = time

    def extended(self, bits: str, name: str) -> str:
        """All bits of a value whose left ones may be left out (clause 18.2.2)."""
        fill = bits[0] if bits[0] in "xz" else "0"
        return bits.rjust(self.widths[name], fill)

    def at(self, name: str, time: int) -> str:
        """The bits of a variable at a time, those that change then already new."""
        return [bits for when, bits in self.changes[name] if when <= time][-1]


def digits(trace: Trace, name: str, row: int) -> str:
    return str(trace.word(name, row)).lower()


def held_to_the_trace(trace: Trace) -> None:
    """Every row, just before its edge, and from where it stands."""
    read = Read(dump.text(trace))
    clock = ("clock",) if trace.edges else ()
    assert tuple(read.widths) == (*clock, *trace.columns)
    assert (read.unit, read.last) == ("1 ns", PERIOD * (trace.edges + 1))
    netlist = trace.design.netlist
    late = falling(netlist)
    for row in range(trace.edges + 1):
        for name in trace.columns:
            assert read.at(name, PERIOD * (row + 1) - 1) == digits(trace, name, row)
            if not set(netlist.find(name)) & late:
                assert read.at(name, PERIOD * row) == digits(trace, name, row)
    if trace.edges:
        rises = [time for time, bit in read.changes["clock"] if bit == "1"]
        assert rises == [PERIOD * edge for edge in range(1, trace.edges + 1)]
    for name, changes in read.changes.items():  # a change is a change
        assert all(a[1] != b[1] for a, b in itertools.pairwise(changes)), name


@pytest.mark.parametrize("name", catalogue.ORDER)
def test_the_dump_of_a_catalogue_run_is_its_trace(name: str) -> None:
    held_to_the_trace(some_run(catalogue.design(name)))


@settings(max_examples=30)
@given(data=st.data())
def test_the_dump_of_any_run_is_its_trace(data: st.DataObject) -> None:
    design = data.draw(strategies.designs())
    operands = data.draw(strategies.operands_of(design))
    held_to_the_trace(reference.run(design, design.values(operands)))


def test_what_gates_a_clock_changes_while_it_is_low() -> None:
    trace = some_run(catalogue.design("serial-adder-gated-clock", n=4))
    read = Read(dump.text(trace))
    assert {time % PERIOD for time, _ in read.changes["shift"][1:]} <= {PERIOD // 2}


def test_the_judge_s_own_dump_shows_the_same(tmp_path: Path) -> None:
    """Iverilog on our bench: the clock rises at 5, 15, …; before that, each row is settled."""
    run = some_run(catalogue.design("serial-adder", n=6))
    told = Blueprint("adder", "an adder", (), lambda _: run.design)
    text, bench = export.description(told, run.design, "systemverilog", run)
    dumped = '  initial begin $dumpfile("theirs.vcd"); $dumpvars; end\nendmodule'
    bench = re.sub(r"^endmodule$", dumped, bench, count=1, flags=re.MULTILINE)
    assert judges.systemverilog(tmp_path, text, bench, strict=False).status == 0
    theirs = Read((tmp_path / "theirs.vcd").read_text())
    ours = Read(dump.text(run))
    for row in range(run.edges + 1):
        for name in ("A", "B", "S", "C"):
            assert theirs.at(name, PERIOD * row + 4) == ours.at(name, PERIOD * row), (name, row)


def test_ninety_four_variables_have_one_character_and_the_next_two() -> None:
    codes = [dump.code(number) for number in range(94 + 94 * 94 + 1)]
    assert [len(one) for one in codes[93:95]] == [1, 2]
    assert len(codes[-1]) == 3
    assert len(set(codes)) == len(codes)
    assert all("!" <= letter <= "~" for one in codes for letter in one)


def test_an_edge_sees_the_gate_of_the_row_before_it() -> None:
    """Row 0 stands until edge 1 has come, what gates the clock too; found by a random run."""
    design = blueprint.from_text(
        "circuit: sluice\ninputs: {go: 1, x: 1}\nparts:\n  G: {part: and, in: [clock, go]}\n"
        "  F: {part: flip-flop, d: x, clock: G.out}\noutputs: {y: F.q}\nprocedure:\n"
        "  - {phase: shut, edges: 1, go: 0, x: 1}\n  - {phase: open, edges: 2, go: 1, x: 1}\n",
        "sluice.yaml",
    ).design()
    trace = reference.run(design, {})
    held_to_the_trace(trace)
    go = Read(dump.text(trace)).changes["go"]
    assert go == [(0, "0"), (PERIOD + PERIOD // 2, "1")]
