"""Which numbers are easy to read: few digits, small, and none that is special.

A number of 3 bits or more is special if it is 0 or 1, a power of two, or all ones: with such
a number a circuit does less than it could, and a learner guesses. Two operands that are equal
hide which is which. So, in this order, operands are the better

1. the fewer of them are special or equal to another one;
2. the fewer decimal digits they have together;
3. the smaller their sum is.

The order is ours (common practice, no source).
"""

from __future__ import annotations

from functools import reduce
from itertools import combinations
from typing import Final

from edgewise.design import Operand
from edgewise.engines.exhaustive.operand_space import Space
from edgewise.engines.symbolic.arithmetic import ZERO, Whole, Words
from edgewise.engines.symbolic.cardinality import at_least
from edgewise.engines.symbolic.readings import of
from edgewise.engines.symbolic.terms import Term, Terms
from edgewise.engines.symbolic.variables import Variable
from edgewise.study.operands.lexicographic import many, small

_SPECIAL: Final = 3
"""Bits from which on a number can be special."""


def planes(terms: Terms, space: Space) -> tuple[Term, ...]:
    """Readability of a set as planes, see `edgewise.study.operands.lexicographic`.

    Examples
    --------
    >>> from edgewise.study.operands.lexicographic import best
    >>> space, terms = Space((("a", 4), ("b", 4))), Terms()
    >>> [space.decode(r.number) for r in best(terms, 1, planes(terms, space), space, 2)]
    [{'a': 3, 'b': 5}, {'a': 5, 'b': 3}]
    """
    words = Words(terms)
    bits = {
        name: [terms.variable(Variable(name, i)) for i in range(width)]
        for name, width in space.widths
    }
    wide = {name: word for name, word in bits.items() if len(word) >= _SPECIAL}
    odd = [special(terms, word) for word in wide.values()]
    for one, other in combinations(wide.values(), 2):
        odd.append(words.equal(words.unsigned(one), words.unsigned(other)).one)
    digits = [
        words.less(_size(words, one), words.number(10**power)).one ^ 1
        for one in space.operands
        if one.name in wide
        for power in range(1, len(str(max(map(abs, (one.numbers[0], one.numbers[-1]))))))
    ]
    return (
        *(plane ^ 1 for plane in many(terms, odd)),
        *(plane ^ 1 for plane in many(terms, digits)),
        *small(reduce(words.add, (_size(words, one) for one in space.operands), ZERO)),
    )


def special(terms: Terms, bits: list[Term]) -> Term:
    """Where a number is 0, 1, a power of two, or all ones."""
    two_ones = at_least(terms, bits, 2)[1]
    return terms.either(two_ones ^ 1, terms.all_of(bits))


def total(terms: Terms, space: Space) -> Whole:
    """The sum of all operands."""
    words = Words(terms)
    return reduce(words.add, (of(words, one) for one in space.operands), ZERO)


def _size(words: Words, operand: Operand) -> Whole:
    """How far an operand is from 0."""
    number = of(words, operand)
    if not operand.code.signed:
        return number
    return words.choose(number.bits[-1], number, words.subtract(ZERO, number))
