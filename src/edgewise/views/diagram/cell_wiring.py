"""Wiring: the wires of a row of cells, as they are laid one by one."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass, field, replace
from typing import Final

from edgewise.views.diagram.cell_row import CellRow
from edgewise.views.diagram.elements import Element, Pin
from edgewise.views.diagram.nets import Scene, Thread
from edgewise.views.diagram.placement import Line, Placement
from edgewise.views.layout.graph import Direction, Point

GAP: Final = 16.0
"""Between a row and what stands over or under it."""
APART: Final = 32.0
"""Between what stands side by side."""


@dataclass(slots=True)
class Wiring:
    """A scene, the row of cells that it is, and what of it has its place."""

    scene: Scene
    row: CellRow
    placement: Placement = field(default_factory=Placement)
    home: dict[str, Element] = field(init=False)
    pins: dict[str, Pin] = field(init=False)
    source: dict[str, str] = field(default_factory=dict)
    kinds: dict[str, str] = field(default_factory=dict)
    """Of every source."""
    targets: dict[str, tuple[str, ...]] = field(default_factory=dict)
    routes: defaultdict[str, list[tuple[str, Line]]] = field(
        default_factory=lambda: defaultdict(list)
    )
    """Of every source: its targets with the lines to them, each but the first from one before."""
    done: set[str] = field(default_factory=set)
    """Targets that have a wire."""
    pitch: float = 0.0
    low: float = 0.0
    """Where the adders end."""
    top: float = -GAP
    """Above this, the bits that come down to the cells."""

    def __post_init__(self) -> None:
        self.pins = self.scene.pins
        self.home = {pin.id: element for element in self.scene.elements for pin in element.pins}
        flag = {pin.id for pin in self.row.flag.pins} if self.row.flag else set[str]()
        for thread in self.scene.threads:
            self.kinds[thread.source] = thread.kind
            self.targets[thread.source] = tuple(e for e in thread.targets if e not in flag)
            self.source |= dict.fromkeys(thread.targets, thread.source)

    def scene_with_layout(self) -> Scene:
        """The scene on the page."""
        for source, ends in self.routes.items():
            kind = self.kinds.get(source) or self.kinds.get(source.partition("!")[0], "")
            thread = Thread(f"{source}~", source, tuple(end for end, _ in ends), kind)
            self.placement.join(thread, [line for _, line in ends])
        return self.placement.scene(self.flow)

    @property
    def flow(self) -> Direction:
        """Where the signals flow to."""
        if self.row.below is not None:
            return "down"
        carries = any(link.source.endswith("carry-out") for link in self.row.links)
        return "left" if carries else "right"

    def x(self, place: int) -> float:
        """The middle of a column."""
        return -self.pitch * place

    def route(self, source: str, target: str, *points: Point) -> None:
        """A wire to a target, its end last; from the source or from a line before."""
        self.routes[source].append((target, points))
        self.done.add(target.partition("!")[0])

    def spot(self, pin: str) -> Point:
        """Where a pin lies."""
        return self.placement.spots[pin]

    def placed(self, pin: str) -> Pin:
        """A pin as it was put down, with its side."""
        return next(one for e in self.placement.elements for one in e.pins if one.id == pin)

    def add(self, ident: str, pin: Pin) -> None:
        """One more pin of an element that has its place."""
        for i, element in enumerate(self.placement.elements):
            if element.id == ident:
                self.placement.elements[i] = replace(element, pins=(*element.pins, pin))
                x, y = self.placement.corners[ident]
                self.placement.spots[pin.id] = x + pin.at, y + element.height

    def is_common(self, source: str) -> bool:
        """Whether one bit goes to many gates."""
        return not self.pins[source].bus and len(self.targets[source]) > 1
