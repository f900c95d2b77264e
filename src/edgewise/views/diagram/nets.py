"""Threads: the nets of a picture, and the scene that they make with its elements."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace

from edgewise.views.diagram.elements import OPEN_TITLE, Element, Pin, small
from edgewise.views.drawing import theme
from edgewise.views.layout.graph import Box, Direction, Graph, Layout, Port, Wire


@dataclass(frozen=True, slots=True)
class Thread:
    """A net as it is drawn: from one pin to others of the same room."""

    id: str
    source: str
    targets: tuple[str, ...]
    kind: str = ""
    """``carry``, ``control``, ``clock``, or nothing."""


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
        return Graph(
            tuple(map(_box, self.elements)),
            tuple(map(self._wire, self.threads)),
        )

    def _wire(self, thread: Thread) -> Wire:
        text = self.labels.get(thread.id)
        room = (small(text) + 4, theme.SIZE_SMALL + 4) if text else None
        return Wire(thread.id, thread.source, thread.targets, thread.kind, room)


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
