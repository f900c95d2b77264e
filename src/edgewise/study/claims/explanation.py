"""Why a claim is false: what stands there instead."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final, TypeAlias

from edgewise.arithmetic import Value, evaluate
from edgewise.bits import Word
from edgewise.errors import UnknownBit
from edgewise.formula import Binary, Node, Number, Unary, show
from edgewise.study.claims.scope import Scope, shown, times
from edgewise.words.lists import listed
from edgewise.words.messages import ENGLISH, Words

_RELATIONS: Final = {
    "==": "equal",
    "!=": "other",
    "<": "less",
    "<=": "most",
    ">": "more",
    ">=": "least",
}
"""What is expected of a value, as messages name it."""
_MIRRORED: Final = {"<": ">", "<=": ">=", ">": "<", ">=": "<="}


@dataclass(frozen=True, slots=True)
class Contrast:
    """A value that is not as expected."""

    what: str
    value: Value
    operator: str
    expected: Value

    def told(self, words: Words) -> str:
        """``S after 11 is 000010 (2), expected 1``."""
        value = _told(self.value)
        plain = shown(self.expected)
        expected = _told(self.expected) if isinstance(self.expected, Word) else plain
        relation = _RELATIONS[self.operator]
        return words(
            "claim-contrast", what=self.what, value=value, relation=relation, expected=expected
        )


@dataclass(frozen=True, slots=True)
class Untrue:
    """A truth that is not as claimed, and what the words in it are."""

    what: str
    truth: bool
    words: tuple[tuple[str, Value], ...]

    def told(self, words: Words) -> str:
        """``known(S after 3) is false (S after 3 is XX)``."""
        said = words("claim-truth", what=self.what, truth=shown(self.truth))
        leaves = (words("claim-is", what=w, value=_told(v)) for w, v in self.words)
        together = "; ".join(leaves)
        return words("claim-since", said=said, leaves=together) if together else said


@dataclass(frozen=True, slots=True)
class Unvalued:
    """A word without a value, and its unknown bits; named where it was read by name."""

    what: str
    word: str
    bits: tuple[int, ...]

    def told(self, words: Words) -> str:
        """``S after 3 is X01X, which has no value: bits 0 and 3 are unknown (X)``."""
        if not self.what:
            count, one = len(self.bits), min(self.bits, default=0)
            return words("claim-unvalued", word=self.word, count=count, bit=one)
        count = len(self.bits) if len(self.word) > 1 else 0
        bits = listed([str(bit) for bit in self.bits], words)
        return words("claim-unknown", what=self.what, word=self.word, count=count, bits=bits)


Fault: TypeAlias = Contrast | Untrue | Unvalued


@dataclass(frozen=True, slots=True)
class Reason:
    """What is true instead of a false claim: of one that joins others by ``or``, of each."""

    faults: tuple[Fault, ...] = ()

    def __str__(self) -> str:
        return self.told()

    def told(self, words: Words = ENGLISH) -> str:
        """A sentence without its full stop."""
        told = ""
        for fault in self.faults:
            said = fault.told(words)
            told = words("claim-and", first=told, second=said) if told else said
        return told


def reason(node: Node, scope: Scope) -> Reason:
    """What is true instead of a claim that is false.

    Examples
    --------
    >>> from edgewise import catalogue, formula
    >>> from edgewise.study.claims.run import Run
    >>> run = Run(catalogue.design("serial-adder", n=6), {"a": 0, "b": 1})
    >>> print(reason(formula.parse("S after 11 == (a + b) mod 64"), Scope(run)))
    S after 11 is 000010 (2), expected 1
    """
    try:
        return Reason(_faults(node, scope))
    except UnknownBit as unknown:
        return Reason((Unvalued(unknown.what, unknown.word, unknown.bits),))


def _faults(node: Node, scope: Scope) -> tuple[Fault, ...]:
    match node:
        case Binary(operator="and", left=left, right=right):
            return _faults(right if evaluate(left, scope) is True else left, scope)
        case Binary(operator="or", left=left, right=right):
            return (*_faults(left, scope), *_faults(right, scope))
        case Binary(operator=operator, left=left, right=right) if operator in _RELATIONS:
            # Read from the side that the circuit gave to the side that was expected of it.
            if (any(times(right)) and not any(times(left))) or isinstance(left, Number):
                left, right = right, left
                operator = _MIRRORED.get(operator, operator)
            found, expected = evaluate(left, scope), evaluate(right, scope)
            for value in (found, expected):
                if isinstance(value, Word):
                    _ = value.value  # tells of an unknown bit
            return (Contrast(show(left), found, operator, expected),)
        case Unary(operator="not", operand=operand):
            return (_untrue(operand, scope, truth=True),)
    return (_untrue(node, scope, truth=False),)


def _untrue(node: Node, scope: Scope, *, truth: bool) -> Untrue:
    words = {show(timed): evaluate(timed, scope) for timed in times(node)}
    return Untrue(show(node), truth, tuple(words.items()))


def _told(value: Value) -> str:
    if isinstance(value, Word) and value.width > 1 and value.readable:
        return f"{value} ({value.value})"
    return shown(value)
