"""Run every benchmark: ``python -m benchmarks``."""

from __future__ import annotations

from benchmarks import commands, compare, exhaustive, proof, stage
from benchmarks.timing import machine

print(f"{machine()}\n")
exhaustive.main()
print()
proof.main()
print()
commands.main()
print()
compare.main()
print()
stage.main()
