"""Readings: the number that a word of terms stands for in a code, by arithmetic of its own."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from edgewise.codes import DIGIT, Code
from edgewise.design import Operand
from edgewise.engines.symbolic.arithmetic import ZERO, Whole, Words
from edgewise.engines.symbolic.terms import TRUE, Term, Terms
from edgewise.engines.symbolic.unrolling import Rail
from edgewise.engines.symbolic.variables import Variable


def read(words: Words, code: Code, bits: Sequence[Term]) -> Whole:
    """The number of a word, LSB first; anything where no number has that word.

    Examples
    --------
    >>> [read(Words(Terms()), Code(name), (1, 0, 0, 1)).constant
    ...  for name in ("unsigned", "twos-complement", "ones-complement", "sign-magnitude", "gray")]
    [9, -7, -6, -1, 14]
    """
    terms = words.terms
    match code.name:
        case "unsigned":
            return words.unsigned(bits)
        case "twos-complement":
            return words.add(Whole(tuple(bits)), ZERO)
        case "ones-complement":
            return words.add(Whole(tuple(bits)), words.unsigned(bits[-1:]))
        case "sign-magnitude":
            size = words.unsigned(bits[:-1])
            return words.choose(bits[-1], size, words.subtract(ZERO, size))
        case "bcd":
            number = ZERO
            for low in reversed(range(0, len(bits), DIGIT)):
                shifted = words.multiply(number, words.number(10))
                number = words.add(shifted, words.unsigned(bits[low : low + DIGIT]))
            return number
        case "gray":
            binary = [bits[-1]]
            for bit in reversed(bits[:-1]):
                binary.append(terms.differ(binary[-1], bit))
            return words.unsigned(reversed(binary))


def of(words: Words, operand: Operand) -> Whole:
    """The number of an operand, from the variables of its bits."""
    variables = [Variable(operand.name, i) for i in range(operand.width)]
    return read(words, operand.code, [words.terms.variable(one) for one in variables])


def number_of(words: Words, code: Code, rails: Sequence[Rail]) -> Whole:
    """The number of a word of rails, LSB first; no value if a bit is X or no number has it."""
    bits = [rail.one for rail in rails]
    terms, whole = words.terms, read(words, code, bits)
    unknown = terms.any_of(rail.unknown for rail in rails)
    if code.name == "bcd":  # a second word of 0 is read as 0
        unknown = terms.either(unknown, has(terms, code, bits) ^ 1)
    return Whole(whole.bits, unknown)


def inside(terms: Terms, operands: Iterable[Operand]) -> Term:
    """Where the words of all operands are words of numbers; true unless a code has others.

    Examples
    --------
    >>> inside(Terms(), [Operand("a", 8), Operand("b", 4, code=Code("gray"))])
    1
    """
    return terms.all_of(
        has(terms, one.code, [terms.variable(Variable(one.name, i)) for i in range(one.width)])
        for one in operands
        if not one.code.total
    )


def has(terms: Terms, code: Code, bits: Sequence[Term]) -> Term:
    """Where a word is the word of a number.

    Examples
    --------
    >>> [has(Terms(), Code("bcd"), bits) for bits in ((1, 0, 0, 1), (0, 1, 0, 1))]
    [1, 0]
    """
    match code.name:
        case "ones-complement":
            return terms.all_of(bits) ^ 1
        case "sign-magnitude":
            return terms.either(bits[-1] ^ 1, terms.any_of(bits[:-1]))
        case "bcd":
            digits = (bits[low : low + DIGIT] for low in range(0, len(bits), DIGIT))
            above = [terms.both(d[3], terms.either(d[2], d[1])) for d in digits]
            return terms.any_of(above) ^ 1
        case _:
            return TRUE
