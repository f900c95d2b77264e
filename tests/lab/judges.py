"""Judges of HDL that others wrote: Debian's implementations of the two standards, and pyslang."""

from __future__ import annotations

import shutil
import subprocess
from dataclasses import dataclass
from pathlib import Path
from typing import Any

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


def systemverilog(folder: Path, text: str, bench: str, *, warnings: bool = True) -> Verdict:
    """Compile, with all warnings of which there may be none, and run the bench."""
    (folder / "design.sv").write_text(text)
    (folder / "bench.sv").write_text(bench)
    options = ("-g2012", *["-Wall"] * warnings)
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
