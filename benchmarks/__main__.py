"""Run every benchmark: ``python -m benchmarks``."""

from __future__ import annotations

from benchmarks import (
    commands,
    compare,
    exhaustive,
    large,
    marking,
    papers,
    proof,
    questions,
    stage,
)
from benchmarks.timing import machine

print(f"{machine()}\n")
exhaustive.main()
print()
proof.main()
print()
questions.main()
print()
commands.main()
print()
large.main()
print()
compare.main()
print()
papers.main()
print()
marking.main()
print()
stage.main()
