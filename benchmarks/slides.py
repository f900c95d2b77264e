"""How long 40 slides take, presentation and PDF: a serial adder of 18 bits, a slide an edge."""

from __future__ import annotations

import tempfile
import time
from pathlib import Path
from typing import Final

from edgewise import lesson
from edgewise.publish.slides import content, pages, placing, presentation
from edgewise.publish.slides.shape import SHAPES

SLIDES: Final = 40
BUDGET: Final = 5.0
LESSON: Final = """\
---
title: Two ferry decks
design: serial-adder
with: {n: 18}
operands: {a: 100000, b: 77777}
---
Cars on two decks.

```claim
edges == 2*n    for n in 1..64
```
```law
count: edges
over: {n: 1..16}
claim: 2*n
```
"""


def main() -> None:
    """Print the figures, and the budget beside the sum."""
    with tempfile.TemporaryDirectory() as name:
        path = Path(name) / "decks.md"
        path.write_text(LESSON, "utf-8")
        shape = SHAPES["16:9"]
        spent, clock = time.process_time(), [time.perf_counter()]
        report = lesson.check(path)
        deck = content.deck(report, shape)
        placed = [
            one for slide in deck.slides for one in placing.placed(slide, shape, report.words)
        ]
        clock.append(time.perf_counter())
        shown = presentation.presentation(deck, placed, shape, None)
        clock.append(time.perf_counter())
        printed = pages.pages(deck, placed, shape)
        clock.append(time.perf_counter())
    assert len(placed) == SLIDES, len(placed)
    print(f"{SLIDES} slides, seconds on the clock\n")
    parts = ("lesson checked, figures drawn", "presentation, PNG fallbacks", "PDF")
    for part, began, ended in zip(parts, clock, clock[1:], strict=False):
        print(f"{part:40}{ended - began:6.2f}")
    print(f"{'in all':40}{clock[-1] - clock[0]:6.2f}  budget {BUDGET:g}")
    print(f"{'processor time':40}{time.process_time() - spent:6.2f}")
    print(f"\n{len(shown) / 1e6:.1f} MB of PPTX, {len(printed) / 1e6:.1f} MB of PDF")


if __name__ == "__main__":
    main()
