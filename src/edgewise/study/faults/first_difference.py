"""Where two runs part: the first row in which the fault of a broken circuit is detected."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from edgewise.trace import Trace
from edgewise.words.messages import ENGLISH, Words


@dataclass(frozen=True, slots=True)
class Difference:
    """What stands in a row in place of what: a word by name, or without a name the phase."""

    name: str
    found: str
    expected: str

    def told(self, words: Words) -> str:
        """``C is 0 and should be 1``."""
        facts = {"found": self.found, "expected": self.expected}
        if not self.name:
            return words("fault-differing-phase", **facts)
        return words("fault-differing", name=self.name, **facts)


@dataclass(frozen=True, slots=True)
class Parting:
    """The first row of a table in which two runs differ.

    Parameters
    ----------
    row : int, optional
        None: in these rows and columns they do not.
    last : int
        The last row of the right run.
    differences : tuple of Difference
        In that row; none where one of the runs has ended.
    phase : str
        Of a row that the right run does not have: its phase.
    """

    row: int | None
    last: int
    differences: tuple[Difference, ...] = ()
    phase: str = ""

    @property
    def sentence(self) -> str:
        """Which row it is, and what stands there in place of what."""
        return self.told()

    def told(self, words: Words = ENGLISH) -> str:
        """The same in a language."""
        if self.row is None:
            return words("fault-undetected")
        if self.differences:
            place = "table" if not self.last else "row" if self.row else "start"
            told = ", ".join(one.told(words) for one in self.differences)
            return words("fault-detected", place=place, edge=self.row, differences=told)
        if self.row < self.last:
            return words("fault-short", edge=self.row, missing=self.last - self.row)
        phase = "in" if self.phase else "none"
        return words("fault-long", edge=self.row, last=self.last, phase=phase, name=self.phase)


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
    The fault is first detected in the row of edge 5: C is 0 and should be 1.
    """
    last = right.edges
    for row in sorted(rows):
        if row > last:
            phase = wrong.design.phase_of(row)
            return Parting(row, last, phase=phase.name if phase else "")
        found = tuple(_differences(right, wrong, columns, row))
        if found:
            return Parting(row, last, found)
    if rows and max(rows) == wrong.edges < last:
        return Parting(wrong.edges, last)
    return Parting(None, last)


def _differences(
    right: Trace, wrong: Trace, columns: Sequence[str], row: int
) -> Iterator[Difference]:
    phases = [phase.name if phase else "" for phase in (wrong.phase(row), right.phase(row))]
    if phases[0] != phases[1]:
        yield Difference("", *phases)
    for name in columns:
        found, expected = wrong.word(name, row), right.word(name, row)
        if found != expected:
            yield Difference(name, str(found), str(expected))
