"""Designs compared over a parameter: a table with ranks, and answers in sentences.

Every number of the range is computed, so that a crossover is exact: the first number at which
one design is smaller, faster, or better in area x time, with both figures on either side of it.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property
from itertools import combinations
from typing import Any, Final

from edgewise import catalogue
from edgewise.blueprint import Blueprint
from edgewise.errors import DesignError, Place
from edgewise.study import paths, sweep
from edgewise.study.activity import RESULTS, SEED
from edgewise.study.cost import Cost, technology
from edgewise.study.grid import grid
from edgewise.study.paths import number
from edgewise.study.technology import UNIT_GATE, Technology
from edgewise.study.wording import aligned, last_run, listed, others, plain_name, spans

MOST_PAIRED: Final = 4
"""Up to so many designs every pair has its sentences; beyond, only the best are told."""
_NAMED: Final = 6
"""Designs named in one note, at most."""
_WORDS: Final[Mapping[str, tuple[str, str]]] = {
    "area": ("smallest", "smaller"),
    "logic": ("smallest without flip-flops", "smaller without flip-flops"),
    "time": ("fastest", "faster"),
    "area_time": ("best in area x time", "better in area x time"),
    "toggles": ("quietest", "quieter"),
}
"""What the least of a quantity is called, and what less of it is."""


@dataclass(frozen=True)
class Comparison:
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
    """

    model: Technology
    parameter: str
    values: tuple[int, ...]
    designs: tuple[str, ...]
    costs: tuple[Cost, ...]
    absent: tuple[tuple[str, int, str], ...] = ()

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

    def ranks(self, value: int, quantity: str) -> dict[str, int]:
        """The rank of each design at a number, 1 for the least; equal figures share a rank."""
        figures = {cost.design: cost.figure(quantity) for cost in self.at(value)}
        ordered = sorted(figures.values())
        return {name: 1 + bisect_left(ordered, figure) for name, figure in figures.items()}

    def curve(self, design: str, quantity: str) -> tuple[tuple[int, float], ...]:
        """A design's figures over the parameter, for a chart."""
        return tuple((n, float(cost.figure(quantity))) for n, cost in self.of(design).items())

    def frontier(self, value: int) -> tuple[str, ...]:
        """The designs at a number that none beats in both area and time, the smallest first."""
        ordered = sorted(self.at(value), key=lambda cost: (cost.area, cost.time))
        kept: list[Cost] = []
        for cost in ordered:
            if not kept or cost.time < kept[-1].time or _same(cost, kept[-1]):
                kept.append(cost)
        return tuple(cost.design for cost in kept)

    @property
    def quantities(self) -> tuple[str, ...]:
        """What sentences are about."""
        toggles = any(cost.toggles is not None for cost in self.costs)
        stored = {bool(cost.flip_flops) for cost in self.costs}
        return (
            "area",
            *(["logic"] if len(stored) > 1 else []),
            "time",
            "area_time",
            *(["toggles"] if toggles else []),
        )

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
        return list(aligned(self.cells()))

    def cells(self) -> list[list[str]]:
        """The same cell by cell, the heading first."""
        toggles = "toggles" in self.quantities
        head = [self.parameter, "design", "area", "flip-flops", "period", "edges", "time"]
        rows = [[*head, "area x time", *(["toggles"] if toggles else [])]]
        for value in self.shown:
            ranks = {q: self.ranks(value, q) for q in ("area", "time", "area_time")}
            for cost in self.at(value):
                ranked = {
                    q: f"{number(cost.figure(q))} ({by_name[cost.design]})"
                    for q, by_name in ranks.items()
                }
                period = "-" if cost.period is None else number(cost.period)
                row = [str(value), cost.design, ranked["area"], str(cost.flip_flops), period]
                row += [str(cost.edges), ranked["time"], ranked["area_time"]]
                if cost.toggles is not None:
                    row.append(f"{float(cost.toggles):.1f}")
                rows.append(row)
        return rows

    def sentences(self) -> list[str]:
        """The answers: which is smaller, faster, better, and from which number on."""
        found: list[str] = []
        for quantity in self.quantities:
            if len(self.designs) > MOST_PAIRED:
                found.append(self._best(quantity))
            elif len(self.designs) > 1:
                found += [
                    self.sentence(one, other, quantity)
                    for one, other in combinations(self.designs, 2)
                ]
        return found

    def notes(self) -> list[str]:
        """What the figures mean and where they end."""
        found = [
            f"Model {self.model.name}: {self.model.about}.",
            f"Area in {self.model.area_unit}, time in {self.model.time_unit}; {paths.NOTE}.",
        ]
        if "toggles" in self.quantities:
            found.append(
                f"Toggles: outputs of gates and flip-flops that change in one result, on average"
                f" over {RESULTS} random results (seed {SEED}), hazards left out."
            )
        clocked = [n for n in self.designs if any(c.flip_flops for c in self.of(n).values())]
        if clocked and len(clocked) < len(self.designs):
            few = len(clocked) <= _NAMED
            those = listed(clocked) if few else f"{len(clocked)} of these designs"
            found.append(
                f"Flip-flops count: {those} {'keep' if len(clocked) > 1 else 'keeps'} words in"
                " registers, the others keep none."
            )
        for name in self.designs:
            gone = [value for design, value, _ in self.absent if design == name]
            if gone:
                why = next(why for design, _, why in self.absent if design == name)
                where = spans(gone, self.values)
                found.append(f"{name} is not there at {self.parameter} = {where}: {why}.")
        return found

    def sentence(self, one: str, other: str, quantity: str) -> str:
        """How two designs compare in a quantity, with the crossovers if there are any."""
        first, second = self.of(one), self.of(other)
        both = [value for value in self.values if value in first and value in second]
        if not both:
            return f"{one} and {other} are never there at the same {self.parameter}."
        signs = {v: _sign(first[v].figure(quantity), second[v].figure(quantity)) for v in both}
        word = _WORDS[quantity][1]
        if set(signs.values()) == {0}:
            what = plain_name(quantity)
            return f"{one} and {other} are equal in {what} at every {self._range(both)}."
        last = next(s for s in reversed(signs.values()) if s) if signs[both[-1]] == 0 else None
        winner_sign = last if last is not None else signs[both[-1]]
        (winner, loser) = (one, other) if winner_sign < 0 else (other, one)
        less = [value for value in both if signs[value] == winner_sign]
        if len(less) == len(both):
            ends = [both[0]] if len(both) == 1 else [both[0], both[-1]]
            figures = "; ".join(self._against(winner, loser, quantity, value) for value in ends)
            return f"{winner} is {word} than {loser} at every {self._range(both)}: {figures}."
        start = last_run(less, both)
        before = both[both.index(start) - 1]
        sides = "; ".join(self._against(winner, loser, quantity, v) for v in (before, start))
        on = "on" if both[-1] == less[-1] else f"to {less[-1]}"
        text = f"{winner} is {word} than {loser} from {self.parameter} = {start} {on}: {sides}"
        elsewhere = others(signs, both, start, less[-1], winner_sign)
        if elsewhere:
            told = {
                -winner_sign: f"{loser} is {word}",
                0: "equal",
                winner_sign: f"{winner} is {word}",
            }
            text += "; " + ", ".join(
                f"{told[sign]} at {self.parameter} = {spans(values, both)}"
                for sign, values in elsewhere
            )
        return text + "."

    def _against(self, one: str, other: str, quantity: str, value: int) -> str:
        figures = [number(self.of(name)[value].figure(quantity)) for name in (one, other)]
        unit = {
            "time": f" {self.model.time_unit}",
            "area": f" {self.model.area_unit}",
            "logic": f" {self.model.area_unit}",
        }.get(quantity, "")
        return f"{figures[0]} against {figures[1]}{unit} at {self.parameter} = {value}"

    def _range(self, values: Sequence[int]) -> str:
        return f"{self.parameter} = {spans(values, self.values)}"

    def _best(self, quantity: str) -> str:
        """Who has the least of a quantity, number by number."""
        runs: list[tuple[tuple[str, ...], list[int]]] = []
        for value in self.values:
            ranks = self.ranks(value, quantity)
            best = tuple(name for name in self.designs if ranks.get(name) == 1)
            if runs and runs[-1][0] == best:
                runs[-1][1].append(value)
            elif best:
                runs.append((best, [value]))
        told = []
        for names, values in runs:
            figure = number(self.of(names[0])[values[0]].figure(quantity))
            last = number(self.of(names[0])[values[-1]].figure(quantity))
            figures = figure if last == figure else f"{figure} to {last}"
            told.append(f"{listed(names)} at {self._range(values)} ({figures})")
        return f"{_WORDS[quantity][0].capitalize()}: " + "; ".join(told) + "."

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
            "costs": [cost.data() for cost in self.costs],
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
    carry-lookahead-adder is better in area x time than ripple-carry-adder from n = 14 on:
    2685 against 2548 at n = 13; 2835 against 2940 at n = 14.
    """
    chosen = technology(model, place)
    parameter, values, rest = grid(blueprints, over, fixed or {}, place)
    work: list[sweep.Measuring] = []
    found: dict[str, list[sweep.Measured]] = {}
    for blueprint in blueprints:
        own = {p.name for p in blueprint.parameters}
        points = [{**{k: v for k, v in rest.items() if k in own}, parameter: v} for v in values]
        if blueprint.name in catalogue.ORDER and catalogue.find(blueprint.name) is blueprint:
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
        raise DesignError(f"none of the designs can be built: {name}, {parameter}={value}: {why}")
    names = tuple(blueprint.name for blueprint in blueprints)
    return Comparison(chosen, parameter, tuple(values), names, tuple(costs), tuple(absent))


def comparable(parameter: str = "n") -> tuple[Blueprint, ...]:
    """The catalogue's designs that have a parameter.

    Examples
    --------
    >>> [blueprint.name for blueprint in comparable("m")][:2]
    ['serial-accumulator', 'serial-accumulator-cleared']
    """
    all_ = (catalogue.find(name) for name in catalogue.ORDER)
    return tuple(b for b in all_ if parameter in {p.name for p in b.parameters})


def _same(a: Cost, b: Cost) -> bool:
    return (a.area, a.time) == (b.area, b.time)


def _sign(a: Fraction, b: Fraction) -> int:
    return (a > b) - (a < b)
