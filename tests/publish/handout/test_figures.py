"""Figures on a handout: no letter too small to be read, and what the cells mean beside the cells.

Outside: pikepdf reads the sizes of the letters, Ghostscript the text of each page.
"""

from __future__ import annotations

import subprocess
from pathlib import Path
from typing import Final

import pytest

from edgewise.publish.handout import build
from tests.views.drawing.test_column import sizes_in_pdf

LESSON: Final = """\
---
title: Ferry tickets
design: {design}
with: {{n: 4}}
operands: {{a: 11, b: 13}}
---
{filler}

```edge-table
rows: 0..4
```

```diagram
after: 3
```
"""


def printed(folder: Path, design: str, filler: str = "") -> Path:
    path = folder / "ferry.md"
    path.write_text(LESSON.format(design=design, filler=filler), encoding="utf-8")
    return build.build(path, folder)[0]


def pages(path: Path) -> list[str]:
    words = ("gs", "-q", "-dSAFER", "-dBATCH", "-dNOPAUSE", "-sDEVICE=txtwrite", "-sOutputFile=-")
    done = subprocess.run((*words, str(path)), capture_output=True, text=True, check=True)
    return done.stdout.split("\f")


def test_no_letter_of_a_wide_diagram_is_under_6_pt(tmp_path: Path) -> None:
    assert min(sizes_in_pdf(printed(tmp_path, "shift-add-multiplier"))) >= 6


@pytest.mark.parametrize("sentences", [2, 44, 48, 52, 56])
def test_what_cells_mean_stands_on_the_page_of_the_table(tmp_path: Path, sentences: int) -> None:
    filler = "\n\n".join(["The ferry leaves at eight."] * sentences)
    told = pages(printed(tmp_path, "serial-adder", filler))
    (here,) = [page for page in told if "changed at this edge" in page]
    assert "after edge" in here
