"""How many clock edges a design takes: as a number, or as a formula in its parameters."""

from __future__ import annotations

import random
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from edgewise.blueprint import Blueprint
from edgewise.design import Design
from edgewise.errors import EdgewiseError, Message
from edgewise.practice.believers import Believers
from edgewise.practice.difficulty import Level
from edgewise.practice.question import EdgesQuestion, FormulaQuestion
from edgewise.practice.task import Task
from edgewise.study.misconceptions import registry
from edgewise.trace import Trace

if TYPE_CHECKING:
    from edgewise.study.laws.law import Law


@dataclass(frozen=True, slots=True, kw_only=True)
class EdgesTask(Task):
    """How many edges, for some numbers of the parameters.

    Parameters
    ----------
    blueprint : Blueprint
    cases : tuple of mapping of str to int
        The numbers that papers ask for, one of them each; all as hard. The first is the
        author's.
    """

    blueprint: Blueprint
    cases: tuple[Mapping[str, int], ...]

    @property
    def known_by(self) -> str:
        """Its cases."""
        return f"EdgesTask {self.cases}"

    def tells(self, believers: Believers, trace: Trace) -> tuple[str, ...]:
        """The misconceptions that count otherwise."""
        del trace
        self.known(believers)
        design = self.blueprint.design(self.cases[0])
        wrong = dict(counted(design))
        lucky = [idea for idea in self.about if idea not in wrong]
        if lucky:
            raise self.refused(self.luck(lucky, list(wrong)))
        if not wrong:
            raise self.refused(Message("tells-nothing"))
        return tuple(idea for idea in wrong if not self.about or idea in self.about)

    def question(
        self, believers: Believers, trace: Trace, shuffle: random.Random, tells: Sequence[str]
    ) -> EdgesQuestion:
        """The question for one of the cases."""
        del believers
        for numbers in shuffle.sample(self.cases, len(self.cases)):
            design = self.blueprint.design(numbers)
            wrong = dict(counted(design))
            if set(tells) <= set(wrong):
                break
        else:
            raise self.refused(self.luck(tells, ()))
        return EdgesQuestion(
            name=self.name,
            kind="edges",
            marks=self.marks,
            trace=trace,
            level=Level(digits=len(str(design.edges))),
            tells=tuple(tells),
            wording=self.wording,
            hint=self.hint,
            numbers={name: design.parameters[name] for name in numbers},
            answer=design.edges,
            believed=tuple((idea, wrong[idea]) for idea in tells if idea in wrong),
        )


def counted(design: Design) -> tuple[tuple[str, int], ...]:
    """The edges that misconceptions count, of those that count otherwise.

    Examples
    --------
    >>> from edgewise import catalogue
    >>> counted(catalogue.design("serial-adder", n=4))
    (('one-edge-early', 7), ('one-edge-late', 9), ('loading-not-counted', 4))
    """
    found = ((idea.name, _last(changed)) for idea, changed in registry.applicable(design))
    truth = _last(design)
    return tuple((name, design.edges + edges - truth) for name, edges in found if edges != truth)


def _last(design: Design) -> int:
    """The edge after which the last answer stands."""
    rows = [design.edges if p.after is None else p.after for p in design.computes]
    return max(rows, default=design.edges)


def alike(
    blueprint: Blueprint, first: Mapping[str, int], cases: Sequence[Mapping[str, int]]
) -> tuple[Mapping[str, int], ...]:
    """The cases that are as hard as the first: as many digits in each number and in the answer.

    Where the first is not one of the cases, the first of these takes its place.

    Examples
    --------
    >>> from edgewise import catalogue
    >>> cases = [{"n": n} for n in range(3, 8)]
    >>> alike(catalogue.find("serial-adder"), {"n": 6}, cases)
    ({'n': 6}, {'n': 5}, {'n': 7})
    """
    found: list[tuple[Mapping[str, int], tuple[int, ...]]] = []
    for case in cases:
        try:
            edges = blueprint.timetable(case).edges
        except EdgewiseError:
            continue  # numbers that do not go together
        asked = (*(case[name] for name in first), edges)
        found.append((case, tuple(len(str(number)) for number in asked)))
    # The first, if it is there, comes first.
    found.sort(key=lambda one: one[0] != first)
    return tuple(case for case, digits in found if digits == found[0][1])


@dataclass(frozen=True, slots=True, kw_only=True)
class FormulaTask(Task):
    """A formula for a count over a range of parameters."""

    blueprint: Blueprint
    law: Law

    @property
    def known_by(self) -> str:
        """Its law."""
        return f"FormulaTask {self.law.quantity} {self.law.text} {self.law.ranges}"

    def tells(self, believers: Believers, trace: Trace) -> tuple[str, ...]:
        """The misconceptions that count otherwise, for the paper's own numbers."""
        del trace
        self.known(believers)
        if self.law.quantity != "edges":
            return ()
        wrong = [idea for idea, _ in counted(believers.design)]
        lucky = [idea for idea in self.about if idea not in wrong]
        if lucky:
            raise self.refused(self.luck(lucky, wrong))
        return tuple(idea for idea in wrong if not self.about or idea in self.about)

    def question(
        self, believers: Believers, trace: Trace, shuffle: random.Random, tells: Sequence[str]
    ) -> FormulaQuestion:
        """The question; it is the same in every paper."""
        del believers, shuffle
        return FormulaQuestion(
            name=self.name,
            kind="formula",
            marks=self.marks,
            trace=trace,
            level=Level(edges=len(self.law.ranges), digits=len(self.law.text.replace(" ", ""))),
            tells=tuple(tells),
            wording=self.wording,
            hint=self.hint,
            quantity=self.law.quantity,
            formula=self.law.text,
            over=self.law.ranges,
            counts=self.law.counts,
            fixed=dict(self.law.fixed),
        )
