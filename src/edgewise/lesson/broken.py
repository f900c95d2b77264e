"""The ``fault`` block: a run of the broken circuit, for learners to find out what is wrong."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Final

from edgewise.errors import Message, Place, Suggestion, TextError
from edgewise.lesson.pieces import EdgeTable, Figure
from edgewise.listing import either
from edgewise.spelling import close
from edgewise.study.claims.run import Run
from edgewise.trace import Trace
from edgewise.views.registry import Wish
from edgewise.words.lists import equations
from edgewise.words.messages import ENGLISH, Words
from edgewise.yamltext import Mapping as Keys
from edgewise.yamltext import Scalar, scalar

if TYPE_CHECKING:
    from edgewise.study.faults.fault import Fault

OPTIONS: Final = ("fault", "rows", "columns", "solution", "caption")
"""The entries of a ``fault`` block."""


@dataclass(frozen=True, slots=True)
class Broken:
    """A run with a fault.

    Parameters
    ----------
    fault : Fault
    trace : Trace
        The broken run.
    figure : Figure
        The circuit as it should be, before the first edge; in a solution the broken one in
        its last row, the fault marked.
    table : EdgeTable
        Of the broken run.
    solution : bool
        Whether the fault is told.
    """

    fault: Fault
    trace: Trace
    figure: Figure
    table: EdgeTable
    solution: bool = False
    caption: str = ""
    """Of the table, where the lesson has one of its own."""

    def captioned(self, words: Words) -> tuple[Figure, EdgeTable]:
        """Its figure and its table, with what they show; the fault is named in a solution only."""
        name = self.fault.called(words)
        if self.solution:
            about = " ".join([self.fault.told(words), *self.fault.warnings(words)])
            wish = replace(self.figure.wish, fault=name)
            figure = replace(self.figure, wish=wish, caption=about)
        else:
            figure = replace(self.figure, caption=words("fault-figure"))
        numbers = {**self.trace.design.parameters, **self.trace.operands}
        given = equations(numbers.items(), "\u00a0=\u00a0")
        what = name if self.solution else words("fault-hidden")
        told = words("fault-table", what=what)
        told = words("fault-table-of", table=told, given=given) if given else told
        return figure, replace(self.table, caption=self.caption or told)


def solved(options: Keys) -> bool:
    """Whether the solution is asked for.

    Raises
    ------
    TextError
        Neither true nor false.
    """
    tree = options.get("solution")
    if tree is None:
        return False
    given = scalar(tree, "solution")
    if given.text not in ("true", "false"):
        raise TextError(
            Message(
                "entry-expected",
                entry="solution",
                found=given.text,
                expected=either(("true", "false")),
            ),
            given.place,
        )
    return given.text == "true"


def named(options: Keys, run: Run | None) -> Fault | None:
    """The fault of the lesson's design that a block names.

    Raises
    ------
    TextError
        None of that name; the nearest is suggested.
    """
    tree = options.get("fault")
    if tree is None:
        raise TextError(Message("fault-missing"), options.place)
    given = scalar(tree, "fault")
    return None if run is None else _found(given, run)


def _found(given: Scalar, run: Run) -> Fault:
    from edgewise.study.faults.models import faults

    text = " ".join(given.text.split())
    known = {fault.name: fault for fault in faults(run.design, inside=True)}
    if text not in known:
        meant = close(text, known)
        hint = Suggestion(meant) if meant else Message("faults-listed")
        told = Message("fault-unknown", design=run.design.name, name=text, hint=hint)
        raise TextError(told, given.place)
    return known[text]


def read(  # noqa: PLR0913  # what the block says, each by its name
    fault: Fault,
    run: Run,
    columns: Sequence[str],
    rows: Sequence[int] | None,
    *,
    solution: bool,
    caption: str,
    place: Place,
    words: Words = ENGLISH,
) -> Broken:
    """The broken run, and a figure that tells the fault only in a solution."""
    trace = Run(fault.design, run.operands).trace
    shown = range(trace.edges + 1) if rows is None else [k for k in rows if k <= trace.edges]
    names = tuple(columns)
    table = EdgeTable(trace, names, tuple(shown))
    if solution:
        wish = Wish(after=trace.edges, mark=fault.where, fault=fault.called(words), words=words)
        figure = Figure(trace, "diagram", wish, (trace.edges,), names, place=place)
    else:
        figure = Figure(run.trace, "diagram", Wish(after=0, words=words), (0,), names, place=place)
    return Broken(fault, trace, figure, table, solution, caption)
