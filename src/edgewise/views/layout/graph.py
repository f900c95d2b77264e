"""Boxes, ports and wires: what a picture is made of, before and after it has places.

Lengths are px, x grows to the right and y downwards. `Graph` is the question (sizes and
connections), `Layout` the answer (places and routes). Both are plain values: no engine,
no drawing, no bits. `check` refuses a graph that can't be laid out.
"""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from math import inf
from typing import Final, Literal, TypeAlias

from edgewise.errors import EdgewiseError, Message, nearest, raise_all
from edgewise.listing import both

Side: TypeAlias = Literal["left", "right", "top", "bottom"]
"""A side of a box, as it is seen on the page (never relative to the flow)."""

Direction: TypeAlias = Literal["right", "left", "down"]
"""Where the signals flow to: `left` is for carry chains, `down` for prefix graphs."""

Point: TypeAlias = tuple[float, float]
"""(x, y) in px."""

GRID: Final = 0.5
"""Every number in a `Layout` is a multiple of this many px."""


@dataclass(frozen=True, slots=True)
class Port:
    """A place on a box's border where a wire may end.

    Examples
    --------
    >>> Port("FA.sum", "right", 24)
    Port(id='FA.sum', side='right', at=24)
    """

    id: str
    """Unique in the whole graph."""
    side: Side
    at: float = 0.0
    """Px from the top of a left or right side, from the left of a top or bottom side. On
    a container it says only the order along the side: the layout finds the place."""


@dataclass(frozen=True, slots=True)
class Box:
    """A rectangle with ports; with `children`, a container drawn around them.

    Examples
    --------
    An output pin that stands 20 px under the sum of the first slice of a ripple adder:

    >>> pin = Box("sum(0)", 30, 20, (Port("sum(0).in", "top", 15),), hangs_on="FA(0).sum")
    >>> pin.stem
    20.0
    """

    id: str
    width: float
    height: float
    """A container's width and height are the least it may have."""
    ports: tuple[Port, ...] = ()
    seed: tuple[int, int] | None = None
    """(column, row). Columns count along the flow, rows downwards. Siblings are seeded
    all or none; a seeded figure keeps its order when its sizes change."""
    children: tuple[Box, ...] = ()
    padding: float = 16.0
    """Container only: px free inside the border."""
    title_room: float = 0.0
    """Container only: px more at the top, for its name."""
    hangs_on: str | None = None
    """Id of another box's port. This box has one port; it is glued straight in front of
    that one, and the only wire at either joins the two."""
    stem: float = 20.0
    """Length of the wire to `hangs_on`."""


@dataclass(frozen=True, slots=True)
class Wire:
    """A net: one driver, one or more sinks.

    Its ports lie in one room: on boxes with the same parent, or on that parent's own
    border. A net that enters a container is two wires that meet at a port of its border.

    Examples
    --------
    >>> Wire("carry", "FA.carry-out", ("C.d", "lamp.in"), kind="carry").targets
    ('C.d', 'lamp.in')
    """

    id: str
    source: str
    targets: tuple[str, ...]
    kind: str = ""
    """Handed through to the layout; means nothing here."""
    label: tuple[float, float] | None = None
    """Width and height of a text to be placed beside the wire's start."""


@dataclass(frozen=True, slots=True)
class Graph:
    """Boxes and the wires between them: all that a layout depends on.

    Examples
    --------
    >>> store = Box("C", 60, 40, (Port("C.d", "left", 20), Port("C.q", "right", 20)))
    >>> graph = Graph((store,), (Wire("keep", "C.q", ("C.d",)),))
    >>> [box.id for box, parent in graph.walk()]
    ['C']
    """

    boxes: tuple[Box, ...]
    wires: tuple[Wire, ...] = ()
    tight: bool = False
    """Whether to leave little room between columns."""

    def walk(self) -> Iterator[tuple[Box, Box | None]]:
        """Every box with its parent, parents first, otherwise in the given order."""
        waiting: list[tuple[Box, Box | None]] = [(box, None) for box in reversed(self.boxes)]
        while waiting:
            box, parent = waiting.pop()
            yield box, parent
            waiting.extend((child, box) for child in reversed(box.children))


@dataclass(frozen=True, slots=True)
class PlacedBox:
    """Where a box came to stand; `x`, `y` is its top left corner on the page."""

    id: str
    x: float
    y: float
    width: float
    height: float
    parent: str | None = None
    """Id of the container that it stands in."""


@dataclass(frozen=True, slots=True)
class PlacedPort:
    """Where a port came to lie on the page."""

    id: str
    x: float
    y: float
    side: Side
    box: str
    """Id of the box that it belongs to."""


@dataclass(frozen=True, slots=True)
class PlacedWire:
    """A routed net: a tree of horizontal and vertical lines, each stretch drawn once.

    The first line runs from the source to the last target that it reaches; every further
    one starts on a line before it, at a dot, and runs to a target.
    """

    id: str
    source: str
    targets: tuple[str, ...]
    kind: str
    parent: str | None
    """Id of the container that it runs in."""
    lines: tuple[tuple[Point, ...], ...]
    dots: tuple[Point, ...] = ()
    """Where three or more stretches of this net meet: the junction dots."""
    label: tuple[float, float, float, float] | None = None
    """x, y, width and height of the room kept for its text."""


