"""Choosing operands that teach.

The order in which sets are preferred:

1. the more rows of the full adder's truth table are met where they count;
2. a carry that is generated, one that is propagated, one that is killed;
3. the more misconceptions give a wrong answer;
4. the more flip-flops toggle in both directions and gates take both values;
5. the more misconceptions are told apart;
6. the more readable the numbers are (see `legibility`).

Up to 24 operand bits, every set is looked at (`lexicographic.best`); beyond, a solver
goes for the criteria in the same order, and nothing is promised.
"""

from __future__ import annotations

import random
import time
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from itertools import groupby
from typing import Final, TypeVar

from edgewise.blueprint import Blueprint
from edgewise.design import Design
from edgewise.engines.exhaustive import compiler
from edgewise.engines.exhaustive.operand_space import Space
from edgewise.engines.sat.session import Session
from edgewise.engines.symbolic.terms import FALSE, Term, Terms
from edgewise.engines.symbolic.unrolling import unroll
from edgewise.errors import DesignError, EdgewiseError, Message
from edgewise.study.coverage import measured
from edgewise.study.coverage.adder_usage import additions
from edgewise.study.misconceptions import registry
from edgewise.study.operands import legibility, lexicographic
from edgewise.study.operands.criteria import Criteria, criteria, row_terms
from edgewise.study.operands.lexicographic import Progress
from edgewise.study.operands.report import Advice, Example, Least
from edgewise.study.operands.requirements import Wish, longest, wanted

Label = TypeVar("Label")

EXHAUSTIVE: Final = 24
"""Operand bits up to which every set is looked at."""
_CANDIDATES: Final = 40
"""Sets ranked for each example that is asked for, so that there is something to choose from."""
_WIDER: Final = 24
"""How many greater widths are tried."""
_SECONDS: Final = 5.0
"""For one question to the solver beside the main one."""


def choose(
    design: Design,
    wish: Wish | None = None,
    *,
    blueprint: Blueprint | None = None,
    most: int = 3,
    seed: int | None = None,
    progress: Progress | None = None,
) -> Advice:
    """The operands of a design that show most.

    Parameters
    ----------
    design : Design
    wish : Wish, optional
        What they must be like.
    blueprint : Blueprint, optional
        The design for other parameters; with it, and without a wish, the least width that
        shows what can't be shown here is looked for.
    most : int
        Number of examples. They differ in more than the order of the operands.
    seed : int, optional
        Another choice among sets that teach as well, where numbers are less small; the same
        seed gives the same examples.
    progress : function, optional
        Is told (sets done, sets in all).

    Raises
    ------
    DesignError or Problems
        Nothing to choose, a wish that can't be understood, or one that no operands fulfil.

    Examples
    --------
    >>> from edgewise import catalogue
    >>> advice = choose(catalogue.design("serial-adder", n=4), most=1)
    >>> advice.examples[0].operands, advice.most_rows
    ({'a': 3, 'b': 7}, 4)
    """
    wish = wish or Wish()
    if not design.operands:
        raise DesignError(Message("operands-none", design=design.name))
    search = _Search(design, criteria(design), wish)
    found = search.candidates(most, progress)
    if not found:
        raise search.impossible()
    chosen = distinct(found, most, seed, spread=len(design.operands) > 1)
    examples = tuple(example(design, operands) for operands, _ in chosen)
    rows = max(len(one.coverage.rows) for one in examples) if search.asked.rows else None
    least = None
    # With a wish it may be the wish that stands in the way, at any width.
    if blueprint and rows is not None and rows < 8 and not str(wish):
        least = least_width(blueprint, design)
    return Advice(
        design.name,
        design.parameters,
        str(wish),
        examples,
        search.exhaustive,
        1 << search.bits,
        rows,
        least,
        *search.never(examples),
    )


