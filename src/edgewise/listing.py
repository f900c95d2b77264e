"""Listing: names in a message, with the word of the language between them."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from functools import reduce

from edgewise.errors import Fact, Message


def either(names: Iterable[Fact]) -> Fact:
    """Names of which one is expected.

    Examples
    --------
    >>> print(either(["light", "heavy", "1..8"]))
    light or heavy or 1..8
    """
    return _joined("list-either", names)


def both(names: Iterable[Fact]) -> Fact:
    """Names that are all meant.

    Examples
    --------
    >>> print(both(["n", "x"]))
    n and x
    """
    return _joined("list-both", names)


def choice(names: Sequence[str]) -> Fact:
    """Names of which one is expected, with commas between all but the last two.

    Examples
    --------
    >>> print(choice(["wedge", "hidden", "wires"]))
    wedge, hidden or wires
    """
    return either((", ".join(names[:-1]), names[-1]))


def clauses(told: Iterable[Fact]) -> Fact:
    """Sentences that stand in one.

    Examples
    --------
    >>> print(clauses(["a has 4 bits", "b is missing"]))
    a has 4 bits; b is missing
    """
    return _joined("list-clauses", told)


def _joined(message: str, names: Iterable[Fact]) -> Fact:
    first, *others = tuple(names) or ("",)
    return reduce(lambda before, name: Message(message, before=before, name=name), others, first)
