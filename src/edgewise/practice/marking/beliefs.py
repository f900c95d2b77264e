"""The truth and the wrong ideas about a design, each with where it looks for a cell."""

from __future__ import annotations

from collections.abc import Hashable, Sequence
from dataclasses import dataclass, replace
from itertools import combinations
from typing import TypeAlias

from edgewise.design import Design
from edgewise.errors import EdgewiseError
from edgewise.practice import next_row
from edgewise.practice.table_question import Cell
from edgewise.study.misconceptions import registry
from edgewise.study.misconceptions.misconception import Misconception

Names: TypeAlias = tuple[str, ...]
"""Of one misconception, of two that are held together, or none: the truth."""


@dataclass(frozen=True, slots=True)
class Belief:
    """A design as somebody has it in mind.

    Parameters
    ----------
    names : Names
    design : Design
        What the believer runs.
    """

    names: Names
    design: Design

    def nets(self, cell: Cell) -> tuple[int, ...] | None:
        """The nets that stand for a cell, LSB first; None where the believer has no such cell."""
        if cell.row > self.design.edges:
            return None
        try:
            return self.design.netlist.find(cell.column)
        except EdgewiseError:
            return None

    def filling(self, cells: Sequence[Cell]) -> Hashable:
        """All that decides what the believer writes in some cells."""
        last = max((cell.row for cell in cells), default=0)
        return next_row.deciding(self.design, last + 1), tuple(self.nets(cell) for cell in cells)


def truth(design: Design) -> Belief:
    """The design as it is."""
    return Belief((), design)


def singles(design: Design) -> tuple[Belief, ...]:
    """One misconception each, of those that have a meaning for the design.

    Examples
    --------
    >>> from edgewise import catalogue
    >>> [belief.names for belief in singles(catalogue.design("ripple-carry-adder", n=4))][:2]
    [('carry-dropped',), ('carry-too-far',)]
    """
    return tuple(Belief((one.name,), believed) for one, believed in registry.applicable(design))


def pairs(design: Design) -> tuple[Belief, ...]:
    """Two misconceptions held together, of those that can be.

    What rewires parts comes first, what replaces the flat netlist second: the other way round the
    second would undo the first. Else either may come first, if only that makes a pair: a carry
    that stays set is no longer found by what delays it.

    Examples
    --------
    >>> from edgewise import catalogue
    >>> held = {frozenset(belief.names) for belief in pairs(catalogue.design("serial-adder", n=4))}
    >>> [frozenset(pair) in held for pair in (
    ...     ("or-for-sum", "carry-of-two"), ("unknown-as-0", "unknown-as-1"))]
    [True, False]
    """
    found = []
    for one, other in combinations(registry.applicable(design), 2):
        (_, by_one), (_, by_other) = one, other
        orders = [(one, other), (other, one)]
        if by_one.altered is not None and by_other.altered is None:
            orders.reverse()
        for (first, believed), (second, _) in orders:
            both = _held(second, believed)
            if both is not None and not any(_alike(both, alone) for alone in (by_one, by_other)):
                found.append(Belief((first.name, second.name), both))
                break
    return tuple(found)


def _held(misconception: Misconception, design: Design) -> Design | None:
    try:
        believed = misconception.of(design)
        if believed is not None:
            believed.check()
    except EdgewiseError:  # two edits that make no circuit together
        return None
    return believed


def _alike(one: Design, other: Design) -> bool:
    """Whether two designs are the same but for their names: the second edit undid the first."""
    return replace(one, name="") == replace(other, name="")


def telling(beliefs: Sequence[Belief], design: Design, cells: Sequence[Cell]) -> tuple[Belief, ...]:
    """Those that could fill in some cell in another way than the truth does.

    Who only reads the answer elsewhere, or later, fills in a table as everybody does.

    Examples
    --------
    >>> from edgewise import catalogue
    >>> design = catalogue.design("serial-adder", n=4)
    >>> held = telling(singles(design), design, [Cell(8, "S")])
    >>> [b.names[0] for b in singles(design) if b not in held]
    ['one-edge-early', 'one-edge-late', 'loading-not-counted', 'read-backwards']
    """
    true = truth(design).filling(cells)
    return tuple(
        belief
        for belief in beliefs
        if any(map(belief.nets, cells)) and belief.filling(cells) != true
    )
