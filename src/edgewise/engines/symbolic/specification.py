"""What a design is to compute, or what is claimed of it, as terms over operand bits.

A formula is lowered by word arithmetic of its own (`arithmetic` beside this), never through
the circuit. The same works for claims about rows: the caller's scope says what a name
stands for in a row.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from functools import reduce
from typing import Final, Protocol, TypeAlias

from edgewise.arithmetic import FUNCTIONS, WIDEST, call
from edgewise.design import Design
from edgewise.engines.symbolic.arithmetic import ZERO, Truth, Whole, Words
from edgewise.engines.symbolic.readings import number_of, of
from edgewise.engines.symbolic.terms import FALSE, TRUE, Term, Terms
from edgewise.engines.symbolic.unrolling import Row
from edgewise.errors import EdgewiseError, Message, TextError, nearest
from edgewise.formula import Binary, Name, Node, Number, Select, Timed, Unary, Unknown, show

Lowered: TypeAlias = Whole | Truth

_LONGEST_EXPONENT: Final = 10
"""Bits of an exponent that is not a constant, at most."""


class Unsupported(EdgewiseError):
    """A formula that has a value for every operand set but no form as terms here."""


class TermScope(Protocol):
    """What gives the names in a formula their meaning; `row` is None outside ``after``."""

    def look_up(self, name: Name, row: int | None) -> Lowered:
        """What a name stands for in a row, mostly a number; raises for an unknown one."""
        ...


def lower(  # noqa: C901  # one case a form
    node: Node, terms: Terms, scope: TermScope, row: int | None = None
) -> Lowered:
    """A formula as terms.

    Supported: numbers, ``+ - *``, ``**`` with a constant exponent or a constant base,
    ``div`` and ``mod``, comparisons, ``and or not``, ``min max``, functions of
    constants, ``after`` and ``before`` a constant edge, and every name that `scope` knows.

    Parameters
    ----------
    node : Node
    terms : Terms
        Where the terms are made.
    scope : TermScope
    row : int, optional
        The row in which names are looked up.

    Returns
    -------
    Whole or Truth
        With the term `unknown` where an X leaves it without a value.

    Raises
    ------
    Unsupported
        For anything else; the caller goes through operand sets one by one instead.
    TextError
        For a formula that is wrong in itself.

    Examples
    --------
    >>> from edgewise.formula import parse
    >>> lower(parse("(22 + 43) mod 2**6"), Terms(), Named(Terms(), {})).constant
    1
    """
    words = Words(terms)

    def whole(part: Node) -> Whole:
        value = lower(part, terms, scope, row)
        if isinstance(value, Truth):
            raise TextError(Message("truth-for-number"))
        return value

    def truth(part: Node) -> Truth:
        value = lower(part, terms, scope, row)
        if isinstance(value, Whole):
            raise TextError(Message("number-for-truth", found=show(part)))
        return value

    match node:
        case Number(value=value):
            return words.number(value)
        case Unknown():
            return Whole((FALSE,), TRUE)
        case Name(base="min" | "max", steps=(Select(items=(left, right)),)):
            a, b = whole(left), whole(right)
            less = words.less(a, b)
            chosen = words.choose(less.one, *((b, a) if node.base == "min" else (a, b)))
            return Whole(chosen.bits, less.unknown)
        case Name(base=function, steps=(Select(items=items),)) if function in FUNCTIONS:
            return words.number(call(function, [_constant(whole(i), node) for i in items]))
        case Name():
            return scope.look_up(node, row)
        case Timed(relation=relation, what=what, when=when):
            edge = _constant(whole(when), node)
            return lower(what, terms, scope, edge - (relation == "before"))
        case Unary(operator="not", operand=operand):
            inner = truth(operand)
            return Truth(inner.one ^ 1, inner.unknown)
        case Unary(operand=operand):
            return words.subtract(ZERO, whole(operand))
        case Binary(operator="and" | "or" as operator, left=left, right=right):
            return _joined(terms, operator, truth(left), truth(right))
        case Binary(operator=operator, left=left, right=right):
            lowered = lower(left, terms, scope, row), lower(right, terms, scope, row)
            return _applied(node, words, operator, *lowered)


def _joined(terms: Terms, operator: str, a: Truth, b: Truth) -> Truth:
    """``and`` or ``or``; where the left side decides, the right side is not asked."""
    asked = a.one if operator == "and" else a.one ^ 1
    unknown = terms.either(a.unknown, terms.both(asked, b.unknown))
    return Truth((terms.both if operator == "and" else terms.either)(a.one, b.one), unknown)


def _applied(node: Binary, words: Words, operator: str, a: Lowered, b: Lowered) -> Lowered:
    if isinstance(a, Truth) and isinstance(b, Truth) and operator in ("==", "!="):
        differs = words.terms.differ(a.one, b.one)
        unknown = words.terms.either(a.unknown, b.unknown)
        return Truth(differs ^ (operator == "=="), unknown)
    if isinstance(a, Truth) or isinstance(b, Truth):
        raise TextError(Message("truth-for-number"))
    if operator in _COMPARISONS:
        compared = _COMPARISONS[operator](words, a, b)
        return Truth(compared.one ^ (operator in ("!=", "<=", ">=")), compared.unknown)
    match operator:
        case "+":
            return words.add(a, b)
        case "-":
            return words.subtract(a, b)
        case "*":
            return words.multiply(a, b)
        case "**":
            return _power(node, words, a, b)
    divisor = b.constant
    if divisor == 0:
        raise TextError(Message("division-by-zero", formula=show(node)))
    if divisor is None:
        return words.divide_by(a, b)[operator == "mod"]
    return words.divide(a, divisor)[operator == "mod"]


_COMPARISONS: Final[Mapping[str, Callable[[Words, Whole, Whole], Truth]]] = {
    "==": Words.equal,
    "!=": Words.equal,
    "<": Words.less,
    ">=": Words.less,
    ">": lambda words, a, b: words.less(b, a),
    "<=": lambda words, a, b: words.less(b, a),
}


def _power(node: Binary, words: Words, a: Whole, b: Whole) -> Whole:
    base, exponent = a.constant, b.constant
    if exponent is not None and exponent < 0:
        raise TextError(Message("exponent-negative", formula=show(node)))
    if exponent is not None:
        if (len(a.bits) - 1) * exponent > WIDEST:
            raise TextError(Message("number-large", most=WIDEST))
        return words.number(base**exponent) if base is not None else words.power(a, exponent)
    if base is None:
        raise Unsupported(Message("power-without-constant", formula=show(node)))
    if b.bits[-1] != FALSE or len(b.bits) - 1 > _LONGEST_EXPONENT:
        raise Unsupported(
            Message("exponent-not-constant", formula=show(node), most=_LONGEST_EXPONENT)
        )
    if base.bit_length() << (len(b.bits) - 1) > 2 * WIDEST:
        raise TextError(Message("number-large", most=WIDEST))
    powers = [words.number(base**i) for i in range(1 << (len(b.bits) - 1))]
    for bit in b.bits[:-1]:
        powers = [words.choose(bit, *powers[i : i + 2]) for i in range(0, len(powers), 2)]
    return Whole(powers[0].bits, b.unknown)


def _constant(value: Whole, node: Node) -> int:
    if value.constant is None:
        raise Unsupported(Message("constant-expected", formula=show(node)))
    return value.constant


@dataclass(frozen=True, slots=True)
class Named:
    """A scope of numbers by name, and of families for ``total(w)``.

    Parameters
    ----------
    terms : Terms
    numbers : mapping of str to Whole
        A member of a family is ``w(2)``.
    families : mapping of str to sequence of str
        Names of the members.
    """

    terms: Terms
    numbers: Mapping[str, Whole]
    families: Mapping[str, Sequence[str]] | None = None

    def look_up(self, name: Name, row: int | None) -> Whole:
        """A number; `row` has no meaning here."""
        families = self.families or {}
        match name.steps:
            case () if name.base in self.numbers:
                return self.numbers[name.base]
            case (Select(items=(Name(base=family, steps=()),)),) if name.base == "total":
                if family not in families:
                    raise TextError(Message("operand-family-unknown", name=family))
                members = [self.numbers[member] for member in families[family]]
                return reduce(Words(self.terms).add, members, ZERO)
            case (Select(items=(index,)),):
                chosen = lower(index, self.terms, self, row)
                if isinstance(chosen, Whole):
                    member = f"{name.base}({_constant(chosen, name)})"
                    if member in self.numbers:
                        return self.numbers[member]
        known = nearest(show(name), self.numbers)
        raise TextError(Message("operand-or-parameter-unknown", name=show(name), suggestion=known))


def given(design: Design, terms: Terms) -> Named:
    """The scope of a design's purposes: parameters, operands, and ``total(w)``.

    Examples
    --------
    >>> from edgewise import catalogue
    >>> scope = given(catalogue.design("serial-adder", n=4), Terms())
    >>> sorted(scope.numbers), scope.numbers["n"].constant
    (['a', 'b', 'n'], 4)
    """
    words = Words(terms)
    numbers = {name: words.number(value) for name, value in design.parameters.items()}
    numbers |= {operand.name: of(words, operand) for operand in design.operands}
    return Named(terms, numbers, design.families)


def agreement(design: Design, terms: Terms, rows: Sequence[Row]) -> Truth:
    """Where every output equals what it is to be, for `rows` unrolled in `terms`.

    Raises
    ------
    Unsupported
        A purpose that has no form as terms.

    Examples
    --------
    >>> from edgewise import catalogue
    >>> from edgewise.engines.symbolic.unrolling import unroll
    >>> terms, wire = Terms(), catalogue.design("serial-adder", n=1)
    >>> agreement(wire, terms, unroll(wire, terms)).unknown
    0
    """
    words, scope = Words(terms), given(design, terms)
    one: Term = TRUE
    unknown: Term = FALSE
    for purpose in design.computes:
        row = rows[design.edges if purpose.after is None else purpose.after]
        rails = [row[net] for net in design.netlist.outputs[purpose.output]]
        word = number_of(words, design.codes[purpose.output], rails)
        wanted = lower(purpose.formula, terms, scope)
        if isinstance(wanted, Truth):  # a comparison: 1 where it is true
            wanted = Whole((wanted.one, FALSE), wanted.unknown)
        same = words.equal(word, wanted)
        one, unknown = terms.both(one, same.one), terms.either(unknown, same.unknown)
    return Truth(one, unknown)
