"""Lists in a sentence."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from edgewise.words.messages import ENGLISH, Words


def listed(names: Sequence[str], words: Words = ENGLISH, most: int = 0) -> str:
    """Names in a sentence; beyond `most`, if that is given, they are counted.

    Examples
    --------
    >>> from edgewise.words import messages
    >>> listed(["A", "B", "C"]), listed(["A", "B", "C"], messages.of("de"), 2)
    ('A, B and C', 'A, B und 1 weitere')
    """
    shown = list(names)
    if most and len(shown) > most:
        shown[most:] = [words("list-more", count=len(names) - most)]
    *first, last = shown or [""]
    return words("list-and", first=", ".join(first), last=last) if first else last


def enumerated(pieces: Sequence[str], words: Words = ENGLISH, most: int = 0) -> str:
    """Pieces that are too long for `listed`, with commas between; beyond `most`, counted.

    Examples
    --------
    >>> enumerated(["A (1)", "B (2)", "C (3)"], most=2)
    'A (1), B (2) and 1 more'
    """
    if not most or len(pieces) <= most:
        return ", ".join(pieces)
    return listed(pieces, words, most)


def equations(numbers: Iterable[tuple[str, object]], between: str = " = ") -> str:
    """Names and their numbers: ``n = 4, a = 3``."""
    return ", ".join(f"{name}{between}{value}" for name, value in numbers)
