"""Take the picture of slides that docs/slides.md shows: some pages of a lesson's PDF side by side.

Run ``make figures``, which runs this after the drawings are made.
"""

from __future__ import annotations

import io
from pathlib import Path
from typing import Final

from PIL import Image

from edgewise import lesson
from edgewise.publish.slides import content, pages, placing
from edgewise.publish.slides.shape import SHAPES

ROOT: Final = Path(__file__).parents[1]
PICTURE: Final = ROOT / "docs" / "figures" / "slides.png"
LESSON: Final = """\
---
title: Two rain gauges, one full adder
design: serial-adder
with: {n: 6}
operands: {a: 22, b: 43}
---
```steps
- load
- 7
- {rows: 8, point: [C], predict: [C, S], say: The first carry.}
- 9..12
```
```claim
S after end == (a + b) mod 2**n   for all a, b
edges == 2*n                      for n in 1..64
```
"""
SHOWN: Final = (0, 8, 9, 10, 14, -1)
ACROSS: Final = 2
GAP: Final = 8
GROUND: Final = "#c9ced6"


def main() -> None:
    """Build the lesson, and put the pages together."""
    shape = SHAPES["16:9"]
    report = lesson.check_text(LESSON, "rain-gauges.md", ROOT / "examples")
    deck = content.deck(report, shape)
    placed = [one for slide in deck.slides for one in placing.placed(slide, shape, report.words)]
    drawn = pages.pictures(deck, placed, shape, ppi=40)
    shown = [Image.open(io.BytesIO(drawn[place])) for place in SHOWN]
    wide, high = (side + GAP for side in shown[0].size)
    rows = -(-len(shown) // ACROSS)
    sheet = Image.new("RGB", (ACROSS * wide + GAP, rows * high + GAP), GROUND)
    for place, one in enumerate(shown):
        sheet.paste(one, (GAP + place % ACROSS * wide, GAP + place // ACROSS * high))
    sheet.save(PICTURE, optimize=True)
    print(f"wrote {PICTURE.relative_to(ROOT)}")


if __name__ == "__main__":
    main()
