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
    if "/" not in words[0] and shutil.which(words[0]) is None:
        pytest.fail(f"this test needs {words[0]}: apt-get install {words[0]}", pytrace=False)
    done = subprocess.run(
        [str(folder / words[0]) if "/" in words[0] else words[0], *words[1:]],
        cwd=folder,
        capture_output=True,
        text=True,
        timeout=600,
        check=False,
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


def two_state(folder: Path, text: str, bench: str) -> Verdict:
    """Compile with verilator, where every bit is 0 or 1, and run the bench."""
    (folder / "design.sv").write_text(text)
    (folder / "bench.sv").write_text(bench)
    name = bench.partition("\nmodule ")[2].split(";")[0]
    options = ("--binary", "--timing", *LINT, "-O0", "-CFLAGS", "-O0", "--top-module", name)
    compiled = _run(folder, "verilator", *options, "design.sv", "bench.sv")
    assert compiled.status == 0, compiled.said
    return _run(folder, f"obj_dir/V{name}")


def lint(folder: Path, text: str, bench: str) -> Verdict:
    """What verilator warns of."""
    (folder / "design.sv").write_text(text)
    (folder / "bench.sv").write_text(bench)
    return _run(folder, "verilator", "--lint-only", "--timing", *LINT, "design.sv", "bench.sv")


LINT: Final = ("-Wall", "-Wno-DECLFILENAME", "-Wno-UNUSEDSIGNAL", "-Wno-UNOPTFLAT")
"""Without what concerns names of files, carries that are left unused, and vectors of carries."""


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
