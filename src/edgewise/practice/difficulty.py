"""How hard a question is, by what a computer can count.

Which features make a question hard is common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Final

from edgewise.bits import X
from edgewise.practice.table_question import Cell
from edgewise.study.coverage.adder_usage import adders
from edgewise.trace import Trace

_STEPS: Final = (8, 16, 32, 64)
"""What a question counts together, at most, at levels 1 to 4."""


@dataclass(frozen=True, slots=True)
class Level:
    """What there is to think of in a question.

    Parameters
    ----------
    edges : int
        From the last row that is given to the last one that is asked.
    digits : int
        Bits to write down, or digits of a number.
    carries : int
        How often the carry of an adder changes on the way.
    unknown : int
        Unknown bits among those to write down.

    Examples
    --------
    >>> Level(edges=2, digits=14, carries=1, unknown=0).number
    3
    """

    edges: int = 0
    digits: int = 1
    carries: int = 0
    unknown: int = 0

    @property
    def total(self) -> int:
        """Steps, digits and what makes them hard: a carry that changes counts twice."""
        return self.edges + self.digits + 2 * self.carries + self.unknown

    @property
    def number(self) -> int:
        """1 (little to do) to 5: up to 8, 16, 32, 64 counts, or more."""
        return 1 + sum(self.total > most for most in _STEPS)


def of_cells(trace: Trace, cells: Iterable[Cell], given: int) -> Level:
    """The level of filling in cells, where everything up to row `given` is known."""
    asked = tuple(cells)
    last = max((cell.row for cell in asked), default=0)
    words = [trace.word(cell.column, cell.row) for cell in asked]
    carries = [adder.carry for adder in adders(trace.design)]
    rows = range(min(given, last), last + 1)
    changes = sum(
        trace.rows[row][net] != trace.rows[row - 1][net] for row in rows[1:] for net in carries
    )
    return Level(
        edges=last - min(given, last),
        digits=sum(word.width for word in words),
        carries=changes,
        unknown=sum(bit == X for word in words for bit in word),
    )
