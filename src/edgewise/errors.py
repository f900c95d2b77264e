"""What went wrong, and where: the one base error, and places in text."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any, Final, Self, TypeAlias, TypeVar

from edgewise.spelling import close

MOST_TOLD: Final = 20
"""Errors told in one go, at most; of the others only their number."""
_MOST_NAMED: Final = 12
"""Names that a suggestion lists, at most."""
_ACTING: Final = re.compile(
    "[\x00-\x08\x0b-\x1f\x7f-\x9f\u061c\u200e\u200f\u2028-\u202e\u2066-\u2069\ud800-\udfff]"
)

_LONG_WORD: Final = re.compile(r"(\S{100})\S{100,}(\S{20})")
_LONGEST_PATH: Final = 1000
"""Characters of a path that is told in full; most systems end at four times that."""
_LONGEST: Final = 3000
"""Characters of one message, at most; the end says what to do."""


def visible(text: str) -> str:
    r"""The text, with characters that would act on a terminal or can't be printed written out.

    Examples
    --------
    >>> print(visible("rain\x1b[2J.md"))
    rain<U+001B>[2J.md
    """
    return _ACTING.sub(lambda found: f"<U+{ord(found[0]):04X}>", text)


def bounded(text: str) -> str:
    """The text with words that nobody would read shortened, and so the whole of it.

    Examples
    --------
    >>> len(bounded("there is no net named " + 60_000 * "z" + "; add it under nets"))
    161
    """
    text = _LONG_WORD.sub(r"\1…\2", text)
    return text if len(text) <= _LONGEST else f"{text[: _LONGEST - 500]} … {text[-500:]}"


_Kind = TypeVar("_Kind", bound="EdgewiseError")


@dataclass(frozen=True, slots=True)
class Suggestion:
    """What may be meant by a name that nobody knows; written, it ends a message.

    Examples
    --------
    >>> print(Suggestion(meant="carry-out"))
    ; did you mean carry-out?
    """

    meant: str = ""
    """The closest name, if one is close."""
    there: tuple[str, ...] = ()
    """All names, where none is close."""

    def __str__(self) -> str:
        if self.meant:
            return str(Message("suggestion-meant", name=self.meant))
        if not self.there:
            return ""
        shown = ", ".join(self.there[:_MOST_NAMED])
        return str(Message("suggestion-there", names=shown, left=len(self.there[_MOST_NAMED:])))


@dataclass(frozen=True, slots=True, init=False)
class Message:
    """What there is to say: a message of ``words/commands``, and the facts that it is about.

    It is turned into words when it is read, never before: errors that are caught cost none.

    Examples
    --------
    >>> told = Message("option-twice", option="--with", name="n")
    >>> told.facts["name"], str(told)
    ('n', '--with: n is given twice')
    """

    name: str
    facts: Mapping[str, Fact]

    def __init__(self, name: str, /, **facts: Fact) -> None:
        object.__setattr__(self, "name", name)
        object.__setattr__(self, "facts", facts)

    def __str__(self) -> str:
        from edgewise.words import commands

        written = {n: f if isinstance(f, int | str) else str(f) for n, f in self.facts.items()}
        return commands.say(self.name, **written)

    @property
    def suggestion(self) -> Suggestion | None:
        """The suggestion among its facts, or among theirs."""
        for fact in self.facts.values():
            found = fact.suggestion if isinstance(fact, Message) else fact
            if isinstance(found, Suggestion):
                return found
        return None


Fact: TypeAlias = int | str | Message | Suggestion
"""A number, a name or value as it is written, or what is said in a place of its own."""


@dataclass(frozen=True, slots=True, order=True)
class Place:
    """A spot in a text that a person wrote.

    Lines and columns count from 1; a 0 means "the whole file" or "the whole line".

    Examples
    --------
    >>> str(Place("rain.md", 31, 1))
    'rain.md:31:1'
    >>> str(Place("rain.md"))
    'rain.md'
    """

    file: str
    line: int = 0
    column: int = 0

    def __str__(self) -> str:
        file = visible(self.file).replace("\n", "<U+000A>")
        if len(file) > _LONGEST_PATH:
            file = bounded(file)
        if not self.line:
            return file
        if not self.column:
            return f"{file}:{self.line}"
        return f"{file}:{self.line}:{self.column}"

    def moved(self, columns: int) -> Place:
        """The place `columns` further right on the same line.

        Examples
        --------
        >>> str(Place("rain.md", 31, 1).moved(4))
        'rain.md:31:5'
        """
        return Place(self.file, self.line, self.column + columns) if self.column else self


class EdgewiseError(Exception):
    """Base of every error that edgewise raises for bad input.

    Parameters
    ----------
    told : Message or str
        What was found, what was expected, what to do next; without the place. A guest, whose
        messages are not in our catalogue, says it in words.
    place : Place, optional
        Where it was found.

    Examples
    --------
    >>> print(EdgewiseError("there is no net named Q", Place("rain.md", 3, 9)))
    rain.md:3:9: there is no net named Q
    """

    exit_code = 2
    details = ""
    """What else there is to look at, such as rows of a table; shown below the message."""

    def __init__(self, told: Message | str, place: Place | None = None) -> None:
        super().__init__(told)
        self.told = told
        self.place = place

    @property
    def message(self) -> str:
        """What it says, in words."""
        return bounded(visible(str(self.told)))

    @property
    def suggestion(self) -> Suggestion | None:
        """What may have been meant, if the error is about a name that nobody knows."""
        return self.told.suggestion if isinstance(self.told, Message) else None

    def __str__(self) -> str:
        return f"{self.place}: {self.message}" if self.place else self.message

    def parts(self) -> tuple[EdgewiseError, ...]:
        """The single errors it stands for: itself, unless it is a `Problems`."""
        return (self,)

    def placed(self, place: Place | None, *, instead: bool = False) -> EdgewiseError:
        """The same error at a place, unless it has one; `instead`: in place of the one it has.

        Everything else that it knows stays, whatever its class and however that is made.

        Examples
        --------
        >>> print(EdgewiseError("there is no net named Q").placed(Place("rain.md", 3, 9)))
        rain.md:3:9: there is no net named Q
        """
        return self._again(self.told, place if instead else self.place or place)

    def within(self, what: Fact) -> EdgewiseError:
        """The same error, with what it is about before its message.

        Examples
        --------
        >>> print(EdgewiseError("there is no net named Q").within("n=4"))
        n=4: there is no net named Q
        """
        return self._again(Message("within", what=what, told=self.told), self.place)

    def _again(self, told: Message | str, place: Place | None) -> Self:
        again = _restored(type(self), (told,), vars(self))
        again.told, again.place = told, place
        return again

    def __reduce__(self) -> tuple[Any, ...]:
        """How it goes to another process: by what it knows, not by what its class is made of."""
        return _restored, (type(self), self.args, vars(self))


def _restored(kind: type[_Kind], args: tuple[Any, ...], known: dict[str, Any]) -> _Kind:
    """An error of a class, made without its constructor, which may ask for something else."""
    error = kind.__new__(kind)
    error.args = args
    error.__setstate__(known)
    return error


class Caution(UserWarning):
    """Something that is told beside a result; a command writes it as one line."""


class TextError(EdgewiseError):
    """A text does not follow its format (YAML, formula, lesson)."""


class CircuitError(EdgewiseError):
    """A circuit that can't be built: unknown part, width, driver, loop, clock."""


class DesignError(EdgewiseError):
    """A procedure, an operand or a parameter that doesn't fit its circuit."""


class UnknownBit(EdgewiseError):
    """A number was asked of a word that has an X in it.

    Parameters
    ----------
    told : Message or str
    word : str
        As it stands: ``1X0``.
    what : str
        The name it was read by, if it has one.
    bits : tuple of int
        Those that are unknown.
    """

    def __init__(
        self, told: Message | str, word: str = "X", what: str = "", bits: tuple[int, ...] = ()
    ) -> None:
        super().__init__(told)
        self.word, self.what, self.bits = word, what, bits


class Omitted(EdgewiseError):
    """How many more errors there are than are told.

    Examples
    --------
    >>> print(Omitted.of(3))
    and 3 errors more; mend these first
    """

    left = 0

    @classmethod
    def of(cls, left: int, exit_code: int = 2) -> Omitted:
        """The error that stands for `left` others."""
        omitted = cls(Message("errors-left", count=left))
        omitted.left, omitted.exit_code = left, exit_code
        return omitted


class Problems(EdgewiseError):
    """Several errors, reported in one go, in the order of their places; at most `MOST_TOLD`.

    Examples
    --------
    >>> print(Problems([EdgewiseError("first"), EdgewiseError("second")]))
    first
    second
    """

    def __init__(self, errors: Iterable[EdgewiseError]) -> None:
        found = [single for error in errors for single in error.parts()]
        self.exit_code = max((e.exit_code for e in found), default=2)
        flat = [single for single in found if not isinstance(single, Omitted)]
        # Files keep the order in which they were met; inside a file, text order.
        files = {e.place.file if e.place else "": None for e in flat}
        order = {file: number for number, file in enumerate(files)}
        flat.sort(
            key=lambda e: (
                order[e.place.file if e.place else ""],
                (e.place.line, e.place.column) if e.place else (0, 0),
            )
        )
        left = sum(single.left for single in found if isinstance(single, Omitted))
        left += max(0, len(flat) - MOST_TOLD)
        told = flat[:MOST_TOLD]
        self.errors = (*told, Omitted.of(left, self.exit_code)) if left else tuple(told)
        super().__init__("")

    @property
    def message(self) -> str:
        """What they say, one below the other."""
        return bounded("\n".join(str(error) for error in self.errors))

    def parts(self) -> tuple[EdgewiseError, ...]:
        """The single errors, in order."""
        return self.errors

    def placed(self, place: Place | None, *, instead: bool = False) -> Problems:
        """The same errors, each at a place; see `EdgewiseError.placed`."""
        return Problems(error.placed(place, instead=instead) for error in self.errors)

    def within(self, what: Fact) -> Problems:
        """The same errors, each with what it is about before its message."""
        return Problems(error.within(what) for error in self.errors)


def raise_all(errors: Iterable[EdgewiseError]) -> None:
    """Raise the one error, or all of several as `Problems`; do nothing for none.

    An error that reads the same as one before it is reported once.

    Examples
    --------
    >>> raise_all([])
    >>> raise_all([EdgewiseError("no such net"), EdgewiseError("no such net")])
    Traceback (most recent call last):
    edgewise.errors.EdgewiseError: no such net
    """
    unique = list({str(error): error for error in reversed(list(errors))}.values())[::-1]
    if len(unique) == 1:
        raise unique[0]
    if unique:
        raise Problems(unique)


def nearest(name: str, known: Iterable[str]) -> Suggestion:
    """A suggestion for a message about a name that is not among the known ones.

    Names the closest known name; where none is close, lists what there is.

    Examples
    --------
    >>> print(nearest("carry-ot", ["sum", "carry-out"]))
    ; did you mean carry-out?
    >>> print(nearest("zzz", ["sum", "carry-out"]))
    ; there is: carry-out, sum
    """
    names = sorted(set(known))
    meant = close(name, names)
    return Suggestion(meant) if meant else Suggestion(there=tuple(names))


def unforeseen(wrong: BaseException) -> str:
    """One line for an error that nobody thought of: what it is, and how it is reported.

    Examples
    --------
    >>> unforeseen(ValueError("no such tide"))[:44]
    'unforeseen error: ValueError: no such tide; '
    """
    if isinstance(wrong, MemoryError):
        return str(Message("out-of-memory"))
    told = " ".join(f"{type(wrong).__name__}: {wrong}".split())[:300].removesuffix(":")
    shown = "".join(letter if letter.isprintable() else ascii(letter)[1:-1] for letter in told)
    return str(Message("unforeseen", error=shown))
