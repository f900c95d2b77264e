"""What a block makes of plain parts: text, lists, tables, code, and tables and figures of the run.

Every publisher can publish these, so that a block made of them needs nothing else; that is how a
block of another package comes onto a page and onto paper. There is no markup in them: a publisher
escapes their text as it does all text.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Final, Literal, NoReturn, TypeAlias, get_args

from edgewise import characters
from edgewise.lesson.pieces import EdgeTable, Figure

LARGEST: Final = 200_000
"""Characters in one block, at most."""
Style: TypeAlias = Literal["emphasis", "strong", "code"]


@dataclass(frozen=True, slots=True)
class Phrase:
    """Some words in a style."""

    text: str
    style: Style


Text: TypeAlias = tuple[str | Phrase, ...]
"""Running text: ``("The gate ", Phrase("OPEN", "code"), " is 1.")``."""


@dataclass(frozen=True, slots=True)
class Paragraph:
    """A paragraph."""

    text: Text


@dataclass(frozen=True, slots=True)
class Listing:
    """A list, an item for each text."""

    items: tuple[Text, ...]
    numbered: bool = False


@dataclass(frozen=True, slots=True)
class Grid:
    """A table of text.

    Parameters
    ----------
    heading : tuple of str
    rows : tuple of tuples of str
        Each as long as the heading.
    caption : str
    right : tuple of int
        The columns of numbers, which stand flush right.
    """

    heading: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    caption: str
    right: tuple[int, ...] = ()


@dataclass(frozen=True, slots=True)
class Code:
    """Lines that stand as they are."""

    text: str


Content: TypeAlias = Paragraph | Listing | Grid | Code | EdgeTable | Figure
"""What a block can be composed of."""


@dataclass(frozen=True, slots=True)
class Composed:
    """A block made of plain parts.

    Parameters
    ----------
    content : tuple of Content
    language : str
        Of its text (BCP 47).

    Raises
    ------
    TypeError, ValueError
        It is made of anything else, or too large.

    Examples
    --------
    >>> Composed((Paragraph(("The gate ", Phrase("OPEN", "code"), " is 1.")),)).language
    'en'
    >>> Composed((Grid(("word", "changes"), (("S",),), "Changes"),))
    Traceback (most recent call last):
    ValueError: a row of a Grid has 1 cell, its heading 2
    """

    content: tuple[Content, ...]
    language: str = "en"

    def __post_init__(self) -> None:
        """Refuse what no publisher could publish."""
        if not isinstance(self.content, tuple):
            _refuse(self.content, "a tuple of what the block is composed of")
        size = sum(len(text) for one in self.content for text in _texts(one))
        _text(self.language)
        if size > LARGEST:
            told = f"the block is of {size:,} characters; the limit is {LARGEST:,}"
            raise ValueError(told)


def _texts(one: Content) -> Iterable[str]:
    """Every text in it, each found to be one."""
    match one:
        case Paragraph(text=text):
            yield from _spans(text)
        case Listing(items=items):
            for item in items:
                yield from _spans(item)
        case Grid(heading=heading, rows=rows, caption=caption):
            for row in rows:
                if len(row) != len(heading):
                    cells = f"{len(row)} cell{'s' * (len(row) != 1)}"
                    told = f"a row of a Grid has {cells}, its heading {len(heading)}"
                    raise ValueError(told)
            yield from map(_text, (caption, *heading, *(cell for row in rows for cell in row)))
        case Code(text=text):
            yield _text(text)
        case EdgeTable() | Figure():
            pass
        case _:
            _refuse(one, " or ".join(kind.__name__ for kind in get_args(Content)))


def _spans(text: Text) -> Iterable[str]:
    if not isinstance(text, tuple):
        _refuse(text, "a tuple of str and Phrase")
    for span in text:
        if isinstance(span, Phrase) and span.style not in get_args(Style):
            raise ValueError(f"a Phrase is in {', '.join(get_args(Style))}, not in {span.style!r}")
        yield _text(span.text if isinstance(span, Phrase) else span)


def _text(text: object) -> str:
    if not isinstance(text, str):
        _refuse(text, "str")
    at = characters.first_unfit(text)
    if at is not None:
        raise ValueError(f"{characters.reason(text[at])} stands in a text")
    return text


def _refuse(found: object, expected: str) -> NoReturn:
    told = f"found {type(found).__name__}, expected {expected}"
    raise TypeError(told)
