"""The user's cache folder: results that are slow to make and safe to lose.

An entry is a file of plain data, named by a digest of what it was made from and sealed by a
digest of that and of its content. Whatever is wrong with one (cut short, edited, moved under
another name, a link, somebody else's) means that there is no entry. It is written beside and
then renamed, so that two processes may keep the same entry at once; whatever goes wrong (no
folder, no room, no right to write) only costs the time to make the result again.
"""

from __future__ import annotations

import contextlib
import hashlib
import os
import stat
import time
from collections.abc import Iterator
from pathlib import Path
from typing import Final

from edgewise.errors import Message

VARIABLE: Final = "EDGEWISE_CACHE"
"""The environment variable that names another cache folder, by its whole path."""
LARGEST: Final = 8_000_000
"""Bytes in one entry, at most."""

_MARK: Final = b"edgewise cache 1\n"
_SEAL: Final = hashlib.sha256().digest_size
_FOLDER: Final = os.O_RDONLY | os.O_DIRECTORY | os.O_NOFOLLOW | os.O_CLOEXEC
# Without O_NONBLOCK a named pipe in the place of an entry would wait for a writer.
_READ: Final = os.O_RDONLY | os.O_NOFOLLOW | os.O_CLOEXEC | os.O_NONBLOCK
_WRITE: Final = os.O_WRONLY | os.O_CREAT | os.O_EXCL | os.O_NOFOLLOW | os.O_CLOEXEC
_BESIDE: Final = ".new-"
_ABANDONED: Final = 3600
"""Seconds after which a half-written file belongs to nobody."""


def folder() -> Path | None:
    """The cache folder: `VARIABLE` if it is set, else the user's own by platform custom.

    None where `VARIABLE` is a relative path: such a folder could be anybody's, for example one
    that came along with a lesson.
    """
    chosen = os.environ.get(VARIABLE)
    if chosen:
        return Path(chosen) if Path(chosen).is_absolute() else None
    import platformdirs

    return Path(platformdirs.user_cache_dir("edgewise", appauthor=False))


def caution() -> str:
    """A line to be said of `VARIABLE`; empty where nothing is.

    Examples
    --------
    >>> caution()
    ''
    """
    if folder() is not None:
        return ""
    found = repr(os.environ[VARIABLE])
    return f"{Message('cache-relative', variable=VARIABLE, found=found)}\n"


def recall(room: str, made_from: str) -> bytes | None:
    """The entry made from this, or nothing.

    Parameters
    ----------
    room : str
        Folder inside the cache: one for each kind of result.
    made_from : str
        All that the result depends on, versions included.
    """
    key = _key(room, made_from)
    with contextlib.suppress(OSError), _room(room) as inside:
        # Opened once; all that is asked of it is asked of the open file.
        handle = os.open(_name(key), _READ, dir_fd=inside)
        with os.fdopen(handle, "rb") as file:
            if not _ours(os.fstat(handle)):
                return None
            content = _unsealed(key, file.read(LARGEST + 1))
            if content is not None:
                with contextlib.suppress(OSError):  # a disk that can only be read
                    os.utime(handle)  # used just now: pruned last
            return content
    return None


def keep(room: str, made_from: str, result: bytes, most: int = 500) -> None:
    """Keep an entry; well beyond `most` entries the least recently used go. Never raises."""
    key = _key(room, made_from)
    sealed = _MARK + _digest(key, result) + result
    if len(sealed) > LARGEST:
        return
    with contextlib.suppress(OSError), _room(room, make=True) as inside:
        beside = f"{_BESIDE}{os.getpid()}-{os.urandom(8).hex()}"
        handle = os.open(beside, _WRITE, 0o600, dir_fd=inside)
        try:
            with os.fdopen(handle, "wb") as file:
                file.write(sealed)
            os.replace(beside, _name(key), src_dir_fd=inside, dst_dir_fd=inside)
        except BaseException:  # an interrupt leaves nothing behind, either
            os.unlink(beside, dir_fd=inside)
            raise
        # One new entry in 32 looks at the whole room; which one, its name decides.
        if int(_name(key)[:2], 16) < 8:
            _prune(inside, most)


def _key(room: str, made_from: str) -> bytes:
    return f"{room}\n{made_from}".encode(errors="surrogatepass")


def _name(key: bytes) -> str:
    return hashlib.sha256(key).hexdigest()[:40]


def _digest(key: bytes, content: bytes) -> bytes:
    # The length keeps the end of a key from being taken for the beginning of a content.
    return hashlib.sha256(b"%d\n" % len(key) + key + content).digest()


def _unsealed(key: bytes, sealed: bytes) -> bytes | None:
    """The content of an entry, if it is whole and was made from this key."""
    head, content = sealed[: len(_MARK) + _SEAL], sealed[len(_MARK) + _SEAL :]
    return content if head == _MARK + _digest(key, content) else None


def _ours(found: os.stat_result) -> bool:
    """Whether an open file is one that this user wrote under one name only."""
    return (
        stat.S_ISREG(found.st_mode)
        and found.st_uid == os.getuid()
        and found.st_nlink == 1
        and not found.st_mode & (stat.S_IWGRP | stat.S_IWOTH)
        and found.st_size <= LARGEST
    )


@contextlib.contextmanager
def _room(room: str, *, make: bool = False) -> Iterator[int]:
    """The open folder of a room; raises `OSError` unless it is this user's own."""
    base = folder()
    if base is None:
        raise NotADirectoryError
    if make:
        base.mkdir(mode=0o700, parents=True, exist_ok=True)
    with _open_folder(str(base)) as above:
        if make:
            with contextlib.suppress(FileExistsError):
                os.mkdir(room, 0o700, dir_fd=above)
        with _open_folder(room, above) as inside:
            if os.fstat(inside).st_mode & 0o077:
                os.fchmod(inside, 0o700)
            yield inside


@contextlib.contextmanager
def _open_folder(path: str, above: int | None = None) -> Iterator[int]:
    handle = os.open(path, _FOLDER, dir_fd=above)
    try:
        if os.fstat(handle).st_uid != os.getuid():
            raise PermissionError
        yield handle
    finally:
        os.close(handle)


def _prune(inside: int, most: int) -> None:
    """Remove what was left half-written and, of too many entries, down to three in four."""
    now = time.time()
    aged: list[tuple[float, str]] = []
    for name in os.listdir(inside):
        with contextlib.suppress(OSError):  # another process may prune as well
            used = os.stat(name, dir_fd=inside, follow_symlinks=False).st_mtime
            if not name.startswith(_BESIDE):
                aged.append((used, name))
            elif now - used > _ABANDONED:
                os.unlink(name, dir_fd=inside)
    if len(aged) > most:
        aged.sort()
        for _, name in aged[: len(aged) - most * 3 // 4]:
            with contextlib.suppress(OSError):
                os.unlink(name, dir_fd=inside)
