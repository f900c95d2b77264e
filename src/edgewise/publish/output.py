"""What a publisher writes: whole, or not at all."""

from __future__ import annotations

from pathlib import Path

from edgewise import files
from edgewise.errors import EdgewiseError, Place


def write(path: Path, text: str | bytes) -> Path:
    """Write a file; its folder is made if need be.

    Raises
    ------
    EdgewiseError
        If it can't be written.
    """
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        files.write(path, text.encode() if isinstance(text, str) else text)
    except OSError as wrong:
        raise EdgewiseError(f"can't be written: {wrong.strerror}", Place(str(path))) from None
    return path
