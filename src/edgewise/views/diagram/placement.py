"""Placement: a scene in places that were worked out, not searched for."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field, replace
from math import ceil
from typing import Final, TypeAlias

from edgewise.views.diagram.elements import Element, Mark
from edgewise.views.diagram.nets import Scene, Thread
from edgewise.views.layout.graph import (
    GRID,
    Direction,
    Layout,
    PlacedBox,
    PlacedPort,
    PlacedWire,
    Point,
)
from edgewise.views.layout.routing import dots, straight

Line: TypeAlias = tuple[Point, ...]
PAGE: Final = 12.0
"""Around everything."""


@dataclass(slots=True)
class Placement:
    """Elements and threads as they are put down, each where it belongs.

    Coordinates may begin anywhere; `scene` moves everything onto the page.

    Examples
    --------
    >>> from edgewise.views.diagram.elements import Pin
    >>> made = Placement()
    >>> d, q = Pin("C.d", "d", (4,)).put("top", 9), Pin("C.q", "q", (5,)).put("bottom", 9)
    >>> made.put(Element("C", "storage", width=18, height=30, pins=(d, q)), (-9, 0))
    >>> made.spots["C.d"], made.spots["C.q"]
    ((0, 0.0), (0, 30))
    >>> made.scene("down").fixed.box("C").x
    12.0
    """

    elements: list[Element] = field(default_factory=list)
    corners: dict[str, Point] = field(default_factory=dict)
    """Top left corner of every element."""
    spots: dict[str, Point] = field(default_factory=dict)
    """Of every pin."""
    inner: list[tuple[Element, str]] = field(default_factory=list)
    """Elements inside others, each with the id of the one around it."""
    threads: list[Thread] = field(default_factory=list)
    lines: dict[str, tuple[Line, ...]] = field(default_factory=dict)
    """Of every thread: the first from its source, every other from a line before it."""

    def put(self, element: Element, corner: Point) -> None:
        """An element, its top left corner there."""
        self.elements.append(element)
        self.corners[element.id] = x, y = corner
        for pin in element.pins:
            across = {"left": 0.0, "right": element.width}.get(pin.side, pin.at)
            below = {"top": 0.0, "bottom": element.height}.get(pin.side, pin.at)
            self.spots[pin.id] = x + across, y + below

    def put_inside(self, element: Element, around: str, corner: Point) -> None:
        """One of the elements inside another, its top left corner there."""
        self.inner.append((element, around))
        self.corners[element.id] = corner

    def put_at(self, element: Element, pin: str, spot: Point) -> None:
        """An element, one of its pins there; its width rounded up to the grid."""
        width = ceil(element.width / GRID) * GRID
        element = replace(element, width=width)
        self.put(element, (0.0, 0.0))
        self.elements.pop()
        x, y = self.spots[pin]
        self.put(element, (spot[0] - x, spot[1] - y))
        self.spots[pin] = spot  # exactly: its wire ends there

    def join(self, thread: Thread, lines: Iterable[Sequence[Point]]) -> None:
        """A thread along these lines."""
        self.threads.append(thread)
        self.lines[thread.id] = tuple(straight(line) for line in lines)

    def note(self, marks: Iterable[Mark]) -> None:
        """What stands at wires, each with the element that is nearest: they stay together."""
        for mark in marks:
            i = min(range(len(self.elements)), key=lambda i: self._away(self.elements[i], mark))
            element = self.elements[i]
            x, y = self.corners[element.id]
            own = replace(mark, x=mark.x - x, y=mark.y - y)
            self.elements[i] = replace(element, marks=(*element.marks, own))

    def _away(self, element: Element, mark: Mark) -> float:
        """How far a mark is from an element's box."""
        x, y = self.corners[element.id]
        across = max(x - mark.x, mark.x - x - element.width, 0.0)
        return across + max(y - mark.y, mark.y - y - element.height, 0.0)

    def scene(self, direction: Direction) -> Scene:
        """All of it on the page."""
        points = [point for lines in self.lines.values() for line in lines for point in line]
        points += self.corners.values()
        dx, dy = PAGE - min(x for x, _ in points), PAGE - min(y for _, y in points)
        every = [*((element, None) for element in self.elements), *self.inner]
        boxes = tuple(self._box(element, around, dx, dy) for element, around in every)
        ports = tuple(
            PlacedPort(
                pin.id, self.spots[pin.id][0] + dx, self.spots[pin.id][1] + dy, pin.side, e.id
            )
            for e in self.elements
            for pin in e.pins
        )
        wires = tuple(self._wire(thread, dx, dy) for thread in self.threads)
        ends = [point for wire in wires for line in wire.lines for point in line]
        ends += [(box.x + box.width, box.y + box.height) for box in boxes]
        layout = Layout(
            max(x for x, _ in ends) + PAGE, max(y for _, y in ends) + PAGE, boxes, ports, wires
        )
        return Scene(tuple(self.elements), tuple(self.threads), direction, fixed=layout)

    def _box(self, element: Element, around: str | None, dx: float, dy: float) -> PlacedBox:
        x, y = self.corners[element.id]
        return PlacedBox(element.id, x + dx, y + dy, element.width, element.height, around)

    def _wire(self, thread: Thread, dx: float, dy: float) -> PlacedWire:
        lines = tuple(tuple((x + dx, y + dy) for x, y in line) for line in self.lines[thread.id])
        return PlacedWire(
            thread.id, thread.source, thread.targets, thread.kind, None, lines, dots(lines)
        )
