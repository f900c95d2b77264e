"""Operands to be chosen so that something is seen."""

from __future__ import annotations

import random
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from edgewise.engines.symbolic.terms import FALSE, TRUE, Term
from edgewise.errors import Message
from edgewise.practice.believers import Believers
from edgewise.practice.difficulty import Level
from edgewise.practice.question import OperandsQuestion
from edgewise.practice.task import Task
from edgewise.study.operands.requirements import fulfilled, wanted
from edgewise.trace import Trace
from edgewise.words.lists import equations

if TYPE_CHECKING:
    from edgewise.study.operands.requirements import Wish


@dataclass(frozen=True, slots=True, kw_only=True)
class OperandsTask(Task):
    """Operands to choose.

    Parameters
    ----------
    wish : Wish
        What they are to show.
    fixed : tuple of str
        Operands that are given: those of the run of its own, which is an example.
    example : mapping of str to int
        For the author's own operands.
    """

    wish: Wish
    fixed: tuple[str, ...]
    example: Mapping[str, int]

    @property
    def known_by(self) -> str:
        """What is to be shown, and what is given."""
        return f"OperandsTask {self.wish} {self.fixed} {self.example}"

    def tells(self, believers: Believers, trace: Trace) -> tuple[str, ...]:
        """None: whatever shows it is right.

        Raises
        ------
        Refused
            All operands show it, the example does not, or it can be copied from the paper.
        """
        self.known(believers)
        term = self._shown(believers)
        if term in (FALSE, TRUE):
            which = "all" if term == TRUE else "none"
            raise self.refused(Message("operands-no-choice", which=which, wish=str(self.wish)))
        if self.operands is not None and not fulfilled(believers.design, self.wish, trace.operands):
            numbers = equations(trace.operands.items())
            raise self.refused(
                Message("operands-no-example", operands=numbers, wish=str(self.wish))
            )
        return ()

    def _digits(self, believers: Believers) -> int:
        """Decimal digits that the operands to be chosen may have."""
        asked = (o for o in believers.design.operands if o.name not in self.fixed)
        return sum(max(len(str(n)) for n in (o.numbers[0], o.numbers[-1])) for o in asked)

    def _shown(self, believers: Believers) -> Term:
        return wanted(believers.design, self.wish, believers.criteria)

    def needs(self, believers: Believers, tells: Sequence[str]) -> tuple[Term, ...]:
        """That the operands of each paper are an example, where they are its own."""
        del tells
        return (self._shown(believers),) if self.operands is not None else ()

    def question(
        self, believers: Believers, trace: Trace, shuffle: random.Random, tells: Sequence[str]
    ) -> OperandsQuestion:
        """The question; operands that are given are those of the run."""
        del shuffle
        own = self.operands is not None
        example = dict(trace.operands) if own else dict(self.example)
        return OperandsQuestion(
            name=self.name,
            kind="operands",
            marks=self.marks,
            trace=trace,
            level=Level(edges=trace.edges, digits=self._digits(believers)),
            tells=tuple(tells),
            wording=self.wording,
            hint=self.hint,
            design=believers.design,
            wish=replace(self.wish, fixed={name: example[name] for name in self.fixed}),
            example=example,
        )
