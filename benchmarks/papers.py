"""How long 200 papers of six questions take: PDF of papers, key and solutions, page and answers."""

from __future__ import annotations

import tempfile
import time
from pathlib import Path
from typing import Final

from edgewise.practice.paper import read_paper
from edgewise.publish import papers as publisher

PAPERS: Final = 200
BUDGET: Final = 60.0
QUESTIONS: Final = """\
---
title: Tide tables
design: serial-accumulator
with: {n: 8, x: 3, m: 7}
operands: {w: [51, 86, 29]}
---
Three harbours: `? w(1)`, `? w(2)` and `? w(3)` ships.

```diagram
after: 0
```
```question
ask: next-rows
rows: 9..11
columns: [A, B, FA.sum, FA.carry-out, C]
about: [one-after-another, wrong-end]
marks: 6
```
```question
ask: cells
rows: 18..24
columns: [A, FA.sum, FA.carry-out, C]
blank: 5
about: [carry-dropped]
```
```question
ask: lane
rows: 16..24
columns: [FA.sum, C]
lane: C
operands: {w: [77, 99, 42]}
about: [carry-dropped]
```
```question
ask: value
of: A
after: 32
about: [carry-dropped, or-for-sum]
```
```question
ask: choice
of: A
operands: {w: [45, 90, 60]}
about: [carry-dropped, or-for-sum, carry-of-two]
```
```question
ask: edges
over: {n: 7..12, x: 2..9}
```
"""


def paper(folder: Path) -> Path:
    """Write the file of questions."""
    path = folder / "papers.md"
    path.write_text(QUESTIONS, "utf-8")
    return path


def main() -> None:
    """Print the figures, and the budget beside the sum."""
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        began, spent = time.perf_counter(), time.process_time()
        made = read_paper(paper(folder)).variants(PAPERS, seed=5)
        drawn = time.perf_counter()
        publisher.build(made, folder / "out")
        ended = time.perf_counter()
        questions = len(made.variants[0].questions)
        print(f"{PAPERS} papers of {questions} questions, seconds on the clock\n")
        print(f"{'read, checked, variants drawn':40}{drawn - began:6.2f}")
        print(f"{'papers, key, solutions, pages, answers':40}{ended - drawn:6.2f}")
        print(f"{'in all':40}{ended - began:6.2f}  budget {BUDGET:g}")
        print(f"{'processor time':40}{time.process_time() - spent:6.2f}")
        print(f"\n{made.sentences()[-1]}")


if __name__ == "__main__":
    main()
