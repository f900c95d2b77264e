"""What a learner wrote in one cell, read as a word."""

from __future__ import annotations

import re
import unicodedata
from dataclasses import dataclass, replace
from enum import StrEnum
from typing import Final

from edgewise.bits import Word

LONGEST: Final = 400
"""Characters in an answer, at most; a longer one is not read."""
_GROUPING: Final = re.compile(r"[\s_'\u2019]+")
_BITS: Final = re.compile(r"[01x]+")
_BINARY: Final = re.compile(r"0b([01x]+)")
_HEX: Final = re.compile(r"0x([0-9a-f]+)|([0-9a-f]+)h|\$([0-9a-f]+)")
_DECIMAL: Final = re.compile(r"[0-9]+")
_BARE_HEX: Final = re.compile(r"[0-9a-f]*[a-f][0-9a-f]*")
_SIGNED: Final = re.compile(r"[+\u2212-][0-9]+")
_ROUNDED: Final = re.compile(r"[0-9.]+e\+?[0-9]+|[0-9]+\.[0-9]+")
_TRUTH: Final = {"true": 1, "false": 0}


class Way(StrEnum):
    """How a text was read."""

    BLANK = "blank"
    BITS = "bits"
    """Every bit was written."""
    PADDED = "padded"
    """Bits, with zeros on the left added or left out."""
    BINARY = "binary"
    """With a sign that says so, ``0b``."""
    DECIMAL = "decimal"
    HEX = "hex"
    """With a sign that says so, ``0x``, ``h`` or ``$``."""
    BARE_HEX = "bare-hex"
    SIGNED = "signed"
    """A negative number, in two's complement."""
    TRUTH = "truth"
    """``TRUE`` or ``FALSE``, as a spreadsheet writes 1 and 0 of its own accord."""
    TOO_LARGE = "too-large"
    ROUNDED = "rounded"
    """A number whose digits a spreadsheet has rounded away."""
    UNREADABLE = "unreadable"


_DOUBTFUL: Final = frozenset({Way.BARE_HEX, Way.SIGNED, Way.TRUTH})


@dataclass(frozen=True, slots=True)
class Reading:
    """A text, and the word that it was read as.

    Parameters
    ----------
    text : str
        As written.
    way : Way
    word : Word, optional
        None where nothing can be read.
    other : Word, optional
        What it would be in decimal, where its digits could be meant so as well.
    unsure : bool
        Whether ``0X`` in it could be a bit and an unknown bit, or the sign of a hexadecimal number.
    """

    text: str
    way: Way
    word: Word | None = None
    other: Word | None = None
    unsure: bool = False

    @property
    def digits(self) -> str:
        """The bits, MSB left; nothing where nothing can be read."""
        return "" if self.word is None else str(self.word)

    @property
    def doubtful(self) -> bool:
        """Whether the learner may have meant something else, so that the reading is shown."""
        return self.unsure or self.other is not None or self.way in _DOUBTFUL

    def in_decimal(self) -> Reading:
        """The same read the other way, if there is one."""
        return self if self.other is None else Reading(self.text, Way.DECIMAL, self.other, None)


def read(text: str, width: int) -> Reading:
    """Read an answer of `width` bits; the right answer plays no part in it.

    Blanks, ``_`` and ``'`` may group digits; letters may be upper or lower case, digits of any
    script's full width. Where all digits are 0 and 1 and could be bits or a decimal number, they
    are bits, and `Reading.other` has the other reading.

    Examples
    --------
    >>> for text in ("01 0110", "22", "0x16", "16h", "10110", "10", "1X", "-3", "two", "64"):
    ...     reading = read(text, 6)
    ...     print(text, reading.way, reading.word, reading.other, reading.doubtful)
    01 0110 bits 010110 None False
    22 decimal 010110 None False
    0x16 hex 010110 None False
    16h hex 010110 None False
    10110 padded 010110 None False
    10 padded 000010 001010 True
    1X padded 00001X None False
    -3 signed 111101 None True
    two unreadable None None False
    64 too-large None None False
    """
    if len(text) > LONGEST:
        return Reading(text, Way.UNREADABLE)
    plain = _GROUPING.sub("", unicodedata.normalize("NFKC", text).casefold())
    if not plain:
        return Reading(text, Way.BLANK)
    if _BITS.fullmatch(plain):
        return _bits(text, plain, width)
    if found := _BINARY.fullmatch(plain):
        return _word(text, Way.BINARY, _padded(found[1], width))
    if found := _HEX.fullmatch(plain):
        return _number(text, Way.HEX, int(found[1] or found[2] or found[3], 16), width)
    if _DECIMAL.fullmatch(plain):
        return _number(text, Way.DECIMAL, int(plain), width)
    if _BARE_HEX.fullmatch(plain):
        return _number(text, Way.BARE_HEX, int(plain, 16), width)
    if _SIGNED.fullmatch(plain):
        sign = 1 if plain[0] == "+" else -1
        return _number(text, Way.SIGNED, sign * int(plain[1:]), width)
    if plain in _TRUTH and width == 1:
        return Reading(text, Way.TRUTH, Word.of(_TRUTH[plain], 1))
    return Reading(text, Way.ROUNDED if _ROUNDED.fullmatch(plain) else Way.UNREADABLE)


def _bits(text: str, digits: str, width: int) -> Reading:
    """Digits that are all 0, 1 or X; 0x11 is seventeen, but of a word of three 0X1 are the bits."""
    if _HEX.fullmatch(digits):
        fits = len(digits) == width
        if not fits or "X" not in text:
            return replace(_number(text, Way.HEX, int(digits, 16), width), unsure=fits)
        return Reading(text, Way.BITS, Word.parse(digits), None, unsure=True)
    word = _padded(digits, width)
    number = int(digits) if "x" not in digits else -1
    decimal = Word.of(number, width) if 0 <= number < 1 << width else None
    if len(digits) == width:
        return Reading(text, Way.BITS, word)
    if word is None:
        return _word(text, Way.DECIMAL, decimal)
    other = decimal if word != decimal else None  # 0 and 1 are the same both ways
    return Reading(text, Way.PADDED, word, other)


def _padded(digits: str, width: int) -> Word | None:
    """The word of these digits, with zeros on the left added or left out; None if it is wider."""
    fitting = digits.lstrip("0").rjust(width, "0")
    return Word.parse(fitting) if len(fitting) == width else None


def _number(text: str, way: Way, number: int, width: int) -> Reading:
    lowest = -(1 << width >> 1)
    return _word(text, way, Word.of(number, width) if lowest <= number < 1 << width else None)


def _word(text: str, way: Way, word: Word | None) -> Reading:
    return Reading(text, way, word) if word is not None else Reading(text, Way.TOO_LARGE)
