"""Take the picture of a film that docs/film.md shows: some of its frames side by side.

Run ``make figures``, which runs this after the drawings are made.
"""

from __future__ import annotations

import tempfile
from pathlib import Path
from typing import Any, Final

from PIL import Image

from edgewise.publish.film.build import Manner, take_of

ROOT: Final = Path(__file__).parents[1]
PICTURE: Final = ROOT / "docs" / "figures" / "film.png"
LESSON: Final = """\
---
title: Two rain gauges, one full adder
design: serial-adder
with: {n: 6}
operands: {a: 22, b: 43}
---
## Add: the last six edges

```steps
- {rows: 7, say: "Edge 7 adds the first column."}
- {rows: 8, point: [C], say: "Edge 8 stores the first carry."}
```
"""
STORED: Final = 13
"""Frames into a step, while what is stored runs to where it is stored."""
SETTLED: Final = 32
"""While what is now held runs on."""
SIZE: Final = (640, 360)
GAP: Final = 8
GROUND: Final = "#c9ced6"


class _Frames:
    """Keeps the frames of some numbers."""

    def __init__(self, wanted: tuple[int, ...]) -> None:
        self.wanted, self.number = wanted, 0
        self.kept: list[Image.Image] = []

    def write(self, picture: Any, count: int = 1, *, key: bool = False) -> None:
        """Keep a frame, if it is one of them."""
        del key
        if any(self.number <= one < self.number + count for one in self.wanted):
            plane = picture.planes[0]
            shape = (picture.width, picture.height)
            raw = (bytes(plane), "raw", "BGRX", plane.line_size)
            shown = Image.frombytes("RGB", shape, *raw)
            self.kept.append(shown.resize(SIZE, Image.Resampling.LANCZOS))
        self.number += count


def main() -> None:
    """Draw the lesson's film, and put the frames together."""
    with tempfile.TemporaryDirectory() as name:
        path = Path(name) / "rain-gauges.md"
        path.write_text(LESSON, "utf-8")
        take = take_of(path, Path(name) / "film.mp4", Manner("720p"), Path(name))
        second = take.plan.shots[2]
        frames = _Frames((0, second.first + STORED, second.first + SETTLED, second.end - 1))
        take.into(frames, "bgra")
    wide, high = (side + GAP for side in SIZE)
    sheet = Image.new("RGB", (2 * wide + GAP, 2 * high + GAP), GROUND)
    for place, one in enumerate(frames.kept):
        sheet.paste(one, (GAP + place % 2 * wide, GAP + place // 2 * high))
    sheet.save(PICTURE, optimize=True)
    print(f"wrote {PICTURE.relative_to(ROOT)}")


if __name__ == "__main__":
    main()
