"""Which of four statements about the run is false."""

from __future__ import annotations

import random
from collections.abc import Sequence
from dataclasses import dataclass

from edgewise.arithmetic import evaluate_at, truth
from edgewise.design import Design
from edgewise.errors import EdgewiseError, Message, Place
from edgewise.formula import Node
from edgewise.practice.believers import Believers
from edgewise.practice.difficulty import Level
from edgewise.practice.question import ChoiceQuestion, Option
from edgewise.practice.task import Refused, Task
from edgewise.study.claims.run import Run
from edgewise.study.claims.scope import Scope
from edgewise.trace import Trace
from edgewise.words.lists import listed


@dataclass(frozen=True, slots=True)
class Said:
    """One statement, true or false of a run."""

    text: str
    node: Node
    place: Place

    def holds(self, run: Run) -> bool:
        """Whether it is true of a run."""
        return truth(evaluate_at(self.node, Scope(run, place=self.place), self.place))


@dataclass(frozen=True, slots=True, kw_only=True)
class StatementTask(Task):
    """Four statements, one of them false; `false` says which, counted from 0."""

    statements: tuple[Said, ...]
    false: int

    @property
    def known_by(self) -> str:
        """Its statements."""
        return f"StatementTask {[said.text for said in self.statements]}"

    def tells(self, believers: Believers, trace: Trace) -> tuple[str, ...]:
        """The misconceptions that would not choose the false one.

        One that finds the false statement false, and the others true, answers rightly.
        """
        self.known(believers)
        wrong = [
            name
            for name, (_, design) in believers.ideas.items()
            if self._chosen(design, trace) not in (None, (self.false,))
        ]
        lucky = [idea for idea in self.about if idea not in wrong]
        if lucky:
            raise self.refused(self.luck(lucky, wrong))
        if not wrong:
            raise self.refused(Message("statements-tell-nothing"))
        return tuple(idea for idea in wrong if not self.about or idea in self.about)

    def _chosen(self, design: Design, trace: Trace) -> tuple[int, ...] | None:
        """The statements that are false of a believer's run; none where one can't be read."""
        run = Run(design, trace.operands)
        try:
            return tuple(i for i, said in enumerate(self.statements) if not said.holds(run))
        except EdgewiseError:
            return None

    def question(
        self, believers: Believers, trace: Trace, shuffle: random.Random, tells: Sequence[str]
    ) -> ChoiceQuestion:
        """The question for a run, its statements in an order of their own."""
        try:
            only_false(self.name, self.place, self.statements, trace, self.false)
        except EdgewiseError as wrong:  # such as a bit that is unknown with these operands
            raise self.refused(wrong.told) from None
        for idea in tells:
            if self._chosen(believers.ideas[idea][1], trace) in (None, (self.false,)):
                raise self.refused(self.luck([idea], ()))
        options = [
            Option(said.text, right=i == self.false) for i, said in enumerate(self.statements)
        ]
        shuffle.shuffle(options)
        return ChoiceQuestion(
            name=self.name,
            kind="false-statement",
            marks=self.marks,
            trace=trace,
            own=self.operands is not None,
            level=Level(edges=trace.edges, digits=len(options)),
            tells=tuple(tells),
            wording=self.wording,
            hint=self.hint,
            options=tuple(options),
        )


def only_false(
    name: str, place: Place, statements: Sequence[Said], trace: Trace, expected: int | None = None
) -> int:
    """Which statement is the false one.

    Raises
    ------
    Refused
        None is, more than one is, or another one than `expected`.
    """
    run = Run(trace.design, trace.operands)
    false = [i for i, said in enumerate(statements) if not said.holds(run)]
    if not false:
        raise Refused(Message("within", what=name, told=Message("statements-all-true")), place)
    if len(false) > 1:
        quoted = listed([f'"{statements[i].text}"' for i in false])
        told = Message("statements-many-false", statements=quoted)
        raise Refused(Message("within", what=name, told=told), place)
    if expected is not None and false != [expected]:
        told = Message("statements-another-false")
        raise Refused(Message("within", what=name, told=told), place)
    return false[0]
