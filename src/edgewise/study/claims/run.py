"""Readings: one run of a design, and the words that a formula reads in it."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from functools import cached_property
from typing import Final

from edgewise.arithmetic import Value
from edgewise.bits import Word
from edgewise.codes import UNSIGNED, Code
from edgewise.design import Design
from edgewise.engines import reference
from edgewise.errors import Message, Problems, TextError, UnknownBit
from edgewise.operands import Operands
from edgewise.trace import Trace


@dataclass(frozen=True)
class Run:
    """One run of a design, made when something in it is first asked for.

    Parameters
    ----------
    design : Design
    given : mapping of str to int
        Operands; checked when first used, so that what needs none (``edges == 2*n``) works
        without.
    make : function, optional
        The engine's ``run``; the reference engine unless given.
    """

    design: Design
    given: Mapping[str, int]
    make: Callable[[Design, Mapping[str, int]], Trace] = reference.run

    @cached_property
    def operands(self) -> Operands:
        """The operands, complete and in range."""
        try:
            return self.design.values(self.given)
        except Problems as several:
            raise several.errors[0] from None

    @cached_property
    def trace(self) -> Trace:
        """The rows."""
        return self.make(self.design, self.operands)


@dataclass(frozen=True, slots=True)
class Reading(Word):
    """A word that knows where it was read, so that an X in it can be told of by name."""

    what: str = ""

    @property
    def value(self) -> int:
        """The number that it stands for; `UnknownBit` names the word and its bits."""
        if not self.unknown:
            return _number(self)
        unknown = tuple(i for i in range(self.width) if self.unknown >> i & 1)
        told = Message(
            "word-without-value",
            name=self.what,
            word=str(self),
            width=self.width,
            count=len(unknown),
            before=", ".join(map(str, unknown[:-1])),
            last=unknown[-1],
        )
        raise UnknownBit(told, str(self), self.what, unknown)

    def __str__(self) -> str:
        return str(Word(self.width, self.ones, self.unknown))


READ: Final[Mapping[str, Code]] = {
    "value": UNSIGNED,
    "signed": Code("twos-complement"),
    "ones_complement": Code("ones-complement"),
    "sign_magnitude": Code("sign-magnitude"),
    "bcd": Code("bcd"),
    "gray": Code("gray"),
}
"""Functions that read a word in a code of their own, whatever is declared."""
WORD_FUNCTIONS: Final = ("known", *READ)


def of_word(function: str, value: Value) -> Value:
    """One of `WORD_FUNCTIONS` of a word.

    Raises
    ------
    TextError
        Of what is no word, or of a width that the code has no words of.
    UnknownBit
        A number of a word with an X in it, or of one that no number has.

    Examples
    --------
    >>> of_word("signed", Word.parse("110")), of_word("known", Word.parse("1X0"))
    (-2, False)
    >>> of_word("bcd", Word.parse("01000111")), of_word("gray", Word.parse("0111"))
    (47, 5)
    """
    if not isinstance(value, Word):
        raise TextError(Message("word-expected", function=function, found=value))
    if function == "known":
        return value.known
    if not value.known:
        return value.value  # tells which bits are unknown
    return _number(replace(value, code=READ[function]))


def _number(word: Word) -> int:
    word.code.numbers(word.width)  # refuses widths that it has no words of
    number = word.code.number(word.ones, word.width)
    if number is None:
        what = getattr(word, "what", "")
        why = Message("digit-none", what=what or "none", word=str(word))
        raise UnknownBit(why, str(word), what)
    return number
