"""A procedure: phases of clock edges, and what drives the inputs meanwhile."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import TypeAlias

from edgewise.arithmetic import FUNCTIONS, Numbers, evaluate_at, number
from edgewise.circuit.model import Tie
from edgewise.codes import UNSIGNED, Code
from edgewise.errors import Message, Place, TextError, nearest
from edgewise.formula import Drive, Name, Node, Select, Unknown, parse, show


@dataclass(frozen=True, slots=True)
class Operand:
    """A number that a run is given, in a word of `width` bits. A member of a family is ``w(2)``.

    Parameters
    ----------
    name : str
    width : int
    place : Place, optional
    code : Code
        Which numbers its words stand for.

    Examples
    --------
    >>> depth = Operand("depth", 4, code=Code("twos-complement"))
    >>> depth.numbers, f"{depth.pattern(-3):04b}", depth.number(0b1101)
    (range(-8, 8), '1101', -3)
    """

    name: str
    width: int
    place: Place | None = field(default=None, compare=False)
    code: Code = UNSIGNED

    @property
    def numbers(self) -> range:
        """The numbers that it can be."""
        return self.code.numbers(self.width)

    def pattern(self, number: int) -> int:
        """The bits of one of its numbers, bit 0 the LSB."""
        return self.code.pattern(number, self.width)

    def number(self, pattern: int) -> int:
        """The number of a word; 0 for words that no number has."""
        return self.code.number(pattern, self.width) or 0


@dataclass(frozen=True, slots=True)
class OperandBit:
    """One bit of an operand; index 0 is the LSB."""

    operand: str
    index: int


Source: TypeAlias = OperandBit | Tie
"""Where an input bit comes from in one row: an operand's bit, or a constant."""


@dataclass(frozen=True, slots=True)
class Feed:
    """What one input is fed in a phase: `what` is an operand's name, a number, or None for X.

    `order` is ``held`` (the whole word, all the time), ``lsb-first`` or ``msb-first`` (one
    bit an edge). A word fed bit by bit for more edges than it has bits is a number with
    zeros above its MSB; with fewer edges, the bits whose turn does not come are left out.
    """

    input: str
    what: str | int | None
    order: str = "held"
    place: Place | None = field(default=None, compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class Phase:
    """Some edges in a row, and what drives the inputs meanwhile."""

    name: str
    edges: int
    feeds: tuple[Feed, ...]
    place: Place | None = field(default=None, compare=False)


@dataclass(frozen=True, slots=True)
class Purpose:
    """The word `output` equals `formula` in row `after`; None stands for the last row."""

    output: str
    formula: Node
    after: int | None = None
    place: Place | None = field(default=None, compare=False)


def feed(
    input_name: str,
    text: str,
    parameters: Mapping[str, int],
    operands: Mapping[str, int],
    place: Place | None = None,
) -> Feed:
    """Read what an input is fed: ``1``, ``X``, ``a``, ``a lsb-first``, ``2**n - 1``.

    Parameters
    ----------
    input_name, text : str
    parameters : mapping of str to int
        Numbers that the text may use.
    operands : mapping of str to int
        Width of each operand, by name.

    Raises
    ------
    TextError
        If it is neither X, an operand, nor a number.

    Examples
    --------
    >>> feed("a_in", "a lsb-first", {"n": 6}, {"a": 6})
    Feed(input='a_in', what='a', order='lsb-first')
    """
    drive: Drive = parse(text, "drive", place)
    if isinstance(drive.value, Unknown):
        return Feed(input_name, None, place=place)
    if isinstance(drive.value, Name):
        name = drive.value.base
        match drive.value.steps:
            case (Select(items=(index,)),) if name not in FUNCTIONS:
                name = f"{name}({number(evaluate_at(index, Numbers(parameters), place))})"
        if name in operands and len(drive.value.steps) == name.count("("):
            return Feed(input_name, name, drive.order, place)
        if drive.value.base in operands:
            raise TextError(
                Message("operand-fed", found=show(drive.value), name=drive.value.base), place
            )
        if name not in parameters and name not in FUNCTIONS:
            known = nearest(name, [*operands, *parameters])
            raise TextError(Message("operand-unknown", name=name, suggestion=known), place)
    value = number(evaluate_at(drive.value, Numbers(parameters), place))
    return Feed(input_name, value, drive.order, place)
