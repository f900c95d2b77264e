"""What a publisher writes: whole, or not at all."""

from __future__ import annotations

import io
import zipfile
from collections.abc import Iterable
from pathlib import Path

from edgewise import files
from edgewise.errors import EdgewiseError, Message, Place


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
        raise EdgewiseError(
            Message("unwritable", why=wrong.strerror or str(wrong)), Place(str(path))
        ) from None
    return path


def zipped(parts: Iterable[tuple[str, bytes]]) -> bytes:
    """A package of parts, each with its name; the same parts give the same bytes.

    Examples
    --------
    >>> zipped([("tide", b"high")]) == zipped([("tide", b"high")])
    True
    """
    file = io.BytesIO()
    with zipfile.ZipFile(file, "w") as package:
        for name, content in parts:
            about = zipfile.ZipInfo(name)  # of the first day that there is in a zip
            packed = name.endswith(".png")  # is compressed as it is
            about.compress_type = zipfile.ZIP_STORED if packed else zipfile.ZIP_DEFLATED
            package.writestr(about, content)
    return file.getvalue()
