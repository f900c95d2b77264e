"""The operand sets of a design, numbered."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import Final

from edgewise.design import Design
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

    Parameters
    ----------
    widths : tuple of (str, int)
        Name and bits of each operand, in order.

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

    @classmethod
    def of(cls, design: Design) -> Space:
        """The space of a design's operands.

        Examples
        --------
        >>> from edgewise import catalogue
        >>> Space.of(catalogue.design("serial-adder", n=16)).size
        4294967296
        """
        return cls(tuple((operand.name, operand.width) for operand in design.operands))

    @cached_property
    def bits(self) -> int:
        """Bits in the number of a set."""
        bits = sum(width for _, width in self.widths)
        if bits > LARGEST:
            raise DesignError(Message("operand-bits-many", count=bits, most=LARGEST))
        return bits

    @property
    def size(self) -> int:
        """Number of operand sets."""
        return 1 << self.bits

    @cached_property
    def variables(self) -> tuple[Variable, ...]:
        """The variable at each bit of a set's number, bit 0 (which counts fastest) first."""
        return tuple(
            Variable(name, index) for name, width in reversed(self.widths) for index in range(width)
        )

    def decode(self, number: int) -> dict[str, int]:
        """The operands of a set."""
        operands: dict[str, int] = {}
        for name, width in reversed(self.widths):
            operands[name] = number & ((1 << width) - 1)
            number >>= width
        return {name: operands[name] for name, _ in self.widths}

    def number(self, operands: Mapping[str, int]) -> int:
        """The number of a set; the reverse of `decode`."""
        number = 0
        for name, width in self.widths:
            number = number << width | operands[name]
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
