"""Run tables: the edge table of a handout, split where it is wider than the paper."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import groupby
from typing import Final, TypeAlias

from edgewise.bits import Word
from edgewise.lesson.pieces import EdgeTable
from edgewise.publish.handout import blanks
from edgewise.publish.handout.pdf import quoted
from edgewise.publish.handout.prose import content
from edgewise.trace import Trace
from edgewise.words.messages import Words

CELL: Final = (5.6, 8.6)
"""Width of a bit cell, pt: the least, and where there is room."""
OPEN_CELL: Final = (9.0, 13.0)
"""Likewise in a table with cells to write in, which are also higher."""
_LETTER: Final = 5.55
"""Width of a letter of a heading, pt."""
_BETWEEN: Final = 9.0
"""Pt between two columns."""
_PHASE: Final = 5.6
Cells: TypeAlias = frozenset[tuple[int, str]]
"""Words of a table, by row and column."""
_LONGEST: Final = 48
"""Bits on one line of a cell, as in `handout.typ`."""


def run_table(  # what the table shows, and how
    table: EdgeTable,
    empty: frozenset[int],
    caption: str,
    width: float,
    words: Words,
    cells: Cells = frozenset(),
) -> Iterator[str]:
    """The typst of a table; of several, if its columns don't fit side by side.

    Parameters
    ----------
    table : EdgeTable
    empty : frozenset of int
        Rows whose words are left open.
    caption : str
    width : float
        Of the text, pt.
    words : Words
    cells : set of (int, str)
        Single words that are left open, by row and column.
    """
    trace = table.trace
    names = blanks.names(trace, table.columns)
    cells = cells | {(row, name) for row in empty for name in names}
    room = width - _heads_width(trace, table.rows, words)
    sizes = OPEN_CELL if cells else CELL
    groups = list(_groups(trace, table.columns, room, sizes))
    for number, (columns, cell) in enumerate(groups):
        part = EdgeTable(trace, columns, table.rows)
        told = words("handout-continued", caption=caption) if number else caption
        yield _one(part, cells, content(told), cell, words)


def _heads_width(trace: Trace, rows: tuple[int, ...], words: Words) -> float:
    """Of the columns for phase and edge."""
    if not trace.edges:
        return 0.0
    names = [words("table-phase"), *(p.name for row in rows if (p := trace.phase(row)))]
    edges = (words("table-after-edge"), words("table-start"))
    return (max(map(len, names)) + max(map(len, edges))) * _PHASE + 2 * _BETWEEN


def _groups(
    trace: Trace, columns: Sequence[str], room: float, sizes: tuple[float, float]
) -> Iterator[tuple[tuple[str, ...], float]]:
    """Columns that fit side by side, and the width of a cell with which they do."""
    least, most = sizes
    widths = {name: len(trace.design.netlist.find(name)) for name in columns}

    def needed(names: Sequence[str], cell: float) -> float:
        return sum(max(min(widths[n], _LONGEST) * cell, len(n) * _LETTER) + _BETWEEN for n in names)

    def split(room: float) -> list[tuple[str, ...]]:
        taken: list[str] = []
        groups: list[tuple[str, ...]] = []
        for name in columns:
            if taken and needed([*taken, name], least + 1) > room:
                groups.append(tuple(taken))
                taken = []
            taken.append(name)
        return [*groups, tuple(taken)]

    groups, wide = split(room), room
    # As many tables as there must be, about equally wide.
    while len(groups) > 1 and wide > 0 and len(narrower := split(wide)) == len(groups):
        groups, wide = narrower, wide - _BETWEEN
    for group in groups:
        cell = most
        while cell > least and needed(group, cell) > room:
            cell -= 0.2
        yield group, cell


def _one(table: EdgeTable, blank: Cells, caption: str, cell: float, words: Words) -> str:
    trace = table.trace
    lines: list[str] = []
    rules: list[int] = []

    def phase_of(row: int) -> str:
        phase = trace.phase(row)
        return phase.name if phase else ""

    at = 1
    for phase, run in groupby(table.rows, key=phase_of):
        members = list(run)
        if at > 1:
            rules.append(at)
        for row in members:
            high = ", h: 16pt" if blank else ""
            led = (phase if row == members[0] else "", str(row) if row else words("table-start"))
            begun = "".join(f"beside({quoted(one)}{high}), " for one in led if trace.edges)
            shown = (
                _word(trace, name, row, f"{cell:.1f}pt{high}", blank) for name in table.columns
            )
            lines.append(begun + ", ".join(shown) + ",")
        at += len(members)
    heads = words("table-phase"), words("table-after-edge")
    columns = (*(heads if trace.edges else ()), *table.columns)
    told = "".join(f"{quoted(column)}, " for column in columns)
    ruled = "".join(f"{rule}, " for rule in rules)
    cells = "\n  ".join(lines)
    return f"#run-table(({told}), {len(columns)}, ({ruled}), {caption},\n  {cells}\n)"


def _word(trace: Trace, name: str, row: int, size: str, blank: Cells) -> str:
    word, is_open = trace.word(name, row), (row, name) in blank
    # A mark for a change would tell something of an open cell above.
    quiet = is_open or (row - 1, name) in blank
    changed = Word(word.width) if quiet else trace.changed(name, row)
    digits = "_" * word.width if is_open else str(word)
    return f"word({quoted(digits)}, {quoted(str(changed))}, {size})"
