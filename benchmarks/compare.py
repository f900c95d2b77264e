"""How long it takes to measure and compare the whole catalogue over a range of widths."""

from __future__ import annotations

import tempfile
from pathlib import Path
from typing import Final

from benchmarks.timing import Spent, command
from edgewise.study.compare.comparison import comparable

WIDTHS: Final = range(4, 65)
BUDGET: Final = 10.0
"""Seconds on the clock, however many workers there are."""
ROUNDS: Final = 3
"""Runs of each; the fastest counts, since other work can only make one slower."""


def best(*words: str) -> Spent:
    """The fastest of several runs of the comparison, each in a process of its own."""
    over = f"n={WIDTHS[0]}..{WIDTHS[-1]}"
    with tempfile.TemporaryDirectory() as name:
        cache = Path(name)
        command("compare", "--over", "n=4..5", cache=cache)  # texts are parsed once
        return min(command("compare", "--with", over, *words, cache=cache) for _ in range(ROUNDS))


def main() -> None:
    """Print the figures, and the budget beside each."""
    designs = len(comparable()) * len(WIDTHS)
    print(f"compare, {designs:,} designs, cold process: best of {ROUNDS}, seconds\n")
    print(f"{'':22}{'wall':>6}{'processor':>11}")
    for what, words in (("one process", ("--workers", "1")), ("as many as pay", ())):
        spent = best(*words)
        print(f"{what:22}{spent.wall:6.2f}{spent.processor:11.2f}  budget {BUDGET:g}", flush=True)


if __name__ == "__main__":
    main()
