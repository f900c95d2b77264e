"""Whole numbers as terms: arithmetic on bits of its own, apart from any circuit.

A number is kept in two's complement and grows as far as its operators need, so that
nothing ever wraps. The carry is written differently from the gates of an adder part
(``a xor ((a xor b) and (a xor c))``), so that a comparison of a circuit with its purpose is
a comparison of two different things.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Final

from edgewise.arithmetic import WIDEST
from edgewise.engines.symbolic.terms import FALSE, TRUE, Term, Terms
from edgewise.engines.symbolic.unrolling import Rail
from edgewise.errors import Message, TextError


@dataclass(frozen=True, slots=True)
class Whole:
    """A whole number in two's complement: LSB first, the last bit the sign.

    `unknown` is true where the number has no value because a bit in it is X.
    """

    bits: tuple[Term, ...]
    unknown: Term = FALSE

    @property
    def constant(self) -> int | None:
        """Its value, if that is the same for all operands."""
        if self.unknown != FALSE or any(bit > TRUE for bit in self.bits):
            return None
        value = sum(bit << i for i, bit in enumerate(self.bits))
        return value - (self.bits[-1] << len(self.bits))


@dataclass(frozen=True, slots=True)
class Truth:
    """True where `one`; without a meaning where `unknown`."""

    one: Term
    unknown: Term = FALSE


ZERO: Final = Whole((FALSE,))


@dataclass(frozen=True, slots=True)
class Words:
    """Operators on whole numbers; every result is exact.

    Examples
    --------
    >>> words = Words(Terms())
    >>> words.multiply(words.number(-6), words.number(7)).constant
    -42
    """

    terms: Terms

    def number(self, value: int) -> Whole:
        """A constant."""
        width = value.bit_length() + 1
        return Whole(tuple(value >> i & 1 for i in range(width)))

    def unsigned(self, bits: Iterable[Term]) -> Whole:
        """The unsigned reading of bits, LSB first."""
        return self._trim([*bits, FALSE])

    def reading(self, rails: Iterable[Rail]) -> Whole:
        """The unsigned reading of a word of rails, LSB first; no value if a bit is X."""
        rails = tuple(rails)
        whole = self.unsigned(rail.one for rail in rails)
        return Whole(whole.bits, self.terms.any_of(rail.unknown for rail in rails))

    def add(self, a: Whole, b: Whole) -> Whole:
        """The sum a + b."""
        return self._sum(a, b, FALSE)

    def subtract(self, a: Whole, b: Whole) -> Whole:
        """The difference a - b."""
        return self._sum(a, Whole(tuple(bit ^ 1 for bit in b.bits), b.unknown), TRUE)

    def multiply(self, a: Whole, b: Whole) -> Whole:
        """The product a * b, row by row; the sign bit of b weighs negative."""
        _bounded(len(a.bits) + len(b.bits))
        if sum(bit > TRUE for bit in a.bits) < sum(bit > TRUE for bit in b.bits):
            a, b = b, a  # the rows come from the side with fewer free bits
        result = Whole((FALSE,), self._either_unknown(a, b))
        for i, bit in enumerate(b.bits):
            if bit == FALSE:
                continue
            row = Whole((FALSE,) * i + tuple(self.terms.both(bit, one) for one in a.bits))
            last = i == len(b.bits) - 1
            result = self.subtract(result, row) if last else self.add(result, row)
        return result

    def power(self, a: Whole, exponent: int) -> Whole:
        """`a` to a constant power."""
        result = self.number(1)
        for _ in range(exponent):
            result = self.multiply(result, a)
        return result

    def divide(self, a: Whole, divisor: int) -> tuple[Whole, Whole]:
        """Quotient, rounded down, and remainder of a by a constant other than 0."""
        if divisor < 0:
            quotient, rest = self.divide(self.subtract(ZERO, a), -divisor)
            return quotient, self.subtract(ZERO, rest)
        if divisor & (divisor - 1) == 0:
            shift = divisor.bit_length() - 1
            padded = self._extend(a.bits, shift + 1)
            low = self._trim([*padded[:shift], FALSE])
            return Whole(padded[shift:], a.unknown), Whole(low.bits, a.unknown)
        lift = 0 if a.bits[-1] == FALSE else 1 << len(a.bits)  # makes the dividend positive
        lifted = self.add(a, self.number(lift * divisor))
        quotient, rest = self._long_division(lifted.bits, divisor)
        quotient = self.subtract(quotient, self.number(lift))
        return Whole(quotient.bits, a.unknown), Whole(rest.bits, a.unknown)

    def divide_by(self, a: Whole, b: Whole) -> tuple[Whole, Whole]:
        """Quotient, rounded down, and remainder of a by a number that differs from set to set.

        Where b is 0 there is no quotient: it is unknown there.
        """
        t = self.terms
        zero = t.any_of(b.bits) ^ 1
        unknown = t.any_of((a.unknown, b.unknown, zero))
        if b.bits[-1] != FALSE:  # the quotient of -a by -b is the same, the remainder turned
            a = self.choose(b.bits[-1], a, self.subtract(ZERO, a))
        down = a.bits[-1]
        divisor = self.choose(b.bits[-1], b, self.subtract(ZERO, b))
        # Rounded down, a negative a is -1 - (-1 - a): its complement is divided in its place.
        bits = [t.differ(bit, down) for bit in a.bits[:-1]]
        places, rest = self._by_places(bits, self.unsigned(divisor.bits[:-1]))
        quotient = self._trim([*(t.differ(bit, down) for bit in places), down])
        rest = self.choose(down, rest, self.subtract(self.subtract(divisor, rest), self.number(1)))
        rest = self.choose(b.bits[-1], rest, self.subtract(ZERO, rest))
        return Whole(quotient.bits, unknown), Whole(rest.bits, unknown)

    def _by_places(self, bits: Sequence[Term], divisor: Whole) -> tuple[list[Term], Whole]:
        """Quotient bits and remainder of a number of 0 or more by one of 1 or more."""
        rest, quotient = ZERO, [FALSE] * len(bits)
        width = len(divisor.bits) - 1
        for i in reversed(range(len(bits))):
            rest = self._trim([bits[i], *rest.bits])
            lowered = self.subtract(rest, divisor)
            quotient[i] = lowered.bits[-1] ^ 1
            rest = self.choose(quotient[i], rest, lowered)
            rest = self.unsigned(self._extend(rest.bits, width)[:width])
        return quotient, rest

    def _long_division(self, bits: Sequence[Term], divisor: int) -> tuple[Whole, Whole]:
        rest, quotient = ZERO, [FALSE] * len(bits)
        for i in reversed(range(len(bits))):
            rest = self._trim([bits[i], *rest.bits])
            lowered = self.subtract(rest, self.number(divisor))
            quotient[i] = lowered.bits[-1] ^ 1
            rest = self.choose(quotient[i], rest, lowered)
            width = divisor.bit_length()  # the rest is below the divisor
            rest = self.unsigned(self._extend(rest.bits, width)[:width])
        return self.unsigned(quotient), rest

    def choose(self, select: Term, when_0: Whole, when_1: Whole) -> Whole:
        """`when_1` where `select`, else `when_0`."""
        width = max(len(when_0.bits), len(when_1.bits))
        pairs = zip(self._extend(when_0.bits, width), self._extend(when_1.bits, width), strict=True)
        unknown = self.terms.choose(select, when_0.unknown, when_1.unknown)
        return Whole(self._trim([self.terms.choose(select, *p) for p in pairs]).bits, unknown)

    def equal(self, a: Whole, b: Whole) -> Truth:
        """Where a == b."""
        width = max(len(a.bits), len(b.bits))
        pairs = zip(self._extend(a.bits, width), self._extend(b.bits, width), strict=True)
        same = self.terms.all_of(self.terms.differ(x, y) ^ 1 for x, y in pairs)
        return Truth(same, self._either_unknown(a, b))

    def less(self, a: Whole, b: Whole) -> Truth:
        """Where a < b."""
        return Truth(self.subtract(a, b).bits[-1], self._either_unknown(a, b))

    def _sum(self, a: Whole, b: Whole, carry: Term) -> Whole:
        t = self.terms
        width = max(len(a.bits), len(b.bits)) + 1
        _bounded(width)
        bits = []
        for x, y in zip(self._extend(a.bits, width), self._extend(b.bits, width), strict=True):
            either = t.differ(x, y)
            bits.append(t.differ(either, carry))
            carry = t.differ(x, t.both(either, t.differ(x, carry)))
        return Whole(self._trim(bits).bits, self._either_unknown(a, b))

    def _either_unknown(self, a: Whole, b: Whole) -> Term:
        return self.terms.either(a.unknown, b.unknown)

    @staticmethod
    def _extend(bits: Sequence[Term], width: int) -> tuple[Term, ...]:
        return (*bits, *(bits[-1],) * (width - len(bits)))

    @staticmethod
    def _trim(bits: list[Term]) -> Whole:
        """Without repetitions of the sign."""
        while len(bits) > 1 and bits[-1] == bits[-2]:
            bits.pop()
        return Whole(tuple(bits))


def _bounded(width: int) -> None:
    if width > WIDEST:
        raise TextError(Message("number-large", most=WIDEST))