@dataclass(frozen=True)
class _Search:
    design: Design
    asked: Criteria
    wish: Wish

    @cached_property
    def wanted(self) -> Term:
        return wanted(self.design, self.wish, self.asked)

    @cached_property
    def space(self) -> Space:
        return Space.of(self.design)

    @property
    def bits(self) -> int:
        return sum(operand.width for operand in self.design.operands)

    @property
    def exhaustive(self) -> bool:
        return self.bits <= EXHAUSTIVE

    @cached_property
    def teaching(self) -> tuple[Term, ...]:
        """Planes of the first five criteria."""
        asked = self.asked
        groups: tuple[Iterable[Term], ...] = (
            asked.rows,
            asked.carries,
            (term for _, term in asked.wrong),
            (term for _, term in asked.moves),
            (term for *_, term in asked.apart),
        )
        return tuple(
            plane for each in groups for plane in lexicographic.many(asked.terms, tuple(each))
        )

    def candidates(self, most: int, progress: Progress | None) -> list[tuple[dict[str, int], int]]:
        """Good operand sets, the best first, with a number that tells how well each teaches."""
        terms = self.asked.terms
        readability = legibility.planes(terms, self.space)
        planes = (*self.teaching, *readability)
        if not self.exhaustive:
            sets = lexicographic.best_by_solver(terms, self.wanted, planes, self.space, most)
            return [(operands, 0) for operands in sets]
        ranked = lexicographic.best(
            terms, self.wanted, planes, self.space, _CANDIDATES * most, progress
        )
        return [(self.space.decode(r.number), r.score >> len(readability)) for r in ranked]

    def impossible(self) -> DesignError:
        """The error for a wish that no operands fulfil."""
        hint = Message("wish-less")
        others = tuple(f for f in self.wish.features if not f.startswith("carry chain"))
        if others != self.wish.features:
            rest = wanted(self.design, replace(self.wish, features=others), self.asked)
            both = self.asked.terms.both
            places = longest(self.asked, lambda run: self._possible(both(rest, run)))
            hint = Message("wish-carries", count=places)
        return DesignError(
            Message(
                "wish-impossible",
                known="all" if self.exhaustive else "solver",
                design=self.design.name,
                wish=str(self.wish),
                hint=hint,
            )
        )

    def _possible(self, term: Term) -> bool:
        if term == FALSE:
            return False
        if self.exhaustive:
            return bool(compiler.first(self.asked.terms, term, self.space))
        return bool(self._solved([term])[0])

    def _solved(self, terms: Sequence[Term]) -> list[bool]:
        """Which of some terms can hold, as far as the solver comes to know it."""
        with Session(self.asked.terms, time.monotonic() + _SECONDS) as session:
            return [session.ask(term) is not False for term in terms]

    def never(
        self, examples: Sequence[Example]
    ) -> tuple[tuple[str, ...], tuple[tuple[str, ...], ...], tuple[str, ...]]:
        """What no operands show: misconceptions detected, told apart, toggles.

        Only what none of the examples shows is asked about.
        """
        asked = self.asked
        told = {name for one in examples for name in one.wrong}
        wrong = [(idea.name, term) for idea, term in asked.wrong if idea.name not in told]
        never_detected = self._never(wrong)
        pairs = [
            ((one.name, other.name), term)
            for one, other, term in asked.apart
            if not {one.name, other.name} & {*never_detected}
            and all(e.wrong.get(one.name) == e.wrong.get(other.name) for e in examples)
        ]
        return never_detected, joined(self._never(pairs)), self._never(asked.moves)

    def _never(self, labelled: Sequence[tuple[Label, Term]]) -> tuple[Label, ...]:
        terms = [term for _, term in labelled]
        if self.exhaustive:
            possible = [n > 0 for n in compiler.count_each(self.asked.terms, terms, self.space)]
        else:
            possible = self._solved(terms)
        return tuple(label for (label, _), can in zip(labelled, possible, strict=True) if not can)


def joined(pairs: Sequence[tuple[str, str]]) -> tuple[tuple[str, ...], ...]:
    """Pairs of what is the same, as groups.

    Examples
    --------
    >>> joined([("a", "b"), ("c", "d"), ("a", "e"), ("b", "e")])
    (('a', 'b', 'e'), ('c', 'd'))
    """
    groups: list[list[str]] = []
    for one, other in pairs:
        group = next((g for g in groups if one in g or other in g), None)
        if group is None:
            group = []
            groups.append(group)
        group += [name for name in (one, other) if name not in group]
    return tuple(map(tuple, groups))


