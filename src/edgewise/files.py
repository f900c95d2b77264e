"""Files written whole: beside the place they go to, then moved there.

Whatever happens while one is written (a full disk, a kill), a reader finds the old file or the
new one, never half of either. What a kill leaves beside is named ``.NAME-….new`` and goes when
a file of that name is written next: its writer holds a lock, which ends with the process.
"""

from __future__ import annotations

import contextlib
import errno
import fcntl
import os
import tempfile
from collections.abc import Collection, Iterator
from pathlib import Path
from typing import Final

from edgewise.errors import EdgewiseError, Fact, Message

SUFFIXES: Final = frozenset(
    {".csv", ".eps", ".gif", ".htm", ".html", ".jpeg", ".jpg", ".json", ".md", ".mp4"}
    | {".ods", ".pdf", ".png", ".svg", ".txt", ".typ", ".xlsx", ".yaml", ".yml"}
)
"""Of files that are read or made, here or elsewhere; nobody gives them to a folder."""
_SUFFIX: Final = ".new"
_NO_LINKS: Final = (errno.EPERM, errno.ENOTSUP, errno.EMLINK, errno.ENOSYS, errno.EINVAL)
"""What a file system without hard links says when it is asked for one."""


def check_suffix(path: Path, suffixes: Collection[str], what: Fact) -> None:
    """See that a file can have this name; `what` is written as what.

    Raises
    ------
    EdgewiseError
        It ends otherwise.

    Examples
    --------
    >>> check_suffix(Path("tide.gif"), (".svg",), "a figure is an .svg")
    Traceback (most recent call last):
    edgewise.errors.EdgewiseError: can't write tide.gif: its name ends in .gif; a figure is an .svg
    """
    if path.suffix.lower() not in suffixes:
        raise EdgewiseError(
            Message(
                "written-otherwise",
                path=str(path),
                found="suffix" if path.suffix else "none",
                suffix=path.suffix,
                expected=what,
            )
        )


def save(path: Path, content: bytes) -> None:
    """Write a file that somebody has named, in the place of the one that is there.

    Raises
    ------
    EdgewiseError
        It can't be written; what was there before is untouched.
    """
    try:
        write(path, content)
    except OSError as wrong:
        reason = (wrong.strerror or str(wrong)).lower()
        raise EdgewiseError(Message("unwritten", path=str(path), why=reason)) from None


def write(path: Path, content: bytes) -> None:
    """Write a file, in the place of the one that is there.

    Raises
    ------
    OSError
        It can't be written; what was there before is untouched.

    Examples
    --------
    >>> folder = Path(tempfile.mkdtemp())
    >>> write(folder / "tide.txt", b"3.1 m")
    >>> [(file.name, file.read_bytes()) for file in folder.iterdir()]
    [('tide.txt', b'3.1 m')]
    """
    _put(path, content, anew=False)


def create(path: Path, content: bytes) -> None:
    """Write a file that must not be there yet, not even in the same moment.

    Raises
    ------
    FileExistsError
        There is a file of this name.
    OSError
        It can't be written; nothing is left under its name.
    """
    if os.path.lexists(path):
        raise FileExistsError(errno.EEXIST, os.strerror(errno.EEXIST), str(path))
    _put(path, content, anew=True)


@contextlib.contextmanager
def replacing(path: Path) -> Iterator[Path]:
    """A file beside, for a writer that wants a name; in the end it takes the place of `path`.

    If anything is raised meanwhile, or the process is told to end, what was there before stays.

    Raises
    ------
    OSError
        It can't be written.

    Examples
    --------
    >>> folder = Path(tempfile.mkdtemp())
    >>> with replacing(folder / "tide.bin") as beside:
    ...     _ = beside.write_bytes(b"3.1 m")
    >>> [(file.name, file.read_bytes()) for file in folder.iterdir()]
    [('tide.bin', b'3.1 m')]
    """
    _sweep(path)
    handle, beside = _locked(path)
    try:
        yield beside
        os.fsync(handle)
        beside.chmod(0o666 & ~_mask())
        beside.replace(path)
    finally:
        os.close(handle)
        with contextlib.suppress(OSError):
            beside.unlink()


def _put(path: Path, content: bytes, *, anew: bool) -> None:
    _sweep(path)
    handle, beside = _locked(path)
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(content)
            file.flush()
            os.fsync(file.fileno())
            beside.chmod(0o666 & ~_mask())
            if anew:
                _link(beside, path, content)
            else:
                beside.replace(path)
    finally:
        with contextlib.suppress(OSError):
            beside.unlink()


def _link(beside: Path, path: Path, content: bytes) -> None:
    """Give the file its name, unless that is taken."""
    try:
        os.link(beside, path)
    except OSError as wrong:
        if wrong.errno not in _NO_LINKS:
            raise
        handle = os.open(path, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o666)
        try:
            with os.fdopen(handle, "wb") as file:
                file.write(content)
        except BaseException:
            path.unlink(missing_ok=True)
            raise


def _prefix(path: Path) -> str:
    # Room for the random letters, also where the name is as long as a name can be.
    name = os.fsencode(path.name)[:200]
    return f".{os.fsdecode(name)}-"


def _locked(path: Path) -> tuple[int, Path]:
    """A file beside, open and locked by this process."""
    while True:
        handle, name = tempfile.mkstemp(dir=path.parent, prefix=_prefix(path), suffix=_SUFFIX)
        with contextlib.suppress(OSError):  # a file system without locks
            fcntl.flock(handle, fcntl.LOCK_EX)
        if os.fstat(handle).st_nlink:
            return handle, Path(name)
        os.close(handle)  # swept between its creation and its lock


def _sweep(path: Path) -> None:
    """Remove what writers of this file have left that are no more."""
    prefix = _prefix(path)
    with contextlib.suppress(OSError):
        for entry in path.parent.iterdir():
            if entry.name.startswith(prefix) and entry.suffix == _SUFFIX:
                _remove_if_left(entry)


def _remove_if_left(entry: Path) -> None:
    with contextlib.suppress(OSError):
        handle = os.open(entry, os.O_RDWR | os.O_NOFOLLOW)
        try:
            fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
            entry.unlink()
        finally:
            os.close(handle)


def _mask() -> int:
    """The user's file mode mask, which can only be read by setting it."""
    mask = os.umask(0o022)
    os.umask(mask)
    return mask
