"""Needs: which designs satisfy some conditions, the cheapest first.

A need is written as conditions with commas between them::

    n = 32, area <= 200, time <= 100 gate delays

A condition is a comparison of the formula language, over the quantities of a cost (`area`, `time`,
`edges`, …) and the parameters; ``=`` may stand for ``==``, and a unit may stand behind the last
number. A parameter that is to equal a number is set to it. Figures that are not whole are rounded
up first.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from math import ceil
from typing import Any, Final

from edgewise.arithmetic import FUNCTIONS, Value, call, evaluate, number, truth
from edgewise.blueprint import Blueprint
from edgewise.errors import DesignError, Place, TextError, nearest
from edgewise.formula import Binary, Name, Node, Number, Select, Timed, names_in, parse
from edgewise.study import paths, sweep
from edgewise.study.comparison import Comparison, compare
from edgewise.study.cost import QUANTITIES, Cost, technology
from edgewise.study.technology import UNIT_GATE, Technology
from edgewise.study.wording import aligned

_COMPARED: Final = ("==", "!=", "<=", ">=", "<", ">")
_UNIT: Final = re.compile(r"(?P<formula>.*[\d)])\s*(?P<unit>[A-Za-z][A-Za-z -]*)", re.DOTALL)
_PRODUCT: Final = re.compile(r"\barea( x |-)time\b")
_DECIMAL: Final = re.compile(r"[0-9]+\.[0-9]+")
_SINGLE: Final = re.compile(r"(?<![=<>!])=(?!=)")
_QUANTITIES: Final = tuple(name for name in QUANTITIES if name != "rate")
_SHOWN: Final = ("area", "flip_flops", "edges", "time", "area_time")
"""Columns of every answer."""
_OF_AREA: Final = ("area", "logic", "storage")
_OF_TIME: Final = ("time", "period")
_COUNTS: Final[Mapping[str, tuple[str, ...]]] = {
    "gates": ("gates",),
    "flip_flops": ("flip-flops",),
    "edges": ("edges", "clock edges"),
    "toggles": ("toggles",),
}


@dataclass(frozen=True, slots=True)
class Condition:
    """One condition, as it was written and as a tree."""

    text: str
    truth: Node


@dataclass(frozen=True, slots=True)
class Need:
    """Conditions that hold together.

    Parameters
    ----------
    text : str
    conditions : tuple of Condition
    fixed : tuple of (str, int)
        Parameters that are to equal a number.
    """

    text: str
    conditions: tuple[Condition, ...]
    fixed: tuple[tuple[str, int], ...]


def read(
    text: str, parameters: Sequence[str], model: Technology = UNIT_GATE, place: Place | None = None
) -> Need:
    """Read a need.

    Parameters
    ----------
    text : str
    parameters : sequence of str
        Names that designs have as parameters.
    model : Technology
        Whose units may stand behind a number.

    Raises
    ------
    TextError
        If it can't be read: an unknown name or unit, or something that is no comparison.

    Examples
    --------
    >>> need = read("time <= 40 gate delays, n = 32", ["n"])
    >>> [condition.text for condition in need.conditions], need.fixed
    (['time <= 40 gate delays', 'n = 32'], (('n', 32),))
    """
    conditions: list[Condition] = []
    fixed: list[tuple[str, int]] = []
    for part in _split(text):
        node = _condition(part, parameters, model, place)
        conditions.append(Condition(part, node))
        match node:
            case Binary("==", Name(base=name, steps=()), Number(value=value)) if name in parameters:
                fixed.append((name, value))
    if not conditions:
        raise TextError("a need has no condition; write, for example, n = 32, time <= 40", place)
    return Need(text, tuple(conditions), tuple(fixed))


def _split(text: str) -> Iterator[str]:
    """The conditions: commas between parentheses don't count."""
    depth, part = 0, ""
    for character in [*text, ","]:
        depth += (character == "(") - (character == ")")
        if character == "," and depth <= 0:
            if part.strip():
                yield part.strip()
            part = ""
        else:
            part += character


def _condition(
    part: str, parameters: Sequence[str], model: Technology, place: Place | None
) -> Node:
    text = part.replace("flip-flops", "flip_flops")
    text = _PRODUCT.sub("area_time", text)
    decimal = _DECIMAL.search(text)
    if decimal:
        raise TextError(
            f"{part}: found {decimal[0]}, expected a whole number, since figures are rounded up to"
            f" one first; write {ceil(float(decimal[0]))}",
            place,
        )
    unit = ""
    found = _UNIT.fullmatch(text)
    if found:
        text, unit = found["formula"], found["unit"].strip()
    node: Node = parse(_SINGLE.sub("==", text), place=place)
    if not (isinstance(node, Binary) and node.operator in _COMPARED):
        raise TextError(
            f"{part} is no condition; write a comparison, for example time <= 40", place
        )
    known = [*_QUANTITIES, *parameters]
    used = [name.base for name in names_in(node)]
    for name in used:
        if name not in known and name not in FUNCTIONS:
            raise TextError(f"there is no quantity {name}{nearest(name, known)}", place)
    if unit:
        _check_unit(part, unit.replace("flip_flops", "flip-flops"), used, model, place)
    return node


