"""Clashes: what must not be in a figure, found in a layout and said in plain words.

Two nets may cross, and nothing more: no overlap, no bend or end of one on the other.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations, pairwise

from edgewise.views.layout.graph import Layout, PlacedBox, PlacedPort, PlacedWire, Point, Side

_Piece = tuple[Point, Point]
_Rect = tuple[float, float, float, float]

_OUTWARD: dict[Side, Point] = {"left": (-1, 0), "right": (1, 0), "top": (0, -1), "bottom": (0, 1)}


def clashes(layout: Layout) -> tuple[str, ...]:
    """All faults of a layout; an empty tuple is a clean figure.

    A fault is: two boxes that overlap or a box that leaves its container; a wire that
    touches a box other than at its own port, leaves its container or the page, runs
    askew, or is in pieces; a port of a wire where it does not end, or ends from the wrong
    side; two nets that overlap or meet at a bend or end; a label on a box or a wire.

    Examples
    --------
    >>> from edgewise.views.layout.graph import PlacedBox
    >>> boxes = PlacedBox("A", 0, 0, 40, 40), PlacedBox("B", 30, 30, 40, 40)
    >>> clashes(Layout(80, 80, boxes, (), ()))
    ('boxes A and B overlap',)
    """
    faults = [
        *_box_faults(layout),
        *(fault for wire in layout.wires for fault in _route_faults(layout, wire)),
        *(fault for wire in layout.wires for fault in _wire_box_faults(layout, wire)),
        *_net_faults(layout),
        *_label_faults(layout),
    ]
    return tuple(dict.fromkeys(faults))


def pieces(wire: PlacedWire) -> list[_Piece]:
    """The straight stretches of a wire, each from left to right or downwards."""
    return [piece for line in wire.lines for piece in _stretches(line)]


def _rect(box: PlacedBox) -> _Rect:
    return box.x, box.y, box.x + box.width, box.y + box.height


def _overlap(a: _Rect, b: _Rect) -> bool:
    return a[0] < b[2] and b[0] < a[2] and a[1] < b[3] and b[1] < a[3]


def _holds(outer: _Rect, inner: _Rect) -> bool:
    return (
        outer[0] <= inner[0]
        and outer[1] <= inner[1]
        and inner[2] <= outer[2]
        and inner[3] <= outer[3]
    )


def _box_faults(layout: Layout) -> Iterator[str]:
    rects = {box.id: _rect(box) for box in layout.boxes}
    page = (0.0, 0.0, layout.width, layout.height)
    for box in layout.boxes:
        outer, where = (rects[box.parent], box.parent) if box.parent else (page, "the page")
        if not _holds(outer, rects[box.id]):
            yield f"box {box.id} is not inside {where}"
    for a, b in combinations(layout.boxes, 2):
        if a.parent == b.parent and _overlap(rects[a.id], rects[b.id]):
            yield f"boxes {a.id} and {b.id} overlap"


def _route_faults(layout: Layout, wire: PlacedWire) -> Iterator[str]:
    """Whether it is one orthogonal tree that ends at its ports."""
    stretches = pieces(wire)
    if any(a[0] != b[0] and a[1] != b[1] for a, b in stretches):
        yield f"wire {wire.id} runs askew"
    if any(a == b for a, b in stretches) or not stretches:
        yield f"wire {wire.id} has a stretch without length"
    for number, line in enumerate(wire.lines):
        before = [piece for earlier in wire.lines[:number] for piece in _stretches(earlier)]
        if number and not any(_on(line[0], piece) for piece in before):
            yield f"wire {wire.id} is in pieces: nothing leads to {line[0]}"
    ports = {port.id: port for port in layout.ports}
    starts = [line[:2] for line in wire.lines[:1]]
    ends = [line[:-3:-1] for line in wire.lines]
    for name, tips in ((wire.source, starts), *((target, ends) for target in wire.targets)):
        port = ports[name]
        outward = _OUTWARD[port.side]
        if wire.parent == port.box:
            outward = (-outward[0], -outward[1])
        here = [tip for tip in tips if tip[0] == (port.x, port.y)]
        if not here:
            yield f"wire {wire.id} does not end on its port {name}"
        elif not all(_heads(tip[0], tip[1], outward) for tip in here):
            yield f"wire {wire.id} comes to port {name} from the wrong side"


def _stretches(line: tuple[Point, ...]) -> list[_Piece]:
    return [(min(pair), max(pair)) for pair in pairwise(line)]


def _on(point: Point, piece: _Piece) -> bool:
    (x1, y1), (x2, y2) = piece
    return x1 <= point[0] <= x2 and y1 <= point[1] <= y2


def _heads(start: Point, end: Point, way: Point) -> bool:
    """Whether the stretch runs this way: (1, 0) to the right, (0, 1) downwards."""
    along = (end[0] - start[0]) * way[0] + (end[1] - start[1]) * way[1]
    return along > 0


def _wire_box_faults(layout: Layout, wire: PlacedWire) -> Iterator[str]:
    boxes = {box.id: box for box in layout.boxes}
    own: dict[str, list[PlacedPort]] = {}
    for port in layout.ports:
        if port.id in (wire.source, *wire.targets):
            own.setdefault(port.box, []).append(port)
    room = boxes[wire.parent] if wire.parent else None
    walls = _rect(room) if room else (0.0, 0.0, layout.width, layout.height)
    for piece in pieces(wire):
        flat = (*piece[0], *piece[1])
        tips = [tip for tip in piece if room and tip in _spots(own.get(room.id, ()))]
        inside = all(
            tip in tips or (walls[0] < tip[0] < walls[2] and walls[1] < tip[1] < walls[3])
            for tip in piece
        )
        if not inside:
            yield f"wire {wire.id} leaves {wire.parent or 'the page'}"
        for box in layout.boxes:
            if box.parent != wire.parent or not _touch(flat, _rect(box)):
                continue
            # It may touch at a port of its own, from outside, and nowhere else.
            cut = _common(flat, _rect(box))
            if cut[:2] != cut[2:] or cut[:2] not in _spots(own.get(box.id, ())):
                yield f"wire {wire.id} runs through box {box.id}"


def _spots(ports: list[PlacedPort] | tuple[PlacedPort, ...]) -> set[Point]:
    return {(port.x, port.y) for port in ports}


def _touch(a: _Rect, b: _Rect) -> bool:
    return a[0] <= b[2] and b[0] <= a[2] and a[1] <= b[3] and b[1] <= a[3]


def _common(a: _Rect, b: _Rect) -> _Rect:
    return max(a[0], b[0]), max(a[1], b[1]), min(a[2], b[2]), min(a[3], b[3])


def _net_faults(layout: Layout) -> Iterator[str]:
    stretches = {wire.id: pieces(wire) for wire in layout.wires}
    for a, b in combinations(layout.wires, 2):
        if a.parent != b.parent:
            continue
        for p in stretches[a.id]:
            for q in stretches[b.id]:
                fault = _meeting(p, q)
                if fault:
                    yield f"wires {a.id} and {b.id} {fault}"


def _meeting(p: _Piece, q: _Piece) -> str:
    """What is wrong where two stretches of different nets meet; "" if nothing."""
    flat = (*p[0], *p[1]), (*q[0], *q[1])
    if not _touch(*flat):
        return ""
    left, top = _common(*flat)[:2]
    spot = f"({left:g}, {top:g})"
    if (p[0][1] == p[1][1]) == (q[0][1] == q[1][1]):
        return f"overlap at {spot}"
    if (left, top) in (*p, *q):
        return f"touch at {spot}"
    return ""


def _label_faults(layout: Layout) -> Iterator[str]:
    for wire in layout.wires:
        if wire.label is None:
            continue
        x, y, width, height = wire.label
        rect = (x, y, x + width, y + height)
        for box in layout.boxes:
            if box.parent == wire.parent and _overlap(rect, _rect(box)):
                yield f"the label of wire {wire.id} lies on box {box.id}"
        for other in layout.wires:
            if any(_overlap(rect, (*a, *b)) for a, b in pieces(other)):
                yield f"the label of wire {wire.id} lies on wire {other.id}"
