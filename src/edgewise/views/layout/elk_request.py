"""Questions: a graph in the words of the layout engine.

Boxes, ports and wires have numbers there (`b0`, `p0`, `w0`; `w0.1` is the second sink of
wire 0), so figures that differ in names only ask the same question. Lengths are put on
the half-pixel grid here; everything after stays on it.
"""

from __future__ import annotations

import math
from collections import defaultdict
from typing import Any, Final, NamedTuple

from edgewise.views.layout.graph import GRID, Box, Direction, Graph, Point, Port, rooms

Json = dict[str, Any]
# `Body` and `Plan` are named tuples, which start a command 1 ms sooner than dataclasses.

_SIDES: Final = {"top": "NORTH", "right": "EAST", "bottom": "SOUTH", "left": "WEST"}
_PAGE: Final = {
    "elk.json.shapeCoords": "ROOT",
    "elk.json.edgeCoords": "ROOT",
    "elk.padding": "[top=12,left=12,bottom=12,right=12]",
}
# Each room is laid out by itself, inner rooms first: a wire never leaves its room, a
# container looks the same in every figure, and its ports keep their order. (In one go for
# all rooms, the engine moves ports to save crossings, whatever FIXED_ORDER says.)
_ROOM: Final = {
    "elk.algorithm": "layered",
    "elk.hierarchyHandling": "SEPARATE_CHILDREN",
    "elk.edgeRouting": "ORTHOGONAL",
    "elk.randomSeed": "1",
    "elk.separateConnectedComponents": "false",
    "elk.spacing.nodeNode": "32",
    "elk.spacing.edgeNode": "16",
    "elk.spacing.edgeEdge": "12",
    "elk.spacing.edgeLabel": "3",
    "elk.layered.spacing.nodeNodeBetweenLayers": "32",
    "elk.layered.spacing.edgeNodeBetweenLayers": "16",
    "elk.layered.spacing.edgeEdgeBetweenLayers": "12",
}
_TIGHT: Final = {
    "elk.layered.spacing.nodeNodeBetweenLayers": "16",
    "elk.layered.spacing.edgeNodeBetweenLayers": "10",
    "elk.layered.spacing.edgeEdgeBetweenLayers": "9",
}
_SEEDED: Final = {
    "elk.layered.cycleBreaking.strategy": "INTERACTIVE",
    "elk.layered.layering.strategy": "INTERACTIVE",
    "elk.layered.crossingMinimization.semiInteractive": "true",
    # The order is given, so few tries find the best routes, in half the time.
    "elk.layered.thoroughness": "3",
}
# Loops are broken where a signal comes back, so that feedback stays near its source.
_UNSEEDED: Final = {"elk.layered.cycleBreaking.strategy": "DEPTH_FIRST"}


class Body(NamedTuple):
    """A box and what hangs on it: one node to the engine."""

    box: Box
    at: Point
    """Of the box's top left corner in the body."""
    width: float
    height: float
    hung: tuple[tuple[Box, Point], ...] = ()
    """The hanging boxes with their top left corners in the body."""


class Plan(NamedTuple):
    """A checked graph with the numbers of its things."""

    graph: Graph
    boxes: dict[str, str]
    ports: dict[str, str]
    parents: dict[str, str | None]
    """Of every box: the id of its container."""
    owners: dict[str, str]
    """Of every port: the id of its box."""
    rooms: dict[str, str | None]
    """Of every wire: the id of the container that it runs in."""


def plan(graph: Graph) -> Plan:
    """Number everything in a checked graph."""
    pairs = list(graph.walk())
    ports = [port.id for box, _ in pairs for port in box.ports]
    return Plan(
        graph,
        boxes={box.id: f"b{number}" for number, (box, _) in enumerate(pairs)},
        ports={port: f"p{number}" for number, port in enumerate(ports)},
        parents={box.id: parent.id if parent else None for box, parent in pairs},
        owners={port.id: box.id for box, _ in pairs for port in box.ports},
        rooms=rooms(graph),
    )


