"""A lesson's front matter: what stands between the first two lines ``---``."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from typing import Any, Final, Literal

from edgewise import yamltext
from edgewise.errors import EdgewiseError, Message, Place, TextError, nearest
from edgewise.listing import either
from edgewise.numerals import meant_range
from edgewise.yamltext import Mapping, Scalar, Sequence, Tree, kind_of, shortened

ENTRIES: Final = ("title", "design", "with", "operands", "examples", "language", "model")
"""The entries of the front matter."""
CHOOSE: Final = "choose"
"""What `operands` says where the builder is to pick them."""
SUMS: Final = ("fits", "overflows")
"""What may be wished of a sum."""
_BEGINS: Final = re.compile(r"\A---[ \t]*(?:\n|\Z)")
_ENDS: Final = re.compile(r"^---[ \t]*$", re.MULTILINE)
_RANGE: Final = re.compile(r"(\d{1,20})\.\.(\d{1,20})")
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
class Wanted:
    """What operands must be like that the builder is to pick.

    Parameters
    ----------
    place : Place
    features : tuple of Scalar
        As in `edgewise.study.operands.requirements.Wish`.
    sum : {"fits", "overflows"}, optional
    low, high : int, optional
    seed : int, optional
    """

    place: Place
    features: tuple[Scalar, ...] = ()
    sum: Literal["fits", "overflows"] | None = None
    low: int | None = None
    high: int | None = None
    seed: int | None = None


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
    wanted : Wanted, optional
        The builder is to pick the operands that are not given.
    strict : bool
        An example that leaves the carry or a register idle is an error.
    model : Scalar, optional
        Whose delays hold where the lesson speaks of time.
    """

    title: str
    design: Scalar | None
    parameters: tuple[Entry, ...]
    operands: tuple[Entry, ...]
    language: str
    place: Place
    operands_place: Place
    wanted: Wanted | None = None
    strict: bool = False
    model: Scalar | None = None


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
        told = Message("front-open" if begins else "front-absent")
        errors.append(TextError(told, start))
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
    errors += top.refuse_other_keys(ENTRIES, "front")
    top = _as_meant(top)
    for key, example in (("title", "Two rain gauges"), ("design", "serial-adder")):
        if top.get(key) is None:
            errors.append(TextError(Message("front-missing", entry=key, example=example), start))
    return _front(top, errors), rest, errors


def _as_meant(top: Mapping) -> Mapping:
    """The entries with misspelt names put right, so that one slip gives one error."""
    pairs = []
    for name, value in top.pairs:
        meant = nearest(name.text, ENTRIES).meant or name.text
        known = name.text in ENTRIES or top.get(meant) is not None
        pairs.append((name if known else replace(name, text=meant), value))
    return Mapping(tuple(pairs), top.place)


def _front(top: Mapping, errors: list[EdgewiseError]) -> Front:
    def entry(key: str) -> Scalar | None:
        tree = top.get(key)
        try:
            found = None if tree is None else yamltext.scalar(tree, key)
        except EdgewiseError as wrong:
            errors.append(wrong)
            return None
        if found is not None and not found.text.strip():
            errors.append(TextError(Message("entry-empty", entry=key), spot(key)))
            return None
        return found

    def spot(key: str) -> Place:
        return next(name.place for name, _ in top.pairs if name.text == key)

    title, language = entry("title"), entry("language")
    if title is not None and len(title.text) > LONGEST_TITLE:
        errors.append(TextError(Message("title-long", most=LONGEST_TITLE), title.place))
    if language is not None and not _LANGUAGE.fullmatch(language.text):
        errors.append(TextError(Message("language-expected", found=language.text), language.place))
        language = None
    examples = entry("examples")
    if examples is not None and examples.text != "strict":
        errors.append(TextError(Message("examples-expected", found=examples.text), examples.place))
    operands = top.get("operands")
    given, wanted = _wanted(operands, errors)
    return Front(
        " ".join(title.text.split()) if title else "",
        entry("design"),
        tuple(_entries(top.get("with"), "with", "{n: 6}", errors)),
        tuple(_entries(given, "operands", "{a: 22, b: 43}", errors)),
        language.text if language else "en",
        top.place,
        operands.place if operands else top.place,
        wanted,
        examples is not None and examples.text == "strict",
        entry("model"),
    )


def _wanted(tree: Tree | None, errors: list[EdgewiseError]) -> tuple[Tree | None, Wanted | None]:
    """The operands that are given, and what is wished of the others."""
    if isinstance(tree, Scalar) and tree.text:
        if tree.text != CHOOSE:
            errors.append(TextError(Message("operands-expected", found=tree.text), tree.place))
        return None, Wanted(tree.place)
    features = tree.get(CHOOSE) if isinstance(tree, Mapping) else None
    if not isinstance(tree, Mapping) or features is None:
        return tree, None
    wishes = {name.text: value for name, value in tree.pairs if name.text in _WISHES}
    place = next(name.place for name, _ in tree.pairs if name.text == CHOOSE)
    found: dict[str, Any] = {"features": ()}
    for name, value in wishes.items():
        try:
            found.update(_WISHES[name](value))
        except EdgewiseError as wrong:
            errors += wrong.parts()
    rest = tuple(pair for pair in tree.pairs if pair[0].text not in _WISHES)
    return Mapping(rest, tree.place), Wanted(place, **found)


def _features(tree: Tree) -> dict[str, Any]:
    items = (tree,) if isinstance(tree, Scalar) else yamltext.sequence(tree, CHOOSE, _FEATURES)
    scalars = tuple(yamltext.scalar(item, CHOOSE) for item in items)
    features = (Scalar(" ".join(s.text.split()), s.place) for s in scalars)
    return {"features": tuple(feature for feature in features if feature.text)}


def _sum(tree: Tree) -> dict[str, Any]:
    given = yamltext.scalar(tree, "sum")
    if given.text not in SUMS:
        told = Message("entry-expected", entry="sum", found=given.text, expected=either(SUMS))
        raise TextError(told, given.place)
    return {"sum": given.text}


def _between(tree: Tree) -> dict[str, Any]:
    given = yamltext.scalar(tree, "between")
    match = _RANGE.fullmatch("".join(given.text.split()))
    if match is None or int(match[1]) > int(match[2]):
        hint = meant_range(given.text) or Message("range-between")
        told = Message("range-unread", name="between", found=shortened(given.text), hint=hint)
        raise TextError(told, given.place)
    return {"low": int(match[1]), "high": int(match[2])}


def _seed(tree: Tree) -> dict[str, Any]:
    given = yamltext.scalar(tree, "seed")
    if not (given.text.isdecimal() and len(given.text) <= _LONGEST_SEED):
        raise TextError(Message("seed-expected", found=given.text), given.place)
    return {"seed": int(given.text)}


_FEATURES: Final = "[carry chain 4]"
_LONGEST_SEED: Final = 9
_WISHES: Final[dict[str, Callable[[Tree], dict[str, Any]]]] = {
    CHOOSE: _features,
    "sum": _sum,
    "between": _between,
    "seed": _seed,
}
"""Beside ``choose``, these are no operands."""


def _entries(
    tree: Tree | None, key: str, example: str, errors: list[EdgewiseError]
) -> Iterator[Entry]:
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
                    Message("operand-expected", name=name.text, found=kind_of(odd)), odd.place
                )
            )
            continue
        formulas = tuple(item for item in items if isinstance(item, Scalar))
        yield Entry(name, formulas, isinstance(value, Sequence))
