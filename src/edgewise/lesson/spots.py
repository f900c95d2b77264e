"""Where in a lesson's text its code spans and fenced lines stand."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from edgewise.errors import Place

if TYPE_CHECKING:
    from markdown_it.token import Token


def code_spans(
    token: Token, lines: Sequence[str], file: str, start: int = 0
) -> Iterator[tuple[Token, Place]]:
    """Each code span of an inline token, with the place of its first character.

    Parameters
    ----------
    token : Token
        Of type ``inline``; `map` gives its lines, `children` its spans.
    lines : sequence of str
        All lines of the lesson.
    file : str
    start : int
        Characters of the first line that belong to cells further left.

    Notes
    -----
    The parser gives lines only. The column is found by searching the source for the spans
    one after the other; in between, line breaks, quote marks and escaped bars may differ.
    """
    first, last = token.map or (0, 0)
    source = "\n".join(lines[first:last])
    at = start
    for child in token.children or ():
        if child.type != "code_inline":
            continue
        found = re.compile(_pattern(child)).search(source, at)
        if found is None:
            yield child, Place(file, first + 1)
            continue
        inside = found.start("inside")
        line = source.count("\n", 0, inside)
        column = inside - (source.rfind("\n", 0, inside) + 1) + 1
        yield child, Place(file, first + 1 + line, column)
        at = found.end()


def _pattern(span: Token) -> str:
    """What the source of a code span looks like."""
    ticks = re.escape(span.markup)
    inside = "".join(
        r"(?:[ \t]*\n[ \t>]*| )"
        if character == " "
        else r"\\?\|"
        if character == "|"
        else re.escape(character)
        for character in span.content
    )
    return rf"(?<!`){ticks}(?!`)[ \n]?(?P<inside>{inside})[ \n]?{ticks}(?!`)"


def unclosed(token: Token, lines: Sequence[str], file: str) -> Iterator[Place]:
    """Where a computed value was begun in an inline token but its last backtick is missing."""
    first, last = token.map or (0, 0)
    text = "".join(child.content for child in token.children or () if child.type == "text")
    if "`=" not in text:
        return
    source = "\n".join(lines[first:last])
    spans = [re.compile(_pattern(c)) for c in token.children or () if c.type == "code_inline"]
    for span in spans:  # blanked, so that only what is not a span is searched
        source = span.sub(lambda m: re.sub(r"[^\n]", " ", m[0]), source, count=1)
    for found in re.finditer(r"(?<!\\)`= ?\w", source):
        line = source.count("\n", 0, found.start())
        column = found.start() - (source.rfind("\n", 0, found.start()) + 1) + 1
        yield Place(file, first + 1 + line, column)


def body_column(token: Token, lines: Sequence[str]) -> int:
    """Columns to the left of a fenced block's body: indentation, list and quote marks."""
    first = (token.map or (0, 0))[0] + 1
    for number, line in enumerate(token.content.splitlines()):
        if line.strip() and first + number < len(lines):
            source = lines[first + number]
            return max(source.find(line), 0)
    return 0