@dataclass(frozen=True, slots=True)
class Layout:
    """Places for every box, port and wire of a graph, in the order of that graph.

    Examples
    --------
    >>> layout = Layout(80, 60, (PlacedBox("C", 10, 10, 60, 40),), (), ())
    >>> layout.box("C").width
    60
    """

    width: float
    height: float
    boxes: tuple[PlacedBox, ...]
    ports: tuple[PlacedPort, ...]
    wires: tuple[PlacedWire, ...]

    def box(self, name: str) -> PlacedBox:
        """The box with this id; KeyError if there is none."""
        return {each.id: each for each in self.boxes}[name]

    def port(self, name: str) -> PlacedPort:
        """The port with this id; KeyError if there is none."""
        return {each.id: each for each in self.ports}[name]

    def wire(self, name: str) -> PlacedWire:
        """The wire with this id; KeyError if there is none."""
        return {each.id: each for each in self.wires}[name]


def stacked(layouts: Sequence[Layout]) -> Layout:
    """Layouts one below the other, as one.

    Examples
    --------
    >>> layout = Layout(80, 60, (PlacedBox("C", 10, 10, 60, 40),), (), ())
    >>> other = Layout(90, 20, (PlacedBox("D", 5, 5, 9, 9),), (), ())
    >>> both = stacked([layout, other])
    >>> both.width, both.height, both.box("D").y
    (90, 80.0, 65.0)
    """
    if len(layouts) == 1:
        return layouts[0]
    boxes: list[PlacedBox] = []
    ports: list[PlacedPort] = []
    wires: list[PlacedWire] = []
    down = 0.0
    for layout in layouts:
        boxes += (replace(box, y=box.y + down) for box in layout.boxes)
        ports += (replace(port, y=port.y + down) for port in layout.ports)
        wires += (_lowered(wire, down) for wire in layout.wires)
        down += layout.height
    width = max(layout.width for layout in layouts)
    return Layout(width, down, tuple(boxes), tuple(ports), tuple(wires))


def _lowered(wire: PlacedWire, by: float) -> PlacedWire:
    label = wire.label and (wire.label[0], wire.label[1] + by, *wire.label[2:])
    lines = tuple(tuple((x, y + by) for x, y in line) for line in wire.lines)
    dots = tuple((x, y + by) for x, y in wire.dots)
    return replace(wire, lines=lines, dots=dots, label=label)


def rooms(graph: Graph) -> dict[str, str | None]:
    """For every wire its room: the id of the container that it runs in, None for the page.

    A wire between two ports of one container could run inside or outside; it runs where
    no other wire uses these ports. The graph must be checked.

    Examples
    --------
    >>> port = Port("core.d", "left"), Port("core.q", "right")
    >>> gate = Box("buffer", 40, 40, (Port("buffer.a", "left"), Port("buffer.z", "right")))
    >>> core = Box("core", 0, 0, port, children=(gate,))
    >>> inside = Wire("d", "core.d", ("buffer.a",)), Wire("q", "buffer.z", ("core.q",))
    >>> rooms(Graph((core,), (*inside, Wire("keep", "core.q", ("core.d",)))))
    {'d': 'core', 'q': 'core', 'keep': None}
    """
    reach = _reach(graph)
    choice = {wire.id: _common_rooms(wire, reach) for wire in graph.wires}
    taken = {
        (port, room)
        for wire in graph.wires
        if len(choice[wire.id]) == 1
        for room in choice[wire.id]
        for port in _ends(wire)
    }

    def crowded(wire: Wire, room: str | None) -> bool:
        return any((port, room) in taken for port in _ends(wire))

    return {
        wire.id: min(choice[wire.id], key=lambda room: (crowded(wire, room), room or ""))
        for wire in graph.wires
    }


def check(graph: Graph) -> None:
    """Refuse what can't be laid out.

    Raises
    ------
    EdgewiseError
        An id is there twice or unknown, a size is negative, a port lies off its box, a
        wire ends nowhere or leaves its room, siblings are seeded in part, or a box hangs
        where it can't. All that was found is reported.

    Examples
    --------
    >>> check(Graph((Box("C", 60, -40),)))
    Traceback (most recent call last):
    edgewise.errors.EdgewiseError: the height of box C is -40; it must be a number from 0 up
    """
    raise_all(map(EdgewiseError, _twice(graph)))
    raise_all(map(EdgewiseError, (*_wrong_sizes(graph), *_wrong_seeds(graph))))
    raise_all(map(EdgewiseError, (*_wrong_wires(graph), *_wrong_hangers(graph))))
    raise_all(map(EdgewiseError, _shared_ports(graph)))


def _ends(wire: Wire) -> tuple[str, ...]:
    return (wire.source, *wire.targets)


