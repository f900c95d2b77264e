"""What went wrong, and where: the one base error, and places in text."""

from __future__ import annotations

import difflib
import re
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any, Final, Self, TypeVar

MOST_TOLD: Final = 20
"""Errors told in one go, at most; of the others only their number."""
_MOST_COMPARED: Final = 500
"""Names that are compared letter by letter with one that is not known, at most."""
_LONGEST_COMPARED: Final = 60
"""Characters in such a name, at most."""
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
    message : str
        What was found, what was expected, what to do next; without the place.
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

    def __init__(self, message: str, place: Place | None = None) -> None:
        message = bounded(visible(message))
        super().__init__(message)
        self.message = message
        self.place = place

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
        return self._again(self.message, place if instead else self.place or place)

    def within(self, what: str) -> EdgewiseError:
        """The same error, with what it is about before its message.

        Examples
        --------
        >>> print(EdgewiseError("there is no net named Q").within("n=4: "))
        n=4: there is no net named Q
        """
        return self._again(what + self.message, self.place)

    def _again(self, message: str, place: Place | None) -> Self:
        again = _restored(type(self), (message,), vars(self))
        again.message, again.place = message, place
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
    message : str
    word : str
        As it stands: ``1X0``.
    what : str
        The name it was read by, if it has one.
    bits : tuple of int
        Those that are unknown.
    """

    def __init__(
        self, message: str, word: str = "X", what: str = "", bits: tuple[int, ...] = ()
    ) -> None:
        super().__init__(message)
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
        omitted = cls(f"and {left:,} error{'s' * (left > 1)} more; mend these first")
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
        super().__init__("\n".join(str(e) for e in self.errors))
        self.place = None

    def parts(self) -> tuple[EdgewiseError, ...]:
        """The single errors, in order."""
        return self.errors

    def placed(self, place: Place | None, *, instead: bool = False) -> Problems:
        """The same errors, each at a place; see `EdgewiseError.placed`."""
        return Problems(error.placed(place, instead=instead) for error in self.errors)

    def within(self, what: str) -> Problems:
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


def close(name: str, known: Iterable[str]) -> str | None:
    """The closest known name, if one is close.

    Examples
    --------
    >>> close("Carry-ot", ["sum", "carry-out"]), close("zzz", ["sum", "carry-out"])
    ('carry-out', None)
    """
    if len(name) > _LONGEST_COMPARED:
        return None
    likely = _likely(name, sorted(set(known)))
    found = difflib.get_close_matches(name, likely, n=1, cutoff=0.6)
    if not found:
        lowered = {n.lower(): n for n in likely}
        found = [lowered[m] for m in difflib.get_close_matches(name.lower(), lowered, n=1)]
    return found[0] if found else None


def nearest(name: str, known: Iterable[str]) -> str:
    """A suggestion to append to a message about an unknown name.

    Names the closest known name; where none is close, lists what there is.

    Examples
    --------
    >>> nearest("carry-ot", ["sum", "carry-out"])
    '; did you mean carry-out?'
    >>> nearest("zzz", ["sum", "carry-out"])
    '; there is: carry-out, sum'
    """
    names = sorted(set(known))
    meant = close(name, names)
    if meant:
        return f"; did you mean {meant}?"
    if not names:
        return ""
    shown = ", ".join(names[:12]) + (", …" if len(names) > 12 else "")
    return f"; there is: {shown}"


def _likely(name: str, names: list[str]) -> list[str]:
    """Those of many names that are worth being compared letter by letter.

    A ratio of 0.6 needs lengths that differ by no more than a factor of 7/3.
    """
    size = len(name)
    fitting = [n for n in names if 3 * size <= 7 * len(n) and 3 * len(n) <= 7 * size]
    if len(fitting) <= _MOST_COMPARED:
        return fitting
    lowered = name.lower()
    first = lowered[:1]
    begun = [n for n in fitting if n[:1].lower() == first]
    exact = [n for n in begun if n.lower() == lowered]
    near = sorted(begun, key=lambda n: (abs(len(n) - size), n))
    return [*exact, *near[:_MOST_COMPARED]]


def unforeseen(wrong: BaseException) -> str:
    """One line for an error that nobody thought of: what it is, and how it is reported.

    Examples
    --------
    >>> unforeseen(ValueError("no such tide"))[:44]
    'unforeseen error: ValueError: no such tide; '
    """
    if isinstance(wrong, MemoryError):
        return "there is not enough memory for this; ask for less at once, or allow more"
    told = " ".join(f"{type(wrong).__name__}: {wrong}".split())[:300].removesuffix(":")
    shown = "".join(letter if letter.isprintable() else ascii(letter)[1:-1] for letter in told)
    return (
        f"unforeseen error: {shown}; this is a mistake in edgewise: please report it with the file"
        " and what edgewise --debug prints"
    )
