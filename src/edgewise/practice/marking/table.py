"""A table in a file, CSV, XLSX or ODS: headings and rows of text, bounded."""

from __future__ import annotations

import csv
import io
import subprocess
import sys
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Final

from edgewise.errors import EdgewiseError, Message, Place
from edgewise.listing import choice
from edgewise.practice.marking import workbook

SPREADSHEETS: Final = (".xlsx", ".ods")
KINDS: Final = (".csv", *SPREADSHEETS)
MOST_BYTES: Final = 100_000_000
MOST_ROWS: Final = 100_000
MOST_COLUMNS: Final = 2_000
MOST_CELLS: Final = 5_000_000
_LONGEST: Final = 4_000
"""Characters in a cell, at most; the rest is cut off."""
_SEPARATORS: Final = (",", ";", "\t")
_MARKS: Final = {b"\xff\xfe": "utf-16", b"\xfe\xff": "utf-16", b"\xef\xbb\xbf": "utf-8-sig"}
"""How a text begins that says its encoding (Unicode Standard, 23.8)."""


@dataclass(frozen=True, slots=True)
class Line:
    """One row: its number in the file, from 1, and a text for each heading."""

    number: int
    cells: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Table:
    """What stands in a file under a row of headings.

    Parameters
    ----------
    file : str
    headings : tuple of str
        As they stand, blanks around them aside.
    lines : tuple of Line
        Those that hold anything.
    """

    file: str
    headings: tuple[str, ...]
    lines: tuple[Line, ...]

    def place(self, line: int = 0) -> Place:
        """A row of the file, or the whole."""
        return Place(self.file, line)


def read(path: Path) -> Table:
    """Read a file.

    Raises
    ------
    EdgewiseError
        It is not there, is none of `KINDS`, can't be read, is too large, or has no headings.
    """
    suffix = path.suffix.lower()
    place = Place(str(path))
    if suffix not in KINDS:
        raise EdgewiseError(Message("table-unknown", kinds=choice(KINDS)), place)
    try:
        size = path.stat().st_size
        if size > MOST_BYTES:
            raise EdgewiseError(Message("table-large", count=size, most=MOST_BYTES), place)
        text = _of_spreadsheet(path) if suffix in SPREADSHEETS else decoded(path.read_bytes())
    except OSError as wrong:
        raise EdgewiseError(
            Message("unreadable-here", why=wrong.strerror or str(wrong)), place
        ) from None
    return of_text(text, str(path))


def of_text(text: str, file: str) -> Table:
    r"""The table in comma-separated values; semicolons or tabs may stand for the commas.

    Examples
    --------
    >>> table = of_text("code;q1: S after 6\nK7;001011\n", "gauges.csv")
    >>> table.headings, table.lines
    (('code', 'q1: S after 6'), (Line(number=2, cells=('K7', '001011')),))
    """
    place = Place(file)
    rows = _rows(text, place)
    first = next(rows, None)
    if first is None:
        raise EdgewiseError(Message("table-empty"), place)
    headings = tuple(first.cells)
    while headings and not headings[-1]:
        headings = headings[:-1]
    if len(headings) > MOST_COLUMNS:
        raise EdgewiseError(
            Message("table-columns-many", count=len(headings), most=MOST_COLUMNS), place
        )
    lines: list[Line] = []
    width = len(headings)
    for line in rows:
        if len(lines) >= MOST_ROWS or len(lines) * width >= MOST_CELLS:
            raise EdgewiseError(Message("table-rows-many", count=len(lines), columns=width), place)
        lines.append(Line(line.number, (line.cells + ("",) * width)[:width]))
    return Table(file, headings, tuple(lines))


def _rows(text: str, place: Place) -> Iterator[Line]:
    """Rows that hold anything."""
    begin = next((line for line in text[:100_000].splitlines() if line.strip()), "")
    separator = max(_SEPARATORS, key=begin.count)
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=separator)
    number = 1
    try:
        for cells in reader:
            if any(cell.strip() for cell in cells):
                yield Line(number, tuple([cell.strip()[:_LONGEST] for cell in cells]))
            number = reader.line_num + 1
    except csv.Error:
        raise EdgewiseError(
            Message("table-row-unreadable", most=csv.field_size_limit()), Place(place.file, number)
        ) from None


def decoded(content: bytes) -> str:
    """A text file in UTF-8 or what it says it is; else as older spreadsheets write it.

    Examples
    --------
    >>> decoded("Zoë".encode("cp1252")), decoded("Zoë".encode("utf-16"))
    ('Zoë', 'Zoë')
    """
    encoding = next((name for mark, name in _MARKS.items() if content.startswith(mark)), "utf-8")
    try:
        text = content.decode(encoding)
    except UnicodeDecodeError:
        text = content.decode("cp1252", errors="replace")
    return text.replace("\0", "\ufffd")


def _of_spreadsheet(path: Path) -> str:
    """The first sheet as comma-separated values."""
    place = Place(str(path))
    command = [sys.executable, "-P", str(workbook.__file__), str(path.absolute())]
    try:
        done = subprocess.run(  # noqa: S603  # our own module, and a path that is no option
            command, capture_output=True, check=False, timeout=4 * workbook.SECONDS
        )
    except subprocess.TimeoutExpired:
        raise EdgewiseError(Message("table-slow"), place) from None
    if done.returncode:
        raise EdgewiseError(Message("table-unreadable"), place)
    return done.stdout.decode("utf-8", errors="replace")
