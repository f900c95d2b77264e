"""Bits that are 0, 1 or X (unknown), and words made of them.

A bit is a plain ``int``: 0, 1, or `X`. X follows Kleene's strong three-valued logic
(S. C. Kleene, *Introduction to Metamathematics*, 1952, § 64): an operator gives a known
result wherever the known operands alone decide it.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, field
from functools import reduce
from typing import Final, TypeAlias

from edgewise.codes import UNSIGNED, Code
from edgewise.errors import EdgewiseError, Message, UnknownBit

Bit: TypeAlias = int
"""0, 1, or `X`."""

X: Final[Bit] = 2
"""The unknown bit."""

_AND = ((0, 0, 0), (0, 1, X), (0, X, X))
_OR = ((0, 1, X), (1, 1, 1), (X, 1, X))
_XOR = ((0, 1, X), (1, 0, X), (X, X, X))
_NOT = (1, 0, X)


def bit_not(a: Bit) -> Bit:
    """NOT of one bit; NOT X is X.

    Examples
    --------
    >>> [bit_not(b) for b in (0, 1, X)] == [1, 0, X]
    True
    """
    return _NOT[a]


def bit_and(bits: Iterable[Bit]) -> Bit:
    """AND of any number of bits; a 0 decides, even beside an X.

    Examples
    --------
    >>> bit_and((0, X)), bit_and((1, X)) == X
    (0, True)
    """
    return reduce(lambda a, b: _AND[a][b], bits, 1)


def bit_or(bits: Iterable[Bit]) -> Bit:
    """OR of any number of bits; a 1 decides, even beside an X.

    Examples
    --------
    >>> bit_or((1, X)), bit_or((0, X)) == X
    (1, True)
    """
    return reduce(lambda a, b: _OR[a][b], bits, 0)


def bit_xor(bits: Iterable[Bit]) -> Bit:
    """Exclusive OR (odd parity) of any number of bits; one X makes it X.

    Examples
    --------
    >>> bit_xor((1, 1, 1)), bit_xor((1, X)) == X
    (1, True)
    """
    return reduce(lambda a, b: _XOR[a][b], bits, 0)


def bit_mux(select: Bit, when_0: Bit, when_1: Bit) -> Bit:
    """`when_1` if `select` is 1, `when_0` if it is 0.

    With an unknown `select` the result is known where both choices agree, as in the
    conditional operator of IEEE 1800-2023, 11.4.11.

    Examples
    --------
    >>> bit_mux(1, 0, 1), bit_mux(X, 1, 1), bit_mux(X, 0, 1) == X
    (1, 1, True)
    """
    if select == X:
        return when_0 if when_0 == when_1 else X
    return when_1 if select else when_0


def _bits(width: int) -> str:
    return "1 bit" if width == 1 else f"{width} bits"


@dataclass(frozen=True, slots=True)
class Word:
    """A fixed number of bits, index 0 the LSB, printed MSB left.

    Parameters
    ----------
    width : int
        Number of bits, at least 0.
    ones : int
        Has a 1 at every position whose bit is 1.
    unknown : int
        Has a 1 at every position whose bit is X; `ones` is 0 there.
    code : Code
        Which number it stands for; words of the same bits are equal, whatever their codes.

    Examples
    --------
    >>> word = Word.parse("0X10")
    >>> word.width, word.bit(0), word.bit(1), word.bit(2) == X
    (4, 0, 1, True)
    >>> str(word), str(Word.of(22, 6)), Word.of(22, 6).value
    ('0X10', '010110', 22)
    """

    width: int
    ones: int = 0
    unknown: int = 0
    code: Code = field(default=UNSIGNED, compare=False, repr=False)

    def __post_init__(self) -> None:
        if self.width < 0:
            raise EdgewiseError(Message("word-negative", width=self.width))
        if (self.ones | self.unknown) >> self.width or self.ones & self.unknown:
            raise EdgewiseError(Message("bits-unfit", width=self.width))

    @classmethod
    def of(cls, value: int, width: int) -> Word:
        """The word that holds `value`; a negative value is stored in two's complement.

        Raises
        ------
        EdgewiseError
            If `value` doesn't fit; the message gives the range.

        Examples
        --------
        >>> str(Word.of(5, 4)), str(Word.of(-3, 4))
        ('0101', '1101')
        """
        if width < 0:
            return cls(width)  # refuses
        if not -(1 << width) <= 2 * value < 2 << width:
            lowest, highest = -(1 << width >> 1), (1 << width) - 1
            raise EdgewiseError(
                Message(
                    "value-unfit",
                    value=value,
                    width=width,
                    most=highest,
                    lowest=lowest,
                    highest=highest >> 1,
                )
            )
        return cls(width, value & ((1 << width) - 1))

    @classmethod
    def from_bits(cls, bits: Iterable[Bit]) -> Word:
        """The word with these bits, LSB first.

        Examples
        --------
        >>> str(Word.from_bits([1, X, 0]))
        '0X1'
        """
        ones = unknown = width = 0
        for bit in bits:
            if bit == X:
                unknown |= 1 << width
            elif bit == 1:
                ones |= 1 << width
            elif bit != 0:
                raise EdgewiseError(Message("no-bit", found=str(bit)))
            width += 1
        return cls(width, ones, unknown)

    @classmethod
    def parse(cls, text: str) -> Word:
        """Read a word as it is printed, MSB left; blanks and ``_`` may group the digits.

        Examples
        --------
        >>> Word.parse("01 10").value
        6
        """
        digits = text.replace(" ", "").replace("_", "")
        odd = digits.strip("01Xx")
        if odd:
            raise EdgewiseError(Message("no-word", found=repr(text), odd=repr(odd[0])))
        return cls.from_bits(X if d in "Xx" else int(d) for d in reversed(digits))

    @classmethod
    def all_unknown(cls, width: int) -> Word:
        """The word of `width` X.

        Examples
        --------
        >>> str(Word.all_unknown(3))
        'XXX'
        """
        return cls(width, 0, (1 << width) - 1)

    def bit(self, index: int) -> Bit:
        """The bit at `index`, 0 being the LSB.

        Raises
        ------
        EdgewiseError
            If the word has no such bit.

        Examples
        --------
        >>> Word.parse("10").bit(1)
        1
        """
        if not 0 <= index < self.width:
            raise EdgewiseError(
                Message("bit-outside", index=index, width=self.width, top=self.width - 1)
            )
        return X if self.unknown >> index & 1 else self.ones >> index & 1

    def slice(self, high: int, low: int) -> Word:
        """The bits `high` down to `low`, both included, as a word.

        Examples
        --------
        >>> str(Word.parse("010110").slice(4, 1))
        '1011'
        """
        if not 0 <= low <= high < self.width:
            raise EdgewiseError(
                Message("no-slice", high=high, low=low, width=self.width, top=self.width - 1)
            )
        mask = (1 << (high - low + 1)) - 1
        return Word(high - low + 1, self.ones >> low & mask, self.unknown >> low & mask)

    @property
    def known(self) -> bool:
        """Whether no bit is X."""
        return not self.unknown

    @property
    def readable(self) -> bool:
        """Whether it stands for a number."""
        return self.known and self.code.number(self.ones, self.width) is not None

    @property
    def value(self) -> int:
        """The number that it stands for: unsigned, unless it has another code.

        Raises
        ------
        UnknownBit
            If a bit is X, or a BCD digit above 9: such a word has no value.

        Examples
        --------
        >>> Word.parse("110").value, Word(3, 0b110, code=Code("twos-complement")).value
        (6, -2)
        >>> Word.parse("1X0").value
        Traceback (most recent call last):
        edgewise.errors.UnknownBit: 1X0 has no value: bit 1 is unknown (X)
        """
        if self.unknown:
            places = [i for i in range(self.width) if self.unknown >> i & 1]
            told = Message("bits-unknown", word=str(self), count=len(places), first=places[0])
            raise UnknownBit(told, str(self), bits=tuple(places))
        number = self.code.number(self.ones, self.width)
        if number is None:
            raise UnknownBit(Message("digit-none", what="none", word=str(self)), str(self))
        return number

    @property
    def signed(self) -> int:
        """The two's-complement reading; `UnknownBit` if a bit is X.

        Examples
        --------
        >>> Word.parse("110").signed
        -2
        """
        return Word(self.width, self.ones, self.unknown, Code("twos-complement")).value

    def __iter__(self) -> Iterator[Bit]:
        """The bits, LSB first."""
        return (self.bit(i) for i in range(self.width))

    def __len__(self) -> int:
        return self.width

    def __str__(self) -> str:
        return "".join("01X"[bit] for bit in reversed(list(self)))

    def _bitwise(self, other: Word, operator: Callable[[tuple[Bit, Bit]], Bit]) -> Word:
        if self.width != other.width:
            raise EdgewiseError(
                Message(
                    "widths-bitwise",
                    first=str(self),
                    width=self.width,
                    second=str(other),
                    other=other.width,
                )
            )
        return Word.from_bits(operator(pair) for pair in zip(self, other, strict=True))

    def __and__(self, other: Word) -> Word:
        return self._bitwise(other, bit_and)

    def __or__(self, other: Word) -> Word:
        return self._bitwise(other, bit_or)

    def __xor__(self, other: Word) -> Word:
        return self._bitwise(other, bit_xor)

    def __invert__(self) -> Word:
        return Word.from_bits(bit_not(bit) for bit in self)
