"""Comparisons on paper: the table of one."""

from __future__ import annotations

from collections.abc import Sequence

from edgewise.lesson.compared import NAMES
from edgewise.publish.handout.pdf import quoted


def table(lines: Sequence[Sequence[str]]) -> str:
    """A table's cells as typst; the first row is its heading."""
    heading, *rows = lines
    aligned = "".join(
        f"{'start' if index == NAMES else 'right'} + top, " for index in range(len(heading))
    )
    heads = "".join(f"[#{quoted(name)};], " for name in heading)
    cells = "".join(f"[#{quoted(cell)};], " for line in rows for cell in line)
    return f"#own-table({len(heading)}, ({aligned}), ({heads}), {cells})"
