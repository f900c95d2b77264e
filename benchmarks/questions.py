"""How long `edgewise prove` takes for every question of 2^32 operand sets in the catalogue."""

from __future__ import annotations

import tempfile
from pathlib import Path
from typing import Final

from benchmarks.timing import command
from edgewise import catalogue
from edgewise.errors import EdgewiseError

BITS: Final = 32
"""Operand bits."""
BUDGET: Final = 3.0
ROUNDS: Final = 3


def questions() -> list[tuple[str, dict[str, int]]]:
    """Find the parameters of each design that give it 32 operand bits, if any do."""
    found = []
    for blueprint in map(catalogue.find, catalogue.ORDER):
        for n in (16, 32):
            try:
                design = blueprint.design({"n": n})
            except EdgewiseError:
                continue
            if design.computes and sum(o.width for o in design.operands) in {BITS, BITS + 1}:
                found.append((blueprint.name, {"n": n}))
    return found


def main() -> None:
    """Print the figures, and the budget beside each."""
    print(f"2^{BITS} operand sets, whole command: best of {ROUNDS}, seconds on the clock\n")
    with tempfile.TemporaryDirectory() as name:
        for design, numbers in questions():
            given = ",".join(f"{key}={value}" for key, value in numbers.items())
            runs = [
                command("prove", design, "--with", given, cache=Path(name)) for _ in range(ROUNDS)
            ]
            best = min(run.wall for run in runs)
            print(f"{design:40} {given:8}{best:6.2f}  budget {BUDGET}", flush=True)


if __name__ == "__main__":
    main()
