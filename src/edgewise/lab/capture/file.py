"""A recording's file: which kind it is, and that it is not too large."""

from __future__ import annotations

from pathlib import Path
from typing import Final

from edgewise.errors import EdgewiseError, Message, Place
from edgewise.lab.capture import table, value_change_dump
from edgewise.lab.capture.recording import MOST_BYTES, Recording

SUFFIXES: Final = (".vcd", ".csv")


def read(path: Path) -> Recording:
    """Read a recording.

    Raises
    ------
    EdgewiseError
        It can't be read, is too large, or is not what its name says.
    """
    place = Place(str(path))
    if path.suffix.lower() not in SUFFIXES:
        raise EdgewiseError(Message("recording-suffix"), place)
    try:
        with path.open("rb") as file:
            content = file.read(MOST_BYTES + 1)
    except OSError as wrong:
        raise EdgewiseError(
            Message("unreadable-here", why=wrong.strerror or str(wrong)), place
        ) from None
    if len(content) > MOST_BYTES:
        raise EdgewiseError(Message("recording-large", most=MOST_BYTES // 1_000_000), place)
    text = content.decode("utf-8-sig", "replace").replace("\0", "\ufffd")
    if path.suffix.lower() == ".vcd":
        return value_change_dump.read(text, path)
    return table.read(text, path)
