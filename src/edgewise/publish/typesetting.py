"""Typesetting of formulas in sentences for learners: 2ⁿ, the remainder, the quotient."""

from __future__ import annotations

from typing import Final

from edgewise.nodes import Binary, Name, Node, Number, Unary, show
from edgewise.words.messages import ENGLISH, Words

_CALLED: Final = {"mod": "formula-remainder", "div": "formula-quotient"}


def formula(node: Node, words: Words = ENGLISH) -> str:
    """A formula as a sentence has it; a remainder or a quotient as a whole is called so.

    Examples
    --------
    >>> from edgewise.formula import parse
    >>> from edgewise.words import messages
    >>> formula(parse("(a + b) mod 2**n")), formula(parse("w div (k + 1)"), messages.of("de"))
    ('the remainder of (a + b) ÷ 2ⁿ', 'der Quotient von w ÷ (k + 1)')
    >>> formula(parse("a + b mod 4"))
    'a + b mod 4'
    """
    if isinstance(node, Binary) and node.operator in _CALLED:
        dividend, divisor = _whole(node.left), _whole(node.right)
        return words(_CALLED[node.operator], dividend=dividend, divisor=divisor)
    alone = isinstance(node, Unary) and isinstance(node.operand, Number)
    return show(node, typeset=not alone)  # a number is told as a number


def _whole(node: Node) -> str:
    """A formula as one side of a division."""
    text = show(node, typeset=True)
    whole = isinstance(node, Name | Number) or (isinstance(node, Binary) and node.operator == "**")
    return text if whole else f"({text})"
