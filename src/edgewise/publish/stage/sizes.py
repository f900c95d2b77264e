"""The sizes of a design that a page holds: the lesson's own, and others of its family.

A learner chooses each parameter by itself. A few widths and a few counts are offered, as many as
can be drawn while somebody waits; two at once change where one of them leaves the circuit as it is,
as the number of words does: then one circuit serves for all of them.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from itertools import combinations, product
from typing import Final

from edgewise.blueprint import Blueprint
from edgewise.circuit.model import Circuit
from edgewise.design import Design
from edgewise.engines.reference import at_rest
from edgewise.errors import EdgewiseError
from edgewise.views.diagram.options import Manner
from edgewise.views.diagram.picture import Picture

MOST_EDGES: Final = 400
"""Edges of a run that a ruler still shows."""
MOST_GATES: Final = 8000
MOST_SIZES: Final = 24
MOST_CIRCUITS: Final = 8
"""Different circuits among the sizes; each has figures of its own."""
MOST_WORK: Final = 300.0
"""Of placing the figures of all circuits, the lesson's own among them: about 2 s. The first page of
a lesson waits for it, and what takes longer (a multiplier of 32 bits) is no figure for a class."""
_WIDTHS: Final = (4, 8, 16, 32)
"""Of the first parameter."""
_NARROW: Final = (6, 3, 2)
"""Where fewer than two of those can be waited for."""
_COUNTS: Final = (2, 1, 0, 3, 4, 5)
"""Of the others."""


def fits(design: Design) -> bool:
    """Whether a design is small enough for a stage."""
    return design.edges <= MOST_EDGES and len(design.netlist.gates) <= MOST_GATES


def sizes(design: Design, blueprint: Blueprint | None) -> tuple[Design, ...]:
    """The design itself, then others of its family.

    Examples
    --------
    >>> from edgewise import catalogue
    >>> blueprint = catalogue.find("serial-adder")
    >>> [d.parameters["n"] for d in sizes(blueprint.design({"n": 6}), blueprint)]
    [6, 4, 8, 16, 32]
    >>> blueprint = catalogue.find("shift-add-multiplier")
    >>> [d.parameters["n"] for d in sizes(blueprint.design({"n": 4}), blueprint)]
    [4, 8, 16, 32]
    >>> blueprint = catalogue.find("carry-save-accumulator")
    >>> found = sizes(blueprint.design({"n": 4, "x": 3}), blueprint)
    >>> [d.parameters["x"] for d in found if d.parameters["n"] == 8]
    [3, 2, 1, 4, 5]
    """
    if blueprint is None:
        return (design,)
    search = _Search(blueprint, design)
    search.one_at_a_time()
    search.two_at_a_time()
    return tuple(search.found)


def work(design: Design) -> float:
    """What placing the figure of a design takes, as of `edgewise.views.layout.elk.work`."""
    return Picture(at_rest(design), Manner()).work


@dataclass
class _Search:
    blueprint: Blueprint
    design: Design
    found: list[Design] = field(default_factory=list)
    circuits: list[Circuit] = field(default_factory=list)
    values: dict[str, list[int]] = field(default_factory=dict)
    """What each parameter can be, besides what it is."""
    work: float = 0.0
    """Of placing the figures of `circuits`."""
    free: set[str] = field(default_factory=set)
    """Parameters that leave the circuit as it is."""

    def __post_init__(self) -> None:
        self.found, self.circuits = [self.design], [self.design.circuit]
        self.work = work(self.design)
        self.values = {name: [] for name in self.design.parameters}
        self.free = set(self.values)

    def one_at_a_time(self) -> None:
        first, *rest = self.values or [""]
        for value in _WIDTHS:
            self._vary(first, value)
        for value in _NARROW:
            if first and len(self.values[first]) < 2:
                self._vary(first, value)
        for value in _COUNTS:
            for name in rest:
                self._vary(name, value)

    def _vary(self, name: str, value: int) -> None:
        known = len(self.circuits)
        if name and self.offer({name: value}):
            self.values[name].append(value)
        if len(self.circuits) > known:
            self.free.discard(name)

    def two_at_a_time(self) -> None:
        for pair in combinations(self.values, 2):
            if self.free.intersection(pair):
                for values in product(*(self.values[name] for name in pair)):
                    self.offer(dict(zip(pair, values, strict=True)))

    def offer(self, changed: Mapping[str, int]) -> bool:
        """Take the design with these values, if there is one and room for it."""
        if len(self.found) == MOST_SIZES:
            return False
        other = _other(self.blueprint, self.design.chosen, changed)
        if other is None or not fits(other):
            return False
        if any(other.parameters == design.parameters for design in self.found):
            return False
        if other.circuit not in self.circuits:
            more = work(other) if len(self.circuits) < MOST_CIRCUITS else MOST_WORK
            if self.work + more > MOST_WORK:
                return False
            self.work += more
            self.circuits.append(other.circuit)
        self.found.append(other)
        return True


def _other(
    blueprint: Blueprint, chosen: Mapping[str, int], changed: Mapping[str, int]
) -> Design | None:
    """The design with other values of some parameters; the rest as chosen, or their defaults."""
    for wanted in ({**chosen, **changed}, changed):
        try:
            return blueprint.design(wanted)
        except EdgewiseError:
            continue
    return None
