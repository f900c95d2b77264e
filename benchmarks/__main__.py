"""Run every benchmark: ``python -m benchmarks``."""

from __future__ import annotations

from benchmarks import commands, compare, exhaustive, large, proof, stage
from benchmarks.timing import machine

print(f"{machine()}\n")
exhaustive.main()
print()
proof.main()
print()
commands.main()
print()
large.main()
print()
compare.main()
print()
stage.main()
