"""A task: a question before it has operands; from it the question of each paper is made."""

from __future__ import annotations

import random
import time
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Final

from edgewise.engines.exhaustive import compiler
from edgewise.engines.exhaustive.operand_space import Space
from edgewise.engines.sat.session import Session
from edgewise.engines.symbolic.terms import FALSE, TRUE, Term
from edgewise.errors import EdgewiseError, Message, Place, nearest
from edgewise.practice.believers import Believers, Spot
from edgewise.practice.question import Question
from edgewise.study.misconceptions import registry
from edgewise.trace import Trace
from edgewise.words.lists import listed

MOST_MARKS: Final = 100
"""For one question."""
_EXHAUSTIVE: Final = 24
"""Operand bits up to which it is counted for which operands a believer goes wrong."""
_SECONDS: Final = 5.0
"""For a solver, beyond."""


class Refused(EdgewiseError):
    """A question that would not be fair, or would tell nothing, and why."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Task:
    """What an author asks for.

    Parameters
    ----------
    name : str
        ``q1``, in the order of the paper.
    marks : int
    place : Place
        Of the block.
    wording, hint : str
        The author's own words.
    about : tuple of str
        The misconceptions that it is to tell from the truth; empty for all that could be told.
    operands : mapping of str to int, optional
        Of a run of its own; the paper's unless given.
    """

    name: str
    marks: int
    place: Place
    wording: str = ""
    hint: str = ""
    about: tuple[str, ...] = ()
    operands: Mapping[str, int] | None = None

    @property
    def spots(self) -> tuple[Spot, ...]:
        """The words that it asks for."""
        return ()

    @property
    def given(self) -> int:
        """The last row that a learner is told before what is asked."""
        return 0

    @property
    def known_by(self) -> str:
        """What its answers depend on besides the run; not how it is worded or what it is worth."""
        asked = [f"{spot.cell} {spot.output}" for spot in self.spots]
        return f"{type(self).__name__} {asked}"

    def needs(self, believers: Believers, tells: Sequence[str]) -> tuple[Term, ...]:
        """What operands must be like, so that it can be asked of them too."""
        if not self.spots:
            return ()
        return tuple(believers.told(idea, self.spots) for idea in tells)

    def question(
        self, believers: Believers, trace: Trace, shuffle: random.Random, tells: Sequence[str]
    ) -> Question:
        """The question for a run.

        Raises
        ------
        Refused
            It would not be fair for these operands.
        """
        raise NotImplementedError

    def tells(self, believers: Believers, trace: Trace) -> tuple[str, ...]:
        """The misconceptions that it tells from the truth.

        Raises
        ------
        Refused
            One that it is to tell, or could tell, gives the right answer.
        """
        self.known(believers)
        wrong = believers.wrong(self.spots, trace)
        if self.about:
            lucky = [idea for idea in self.about if idea not in wrong]
        else:
            may = _bearing(believers, self.spots)
            lucky = [idea for idea in may if idea not in wrong]
            if not may:
                raise self.refused(Message("tells-nothing"))
        if lucky:
            raise self.refused(self.luck(lucky, list(wrong)))
        return tuple(idea for idea in wrong if not self.about or idea in self.about)

    def known(self, believers: Believers) -> None:
        """See that what it is about has a meaning here."""
        for idea in self.about:
            if idea in believers.ideas:
                continue
            names = registry.names()
            if idea not in names:
                raise Refused(
                    Message("misconception-unknown", name=idea, suggestion=nearest(idea, names)),
                    self.place,
                )
            why = registry.find(idea).why_not(believers.design) or ""
            raise Refused(
                Message("question-not-about", question=self.name, idea=idea, why=why), self.place
            )

    def luck(self, lucky: Sequence[str], wrong: Sequence[str]) -> Message:
        """Why it is refused: who is wrong and yet answers rightly, and what to do."""
        left = [idea for idea in wrong if not self.about or idea in self.about]
        return Message(
            "luck",
            ideas=listed(lucky),
            count=len(lucky),
            left=len(left),
            about=", ".join(left),
        )

    def refused(self, why: Message | str) -> Refused:
        """The error, with the question's name."""
        return Refused(Message("within", what=self.name, told=why), self.place)


def _bearing(believers: Believers, spots: Sequence[Spot]) -> tuple[str, ...]:
    """The misconceptions that lead to another answer for some operands."""
    names = tuple(believers.ideas)
    terms = [believers.told(name, spots) for name in names]
    open_ = [term for term in dict.fromkeys(terms) if term not in (FALSE, TRUE)]
    can = dict(zip(open_, _possible(believers, open_), strict=True)) if open_ else {}
    return tuple(n for n, t in zip(names, terms, strict=True) if t == TRUE or can.get(t, False))


def _possible(believers: Believers, terms: Sequence[Term]) -> list[bool]:
    space = Space.of(believers.design)
    if sum(width for _, width in space.widths) <= _EXHAUSTIVE:
        return [n > 0 for n in compiler.count_each(believers.terms, terms, space)]
    with Session(believers.terms, time.monotonic() + _SECONDS) as session:
        return [session.ask(term) is not False for term in terms]
