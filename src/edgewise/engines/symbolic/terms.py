"""Boolean terms: a graph of AND and XOR over named variables, each term made once.

A term is an even or odd whole number: ``term ^ 1`` is its complement. 0 is false, 1 is
true. Sub-terms that are equal by structure are one term, and what a constant or a twin
decides is decided at once, so that a procedure unrolled row by row folds to what its
operands really reach.
"""

from __future__ import annotations

import math
import time
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from functools import reduce
from typing import Final, Literal, TypeAlias

from edgewise.engines.symbolic.variables import Variable
from edgewise.errors import EdgewiseError, Message

Term: TypeAlias = int
"""Twice a node's number, plus 1 for its complement."""

FALSE: Final[Term] = 0
TRUE: Final[Term] = 1


MOST: Final = 1_500_000
"""Nodes of a graph, at most: about half a gigabyte."""
_LOOK: Final = 0x3FF
"""Nodes between two looks at the clock, less 1."""


class Exhausted(EdgewiseError):
    """What was asked is too large, or the time was up while it was written down.

    `size` is that of a proof: clauses, variables, and how often the solver turned back.
    """

    def __init__(self, told: Message, *, size: tuple[int, int, int] = (0, 0, 0)) -> None:
        super().__init__(told)
        self.size = size


class TimeUp(Exhausted):
    """The time was up."""


@dataclass(frozen=True, slots=True)
class Node:
    """``and`` or ``xor`` of two terms, or a ``variable``; node 0 is the constant false."""

    operator: Literal["false", "variable", "and", "xor"]
    left: Term = FALSE
    right: Term = FALSE
    variable: Variable | None = None


@dataclass
class Terms:
    """Owns the nodes; every operation gives a term.

    Parameters
    ----------
    deadline : float
        On the clock of `time.monotonic`; beyond it, making a term raises `TimeUp`.
    most : int
        Nodes; beyond, making a term raises `Exhausted`.

    Examples
    --------
    >>> terms = Terms()
    >>> x, y = terms.variable(Variable("x", 0)), terms.variable(Variable("y", 0))
    >>> terms.both(x, x ^ 1) == FALSE, terms.both(x, y) == terms.both(y, x)
    (True, True)
    """

    deadline: float = math.inf
    most: int = MOST
    nodes: list[Node] = field(default_factory=lambda: [Node("false")])
    _made: dict[tuple[str, Term, Term], Term] = field(default_factory=dict)
    _variables: dict[Variable, Term] = field(default_factory=dict)

    def variable(self, variable: Variable) -> Term:
        """The term of a variable."""
        if variable not in self._variables:
            self._variables[variable] = self._add(Node("variable", variable=variable))
        return self._variables[variable]

    def fix(self, variable: Variable, bit: int) -> None:
        """Give a variable one value; before any term is made of it."""
        self._variables[variable] = TRUE if bit else FALSE

    def both(self, a: Term, b: Term) -> Term:
        """The AND of a and b."""
        if a > b:
            a, b = b, a
        if a == FALSE or a == b ^ 1:
            return FALSE
        if a in (TRUE, b):
            return b
        return self._once("and", a, b)

    def either(self, a: Term, b: Term) -> Term:
        """The OR of a and b."""
        return self.both(a ^ 1, b ^ 1) ^ 1

    def differ(self, a: Term, b: Term) -> Term:
        """The XOR of a and b; complements are moved outside, so that XOR nodes have none."""
        complement = (a ^ b) & 1
        a, b = sorted((a & ~1, b & ~1))
        if a == b:
            return complement
        if a == FALSE:
            return b ^ complement
        return self._once("xor", a, b) ^ complement

    def choose(self, select: Term, when_0: Term, when_1: Term) -> Term:
        """`when_1` if `select`, else `when_0`."""
        if when_0 == when_1:
            return when_0
        if when_0 == when_1 ^ 1:
            return self.differ(select, when_0)
        return self.either(self.both(select, when_1), self.both(select ^ 1, when_0))

    def all_of(self, terms: Iterable[Term]) -> Term:
        """AND of any number of terms."""
        return reduce(self.both, terms, TRUE)

    def any_of(self, terms: Iterable[Term]) -> Term:
        """OR of any number of terms."""
        return reduce(self.either, terms, FALSE)

    def reached(self, roots: Iterable[Term]) -> tuple[int, ...]:
        """Numbers of the nodes that `roots` depend on, each after all that it reads."""
        wanted = {root >> 1 for root in roots}
        waiting = list(wanted)
        while waiting:
            node = self.nodes[waiting.pop()]
            if node.operator in ("and", "xor"):
                for term in (node.left, node.right):
                    if term >> 1 not in wanted:
                        wanted.add(term >> 1)
                        waiting.append(term >> 1)
        return tuple(sorted(wanted))  # a node is only made after what it reads

    def variables(self) -> Iterator[tuple[Variable, Term]]:
        """Every variable with its term, in the order made."""
        return iter(self._variables.items())

    def _once(self, operator: Literal["and", "xor"], a: Term, b: Term) -> Term:
        key = (operator, a, b)
        if key not in self._made:
            self._made[key] = self._add(Node(operator, a, b))
        return self._made[key]

    def watch(self) -> None:
        """Raise `TimeUp` if it is; for work on these terms that makes no new ones."""
        if time.monotonic() >= self.deadline:
            raise TimeUp(Message("time-up"))

    def _add(self, node: Node) -> Term:
        self.nodes.append(node)
        made = len(self.nodes)
        if not made & _LOOK:
            self.watch()
        if made > self.most:
            raise Exhausted(Message("question-large", most=self.most))
        return 2 * (len(self.nodes) - 1)
