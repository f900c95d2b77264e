"""The lesson as a document: front matter, prose, computed values, fenced blocks."""

from __future__ import annotations

import html
import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Final

from edgewise import characters
from edgewise.errors import EdgewiseError, Message, Place, Suggestion, TextError
from edgewise.lesson import fences, mark, pictures, spots
from edgewise.lesson import front as front_matter
from edgewise.lesson.front import Front
from edgewise.lesson.spots import Spots
from edgewise.yamltext import shortened

if TYPE_CHECKING:
    from markdown_it.rules_core import StateCore
    from markdown_it.token import Token

LARGEST: Final = 200_000
"""Characters in a lesson, at most."""
DEEPEST: Final = 20
"""Lists and quotes inside one another, at most."""
MOST_VALUES: Final = 5000
"""Computed values in one lesson, at most."""
MOST_BLOCKS: Final = 500
"""Fenced blocks of ours in one lesson, at most."""
MOST_IN_PARAGRAPH: Final = {"[": 1000, '"': 2000, "'": 2000, "`": 20_000}
"""How often some characters may stand in one paragraph; pairing them takes ever longer."""
QUOTES: Final = {
    "de": ("„", "“", "\u201a", "‘"),
    "en": ("“", "”", "‘", "’"),
    "fr": ("«\u202f", "\u202f»", "“", "”"),
}
"""Quotation marks that straight ones become, by language; others keep theirs straight."""


