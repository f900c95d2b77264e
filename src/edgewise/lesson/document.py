"""The lesson as a document: front matter, prose, computed values, fenced blocks."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Final

from edgewise.errors import EdgewiseError, Place, TextError
from edgewise.lesson import front as front_matter
from edgewise.lesson import pictures, spots
from edgewise.lesson.front import Front
from edgewise.yamltext import LARGEST

if TYPE_CHECKING:
    from markdown_it.token import Token

DEEPEST: Final = 20
"""Lists and quotes inside one another, at most."""
MOST_VALUES: Final = 5000
"""Computed values in one lesson, at most."""
MOST_BLOCKS: Final = 500
"""Fenced blocks of ours in one lesson, at most."""
SHORTEST: Final = 5
"""Letters from which a block's name is long enough to be recognised by a typing error."""
QUOTES: Final = {
    "de": ("„", "“", "\u201a", "‘"),
    "en": ("“", "”", "‘", "’"),
    "fr": ("«\u202f", "\u202f»", "“", "”"),
}
"""Quotation marks that straight ones become, by language; others keep theirs straight."""
_COMPUTED: Final = re.compile(r"= *(?=[\w(−-])")


@dataclass(frozen=True, slots=True)
class Computed:
    """A formula in the prose, ``= S(0) after 7``, whose value is shown in its place."""

    formula: str
    place: Place
    """Of the formula's first character."""


@dataclass(frozen=True, slots=True)
class Block:
    """A fenced block of ours."""

    kind: str
    text: str
    place: Place
    """Of the fence."""
    indent: int
    """Columns to the left of the block's text."""

    @property
    def first_line(self) -> int:
        """Number of the first line of `text` in the lesson."""
        return self.place.line + 1


@dataclass(frozen=True, slots=True)
class Lesson:
    """A lesson's text, taken apart.

    Parameters
    ----------
    file : str
        As errors name it.
    folder : Path
        Where it lies, and where the files that it names are looked for.
    front : Front
    tokens : tuple of Token
        The prose as CommonMark tokens, to be read only. That of a computed value or a block
        of ours has its place under ``meta["place"]``.
    values : tuple of Computed
    blocks : tuple of Block
    faults : tuple of EdgewiseError
        What is wrong with the text itself.
    """

    file: str
    folder: Path
    front: Front
    tokens: tuple[Token, ...]
    values: tuple[Computed, ...]
    blocks: tuple[Block, ...]
    faults: tuple[EdgewiseError, ...] = ()
    pictures: tuple[tuple[Token, Place], ...] = ()


def read(text: str, file: str, folder: Path, kinds: tuple[str, ...]) -> Lesson:
    r"""Take a lesson's text apart.

    Parameters
    ----------
    text, file : str
    folder : Path
    kinds : tuple of str
        The names of the blocks that there are; any other fenced block is plain code.

    Examples
    --------
    >>> text = "---\ntitle: Rain\ndesign: serial-adder\n---\nNow `= S after 7`."
    >>> lesson = read(text, "rain.md", Path(), ("claim",))
    >>> lesson.values[0].formula, str(lesson.values[0].place)
    ('S after 7', 'rain.md:5:8')
    """
    text = text.removeprefix("\ufeff").replace("\r\n", "\n").replace("\r", "\n")
    if len(text) > LARGEST:
        size = f"the lesson has {len(text)} characters; the limit is {LARGEST}"
        lesson = read("---\n---\n", file, folder, kinds)
        return Lesson(file, folder, lesson.front, (), (), (), (TextError(size, Place(file)),))
    front, rest, faults = front_matter.read(text, file)
    tokens = _tokens(rest, front.language)
    lines = rest.split("\n")
    values = tuple(_values(tokens, lines, file, faults))
    blocks = tuple(_blocks(tokens, lines, file, kinds, faults))
    faults += _excesses(tokens, values, blocks, file)
    shown = tuple(pictures.named(tokens, lines, file))
    return Lesson(file, folder, front, tokens, values, blocks, tuple(faults), shown)


