"""Run every benchmark: ``python -m benchmarks``."""

from __future__ import annotations

from benchmarks import commands, exhaustive, proof, stage
from benchmarks.timing import machine

print(f"{machine()}\n")
exhaustive.main()
print()
proof.main()
print()
commands.main()
print()
stage.main()