@dataclass(frozen=True, slots=True)
class Computed:
    """A formula in the prose, ``? S(0) after 7``, whose value is shown in its place."""

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
    >>> text = "---\ntitle: Rain\ndesign: serial-adder\n---\nNow `? S after 7`."
    >>> lesson = read(text, "rain.md", Path(), ("claim",))
    >>> lesson.values[0].formula, str(lesson.values[0].place)
    ('S after 7', 'rain.md:5:8')
    """
    text = text.removeprefix("\ufeff").replace("\r\n", "\n").replace("\r", "\n")
    text = characters.joined(text)
    try:
        if len(text) > LARGEST:
            size = Message("lesson-large", count=len(text), most=LARGEST)
            raise TextError(size, Place(file))  # noqa: TRY301  told as the rest is
        characters.refuse(text, file)
    except TextError as wrong:
        return _unread(file, folder, wrong)
    front, rest, faults = front_matter.read(text, file)
    try:
        tokens = _tokens(rest, front.language, file)
    except TextError as wrong:
        return Lesson(file, folder, front, (), (), (), (*faults, wrong))
    lines = rest.split("\n")
    faults += _entities(tokens, lines, file)
    values = tuple(_values(tokens, Spots(lines, file), faults))
    blocks = tuple(_blocks(tokens, lines, file, kinds, faults))
    faults += _excesses(tokens, values, blocks, file)
    shown = tuple(pictures.named(tokens, lines, file))
    return Lesson(file, folder, front, tokens, values, blocks, tuple(faults), shown)


def _unread(file: str, folder: Path, wrong: TextError) -> Lesson:
    """A lesson whose text is not looked at."""
    return Lesson(file, folder, front_matter.read("---\n---\n", file)[0], (), (), (), (wrong,))


def _tokens(text: str, language: str, file: str) -> tuple[Token, ...]:
    from markdown_it import MarkdownIt

    # Nesting beyond the parser's own limit would silently lose text, so the parser's lies
    # above ours. Raw HTML is off: it shows as the text that it is.
    quotes = QUOTES.get(language.partition("-")[0].lower())
    parser = MarkdownIt("commonmark", {"html": False, "maxNesting": 5 * DEEPEST}).enable("table")
    if quotes is not None:
        parser.options.update({"typographer": True, "quotes": quotes})
        parser.enable("smartquotes")
    parser.core.ruler.before("inline", "bounds", lambda state: _refuse_crowds(state, file))
    return tuple(parser.parse(text))


def _refuse_crowds(state: StateCore, file: str) -> None:
    """Refuse paragraphs in which a character stands so often that pairing it takes too long."""
    for token in state.tokens:
        if token.type != "inline":
            continue
        for character, most in MOST_IN_PARAGRAPH.items():
            found = token.content.count(character)
            if found > most:
                raise TextError(
                    Message("character-crowd", character=character, count=found, most=most),
                    Place(file, (token.map or (0, 0))[0] + 1),
                )


_ENTITY: Final = re.compile(r"&(?:#[0-9]{1,7}|#[xX][0-9a-fA-F]{1,6}|[A-Za-z][A-Za-z0-9]{1,31});")


def _entities(tokens: Sequence[Token], lines: list[str], file: str) -> Iterator[EdgewiseError]:
    """An error for each paragraph in which a character reference stands for no text."""
    for token in tokens:
        told = [
            text
            for child in token.children or ()
            for text in (child.content, *map(str, child.attrs.values()))
        ]
        at = characters.first_unfit("\n".join([*told, token.info]))
        if at is None:
            continue
        first, last = token.map or (0, 0)
        found = characters.reason(("\n".join([*told, token.info]))[at])
        place = Place(file, first + 1)
        for number in range(first, min(last, len(lines))):
            for entity in _ENTITY.finditer(lines[number]):
                if characters.first_unfit(html.unescape(entity[0])) is not None:
                    place = Place(file, number + 1, entity.start() + 1)
                    break
        yield TextError(Message("entity-unfit", found=found), place)


def _values(
    tokens: tuple[Token, ...], found: Spots, faults: list[EdgewiseError]
) -> Iterator[Computed]:
    right_of: dict[int, int] = {}
    open_in: set[tuple[int, int]] = set()
    for token in tokens:
        if token.type != "inline":
            continue
        first, last = token.map or (0, 0)
        # Cells of a table share a line: each is searched right of the one before.
        start = right_of.get(first, 0) if token.level > 3 else 0
        spans = tuple(found.code_spans(token, start))
        for span in spans:
            place = span.place
            if place.line == first + 1 and place.column:
                right_of[first] = place.column + len(span.token.content)
            yield from _value(span.token, place, faults)
        faults += _in_pictures(token, Place(found.file, first + 1))
        text = "".join(child.content for child in token.children or () if child.type == "text")
        if mark.BEGUN.search(text) and (first, last) not in open_in:
            open_in.add((first, last))
            faults += [
                TextError(Message("value-open"), place)
                for place in found.begun(token, spans, mark.BEGUN)
            ]


def _value(token: Token, place: Place, faults: list[EdgewiseError]) -> Iterator[Computed]:
    try:
        formula = mark.formula_in(token.content)
    except EdgewiseError as wrong:
        faults.append(TextError(wrong.told, place))
        return
    if formula is not None:
        at = place.moved(formula[0])
        token.meta["place"] = at
        yield Computed(formula[1], at)


def _in_pictures(token: Token, place: Place) -> Iterator[EdgewiseError]:
    """Values in descriptions of pictures, which are plain text."""
    for child in token.children or ():
        inner = child.children or () if child.type == "image" else ()
        for span in inner:
            if span.type == "code_inline" and span.content.lstrip().startswith(mark.MARK):
                yield TextError(Message("value-in-picture"), place)


def _blocks(
    tokens: tuple[Token, ...],
    lines: list[str],
    file: str,
    kinds: tuple[str, ...],
    faults: list[EdgewiseError],
) -> Iterator[Block]:
    for token in tokens:
        if token.type == "code_block":
            faults += fences.hidden(token, lines, file, kinds)
        if token.type != "fence":
            continue
        word = fences.name_in(token.info)
        line = (token.map or (0, 0))[0]
        column = max(lines[line].find(token.markup[:3]), 0)
        place = Place(file, line + 1, column + 1)
        if word in kinds:
            token.meta["place"] = place
        elif meant := fences.meant(token.info, kinds):
            faults.append(
                TextError(
                    Message("block-unknown", name=shortened(word), suggestion=Suggestion(meant)),
                    place.moved(lines[line].find(word) - column),
                )
            )
        if unclosed := fences.is_open(token, lines, kinds):
            faults.append(TextError(unclosed, place))
        elif word in kinds:
            yield Block(word, token.content, place, spots.body_column(token, lines))


def _excesses(
    tokens: tuple[Token, ...], values: tuple[Computed, ...], blocks: tuple[Block, ...], file: str
) -> Iterator[EdgewiseError]:
    deep = next((token for token in tokens if token.level > 2 * DEEPEST), None)
    if deep is not None:
        line = (deep.map or (0, 0))[0] + 1
        yield TextError(Message("nested-deep", most=DEEPEST), Place(file, line))
    for found, most, what in (
        (len(values), MOST_VALUES, "values"),
        (len(blocks), MOST_BLOCKS, "blocks"),
    ):
        if found > most:
            yield TextError(Message("lesson-many", count=found, what=what, most=most), Place(file))
