"""A table of samples read (CSV): time and channels, or one state a clock edge."""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Mapping, Sequence
from itertools import pairwise
from pathlib import Path
from typing import Final

from edgewise.bits import Bit, X
from edgewise.errors import Message, Place, TextError
from edgewise.lab.capture.recording import (
    LONGEST_NAME,
    MOST_CHANGES,
    MOST_CHANNELS,
    Recording,
    recording,
)

_BITS: Final = {"0": 0, "1": 1, "x": X, "X": X, "z": X, "Z": X, "": X, "L": 0, "H": 1}
_TIME: Final = re.compile(r"\s*(time|timestamp|t)\b.*", re.IGNORECASE)
_NUMBER: Final = re.compile(r"[+-]?[0-9]{1,15}(\.[0-9]{0,15})?([eE][+-]?[0-9]{1,2})?")
_SHARES: Final = 10**12
"""Units of time in one of the table's own, so that seconds keep picoseconds."""
_MARKS: Final = ",;\t"


def read(text: str, path: Path) -> Recording:
    r"""Read a table; the first line names the channels.

    A first column named time, or of three numbers or more that grow, is the time.

    Raises
    ------
    TextError
        What is no such table, with the line.

    Examples
    --------
    >>> found = read("Time [s],D0\n0,0\n1e-3,1\n", Path("tide.csv"))
    >>> found.sampled, found.channels[0].bits
    (False, (0, 1))
    >>> read("D0,D1\n0,1\n1,1\n", Path("tide.csv")).sampled
    True
    """
    lines = {
        number: line
        for number, line in enumerate(text.splitlines(), 1)
        if line.strip() and not line.startswith((";", "#"))
    }
    if len(lines) < 2:
        raise TextError(Message("recording-without-sample"), Place(str(path), 1))
    (_, head), *rows = _cells(lines, path)
    names = [name.strip()[:LONGEST_NAME] for name in head]
    timed = bool(_TIME.fullmatch(names[0])) or _grows([row[0] for _, row in rows if row])
    channels = names[timed:]
    _check(channels, len(rows) + 1, path)
    changes: dict[str, list[tuple[int, Bit]]] = {name: [] for name in channels}
    last = -1
    for sample, (number, row) in enumerate(rows):
        time = _time(row[0], path, number) if timed else sample
        if time < last:
            raise TextError(Message("recording-time-back"), Place(str(path), number))
        last = time
        cells = row[timed:]
        if len(cells) != len(channels):
            raise TextError(
                Message("recording-samples", count=len(cells), expected=len(channels)),
                Place(str(path), number),
            )
        for name, cell in zip(channels, cells, strict=True):
            changes[name].append((time, _bit(cell, path, number)))
    return recording(changes, last, names[0] if timed else "", sampled=not timed)


def _cells(lines: Mapping[int, str], path: Path) -> list[tuple[int, list[str]]]:
    """The cells of each line, with its number in the file; the first one tells the mark between."""
    numbers, texts = [*lines], [*lines.values()]
    mark = max(_MARKS, key=texts[0].count)
    reader = csv.reader(io.StringIO("\n".join(texts)), delimiter=mark)
    try:
        return [(numbers[reader.line_num - 1], row) for row in reader]
    except csv.Error as wrong:
        place = Place(str(path), numbers[reader.line_num - 1])
        raise TextError(Message("recording-no-table", why=str(wrong)), place) from None


def _check(channels: Sequence[str], rows: int, path: Path) -> None:
    place = Place(str(path), 1)
    if not channels or len(set(channels)) < len(channels) or not all(channels):
        raise TextError(Message("recording-names"), place)
    if len(channels) > MOST_CHANNELS:
        raise TextError(
            Message("recording-channels-many", count=len(channels), most=MOST_CHANNELS), place
        )
    if rows * len(channels) > MOST_CHANGES:
        raise TextError(Message("recording-samples-many", most=MOST_CHANGES), place)


def _grows(cells: Sequence[str]) -> bool:
    """Whether a column counts time: three numbers or more that grow from line to line."""
    if not all(_NUMBER.fullmatch(cell.strip()) for cell in cells):
        return False
    numbers = [float(cell) for cell in cells]
    grows = all(one < other for one, other in pairwise(numbers))
    return grows and len(numbers) > 2


def _time(cell: str, path: Path, line: int) -> int:
    if not _NUMBER.fullmatch(cell.strip()):
        raise TextError(Message("recording-time", found=repr(cell[:40])), Place(str(path), line))
    return round(float(cell) * _SHARES)


def _bit(cell: str, path: Path, line: int) -> Bit:
    bit = _BITS.get(cell.strip())
    if bit is None:
        raise TextError(Message("recording-bit", found=repr(cell[:40])), Place(str(path), line))
    return bit
