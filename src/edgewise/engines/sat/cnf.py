"""Terms as clauses, for a SAT solver: only what is asked, and nothing twice.

Each node becomes the clauses that make its literal equal to its function (G. S. Tseitin, "On
the complexity of derivation in propositional calculus", 1968, from memory). Sums and carries
of full adders are found again and written as one (`symbolic/adder_recognition`). Two nodes
that are the same function of the same literals get the same literal, so that two ways to write
an adder in the same order of addition are one thing to the solver.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field
from itertools import combinations, product
from typing import TypeAlias

from edgewise.engines.symbolic.adder_recognition import Form, forms
from edgewise.engines.symbolic.terms import FALSE, Term, Terms

Clause: TypeAlias = tuple[int, ...]
"""Literals, one of which must hold; a literal is a solver variable, negative for its opposite."""


@dataclass
class Clauses:
    """Hands out literals for terms, and the clauses that give them their meaning.

    Variables of the terms get negative literals, so that a solver which tries 1 first tries
    operands of zeros first. Solver variable 1 is the constant false.

    Parameters
    ----------
    terms : Terms
        May grow between calls.

    Examples
    --------
    >>> from edgewise.engines.symbolic.variables import Variable
    >>> terms = Terms()
    >>> x, y = terms.variable(Variable("x", 0)), terms.variable(Variable("y", 0))
    >>> clauses = Clauses(terms)
    >>> clauses.literal(x), clauses.literal(y), clauses.literal(terms.both(x, y))
    (-2, -3, 4)
    >>> clauses.take()
    [(-1,), (-4, -3), (-4, -2), (4, 3, 2)]
    """

    terms: Terms
    variables: int = 1
    written: int = 0
    _literals: dict[int, int] = field(default_factory=lambda: {FALSE >> 1: 1})
    _seen: dict[tuple[str, tuple[int, ...]], int] = field(default_factory=dict)
    _halves: dict[int, tuple[int, ...]] = field(default_factory=dict)
    """For a variable that is an XOR of two, those two."""
    _fresh: list[Clause] = field(default_factory=lambda: [(-1,)])

    def literal(self, term: Term) -> int:
        """The literal that is true exactly when `term` is."""
        if term >> 1 not in self._literals:
            for number, (node, form) in enumerate(forms(self.terms, term, self._literals)):
                if not number & 0x3FF:
                    self.terms.watch()
                self._literals[node] = self._write(form) if form else -self._variable()
        return self._of(term)

    def known(self, term: Term) -> bool:
        """Whether a term has a literal already."""
        return term >> 1 in self._literals

    def add(self, clause: Iterable[int]) -> None:
        """One more clause over these literals."""
        self._fresh.append(tuple(clause))

    def take(self) -> list[Clause]:
        """The clauses that came since the last call."""
        fresh, self._fresh = self._fresh, []
        self.written += len(fresh)
        return fresh

    def _of(self, term: Term) -> int:
        literal = self._literals[term >> 1]
        return -literal if term & 1 else literal

    def _variable(self) -> int:
        self.variables += 1
        return self.variables

    def _write(self, form: Form) -> int:
        inputs = [self._of(term) for term in form.inputs]
        match form.operator:
            case "and":
                return self._and(inputs)
            case "xor":
                return self._xor(inputs)
            case "majority":
                return self._majority(inputs)

    def _and(self, inputs: list[int]) -> int:
        given = sorted({x for x in inputs if x != -1})
        if 1 in given or any(-x in given for x in given):
            return 1
        if len(given) < 2:
            return given[0] if given else -1
        key = ("and", tuple(given))
        if key not in self._seen:
            self._seen[key] = output = self._variable()
            self._fresh += [(-output, x) for x in given]
            self.add((output, *(-x for x in given)))
        return self._seen[key]

    def _xor(self, inputs: list[int]) -> int:
        sign = 1
        odd: set[int] = set()
        for x in inputs:
            sign = -sign if x < 0 else sign
            odd ^= {abs(x)}
        odd -= {1}
        if len(odd) < 2:
            return sign * (odd.pop() if odd else 1)
        keys = [("xor", tuple(sorted(each))) for each in self._ways(odd)]
        found = next((self._seen[key] for key in keys if key in self._seen), 0)
        if not found:
            found = self._variable()
            self._fresh += _even(found, *sorted(odd))
            if len(odd) == 2:
                self._halves[found] = tuple(odd)
        self._seen.update(dict.fromkeys(keys, found))
        return sign * found

    def _ways(self, odd: set[int]) -> list[set[int]]:
        """The XOR as it stands, and with one of two inputs taken apart into its own two."""
        if len(odd) > 2:
            return [odd]
        apart = [odd ^ {x} ^ set(self._halves[x]) for x in sorted(odd) if x in self._halves]
        return [odd, *(each for each in apart if len(each) == 3)]

    def _majority(self, inputs: list[int]) -> int:
        a, b, c = sorted(inputs, key=abs)
        for x, y, other in ((a, b, c), (b, c, a), (a, c, b)):
            if x == y:
                return x
            if x == -y:
                return other
        if abs(a) == 1:  # a constant: AND or OR of the others
            return self._and([b, c]) if a == 1 else -self._and([-b, -c])
        sign = 1 if a > 0 else -1  # all three turned over turn the majority over
        a, b, c = sign * a, sign * b, sign * c
        key = ("majority", (a, b, c))
        if key not in self._seen:
            self._seen[key] = output = self._variable()
            for x, y in combinations((a, b, c), 2):
                self._fresh += [(-output, x, y), (output, -x, -y)]
        return sign * self._seen[key]


def _even(*literals: int) -> list[Clause]:
    """Clauses that hold when an even number of the literals is true."""
    return [
        tuple(sign * literal for sign, literal in zip(signs, literals, strict=True))
        for signs in product((1, -1), repeat=len(literals))
        if signs.count(-1) % 2
    ]
