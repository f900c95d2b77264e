"""Submissions of the serial adder in several styles: the verdict, and what explains a wrong one.

The learners' mistakes are common practice, no source.
"""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from edgewise import catalogue
from edgewise.lab.judging.submission import judge
from edgewise.lab.judging.verdict import named

RIGHT = """\
module adder(clk, shift, a_in, b_in, sum, carry);
  input clk, shift, a_in, b_in; output [3:0] sum; output carry;
  reg [3:0] A, B, S; reg C;
  wire total, onward;
  assign total = A[0] ^ B[0] ^ C;
  assign onward = A[0] & B[0] | C & (A[0] | B[0]);
  initial begin A = 0; B = 0; C = 0; end
  always @(posedge clk) if (shift) begin
    A <= {a_in, A[3:1]};
    B <= {b_in, B[3:1]};
    S <= {total, S[3:1]};
    C <= onward;
  end
  assign sum = S;
  assign carry = C;
endmodule
"""
BEHAVED = """\
module adder(input logic clk, shift, a_in, b_in, output logic [3:0] sum, output logic carry);
  logic [3:0] a = 0, b = 0;
  initial carry = 0;
  always_ff @(posedge clk)
    if (shift) begin
      {carry, sum[3]} <= a[0] + b[0] + carry;
      sum[2:0] <= sum[3:1];
      a <= {a_in, a[3:1]};
      b <= {b_in, b[3:1]};
    end
endmodule
"""
VHDL = """\
library ieee; use ieee.std_logic_1164.all;
entity adder is
  port (clk, shift, a_in, b_in : in std_logic;
        sum : out std_logic_vector(3 downto 0); carry : out std_logic);
end entity;
architecture rtl of adder is
  signal a, b, s : std_logic_vector(3 downto 0) := (others => '0');
  signal c : std_logic := '0';
begin
  process (clk) begin
    if rising_edge(clk) and shift = '1' then
      a <= a_in & a(3 downto 1);
      b <= b_in & b(3 downto 1);
      s <= (a(0) xor b(0) xor c) & s(3 downto 1);
      c <= (a(0) and b(0)) or (c and (a(0) or b(0)));
    end if;
  end process;
  sum <= s; carry <= c;
end architecture;
"""
GHDL = pytest.mark.skipif(shutil.which("ghdl") is None, reason="ghdl is not installed")
DESIGN = catalogue.design("serial-adder", n=4)


@pytest.mark.parametrize(
    ("file", "text"),
    [("a.v", RIGHT), ("a.sv", BEHAVED), pytest.param("a.vhd", VHDL, marks=GHDL)],
)
def test_a_right_one_is_right_in_any_style(file: str, text: str, tmp_path: Path) -> None:
    (tmp_path / file).write_text(text, "utf-8")
    found = judge(tmp_path / file, DESIGN)
    assert list(found.sentences()) == [f"{tmp_path / file}: right: proved equal for all operands"]


@pytest.mark.parametrize(
    ("old", "new", "diagnosis"),
    [
        ("C <= onward", "C <= onward | C", "carry-stays-set"),
        ("= A[0] ^ B[0] ^ C", "= A[0] | B[0] | C", "or-for-sum"),
        ("C <= onward", "C <= 0", "FA.carry-out stuck at 0"),
        ("= A[0] ^ B[0] ^ C", "= A[0] ^ B[0]", "FA.X2, input from C, stuck at 0"),
        ("A = 0; B = 0; C = 0;", "", "start"),
        ("assign sum = S", "assign sum = ~S", "inverted sum"),
        (
            "assign sum = S",
            "assign sum = {S[0], S[1], S[2], S[3]}",
            "reversed sum; wrong-end; read-backwards",
        ),
        ("if (shift)", "if (!shift)", "low shift"),
        ("C <= onward", "C <= A[1] & B[1]", ""),
    ],
)
def test_a_wrong_one_is_wrong_and_explained(
    old: str, new: str, diagnosis: str, tmp_path: Path
) -> None:
    assert old in RIGHT
    path = tmp_path / "a.v"
    path.write_text(RIGHT.replace(old, new), "utf-8")
    found = judge(path, DESIGN)
    assert (found.outcome, named(found.explanations)) == ("wrong", diagnosis)
    assert found.refuted is not None
    should, is_ = found.refuted.runs
    assert should.word("sum", 8).value == sum(found.refuted.operands.values()) % 16
    assert (should.word("sum", 8), should.word("carry", 8)) != (
        is_.word("sum", 8),
        is_.word("carry", 8),
    )


def test_one_that_cannot_be_compared_says_why(tmp_path: Path) -> None:
    path = tmp_path / "a.v"
    path.write_text("module adder(input x, output y); assign y = x; endmodule\n", "utf-8")
    told = list(judge(path, DESIGN).sentences())
    assert told == [
        f"{path}: not judged: no output matches sum of the design, of 4 bits; those of the"
        " submission, with their bits: y (1); say in a map of ports which it is"
    ]


def test_the_runs_stand_side_by_side_from_the_first_difference(tmp_path: Path) -> None:
    path = tmp_path / "a.v"
    path.write_text(RIGHT.replace("C <= onward", "C <= onward | C"), "utf-8")
    refuted = judge(path, DESIGN).refuted
    assert refuted is not None
    heading, *rows = refuted.table()
    assert heading == ("edge", "sum", "sum here", "carry", "carry here")
    assert rows[0][0] == "6"
    assert rows[-1] == ("8", "0010", "1110", "0", "1")
