"""Pictures that a lesson shows: files beside it, taken into the page."""

from __future__ import annotations

import base64
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING, Final
from urllib.parse import unquote

from edgewise.errors import Message, Place, TextError, nearest
from edgewise.lesson.picture_formats import flaw

if TYPE_CHECKING:
    from markdown_it.token import Token

KINDS: Final = {
    ".gif": "image/gif",
    ".jpeg": "image/jpeg",
    ".jpg": "image/jpeg",
    ".png": "image/png",
    ".svg": "image/svg+xml",
    ".webp": "image/webp",
}
"""Media types, by the file's suffix."""
LARGEST: Final = 1_000_000
"""Bytes in one picture, at most."""


def named(tokens: tuple[Token, ...], lines: list[str], file: str) -> Iterator[tuple[Token, Place]]:
    """Each picture of a lesson, with its place."""
    for token in tokens:
        first, last = token.map or (0, 0)
        line, column = first, 0
        for child in token.children or ():
            if child.type != "image":
                continue
            while line < last and (at := lines[line].find("![", column)) < 0:
                line, column = line + 1, 0
            if line < last:
                yield child, Place(file, line + 1, at + 1)
                column = at + 2
            else:
                yield child, Place(file, first + 1)


def embedded(token: Token, folder: Path, place: Place) -> str:
    """The picture as a data URL; a page makes no request.

    Raises
    ------
    TextError
        Not a file beside the lesson, of another kind, too large, damaged, or without description.
    """
    name = unquote(str(token.attrs.get("src", "")))
    shown = name[:80]
    if not token.content.strip():
        raise TextError(Message("picture-undescribed", name=shown), place)
    if not name or Path(name).name != name:
        raise TextError(Message("picture-elsewhere", name=shown), place)
    kind = KINDS.get(Path(name).suffix.lower())
    if kind is None:
        raise TextError(Message("picture-expected", name=shown, kinds=", ".join(KINDS)), place)
    content = _read(folder, name, place)
    wrong = flaw(Path(name).suffix.lower(), content)
    if wrong:
        raise TextError(Message("picture-damaged", name=shown, why=wrong), place)
    return f"data:{kind};base64,{base64.b64encode(content).decode()}"


def _read(folder: Path, name: str, place: Place) -> bytes:
    path = folder / name
    try:
        if path.is_symlink() or not path.is_file():
            there = [p.name for p in folder.iterdir() if p.suffix.lower() in KINDS]
            raise TextError(
                Message("picture-unknown", name=name[:80], suggestion=nearest(name, there)), place
            )
        size = path.stat().st_size
        if size > LARGEST:
            raise TextError(
                Message("picture-large", name=name[:80], count=size, most=LARGEST), place
            )
        return path.read_bytes()
    except OSError as wrong:
        raise TextError(
            Message("picture-unreadable", name=name[:80], why=wrong.strerror or str(wrong)), place
        ) from None
