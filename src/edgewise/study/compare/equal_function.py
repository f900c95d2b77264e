"""Which designs do the same, so that their figures may be ranked.

Two designs are alike that take the same operands and give the same outputs by the same formulas. An
adder with a carry-in is not like one without, and a shift register is no small adder.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import TypeAlias

from edgewise.study.compare.wording import listed
from edgewise.study.cost.measure import Cost

Does: TypeAlias = tuple[tuple[str, ...], tuple[str, ...]]
"""Operands taken, and outputs given with their formulas."""


def groups(names: Sequence[str], does: Mapping[str, Does]) -> tuple[tuple[str, ...], ...]:
    """Designs that are alike, in the order named; one that is never there is in no group.

    Examples
    --------
    >>> one, other = (("a", "b"), ("sum = a + b",)), (("a",), ("sum = a",))
    >>> groups(("x", "y", "z"), {"x": one, "y": other, "z": one})
    (('x', 'z'), ('y',))
    """
    found: dict[Does, list[str]] = {}
    for name in names:
        if name in does:
            found.setdefault(does[name], []).append(name)
    return tuple(tuple(group) for group in found.values())


def label(does: Does, others: Sequence[Does]) -> str:
    """What tells designs from others: the operands they take, or else all that they give.

    Examples
    --------
    >>> one, other = (("a", "b"), ("sum = a + b",)), (("a",), ("sum = a",))
    >>> label(one, [other])
    'with operands a and b'
    >>> label(one, [(("a", "b"), ("sum = a - b",))])
    'that are to give sum = a + b'
    """
    takes, gives = does
    if all(takes != other for other, _ in others):
        if not takes:
            return "without operands"
        return f"with operand{'s' * (len(takes) > 1)} {listed(takes)}"
    return f"that are to give {listed(gives)}" if gives else "that say nothing of what they compute"


def difference(one: Cost, other: Cost) -> str:
    """What two unlike designs take or give differently; empty for those that are alike.

    Examples
    --------
    >>> from edgewise import catalogue
    >>> from edgewise.study.cost.measure import measure
    >>> some = [
    ...     measure(catalogue.find(name), {"n": 4})
    ...     for name in ("carry-skip-adder", "ripple-carry-adder", "shift-add-multiplier")
    ... ]
    >>> difference(some[0], some[1])
    'ripple-carry-adder takes carry_in too'
    >>> difference(some[0], some[2])
    "carry-skip-adder and shift-add-multiplier don't compute the same"
    """
    if one.does == other.does:
        return ""
    if {_output(text) for text in one.gives} == {_output(text) for text in other.gives}:
        for more, less in ((one, other), (other, one)):
            if set(more.takes) > set(less.takes):
                extra = [name for name in more.takes if name not in less.takes]
                return f"{more.design} takes {listed(extra)} too"
    return f"{one.design} and {other.design} don't compute the same"


def _output(gives: str) -> str:
    return gives.partition(" = ")[0]
