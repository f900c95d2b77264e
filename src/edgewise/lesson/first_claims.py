"""What a first lesson says of its answers, and what it claims of them."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, Final

from edgewise.design import Design, Purpose
from edgewise.formula import Binary, Claim, Unary, parse, show
from edgewise.lesson import first_example
from edgewise.study.claims.verdict import settle
from edgewise.words.messages import Words

if TYPE_CHECKING:
    from edgewise.blueprint import Blueprint
    from edgewise.trace import Trace

MOST_BITS: Final = 12
"""Operands of so many bits in all are claimed for all values; of more, for the lesson's run."""
_LOGICAL: Final = ("==", "!=", "<=", ">=", "<", ">", "and", "or", "not")
"""Operators that give a truth value."""


def when(design: Design, purpose: Purpose) -> str:
    """An output when it is due, as a formula: ``sum after end``."""
    if not design.edges:
        return purpose.output
    return f"{purpose.output} after {'end' if purpose.after is None else purpose.after}"


def answers(trace: Trace, words: Words) -> str:
    """A list of what a design gives, and of what it should."""
    design = trace.design
    told = (
        words(
            "scaffold-output",
            at="edge" if design.edges else "no",
            edge="edges" if purpose.after is None else str(purpose.after),
            output=purpose.output,
            formula=when(design, purpose),
            known="yes" if first_example.answer(trace, purpose).known else "no",
            right="yes" if first_example.right(trace, purpose) else "no",
            wanted=show(purpose.formula),
        )
        for purpose in design.computes
    )
    return "\n".join(f"- {one}" for one in told)


def claims(blueprint: Blueprint, trace: Trace) -> Iterator[str]:
    """What the design says it computes: for all operands, if they are few and it is true."""
    design, values = trace.design, trace.operands
    names = [*(o.name for o in design.operands if "(" not in o.name), *design.families]
    bits = sum(operand.width for operand in design.operands)
    for purpose in design.computes:
        told = _claim(design, purpose)
        if not first_example.right(trace, purpose):
            if first_example.answer(trace, purpose).known:
                yield f"not ({told})"
            continue
        for_all = f"{told}     for all {', '.join(names)}"
        if names and bits <= MOST_BITS:
            claim: Claim = parse(for_all, "claim")
            if settle(claim, blueprint, design.chosen, values).holds:
                told = for_all
        yield told
    yield f"edges == {design.edges}"


def _claim(design: Design, purpose: Purpose) -> str:
    """That an answer is what it should be; a comparison is a truth value, which is no number."""
    what, formula = when(design, purpose), show(purpose.formula)
    if isinstance(purpose.formula, Binary | Unary) and purpose.formula.operator in _LOGICAL:
        return f"({what} == 1 and ({formula})) or ({what} == 0 and not ({formula}))"
    return f"{what} == {formula}"
