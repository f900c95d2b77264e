"""The command import: each kind of file has its way, and options of the other kind are refused."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.conftest import Edgewise

COUNTER = """\
module tide(input clk, input rst_n, input en, output reg [3:0] q);
  always @(posedge clk or negedge rst_n) if (!rst_n) q <= 0; else if (en) q <= q + 1;
endmodule
"""
TOLD = "rst_n resets asynchronously: understood as a reset at the start, and then inactive"
CIRCUIT = f"""\
circuit: tide
about: "{TOLD}"
inputs: {{en: 1}}
parts:
  q_reg: {{part: counter, width: 4, enable: en}}
outputs: {{q: q_reg}}
operands: {{en: 1}}
procedure:
  - {{phase: run, edges: 8}}
"""


def test_a_description_becomes_circuit_text(edgewise: Edgewise, tmp_path: Path) -> None:
    path, out = tmp_path / "tide.v", tmp_path / "tide.yaml"
    path.write_text(COUNTER, "utf-8")
    note = f"note: {path}:1:30: {TOLD}\n"
    assert edgewise("import", str(path)) == (CIRCUIT, note, 0)
    assert edgewise("import", str(path), "-o", str(out)) == (f"{out}\n", note, 0)
    assert out.read_text("utf-8") == CIRCUIT


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (
            ("rain.pdf",),
            "rain.pdf: import reads hardware descriptions, .sv, .v, .vhd, .vhdl, and packages of"
            " questions, .zip",
        ),
        (
            ("rain.sv", "--json", "--qti", "3.0"),
            "--qti and --json have no effect on a hardware description; expected a package of"
            " questions",
        ),
        (
            ("rain.zip", "--top", "tide"),
            "--top has no effect on a package of questions; expected a description",
        ),
        (("rain.zip", "-o", "build"), "--out has no effect without --qti"),
        (
            ("rain.zip", "--qti", "3.0", "-o", "exam/x.pdf"),
            "exam/x.pdf is the name of a file; -o names a folder, and a package is called after the"
            " one that is read: -o exam",
        ),
        (
            ("tide.v", "-o", "tide.json"),
            "can't write tide.json: its name ends in .json; circuit text is written as .yaml",
        ),
    ],
)
def test_what_can_not_be_taken_in_is_told(
    words: tuple[str, ...],
    told: str,
    edgewise: Edgewise,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.chdir(tmp_path)
    Path("tide.v").write_text(COUNTER.replace(" or negedge rst_n", ""), "utf-8")
    assert edgewise("import", *words) == ("", f"{told}\n", 2)
    assert not Path("exam").exists()
