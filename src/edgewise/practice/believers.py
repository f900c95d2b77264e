"""What those who hold a misconception would write where a question asks."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from functools import cached_property

from edgewise.bits import Word
from edgewise.design import Design
from edgewise.engines import reference
from edgewise.engines.symbolic.terms import Term, Terms
from edgewise.engines.symbolic.unrolling import Rail, Row, unroll
from edgewise.errors import EdgewiseError
from edgewise.practice.table_question import Cell
from edgewise.study.misconceptions import registry
from edgewise.study.misconceptions.misconception import Misconception
from edgewise.study.operands.criteria import Criteria, criteria, differ
from edgewise.trace import Trace


@dataclass(frozen=True, slots=True)
class Spot:
    """A word that a question asks for.

    Parameters
    ----------
    cell : Cell
    output : str
        Where the question is for the answer of the design: the output at which it stands. Who
        holds a misconception reads it there and then as they think right; empty where a row
        of the table is asked for, whatever it means.
    """

    cell: Cell
    output: str = ""


def spot_of(design: Design, cell: Cell) -> Spot:
    """The spot of a word that is asked for by itself: an answer, if it is one.

    Examples
    --------
    >>> from edgewise import catalogue
    >>> adder = catalogue.design("serial-adder", n=4)
    >>> spot_of(adder, Cell(8, "S")).output, spot_of(adder, Cell(7, "S")).output
    ('sum', '')
    """
    nets = design.netlist.find(cell.column)
    for purpose in design.computes:
        row = design.edges if purpose.after is None else purpose.after
        if row == cell.row and tuple(design.netlist.outputs[purpose.output]) == tuple(nets):
            return Spot(cell, purpose.output)
    return Spot(cell)


@dataclass(frozen=True)
class Believers:
    """A design, and the design that each misconception takes it for.

    Examples
    --------
    >>> from edgewise import catalogue
    >>> believers = Believers(catalogue.design("serial-adder", n=4))
    >>> str(believers.word("carry-dropped", Spot(Cell(8, "S")), {"a": 6, "b": 3}))
    '0101'
    """

    design: Design
    _runs: dict[tuple[str, tuple[int, ...]], Trace] = field(default_factory=dict, repr=False)

    @cached_property
    def ideas(self) -> Mapping[str, tuple[Misconception, Design]]:
        """Those that have a meaning for the design, by name."""
        return {idea.name: (idea, changed) for idea, changed in registry.applicable(self.design)}

    def word(self, idea: str, spot: Spot, operands: Mapping[str, int]) -> Word | None:
        """What a believer would write; nothing where their design has no such word."""
        design = self.ideas[idea][1]
        where = _where(design, spot)
        if where is None:
            return None
        row, nets = where
        return self._run(idea, design, operands).bits(nets, row)

    def _run(self, idea: str, design: Design, operands: Mapping[str, int]) -> Trace:
        key = (idea, tuple(operands.values()))
        if key not in self._runs:
            if len(self._runs) > _MOST_RUNS:
                self._runs.clear()
            self._runs[key] = reference.run(design, operands)
        return self._runs[key]

    def wrong(self, spots: Sequence[Spot], trace: Trace) -> Mapping[str, tuple[Word | None, ...]]:
        """What each believer writes at some spots, of those who go wrong in one of them."""
        truth = tuple(trace.word(s.cell.column, s.cell.row) for s in spots)
        found = {}
        for idea in self.ideas:
            words = tuple(self.word(idea, spot, trace.operands) for spot in spots)
            if any(w is not None and w != t for w, t in zip(words, truth, strict=True)):
                found[idea] = words
        return found

    # ------------------------------------------------------------------ all operands at once

    @cached_property
    def criteria(self) -> Criteria:
        """What can be asked of operands."""
        return criteria(self.design)

    @cached_property
    def terms(self) -> Terms:
        """Over the operand bits."""
        return self.criteria.terms

    @cached_property
    def rows(self) -> tuple[Row, ...]:
        """The true run."""
        return tuple(unroll(self.design, self.terms))

    @cached_property
    def _believed(self) -> Mapping[str, tuple[Row, ...]]:
        return {name: tuple(unroll(design, self.terms)) for name, (_, design) in self.ideas.items()}

    def rails(self, idea: str, spot: Spot) -> tuple[Rail, ...] | None:
        """What a believer would write, as terms, LSB first."""
        where = _where(self.ideas[idea][1], spot)
        if where is None:
            return None
        row, nets = where
        return tuple(self._believed[idea][row][net] for net in nets)

    def truth(self, spot: Spot) -> tuple[Rail, ...]:
        """What is right, as terms."""
        nets = self.design.netlist.find(spot.cell.column)
        return tuple(self.rows[spot.cell.row][net] for net in nets)

    def told(self, idea: str, spots: Sequence[Spot]) -> Term:
        """Where a believer goes wrong at one of some spots."""
        return self.terms.any_of(
            differ(self.terms, rails, self.truth(spot))
            for spot in spots
            if (rails := self.rails(idea, spot)) is not None
        )

    def apart(self, one: str, other: str, spots: Sequence[Spot]) -> Term:
        """Where two believers write something different at one of some spots."""

        def written(idea: str, spot: Spot) -> tuple[Rail, ...]:
            return self.rails(idea, spot) or self.truth(spot)

        return self.terms.any_of(
            differ(self.terms, written(one, spot), written(other, spot)) for spot in spots
        )


_MOST_RUNS = 4096


def _where(design: Design, spot: Spot) -> tuple[int, Sequence[int]] | None:
    """The row and the nets that a believer looks at."""
    if spot.output:
        for purpose in design.computes:
            if purpose.output == spot.output:
                row = design.edges if purpose.after is None else purpose.after
                return row, design.netlist.outputs[spot.output]
    if spot.cell.row > design.edges:
        return None
    try:
        return spot.cell.row, design.netlist.find(spot.cell.column)
    except EdgewiseError:
        return None
