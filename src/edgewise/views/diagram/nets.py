"""Threads: the nets of a picture, and the scene that they make with its elements."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace
from typing import TypeAlias

from edgewise.views.diagram.elements import OPEN_TITLE, Element, Pin, small
from edgewise.views.drawing import theme
from edgewise.views.layout.graph import (
    Box,
    Direction,
    Graph,
    Layout,
    PlacedBox,
    PlacedPort,
    PlacedWire,
    Point,
    Port,
    Wire,
)


@dataclass(frozen=True, slots=True)
class Thread:
    """A net as it is drawn: from one pin to others of the same room."""

    id: str
    source: str
    targets: tuple[str, ...]
    kind: str = ""
    """``carry``, ``control``, ``clock``, or nothing."""


Line: TypeAlias = tuple[Point, ...]


@dataclass(frozen=True, slots=True)
class Loop:
    """Elements that the layout sees as one, with the wires between them.

    Parameters
    ----------
    whole : Element
        Its pins are those of the members, at the height of each; wires go on to the members.
    members : tuple of (Element, Point)
        Each with its top left corner in `whole`.
    threads : tuple of (Thread, Line)
    """

    whole: Element
    members: tuple[tuple[Element, Point], ...]
    threads: tuple[tuple[Thread, Line], ...]


@dataclass(frozen=True, slots=True)
class Scene:
    """Elements and threads.

    Examples
    --------
    >>> store = Element("C", "storage", pins=(Pin("C.d", "d", (4,)), Pin("C.q", "q", (4,))))
    >>> sorted(Scene((store,), (Thread("C.q~", "C.q", ("C.d",)),)).pins)
    ['C.d', 'C.q']
    """

    elements: tuple[Element, ...]
    threads: tuple[Thread, ...]
    direction: Direction = "right"
    words: tuple[tuple[str, tuple[int, ...]], ...] = ()
    """Words whose values stand below a folded figure: names and net numbers, LSB first."""
    labels: Mapping[str, str] = field(default_factory=dict)
    """Texts beside wires, by the id of their thread."""
    fixed: Layout | None = None
    """Its places, where they need no search."""
    tight: bool = False
    """Whether little room is left between the elements."""
    loop: Loop | None = None
    """Its members and threads are among the elements and threads, too."""
    under: tuple[str, ...] = ()
    """Elements that stand under the figure, one below the other: parts with their insides."""

    def labelled(self, labels: Mapping[str, str]) -> Scene:
        """The same scene with texts beside some wires."""
        return replace(self, labels=labels)

    def walk(self) -> Iterator[Element]:
        """Every element, those inside others after them."""
        waiting = list(reversed(self.elements))
        while waiting:
            element = waiting.pop()
            yield element
            waiting.extend(reversed(element.inside))

    @property
    def pins(self) -> dict[str, Pin]:
        """Every pin by its id."""
        return {pin.id: pin for element in self.walk() for pin in element.pins}

    def graph(self) -> Graph:
        """Boxes and wires for the layout."""
        elements, threads = self._figure()
        if self.loop:
            members = {element.id for element, _ in self.loop.members}
            inner = {thread.id for thread, _ in self.loop.threads}
            elements = (*(e for e in elements if e.id not in members), self.loop.whole)
            threads = tuple(thread for thread in threads if thread.id not in inner)
        return Graph(tuple(map(_box, elements)), tuple(map(self._wire, threads)), self.tight)

    def _figure(self) -> tuple[tuple[Element, ...], tuple[Thread, ...]]:
        """What does not stand under the figure."""
        kept = tuple(element for element in self.elements if element.id not in self.under)
        if len(kept) == len(self.elements):
            return self.elements, self.threads
        known = {pin.id for element in kept for pin in element.pins}
        return kept, tuple(thread for thread in self.threads if thread.source in known)

    def insides(self) -> list[Graph]:
        """Boxes and wires of each part that stands under the figure."""
        graphs = []
        for name in self.under:
            holder = next(element for element in self.elements if element.id == name)
            known = {pin.id for element in Scene((holder,), ()).walk() for pin in element.pins}
            wires = tuple(self._wire(t) for t in self.threads if t.source in known)
            graphs.append(Graph((_box(holder),), wires, self.tight))
        return graphs

    def placed(self, layout: Layout) -> Layout:
        """The layout of `graph` with the members of the loop in place of the whole."""
        if self.loop is None:
            return layout
        whole = layout.box(self.loop.whole.id)
        boxes = [box for box in layout.boxes if box is not whole]
        ports = {port.id: port for port in layout.ports}
        for element, (x, y) in self.loop.members:
            left, top = whole.x + x, whole.y + y
            boxes.append(PlacedBox(element.id, left, top, element.width, element.height))
            for pin in element.pins:
                across = {"left": 0.0, "right": element.width}.get(pin.side, pin.at)
                below = {"top": 0.0, "bottom": element.height}.get(pin.side, pin.at)
                spot = left + across, top + below
                ports[pin.id] = PlacedPort(pin.id, *spot, pin.side, element.id)
        moved = {
            (port.x, port.y): (ports[port.id].x, ports[port.id].y)
            for port in layout.ports
            if port.box == whole.id
        }
        wires = [_carried_on(wire, moved) for wire in layout.wires]
        for thread, line in self.loop.threads:
            path = tuple((whole.x + x, whole.y + y) for x, y in line)
            ends = thread.source, thread.targets, thread.kind
            wires.append(PlacedWire(thread.id, *ends, None, (path,)))
        order = {element.id: place for place, element in enumerate(self.walk())}
        boxes.sort(key=lambda box: order[box.id])
        return replace(layout, boxes=tuple(boxes), ports=tuple(ports.values()), wires=tuple(wires))

    def _wire(self, thread: Thread) -> Wire:
        text = self.labels.get(thread.id)
        room = (small(text) + 4, theme.SIZE_SMALL + 4) if text else None
        return Wire(thread.id, thread.source, thread.targets, thread.kind, room)


def _carried_on(wire: PlacedWire, moved: Mapping[Point, Point]) -> PlacedWire:
    """The wire with its ends where the pins of the loop's members are."""
    lines = tuple(tuple(moved.get(point, point) for point in line) for line in wire.lines)
    return replace(wire, lines=lines)


def _box(element: Element) -> Box:
    return Box(
        element.id,
        element.width,
        element.height,
        tuple(Port(pin.id, pin.side, pin.at) for pin in element.pins),
        element.seed,
        tuple(map(_box, element.inside)),
        padding=12.0,
        title_room=OPEN_TITLE if element.inside else 0.0,
        hangs_on=element.hangs_on,
        stem=element.stem,
    )
