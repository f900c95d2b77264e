"""Explain many recordings of circuits with one known fault, and count how often it is found.

``python scripts/capture_trials.py 400`` runs seeds 0 to 399; ``tests/lab/capture`` runs a sample.
What shows the same on all recorded channels can't be told apart by anybody: a fault counts as
first if it is in the group of those that explain the recording best.
"""

from __future__ import annotations

import sys
import time
from collections import Counter
from pathlib import Path

from edgewise.lab.capture import explanation, value_change_dump
from tests.lab.capture import trials


def place(seed: int) -> tuple[int, trials.Trial, str]:
    """In which group the truth is, from 1; 0 where it is in none."""
    trial = trials.trial(seed)
    recording = value_change_dump.read(trial.file, Path("analyser.vcd"))
    found = explanation.explain(trial.design, trial.operands, recording)
    for number, group in enumerate(found.explanations, 1):
        if any(member.name == trial.truth for member in group.members):
            return number, trial, found.explanations[0].best.name
    return 0, trial, found.explanations[0].best.name


def main() -> None:
    """Count, and name what was not first."""
    seeds = int(sys.argv[1]) if len(sys.argv) > 1 else 400
    begun = time.process_time()
    places: Counter[int] = Counter()
    for seed in range(seeds):
        at, trial, best = place(seed)
        places[at] += 1
        if at != 1:
            print(f"seed {seed}: {trial.design.name}, {trial.truth}: place {at}, first {best}")
    first = places[1] / seeds
    third = sum(places[k] for k in (1, 2, 3)) / seeds
    spent = time.process_time() - begun
    print(f"{seeds} recordings: first {first:.1%}, in the first three {third:.1%}, {spent:.0f} s")


if __name__ == "__main__":
    main()
