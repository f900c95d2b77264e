"""Which designs do the same, so that their figures may be ranked.

Two designs are alike that take the same operands and give the same outputs by the same formulas. An
adder with a carry-in is not like one without, and a shift register is no small adder.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import TypeAlias

from edgewise.study.cost.measure import Cost
from edgewise.words.lists import listed
from edgewise.words.messages import ENGLISH, Words

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


def label(does: Does, others: Sequence[Does], words: Words = ENGLISH) -> str:
    """What tells designs from others: the operands they take, or else all that they give.

    Examples
    --------
    >>> one, other = (("a", "b"), ("sum = a + b",)), (("a",), ("sum = a",))
    >>> label(one, [other])
    'of those with operands a and b'
    >>> label(one, [(("a", "b"), ("sum = a - b",))])
    'of those that are to give sum = a + b'
    """
    takes, gives = does
    if all(takes != other for other, _ in others):
        if not takes:
            return words("compare-whose-none")
        return words("compare-whose-operands", count=len(takes), operands=listed(takes, words))
    if not gives:
        return words("compare-whose-nothing")
    return words("compare-whose-outputs", outputs=listed(gives, words))


def difference(one: Cost, other: Cost, words: Words = ENGLISH) -> str:
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
                operands = listed(extra, words)
                return words("compare-takes-too", name=more.design, operands=operands)
    return words("compare-unlike", one=one.design, other=other.design)


def _output(gives: str) -> str:
    return gives.partition(" = ")[0]
