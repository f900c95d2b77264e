"""The ``law`` block: an exact formula for a count, found or claimed over a grid of parameters."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from edgewise.arithmetic import Numbers, evaluate_at, number
from edgewise.blueprint import Blueprint
from edgewise.design import Design
from edgewise.errors import EdgewiseError, Message, TextError, raise_all
from edgewise.formula import Node, parse, show
from edgewise.lesson.claims import FalseClaim
from edgewise.numerals import meant_range
from edgewise.words.lists import equations
from edgewise.words.messages import ENGLISH, Words
from edgewise.yamltext import Mapping as Keys
from edgewise.yamltext import Scalar, mapping, scalar

if TYPE_CHECKING:
    from edgewise.study.laws.formula_families import Counted
    from edgewise.study.laws.law import Law

OPTIONS = ("count", "over", "claim")
"""The entries of a ``law`` block."""


@dataclass(frozen=True, slots=True)
class Miss:
    """A design for which a claimed formula does not give the count."""

    case: tuple[tuple[str, int], ...]
    quantity: str
    count: int
    value: int


@dataclass(frozen=True, slots=True)
class FoundLaw:
    """A law in a lesson.

    Parameters
    ----------
    law : Law
    text : str
        The formula to show: the claimed one, or the one that was found; empty for none.
    """

    law: Law
    text: str
    ends: Miss | None = None
    """The first design beyond the asked ranges for which a claimed formula is wrong."""

    @property
    def how(self) -> str:
        """What stands behind it: ``checked on 60 designs, n = 1 to 15, x = 2 to 5; on 9 …``."""
        return self.told()

    def told(self, words: Words = ENGLISH) -> str:
        """What stands behind it; where there is no law, that there is none."""
        if not self.text:
            return ", ".join(self.law.none(words))
        if self.ends is None:
            return self.law.how(words)
        counts = {"count": self.ends.count, "value": self.ends.value}
        case = equations(self.ends.case, "=")
        facts = {"asked": self.law.asked(words), "case": case, "quantity": self.ends.quantity}
        return words("law-ends", **facts, **counts)


def read(options: Keys, blueprint: Blueprint | None, design: Design | None) -> FoundLaw | None:
    """Find the law that a block asks for; without a design the block is only read.

    Parameters
    ----------
    options : Keys
        ``count: edges``, ``over: {n: 1..16, x: 2..5}``, and, optional, ``claim: n*(x + 1)``.
    blueprint : Blueprint, optional
    design : Design, optional
        The lesson's; parameters that `over` does not name keep its numbers.

    Raises
    ------
    FalseClaim
        A claimed formula that is wrong for some design; the first such is named.
    EdgewiseError or Problems
        Options that can't be read, or a grid that can't be built.
    """
    from edgewise.study.laws import fit

    errors: list[EdgewiseError] = []
    count, over, claimed = Scalar("edges", options.place), {}, None
    try:
        tree = options.get("count")
        count = count if tree is None else scalar(tree, "count")
    except EdgewiseError as wrong:
        errors += wrong.parts()
    try:
        over = grid(options, design.parameters if design else {})
    except EdgewiseError as wrong:
        errors += wrong.parts()
    try:
        claimed = _claimed(options)
    except EdgewiseError as wrong:
        errors += wrong.parts()
    raise_all(errors)
    if blueprint is None or design is None:
        return None
    # A parameter that the lesson did not choose follows those that vary.
    fixed = {name: value for name, value in design.chosen.items() if name not in over}
    law = fit.find(blueprint, count.text, over, fixed, place=count.place)
    if claimed is None:
        return FoundLaw(law, law.text)
    node, told = claimed
    miss = _miss(law, law.counts, node, told)
    if miss:
        found = Message("law-found", quantity=law.quantity, law=law.text, checked=law.checked)
        false = Message(
            "law-false",
            quantity=law.quantity,
            formula=told.text,
            case=equations(miss.case, "="),
            count=miss.count,
            expected=miss.value,
            found=found if law.text else "",
        )
        raise FalseClaim(false, told.place)
    return FoundLaw(law, show(node), _miss(law, law.beyond, node, told))


def grid(options: Keys, known: Mapping[str, int]) -> dict[str, tuple[int, int]]:
    """The ranges of ``over: {n: 1..16, x: 2..5}``."""
    tree = options.get("over")
    if tree is None:
        raise TextError(Message("law-over-absent"), options.place)
    over: dict[str, tuple[int, int]] = {}
    scope = Numbers(known)
    for name, value in mapping(tree, "over", "{n: 1..16, x: 2..5}").pairs:
        given = scalar(value, name.text)
        low, dots, high = given.text.partition("..")
        if not dots or high.startswith("."):
            hint = meant_range(given.text) or Message("range-form")
            raise TextError(
                Message("range-unread", name=name.text, found=given.text, hint=hint), given.place
            )
        behind = given.place.moved(len(low) + 2)
        ends = [(low, given.place), (high, behind)]
        first, last = (
            number(evaluate_at(parse(text, place=place), scope, place)) for text, place in ends
        )
        over[name.text] = (first, last)
    return over


def _claimed(options: Keys) -> tuple[Node, Scalar] | None:
    tree = options.get("claim")
    if tree is None:
        return None
    given = scalar(tree, "claim")
    return parse(given.text, place=given.place), given


def _miss(law: Law, counts: Sequence[Counted], node: Node, given: Scalar) -> Miss | None:
    """The first design whose count a formula does not give."""
    names = [name for name, _, _ in law.ranges]
    for point, count in counts:
        numbers = {**dict(law.fixed), **dict(zip(names, point, strict=True))}
        value = number(evaluate_at(node, Numbers(numbers), given.place))
        if value != count:
            return Miss(tuple(zip(names, point, strict=True)), law.quantity, count, value)
    return None
