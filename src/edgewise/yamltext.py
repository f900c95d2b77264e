"""YAML 1.2 text as a tree of plain strings with places; meaning is given to it elsewhere.

Nothing is resolved to numbers, dates or objects: a scalar stays the text it was written
as, and each node knows where it stands.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any, Final, TypeAlias

from edgewise import characters
from edgewise.errors import MOST_TOLD, Fact, Message, Place, TextError, nearest

LARGEST: Final = 1_000_000
"""Characters in one text, at most."""
DEEPEST: Final = 12
"""Levels of nesting, at most."""


@dataclass(frozen=True, slots=True)
class Scalar:
    """A single value, as written (without quotes)."""

    text: str
    place: Place


@dataclass(frozen=True, slots=True)
class Sequence:
    """``- item`` lines, or ``[item, item]``."""

    items: tuple[Tree, ...]
    place: Place


@dataclass(frozen=True, slots=True)
class Mapping:
    """``key: value`` lines, or ``{key: value}``; keys are unique."""

    pairs: tuple[tuple[Scalar, Tree], ...]
    place: Place

    def get(self, key: str) -> Tree | None:
        """The value of a key, or nothing."""
        return next((value for name, value in self.pairs if name.text == key), None)

    def refuse_other_keys(self, known: tuple[str, ...], what: str) -> Iterator[TextError]:
        """An error for each key not in `known`."""
        unknown = 0
        for key, _ in self.pairs:
            if key.text in known:
                continue
            unknown += 1
            first = key.text.split(maxsplit=1)[0] if key.text.strip() else ""
            if first in known and first != key.text:
                yield TextError(Message("colon-missing", key=first), key.place)
            elif unknown > MOST_TOLD:  # no more than their number is told
                told = Message("entry-unknown", what=what, key=shortened(key.text), suggestion="")
                yield TextError(told, key.place)
            else:
                told = Message(
                    "entry-unknown",
                    what=what,
                    key=shortened(key.text),
                    suggestion=nearest(key.text, known),
                )
                yield TextError(told, key.place)


LONGEST_TOLD: Final = 80
"""Characters of a text that a message repeats, at most."""


def shortened(text: str) -> str:
    r"""A text on one line, its end left out where it is long, for messages.

    Examples
    --------
    >>> shortened("rain \n gauge"), shortened("tip " * 50)[-9:]
    ('rain gauge', 'tip tip …')
    """
    line = " ".join(text.split())
    return line if len(line) <= LONGEST_TOLD else f"{line[:LONGEST_TOLD].rstrip()} …"


def quoted(text: str) -> str:
    r"""A text in quote marks, in which nothing is YAML.

    Examples
    --------
    >>> print(quoted('rain: "heavy"'))
    "rain: \"heavy\""
    """
    escaped = text.replace("\\", "\\\\").replace('"', '\\"')
    return f'"{escaped}"'


Tree: TypeAlias = Scalar | Sequence | Mapping


def kind_of(tree: Tree) -> Message:
    """What a node is, for messages."""
    kinds = {Scalar: "scalar", Sequence: "sequence", Mapping: "mapping"}
    return Message("node", kind=kinds[type(tree)])


def scalar(tree: Tree, what: Fact) -> Scalar:
    """`tree` if it is a single value; else a `TextError` that names `what`."""
    if not isinstance(tree, Scalar):
        raise TextError(Message("scalar-expected", entry=what, found=kind_of(tree)), tree.place)
    return tree


def mapping(tree: Tree, what: str, example: str) -> Mapping:
    """`tree` if it is keys and values (an empty value counts as none of them)."""
    if isinstance(tree, Scalar) and not tree.text:
        return Mapping((), tree.place)
    if not isinstance(tree, Mapping):
        raise TextError(
            Message("mapping-expected", entry=what, found=kind_of(tree), example=example),
            tree.place,
        )
    return tree


def sequence(tree: Tree, what: str, example: str) -> tuple[Tree, ...]:
    """The items of `tree` if it is a list (an empty value counts as an empty list)."""
    if isinstance(tree, Scalar) and not tree.text:
        return ()
    if not isinstance(tree, Sequence):
        raise TextError(
            Message("sequence-expected", entry=what, found=kind_of(tree), example=example),
            tree.place,
        )
    return tree.items


def read(text: str, file: str, first_line: int = 1) -> tuple[Tree, ...]:
    """Read the documents of a YAML text.

    Parameters
    ----------
    text : str
    file : str
        Its name, for places.
    first_line : int
        The number of its first line in that file.

    Raises
    ------
    TextError
        If it is not YAML, too long, too deep, has a key twice, or uses anchors.

    Examples
    --------
    >>> (tree,) = read("circuit: rain counter", "rain.yaml")
    >>> tree.pairs[0][1].text, str(tree.pairs[0][1].place)
    ('rain counter', 'rain.yaml:1:10')
    """
    if len(text) > LARGEST:
        raise TextError(Message("text-large", count=len(text), most=LARGEST), Place(file))
    text = characters.joined(text)
    characters.refuse(text, file, first_line)
    _refuse_escapes(text, file, first_line)
    quickly = _quickly(text, file, first_line)
    if quickly is not None:
        return quickly
    from ruamel.yaml import YAML
    from ruamel.yaml.error import MarkedYAMLError
    from ruamel.yaml.reader import ReaderError

    try:
        # Events come one by one, so that a text nested without end is refused at once.
        return _Growing(file, first_line).documents(YAML(typ="safe", pure=True).parse(text))
    except MarkedYAMLError as wrong:
        problem, mark = _explained(wrong, first_line)
        place = Place(file, mark.line + first_line, mark.column + 1) if mark else Place(file)
        raise TextError(Message("yaml", why=problem), place) from None
    except (AssertionError, ValueError, OverflowError, IndexError, AttributeError):
        # The library's own slips, as at a directive %YAML 1.3.
        raise TextError(
            Message("yaml", why=Message("yaml-directive")),
            Place(file, first_line),
        ) from None
    except ReaderError as wrong:  # what it can't read and `characters` lets pass
        here = _at(text, wrong.position, file, first_line)
        found = characters.reason(text[wrong.position])
        raise TextError(Message("character-here", found=found), here) from None


def _at(text: str, position: int, file: str, first_line: int) -> Place:
    """Where a position in a text is."""
    column = position - (text.rfind("\n", 0, position) + 1) + 1
    return Place(file, text.count("\n", 0, position) + first_line, column)


_ESCAPE: Final = re.compile(r"\\\\|\\(?:x([0-9a-fA-F]{2})|u([0-9a-fA-F]{4})|U([0-9a-fA-F]{8}))")


def _refuse_escapes(text: str, file: str, first_line: int) -> None:
    """Refuse code points that Unicode doesn't have, before they are made into characters."""
    if "\\U" not in text:
        return
    for found in _ESCAPE.finditer(text):
        if found[3] and int(found[3], 16) > characters.LARGEST:
            raise TextError(
                Message("character-unknown", code=found[3].lstrip("0").upper()),
                _at(text, found.start(), file, first_line),
            )


