"""Columns: rows of text as lines, cell below cell."""

from __future__ import annotations

from collections.abc import Container, Iterator, Sequence

GAP = "  "
"""Between two columns."""


def widths(rows: Sequence[Sequence[str]]) -> list[int]:
    """The width of each column.

    Examples
    --------
    >>> widths([["n", "design"], ["16", "ring"]])
    [2, 6]
    """
    return [max(map(len, column)) for column in zip(*rows, strict=True)]


def aligned(rows: Sequence[Sequence[str]], left: Container[int] = ()) -> Iterator[str]:
    """Rows as lines; the cells of the columns `left` stand left, all others right.

    Examples
    --------
    >>> list(aligned([["n", "design", "area"], ["4", "ring", "28"]], left={1}))
    ['n  design  area', '4  ring      28']
    """
    wide = widths(rows)
    for row in rows:
        cells = (
            cell.ljust(width) if at in left else cell.rjust(width)
            for at, (cell, width) in enumerate(zip(row, wide, strict=True))
        )
        yield GAP.join(cells).rstrip()


def ruled(rows: Sequence[Sequence[str]]) -> str:
    """A rule as wide as the columns, with their gaps.

    Examples
    --------
    >>> ruled([["n", "design"], ["16", "ring"]])
    '──  ──────'
    """
    return GAP.join("─" * width for width in widths(rows))
