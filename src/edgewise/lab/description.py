"""A circuit as modules of signals and statements: what every hardware description language says.

A signal of one bit is a scalar; all others are vectors, MSB first. An index is a number, or a
formula in the letter of a loop.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final, Literal, TypeAlias

CLOCK: Final = "clock"
"""What the clock is called in every module."""


@dataclass(frozen=True, slots=True)
class Linear:
    """An index in a loop: `step` times its letter, and `offset`.

    Examples
    --------
    >>> str(Linear("i", 1, 2)), str(Linear("i", 2, -1)), str(Linear("i", -1, 5))
    ('i + 2', '2 * i - 1', '5 - i')
    """

    letter: str
    step: int
    offset: int

    def __str__(self) -> str:
        """As all languages write it."""
        times = self.letter if abs(self.step) == 1 else f"{abs(self.step)} * {self.letter}"
        if self.step < 0:
            return f"{self.offset} - {times}"
        if not self.offset:
            return times
        return f"{times} {'+' if self.offset > 0 else '-'} {abs(self.offset)}"


Index: TypeAlias = int | Linear


@dataclass(frozen=True, slots=True)
class Bits:
    """A signal, one of its bits, or a slice of it.

    Parameters
    ----------
    name : str
    span : tuple of Index
        Empty: the whole signal; one: that bit; two: a slice, MSB first.
    width : int
    """

    name: str
    span: tuple[Index, ...] = ()
    width: int = 1


@dataclass(frozen=True, slots=True)
class Constant:
    """Fixed bits, MSB first, each ``0``, ``1`` or ``x``."""

    bits: str

    @property
    def width(self) -> int:
        """How many they are."""
        return len(self.bits)


@dataclass(frozen=True, slots=True)
class Filled:
    """As many equal bits as a parameter says; ``digit`` is ``0``, ``1`` or ``x``."""

    digit: str
    width: Linear


Operator: TypeAlias = Literal["and", "or", "xor", "not", "choose", "join", "equals", "next"]
"""``choose``: select, when 0, when 1; ``join``: MSB first; ``next``: one more, all ones: 0."""


@dataclass(frozen=True, slots=True)
class Operation:
    """An operator and what it is of; ``and``, ``or`` and ``xor`` of a vector take all its bits."""

    operator: Operator
    of: tuple[Term, ...]
    width: int = 1


Term: TypeAlias = Bits | Constant | Filled | Operation


@dataclass(frozen=True, slots=True)
class Signal:
    """A signal of a module: ``low`` is None for a scalar.

    Parameters
    ----------
    name : str
    high : int
    low : int or None
    start : str, Filled or None
        Of one that stores: its bits before the first edge, MSB first.
    known_as : str
        What the circuit calls it, where that differs.
    """

    name: str
    high: int = 0
    low: int | None = None
    start: str | Filled | None = None
    known_as: str = ""

    @property
    def width(self) -> int:
        """How many bits it has."""
        return 1 if self.low is None else self.high - self.low + 1


@dataclass(frozen=True, slots=True)
class Port:
    """A signal that a module shows outside."""

    signal: Signal
    direction: Literal["in", "out"]


@dataclass(frozen=True, slots=True)
class Assign:
    """A signal, or some bits of it, that follows a term."""

    target: Bits
    source: Term


@dataclass(frozen=True, slots=True)
class Store:
    """Bits that are stored at the rising edge of a clock: the first way whose condition is 1.

    A way without a condition is the last one; where there is none, the bits may stay.
    """

    target: Bits
    clock: Bits
    ways: tuple[tuple[Term | None, Term], ...]


@dataclass(frozen=True, slots=True)
class Connection:
    """A port and what is at it, in pieces, MSB first."""

    port: str
    pieces: tuple[Bits | Constant, ...]


@dataclass(frozen=True, slots=True)
class Instance:
    """A module used in another one."""

    module: str
    label: str
    connections: tuple[Connection, ...]


@dataclass(frozen=True, slots=True)
class Group:
    """What one part of the circuit says, or, with a loop, all members of a family of parts.

    Parameters
    ----------
    base, index : str, int or None
        Of the part's name: ``FA(3)``.
    label : str
        Of the loop.
    statements : tuple of Assign, Store or Instance
    note : str
        What the part is, where the statements don't tell.
    loop : (str, int, int), optional
        Letter, first and last index.
    """

    base: str
    index: int | None
    label: str
    statements: tuple[Statement, ...]
    note: str = ""
    loop: tuple[str, int, int] | None = None


Statement: TypeAlias = Assign | Store | Instance


@dataclass(frozen=True, slots=True)
class Parameter:
    """A number that a module is given: its usual value, and the range in which the module holds."""

    name: str
    value: int
    low: int
    high: int


@dataclass(frozen=True, slots=True)
class Module:
    """One circuit, with all its numbers.

    Parameters
    ----------
    name : str
    about : tuple of str
        Lines for people.
    ports : tuple of Port
    signals : tuple of Signal
    groups : tuple of Group
    parameters : tuple of Parameter
        What some of the numbers follow: a number may be a formula in the name of one.
    """

    name: str
    about: tuple[str, ...]
    ports: tuple[Port, ...]
    signals: tuple[Signal, ...]
    groups: tuple[Group, ...]
    parameters: tuple[Parameter, ...] = ()
