"""Cells to fill in: the next rows, named cells, or a lane of the timing diagram."""

from __future__ import annotations

import random
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import combinations
from typing import Literal

from edgewise.practice.believers import Believers, Spot
from edgewise.practice.difficulty import of_cells
from edgewise.practice.question import CellsQuestion
from edgewise.practice.table_question import Cell
from edgewise.practice.task import Task
from edgewise.trace import Trace


@dataclass(frozen=True, slots=True, kw_only=True)
class TableTask(Task):
    """Cells of the run.

    Parameters
    ----------
    kind : {"next-rows", "cells", "lane"}
    rows : tuple of int
        Shown.
    columns : tuple of str
        Shown.
    cells : tuple of Cell
        To be filled in.
    """

    kind: Literal["next-rows", "cells", "lane"]
    rows: tuple[int, ...]
    columns: tuple[str, ...]
    cells: tuple[Cell, ...]

    @property
    def spots(self) -> tuple[Spot, ...]:
        """The cells, each in its row, whatever it means there."""
        return tuple(Spot(cell) for cell in self.cells)

    @property
    def given(self) -> int:
        """The last row above the open cells."""
        first = min(cell.row for cell in self.cells)
        return max((row for row in self.rows if row < first), default=0)

    def question(
        self, believers: Believers, trace: Trace, shuffle: random.Random, tells: Sequence[str]
    ) -> CellsQuestion:
        """The question for a run."""
        del believers, shuffle
        return CellsQuestion(
            name=self.name,
            kind=self.kind,
            marks=self.marks,
            trace=trace,
            own=self.operands is not None,
            level=of_cells(trace, self.cells, self.given),
            tells=tuple(tells),
            wording=self.wording,
            hint=self.hint,
            rows=self.rows,
            columns=self.columns,
            cells=self.cells,
        )


def telling(
    believers: Believers, trace: Trace, cells: Sequence[Cell], most: int
) -> tuple[Cell, ...]:
    """The cells that tell most misconceptions from the truth and from one another.

    One cell after another is taken, each time the one that adds most; of equals the first.

    Examples
    --------
    >>> from edgewise import catalogue, run
    >>> trace = run(catalogue.design("serial-adder", n=4), a=3, b=7)
    >>> cells = [Cell(row, name) for row in (5, 6, 7, 8) for name in ("C", "S")]
    >>> [str(cell) for cell in telling(Believers(trace.design), trace, cells, 2)]
    ['S after 8', 'C after 8']
    """
    written = {
        cell: {
            idea: word or trace.word(cell.column, cell.row)
            for idea in believers.ideas
            for word in (believers.word(idea, Spot(cell), trace.operands),)
        }
        for cell in cells
    }

    def shown(cell: Cell) -> set[tuple[str, ...]]:
        words, truth = written[cell], trace.word(cell.column, cell.row)
        told = {(idea,) for idea, word in words.items() if word != truth}
        return told | {pair for pair in combinations(words, 2) if words[pair[0]] != words[pair[1]]}

    gains = {cell: shown(cell) for cell in cells}
    chosen: list[Cell] = []
    seen: set[tuple[str, ...]] = set()
    while len(chosen) < min(most, len(cells)):
        left = [cell for cell in cells if cell not in chosen]
        best = max(left, key=lambda cell: len(gains[cell] - seen))
        chosen.append(best)
        seen |= gains[best]
    return tuple(chosen)
