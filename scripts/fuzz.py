"""Try mutated lessons, pages, circuits, options and cache entries, so many: make fuzz.

Coverage-guided by atheris where it is installed (`--guided`); else, and for the counts, by the
seeded mutator of the tests, whose cases can be made again by their number. A failure is printed
as a line to be put into `PINNED` in tests/test_mutants.py.
"""

from __future__ import annotations

import argparse
import contextlib
import sys
import time
import traceback
from collections import Counter
from pathlib import Path
from typing import Final

sys.path.insert(0, str(Path(__file__).parents[1]))

FAILED: Final = "failed"
LIMIT: Final = 2
"""Seconds of processor time for one case, at most."""


def plain(cases: int, first: int, only: str = "") -> int:
    """Try so many cases, kinds in turn, or those until Ctrl-C; the number of failures."""
    from tests import mutants

    kinds, counts, began = tuple(mutants.KINDS), Counter[str](), time.process_time()
    kinds = (only,) if only else kinds
    with contextlib.suppress(KeyboardInterrupt):
        for seed in range(first, first + cases):
            kind = kinds[seed % len(kinds)]
            counts[f"{kind} {one(kind, seed)}"] += 1
    for name, count in sorted(counts.items()):
        print(f"{name}: {count:,}")
    failed = sum(count for name, count in counts.items() if name.endswith(FAILED))
    tried, spent = sum(counts.values()), time.process_time() - began
    print(f"{tried:,} of {cases:,} cases, {failed} failures, {spent:.0f} s of processor")
    return failed


def one(kind: str, seed: int) -> str:
    """What became of one case."""
    from tests import mutants

    text, before = mutants.case(kind, seed), time.process_time()
    try:
        became = "answered" if mutants.tried(kind, text) else "refused"
    except Exception:  # noqa: BLE001  any is a fault
        print(f"({kind!r}, {text!r}),  # seed {seed}", flush=True)
        traceback.print_exc()
        return FAILED
    if time.process_time() - before > LIMIT:
        print(f"({kind!r}, {text!r}),  # seed {seed}: more than {LIMIT} s", flush=True)
        return FAILED
    return became


def guided(seconds: int) -> None:
    """Let atheris look for inputs that reach new code."""
    import atheris

    with atheris.instrument_imports(include=["edgewise"]):
        from tests import mutants

    kinds = tuple(mutants.KINDS)

    def fed(data: bytes) -> None:
        if data:
            mutants.tried(kinds[data[0] % len(kinds)], data[1:].decode("utf-8", "surrogateescape"))

    atheris.Setup([sys.argv[0], f"-max_total_time={seconds}", "-timeout=10"], fed)
    atheris.Fuzz()


if __name__ == "__main__":
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--cases", type=int, default=100_000)
    parser.add_argument("--first", type=int, default=0, help="the number of the first case")
    parser.add_argument("--guided", type=int, default=0, metavar="SECONDS")
    parser.add_argument("--kind", default="", help="one kind alone, such as answers")
    asked = parser.parse_args()
    if asked.guided:
        guided(asked.guided)
    sys.exit(plain(asked.cases, asked.first, asked.kind) > 0)
