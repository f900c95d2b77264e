"""Designs compared over a parameter: a table with ranks, and answers in sentences.

Every number of the range is computed, so that a crossover is exact: the first number at which
one design is smaller, faster, or better in area-delay product, with both figures on either side
of it.
Ranked are only designs that do the same (`edgewise.study.compare.equal_function`).
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any, Final

from edgewise import catalogue
from edgewise.blueprint import Blueprint
from edgewise.columns import aligned
from edgewise.errors import DesignError, Message, Place
from edgewise.study.compare import remarks, verdicts
from edgewise.study.compare.figures import Figures
from edgewise.study.compare.parameter_grid import grid
from edgewise.study.compare.verdicts import MOST_PAIRED, shown
from edgewise.study.compare.wording import heading
from edgewise.study.cost import sweep
from edgewise.study.cost.measure import Cost
from edgewise.study.cost.models import technology
from edgewise.study.cost.models.gates import UNIT_GATE
from edgewise.study.cost.technology import number
from edgewise.words.messages import ENGLISH, Words

_COLUMNS: Final = ("design", "area", "flip_flops", "period", "edges", "time", "area_delay")
"""Columns behind that of the parameter."""
_COUNTED: Final = ("toggles", "toggles_in_time")
"""More columns, where toggles are counted."""
_RANKED: Final = ("area", "time", "area_delay")
"""Columns with ranks."""


def _in_time(cost: Cost, words: Words) -> str:
    figure = cost.toggles_in_time
    if figure is None:
        return "-"
    return words.decimal(f"{float(figure):.1f} ± {cost.toggles_in_time_error:.1f}")


@dataclass(frozen=True)
class Comparison(Figures):
    """The figures of some designs over a range of one parameter, with words for people."""

    # ------------------------------------------------------------------ for people

    def text(self) -> str:
        """Table, sentences and notes."""
        return "\n".join([*self.table(), "", *self.sentences(), "", *self.notes()])

    @property
    def shown(self) -> tuple[int, ...]:
        """The numbers that the table shows: the first, the powers of two, the last."""
        if len(self.values) <= 5:
            return self.values
        ends = {self.values[0], self.values[-1]}
        few = len(self.designs) > 2 * MOST_PAIRED
        return tuple(v for v in self.values if v in ends or (not few and v & (v - 1) == 0))

    def table(self) -> list[str]:
        """The figures as lines, the rank of each in parentheses."""
        return list(aligned(self.cells(), left={1}))

    def cells(self, words: Words = ENGLISH) -> list[list[str]]:
        """The same cell by cell, the heading first."""
        columns = [*_COLUMNS, *(_COUNTED if "toggles" in self.quantities else [])]
        truths = self.truths(self._rows, words)
        if truths:
            columns.insert(columns.index("time") + 1, "true_delay")
        rows = [heading(self.parameter, columns, words)]
        for value in self.shown:
            ranks = {quantity: self.ranks(value, quantity) for quantity in _RANKED}
            for cost in self.at(value):
                ranked = {
                    quantity: words.decimal(number(cost.figure(quantity)))
                    + (f" ({by_name[cost.design]})" if cost.design in by_name else "")
                    for quantity, by_name in ranks.items()
                }
                period = "-" if cost.period is None else words.decimal(number(cost.period))
                row = [str(value), cost.design, ranked["area"], str(cost.flip_flops), period]
                row += [str(cost.edges), ranked["time"]]
                row += [truths[len(rows) - 1]] if truths else []
                row.append(ranked["area_delay"])
                if cost.toggles is not None:
                    row.append(shown(cost, "toggles", words))
                    row.append(_in_time(cost, words))
                rows.append(row)
        return rows

    @property
    def _rows(self) -> list[Cost]:
        """Row by row of the table."""
        return [cost for value in self.shown for cost in self.at(value)]

    def sentences(self, words: Words = ENGLISH) -> list[str]:
        """The answers: which is smaller, faster, better, and where."""
        return list(dict.fromkeys(verdicts.sentences(self, words)))

    def choice(self, words: Words = ENGLISH) -> list[str]:
        """In one sentence, which design to take where."""
        return list(verdicts.choice(self, words))

    def sentence(self, one: str, other: str, quantity: str) -> str:
        """How two designs compare in a quantity, with the crossovers if there are any."""
        return verdicts.pair(self, one, other, quantity)

    def notes(self, words: Words = ENGLISH) -> list[str]:
        """What the figures mean and where they end."""
        return list(remarks.notes(self, self._rows, words))

    # ------------------------------------------------------------------ for programs

    def data(self) -> dict[str, Any]:
        """All figures, ranks, frontiers and sentences."""
        return {
            "model": self.model.name,
            "area_unit": self.model.area_unit,
            "time_unit": self.model.time_unit,
            "parameter": self.parameter,
            "values": list(self.values),
            "designs": list(self.designs),
            "alike": [list(group) for group in self.groups],
            "costs": [cost.data() for cost in self.costs],
            "true_delays": [
                {"design": cost.design, self.parameter: cost.parameter(self.parameter)}
                | true.data()
                for cost in self._rows
                if (true := self._true_of(cost)) is not None
            ],
            "frontier": {str(value): list(self.frontier(value)) for value in self.values},
            "absent": [
                {"design": name, self.parameter: value, "why": why}
                for name, value, why in self.absent
            ],
            "sentences": self.sentences(),
            "notes": self.notes(),
        }


def compare(  # noqa: PLR0913  # what to compare, over what, how, and where
    blueprints: Sequence[Blueprint],
    over: Mapping[str, tuple[int, int]],
    model: str = UNIT_GATE.name,
    fixed: Mapping[str, int] | None = None,
    *,
    activity: bool = False,
    workplace: sweep.Workplace = sweep.Here,
    progress: sweep.Progress | None = None,
    place: Place | None = None,
) -> Comparison:
    """Compare designs over a range of one parameter.

    Parameters
    ----------
    blueprints : sequence of Blueprint
    over : mapping of str to (int, int)
        One parameter with its first and last number; others may have one number only.
    model : str
        Name of a technology.
    fixed : mapping of str to int, optional
        Other parameters, for those designs that have them.
    activity : bool
        Whether toggles are counted too.
    workplace : Workplace
        Where designs of the catalogue are measured; others are measured here.
    progress : function, optional

    Raises
    ------
    DesignError
        Unknown model or parameter; no range; a design without the parameter; too many designs.

    Examples
    --------
    >>> from edgewise import catalogue
    >>> pair = [catalogue.find(name) for name in ("ripple-carry-adder", "carry-lookahead-adder")]
    >>> print(compare(pair, {"n": (4, 16)}).sentences()[2])  # doctest: +NORMALIZE_WHITESPACE
    carry-lookahead-adder is better in area-delay product than ripple-carry-adder from n = 14 to 16,
    the last compared: 2685 against 2548 at n = 13; 2835 against 2940 at n = 14.
    """
    chosen = technology(model, place)
    parameter, values, rest = grid(blueprints, over, fixed or {}, place)
    work: list[sweep.Measuring] = []
    found: dict[str, list[sweep.Measured]] = {}
    for blueprint in blueprints:
        own = {p.name for p in blueprint.parameters}
        points = [{**{k: v for k, v in rest.items() if k in own}, parameter: v} for v in values]
        if blueprint.name in catalogue.names() and catalogue.find(blueprint.name) is blueprint:
            work += sweep.pieces(blueprint.name, points, model, activity=activity)
        else:
            found[blueprint.name] = sweep.measured(blueprint, points, model, activity=activity)
    for piece, results in zip(
        work, sweep.hand_out(sweep.measure_points, work, workplace, progress), strict=True
    ):
        found.setdefault(piece.design, []).extend(results)
    costs: list[Cost] = []
    absent: list[tuple[str, int, str]] = []
    for blueprint in blueprints:
        for value, result in zip(values, found[blueprint.name], strict=True):
            if isinstance(result, Cost):
                costs.append(result)
            else:
                absent.append((blueprint.name, value, result))
    if not costs:
        name, value, why = absent[0]
        raise DesignError(Message("none-built", design=name, name=parameter, value=value, why=why))
    names = tuple(blueprint.name for blueprint in blueprints)
    return Comparison(
        chosen,
        parameter,
        tuple(values),
        names,
        tuple(costs),
        tuple(absent),
        tuple(blueprints),
        rest,
    )


def comparable(parameter: str = "n") -> tuple[Blueprint, ...]:
    """The catalogue's designs that have a parameter.

    Examples
    --------
    >>> [blueprint.name for blueprint in comparable("m")][:2]
    ['serial-accumulator', 'serial-accumulator-cleared']
    """
    return tuple(b for _, b in catalogue.listed() if parameter in {p.name for p in b.parameters})
