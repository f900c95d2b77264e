"""The worked solution of a question: what the run does, one row after another."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Final, Literal, TypeAlias

from edgewise.bits import Word, X
from edgewise.circuit.netlist import FlipFlop
from edgewise.circuit.storage import Storage, storage
from edgewise.design import Design
from edgewise.practice.question import (
    CellsQuestion,
    ChoiceQuestion,
    Question,
    ValueQuestion,
)
from edgewise.practice.table_question import Cell
from edgewise.study.coverage.adder_usage import adders
from edgewise.trace import Trace

MOST_ADDERS: Final = 8
"""Adders of which a row is told."""
How: TypeAlias = Literal["kept", "cleared", "shifted", "took"]


@dataclass(frozen=True, slots=True)
class Added:
    """What an adder sees and gives in a row.

    Parameters
    ----------
    adder : str
    inputs : tuple of Word
        a, b and, of a full adder, the carry that comes in; one bit each.
    sum, carry : Word
    """

    adder: str
    inputs: tuple[Word, ...]
    sum: Word
    carry: Word


@dataclass(frozen=True, slots=True)
class Stored:
    """What became of something that stores at an edge.

    Parameters
    ----------
    store : str
    how : str
        ``kept`` and ``cleared`` by its enable or clear; ``shifted``: each bit but the one that
        came in is that of its neighbour; else ``took``.
    word : Word
        After the edge.
    came : Word
        The bit that was shifted in; of no bits otherwise.
    """

    store: str
    how: How
    word: Word
    came: Word


@dataclass(frozen=True, slots=True)
class Step:
    """A row of a solution.

    Parameters
    ----------
    row : int
    stored : tuple of Stored
        What the edge did; empty for the start and for the row that is given.
    added : tuple of Added
        What the adders make of it.
    """

    row: int
    stored: tuple[Stored, ...]
    added: tuple[Added, ...]


def steps(question: Question) -> tuple[Step, ...]:
    """The steps of a question: from the row that is given, or through the last phase of a value.

    Examples
    --------
    >>> from edgewise import catalogue, run
    >>> trace = run(catalogue.design("serial-adder", n=4), a=3, b=7)
    >>> [(one.store, one.how, str(one.word)) for one in step(trace, 5, ("C", "S")).stored]
    [('C', 'took', '1'), ('S', 'shifted', '0000')]
    """
    trace = question.trace
    match question:
        case CellsQuestion(columns=columns):
            asked = [cell.row for cell in question.cells]
            first = max((row for row in question.rows if row < min(asked)), default=min(asked))
            rows = range(first, max(asked) + 1)
        case ValueQuestion(cell=cell) | ChoiceQuestion(kind="choice", cell=Cell() as cell):
            columns = shown(trace, cell)
            rows = range(_phase_begins(trace, cell.row), cell.row + 1)
        case _:
            return ()
    return tuple(step(trace, row, columns, at_edge=row > rows[0]) for row in rows)


def table(question: Question) -> tuple[tuple[str, ...], tuple[int, ...]] | None:
    r"""Columns and rows in which a question's answer is seen; of a value, those that lead to it.

    Examples
    --------
    >>> from pathlib import Path
    >>> from edgewise import lesson
    >>> front = "---\ntitle: T\ndesign: serial-adder\noperands: {a: 5, b: 7}\n---\n"
    >>> block = "```question\nask: value\nof: S\nabout: [carry-dropped]\n```\n"
    >>> (asked,) = lesson.check_text(front + block, "rain.md", Path()).pieces.values()
    >>> table(asked.question)[1]
    (0, 6, 7, 8, 9, 10, 11, 12)
    """
    match question:
        case CellsQuestion(columns=columns, rows=rows):
            return columns, rows
        case ValueQuestion(cell=cell) | ChoiceQuestion(kind="choice", cell=Cell() as cell):
            return shown(question.trace, cell), leading(question.trace, cell)
    return None


def shown(trace: Trace, cell: Cell) -> tuple[str, ...]:
    """The columns of the rows that lead to a value."""
    return tuple(dict.fromkeys((*trace.columns, cell.column)))


def leading(trace: Trace, cell: Cell) -> tuple[int, ...]:
    """The rows that lead to a value: the start, the end of each phase, and all of the last one.

    Examples
    --------
    >>> from edgewise import catalogue, run
    >>> trace = run(catalogue.design("serial-adder", n=4), a=3, b=7)
    >>> leading(trace, Cell(6, "S"))
    (0, 4, 5, 6)
    """
    begins = _phase_begins(trace, cell.row)
    ends = {last for _, _, last in trace.design.spans if last < begins}
    return tuple(sorted({0, *ends, *range(begins, cell.row + 1)}))


def _phase_begins(trace: Trace, row: int) -> int:
    """The row before the first edge of the phase to which an edge belongs."""
    begins = [first - 1 for _, first, last in trace.design.spans if first <= row <= last]
    return begins[0] if begins else 0


def step(trace: Trace, row: int, columns: Sequence[str], *, at_edge: bool = True) -> Step:
    """What a row holds, of some columns, and how it came about."""
    design = trace.design
    stored = tuple(_stored(trace, row, columns)) if at_edge and row else ()
    found = adders(design)
    shown = found if len(found) <= MOST_ADDERS else ()
    added = tuple(
        Added(
            one.name,
            tuple(trace.bits((net,), row) for net in one.inputs),
            trace.bits((one.sum,), row),
            trace.bits((one.carry,), row),
        )
        for one in shown
    )
    return Step(row, stored, added)


def _stored(trace: Trace, row: int, columns: Sequence[str]) -> Iterator[Stored]:
    design = trace.design
    shown = {design.netlist.find(name) for name in columns}
    for one in storage(design.circuit, design.netlist):
        if tuple(one.q) in shown:
            yield _became(trace, row, one, _cells(design, one))


def _cells(design: Design, one: Storage) -> tuple[FlipFlop, ...]:
    by_q = {cell.q: cell for cell in design.netlist.flip_flops}
    return tuple(by_q[net] for net in one.q if net in by_q)


def _became(trace: Trace, row: int, one: Storage, cells: Sequence[FlipFlop]) -> Stored:
    before, word = trace.rows[row - 1], trace.bits(one.q, row)

    def all_are(control: str, bit: int) -> bool:
        nets = [getattr(cell, control) for cell in cells]
        return bool(nets) and all(net is not None and before[net] == bit for net in nets)

    nothing = Word(0)
    if all_are("clear", 1):
        return Stored(one.name, "cleared", word, nothing)
    if all_are("enable", 0) or all_are("gate", 0):
        return Stored(one.name, "kept", word, nothing)
    came = _shifted_in(cells)
    if came is not None and not any(_held(cell, before) for cell in cells):
        return Stored(one.name, "shifted", word, trace.bits((came,), row - 1))
    return Stored(one.name, "took", word, nothing)


def _held(cell: FlipFlop, before: bytes) -> bool:
    """Whether it is not known that a flip-flop takes its input."""
    controls = [net for net in (cell.enable, cell.gate) if net is not None]
    cleared = cell.clear is not None and before[cell.clear] in (1, X)
    return cleared or any(before[net] != 1 for net in controls)


def _shifted_in(cells: Sequence[FlipFlop]) -> int | None:
    """The net of the bit that enters a register whose stages feed one another in one line."""
    if len(cells) < 2:
        return None
    up = all(after.d == cell.q for cell, after in pairwise(cells))
    down = all(cell.d == after.q for cell, after in pairwise(cells))
    if up == down:
        return None
    return cells[0].d if up else cells[-1].d
