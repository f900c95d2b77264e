"""Choice: which nets and which rows of a run a figure shows, checked."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from edgewise.bits import Word
from edgewise.errors import EdgewiseError, Message, raise_all

if TYPE_CHECKING:
    from edgewise.trace import Trace


@dataclass(frozen=True, slots=True)
class Choice:
    """Names, their net numbers (LSB first), and rows, all of them there.

    Examples
    --------
    >>> from edgewise import catalogue, run
    >>> trace = run(catalogue.design("serial-adder", n=2), a=1, b=3)
    >>> choice = choose(trace, ["A", "C"], range(2, 4))
    >>> [str(word) for word in choice.words(trace, 2)], choice.widths
    (['01', '0'], (2, 1))
    """

    names: tuple[str, ...]
    nets: tuple[tuple[int, ...], ...]
    rows: tuple[int, ...]

    @property
    def widths(self) -> tuple[int, ...]:
        """Number of bits of each name."""
        return tuple(len(nets) for nets in self.nets)

    def words(self, trace: Trace, row: int) -> tuple[Word, ...]:
        """What the names hold in a row."""
        return tuple(trace.bits(nets, row) for nets in self.nets)

    def history(self, trace: Trace, index: int) -> tuple[Word, ...]:
        """What one name holds in each chosen row."""
        return tuple(trace.bits(self.nets[index], row) for row in self.rows)


def choose(
    trace: Trace, names: Sequence[str] | None = None, rows: Iterable[int] | None = None
) -> Choice:
    """Check names and rows; those left out stand for `Trace.columns` and all rows.

    Raises
    ------
    EdgewiseError or Problems
        No name or no row at all, a name that is unknown, a row that is not there: each
        said once, with the nearest name or the range.
    """
    chosen = tuple(trace.columns if names is None else names)
    lines = tuple(range(trace.edges + 1) if rows is None else rows)
    errors: list[EdgewiseError] = []
    if not chosen:
        errors.append(EdgewiseError(Message("nets-none", names=", ".join(trace.columns))))
    if not lines:
        errors.append(EdgewiseError(Message("rows-none", last=trace.edges)))
    nets: list[tuple[int, ...]] = []
    for name in chosen:
        try:
            nets.append(tuple(trace.design.netlist.find(name)))
        except EdgewiseError as wrong:
            errors += wrong.parts()
    for row in lines:
        try:
            trace.bits((), row)
        except EdgewiseError as wrong:
            errors += wrong.parts()
            break
    raise_all(errors)
    return Choice(chosen, tuple(nets), lines)
