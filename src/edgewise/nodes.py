"""The tree of a formula: its nodes, and its text again."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, fields
from typing import Any, Final, TypeAlias


@dataclass(frozen=True, slots=True)
class Number:
    """A literal: ``12`` or ``0b1100``."""

    value: int
    at: int = 0
    """Characters before it in the formula (likewise in every node below)."""


@dataclass(frozen=True, slots=True)
class Unknown:
    """The literal ``X``."""

    at: int = 0


@dataclass(frozen=True, slots=True)
class Select:
    """``(i)`` behind a name: an index, a member of a family, or arguments of a function."""

    items: tuple[Node, ...]


@dataclass(frozen=True, slots=True)
class Slice:
    """``(high..low)`` behind a name."""

    high: Node
    low: Node


@dataclass(frozen=True, slots=True)
class Dot:
    """``.port`` behind a name."""

    name: str


Step: TypeAlias = Select | Slice | Dot


@dataclass(frozen=True, slots=True)
class Name:
    """A name and what stands behind it: ``FA(2).carry-out``, ``a(5..2)``, ``edges(load)``."""

    base: str
    steps: tuple[Step, ...] = ()
    at: int = 0


@dataclass(frozen=True, slots=True)
class Unary:
    """``-x`` or ``not x``."""

    operator: str
    operand: Node
    at: int = 0


@dataclass(frozen=True, slots=True)
class Binary:
    """``left operator right``."""

    operator: str
    left: Node
    right: Node
    at: int = 0


@dataclass(frozen=True, slots=True)
class Timed:
    """``what after when`` or ``what before when``, `when` being the number of an edge."""

    relation: str
    what: Node
    when: Node
    at: int = 0


Node: TypeAlias = Number | Unknown | Name | Unary | Binary | Timed


@dataclass(frozen=True, slots=True)
class Range:
    """``name in low..high`` (as in ``FA(i = 0..n-1)`` or ``for n in 1..64``)."""

    name: str
    low: Node
    high: Node


@dataclass(frozen=True, slots=True)
class Claim:
    """A truth to check, for all values of some operands, over ranges of parameters."""

    truth: Node
    for_all: tuple[str, ...] = ()
    ranges: tuple[Range, ...] = ()


@dataclass(frozen=True, slots=True)
class TimeClaim:
    """A claim about what happens inside clock periods.

    Parameters
    ----------
    kind : str
        ``settled``: after no edge do these change later than `time`; ``glitchless``: none of them
        changes more often than it has to.
    names : tuple of Name
    when : node, optional
        The one edge it is about; all unless given.
    time, unit : str
        As written: ``12.5`` and ``ns``; an empty unit where there is none.
    for_all : tuple of str
    """

    kind: str
    names: tuple[Name, ...]
    when: Node | None = None
    time: str = ""
    unit: str = ""
    for_all: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Drive:
    """What an input is fed in a phase: a value held, or a word bit by bit.

    `order` is ``held``, ``lsb-first`` or ``msb-first``.
    """

    value: Node
    order: str = "held"


@dataclass(frozen=True, slots=True)
class Default:
    """A parameter's default and, if given, its range: ``6 in 1..64``."""

    value: Node
    low: Node | None = None
    high: Node | None = None


@dataclass(frozen=True, slots=True)
class Target:
    """A key that names one thing, ``c(0)``, or a family of things, ``FA(i = 0..n-1)``."""

    name: Name
    family: Range | None = None


_BINDS: Final = {"or": 1, "and": 2, "not": 3, "+": 6, "-": 6, "*": 7, "div": 7, "mod": 7, "**": 9}
_COMPARISONS: Final = ("==", "!=", "<=", ">=", "<", ">")


def _strength(node: Node) -> int:
    match node:
        case Binary(operator=operator):
            return 4 if operator in _COMPARISONS else _BINDS[operator]
        case Unary(operator=operator):
            return 3 if operator == "not" else 8
        case Timed():
            return 5
        case _:
            return 10


