"""Needs: which designs satisfy some conditions, the cheapest first.

A need is written as conditions with commas between them::

    n = 32, area <= 200, time <= 100 gate delays

A condition is a comparison of the formula language, over the quantities of a cost (`area`, `time`,
`edges`, …) and the parameters; ``=`` may stand for ``==``, and a unit may stand behind the last
number. A parameter that is to equal a number is set to it. Figures that are not whole are rounded
up first.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any, Final

from edgewise.blueprint import Blueprint
from edgewise.errors import DesignError, Place
from edgewise.formula import Binary, names_in
from edgewise.study.compare import equal_function, verdicts
from edgewise.study.compare.comparison import Comparison, compare
from edgewise.study.compare.constraints import KNOWN, Need, holds, named, read, unsure
from edgewise.study.compare.wording import aligned, heading
from edgewise.study.cost import critical_path, sweep
from edgewise.study.cost.measure import Cost, technology
from edgewise.study.cost.models import UNIT_GATE
from edgewise.words.messages import ENGLISH, Words

_SHOWN: Final = ("area", "flip_flops", "edges", "time", "area_delay")
"""Columns of every answer."""
_NAMED: Final = 6
"""Designs named in one sentence, at most."""


@dataclass(frozen=True, slots=True)
class Answer:
    """What satisfies a need.

    Parameters
    ----------
    need : Need
    comparison : Comparison
        Of all designs asked.
    found : tuple of Cost
        Those that satisfy it, the cheapest first: by area, then by time.
    """

    need: Need
    comparison: Comparison
    found: tuple[Cost, ...]

    def text(self) -> str:
        """A table of what satisfies the need, and the answer in a sentence."""
        table = self.table()
        return "\n".join([*table, *([""] if table else []), *self.sentences(), *self.notes()])

    def table(self) -> list[str]:
        """What satisfies the need, as lines; none if nothing does."""
        return list(aligned(self.cells())) if self.found else []

    def notes(self) -> list[str]:
        """What the figures mean and where they end."""
        return self.comparison.notes()

    def cells(self, words: Words = ENGLISH) -> list[list[str]]:
        """What satisfies the need, cell by cell, the heading first."""
        parameter = self.comparison.parameter
        # What the need asks about is shown, although it may not be a column of every table.
        asked = {name for condition in self.need.conditions for name in named(condition)}
        more = [q for q in KNOWN if q in asked and q not in _SHOWN]
        rows = [heading(parameter, ("design", *_SHOWN, *more), words)]
        rows += [
            [
                str(cost.parameter(parameter)),
                cost.design,
                critical_path.number(cost.area),
                str(cost.flip_flops),
                str(cost.edges),
                critical_path.number(cost.time),
                critical_path.number(cost.area_delay),
                *(verdicts.shown(cost, q) for q in more),
            ]
            for cost in self.found
        ]
        return rows

    def sentences(self) -> list[str]:
        """The cheapest; if there is none, what comes closest."""
        told = [*self._cheapest()] if self.found else [f"Nothing satisfies {self.need.text}."]
        return [*told, *([] if self.found else self._closest()), *self._doubts()]

    def _cheapest(self) -> Iterator[str]:
        """The cheapest of the designs that do the same, for each such group."""
        whole, model = self.comparison, self.comparison.model
        kinds = [whole.some(group[0]).does for group in whole.groups]
        for group, does in zip(whole.groups, kinds, strict=True):
            best = next((cost for cost in self.found if cost.design in group), None)
            if best is None:
                continue
            rest = [other for other in kinds if other != does]
            whose = f" of those {equal_function.label(does, rest)}" if rest else ""
            at = ", ".join(f"{name} = {value}" for name, value in best.parameters[:1])
            yield (
                f"Cheapest by area{whose}: {best.design} at {at}, {critical_path.number(best.area)}"
                f" {model.area_unit}, {critical_path.number(best.time)} {model.time_unit}."
            )

    def _doubts(self) -> Iterator[str]:
        """Where a figure is longer than the truth, or not sure enough for a condition."""
        whole = self.comparison
        asked = {name for condition in self.need.conditions for name in named(condition)}
        if asked & set(verdicts.TIMED):
            for told in verdicts.sooner(whole, whole.designs, whole.shown):
                yield f"{told}."
        for condition in self.need.conditions:
            near = [cost for cost in whole.costs if unsure(condition, cost)]
            if near:
                some = ", ".join(
                    f"{cost.design} at {whole.parameter} = {cost.parameter(whole.parameter)}"
                    f" ({verdicts.shown(cost, 'toggles')})"
                    for cost in near[:_NAMED]
                )
                more = f" and {len(near) - _NAMED} more" if len(near) > _NAMED else ""
                yield f"Too near to {condition.text} for the sample to tell: {some}{more}."

    def _closest(self) -> Iterator[str]:
        """Which conditions nothing satisfies, and what comes closest to each."""
        costs = self.comparison.costs
        for condition in self.need.conditions:
            if any(holds(condition, cost) for cost in costs):
                continue
            used = [n.base for n in names_in(condition.truth) if n.base in KNOWN]
            if used:
                most = isinstance(condition.truth, Binary) and condition.truth.operator in (
                    ">",
                    ">=",
                )
                ordered = sorted(costs, key=lambda cost: cost.figure(used[0]), reverse=most)
                figure = critical_path.number(ordered[0].figure(used[0]))
                yield (
                    f"No design has {condition.text}; the {'most' if most else 'least'} {used[0]}"
                    f" is {figure}, of {ordered[0].design}."
                )
            else:
                yield f"No design has {condition.text}."

    def data(self) -> dict[str, Any]:
        """The answer for programs."""
        return {
            "need": self.need.text,
            "model": self.comparison.model.name,
            "found": [cost.data() for cost in self.found],
            "closest": list(self._closest()) if not self.found else [],
            "sentences": self.sentences(),
        }


def need(  # noqa: PLR0913  # as in `compare`
    blueprints: Sequence[Blueprint],
    text: str,
    over: Mapping[str, tuple[int, int]] | None = None,
    model: str = UNIT_GATE.name,
    fixed: Mapping[str, int] | None = None,
    *,
    workplace: sweep.Workplace = sweep.Here,
    progress: sweep.Progress | None = None,
    place: Place | None = None,
) -> Answer:
    """List the designs that satisfy a need, the cheapest first.

    Parameters
    ----------
    blueprints : sequence of Blueprint
    text : str
    over : mapping, optional
        A range of one parameter, unless the need itself says what it equals.
    model, fixed, workplace, progress, place
        As in `edgewise.study.compare.comparison.compare`.

    Raises
    ------
    TextError
        If the need can't be read.
    DesignError
        If no parameter has a number; or as in `compare`.

    Examples
    --------
    >>> from edgewise import catalogue
    >>> adders = [catalogue.find(name) for name in ("ripple-carry-adder", "kogge-stone-adder")]
    >>> answer = need(adders, "n = 32, time <= 40 gate delays")
    >>> [cost.design for cost in answer.found]
    ['kogge-stone-adder']
    """
    chosen = technology(model, place)
    parameters = list(dict.fromkeys(p.name for b in blueprints for p in b.parameters))
    wanted = read(text, parameters, chosen, place)
    grid = {name: (value, value) for name, value in wanted.fixed} | dict(over or {})
    if not grid:
        raise DesignError("the need does not say for which size; add, for example, n = 32", place)
    # The parameter over which designs are compared is one that all of them have.
    shared = [n for n in grid if all(n in {p.name for p in b.parameters} for b in blueprints)]
    if not shared:
        missing = next(iter(grid))
        without = next(b.name for b in blueprints if missing not in {p.name for p in b.parameters})
        raise DesignError(f"{without} has no parameter {missing}; leave it out", place)
    ordered = {n: grid[n] for n in (*shared, *(n for n in grid if n not in shared))}
    toggles = any("toggles" in {n.base for n in names_in(c.truth)} for c in wanted.conditions)
    comparison = compare(
        blueprints,
        ordered,
        model,
        fixed,
        activity=toggles,
        workplace=workplace,
        progress=progress,
        place=place,
    )
    return satisfying(comparison, wanted)


def satisfying(comparison: Comparison, wanted: Need) -> Answer:
    """What of a comparison satisfies a need."""
    found = [c for c in comparison.costs if all(holds(one, c) for one in wanted.conditions)]
    found.sort(key=lambda c: (c.area, c.time, comparison.designs.index(c.design)))
    return Answer(wanted, comparison, tuple(found))
