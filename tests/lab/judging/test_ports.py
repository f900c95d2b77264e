"""Ports of a submission: which is taken for which, and what is told when none is."""

from __future__ import annotations

from pathlib import Path

import pytest

from edgewise import catalogue
from edgewise.lab.judging.ports import port_map
from edgewise.lab.judging.submission import judge
from edgewise.lab.judging.verdict import Verdict

DESIGN = catalogue.design("serial-adder", n=4)
FORM = """\
module adder(input ck, input {inputs}, output [3:0] {sum}, output reg {carry});
  reg [3:0] A, B, S;
  assign {sum} = S;
  initial begin A = 0; B = 0; {carry} = 0; end
  always @(posedge ck) {begin}
    A <= {{{a}, A[3:1]}}; B <= {{{b}, B[3:1]}}; S <= {{A[0] ^ B[0] ^ {carry}, S[3:1]}};
    {carry} <= A[0] & B[0] | {carry} & (A[0] | B[0]);
  end
endmodule
"""
USUAL = {
    "inputs": "shift, a_in, b_in",
    "sum": "sum",
    "carry": "carry",
    "a": "a_in",
    "b": "b_in",
    "begin": "if (shift) begin",
}


def judged(tmp_path: Path, changed: dict[str, str], ports: dict[str, str] | None = None) -> Verdict:
    path = tmp_path / "a.v"
    path.write_text(FORM.format(**USUAL | changed), "utf-8")
    return judge(path, DESIGN, ports=ports)


def told(verdict: Verdict) -> list[str]:
    return [one.said() for one in verdict.taken]


@pytest.mark.parametrize(
    ("changed", "taken"),
    [
        ({"inputs": "SHIFT, a_in, b_in", "begin": "if (SHIFT) begin"}, []),
        (
            {"inputs": "i_shift, ain, i_b", "begin": "if (i_shift) begin", "a": "ain", "b": "i_b"},
            [
                "port i_shift is taken for shift",
                "port ain is taken for a_in",
                "port i_b is taken for b_in",
            ],
        ),
        (
            {"sum": "result", "carry": "c"},
            [
                "port result is taken for sum, the only one left of its width",
                "port c is taken for carry, the only one left of its width",
            ],
        ),
        (
            {"inputs": "go, x, y", "begin": "if (go) begin", "a": "x", "b": "y"},
            [
                "port go is taken for shift, by the order of the ports",
                "port x is taken for a_in, by the order of the ports",
                "port y is taken for b_in, by the order of the ports",
            ],
        ),
        (
            {"inputs": "x, y, go", "begin": "if (go) begin", "a": "x", "b": "y"},
            [
                "port go is taken for shift: with these ports it is right",
                "port x is taken for a_in: with these ports it is right",
                "port y is taken for b_in: with these ports it is right",
            ],
        ),
        (
            {
                "inputs": "rst, a_in, b_in, shift",
                "begin": "if (rst) begin A <= 0; B <= 0; carry <= 0; end else if (shift) begin",
            },
            [
                "rst resets at an edge where it is 1: understood as a reset at the start, and then"
                " inactive"
            ],
        ),
        (
            {
                "inputs": "nreset, a_in, b_in, shift",
                "begin": "if (~nreset) begin A <= 0; B <= 0; carry <= 0; end else if (shift) begin",
            },
            [
                "nreset resets at an edge where it is 0: understood as a reset at the start, and"
                " then inactive"
            ],
        ),
    ],
)
def test_ports_are_found_and_what_is_guessed_is_told(
    changed: dict[str, str], taken: list[str], tmp_path: Path
) -> None:
    found = judged(tmp_path, changed)
    assert (found.outcome, told(found)) == ("right", taken)


def test_a_map_says_which_is_which(tmp_path: Path) -> None:
    changed = {
        "inputs": "x, y, go, test",
        "begin": "if (go | test) begin",
        "a": "x",
        "b": "y",
    }
    mapped = port_map("{shift: go, a_in: x, b_in: y, test: 0}", "ports.yaml")
    found = judged(tmp_path, changed, mapped)
    assert (found.outcome, told(found)) == ("right", [])


@pytest.mark.parametrize(
    ("changed", "ports", "reason"),
    [
        (
            {"inputs": "shift, a_in, b_in, test", "begin": "if (shift & ~test) begin"},
            {},
            "the design has no input for test; hold it at a level in a map of ports: test: 0",
        ),
        (
            {"inputs": "shift, a_in, b_in, rst", "begin": "if (shift | rst) begin"},
            {},
            "the design has no input for rst, and it resets nothing; hold it at a level in a map"
            " of ports: rst: 0",
        ),
        (
            {"inputs": "shift, a_in, \n  input [1:0] b_in", "b": "b_in[0]"},
            {},
            "input b_in has 2 bits; expected 1",
        ),
        ({}, {"shfit": "shift"}, "the map of ports names shfit, no port of the design; did you"
         " mean shift?"),
        ({}, {"shift": "shfit"}, "the map of ports names shfit, no port of the submission; did"
         " you mean shift?"),
        ({}, {"tset": "1"}, "the map of ports names tset, no input of the submission; there is:"
         " a_in, b_in, shift"),
    ],
)  # fmt: skip
def test_what_can_not_be_matched_says_why(
    changed: dict[str, str], ports: dict[str, str], reason: str, tmp_path: Path
) -> None:
    found = judged(tmp_path, changed, ports)
    assert (found.outcome, found.reason) == ("refused", reason)
