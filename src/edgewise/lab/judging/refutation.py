"""A refutation: operands for which a submission gives another answer, and both runs."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property

from edgewise.trace import Trace
from edgewise.words.lists import equations


@dataclass(frozen=True)
class Refutation:
    """Operands for which a submission gives another answer.

    Parameters
    ----------
    operands : mapping of str to int
        The smallest; see `smallest`.
    answer : str
        The output that differs.
    row : int
        In which the answer stands.
    runs : (Trace, Trace)
        The design's run for these operands, and the submission's.
    """

    operands: Mapping[str, int]
    answer: str
    row: int
    runs: tuple[Trace, Trace]

    @property
    def names(self) -> tuple[str, ...]:
        """The outputs that both have."""
        should, found = (run.design.netlist.outputs for run in self.runs)
        return tuple(name for name in should if name in found)

    @cached_property
    def differing(self) -> tuple[int, ...]:
        """The rows in which known bits of an output differ; where there are none, any bits."""
        rows = {row: self._words(row) for row in range(self.runs[0].edges + 1)}
        known = tuple(row for row, words in rows.items() if any(map(_conflict, *words)))
        return known or tuple(row for row, (one, other) in rows.items() if one != other)

    @property
    def first(self) -> int:
        """The first of them."""
        return self.differing[0]

    def table(self, here: str = "{name} here") -> tuple[tuple[str, ...], ...]:
        """Both runs side by side, from the first row that differs.

        A heading, then a line for each row; for each output what it should be and what it is.
        """
        pairs = [(name, here.format(name=name)) for name in self.names]
        heading = ("edge", *(told for pair in pairs for told in pair))
        rows = range(self.first, self.runs[0].edges + 1)
        lines = [
            (str(row), *(word for pair in zip(*self._words(row), strict=True) for word in pair))
            for row in rows
        ]
        return (heading, *lines)

    def facts(self) -> dict[str, str | int]:
        """For a sentence."""
        should, found = (str(run.word(self.answer, self.row)) for run in self.runs)
        return {
            "operands": equations(self.operands.items()),
            "count": len(self.operands),
            "answer": self.answer,
            "edge": self.row,
            "clocked": "yes" if self.runs[0].edges else "no",
            "found": found,
            "should": should,
        }

    def _words(self, row: int) -> tuple[list[str], list[str]]:
        should, found = ([str(run.word(name, row)) for name in self.names] for run in self.runs)
        return should, found


def _conflict(should: str, found: str) -> bool:
    return any(a != b and "X" not in (a, b) for a, b in zip(should, found, strict=True))
