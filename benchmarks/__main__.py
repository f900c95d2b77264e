"""Run every benchmark: ``python -m benchmarks``."""

from __future__ import annotations

from benchmarks import (
    commands,
    compare,
    exhaustive,
    film,
    inside,
    large,
    marking,
    papers,
    proof,
    questions,
    slides,
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
slides.main()
print()
film.main()
print()
inside.main()
print()
stage.main()
