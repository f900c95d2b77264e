"""Why a claim is false: what stands there instead."""

from __future__ import annotations

from typing import Final

from edgewise.arithmetic import Value, evaluate
from edgewise.bits import Word
from edgewise.errors import UnknownBit
from edgewise.formula import Binary, Node, Number, Unary, show
from edgewise.study.claims.scope import Scope, shown, times

_WANTED: Final = {
    "==": "",
    "!=": "something else than ",
    "<": "less than ",
    "<=": "at most ",
    ">": "more than ",
    ">=": "at least ",
}
_MIRRORED: Final = {"<": ">", "<=": ">=", ">": "<", ">=": "<="}


def reason(node: Node, scope: Scope) -> str:
    """What is true instead of a claim that is false.

    Examples
    --------
    >>> from edgewise import catalogue, formula
    >>> from edgewise.study.claims.run import Run
    >>> run = Run(catalogue.design("serial-adder", n=6), {"a": 0, "b": 1})
    >>> reason(formula.parse("S after 11 == (a + b) mod 64"), Scope(run))
    'S after 11 is 000010 (2), expected 1'
    """
    try:
        return _reason(node, scope)
    except UnknownBit as unknown:
        return unknown.message


def _reason(node: Node, scope: Scope) -> str:
    match node:
        case Binary(operator="and", left=left, right=right):
            return _reason(right if evaluate(left, scope) is True else left, scope)
        case Binary(operator="or", left=left, right=right):
            return f"{_reason(left, scope)}; and {_reason(right, scope)}"
        case Binary(operator=operator, left=left, right=right) if operator in _WANTED:
            # Read from the side that the circuit gave to the side that was expected of it.
            if (any(times(right)) and not any(times(left))) or isinstance(left, Number):
                left, right = right, left
                operator = _MIRRORED.get(operator, operator)
            for value in (evaluate(left, scope), expected := evaluate(right, scope)):
                if isinstance(value, Word):
                    _ = value.value  # tells of an unknown bit
            told = _told(expected) if isinstance(expected, Word) else shown(expected)
            return f"{_is(left, scope)}, expected {_WANTED[operator]}{told}"
        case Unary(operator="not", operand=operand):
            return f"{show(operand)} is true{_leaves(operand, scope)}"
    return f"{show(node)} is false{_leaves(node, scope)}"


def _is(node: Node, scope: Scope) -> str:
    return f"{show(node)} is {_told(evaluate(node, scope))}"


def _told(value: Value) -> str:
    if isinstance(value, Word) and value.width > 1 and value.known:
        return f"{value} ({value.value})"
    return shown(value)


def _leaves(node: Node, scope: Scope) -> str:
    """What the words in a formula are, as an addition in parentheses."""
    found = dict.fromkeys(_is(timed, scope) for timed in times(node))
    return f" ({'; '.join(found)})" if found else ""
