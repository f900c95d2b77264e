"""Where two runs part: the first row in which a broken circuit shows that it is broken."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from edgewise.circuit.parts import count
from edgewise.trace import Trace


@dataclass(frozen=True, slots=True)
class Parting:
    """The first row of a table in which two runs differ.

    Parameters
    ----------
    row : int, optional
        None: in these rows and columns they do not.
    sentence : str
        Which row that is, and what stands there in place of what.
    """

    row: int | None
    sentence: str


def parting(right: Trace, wrong: Trace, columns: Sequence[str], rows: Sequence[int]) -> Parting:
    """Compare a wrong run with the right one as a reader of its table does, row by row.

    Parameters
    ----------
    right, wrong : Trace
        Of the same circuit and operands; they may differ in the number of edges.
    columns : sequence of str
        Words that the table shows.
    rows : sequence of int
        Rows that it shows.

    Examples
    --------
    >>> from edgewise import catalogue, run
    >>> from edgewise.study.faults.models import faults
    >>> adder = catalogue.design("serial-adder", n=4)
    >>> fault = next(f for f in faults(adder) if f.name == "C stuck at 0")
    >>> runs = run(adder, a=3, b=7), run(fault.design, a=3, b=7)
    >>> print(parting(*runs, ("C", "S"), range(9)).sentence)
    The row of edge 5 shows it first: C is 0 and should be 1.
    """
    for row in sorted(rows):
        if row > right.edges:
            phase = wrong.design.phase_of(row)
            told = f" in phase {phase.name}" if phase else ""
            ended = f"the right run ends with edge {right.edges}"
            return Parting(row, f"{_row(row)} shows it first: {ended}, this is one more{told}.")
        told = _differences(right, wrong, columns, row)
        if told:
            where = _row(row) if right.edges else "The table"
            first = " first" if right.edges else ""
            return Parting(row, f"{where} shows it{first}: {told}.")
    if rows and max(rows) == wrong.edges < right.edges:
        missing = count(right.edges - wrong.edges, "edge")
        return Parting(
            wrong.edges,
            f"The end shows it: every row is as it should be, but the run stops at edge"
            f" {wrong.edges}, {missing} before its time.",
        )
    return Parting(
        None,
        "No row of this table shows it: in these columns the words are as they should be."
        " Other operands, rows or columns may.",
    )


def _row(row: int) -> str:
    return f"The row of edge {row}" if row else "The start"


def _differences(right: Trace, wrong: Trace, columns: Sequence[str], row: int) -> str:
    told = []
    phases = [phase.name if phase else "" for phase in (wrong.phase(row), right.phase(row))]
    if phases[0] != phases[1]:
        told.append(f"its phase is {phases[0]} and should be {phases[1]}")
    for name in columns:
        found, expected = wrong.word(name, row), right.word(name, row)
        if found != expected:
            told.append(f"{name} is {found} and should be {expected}")
    return ", ".join(told)