def on_grid(length: float) -> float:
    """The nearest half pixel; moving by whole half pixels does not change the rounding.

    Examples
    --------
    >>> on_grid(3.2), on_grid(3.25), on_grid(-3.25)
    (3.0, 3.5, -3.0)
    """
    return math.floor(length / GRID + 0.5 + 1e-6) * GRID


def size(box: Box) -> tuple[float, float]:
    """Width and height of a box, rounded up to the grid."""
    return math.ceil(box.width / GRID) * GRID, math.ceil(box.height / GRID) * GRID


def spot(port: Port, width: float, height: float) -> Point:
    """Where a port lies on a box of this size, from its top left corner."""
    at = on_grid(port.at)
    return {"left": (0.0, at), "right": (width, at), "top": (at, 0.0), "bottom": (at, height)}[
        port.side
    ]


def bodies(boxes: tuple[Box, ...]) -> list[Body]:
    """Siblings, each with the boxes that hang on it."""
    hosts = {port.id: (box, port) for box in boxes for port in box.ports}
    hung: defaultdict[str, list[tuple[Box, Port]]] = defaultdict(list)
    for box in boxes:
        if box.hangs_on is not None:
            host, port = hosts[box.hangs_on]
            hung[host.id].append((box, port))
    return [_body(box, hung[box.id]) for box in boxes if box.hangs_on is None]


def _body(box: Box, hung: list[tuple[Box, Port]]) -> Body:
    width, height = size(box)
    corners = {}
    for hanging, port in hung:
        w, h = size(hanging)
        x, y = spot(port, width, height)
        pin_x, pin_y = spot(hanging.ports[0], w, h)
        stem = on_grid(hanging.stem)
        x += {"left": -stem, "right": stem}.get(port.side, 0.0) - pin_x
        y += {"top": -stem, "bottom": stem}.get(port.side, 0.0) - pin_y
        corners[hanging.id] = (x, y, x + w, y + h)
    left = min(0.0, *(c[0] for c in corners.values())) if corners else 0.0
    top = min(0.0, *(c[1] for c in corners.values())) if corners else 0.0
    right = max(width, *(c[2] for c in corners.values())) if corners else width
    bottom = max(height, *(c[3] for c in corners.values())) if corners else height
    return Body(
        box,
        at=(-left, -top),
        width=right - left,
        height=bottom - top,
        hung=tuple((b, (corners[b.id][0] - left, corners[b.id][1] - top)) for b, _ in hung),
    )


def question(plan: Plan, direction: Direction) -> Json:
    """The engine's input: one node per body, one edge per driver-sink pair."""
    graph = plan.graph
    hanging = {box.ports[0].id for box, _ in graph.walk() if box.hangs_on is not None}
    edges: defaultdict[str | None, list[Json]] = defaultdict(list)
    for number, wire in enumerate(graph.wires):
        if hanging.isdisjoint((wire.source, *wire.targets)):
            edges[plan.rooms[wire.id]] += _edges(plan, number)
    widest = max((body.width for body in _all_bodies(graph)), default=0.0)
    # Seeds are places; the wider the boxes, the further apart, so that no two columns meet.
    step = 1000.0 + 2 * math.ceil(widest)
    scale = (step if direction == "right" else -step, step)
    options = _PAGE | _room(graph.boxes, scale) | (_TIGHT if graph.tight else {})
    return {
        "id": "page",
        "layoutOptions": options,
        "children": [_node(plan, body, edges, scale) for body in bodies(graph.boxes)],
        "edges": edges[None],
    }


def _all_bodies(graph: Graph) -> list[Body]:
    found = bodies(graph.boxes)
    for box, _ in graph.walk():
        found += bodies(box.children)
    return found


def _room(boxes: tuple[Box, ...], scale: tuple[float, float]) -> dict[str, str]:
    seeded = any(box.seed is not None for box in boxes)
    flow = {"elk.direction": "RIGHT" if scale[0] > 0 else "LEFT"}
    return _ROOM | flow | (_SEEDED if seeded else _UNSEEDED)


