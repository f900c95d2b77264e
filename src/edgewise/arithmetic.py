"""The value of a formula: whole-number arithmetic over a scope of names."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Final, Protocol, TypeAlias

from edgewise.bits import Word
from edgewise.errors import EdgewiseError, Message, Place, TextError, UnknownBit, nearest
from edgewise.formula import Binary, Name, Node, Number, Select, Timed, Unary, Unknown, show

Value: TypeAlias = int | bool | Word
"""What a formula evaluates to: a number, a truth value, or a word of bits."""

WIDEST: Final = 8192
"""Bits in a number that a formula may compute, at most."""


class Scope(Protocol):
    """What gives the names in a formula their meaning."""

    def look_up(self, name: Name) -> Value:
        """The value of a name; raises `EdgewiseError` for an unknown one."""
        ...

    def at_time(self, timed: Timed) -> Value:
        """The value of ``what after when``; raises where there is no time."""
        ...


@dataclass(frozen=True, slots=True)
class Numbers:
    """The scope of circuit texts: whole numbers by name, and a few functions.

    Functions: ``min(a, b)``, ``max(a, b)``, ``ceil_log2(a)``, ``floor_log2(a)``.

    Examples
    --------
    >>> from edgewise import formula
    >>> evaluate(formula.parse("max(n, 3) + ceil_log2(n)"), Numbers({"n": 6}))
    9
    """

    values: Mapping[str, int]

    def look_up(self, name: Name) -> Value:
        """The number that goes by this name."""
        match name.steps:
            case () if name.base in self.values:
                return self.values[name.base]
            case (Select(items=items),) if name.base in FUNCTIONS:
                return call(name.base, [number(evaluate(item, self)) for item in items])
        if name.base in self.values:
            raise TextError(Message("number-alone", name=name.base))
        # Functions are suggested only where one was meant; else they would crowd the list.
        known = nearest(name.base, FUNCTIONS if name.steps else self.values)
        raise TextError(Message("number-unknown", name=name.base, suggestion=known))

    def at_time(self, timed: Timed) -> Value:
        """Refused: a circuit text has no time in it."""
        raise TextError(Message("timed-in-text", timed=show(timed), relation=timed.relation))


def _ceil_log2(a: int) -> int:
    return (a - 1).bit_length()


FUNCTIONS: Final[Mapping[str, tuple[int, str]]] = {
    "min": (2, "the smaller of two numbers"),
    "max": (2, "the larger of two numbers"),
    "ceil_log2": (1, "the least k with 2**k >= a"),
    "floor_log2": (1, "the greatest k with 2**k <= a"),
}
"""Functions of numbers: how many arguments each takes, and what it gives."""


def call(function: str, arguments: list[int]) -> int:
    """Apply one of `FUNCTIONS`.

    Examples
    --------
    >>> call("ceil_log2", [5]), call("floor_log2", [5]), call("min", [2, 7])
    (3, 2, 2)
    """
    wanted = FUNCTIONS[function][0]
    if len(arguments) != wanted:
        raise TextError(
            Message("function-takes", function=function, count=wanted, found=len(arguments))
        )
    if function == "min":
        return min(arguments)
    if function == "max":
        return max(arguments)
    (a,) = arguments
    if a < 1:
        raise TextError(Message("function-without-value", function=function, number=a))
    return _ceil_log2(a) if function == "ceil_log2" else a.bit_length() - 1


def number(value: Value) -> int:
    """The whole number that a value stands for: a word by its unsigned reading."""
    if isinstance(value, Word):
        return value.value
    if isinstance(value, bool):
        raise TextError(Message("truth-for-number"))
    return value


def truth(value: Value) -> bool:
    """The truth that a value is; a number or a word is not one."""
    if not isinstance(value, bool):
        raise TextError(Message("number-for-truth", found=str(value)))
    return value


def evaluate(node: Node, scope: Scope) -> Value:
    """The value of a formula in a scope.

    ``div`` rounds down and ``mod`` has the sign of its right side, so that
    ``a == b * (a div b) + a mod b``. A word stands for its unsigned value in arithmetic.

    Raises
    ------
    TextError
        For an unknown name, a division by zero, a truth value used as a number.
    UnknownBit
        If a word with an X is used as a number.

    Examples
    --------
    >>> from edgewise import formula
    >>> evaluate(formula.parse("(22 + 43) mod 2**6"), Numbers({}))
    1
    """
    match node:
        case Number(value=value):
            return value
        case Unknown():
            raise UnknownBit(Message("x-without-value"))
        case Name():
            return scope.look_up(node)
        case Timed():
            return scope.at_time(node)
        case Unary(operator="not", operand=operand):
            return not truth(evaluate(operand, scope))
        case Unary(operand=operand):
            return -number(evaluate(operand, scope))
        case Binary(operator="and", left=left, right=right):
            return truth(evaluate(left, scope)) and truth(evaluate(right, scope))
        case Binary(operator="or", left=left, right=right):
            return truth(evaluate(left, scope)) or truth(evaluate(right, scope))
        case Binary(operator=operator, left=left, right=right):
            return apply(operator, evaluate(left, scope), evaluate(right, scope))


_COMPARE: Final[Mapping[str, Callable[[int, int], bool]]] = {
    "==": int.__eq__,
    "!=": int.__ne__,
    "<": int.__lt__,
    "<=": int.__le__,
    ">": int.__gt__,
    ">=": int.__ge__,
}


def apply(operator: str, left: Value, right: Value) -> Value:
    """One arithmetic operator or comparison.

    Examples
    --------
    >>> apply("mod", -1, 4), apply("<=", 3, Word.parse("011"))
    (3, True)
    """
    if operator in ("==", "!=") and isinstance(left, bool) and isinstance(right, bool):
        return (left == right) == (operator == "==")
    a, b = number(left), number(right)
    if operator in _COMPARE:
        return _COMPARE[operator](a, b)
    match operator:
        case "+":
            return a + b
        case "-":
            return a - b
        case "*":
            return _bounded(a.bit_length() + b.bit_length(), lambda: a * b)
        case "**":
            if b < 0:
                raise TextError(Message("exponent-negative", formula=f"{a}**{b}"))
            # 0, 1 and -1 stay small whatever the exponent.
            return _bounded(a.bit_length() * b if abs(a) > 1 else 1, lambda: a**b)
    if b == 0:
        raise TextError(Message("division-by-zero", formula=" ".join((str(a), operator, str(b)))))
    return a // b if operator == "div" else a % b


def _bounded(bits: int, compute: Callable[[], int]) -> int:
    if bits > WIDEST:
        raise TextError(Message("number-large", most=WIDEST))
    return compute()


def evaluate_at(node: Node, scope: Scope, place: Place | None) -> Value:
    """`evaluate`, with `place` put on every error that has none yet."""
    try:
        return evaluate(node, scope)
    except EdgewiseError as wrong:
        raise wrong.placed(place) from None
