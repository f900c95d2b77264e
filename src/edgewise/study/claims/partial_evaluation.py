"""Grounding: a formula about a run, made to say the same without anything left to work out.

Times become row numbers, phases and ``edges(…)`` numbers, parameters their values, indices
numbers; operands and nets remain, by the names that the design has for them. A grounded
formula is still a formula: `edgewise.study.claims.scope.Scope` gives it the same value.
"""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import replace

from edgewise.arithmetic import evaluate, number
from edgewise.engines.symbolic.specification import Unsupported
from edgewise.errors import Message
from edgewise.formula import (
    Binary,
    Name,
    Node,
    Number,
    Select,
    Slice,
    Timed,
    Unary,
    names_in,
    show,
)
from edgewise.study.claims.scope import Scope


def ground(node: Node, scope: Scope, free: Collection[str] = ()) -> Node:
    """A formula with its times, phases, parameters and indices worked out.

    Parameters
    ----------
    node : Node
    scope : Scope
        Over any run; only what is the same in every run is asked of it.
    free : collection of str
        Operands that may be anything, by name. Times and indices must not depend on them.

    Raises
    ------
    Unsupported
        A time or an index that depends on a free operand.
    EdgewiseError
        Whatever is wrong with the formula in itself.

    Examples
    --------
    >>> from edgewise import catalogue
    >>> from edgewise.formula import parse
    >>> from edgewise.study.claims.run import Run
    >>> scope = Scope(Run(catalogue.design("serial-adder", n=6), {"a": 0, "b": 0}))
    >>> show(ground(parse("S(n-1) after load + 2 == (a + b) mod 2**n"), scope, ("a", "b")))
    'S(5) after 8 == (a + b) mod 2**6'
    """
    return _Grounding(frozenset(name.partition("(")[0] for name in free)).node(node, scope)


class _Grounding:
    """The free operands, and families of them, by the name before the parenthesis."""

    def __init__(self, free: frozenset[str]) -> None:
        self.free = free

    def node(self, node: Node, scope: Scope) -> Node:
        match node:
            case Name():
                return self._name(node, scope)
            case Timed(what=what, when=when):
                self._require_fixed(when, node)
                return self.node(what, replace(scope, row=scope.row_of(node), counting=False))
            case Unary(operand=operand):
                return replace(node, operand=self.node(operand, scope))
            case Binary(left=left, right=right):
                return replace(node, left=self.node(left, scope), right=self.node(right, scope))
            case _:
                return node

    def _name(self, name: Name, scope: Scope) -> Node:
        kind = scope.kind(name)
        if kind == "total":
            return name
        if kind == "function":
            (arguments,) = name.steps
            assert isinstance(arguments, Select)
            items = tuple(self.node(item, scope) for item in arguments.items)
            return replace(name, steps=(Select(items),))
        if kind == "fixed":
            return Number(number(evaluate(name, scope)), name.at)
        for step in name.steps:
            ends = step.items if isinstance(step, Select) else ()
            if isinstance(step, Slice):
                ends = (step.high, step.low)
            for end in ends:
                self._require_fixed(end, name)
        settled = scope.settled(name)
        if kind == "operand":
            return settled
        return Timed("after", settled, Number(scope.row or 0), name.at)

    def _require_fixed(self, node: Node, inside: Node) -> None:
        if any(name.base in self.free for name in names_in(node)):
            raise Unsupported(Message("edge-by-operand", formula=show(inside)))
