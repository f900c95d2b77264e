"""Codes: which number a word of bits stands for, and which word a number has.

Unsigned, two's and ones' complement, sign and magnitude, BCD (8421) and reflected Gray code are as
in Mano and Ciletti, *Digital Design*, 1.5 to 1.7, and Wakerly, *Digital Design: Principles and
Practices*, 2.5 to 2.11 (from memory).
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Final, Literal, TypeAlias, get_args

from edgewise.errors import EdgewiseError, Message

CodeName: TypeAlias = Literal[
    "unsigned", "twos-complement", "ones-complement", "sign-magnitude", "bcd", "gray"
]
NAMES: Final[tuple[CodeName, ...]] = get_args(CodeName)
DIGIT: Final = 4
"""Bits of a BCD digit."""


@dataclass(frozen=True, slots=True)
class Code:
    """How words of some width are read as numbers.

    Ones' complement and sign and magnitude have two words for 0; the one without a sign is the
    word of 0, the other is a word that no number has. Nor has a word with a BCD digit above 9.

    Parameters
    ----------
    name : str

    Examples
    --------
    >>> for name in NAMES:
    ...     code = Code(name)
    ...     print(f"{name:16} 1001 is {code.number(0b1001, 4)}, of {code.numbers(4)}")
    unsigned         1001 is 9, of range(0, 16)
    twos-complement  1001 is -7, of range(-8, 8)
    ones-complement  1001 is -6, of range(-7, 8)
    sign-magnitude   1001 is -1, of range(-7, 8)
    bcd              1001 is 9, of range(0, 10)
    gray             1001 is 14, of range(0, 16)
    """

    name: CodeName = "unsigned"

    @property
    def signed(self) -> bool:
        """Whether it has numbers below 0."""
        return self.name in _SIGNED

    @property
    def total(self) -> bool:
        """Whether every word is the word of a number."""
        return self.name in {"unsigned", "twos-complement", "gray"}

    def numbers(self, width: int) -> range:
        """The numbers that have a word of this width.

        Raises
        ------
        EdgewiseError
            A width that the code has no words of: no bit, or BCD that is not digits of 4 bits.
        """
        if width < 1:
            raise EdgewiseError(Message("code-width-none"))
        if self.name == "bcd":
            if width % DIGIT:
                raise EdgewiseError(Message("code-width-bcd", width=width, digit=DIGIT))
            return range(10 ** (width // DIGIT))
        if not self.signed:
            return range(1 << width)
        half = 1 << (width - 1)
        return range(-half if self.name == "twos-complement" else 1 - half, half)

    def pattern(self, number: int, width: int) -> int:
        """The word of a number in range, bit 0 its LSB.

        Examples
        --------
        >>> [f"{Code(name).pattern(-3, 4):04b}" for name in NAMES[1:4]]
        ['1101', '1100', '1011']
        >>> f"{Code('bcd').pattern(47, 8):08b}", f"{Code('gray').pattern(5, 4):04b}"
        ('01000111', '0111')
        """
        return _PATTERN[self.name](number, width)

    def number(self, pattern: int, width: int) -> int | None:
        """The number that a word stands for; nothing for a word with a BCD digit above 9.

        The second word of 0 is read as 0.
        """
        return _NUMBER[self.name](pattern, width)

    def has(self, pattern: int, width: int) -> bool:
        """Whether a word is the word of a number.

        Examples
        --------
        >>> Code("ones-complement").has(0b1111, 4), Code("bcd").has(0b1010, 4)
        (False, False)
        """
        number = self.number(pattern, width)
        return number is not None and self.pattern(number, width) == pattern


UNSIGNED: Final = Code()
_SIGNED: Final = frozenset({"twos-complement", "ones-complement", "sign-magnitude"})


def _sign(number: int, width: int) -> int:
    """The sign bit in its place."""
    return (number < 0) << (width - 1)


def _digits(number: int, width: int) -> int:
    return int(f"0{number}", 16) if number >= 0 and width else 0


def _from_digits(pattern: int, width: int) -> int | None:
    written = f"{pattern:x}"
    return int(written) if written.isdecimal() and width else None


def _gray(number: int, _width: int) -> int:
    return number ^ number >> 1


def _from_gray(pattern: int, _width: int) -> int:
    number, shift = pattern, 1
    while pattern >> shift:
        number ^= pattern >> shift
        shift += 1
    return number


def _magnitude(pattern: int, width: int) -> int:
    size = pattern & ((1 << (width - 1)) - 1)
    return -size if pattern >> (width - 1) else size


_PATTERN: Final[Mapping[CodeName, Callable[[int, int], int]]] = {
    "unsigned": lambda number, _: number,
    "twos-complement": lambda number, width: number & ((1 << width) - 1),
    "ones-complement": lambda number, width: (number - (number < 0)) & ((1 << width) - 1),
    "sign-magnitude": lambda number, width: abs(number) | _sign(number, width),
    "bcd": _digits,
    "gray": _gray,
}
_NUMBER: Final[Mapping[CodeName, Callable[[int, int], int | None]]] = {
    "unsigned": lambda pattern, _: pattern,
    "twos-complement": lambda pattern, width: pattern - (pattern >> max(width - 1, 0) << width),
    "ones-complement": lambda pattern, width: (
        pattern - (pattern >> (width - 1)) * ((1 << width) - 1)
    ),
    "sign-magnitude": _magnitude,
    "bcd": _from_digits,
    "gray": _from_gray,
}
