"""What a design is to compute, as an assertion in a bench, in the numbers of one run.

The simulator works it out in its own arithmetic, so that it is a check beside the rows. Whole
numbers of a description have 32 bits: a piece with a larger one in it is written as its value.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Final

from edgewise.arithmetic import Scope, evaluate
from edgewise.design import Given
from edgewise.formula import Binary, Node, show
from edgewise.trace import Trace

_LARGEST: Final = 2**31 - 1
_WIDEST: Final = 31
"""Bits of an output that one number of a description can hold."""
_OPERATORS: Final = ("+", "-", "*", "div", "mod", "**")


@dataclass(frozen=True, slots=True)
class Law:
    """A law of one output.

    Parameters
    ----------
    row : int
        In which it holds.
    output : str
        As the circuit calls it.
    told : str
        ``(a + b) mod 2**n``.
    formula : Node
    scope : Scope
        The numbers of the run.
    """

    row: int
    output: str
    told: str
    formula: Node
    scope: Scope

    def text(self, operators: Mapping[str, str]) -> str:
        """The formula in a language.

        Parameters
        ----------
        operators : mapping of str to str
            How the language writes ``div``, ``mod`` and others that it writes in its own way.
        """
        return _text(self.formula, self.scope, operators)


def laws(run: Trace) -> Iterator[Law]:
    """The laws of the run's design; not those of outputs that are too wide.

    Examples
    --------
    >>> from edgewise import catalogue
    >>> from edgewise import run
    >>> law, carry = laws(run(catalogue.design("serial-adder", n=4), a=5, b=14))
    >>> law.row, law.told, law.text({"mod": "%"})
    (8, '(a + b) mod 2**n', '(5 + 14) % (2 ** 4)')
    """
    outputs = run.design.netlist.outputs
    for purpose in run.design.computes:
        if len(outputs[purpose.output]) <= _WIDEST:
            row = run.edges if purpose.after is None else purpose.after
            scope = Given(run.design, run.operands)
            yield Law(row, purpose.output, show(purpose.formula), purpose.formula, scope)


def _text(node: Node, scope: Scope, operators: Mapping[str, str]) -> str:
    value = int(evaluate(node, scope))  # type: ignore[arg-type]  # no word: a run's numbers only
    if not (isinstance(node, Binary) and node.operator in _OPERATORS and _plain(node, scope)):
        return str(value)
    pieces = [_text(side, scope, operators) for side in (node.left, node.right)]
    left, right = (f"({piece})" if " " in piece else piece for piece in pieces)
    return f"{left} {operators.get(node.operator, node.operator)} {right}"


def _plain(node: Node, scope: Scope) -> bool:
    """Whether every number in a formula is one of 31 bits and none is below 0."""
    value = evaluate(node, scope)
    inside = (node.left, node.right) if isinstance(node, Binary) else ()
    return (
        isinstance(value, int)
        and not isinstance(value, bool)
        and 0 <= value <= _LARGEST
        and all(_plain(one, scope) for one in inside)
    )
