"""The operand sets of a design, numbered."""

from __future__ import annotations

from collections.abc import Container, Iterable, Mapping
from dataclasses import dataclass
from functools import cached_property
from math import prod
from typing import Final

from edgewise.codes import UNSIGNED, Code
from edgewise.design import Design, Operand
from edgewise.engines.symbolic.readings import inside
from edgewise.engines.symbolic.terms import Term, Terms
from edgewise.engines.symbolic.variables import Variable
from edgewise.errors import DesignError, Message

LARGEST: Final = 63
"""Bits in the number of an operand set, at most."""


@dataclass(frozen=True)
class Space:
    """All sets of operands of the given widths.

    Set number 0 has every operand 0, and the last operand counts fastest: the number is the
    operands' bits written one operand after the other, MSB left, as nested loops would visit
    them. With operands a (2 bits) and b (3 bits), number ``0b01_110`` is a = 1, b = 6.

    In a code with words that no number has, some numbers are those of no set; see `inside`.

    Parameters
    ----------
    widths : tuple of (str, int)
        Name and bits of each operand, in order.
    codes : tuple of Code
        Which numbers the words of each stand for; unsigned, all of them, unless given.

    Raises
    ------
    DesignError
        On use, if the number of a set would need more than 63 bits.

    Examples
    --------
    >>> space = Space((("a", 2), ("b", 3)))
    >>> space.size, space.decode(0b01_110), space.number({"a": 1, "b": 6})
    (32, {'a': 1, 'b': 6}, 14)
    """

    widths: tuple[tuple[str, int], ...]
    codes: tuple[Code, ...] = ()

    @classmethod
    def of(cls, design: Design, fixed: Container[str] = ()) -> Space:
        """The space of a design's operands, but of those that are fixed.

        Examples
        --------
        >>> from edgewise import catalogue
        >>> Space.of(catalogue.design("serial-adder", n=16)).size
        4294967296
        """
        free = [operand for operand in design.operands if operand.name not in fixed]
        return cls(tuple((o.name, o.width) for o in free), tuple(o.code for o in free))

    @cached_property
    def bits(self) -> int:
        """Bits in the number of a set."""
        bits = sum(width for _, width in self.widths)
        if bits > LARGEST:
            raise DesignError(Message("operand-bits-many", count=bits, most=LARGEST))
        return bits

    @property
    def size(self) -> int:
        """Numbers of operand sets."""
        return 1 << self.bits

    @property
    def operands(self) -> tuple[Operand, ...]:
        """Each operand, in order."""
        codes = self.codes or (UNSIGNED,) * len(self.widths)
        return tuple(
            Operand(name, width, code=code)
            for (name, width), code in zip(self.widths, codes, strict=True)
        )

    @property
    def sets(self) -> int:
        """Number of operand sets.

        Examples
        --------
        >>> two_digits = Space((("a", 8),), (Code("bcd"),))
        >>> two_digits.size, two_digits.sets
        (256, 100)
        """
        return prod(one.numbers.stop - one.numbers.start for one in self.operands)

    def inside(self, terms: Terms) -> Term:
        """Where the number of a set is that of one: true for all, unless a code has other words."""
        return inside(terms, self.operands)

    @cached_property
    def variables(self) -> tuple[Variable, ...]:
        """The variable at each bit of a set's number, bit 0 (which counts fastest) first."""
        return tuple(
            Variable(name, index) for name, width in reversed(self.widths) for index in range(width)
        )

    def decode(self, number: int) -> dict[str, int]:
        """The operands of a set."""
        operands: dict[str, int] = {}
        for one in reversed(self.operands):
            operands[one.name] = one.number(number & ((1 << one.width) - 1))
            number >>= one.width
        return {name: operands[name] for name, _ in self.widths}

    def number(self, operands: Mapping[str, int]) -> int:
        """The number of a set; the reverse of `decode`."""
        number = 0
        for one in self.operands:
            number = number << one.width | one.pattern(operands[one.name])
        return number

    def require(self, variables: Iterable[Variable]) -> None:
        """Check that these variables are bits of the operands.

        Raises
        ------
        DesignError
            If one is not.
        """
        known = set(self.variables)
        for variable in variables:
            if variable not in known:
                raise DesignError(
                    Message(
                        "operand-bit-unknown",
                        name=variable.name,
                        index=variable.index,
                        row=variable.row,
                        count=len(self.widths),
                        operands=", ".join(name for name, _ in self.widths),
                    )
                )
