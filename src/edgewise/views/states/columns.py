"""Columns: states placed by the layout engine, the start at the left."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping, Sequence

from edgewise.state_graph import Transition
from edgewise.views.layout.elk import lay_out
from edgewise.views.layout.graph import Box, Graph, Layout, Port, Side, Wire
from edgewise.views.states.placing import Arrow, Measure, Placing, framed

_USED = 0.6
"""How far from the middle arrows may meet a circle, in radii."""


def columns(
    states: Sequence[int],
    transitions: Sequence[Transition],
    measure: Measure,
    labels: Mapping[Transition, tuple[float, float]],
) -> Placing:
    """Some states that hang together; `labels` are the sizes of the texts at their transitions.

    Examples
    --------
    >>> ways = [Transition(0, 1), Transition(1, 0)]
    >>> placed = columns([0, 1], ways, Measure(20, 30), {})
    >>> placed.spots[0][0] < placed.spots[1][0]
    True
    """
    order = {each: number for number, each in enumerate(transitions)}
    laid = _laid(states, order, measure, labels, {})
    # The places at each circle are sorted by where the arrows go to, and it is laid out anew.
    heights = {box.id: box.y for box in laid.boxes}
    laid = _laid(states, order, measure, labels, heights)
    radius = measure.radius
    spots = {int(box.id): (box.x + radius, box.y + radius) for box in laid.boxes}
    ways = list(order)
    arrows = []
    for wire in laid.wires:
        each = ways[int(wire.id)]
        line = wire.lines[0]
        start, end = spots[each.source], spots[each.target]
        rims = _rim(line[0][1] - start[1], radius), _rim(line[-1][1] - end[1], radius)
        points = ((start[0] + rims[0], line[0][1]), *line[1:-1], (end[0] - rims[1], line[-1][1]))
        arrows.append(Arrow(each, points))
    return framed(spots, arrows, radius)


def _rim(height: float, radius: float) -> float:
    """How far from its upright middle a circle is at this height."""
    return float((radius**2 - height**2) ** 0.5)


def _laid(
    states: Sequence[int],
    order: Mapping[Transition, int],
    measure: Measure,
    labels: Mapping[Transition, tuple[float, float]],
    heights: Mapping[str, float],
) -> Layout:
    ends: defaultdict[tuple[int, Side], list[tuple[float, str]]] = defaultdict(list)
    for each, number in order.items():
        ends[each.source, "right"].append((heights.get(str(each.target), 0.0), f"{number}>"))
        ends[each.target, "left"].append((heights.get(str(each.source), 0.0), f"{number}<"))
    boxes = []
    for state in states:
        ports = [
            Port(port, side, at)
            for side in ("left", "right")
            for port, at in _spread(ends[state, side], measure.radius)
        ]
        boxes.append(Box(str(state), 2 * measure.radius, 2 * measure.radius, tuple(ports)))
    wires = [
        Wire(str(number), f"{number}>", (f"{number}<",), label=labels.get(each))
        for each, number in order.items()
    ]
    return lay_out(Graph(tuple(boxes), tuple(wires)), "right")


def _spread(ends: Sequence[tuple[float, str]], radius: float) -> list[tuple[str, float]]:
    count = len(ends)
    room = 2 * _USED * radius
    tops = [radius - room / 2 + room * (i + 0.5) / count for i in range(count)]
    return [(port, round(at * 2) / 2) for (_, port), at in zip(sorted(ends), tops, strict=True)]
