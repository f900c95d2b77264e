"""Charts of a comparison: cost over n, time over n, area against time."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from edgewise.errors import DesignError, Message, Place, nearest
from edgewise.study.compare.comparison import Comparison
from edgewise.views.charts.curves import Axis, Chart, Curve, Spot
from edgewise.words.messages import ENGLISH, Fact, Words

PLANE: Final = "area-delay"
"""The chart of area against time."""
_CURVES: Final = (
    "area",
    "logic",
    "gates",
    "flip-flops",
    "edges",
    "period",
    "time",
    "throughput",
    "toggles",
)
KINDS: Final = (*_CURVES, PLANE)
"""What a chart of a comparison can show."""


def chart(
    comparison: Comparison,
    kind: str,
    at: int | None = None,
    place: Place | None = None,
    words: Words = ENGLISH,
) -> Chart:
    """The chart of a comparison, to be drawn.

    Parameters
    ----------
    comparison : Comparison
    kind : str
        A quantity (``area``, ``time``, …) over the parameter, or ``area-delay``.
    at : int, optional
        For ``area-delay``: the parameter's number; the last unless given.
    place : Place, optional
    words : Words

    Raises
    ------
    DesignError
        Unknown kind, or a number that was not compared.

    Examples
    --------
    >>> from edgewise import catalogue
    >>> from edgewise.study.compare.comparison import compare
    >>> pair = [catalogue.find(n) for n in ("ripple-carry-adder", "carry-lookahead-adder")]
    >>> found = compare(pair, {"n": (4, 8)})
    >>> chart(found, "time").title, chart(found, "area-delay").y.title
    ('Time of one result over n', 'time, gate delays')
    """
    check(kind, place)
    if kind == PLANE:
        return _plane(comparison, comparison.values[-1] if at is None else at, place, words)
    quantity = kind.replace("-", "_")
    if quantity == "toggles" and all(cost.toggles is None for cost in comparison.costs):
        raise DesignError(Message("toggles-uncounted"), place)
    drawn = [
        Curve(name, points)
        for name in comparison.designs
        if (points := _points(comparison, name, quantity))
    ]
    if not drawn:
        raise DesignError(Message("chart-clockless", kind=kind), place)
    name = comparison.parameter
    axis = words(f"compare-axis-{kind}", **_asked(kind, comparison.units(words)))
    return Chart(
        tuple(drawn), Axis(name), Axis(axis), words(f"compare-chart-{kind}", over=name), words
    )


def _asked(kind: str, units: Mapping[str, str]) -> dict[str, Fact]:
    """The unit that an axis has, if it has one."""
    if kind in ("area", "logic"):
        return {"unit": units["area"]}
    return {"unit": units["time"]} if kind in ("period", "time", "throughput") else {}


def check(kind: str, place: Place | None = None) -> None:
    """See that there is such a chart, before anything is measured for it.

    Raises
    ------
    DesignError
        If there is none; the nearest name is suggested.
    """
    if kind not in KINDS:
        raise DesignError(
            Message("chart-unknown", name=kind, suggestion=nearest(kind, KINDS)), place
        )


def _points(comparison: Comparison, name: str, quantity: str) -> tuple[tuple[int, float], ...]:
    """A design's figures; a design without a clock has no period."""
    if quantity == "period":
        clocked = {n for n, cost in comparison.of(name).items() if cost.period is not None}
        return tuple(point for point in comparison.curve(name, quantity) if point[0] in clocked)
    scale = 1000 if quantity == "throughput" else 1
    return tuple((n, scale * figure) for n, figure in comparison.curve(name, quantity))


def _plane(comparison: Comparison, at: int, place: Place | None, words: Words) -> Chart:
    name, costs = comparison.parameter, comparison.at(at)
    if not costs:
        first, last = comparison.values[0], comparison.values[-1]
        expected = first if first == last else f"{first}..{last}"
        raise DesignError(Message("chart-outside", name=name, found=at, expected=expected), place)
    best = comparison.frontier(at)
    group = {name: i for i, names in enumerate(comparison.groups) for name in names}
    spots = tuple(
        Spot(c.design, float(c.area), float(c.time), c.design in best, group[c.design])
        for c in costs
    )
    units = comparison.units(words)
    among = "alike" if len(comparison.groups) > 1 else "all"
    return Chart(
        spots,
        Axis(words("compare-axis-area", unit=units["area"])),
        Axis(words("compare-axis-time", unit=units["time"])),
        words("compare-chart-area-delay", over=f"{name} = {at}", among=among),
        words,
    )