def _edges(plan: Plan, number: int) -> list[Json]:
    wire = plan.graph.wires[number]
    edges: list[Json] = [
        {"id": f"w{number}.{n}", "sources": [plan.ports[wire.source]], "targets": [plan.ports[to]]}
        for n, to in enumerate(wire.targets)
    ]
    for edge, target in zip(edges, wire.targets, strict=True):
        if plan.rooms[wire.id] == plan.owners[wire.source] == plan.owners[target]:
            edge["layoutOptions"] = {"elk.insideSelfLoops.yo": "true"}
    if wire.label:
        width, height = wire.label
        place = {"elk.edgeLabels.placement": "TAIL"}
        # A label without a text is passed over.
        label = {"id": f"t{number}", "text": "?", "width": width, "height": height}
        edges[0]["labels"] = [label | {"layoutOptions": place}]
    return edges


def _node(
    plan: Plan, body: Body, edges: dict[str | None, list[Json]], scale: tuple[float, float]
) -> Json:
    box = body.box
    node: Json = {"id": plan.boxes[box.id]}
    options = {}
    if box.seed is not None:
        node["x"], node["y"] = box.seed[0] * scale[0], box.seed[1] * scale[1]
        options["elk.position"] = f"({node['x']},{node['y']})"
    if not box.children:
        node |= {"width": body.width, "height": body.height, "ports": _fixed_ports(plan, body)}
        options["elk.portConstraints"] = "FIXED_POS"
        if {"left", "right"} <= {port.side for port in box.ports}:
            # What the signals pass through stands in line with what is above and below it.
            options["elk.alignment"] = "LEFT" if scale[0] > 0 else "RIGHT"
        return node | {"layoutOptions": options | _end_of_flow(plan, box)}
    side, top = box.padding, box.padding + box.title_room
    options |= _room(box.children, scale) | {
        "elk.portConstraints": "FIXED_ORDER",
        "elk.insideSelfLoops.activate": "true",
        "elk.nodeSize.constraints": "[PORTS, MINIMUM_SIZE]",
        "elk.nodeSize.minimum": f"({box.width},{box.height})",
        "elk.padding": f"[top={top},left={side},bottom={side},right={side}]",
    }
    return node | {
        "ports": _ordered_ports(plan, box),
        "children": [_node(plan, inner, edges, scale) for inner in bodies(box.children)],
        "edges": edges[box.id],
        "layoutOptions": options,
    }


def _end_of_flow(plan: Plan, box: Box) -> dict[str, str]:
    """Unseeded boxes of the page without a driver or without a sink go first or last."""
    if box.seed is not None or plan.parents[box.id] is not None:
        return {}
    ports = {port.id for port in box.ports}
    drives = any(wire.source in ports for wire in plan.graph.wires)
    driven = any(not ports.isdisjoint(wire.targets) for wire in plan.graph.wires)
    if drives == driven:
        return {}
    return {"elk.layered.layering.layerConstraint": "FIRST" if drives else "LAST"}


def _fixed_ports(plan: Plan, body: Body) -> list[Json]:
    """The ports of a plain box, moved out to the border of its body."""
    taken = {hanging.hangs_on for hanging, _ in body.hung}
    ports = []
    for port in body.box.ports:
        if port.id in taken:
            continue
        x, y = spot(port, *size(body.box))
        x, y = x + body.at[0], y + body.at[1]
        x = {"left": 0.0, "right": body.width}.get(port.side, x)
        y = {"top": 0.0, "bottom": body.height}.get(port.side, y)
        ports.append(_port(plan, port) | {"x": x, "y": y})
    return ports


def _ordered_ports(plan: Plan, box: Box) -> list[Json]:
    """The ports of a container, numbered clockwise from its top left corner."""
    sides = list(_SIDES)
    back = ("bottom", "left")
    clockwise = sorted(
        box.ports,
        key=lambda port: (sides.index(port.side), -port.at if port.side in back else port.at),
    )
    ports = [_port(plan, port) for port in clockwise]
    for index, port in enumerate(ports):
        port["layoutOptions"]["elk.port.index"] = str(index)
    return ports


def _port(plan: Plan, port: Port) -> Json:
    options = {"elk.port.side": _SIDES[port.side]}
    return {"id": plan.ports[port.id], "width": 0, "height": 0, "layoutOptions": options}