def _check_unit(
    part: str, unit: str, used: Sequence[str], model: Technology, place: Place | None
) -> None:
    """A unit must be that of a quantity in the condition."""
    fitting: list[str] = []
    for name in used:
        if name in _OF_AREA:
            fitting.append(model.area_unit)
        elif name in _OF_TIME:
            fitting.append(model.time_unit)
        fitting += _COUNTS.get(name, ())
    # "40 gates" is how a class says 40 gate delays, or 40 gate units.
    loose = ["gates"] if any(one.startswith("gate") for one in fitting) else []
    singular = [one.removesuffix("s") for one in fitting if one != "ns"]
    if fitting and unit in (*fitting, *singular, *loose):
        return
    there = f"expected {' or '.join(dict.fromkeys(fitting))}" if fitting else "expected no unit"
    raise TextError(f"{part}: found the unit {unit}; {there} in the model {model.name}", place)


@dataclass(frozen=True, slots=True)
class _Figures:
    """The scope of a condition: a cost's quantities and parameters."""

    cost: Cost

    def look_up(self, name: Name) -> Value:
        match name.steps:
            case ():
                parameter = self.cost.parameter(name.base)
                if parameter is not None:
                    return parameter
                if name.base in _QUANTITIES:
                    return ceil(self.cost.figure(name.base))
            case (Select(items=items),) if name.base in FUNCTIONS:
                return call(name.base, [number(evaluate(item, self)) for item in items])
        raise TextError(f"{self.cost.design} has no {name.base}")

    def at_time(self, _timed: Timed) -> Value:
        raise TextError("a need knows no edges by number; compare quantities")


def holds(condition: Condition, cost: Cost) -> bool:
    """Whether a design satisfies a condition; one without a parameter named in it does not."""
    try:
        return truth(evaluate(condition.truth, _Figures(cost)))
    except TextError:
        return False


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
        lines = [*aligned(self.cells()), ""] if self.found else []
        return "\n".join([*lines, *self.sentences(), *self.comparison.notes()])

    def cells(self) -> list[list[str]]:
        """What satisfies the need, cell by cell, the heading first."""
        parameter = self.comparison.parameter
        # What the need asks about is shown, although it may not be a column of every table.
        named = {n.base for one in self.need.conditions for n in names_in(one.truth)}
        more = [q for q in _QUANTITIES if q in named and q not in _SHOWN]
        rows = [[parameter, "design", "area", "flip-flops", "edges", "time", "area x time", *more]]
        rows += [
            [
                str(cost.parameter(parameter)),
                cost.design,
                paths.number(cost.area),
                str(cost.flip_flops),
                str(cost.edges),
                paths.number(cost.time),
                paths.number(cost.area_time),
                *(paths.number(cost.figure(q)) for q in more),
            ]
            for cost in self.found
        ]
        return rows

    def sentences(self) -> list[str]:
        """The cheapest; if there is none, what comes closest."""
        if not self.found:
            return [f"Nothing satisfies {self.need.text}.", *self._closest()]
        model, best = self.comparison.model, self.found[0]
        names = [name for name, _ in best.parameters]
        at = ", ".join(f"{name} = {best.parameter(name)}" for name in names[:1])
        return [
            f"Cheapest by area: {best.design} at {at}, {paths.number(best.area)} {model.area_unit},"
            f" {paths.number(best.time)} {model.time_unit}."
        ]

    def _closest(self) -> Iterator[str]:
        """Which conditions nothing satisfies, and what comes closest to each."""
        costs = self.comparison.costs
        for condition in self.need.conditions:
            if any(holds(condition, cost) for cost in costs):
                continue
            used = [n.base for n in names_in(condition.truth) if n.base in _QUANTITIES]
            if used:
                most = isinstance(condition.truth, Binary) and condition.truth.operator in (
                    ">",
                    ">=",
                )
                ordered = sorted(costs, key=lambda cost: cost.figure(used[0]), reverse=most)
                figure = paths.number(ordered[0].figure(used[0]))
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
        As in `edgewise.study.comparison.compare`.

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
    grid = dict(over or {})
    for name, value in wanted.fixed:
        grid.setdefault(name, (value, value))
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
