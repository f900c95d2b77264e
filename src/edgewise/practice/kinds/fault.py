"""Which fault is behind the table of a broken circuit."""

from __future__ import annotations

import random
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import combinations
from typing import TYPE_CHECKING, Final, TypeAlias

from edgewise.engines import reference
from edgewise.errors import Message
from edgewise.practice.believers import Believers
from edgewise.practice.difficulty import Level
from edgewise.practice.question import ChoiceQuestion, Option
from edgewise.practice.task import Task
from edgewise.trace import Trace

if TYPE_CHECKING:
    from edgewise.study.faults.fault import Fault


@dataclass(frozen=True, slots=True, kw_only=True)
class FaultTask(Task):
    """The table of a broken circuit, and four faults of which one is behind it.

    Parameters
    ----------
    faults : tuple of Fault
        The one that is there first.
    rows : tuple of int
    columns : tuple of str
    """

    faults: tuple[Fault, ...]
    rows: tuple[int, ...]
    columns: tuple[str, ...]

    @property
    def known_by(self) -> str:
        """Its faults and its table."""
        return f"FaultTask {[fault.name for fault in self.faults]} {self.rows} {self.columns}"

    def tells(self, believers: Believers, trace: Trace) -> tuple[str, ...]:
        """None: the wrong options are other faults, not ideas."""
        del believers, trace
        if self.about:
            raise self.refused(Message("about-of-fault"))
        return ()

    def question(
        self, believers: Believers, trace: Trace, shuffle: random.Random, tells: Sequence[str]
    ) -> ChoiceQuestion:
        """The question for a run, its options in an order of their own."""
        del believers
        broken = self._tables(trace)
        options = [Option(fault, right=i == 0) for i, fault in enumerate(self.faults)]
        shuffle.shuffle(options)
        rows = tuple(row for row in self.rows if row <= broken.edges)
        return ChoiceQuestion(
            name=self.name,
            kind="fault",
            marks=self.marks,
            trace=broken,
            own=self.operands is not None,
            level=Level(edges=broken.edges, digits=len(self.faults)),
            tells=tuple(tells),
            wording=self.wording,
            hint=self.hint,
            options=tuple(options),
            rows=rows,
            columns=self.columns,
            sound=trace,
        )

    def _tables(self, trace: Trace) -> Trace:
        """The broken run, once no two faults show the same, and none what is right.

        Raises
        ------
        Refused
            Two do.
        """
        runs = {fault.name: reference.run(fault.design, trace.operands) for fault in self.faults}
        there = self.faults[0].name
        shown = {name: seen(run, self.rows, self.columns) for name, run in runs.items()}
        if shown[there] == seen(trace, self.rows, self.columns):
            raise self.refused(Message("fault-unseen", fault=there))
        for one, other in combinations(shown, 2):
            if shown[one] == shown[other] and there in (one, other):
                raise self.refused(Message("faults-alike", first=one, second=other))
        return runs[there]


OTHERS: Final = 3
"""Faults beside the one that is there."""
Seen: TypeAlias = tuple[tuple[str, ...], ...]
"""The words of a table."""


def seen(trace: Trace, rows: Sequence[int], columns: Sequence[str]) -> Seen:
    """What a table shows."""
    return tuple(
        tuple(str(trace.word(name, row)) for name in columns) for row in rows if row <= trace.edges
    )


def others(
    there: Fault,
    known: Sequence[Fault],
    trace: Trace,
    rows: Sequence[int],
    columns: Sequence[str],
) -> tuple[Fault, ...]:
    """Up to three other faults that give other tables; those of the same kind first."""
    shown = [seen(trace, rows, columns)]
    shown.append(seen(reference.run(there.design, trace.operands), rows, columns))
    found: list[Fault] = []
    for fault in sorted(known, key=lambda fault: fault.kind != there.kind):
        if len(found) == OTHERS or fault.name == there.name:
            continue
        table = seen(reference.run(fault.design, trace.operands), rows, columns)
        if table not in shown:
            shown.append(table)
            found.append(fault)
    return tuple(found)
