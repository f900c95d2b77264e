"""Comparisons on paper: the table of one."""

from __future__ import annotations

from collections.abc import Container, Sequence

from edgewise.lesson.compared import NAMES
from edgewise.publish.handout.pdf import quoted


def table(lines: Sequence[Sequence[str]], named: Container[int] = (NAMES,)) -> str:
    """A table's cells as typst, the heading first; names stand left, figures right."""
    heading, *rows = lines
    aligned = "".join(
        f"{'start' if index in named else 'right'} + top, " for index in range(len(heading))
    )
    heads = "".join(f"[#{quoted(name)};], " for name in heading)
    rows = [
        [cell if at in named else cell.replace(" ", "\u00a0") for at, cell in enumerate(line)]
        for line in rows
    ]
    cells = "".join(f"[#{quoted(cell)};], " for line in rows for cell in line)
    return f"#own-table({len(heading)}, ({aligned}), ({heads}), {cells})"