def _reach(graph: Graph) -> dict[str, tuple[str | None, ...]]:
    """For every port the rooms from which it can be wired."""
    return {
        port.id: (parent.id if parent else None, *((box.id,) if box.children else ()))
        for box, parent in graph.walk()
        for port in box.ports
    }


def _common_rooms(wire: Wire, reach: dict[str, tuple[str | None, ...]]) -> set[str | None]:
    return set[str | None].intersection(*(set(reach[port]) for port in _ends(wire)))


def _twice(graph: Graph) -> Iterator[Message]:
    boxes = [box for box, _ in graph.walk()]
    names = {
        "boxes": [box.id for box in boxes],
        "ports": [port.id for box in boxes for port in box.ports],
        "wires": [wire.id for wire in graph.wires],
    }
    for things, ids in names.items():
        for name, count in Counter(ids).items():
            if count > 1:
                yield Message("graph-twice", count=count, kind=things, name=name)


def _wrong_sizes(graph: Graph) -> Iterator[Message]:
    for box, _ in graph.walk():
        lengths = {"width": box.width, "height": box.height, "padding": box.padding}
        lengths |= {"title room": box.title_room, "stem": box.stem}
        for name, length in lengths.items():
            if not 0 <= length < inf:
                yield Message("graph-size", size=name, box=box.id, found=str(length))
        for port in box.ports:
            side = box.height if port.side in ("left", "right") else box.width
            # A container's ports are put in order only; it has no sides yet.
            if not 0 <= port.at <= (inf if box.children else max(side, 0)):
                yield Message(
                    "graph-port-outside",
                    port=port.id,
                    found=str(port.at),
                    side=port.side,
                    box=box.id,
                    length=str(side),
                )
    for wire in graph.wires:
        if wire.label and not all(0 <= length < inf for length in wire.label):
            yield Message("graph-label", wire=wire.id, found=str(wire.label))


def _wrong_seeds(graph: Graph) -> Iterator[Message]:
    siblings: defaultdict[str, list[Box]] = defaultdict(list)
    for box, parent in graph.walk():
        if box.hangs_on is None:
            siblings[parent.id if parent else ""].append(box)
    for where, boxes in siblings.items():
        bare = [box.id for box in boxes if box.seed is None]
        if 0 < len(bare) < len(boxes):
            yield Message(
                "graph-seeds-some",
                where="box" if where else "page",
                box=where,
                boxes=", ".join(bare),
            )
        for seed, count in Counter(box.seed for box in boxes if box.seed).items():
            if count > 1:
                same = both(box.id for box in boxes if box.seed == seed)
                yield Message("graph-seeds-same", boxes=same, seed=str(seed))


def _wrong_wires(graph: Graph) -> Iterator[Message]:
    reach = _reach(graph)
    for wire in graph.wires:
        ends = _ends(wire)
        strangers = [port for port in ends if port not in reach]
        for port in strangers:
            yield Message(
                "graph-wire-stranger", wire=wire.id, port=port, suggestion=nearest(port, reach)
            )
        if not wire.targets:
            yield Message("graph-wire-open", wire=wire.id)
        if len(set(ends)) < len(ends):
            yield Message("graph-wire-twice", wire=wire.id, ports=", ".join(ends))
        elif not strangers and not _common_rooms(wire, reach):
            yield Message("graph-wire-rooms", wire=wire.id, ports=", ".join(ends))


def _shared_ports(graph: Graph) -> Iterator[Message]:
    used: defaultdict[tuple[str, str | None], list[str]] = defaultdict(list)
    room = rooms(graph)
    for wire in graph.wires:
        for port in _ends(wire):
            used[port, room[wire.id]].append(wire.id)
    for (port, _), wires in used.items():
        if len(wires) > 1:
            yield Message("graph-wires-meet", wires=both(wires), port=port)


def _wrong_hangers(graph: Graph) -> Iterator[Message]:
    owner = {port.id: (box, parent) for box, parent in graph.walk() for port in box.ports}
    sides = {port.id: port.side for box, _ in graph.walk() for port in box.ports}
    facing = {"left": "right", "right": "left", "top": "bottom", "bottom": "top"}
    at: defaultdict[str, list[tuple[str, ...]]] = defaultdict(list)
    for wire in graph.wires:
        for port in _ends(wire):
            at[port].append(_ends(wire))
    for box, parent in graph.walk():
        if box.hangs_on is None:
            continue
        facts = {"box": box.id, "port": box.hangs_on}
        host = owner.get(box.hangs_on)
        if host is None:
            known = nearest(box.hangs_on, owner)
            yield Message("graph-hangs-stranger", **facts, suggestion=known)
        elif host[0].hangs_on or host[0].children or box.children or host[1] is not parent:
            yield Message("graph-hangs-rooms", **facts)
        elif len(box.ports) != 1 or box.ports[0].side != facing[sides[box.hangs_on]]:
            yield Message("graph-hangs-side", **facts, side=facing[sides[box.hangs_on]])
        else:
            pair = {box.ports[0].id, box.hangs_on}
            if any(set(ends) != pair for port in pair for ends in at[port]):
                yield Message("graph-hangs-wires", **facts)
