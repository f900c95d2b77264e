"""How long a million answers take: 10,000 learners with 100 cells each, whole command."""

from __future__ import annotations

import csv
import random
import resource
import tempfile
from pathlib import Path
from typing import Final

from benchmarks.timing import command
from edgewise.engines import reference
from edgewise.practice.marking.beliefs import singles, telling, truth
from edgewise.practice.paper import Variant, read_paper

LEARNERS: Final = 10_000
VARIANTS: Final = 30
CARELESS: Final = 0.02
BUDGET: Final = 10.0
MEMORY: Final = 1.0
PAPER: Final = """\
---
title: Two tide gauges
design: serial-adder
with: {n: 16}
operands: {a: 40537, b: 29163}
---
```question
ask: next-rows
rows: 13..32
columns: [A, B, FA.sum, C, S]
marks: 50
about: [carry-dropped, or-for-sum]
```
"""


def tables(variant: Variant) -> list[list[str]]:
    """What is written by those who know it, and by those who have one idea each."""
    (question,) = variant.questions
    asked = question.cells_asked
    assert asked is not None
    design, true = asked.trace.design, truth(asked.trace.design)
    held = [*[true] * 4, *telling(singles(design), design, asked.cells)]
    runs = [reference.run(belief.design, asked.trace.operands) for belief in held]
    return [
        [str(run.bits(belief.nets(c) or true.nets(c) or (), c.row)) for c in asked.cells]
        for belief, run in zip(held, runs, strict=True)
    ]


def written(path: Path, paper: Path, learners: int = LEARNERS) -> int:
    """Write the answers of a class, two cells in a hundred careless; how many answers."""
    chance = random.Random(16)  # noqa: S311  # cases, no secrets
    variants = read_paper(paper).variants(VARIANTS).variants
    known = [(variant.code, tables(variant)) for variant in variants]
    with path.open("w", newline="", encoding="utf-8") as file:
        lines = csv.writer(file)
        lines.writerow(["learner", "code", *variants[0].headings])
        for number in range(learners):
            code, ideas = chance.choice(known)
            words = list(chance.choice(ideas))
            for place, word in enumerate(words):
                if chance.random() < CARELESS:
                    at = chance.randrange(len(word))
                    words[place] = word[:at] + ("0" if word[at] == "1" else "1") + word[at + 1 :]
            lines.writerow([f"learner {number}", code, *words])
    return learners * len(variants[0].headings)


def main() -> None:
    """Print the figures, and the budget beside each."""
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        paper, answers = folder / "gauges.md", folder / "answers.csv"
        paper.write_text(PAPER, encoding="utf-8")
        count = written(answers, paper)
        print(f"{count:,} answers marked and diagnosed, table and report written: whole command\n")
        for workers in (1, 2):
            out = folder / f"marked-{workers}"
            spent = command(
                *("mark", str(answers), "--paper", str(paper), "-o", str(out)),
                *("--no-feedback", "--workers", str(workers)),
                cache=folder / "cache",
            )
            print(
                f"--workers {workers}: {spent.wall:5.1f} s on the clock, {spent.processor:.1f} s of"
                f" processor; budget {BUDGET:.0f} s"
            )
        most = resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss / 1e6
        print(f"memory of the largest process: {most:.2f} GB; budget {MEMORY:.0f} GB")
        one, two = ((folder / f"marked-{n}" / "marks.xlsx").read_bytes() for n in (1, 2))
        print(f"the same marks from both: {one == two}")


if __name__ == "__main__":
    main()
