"""HDL in: what a description becomes, and what is refused, with its place.

Outside: the netlists come from general implementations of IEEE 1800 and IEEE 1076.
"""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from edgewise import blueprint, catalogue, designtext
from edgewise.design import Design
from edgewise.engines.sat import equivalence
from edgewise.errors import Caution, EdgewiseError
from edgewise.hdl import elaboration
from edgewise.hdl.reading import read
from edgewise.lab.export import description

GHDL = pytest.mark.skipif(shutil.which("ghdl") is None, reason="ghdl is not installed")
LANGUAGES = [("systemverilog", ".sv"), pytest.param("vhdl", ".vhd", marks=GHDL)]


def back(design: Design, text: str, file: str) -> Design:
    """A design with the circuit of a description in place of its own."""
    found = read(text, file)
    return Design(
        "back", found.circuit, design.parameters, design.operands, design.procedure, design.computes
    )


@pytest.mark.parametrize(("language", "suffix"), LANGUAGES)
def test_the_serial_adder_comes_back_word_by_word(language: str, suffix: str) -> None:
    plan = catalogue.find("serial-adder")
    text, _ = description(plan, plan.design(), language)
    found = read(text, f"adder{suffix}")
    assert designtext.text(found.design("adder")).splitlines()[2:9] == [
        "parts:",
        "  A: {part: shift-register, width: 6, in: a_in, enable: shift}",
        "  B: {part: shift-register, width: 6, in: b_in, enable: shift}",
        "  C: {part: flip-flop, d: FA.carry-out, enable: shift}",
        "  S: {part: shift-register, width: 6, in: FA.sum, enable: shift}",
        "  FA: {part: full-adder, a: A(0), b: B(0), carry-in: C}",
        "outputs: {sum: S, carry: C}",
    ]
    assert (found.clock, found.notes) == ("clock", ())


@pytest.mark.parametrize(("language", "suffix"), LANGUAGES)
@pytest.mark.parametrize(
    "name", ["serial-adder-gated-clock", "ripple-carry-adder", "universal-shift-register"]
)
def test_what_we_export_comes_back_and_proves_equal(name: str, language: str, suffix: str) -> None:
    plan = catalogue.find(name)
    design = plan.design({"n": 4})
    text, _ = description(plan, design, language)
    assert equivalence.same(design, back(design, text, f"out{suffix}")).outcome == "proved"


COUNTER = """\
module tide(input clk, input rst_n, input en, input load, input [3:0] d, output reg [3:0] q);
  always @(posedge clk or negedge rst_n)
    if (!rst_n) q <= 4'd0;
    else if (load) q <= d;
    else if (en) q <= q + 1;
endmodule
"""


def test_a_counter_is_one_and_its_reset_is_told() -> None:
    found = read(COUNTER, "tide.v")
    text = designtext.text(found.design("tide"))
    assert "q_reg: {part: counter, width: 4, enable: en, load: load, d: d}" in text
    assert [f"{note.place}: {note.sentence}" for note in found.notes] == [
        "tide.v:1:30: rst_n resets asynchronously: understood as a reset at the start, and then"
        " inactive"
    ]


def test_a_description_is_taken_where_a_circuit_file_is(tmp_path: Path) -> None:
    path = tmp_path / "tide.v"
    path.write_text(COUNTER, "utf-8")
    with pytest.warns(Caution, match="rst_n resets asynchronously"):
        plan = blueprint.from_file(path)
    assert plan.design().edges == 8
    assert [operand.name for operand in plan.design().operands] == ["en", "load", "d"]


def module(body: str, ports: str = "input clk, input c2, input d, output reg q") -> str:
    """A module around some lines."""
    return f"module m({ports});\n{body}\nendmodule\n"


@pytest.mark.parametrize(
    ("text", "told"),
    [
        (
            module("always @* if (d) q = c2;"),
            "m.v:2:1: q: a latch is inferred: the value is kept where it is not assigned; assign it"
            " in every case",
        ),
        (
            module("reg p;\nalways @(posedge clk) p <= d;\nalways @(posedge c2) q <= p;"),
            "m.v:4:1: c2 is a second clock, beside clk; expected one",
        ),
        (
            module("reg p;\nalways @(posedge clk) p <= d;\nalways @(negedge clk) q <= p;"),
            "m.v:4:1: both edges of clk are used; expected one of them",
        ),
        (
            module("assign q = c2 ? d : 1'bz;", "input c2, input d, output q"),
            "m.v:2:8: q: a tri-state driver; expected that each net is driven at all times",
        ),
        (module("always @(posedge clk) q <= e;"), "m.v:2: use of undeclared identifier 'e'"),
        (
            '`include "/etc/hosts"\n' + module("assign q = d;"),
            'm.v:1: `include "/etc/hosts": what is included lies in the same folder; give its name'
            ' only, as in `include "part.svh"',
        ),
        (
            module('reg [7:0] t[0:3];\ninitial $readmemh("/etc/hosts", t);'),
            "m.v:3: $readmemh: a description can't read files or the command line",
        ),
        ("module a(input x); endmodule module b(input x); endmodule", "m.v: which module is the"
         " outermost? give --top NAME; there is: a, b"),
    ],
)  # fmt: skip
def test_what_is_refused_says_where_and_why(text: str, told: str) -> None:
    with pytest.raises(EdgewiseError) as refused:
        read(text, "m.v")
    assert str(refused.value) == told


