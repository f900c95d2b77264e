"""The value after an edge, to be worked out or to be chosen from four."""

from __future__ import annotations

import random
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import combinations
from typing import Final

from edgewise.bits import Word
from edgewise.engines.symbolic.terms import Term
from edgewise.errors import Message
from edgewise.practice.believers import Believers, Spot, spot_of
from edgewise.practice.difficulty import of_cells
from edgewise.practice.question import ChoiceQuestion, Option, ValueQuestion
from edgewise.practice.table_question import Cell
from edgewise.practice.task import Task
from edgewise.trace import Trace
from edgewise.words.lists import listed

WRONG: Final = 3
"""Wrong options beside the right one."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ValueTask(Task):
    """One word after one edge, to be worked out from the start."""

    spot: Spot

    @property
    def spots(self) -> tuple[Spot, ...]:
        """The word."""
        return (self.spot,)

    def question(
        self, believers: Believers, trace: Trace, shuffle: random.Random, tells: Sequence[str]
    ) -> ValueQuestion:
        """The question for a run."""
        del shuffle
        wrong = believers.wrong(self.spots, trace)
        return ValueQuestion(
            name=self.name,
            kind="value",
            marks=self.marks,
            trace=trace,
            own=self.operands is not None,
            level=of_cells(trace, (self.spot.cell,), 0),
            tells=tuple(tells),
            wording=self.wording,
            hint=self.hint,
            cell=self.spot.cell,
            believed=tuple((name, w) for name in tells if (w := wrong[name][0]) is not None),
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class ChoiceTask(Task):
    """One word after one edge, and beside it what three misconceptions give.

    `about` names the three; else they are chosen.
    """

    spot: Spot

    @property
    def spots(self) -> tuple[Spot, ...]:
        """The word."""
        return (self.spot,)

    def tells(self, believers: Believers, trace: Trace) -> tuple[str, ...]:
        """The three misconceptions of the wrong options."""
        self.known(believers)
        wrong = {idea: words[0] for idea, words in believers.wrong(self.spots, trace).items()}
        chosen = self.about or _distinct(wrong)
        if len(chosen) != WRONG:
            message = "options-about" if self.about else "options-few"
            raise self.refused(Message(message, count=len(chosen), most=WRONG))
        lucky = [idea for idea in chosen if idea not in wrong]
        if lucky:
            others = listed(_distinct(wrong, len(wrong)))
            raise self.refused(
                Message(
                    "options-right",
                    ideas=listed(lucky),
                    count=len(lucky),
                    wrong=len(wrong),
                    others=others,
                )
            )
        for one, other in combinations(chosen, 2):
            if wrong[one] == wrong[other]:
                raise self.refused(
                    Message("options-alike", ideas=listed([one, other]), answer=str(wrong[one]))
                )
        return tuple(chosen)

    def needs(self, believers: Believers, tells: Sequence[str]) -> tuple[Term, ...]:
        """Each of them wrong, and no two alike."""
        return (
            *(believers.told(idea, self.spots) for idea in tells),
            *(believers.apart(*pair, self.spots) for pair in combinations(tells, 2)),
        )

    def question(
        self, believers: Believers, trace: Trace, shuffle: random.Random, tells: Sequence[str]
    ) -> ChoiceQuestion:
        """The question for a run, its options in an order of their own."""
        cell = self.spot.cell
        options = [Option(trace.word(cell.column, cell.row), right=True)]
        for idea in tells:
            word = believers.word(idea, self.spot, trace.operands)
            if word is None or word in [option.what for option in options]:
                raise self.refused(Message("no-answer-of-its-own", idea=idea))
            options.append(Option(word, idea=idea))
        shuffle.shuffle(options)
        return ChoiceQuestion(
            name=self.name,
            kind="choice",
            marks=self.marks,
            trace=trace,
            own=self.operands is not None,
            level=of_cells(trace, (cell,), 0),
            tells=tuple(tells),
            wording=self.wording,
            hint=self.hint,
            cell=cell,
            options=tuple(options),
        )


def spot(believers: Believers, cell: Cell) -> Spot:
    """The word of a cell; the answer, where it is one."""
    return spot_of(believers.design, cell)


def _distinct(wrong: Mapping[str, Word | None], most: int = WRONG) -> tuple[str, ...]:
    """The first misconceptions whose answers differ; those without an X before the others."""
    found: dict[Word, str] = {}
    for known in (True, False):
        for idea, word in wrong.items():
            if word is not None and word.known == known:
                found.setdefault(word, idea)
    return tuple(list(found.values())[:most])
