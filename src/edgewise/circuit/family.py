"""Keys that name one thing, ``C``, or a family of things, ``FA(i = 0..n-1)``."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Final

from edgewise.arithmetic import Numbers, evaluate_at, number
from edgewise.errors import EdgewiseError, Fact, Message, Place, TextError
from edgewise.formula import RESERVED, Name, Select, Target, parse
from edgewise.yamltext import Scalar, Tree, scalar

MOST_MEMBERS: Final = 20_000
"""Members of one family, at most."""
MOST_MADE: Final = 30_000
"""Parts of one text, those of circuits used as parts counted for each way they are made."""
MOST_BITS: Final = 400_000
"""Bits of nets of one text, counted likewise."""


@dataclass
class Allowance:
    """What a text may still make; shared by all circuits in it, so that none has its own limit.

    Examples
    --------
    >>> Allowance(parts=2).take(parts=3)
    Traceback (most recent call last):
    edgewise.errors.TextError: this text makes more than 30,000 parts in all
    """

    parts: int = MOST_MADE
    bits: int = MOST_BITS

    def take(self, parts: int = 0, bits: int = 0, place: Place | None = None) -> None:
        """Use up some of it; refused when it is used up."""
        self.parts -= parts
        self.bits -= bits
        if self.parts < 0:
            raise TextError(Message("parts-made", most=MOST_MADE), place)
        if self.bits < 0:
            raise TextError(Message("bits-made", most=MOST_BITS), place)


def number_in(tree: Tree, values: Mapping[str, int], what: Fact) -> int:
    """The whole number that a scalar stands for, given numbers by name."""
    text = scalar(tree, what)
    try:
        return number(evaluate_at(parse(text.text, place=text.place), Numbers(values), text.place))
    except EdgewiseError as wrong:
        raise wrong.within(what).placed(text.place) from None


def members(key: Scalar, values: Mapping[str, int]) -> Iterator[tuple[str, dict[str, int]]]:
    """The names that a key stands for, each with the numbers in force there.

    ``FA(i = 0..2)`` gives FA(0), FA(1), FA(2), each with its ``i``; a plain name gives
    itself.
    """
    target: Target = parse(key.text, "target", key.place)
    base, family = target.name.base, target.family
    if base in RESERVED:
        raise TextError(Message("name-reserved", name=base), key.place)
    if family is None:
        yield _single(target.name, values, key), dict(values)
        return
    if family.name in values:
        raise TextError(
            Message("index-parameter", index=family.name, name=base),
            key.place,
        )
    low = number(evaluate_at(family.low, Numbers(values), key.place))
    high = number(evaluate_at(family.high, Numbers(values), key.place))
    if high - low >= MOST_MEMBERS:
        raise TextError(
            Message("family-members", name=base, count=high - low + 1, most=MOST_MEMBERS), key.place
        )
    for i in range(low, high + 1):
        yield f"{base}({i})", {**values, family.name: i}


def _single(name: Name, values: Mapping[str, int], key: Scalar) -> str:
    match name.steps:
        case ():
            return name.base
        case (Select(items=(item,)),):
            return f"{name.base}({number(evaluate_at(item, Numbers(values), key.place))})"
    raise TextError(
        Message("name-unfit", found=key.text, base=name.base),
        key.place,
    )


def targets(key: Scalar, values: Mapping[str, int]) -> Iterator[tuple[str, dict[str, int]]]:
    """Like `members`, for the left side of a join, which may also be a slice."""
    target: Target = parse(key.text, "target", key.place)
    if target.family is None:
        yield key.text, dict(values)
    else:
        yield from members(key, values)