def _tokens(text: str, language: str) -> tuple[Token, ...]:
    from markdown_it import MarkdownIt

    # Nesting beyond the parser's own limit would silently lose text, so the parser's lies
    # above ours. Raw HTML is off: it shows as the text that it is.
    quotes = QUOTES.get(language.partition("-")[0].lower())
    parser = MarkdownIt("commonmark", {"html": False, "maxNesting": 5 * DEEPEST}).enable("table")
    if quotes is not None:
        parser.options.update({"typographer": True, "quotes": quotes})
        parser.enable("smartquotes")
    return tuple(parser.parse(text))


def _values(
    tokens: tuple[Token, ...], lines: list[str], file: str, faults: list[EdgewiseError]
) -> Iterator[Computed]:
    right_of: dict[int, int] = {}
    for token in tokens:
        if token.type != "inline":
            continue
        line = (token.map or (0, 0))[0]
        # Cells of a table share a line: each is searched right of the one before.
        start = right_of.get(line, 0) if token.level > 3 else 0
        for span, place in spots.code_spans(token, lines, file, start):
            if place.line == line + 1 and place.column:
                right_of[line] = place.column + len(span.content)
            marked = _COMPUTED.match(span.content)
            if marked:
                at = place.moved(marked.end())
                span.meta["place"] = at
                yield Computed(span.content[marked.end() :], at)
        faults += [
            TextError("this computed value has no end; close it with a second `", place)
            for place in spots.unclosed(token, lines, file)
        ]


def _blocks(
    tokens: tuple[Token, ...],
    lines: list[str],
    file: str,
    kinds: tuple[str, ...],
    faults: list[EdgewiseError],
) -> Iterator[Block]:
    for token in tokens:
        if token.type != "fence":
            continue
        word = (token.info.split() or [""])[0]
        line, end = token.map or (0, 0)
        column = max(lines[line].find(token.markup[:3]), 0)
        place = Place(file, line + 1, column + 1)
        if word in kinds:
            token.meta["place"] = place
            if end > len(lines) or not lines[end - 1].strip(" \t>").startswith(token.markup[:3]):
                faults.append(
                    TextError(f"this {word} block has no end; close it with {token.markup}", place)
                )
                continue  # what stands in it belongs to the text behind it
            yield Block(word, token.content, place, spots.body_column(token, lines))
        elif meant := next((kind for kind in kinds if _one_slip_apart(word, kind)), None):
            faults.append(
                TextError(
                    f"there is no block {word}; did you mean {meant}?",
                    place.moved(lines[line].find(word) - column),
                )
            )


def _one_slip_apart(word: str, kind: str) -> bool:
    """Whether one letter left out, added, changed, or swapped with the next makes the other.

    Examples
    --------
    >>> [_one_slip_apart(w, "claim") for w in ("clam", "claims", "clain", "cliam", "clip")]
    [True, True, True, True, False]
    """
    word = word.lower()
    if word == kind:
        return True
    if len(kind) < SHORTEST or abs(len(word) - len(kind)) > 1:
        return False
    same = 0
    while same < min(len(word), len(kind)) and word[same] == kind[same]:
        same += 1
    w, k = word[same:], kind[same:]
    swapped = w[:2] == k[1::-1] and w[2:] == k[2:]
    return w[1:] == k[1:] or w[1:] == k or w == k[1:] or swapped


def _excesses(
    tokens: tuple[Token, ...], values: tuple[Computed, ...], blocks: tuple[Block, ...], file: str
) -> Iterator[EdgewiseError]:
    deep = next((token for token in tokens if token.level > 2 * DEEPEST), None)
    if deep is not None:
        line = (deep.map or (0, 0))[0] + 1
        yield TextError(f"lists and quotes are nested more than {DEEPEST} deep", Place(file, line))
    for found, most, what in (
        (len(values), MOST_VALUES, "computed values"),
        (len(blocks), MOST_BLOCKS, "blocks"),
    ):
        if found > most:
            yield TextError(f"the lesson has {found} {what}; the limit is {most}", Place(file))
