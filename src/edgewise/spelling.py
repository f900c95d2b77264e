"""Spelling: which of the names that there are is close to one that nobody knows."""

from __future__ import annotations

import difflib
from collections.abc import Iterable
from typing import Final

_MOST_COMPARED: Final = 500
"""Names that are compared letter by letter with one that is not known, at most."""
_LONGEST_COMPARED: Final = 60
"""Characters in such a name, at most."""


def close(name: str, known: Iterable[str]) -> str | None:
    """The closest known name, if one is close.

    Examples
    --------
    >>> close("Carry-ot", ["sum", "carry-out"]), close("zzz", ["sum", "carry-out"])
    ('carry-out', None)
    """
    if len(name) > _LONGEST_COMPARED:
        return None
    likely = _likely(name, sorted(set(known)))
    found = difflib.get_close_matches(name, likely, n=1, cutoff=0.6)
    if not found:
        lowered = {n.lower(): n for n in likely}
        found = [lowered[m] for m in difflib.get_close_matches(name.lower(), lowered, n=1)]
    return found[0] if found else None


def _likely(name: str, names: list[str]) -> list[str]:
    """Those of many names that are worth being compared letter by letter.

    A ratio of 0.6 needs lengths that differ by no more than a factor of 7/3.
    """
    size = len(name)
    fitting = [n for n in names if 3 * size <= 7 * len(n) and 3 * len(n) <= 7 * size]
    if len(fitting) <= _MOST_COMPARED:
        return fitting
    lowered = name.lower()
    first = lowered[:1]
    begun = [n for n in fitting if n[:1].lower() == first]
    exact = [n for n in begun if n.lower() == lowered]
    near = sorted(begun, key=lambda n: (abs(len(n) - size), n))
    return [*exact, *near[:_MOST_COMPARED]]
