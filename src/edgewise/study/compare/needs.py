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
from edgewise.columns import aligned
from edgewise.errors import DesignError, Message, Place
from edgewise.formula import Binary, names_in
from edgewise.study.compare import equal_function, remarks, verdicts
from edgewise.study.compare.comparison import Comparison, compare
from edgewise.study.compare.constraints import KNOWN, Need, holds, named, read, unsure
from edgewise.study.compare.wording import heading
from edgewise.study.cost import sweep
from edgewise.study.cost.measure import Cost
from edgewise.study.cost.models import technology
from edgewise.study.cost.models.gates import UNIT_GATE
from edgewise.study.cost.technology import number
from edgewise.words.lists import enumerated, equations
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
        return list(aligned(self.cells(), left={1})) if self.found else []

    def notes(self, words: Words = ENGLISH) -> list[str]:
        """What the figures mean and where they end."""
        return list(remarks.notes(self.comparison, self.found, words))

    def cells(self, words: Words = ENGLISH) -> list[list[str]]:
        """What satisfies the need, cell by cell, the heading first."""
        parameter = self.comparison.parameter
        # What the need asks about is shown, although it may not be a column of every table.
        asked = {name for condition in self.need.conditions for name in named(condition)}
        more = [q for q in KNOWN if q in asked and q not in _SHOWN]
        truths = self.comparison.truths(self.found, words)
        columns = ["design", *_SHOWN, *(["true_delay"] if truths else []), *more]
        rows = [heading(parameter, columns, words)]
        rows += [
            [
                str(cost.parameter(parameter)),
                cost.design,
                words.decimal(number(cost.area)),
                str(cost.flip_flops),
                str(cost.edges),
                words.decimal(number(cost.time)),
                words.decimal(number(cost.area_delay)),
                *truths[at : at + 1],
                *(verdicts.shown(cost, q, words) for q in more),
            ]
            for at, cost in enumerate(self.found)
        ]
        return rows

    def sentences(self, words: Words = ENGLISH) -> list[str]:
        """The cheapest; if there is none, what comes closest."""
        if self.found:
            return [*self._cheapest(words), *self._doubts(words)]
        nothing = words("compare-nothing", need=self.need.text)
        return [nothing, *self._closest(words), *self._doubts(words)]

    def _cheapest(self, words: Words) -> Iterator[str]:
        """The cheapest of the designs that do the same, for each such group."""
        whole = self.comparison
        kinds, units = [whole.some(group[0]).does for group in whole.groups], whole.units(words)
        for group, does in zip(whole.groups, kinds, strict=True):
            best = next((cost for cost in self.found if cost.design in group), None)
            if best is None:
                continue
            rest = [other for other in kinds if other != does]
            yield words(
                "compare-cheapest",
                whose=f" {equal_function.label(does, rest, words)}" if rest else "",
                name=best.design,
                at=equations(best.parameters[:1]),
                area=words.decimal(number(best.area)),
                area_unit=units["area"],
                time=words.decimal(number(best.time)),
                time_unit=units["time"],
            )

    def _doubts(self, words: Words) -> Iterator[str]:
        """Where a figure is longer than the truth, or not sure enough for a condition."""
        whole = self.comparison
        asked = {name for condition in self.need.conditions for name in named(condition)}
        if asked & set(verdicts.TIMED):
            for told in verdicts.sooner(whole, whole.designs, whole.shown, words):
                yield f"{told}."
        for condition in self.need.conditions:
            near = [
                words(
                    "compare-design-at",
                    name=cost.design,
                    at=f"{whole.parameter} = {cost.parameter(whole.parameter)}",
                    figure=verdicts.shown(cost, "toggles", words),
                )
                for cost in whole.costs
                if unsure(condition, cost)
            ]
            if near:
                designs = enumerated(near, words, _NAMED)
                yield words("compare-too-near", condition=condition.text, designs=designs)

    def _closest(self, words: Words = ENGLISH) -> Iterator[str]:
        """Which conditions nothing satisfies, and what comes closest to each."""
        costs = self.comparison.costs
        for condition in self.need.conditions:
            if any(holds(condition, cost) for cost in costs):
                continue
            used = [n.base for n in names_in(condition.truth) if n.base in KNOWN]
            if not used:
                yield words("compare-none-has", condition=condition.text)
                continue
            truth = condition.truth
            most = isinstance(truth, Binary) and truth.operator in (">", ">=")
            closest = sorted(costs, key=lambda cost: cost.figure(used[0]), reverse=most)[0]
            yield words(
                "compare-none-has-closest",
                condition=condition.text,
                end="most" if most else "least",
                quantity=used[0],
                figure=words.decimal(number(closest.figure(used[0]))),
                name=closest.design,
            )

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
        raise DesignError(Message("need-sizeless"), place)
    # The parameter over which designs are compared is one that all of them have.
    shared = [n for n in grid if all(n in {p.name for p in b.parameters} for b in blueprints)]
    if not shared:
        missing = next(iter(grid))
        without = next(b.name for b in blueprints if missing not in {p.name for p in b.parameters})
        raise DesignError(Message("parameter-missing", design=without, name=missing), place)
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