def test_what_an_examiner_looks_for_is_remarked() -> None:
    text = module(
        "reg t, u; wire g = clk & c2;\nwire [1:0] n = {d, c2, part[1]};\n"
        "always @(posedge g) begin t = d; q <= t & u & n[0]; end\nalways @(d) u = d & c2;\n",
        "input clk, input c2, input d,\n  input [1:0] idle, input [2:0] part, output reg q",
    )
    assert [(one.what, one.place.line, one.name) for one in read(text, "m.v").remarks] == [
        ("blocking", 5, "t"),
        ("sensitivity", 6, "c2"),
        ("truncation", 4, "implicit conversion truncates from 3 to 2 bits"),
        ("unused", 2, "idle"),
        ("unused", 2, "part(0), part(2)"),
        ("gated", 3, "clk"),
    ]


def test_what_nothing_drives_is_remarked() -> None:
    text = module("wire t;\nalways @(posedge clk) q <= t & d;")
    assert [f"{one.place}: {one.said()}" for one in read(text, "m.v").remarks] == [
        "m.v:1:27: input c2 is not used",
        "m.v:2:6: t has no value: nothing drives it, or it is kept where it is not assigned (a"
        " latch)",
    ]


@GHDL
def test_what_a_vhdl_process_leaves_out_is_remarked() -> None:
    text = """\
library ieee; use ieee.std_logic_1164.all;
entity tide is port (a, b, c : in std_logic; q : out std_logic); end entity;
architecture rtl of tide is begin
  process (a) begin
    q <= a and b;
  end process;
end architecture;
"""
    assert [one.said() for one in read(text, "tide.vhd").remarks] == [
        "the sensitivity list lacks b",
        "input c is not used",
    ]


NESTED = "(" * 20_000 + "d" + ")" * 20_000


@pytest.mark.parametrize(
    ("text", "told"),
    [
        (module(f"assign q = {NESTED};"), "m.v:2: language constructs are too deeply nested"),
        (
            module("integer i;\nalways @(d) for (i = 0; i < 1000000000; i = i + 1) q = ~d;"),
            "m.v:3: unroll limit of 4000 exhausted [--unroll-limit=]",
        ),
        (
            module(
                "generate genvar i; for (i = 0; i < 1000000; i = i + 1) wire w = d; endgenerate"
            ),
            "m.v:2: generate loop hit maximum step limit; possible infinite loop?",
        ),
        (
            module("assign q = d;") * 20_000,
            "m.v: with what it includes, the description has more than 1,000,000 characters or 32"
            " files; leave out what the circuit does not need",
        ),
        ("\0", "m.v:1: embedded NUL in source text"),
        (
            '`include "../secret.vh"\n',
            'm.v:1: `include "../secret.vh": what is included lies in the same folder; give its'
            ' name only, as in `include "part.svh"',
        ),
        ('`include "none.vh"\n', "m.v:1: there is no file none.vh beside this one"),
    ],
)
def test_hostile_text_is_refused_in_bounds(text: str, told: str) -> None:
    with pytest.raises(EdgewiseError) as refused:
        read(text, "m.v")
    assert str(refused.value).splitlines()[0] == told


def test_a_description_that_takes_too_long_is_given_up(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(elaboration, "SECONDS", 1)
    wide = "input [65535:0] d, output [65535:0] q"
    with pytest.raises(EdgewiseError) as refused:
        read(module("assign q = d + 1;", wide), "m.v")
    assert str(refused.value) == (
        "m.v: the description takes more than 1 s to read; make it smaller"
    )


def test_a_link_is_not_included(tmp_path: Path) -> None:
    (tmp_path / "part.vh").symlink_to("/etc/hosts")
    with pytest.raises(EdgewiseError) as refused:
        read('`include "part.vh"\n', str(tmp_path / "m.v"))
    assert str(refused.value) == (
        f"{tmp_path / 'm.v'}:1: part.vh is a link; copy the file itself into this folder"
    )
