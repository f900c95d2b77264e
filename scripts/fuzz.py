"""Try mutated lessons, circuits, options and cache entries until so many were tried: make fuzz.

Coverage-guided by atheris where it is installed (`--guided`); else, and for the counts, by the
seeded mutator of the tests, whose cases can be made again by their number. A failure is printed
as a line to be put into `PINNED` in tests/test_mutants.py.
"""

from __future__ import annotations

import argparse
import sys
import time
import traceback
from collections import Counter
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1]))


def plain(cases: int, first: int) -> int:
    """Try so many cases, kinds in turn; the number of failures."""
    from tests import mutants

    kinds, counts, failed, began = tuple(mutants.KINDS), Counter[str](), 0, time.process_time()
    for seed in range(first, first + cases):
        kind = kinds[seed % len(kinds)]
        text = mutants.case(kind, seed)
        before = time.process_time()
        try:
            counts[f"{kind} {'answered' if mutants.tried(kind, text) else 'refused'}"] += 1
        except Exception:  # noqa: BLE001  any is a fault
            failed += 1
            print(f"({kind!r}, {text!r}),  # seed {seed}")
            traceback.print_exc()
        if time.process_time() - before > 2:
            failed += 1
            print(f"({kind!r}, {text!r}),  # seed {seed}: more than 2 s")
    for name, count in sorted(counts.items()):
        print(f"{name}: {count:,}")
    print(f"{cases:,} cases, {failed} failures, {time.process_time() - began:.0f} s of processor")
    return failed


def guided(seconds: int) -> None:
    """Let atheris look for inputs that reach new code."""
    import atheris

    with atheris.instrument_imports(include=["edgewise"]):
        from tests import mutants

    kinds = tuple(mutants.KINDS)

    def one(data: bytes) -> None:
        if data:
            mutants.tried(kinds[data[0] % len(kinds)], data[1:].decode("utf-8", "surrogateescape"))

    atheris.Setup([sys.argv[0], f"-max_total_time={seconds}", "-timeout=10"], one)
    atheris.Fuzz()


if __name__ == "__main__":
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--cases", type=int, default=100_000)
    parser.add_argument("--first", type=int, default=0, help="the number of the first case")
    parser.add_argument("--guided", type=int, default=0, metavar="SECONDS")
    asked = parser.parse_args()
    if asked.guided:
        guided(asked.guided)
    sys.exit(plain(asked.cases, asked.first) > 0)
