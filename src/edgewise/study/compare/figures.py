"""The figures of some designs over a parameter, and what is less than what.

Ranked are only designs that do the same (`edgewise.study.compare.equal_function`).
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from functools import cached_property
from typing import Final

from edgewise.blueprint import Blueprint
from edgewise.engines.sat.lateness import Effort
from edgewise.study.compare import equal_function
from edgewise.study.cost import idle_hardware, true_delay
from edgewise.study.cost.measure import Cost
from edgewise.study.cost.technology import Technology, number
from edgewise.study.cost.true_delay import TrueDelay
from edgewise.words.messages import ENGLISH, Words
from edgewise.words.units import unit

EFFORT: Final = Effort(terms=100_000, conflicts=10_000)
"""What each true delay may take."""


@dataclass(frozen=True)
class Figures:
    """The figures of some designs over a range of one parameter.

    Parameters
    ----------
    model : Technology
    parameter : str
    values : tuple of int
    designs : tuple of str
        Names, in the order asked for.
    costs : tuple of Cost
        Design by design.
    absent : tuple of (str, int, str)
        Designs that can't be built at a number, and why.
    blueprints : tuple of Blueprint
        Of the designs, to look closer at some.
    fixed : mapping of str to int
        Other parameters.
    """

    model: Technology
    parameter: str
    values: tuple[int, ...]
    designs: tuple[str, ...]
    costs: tuple[Cost, ...]
    absent: tuple[tuple[str, int, str], ...] = ()
    blueprints: tuple[Blueprint, ...] = field(default=(), compare=False, repr=False)
    fixed: Mapping[str, int] = field(default_factory=dict, compare=False, repr=False)

    @cached_property
    def _by_design(self) -> dict[str, dict[int, Cost]]:
        found: dict[str, dict[int, Cost]] = {}
        for cost in self.costs:
            value = cost.parameter(self.parameter)
            if value is not None:
                found.setdefault(cost.design, {})[value] = cost
        return found

    @cached_property
    def _by_value(self) -> dict[int | None, list[Cost]]:
        found: dict[int | None, list[Cost]] = {}
        for cost in self.costs:
            found.setdefault(cost.parameter(self.parameter), []).append(cost)
        return found

    def of(self, design: str) -> Mapping[int, Cost]:
        """The costs of a design, by the parameter's number."""
        return self._by_design.get(design, {})

    def at(self, value: int) -> tuple[Cost, ...]:
        """The costs of all designs at a number, in the designs' order."""
        return tuple(self._by_value.get(value, ()))

    def some(self, design: str) -> Cost:
        """The cost of a design at the first number at which it is there."""
        return next(iter(self.of(design).values()))

    @cached_property
    def groups(self) -> tuple[tuple[str, ...], ...]:
        """The designs that do the same, group by group; those that are never there are left out."""
        does = {name: self.some(name).does for name in self.designs if self.of(name)}
        return equal_function.groups(self.designs, does)

    def ranks(self, value: int, quantity: str) -> dict[str, int]:
        """The rank of each design at a number among those alike, 1 for the least.

        Figures that are equal, or can't be told apart, share a rank; what is alike with nothing
        has none.
        """
        if (value, quantity) not in self._ranked:
            found: dict[str, int] = {}
            for group in self.groups:
                if len(group) > 1:
                    found |= self._within(group, value, quantity)
            self._ranked[value, quantity] = found
        return self._ranked[value, quantity]

    def _within(self, group: tuple[str, ...], value: int, quantity: str) -> dict[str, int]:
        """The ranks of designs that are alike."""
        costs = [self.of(name)[value] for name in group if value in self.of(name)]
        if quantity == "toggles":
            return {
                cost.design: 1 + sum(other.order(cost, quantity) < 0 for other in costs)
                for cost in costs
            }
        figures = {cost.design: cost.figure(quantity) for cost in costs}
        ordered = sorted(figures.values())
        return {name: 1 + bisect_left(ordered, figure) for name, figure in figures.items()}

    @cached_property
    def _ranked(self) -> dict[tuple[int, str], dict[str, int]]:
        """The ranks found so far."""
        return {}

    def never_taken(self, design: str, value: int) -> bool:
        """Whether it is known that no operands take a design's critical path at a number."""
        found = self.true_delay(design, value)
        return found is not None and found.false

    def true_delay(self, design: str, value: int) -> TrueDelay | None:
        """The true delay of a design at a number, without operands that show it."""
        blueprint = next((one for one in self.blueprints if one.name == design), None)
        if blueprint is None or value not in self.of(design):
            return None
        if (design, value) not in self._true:
            own = {parameter.name for parameter in blueprint.parameters}
            given = {name: one for name, one in self.fixed.items() if name in own}
            built, _ = idle_hardware.lean(blueprint.design({**given, self.parameter: value}))
            self._true[design, value] = true_delay.of(built, self.model, EFFORT, show=False)
        return self._true[design, value]

    def _true_of(self, cost: Cost) -> TrueDelay | None:
        return self.true_delay(cost.design, cost.parameter(self.parameter) or 0)

    @cached_property
    def _true(self) -> dict[tuple[str, int], TrueDelay]:
        """The true delays found so far."""
        return {}

    def truths(self, costs: Iterable[Cost], words: Words = ENGLISH) -> list[str]:
        """True delays beside the critical paths of some rows, if any of these is false.

        Nothing is told of designs that store. A bound begins with ``≤``, where the truth took too
        much effort.
        """
        found = [self._true_of(cost) for cost in costs]
        if not any(one is not None and one.false for one in found):
            return []
        return ["-" if one is None else _truth(one, words) for one in found]

    def curve(self, design: str, quantity: str) -> tuple[tuple[int, float], ...]:
        """A design's figures over the parameter, for a chart."""
        return tuple((n, float(cost.figure(quantity))) for n, cost in self.of(design).items())

    def frontier(self, value: int) -> tuple[str, ...]:
        """The designs at a number that none alike beats in both area and time, smallest first."""
        kept: list[Cost] = []
        for group in self.groups:
            best: list[Cost] = []
            costs = [cost for cost in self.at(value) if cost.design in group]
            for cost in sorted(costs, key=lambda cost: (cost.area, cost.time)):
                if not best or cost.time < best[-1].time or _same(cost, best[-1]):
                    best.append(cost)
            kept += best
        kept.sort(key=lambda cost: (cost.area, cost.time))
        return tuple(cost.design for cost in kept)

    def units(self, words: Words = ENGLISH) -> dict[str, str]:
        """The units of area and time, by those names."""
        return {
            "area": unit(self.model.area_unit, words),
            "time": unit(self.model.time_unit, words),
        }

    @property
    def quantities(self) -> tuple[str, ...]:
        """What sentences are about."""
        toggles = any(cost.toggles is not None for cost in self.costs)
        stored = {bool(cost.flip_flops) for cost in self.costs}
        return (
            "area",
            *(["logic"] if len(stored) > 1 else []),
            "time",
            "area_delay",
            *(["toggles"] if toggles else []),
        )


def _truth(found: TrueDelay, words: Words) -> str:
    if found.clocked:
        return "-"
    sure = "" if found.at == found.most else "≤ "
    return sure + words.decimal(number(found.most))


def _same(a: Cost, b: Cost) -> bool:
    return (a.area, a.time) == (b.area, b.time)