def _quickly(text: str, file: str, first_line: int) -> tuple[Tree, ...] | None:
    """What the parser in C reads, ten times as fast, from a plain text without a fault.

    It is of YAML 1.1. None for a text in which the two versions may differ, or with a fault of
    any kind: the other parser says what is wrong, and where.
    """
    if _UNLIKE.search(text):
        return None
    import yaml

    if not yaml.__with_libyaml__:
        return None
    parser = yaml.CLoader(text)
    try:
        return _Doubting(file, first_line).documents(iter(parser.get_event, None))
    except (yaml.YAMLError, TextError):
        return None
    finally:
        parser.dispose()


_UNLIKE: Final = re.compile(r"[^\n -~\xa1-\u2027\u202a-\ud7ff]|[!%?\\|>`@]|\n\.\.\.| \Z")
"""Tabs, other line ends, tags, directives, escapes, folded blocks, a blank at the end."""


def _explained(wrong: Any, first_line: int) -> tuple[Message, Any]:
    """What a YAML error means to the person who wrote the text, and where to look."""
    problem, context = str(wrong.problem), str(wrong.context or "")
    here, opened = wrong.problem_mark, wrong.context_mark
    since = opened.line + first_line if opened else 0
    if "quoted scalar" in context:
        return Message("yaml-quote"), opened
    if "flow" in context:
        return Message("yaml-comma", line=since), here
    if "'\\t'" in problem:
        return Message("yaml-tab"), here
    if "that cannot start any token" in problem:
        found = problem.removeprefix("found character ").removesuffix(
            " that cannot start any token"
        )
        return Message("yaml-start", found=found), here
    if "mapping values are not allowed" in problem:
        return Message("yaml-colon"), here
    if "could not find expected ':'" in problem:
        return Message("yaml-no-colon"), opened
    if "<block end>" in problem:
        return Message("yaml-block", line=since), here
    return Message("yaml-other", problem=problem), here or opened


