"""Formats: what a lesson can be published as, each in a file of its own.

A file here is called after its format, and has it under `FORMAT`; that is all there is to adding
one. What another package brings stands beside them.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass, replace
from importlib import import_module
from pathlib import Path
from typing import Final

from edgewise import lesson
from edgewise.errors import EdgewiseError, Message, Place, nearest
from edgewise.guests import Group, Guest, modules
from edgewise.lesson import Report
from edgewise.lesson.picking import Note
from edgewise.publish import output

_SUFFIX: Final = re.compile(r"\.[a-z0-9]{1,12}")


@dataclass(frozen=True, slots=True)
class Format:
    """A way to publish a lesson.

    Parameters
    ----------
    name : str
    suffix : str
        Of the file: ``.html``.
    about : str
        One line for people.
    make : function
        The whole file, text or bytes, of a lesson that was checked.

    Examples
    --------
    >>> find("page").suffix
    '.html'
    """

    name: str
    suffix: str
    about: str
    make: Callable[[Report], str | bytes]


def _guarded(guest: Guest, one: Format) -> Format:
    if not _SUFFIX.fullmatch(one.suffix):
        raise guest.error("guest-suffix", found=repr(one.suffix))
    return replace(one, make=guest.guarded(one.make, str, bytes))


GUESTS: Final = Group(
    "edgewise.publishers", "publisher", Format, lambda: modules(__name__), _guarded
)
"""Formats that other packages bring."""


def names() -> tuple[str, ...]:
    """The name of every format.

    Examples
    --------
    >>> names()
    ('handout', 'page', 'slides')
    """
    return (*modules(__name__), *GUESTS.names())


def find(name: str) -> Format:
    """The format of this name.

    Raises
    ------
    EdgewiseError
        If there is none; the nearest name is suggested.
    GuestError
        Another package brings it, but it can't be used.
    """
    if name in modules(__name__):
        own: Format = import_module(f"{__name__}.{name}").FORMAT
        return own
    found = GUESTS.find(name)
    if found is None:
        raise EdgewiseError(Message("format-unknown", name=name, suggestion=nearest(name, names())))
    return found


def build(path: Path, out: Path, name: str, tell: Callable[[Note], None] | None = None) -> Path:
    """Check a lesson and write it in a format.

    Parameters
    ----------
    path : Path
        The lesson.
    out : Path
        Folder for the file; made if need be.
    name : str
        One of `names`.
    tell : function, optional
        Is given each note on the lesson's example.

    Returns
    -------
    Path
        The file, named after the lesson.

    Raises
    ------
    EdgewiseError or Problems
        There is no such format, or everything that is wrong with the lesson; nothing is written
        then.
    """
    chosen = find(name)
    file = out / f"{path.stem}{chosen.suffix}"
    if file.resolve() == path.resolve():
        raise EdgewiseError(Message("overwrites-lesson"), Place(str(file)))
    report = lesson.check(path)
    written = output.write(file, chosen.make(report))
    if tell is not None:
        for note in report.notes:
            tell(note)
    return written
