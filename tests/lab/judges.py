"""Judges of HDL that others wrote: Debian's implementations of the two standards, and pyslang."""

from __future__ import annotations

import shutil
import subprocess
from dataclasses import dataclass
from pathlib import Path
from typing import Any, Final

import pytest


@dataclass(frozen=True, slots=True)
class Verdict:
    """What a judge said: its exit status, and all that it wrote."""

    status: int
    said: str


def _run(folder: Path, *words: str) -> Verdict:
    if shutil.which(words[0]) is None:
        pytest.fail(f"this test needs {words[0]}: apt-get install {words[0]}", pytrace=False)
    done = subprocess.run(
        words, cwd=folder, capture_output=True, text=True, timeout=100, check=False
    )
    return Verdict(done.returncode, done.stdout + done.stderr)


def systemverilog(folder: Path, text: str, bench: str, *, strict: bool = True) -> Verdict:
    """Compile, if `strict` with all warnings, of which there may be none, and run the bench."""
    (folder / "design.sv").write_text(text)
    (folder / "bench.sv").write_text(bench)
    options = ("-g2012", *["-Wall"] * strict)
    compiled = _run(folder, "iverilog", *options, "-o", "compiled", "design.sv", "bench.sv")
    assert compiled == Verdict(0, ""), compiled.said
    return _run(folder, "vvp", "-n", "compiled")


def diagnostics(*texts: str) -> list[str]:
    """What pyslang has to say of SystemVerilog that it elaborates, warnings too."""
    import pyslang

    compilation = pyslang.ast.Compilation()
    for text in texts:
        compilation.addSyntaxTree(pyslang.syntax.SyntaxTree.fromText(text))
    found: Any = compilation.getAllDiagnostics()
    return [str(one.code) for one in found]


def vhdl(folder: Path, text: str, bench: str, *, strict: bool = True) -> Verdict:
    """Analyse, if `strict` with warnings as errors, elaborate and run the bench."""
    (folder / "design.vhd").write_text(text)
    (folder / "bench.vhd").write_text(bench)
    standard = "--std=08"
    options = (standard, *["--warn-error"] * strict)
    analysed = _run(folder, "ghdl", "-a", *options, "design.vhd", "bench.vhd")
    assert analysed == Verdict(0, ""), analysed.said
    name = bench.partition("\nentity ")[2].split()[0]
    return _run(folder, "ghdl", "--elab-run", standard, name)


JUDGES: Final = {"systemverilog": systemverilog, "vhdl": vhdl}
PASSED: Final = Verdict(0, "PASS\n")
