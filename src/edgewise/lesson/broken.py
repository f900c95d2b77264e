"""The ``fault`` block: a run of the broken circuit, for learners to find out what is wrong."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from edgewise.errors import TextError, nearest
from edgewise.study.claims.run import Run
from edgewise.trace import Trace
from edgewise.yamltext import Mapping as Keys
from edgewise.yamltext import Scalar, scalar

if TYPE_CHECKING:
    from edgewise.study.faults.models import Fault
    from edgewise.views.drawing.svg import Drawing

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
    drawing : Drawing
        The circuit as it should be, before the first edge; in a solution the broken one in
        its last row, the fault marked.
    row : int
        Of the drawing.
    columns : tuple of str
    rows : tuple of int
        Of the table of the broken run.
    solution : bool
        Whether the fault is told.
    caption : str
    """

    fault: Fault
    trace: Trace
    drawing: Drawing
    row: int
    columns: tuple[str, ...]
    rows: tuple[int, ...]
    solution: bool = False
    caption: str = ""

    @property
    def told(self) -> str:
        """What the table shows."""
        numbers = {**self.trace.design.parameters, **self.trace.operands}
        given = ", ".join(f"{name}\u00a0=\u00a0{value}" for name, value in numbers.items())
        given = f" ({given})" if given else ""
        what = self.fault.name if self.solution else "one thing is wrong"
        return self.caption or f"The words of a broken circuit, MSB left: {what}{given}"

    @property
    def drawn(self) -> str:
        """What the drawing shows."""
        if not self.solution:
            return "The circuit as it should be"
        return " ".join([self.fault.sentence, *self.fault.cautions])


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
        raise TextError(f"solution: found {given.text}, expected true or false", given.place)
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
        example = "fault: C stuck at 0"
        raise TextError(f"a fault block says what is wrong: {example}", options.place)
    given = scalar(tree, "fault")
    return None if run is None else _found(given, run)


def _found(given: Scalar, run: Run) -> Fault:
    from edgewise.study.faults.models import faults

    text = " ".join(given.text.split())
    known = {fault.name: fault for fault in faults(run.design, inside=True)}
    if text not in known:
        close = nearest(text, known)
        hint = close if close.startswith("; did") else "; edgewise break lists them"
        raise TextError(f"{run.design.name} has no fault {text}{hint}", given.place)
    return known[text]


def read(
    fault: Fault,
    run: Run,
    columns: Sequence[str],
    rows: Sequence[int] | None,
    *,
    solution: bool,
    caption: str,
) -> Broken:
    """The broken run, and a drawing that tells the fault only in a solution."""
    from edgewise.views.diagram.block_diagram import diagram

    trace = Run(fault.design, run.operands).trace
    row = trace.edges if solution else 0
    drawing = (
        diagram(trace, row, mark=fault.where, fault=fault.name)
        if solution
        else diagram(run.trace, row)
    )
    shown = range(trace.edges + 1) if rows is None else [k for k in rows if k <= trace.edges]
    return Broken(fault, trace, drawing, row, tuple(columns), tuple(shown), solution, caption)
