"""A lesson's front matter: what stands between the first two lines ``---``."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

from edgewise import yamltext
from edgewise.errors import EdgewiseError, Place, TextError
from edgewise.yamltext import Mapping, Scalar, Sequence, Tree, kind_of

ENTRIES: Final = ("title", "design", "with", "operands", "lang")
"""The entries of the front matter."""
_BEGINS: Final = re.compile(r"\A---[ \t]*(?:\n|\Z)")
_ENDS: Final = re.compile(r"^---[ \t]*$", re.MULTILINE)
_LANGUAGE: Final = re.compile(r"[A-Za-z]{2,3}(-[A-Za-z0-9]{2,8})*")
LONGEST_TITLE: Final = 300
"""Characters in a title, at most."""


@dataclass(frozen=True, slots=True)
class Entry:
    """One parameter or operand as written: its name, and one formula or a list of them."""

    name: Scalar
    formulas: tuple[Scalar, ...]
    listed: bool = False


@dataclass(frozen=True, slots=True)
class Front:
    """What the front matter says.

    Parameters
    ----------
    title : str
    design : Scalar, optional
        Name of a catalogue design, of a circuit file, or ``here``.
    parameters, operands : tuple of Entry
    language : str
        Of the text, as in HTML: ``en``.
    place : Place
    operands_place : Place
        Where operands that are missing would stand.
    """

    title: str
    design: Scalar | None
    parameters: tuple[Entry, ...]
    operands: tuple[Entry, ...]
    language: str
    place: Place
    operands_place: Place


def read(text: str, file: str) -> tuple[Front, str, list[EdgewiseError]]:
    r"""The front matter, the text with it blanked (so that lines keep their numbers), errors.

    Examples
    --------
    >>> front, rest, errors = read("---\ntitle: Rain\ndesign: serial-adder\n---\nText", "r.md")
    >>> front.title, rest, errors
    ('Rain', '\n\n\n\nText', [])
    """
    errors: list[EdgewiseError] = []
    start = Place(file, 1, 1)
    begins = _BEGINS.match(text)
    ends = _ENDS.search(text, begins.end()) if begins else None
    if begins is None or ends is None:
        what = (
            "the front matter has no end; close it with a line ---"
            if begins
            else "the lesson has no front matter; begin it with a line ---, then title: … and"
            " design: …, then a line ---"
        )
        errors.append(TextError(what, start))
        return _front(Mapping((), start), []), text, errors
    head = text[begins.end() : ends.start()]
    rest = re.sub(r"[^\n]+", "", text[: ends.end()]) + text[ends.end() :]
    top = Mapping((), start)
    try:
        trees = yamltext.read(head, file, first_line=2)
        if trees:
            top = yamltext.mapping(trees[0], "front matter", "title: Two rain gauges")
    except EdgewiseError as wrong:
        errors += wrong.parts()
        return _front(top, []), rest, errors
    errors += top.refuse_other_keys(ENTRIES, "the front matter")
    for key, example in (("title", "Two rain gauges"), ("design", "serial-adder")):
        if top.get(key) is None:
            errors.append(TextError(f"the front matter does not say {key}: {example}", start))
    return _front(top, errors), rest, errors


def _front(top: Mapping, errors: list[EdgewiseError]) -> Front:
    def entry(key: str) -> Scalar | None:
        tree = top.get(key)
        try:
            found = None if tree is None else yamltext.scalar(tree, key)
        except EdgewiseError as wrong:
            errors.append(wrong)
            return None
        if found is not None and not found.text.strip():
            errors.append(TextError(f"{key}: found nothing behind it", spot(key)))
            return None
        return found

    def spot(key: str) -> Place:
        return next(name.place for name, _ in top.pairs if name.text == key)

    title, language = entry("title"), entry("lang")
    if title is not None and len(title.text) > LONGEST_TITLE:
        errors.append(
            TextError(f"the title is longer than {LONGEST_TITLE} characters", title.place)
        )
    if language is not None and not _LANGUAGE.fullmatch(language.text):
        errors.append(
            TextError(
                f"lang: found {language.text}, expected a language tag such as en, de or pt-BR",
                language.place,
            )
        )
        language = None
    operands = top.get("operands")
    return Front(
        " ".join(title.text.split()) if title else "",
        entry("design"),
        tuple(_entries(top, "with", "{n: 6}", errors)),
        tuple(_entries(top, "operands", "{a: 22, b: 43}", errors)),
        language.text if language else "en",
        top.place,
        operands.place if operands else top.place,
    )


def _entries(top: Mapping, key: str, example: str, errors: list[EdgewiseError]) -> Iterator[Entry]:
    tree = top.get(key)
    if tree is None:
        return
    try:
        pairs = yamltext.mapping(tree, key, example).pairs
    except EdgewiseError as wrong:
        errors.append(wrong)
        return
    for name, value in pairs:
        items: tuple[Tree, ...] = value.items if isinstance(value, Sequence) else (value,)
        odd = next((item for item in items if not isinstance(item, Scalar)), None)
        if odd is not None:
            errors.append(
                TextError(
                    f"{name.text}: found {kind_of(odd)}, expected a number or a list of numbers",
                    odd.place,
                )
            )
            continue
        formulas = tuple(item for item in items if isinstance(item, Scalar))
        yield Entry(name, formulas, isinstance(value, Sequence))
