"""Lines of a description: comments, lists, what stands further in."""

from __future__ import annotations

import textwrap
import unicodedata
from collections.abc import Iterable, Iterator, Sequence
from typing import Final

WIDTH: Final = 96
"""Columns of a comment."""
LONGEST: Final = 80
"""Columns of a choice on one line."""


def comment(mark: str, lines: Iterable[str]) -> Iterator[str]:
    r"""Text as comments, in ASCII, since VHDL's own set of characters is not Unicode.

    Examples
    --------
    >>> list(comment("--", ["Zähler, 2 µs\nassert false"]))
    ['-- Zahler, 2 us assert false']
    """
    for line in lines:
        for piece in textwrap.wrap(ascii_text(line), WIDTH - len(mark)):
            yield f"{mark} {piece}"


def ascii_text(text: str) -> str:
    """Text without accents and line ends; what has no counterpart is a question mark."""
    plain = unicodedata.normalize("NFKD", " ".join(text.split()).replace("µ", "u"))
    bare = "".join(letter for letter in plain if not unicodedata.combining(letter))
    ascii_only = bare.encode("ascii", "replace").decode("ascii")
    return "".join(letter if letter.isprintable() else " " for letter in ascii_only)


def indented(lines: Iterable[str]) -> Iterator[str]:
    """Lines, two columns further in."""
    return (f"  {line}" if line else "" for line in lines)


def listed(items: Sequence[str], notes: Sequence[str] = (), comma: str = ",") -> Iterator[str]:
    """Items one a line with commas between, and notes behind them."""
    for place, item in enumerate(items):
        end = comma if place < len(items) - 1 else ""
        note = f"  {notes[place]}" if notes and notes[place] else ""
        yield f"  {item}{end}{note}"


def apart(groups: Iterable[Sequence[str]]) -> Iterator[str]:
    """Groups of lines: those of one line together, the others with an empty line around.

    Examples
    --------
    >>> list(apart([["x"], ["y"], ["a", "b"]]))
    ['', 'x', 'y', '', 'a', 'b']
    """
    before = 2
    for lines in groups:
        if lines and max(before, len(lines)) > 1:
            yield ""
        yield from lines
        before = len(lines) or before


def ended(lines: Sequence[str], end: str) -> list[str]:
    """Lines, the last one with something behind it.

    Examples
    --------
    >>> ended(["a", "b"], ";")
    ['a', 'b;']
    """
    return [*lines[:-1], lines[-1] + end]