def distinct(
    found: Sequence[tuple[dict[str, int], int]], most: int, seed: int | None, *, spread: bool
) -> list[tuple[dict[str, int], int]]:
    """A few of many ranked sets.

    Parameters
    ----------
    found : sequence of (operands, how well they teach)
        The best first.
    most : int
    seed : int, optional
        Shuffles those that teach equally well.
    spread : bool
        Whether an operand's value should not come twice, as long as there is a choice.
    """
    order = list(found)
    if seed is not None:
        shuffle = random.Random(seed)  # noqa: S311  # a choice that can be repeated, no secret
        order = []
        for _, group in groupby(found, key=lambda one: one[1]):
            alike = list(group)
            shuffle.shuffle(alike)
            order += alike
    chosen: list[tuple[dict[str, int], int]] = []
    for strict in (True, False) if spread else (False,):
        for one in order:
            values = {*one[0].values()}
            near = [
                other
                for other, _ in chosen
                if sorted(other.values()) == sorted(one[0].values())
                or (strict and values & {v for v in other.values() if v > 1})
            ]
            if len(chosen) < most and not near:
                chosen.append(one)
    return chosen


def example(design: Design, operands: Mapping[str, int]) -> Example:
    """What some operands show; misconceptions are run on the reference engine.

    Examples
    --------
    >>> from edgewise import catalogue
    >>> example(catalogue.design("ripple-carry-adder", n=4), {"a": 1, "b": 2, "carry_in": 0}).hidden
    ('carry-dropped', 'carry-too-far', 'or-for-sum', 'carry-of-two')
    """
    truth = told(design, operands)
    answers = {idea.name: told(other, operands) for idea, other in registry.applicable(design)}
    wrong = {name: answer for name, answer in answers.items() if answer != truth}
    same: dict[str, list[str]] = {}
    for name, answer in wrong.items():
        same.setdefault(answer, []).append(name)
    return Example(
        dict(operands),
        measured.coverage(design, operands),
        truth,
        wrong,
        tuple(name for name in answers if name not in wrong),
        tuple(tuple(group) for group in same.values() if len(group) > 1),
    )


def told(design: Design, operands: Mapping[str, int]) -> str:
    """A design's answer in words: ``sum 011001, carry 0``."""
    words = registry.answers(design, operands)
    return ", ".join(f"{name} {word}" for name, word in words.items())


# ---------------------------------------------------------------------- other widths


def least_width(blueprint: Blueprint, design: Design) -> Least | None:
    """The least width above a design's at which one example covers all rows of a full adder.

    The width is the first parameter that makes the operands wider; the others stay as they
    are, defaults following it. None if there is no such width within 24 steps.

    Examples
    --------
    >>> from edgewise import catalogue
    >>> print(least_width(catalogue.find("serial-adder"), catalogue.design("serial-adder", n=4)))
    n = 8, for example a = 29, b = 46
    """
    for name, value in design.parameters.items():
        own = {k: v for k, v in design.chosen.items() if k != name}
        if _bits(_built(blueprint, {**own, name: value + 1})) > _bits(design):
            for wider in range(value + 1, value + 1 + _WIDER):
                shown = _all_rows(_built(blueprint, {**own, name: wider}))
                if shown:
                    return Least(name, wider, shown)
            return None
    return None


def _built(blueprint: Blueprint, parameters: Mapping[str, int]) -> Design | None:
    try:
        return blueprint.design(parameters)
    except EdgewiseError:
        return None  # beyond the range of a parameter


def _bits(design: Design | None) -> int:
    return sum(operand.width for operand in design.operands) if design else 0


def _all_rows(design: Design | None) -> dict[str, int] | None:
    """Readable operands that cover all rows of the full adder's truth table."""
    if design is None:
        return None
    terms = Terms()
    rows = row_terms(terms, additions(design, terms, unroll(design, terms)))
    shown = terms.all_of(rows)
    if not rows or shown == FALSE:
        return None
    space = Space.of(design)
    with Session(terms, time.monotonic() + _SECONDS) as session:
        if not session.ask(shown):
            return None
    planes = legibility.planes(terms, space)
    if _bits(design) > EXHAUSTIVE:
        return next(iter(lexicographic.best_by_solver(terms, shown, planes, space)), None)
    return space.decode(lexicographic.best(terms, shown, planes, space)[0].number)