_RAISED: Final = str.maketrans("0123456789n", "⁰¹²³⁴⁵⁶⁷⁸⁹ⁿ")
_SIGNS: Final = {"*": "·", "-": "−"}
"""What stands for an operator where a formula is set rather than typed."""


def show(node: Node, *, typeset: bool = False) -> str:
    """The formula's text again, with no more parentheses than it needs; `typeset` for readers.

    Examples
    --------
    >>> from edgewise.formula import parse
    >>> show(parse("((a+b)) mod (2**n)")), show(parse("3*a - 2**n"), typeset=True)
    ('(a + b) mod 2**n', '3 · a − 2ⁿ')
    """

    def inside(child: Node, least: int) -> str:
        text = show(child, typeset=typeset)
        return text if _strength(child) >= least else f"({text})"

    match node:
        case Number(value=value):
            return str(value)
        case Unknown():
            return "X"
        case Name(base=base, steps=steps):
            return base + "".join(map(_show_step, steps))
        case Unary(operator=operator, operand=operand):
            space = " " if operator == "not" else ""
            sign = _SIGNS.get(operator, operator) if typeset else operator
            return sign + space + inside(operand, _strength(node))
        case Binary(operator="**", left=left, right=right):
            power = inside(right, 8)
            if typeset and all(ord(character) in _RAISED for character in power):
                return f"{inside(left, 10)}{power.translate(_RAISED)}"
            return f"{inside(left, 10)}**{power}"
        case Binary(operator=operator, left=left, right=right):
            own = _strength(node)
            loose = own + (own == 4)
            sign = _SIGNS.get(operator, operator) if typeset else operator
            return f"{inside(left, loose)} {sign} {inside(right, own + 1)}"
        case Timed(relation=relation, what=what, when=when):
            return f"{inside(what, 6)} {relation} {inside(when, 6)}"


def _show_step(step: Step) -> str:
    match step:
        case Dot(name=name):
            return f".{name}"
        case Slice(high=high, low=low):
            return f"({show(high)}..{show(low)})"
        case Select(items=items):
            return f"({', '.join(map(show, items))})"


def names_in(node: Node) -> Iterator[Name]:
    """Every name in a formula, from left to right, those in indices included.

    Examples
    --------
    >>> from edgewise.formula import parse
    >>> [name.base for name in names_in(parse("a(i) + b"))]
    ['a', 'i', 'b']
    """
    match node:
        case Name(steps=steps):
            yield node
            for step in steps:
                if isinstance(step, Select):
                    for item in step.items:
                        yield from names_in(item)
                elif isinstance(step, Slice):
                    yield from names_in(step.high)
                    yield from names_in(step.low)
        case Unary(operand=operand):
            yield from names_in(operand)
        case Binary(left=left, right=right):
            yield from names_in(left)
            yield from names_in(right)
        case Timed(what=what, when=when):
            yield from names_in(what)
            yield from names_in(when)


def packed(tree: object) -> object:
    """A tree as plain data for JSON: each node as its kind and what is in it.

    Examples
    --------
    >>> packed(Name("S", (Dot("q"),)))
    {'Name': ['S', [{'Dot': ['q']}], 0]}
    """
    if isinstance(tree, tuple):
        return [packed(one) for one in tree]
    kind = _KINDS.get(type(tree).__name__)
    if kind is None:
        return tree
    return {kind.__name__: [packed(getattr(tree, field.name)) for field in fields(kind)]}


def unpacked(plain: object) -> Any:
    """The tree that `packed` made plain.

    Raises
    ------
    KeyError or TypeError
        For anything else.
    """
    if isinstance(plain, list):
        return tuple(unpacked(one) for one in plain)
    if not isinstance(plain, dict):
        return plain
    ((kind, inside),) = plain.items()
    return _KINDS[kind](*(unpacked(one) for one in inside))


_KINDS: Final[Mapping[str, Any]] = {
    kind.__name__: kind
    for kind in (
        *(Number, Unknown, Select, Slice, Dot, Name, Unary, Binary, Timed),
        *(Range, Claim, TimeClaim, Drive, Default, Target),
    )
}
