"""The fenced blocks of a lesson: those of ours, those that were meant to be, those without end."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING, Final

from edgewise.errors import EdgewiseError, Message, Place, TextError
from edgewise.lesson import mark

if TYPE_CHECKING:
    from markdown_it.token import Token

SHORTEST: Final = 5
"""Letters from which a block's name is recognised though one letter is another or is missing."""
MEANT: Final = {
    "block-diagram": "diagram",
    "chart": "compare",
    "comparison": "compare",
    "drawing": "diagram",
    "edges": "edge-table",
    "figure": "diagram",
    "note": "say",
    "notes": "say",
    "proof": "prove",
    "proofs": "prove",
    "schematic": "diagram",
    "states": "state-diagram",
    "strip": "filmstrip",
    "table": "edge-table",
    "timing-diagram": "timing",
    "waveform": "timing",
    "waveforms": "timing",
}
"""Words that mean a block which has another name."""
_DECORATION: Final = re.compile(r"[^a-z0-9-]+")


def name_in(info: str) -> str:
    """The first word behind a fence.

    Examples
    --------
    >>> name_in("claim for all"), name_in("")
    ('claim', '')
    """
    return (info.split() or [""])[0]


def meant(info: str, kinds: Sequence[str]) -> str | None:
    """The block that was meant by a fence of another name; nothing where it is plain code.

    Examples
    --------
    >>> kinds = ("claim", "law", "say", "prove", "edge-table")
    >>> [meant(w, kinds) for w in ("{claim}", "laws", "sya", "proof", "edge table", "python")]
    ['claim', 'law', 'say', 'prove', 'edge-table', None]
    """
    words = [_plain(word) for word in info.split()[:2]]
    for word in ("-".join(words), *words[:1]):
        if word in kinds:
            return word
        near = next((kind for kind in kinds if one_slip_apart(word, kind)), None)
        near = near or MEANT.get(word)
        if near in kinds:
            return near
    return None


def _plain(word: str) -> str:
    """A word without what other dialects put around it: braces, dots, colons, case."""
    visible = "".join(c for c in unicodedata.normalize("NFKC", word) if c.isprintable())
    return _DECORATION.sub("", visible.lower().replace("_", "-")).strip("-")


def one_slip_apart(word: str, kind: str) -> bool:
    """Whether one letter left out, added, changed, or swapped with the next makes the other.

    In a short name only a letter added or swapped counts: ``sas`` is not ``say``.

    Examples
    --------
    >>> [one_slip_apart(w, "claim") for w in ("clam", "claims", "clain", "cliam", "clip")]
    [True, True, True, True, False]
    >>> [one_slip_apart(w, "say") for w in ("sya", "says", "sas", "sa")]
    [True, True, False, False]
    """
    if word == kind:
        return True
    if abs(len(word) - len(kind)) > 1:
        return False
    same = 0
    while same < min(len(word), len(kind)) and word[same] == kind[same]:
        same += 1
    w, k = word[same:], kind[same:]
    swapped = w[:2] == k[1::-1] and w[2:] == k[2:]
    if w[1:] == k or swapped:
        return True
    return len(kind) >= SHORTEST and (w[1:] == k[1:] or w == k[1:])


def is_open(token: Token, lines: Sequence[str], kinds: Sequence[str]) -> Message | None:
    """What is to be said of a fenced block that has no end; nothing for one that has."""
    first, end = token.map or (0, 0)
    if end > len(lines) or end - first < 2 or not _closes(lines[end - 1], token.markup):
        return Message("block-open", first=first + 1, markup=token.markup)
    for number, line in enumerate(token.content.split("\n"), first + 2):
        info = line.strip()
        if info.startswith(token.markup) and name_in(info.lstrip("`~")) in kinds:
            return Message("block-open-before", first=first + 1, markup=token.markup, next=number)
    return None


def _closes(line: str, markup: str) -> bool:
    marks = line.lstrip(" \t>").rstrip()
    return marks.startswith(markup) and not marks.strip(markup[0])


def hidden(
    token: Token, lines: Sequence[str], file: str, kinds: Sequence[str]
) -> Iterator[EdgewiseError]:
    """What an indented code block hides: four blanks make text of values and blocks of ours."""
    first = (token.map or (0, 0))[0]
    for number, line in enumerate(token.content.split("\n")):
        ticks = line.lstrip()
        place_line = first + number
        if ticks.startswith(("```", "~~~")) and name_in(ticks.lstrip("`~")) in kinds:
            kind = name_in(ticks.lstrip("`~"))
            told, at = Message("block-indented", kind=kind), len(line) - len(ticks)
        elif value := mark.WRITTEN.search(line):
            told, at = Message("value-indented"), value.start()
        else:
            continue
        source = lines[place_line] if place_line < len(lines) else ""
        column = max(source.find(line), 0) + at + 1
        yield TextError(told, Place(file, place_line + 1, column))
