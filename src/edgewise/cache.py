"""The user's cache folder: results that are slow to make and safe to lose.

An entry is a file named by a digest of what it was made from. It is written beside and
then renamed, so that two processes may keep the same entry at once; whatever goes wrong
(no folder, no room, no right to write) only costs the time to make the result again.
"""

from __future__ import annotations

import contextlib
import hashlib
import os
from pathlib import Path
from typing import Final

VARIABLE: Final = "EDGEWISE_CACHE"
"""The environment variable that names another cache folder."""


def folder() -> Path:
    """The cache folder: `VARIABLE` if it is set, else the user's own by platform custom."""
    chosen = os.environ.get(VARIABLE)
    if chosen:
        return Path(chosen)
    import platformdirs

    return Path(platformdirs.user_cache_dir("edgewise", appauthor=False))


def _entry(room: str, made_from: str) -> Path:
    digest = hashlib.sha256(made_from.encode()).hexdigest()
    return folder() / room / digest[:40]


def recall(room: str, made_from: str) -> bytes | None:
    """The entry made from this, or nothing.

    Parameters
    ----------
    room : str
        Folder inside the cache: one for each kind of result.
    made_from : str
        All that the result depends on, versions included.
    """
    entry = _entry(room, made_from)
    try:
        # Some entries are unpickled, so one that somebody else put there is left alone.
        return entry.read_bytes() if entry.stat().st_uid == os.getuid() else None
    except OSError:
        return None


def keep(room: str, made_from: str, result: bytes, most: int = 500) -> None:
    """Keep an entry; beyond `most` entries the oldest of the room go. Never raises."""
    import tempfile  # 8 ms to import, and only a new result needs it

    entry = _entry(room, made_from)
    with contextlib.suppress(OSError):
        entry.parent.mkdir(parents=True, exist_ok=True)
        handle, beside = tempfile.mkstemp(dir=entry.parent, prefix=".new-")
        try:
            with os.fdopen(handle, "wb") as file:
                file.write(result)
            Path(beside).replace(entry)
        except OSError:
            Path(beside).unlink(missing_ok=True)
            raise
        _prune(entry.parent, most)


def _prune(room: Path, most: int) -> None:
    entries = list(room.iterdir())
    if len(entries) > most:
        entries.sort(key=lambda e: e.stat().st_mtime)
        for old in entries[: len(entries) - most]:
            old.unlink(missing_ok=True)
