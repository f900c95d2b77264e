"""How many of some terms are true, in unary."""

from __future__ import annotations

from collections.abc import Sequence

from edgewise.engines.symbolic.terms import FALSE, Term, Terms


def at_least(terms: Terms, counted: Sequence[Term], most: int) -> tuple[Term, ...]:
    """For m = 1 … `most`, a term that holds where at least m of `counted` do.

    Halves are counted on their own and then merged: at least m hold if i hold in one half and
    m - i in the other (O. Bailleux, Y. Boufkhad, "Efficient CNF encoding of Boolean
    cardinality constraints", CP 2003, from memory).

    Parameters
    ----------
    terms : Terms
    counted : sequence of Term
    most : int
        Where the count may stop; terms beyond ``len(counted)`` are not given.

    Examples
    --------
    >>> from edgewise.engines.symbolic.variables import Variable
    >>> terms = Terms()
    >>> x, y = terms.variable(Variable("x", 0)), terms.variable(Variable("x", 1))
    >>> at_least(terms, [x, y], 2) == (terms.either(x, y), terms.both(x, y))
    True
    """
    if len(counted) <= 1:
        return tuple(counted[:most])
    middle = len(counted) // 2
    low = at_least(terms, counted[:middle], most)
    high = at_least(terms, counted[middle:], most)
    total: list[Term] = []
    for m in range(1, min(len(low) + len(high), most) + 1):
        ways: Term = FALSE
        for i in range(max(0, m - len(high)), min(m, len(low)) + 1):
            below = low[i - 1] if i else FALSE ^ 1
            above = high[m - i - 1] if m - i else FALSE ^ 1
            ways = terms.either(ways, terms.both(below, above))
        total.append(ways)
    return tuple(total)
