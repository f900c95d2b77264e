"""Captions: what is said, cut into lines that can be read, and the WebVTT that they are written as.

The format is that of W3C WebVTT (Candidate Recommendation of 4 April 2019, section 4). At most two
lines of at most 42 characters stand at once, and no more than 20 characters a second where the
film has the time; common practice of captioning, no source.
"""

from __future__ import annotations

import textwrap
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import ceil
from typing import Final

LINE: Final = 42
LINES: Final = 2
_STOPS: Final = {";": 0.6, ":": 0.5, ",": 0.4}
"""Where a long sentence is parted rather than in its middle: how far from there, in halves."""


@dataclass(frozen=True, slots=True)
class Cue:
    """Lines of text from one moment to another, milliseconds.

    Examples
    --------
    >>> print(Cue(61_500, 63_000, ("A & B",)))
    00:01:01.500 --> 00:01:03.000
    A &amp; B
    """

    start: int
    end: int
    lines: tuple[str, ...]

    def __str__(self) -> str:
        text = "\n".join(map(escaped, self.lines))
        return f"{clock(self.start)} --> {clock(self.end)}\n{text}"

    @property
    def speed(self) -> float:
        """Characters a second."""
        return sum(map(len, self.lines)) * 1000 / max(self.end - self.start, 1)


def vtt(cues: Iterable[Cue]) -> str:
    r"""A WebVTT file.

    Examples
    --------
    >>> vtt([Cue(0, 900, ("Look at C.",))])
    'WEBVTT\n\n00:00:00.000 --> 00:00:00.900\nLook at C.\n'
    """
    return "\n\n".join(["WEBVTT", *map(str, cues)]) + "\n"


def clock(milliseconds: int) -> str:
    """A time as WebVTT writes it.

    Examples
    --------
    >>> clock(3_725_040)
    '01:02:05.040'
    """
    seconds, rest = divmod(milliseconds, 1000)
    minutes, second = divmod(seconds, 60)
    hours, minute = divmod(minutes, 60)
    return f"{hours:02}:{minute:02}:{second:02}.{rest:03}"


def escaped(text: str) -> str:
    """A text in which WebVTT finds no tag, no entity and no arrow."""
    return text.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;")


def cut(text: str) -> tuple[tuple[str, ...], ...]:
    """A text as the lines of its captions, one caption after another.

    A sentence begins a caption of its own unless both are short.

    Examples
    --------
    >>> cut("Edge 7 stores both at once: the sum bit in S and the carry in C. Look at C.")
    (('Edge 7 stores both at once:', 'the sum bit in S and the carry in C.'), ('Look at C.',))
    """
    made = [_even(part) for sentence in _sentences(text) for part in _parts(sentence)]
    return tuple(_joined(made))


def _parts(sentence: str) -> Iterator[list[str]]:
    """The lines of a sentence, which is parted where that is best until each part fits."""
    lines = textwrap.wrap(sentence, LINE, break_on_hyphens=False)
    if len(lines) <= LINES:
        yield lines
        return
    words, half = sentence.split(" "), len(sentence) / 2

    def price(at: int) -> float:
        end = words[at - 1][-1]
        return abs(len(" ".join(words[:at])) - half) - half * _STOPS.get(end, 0.0)

    best = min(range(1, len(words)), key=price)
    yield from _parts(" ".join(words[:best]))
    yield from _parts(" ".join(words[best:]))


def _sentences(text: str) -> Iterator[str]:
    sentence: list[str] = []
    for word in text.split():
        sentence.append(word)
        if word[-1] in ".!?" and len(word) > 1:
            yield " ".join(sentence)
            sentence = []
    if sentence:
        yield " ".join(sentence)


def _even(lines: Sequence[str]) -> tuple[str, ...]:
    """The same words in lines of like length, broken behind a colon or comma if there is one."""
    text = " ".join(lines)
    if len(lines) < LINES:
        return (text,)
    words = text.split(" ")
    ways: list[tuple[str, ...]] = [
        (" ".join(words[:at]), " ".join(words[at:])) for at in range(1, len(words))
    ]
    ways = [way for way in ways if max(map(len, way)) <= LINE] or [tuple(lines)]
    return min(
        ways,
        key=lambda way: abs(len(way[0]) - len(way[1])) - 12 * (way[0][-1] in ",;:"),
    )


def _joined(made: Sequence[tuple[str, ...]]) -> Iterator[tuple[str, ...]]:
    """Two short captions behind each other as one."""
    held: tuple[str, ...] = ()
    for lines in made:
        both = " ".join((*held, *lines))
        if held and len(both) <= LINE:
            held = (both,)
            continue
        if held:
            yield held
        held = lines
    if held:
        yield held


def timed(text: str, start: int, end: int) -> Iterator[Cue]:
    """The captions of a text that is said from `start` to `end`, each as long as its letters."""
    lines = cut(text)
    letters = [sum(map(len, one)) for one in lines]
    share, total = [0], sum(letters)
    for count in letters:
        share.append(share[-1] + count)
    times = [start + ceil((end - start) * part / total) for part in share] if total else []
    for one, (first, last) in zip(lines, pairwise(times), strict=True):
        yield Cue(first, last, one)
