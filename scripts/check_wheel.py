"""Build the wheel, compare it with the source tree, run a command from it.

Fails if a file of ``src/edgewise`` is missing in the wheel, if a file is in it that is not there,
or if the unpacked wheel cannot run a design of its own catalogue.
"""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from pathlib import Path
from typing import Final
from zipfile import ZipFile

ROOT: Final = Path(__file__).parents[1]
DIST: Final = ROOT / "build" / "dist"
UNPACKED: Final = ROOT / "build" / "wheel"

# Enough to load the catalogue, the circuit text and the engine from package data.
COMMANDS: Final = (["--help"], ["list"], ["trace", "serial-adder", "--operands", "a=22,b=43"])


def build() -> Path:
    """Build the wheel into build/dist and return its path."""
    shutil.rmtree(DIST, ignore_errors=True)
    pip = [sys.executable, "-m", "pip", "--disable-pip-version-check", "wheel", "--quiet"]
    options = ["--no-deps", "--no-build-isolation", "--wheel-dir", str(DIST), str(ROOT)]
    subprocess.run([*pip, *options], check=True)
    (wheel,) = DIST.glob("*.whl")
    return wheel


def compare(wheel: Path) -> list[str]:
    """Name each file that is only in the source tree or only in the wheel."""
    with ZipFile(wheel) as archive:
        packed = {name for name in archive.namelist() if name.startswith("edgewise/")}
    source = {
        str(path.relative_to(ROOT / "src"))
        for path in (ROOT / "src" / "edgewise").rglob("*")
        if path.is_file() and "__pycache__" not in path.parts
    }
    missing = [f"{name} is not in the wheel" for name in sorted(source - packed)]
    return missing + [f"{name} is only in the wheel" for name in sorted(packed - source)]


def run(wheel: Path) -> list[str]:
    """Run commands from the unpacked wheel, away from the source tree."""
    shutil.rmtree(UNPACKED, ignore_errors=True)
    with ZipFile(wheel) as archive:
        archive.extractall(UNPACKED)
    start = "import edgewise, sys; from edgewise.cli import main; sys.argv[0] = 'edgewise'; "
    where = f"assert edgewise.__file__.startswith({str(UNPACKED)!r}), edgewise.__file__; main()"
    wrong = []
    for words in COMMANDS:
        done = subprocess.run(
            [sys.executable, "-c", start + where, *words],
            cwd=UNPACKED,
            env=os.environ | {"PYTHONPATH": str(UNPACKED), "PYTHONDONTWRITEBYTECODE": "1"},
            capture_output=True,
            text=True,
            check=False,
        )
        if done.returncode != 0 or not done.stdout:
            wrong.append(f"edgewise {' '.join(words)}: exit {done.returncode}\n{done.stderr}")
    return wrong


def main() -> None:
    """Print what is wrong with the wheel, or its size."""
    wheel = build()
    wrong = compare(wheel) or run(wheel)
    if wrong:
        sys.exit("\n".join(wrong))
    print(f"{wheel.name}: {wheel.stat().st_size / 1e6:.1f} MB, complete, and runs")


if __name__ == "__main__":
    main()
