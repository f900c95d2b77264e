"""A spreadsheet file made into comma-separated values, in a process of its own with limits.

``python workbook.py FILE`` writes the first sheet that holds anything. A file may claim millions of
empty columns, or make its reader fail in ways that end a process: then it ends this one, and
`table` says that the file can't be read. It imports nothing of ours, so that it starts quickly.
"""

from __future__ import annotations

import csv
import resource
import sys
from collections.abc import Iterable
from typing import TextIO

MEMORY = 2 << 30
"""Bytes that it may ask for."""
SECONDS = 60
"""Of processor time."""
EXACT = 10**15
"""Below that a spreadsheet keeps every digit of a number."""


def text(value: object) -> str:
    """A cell as a person would type it; a number whose digits were rounded away shows that.

    Examples
    --------
    >>> [text(value) for value in (22.0, "0b1", 1.0e19, True, None)]
    ['22', '0b1', '1.000000e+19', 'TRUE', '']
    """
    if isinstance(value, bool):
        return str(value).upper()
    if isinstance(value, float):
        if abs(value) >= EXACT:
            return f"{value:e}"
        return str(int(value)) if value.is_integer() else repr(value)
    return "" if value is None else str(value)


def write(rows: Iterable[Iterable[object]], out: TextIO) -> None:
    """Rows as comma-separated values, the empty ones too, so that rows keep their numbers."""
    csv.writer(out, lineterminator="\n").writerows([text(cell) for cell in row] for row in rows)


def main(path: str) -> None:
    """Write the first sheet of a file that holds anything, behind a line with its name."""
    resource.setrlimit(resource.RLIMIT_AS, (MEMORY, MEMORY))
    resource.setrlimit(resource.RLIMIT_CPU, (SECONDS, SECONDS))
    resource.setrlimit(resource.RLIMIT_CORE, (0, 0))
    from python_calamine import CalamineWorkbook

    book = CalamineWorkbook.from_path(path)
    for name in book.sheet_names:
        sheet = book.get_sheet_by_name(name)
        if sheet.height:
            write(sheet.to_python(skip_empty_area=False), sys.stdout)
            return


if __name__ == "__main__":
    sys.stdout.reconfigure(encoding="utf-8", errors="replace")  # type: ignore[union-attr]
    main(sys.argv[1])
