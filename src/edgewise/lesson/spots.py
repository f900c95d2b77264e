"""Where in a lesson's text its code spans and fenced lines stand."""

from __future__ import annotations

import re
from bisect import bisect_left
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from edgewise.errors import Place

if TYPE_CHECKING:
    from markdown_it.token import Token

_RUN: Final = re.compile(r"`+")
_PASSED_OVER: Final = re.compile(r"[\s>\\]+")
_MOST_MISSES: Final = 2000
"""Pairs of backticks in a lesson that turn out to be no code span, at most; places of the spans
behind them are told by their line only."""


@dataclass(frozen=True, slots=True)
class Spot:
    """A code span and where it is: the place of its first character, its part of the source."""

    token: Token
    place: Place
    start: int = 0
    end: int = 0


class Spots:
    """Finds the code spans of a lesson in its source, in time that grows with its length only.

    The parser gives lines only. In the source, runs of as many backticks are paired as
    CommonMark pairs them, and each pair is held against the next code span of the parser, but
    for blanks, quote marks and backslashes: line breaks and escaped bars differ.

    Parameters
    ----------
    lines : sequence of str
        All lines of the lesson.
    file : str
    """

    def __init__(self, lines: Sequence[str], file: str) -> None:
        self.lines, self.file = lines, file
        self.misses = 0
        self._last: tuple[tuple[int, int], _Source] | None = None

    def source(self, token: Token) -> _Source:
        """The source of an inline token; cells of a table share that of their row."""
        first, last = token.map or (0, 0)
        if self._last is None or self._last[0] != (first, last):
            self._last = (first, last), _Source("\n".join(self.lines[first:last]))
        return self._last[1]

    def code_spans(self, token: Token, start: int = 0) -> Iterator[Spot]:
        """Each code span of an inline token.

        Parameters
        ----------
        token : Token
            Of type ``inline``; `map` gives its lines, `children` its spans.
        start : int
            Characters of the first line that belong to cells further left.
        """
        line = (token.map or (0, 0))[0] + 1
        source = self.source(token)
        run = source.run_at(start)
        for child in token.children or ():
            if child.type != "code_inline":
                continue
            wanted, ticks = _PASSED_OVER.sub("", child.content), len(child.markup)
            for here, (begin, close) in source.pairs(run, ticks):
                if self.misses > _MOST_MISSES:
                    break
                if _PASSED_OVER.sub("", source.text[begin + ticks : close]) == wanted:
                    run = source.run_at(close + ticks)
                    inside = source.first_inside(begin + ticks, child.content)
                    yield Spot(child, self._place(source, line, inside), begin, close + ticks)
                    break
                self.misses += 1
                run = here
            else:
                yield Spot(child, Place(self.file, line))
                continue
            if self.misses > _MOST_MISSES:
                yield Spot(child, Place(self.file, line))

    def _place(self, source: _Source, line: int, at: int) -> Place:
        row = bisect_left(source.breaks, at)
        column = at - (source.breaks[row - 1] + 1 if row else 0) + 1
        return Place(self.file, line + row, column)

    def begun(self, token: Token, spans: Sequence[Spot], mark: re.Pattern[str]) -> Iterator[Place]:
        """Where `mark` stands in an inline token outside its code spans."""
        line, source = (token.map or (0, 0))[0] + 1, self.source(token)
        taken = sorted((span.start, span.end) for span in spans if span.end)
        for found in mark.finditer(source.text):
            number = bisect_left(taken, (found.start() + 1, 0))
            if not number or taken[number - 1][1] <= found.start():
                yield self._place(source, line, found.start())


class _Source:
    """The source of an inline token, with its runs of backticks and its line breaks."""

    def __init__(self, text: str) -> None:
        self.text = text
        self.breaks = [found.start() for found in re.finditer("\n", text)]
        runs = [(f.start(), len(f[0]), self._escaped(f.start())) for f in _RUN.finditer(text)]
        self.starts = [start for start, _, _ in runs]
        self.opening = [(start + escaped, size - escaped) for start, size, escaped in runs]
        """An escaped backtick opens nothing; inside a span it closes all the same."""
        self.closing: dict[int, list[int]] = {}
        for start, size, _ in runs:
            self.closing.setdefault(size, []).append(start)

    def _escaped(self, at: int) -> int:
        """1 where an odd number of backslashes stands before a position, else 0."""
        before = at
        while before and self.text[before - 1] == "\\":
            before -= 1
        return (at - before) % 2

    def run_at(self, at: int) -> int:
        """The number of the first run from a position on."""
        return bisect_left(self.starts, at)

    def pairs(self, run: int, ticks: int) -> Iterator[tuple[int, tuple[int, int]]]:
        """Each run of so many backticks from one on, and the next that is as long."""
        closing = self.closing.get(ticks, [])
        for number in range(run, len(self.opening)):
            start, size = self.opening[number]
            if size != ticks:
                continue
            after = bisect_left(closing, start + size)
            if after == len(closing):
                return
            yield number, (start, closing[after])

    def first_inside(self, at: int, content: str) -> int:
        """Where the content of a span begins: a blank or a line break before it is no part."""
        if content[:1] not in {" ", ">"}:
            while self.text[at : at + 1] in {" ", "\n", "\t", ">"}:
                at += 1
        elif self.text[at : at + 2].strip(" \n") == "" and not content.startswith("  "):
            at += self.text[at] in " \n"
        return at


def body_column(token: Token, lines: Sequence[str]) -> int:
    """Columns to the left of a fenced block's body: indentation, list and quote marks."""
    first = (token.map or (0, 0))[0] + 1
    for number, line in enumerate(token.content.split("\n")):
        if line.strip() and first + number < len(lines):
            source = lines[first + number]
            return max(source.find(line), 0)
    return 0