class _Growing:
    """The tree as it grows from a stream of parser events."""

    def __init__(self, file: str, first_line: int) -> None:
        self.file, self.first_line = file, first_line

    def place(self, mark: Any) -> Place:
        return Place(self.file, mark.line + self.first_line, mark.column + 1)

    def documents(self, events: Iterator[Any]) -> tuple[Tree, ...]:
        trees: list[Tree] = []
        for event in events:
            if type(event).__name__ == "DocumentStartEvent":
                tree = self.tree(next(events), events, 0)
                if not (isinstance(tree, Scalar) and not tree.text):
                    trees.append(tree)
        return tuple(trees)

    def tree(self, event: Any, events: Iterator[Any], depth: int) -> Tree:
        at, kind = self.place(event.start_mark), type(event).__name__
        if kind == "AliasEvent" or event.anchor:
            raise TextError(Message("yaml-anchors"), at)
        if event.tag:
            raise TextError(Message("yaml-tags", tag=event.tag), at)
        if depth > DEEPEST:
            raise TextError(Message("yaml-deep", most=DEEPEST), at)
        if kind == "ScalarEvent":
            return Scalar(self.plain(event, at), self.first_character(event, at))
        if kind == "SequenceStartEvent":
            items: list[Tree] = []
            while type(event := next(events)).__name__ != "SequenceEndEvent":
                items.append(self.tree(event, events, depth + 1))
            return Sequence(tuple(items), at)
        return self.mapping(events, depth, at)

    def plain(self, event: Any, at: Place) -> str:
        r"""The value, refused where an escape such as ``\e`` has put in what can't be a text."""
        value = characters.joined(event.value)
        unfit = characters.first_unfit(value)
        if unfit is not None:
            found = characters.reason(value[unfit])
            raise TextError(Message("yaml-escape", found=found), self.first_character(event, at))
        if event.style == '"' and "\n" in value:
            raise TextError(Message("yaml-line-break"), self.first_character(event, at))
        return value

    def mapping(self, events: Iterator[Any], depth: int, at: Place) -> Mapping:
        pairs: dict[str, tuple[Scalar, Tree]] = {}
        while type(event := next(events)).__name__ != "MappingEndEvent":
            plain = getattr(event, "style", "not a scalar") in (None, "")
            key = scalar(self.tree(event, events, depth + 1), Message("a-key"))
            value = self.tree(next(events), events, depth + 1)
            if "\n" in key.text:
                raise TextError(Message("key-line-break"), key.place)
            if key.text in pairs:
                first = pairs[key.text][0].place.line
                raise TextError(Message("key-twice", key=key.text, first=first), key.place)
            if plain and ":" in key.text and isinstance(value, Scalar) and not value.text:
                left, right = key.text.split(":", 1)
                raise TextError(
                    Message("key-without-blank", key=key.text, left=left, right=right), key.place
                )
            if plain and key.text.count(")") > key.text.count("("):
                raise TextError(Message("value-with-comma"), key.place)
            pairs[key.text] = (key, value)
        return Mapping(tuple(pairs.values()), at)

    @staticmethod
    def first_character(event: Any, at: Place) -> Place:
        """Where the first character of a value stands, so that errors can point into it."""
        if event.start_mark.line != event.end_mark.line:
            return Place(at.file, at.line)  # folded: columns say nothing about its text
        return at.moved(1) if event.style else at


class _Doubting(_Growing):
    """Likewise from the events of the parser in C."""

    @staticmethod
    def first_character(event: Any, at: Place) -> Place:
        """Likewise, unless nothing stands there: of that the parsers see the place differently."""
        if not event.value and not event.style:
            raise TextError(Message("value-empty"), at)
        return _Growing.first_character(event, at)
