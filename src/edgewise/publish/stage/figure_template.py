"""The block diagram without its values, and where they go: for pages that draw them.

The SVG has every outline and text once. A stroke that depends on a bit stands in a group of
class ``net`` whose ``data-name`` is its place in `Skeleton.nets`; the cells of a word are to
be drawn into the group of class ``word`` whose ``data-name`` is its place in
`Skeleton.words`.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field, replace
from math import ceil
from typing import TYPE_CHECKING, Any, Final

from edgewise.bits import Word
from edgewise.trace import Trace
from edgewise.views.diagram import wire_strokes
from edgewise.views.diagram.elements import STORES
from edgewise.views.diagram.face import face
from edgewise.views.diagram.options import manner as manner_of
from edgewise.views.diagram.part_drawing import Shown
from edgewise.views.diagram.picture import Picture
from edgewise.views.diagram.pointer import spots
from edgewise.views.diagram.wire_strokes import Stroke
from edgewise.views.drawing import theme
from edgewise.views.drawing.shapes import (
    Circle,
    Group,
    Item,
    Line,
    Path,
    Point,
    line_data,
)
from edgewise.views.drawing.svg import Drawing, svg
from edgewise.views.text import alt_text
from edgewise.words.messages import ENGLISH, Words

if TYPE_CHECKING:
    from edgewise.views.diagram.elements import Element, Pin
    from edgewise.views.diagram.options import Clock, Manner
    from edgewise.views.drawing.gate_symbols import Style
    from edgewise.views.layout.graph import PlacedWire

_MARK: Final = "net:"
"""Begins the colour of a stroke that depends on a bit; the number of the net follows."""
_NAMESPACE: Final = ' xmlns="http://www.w3.org/2000/svg"'
_DATA: Final = ("d", "in", "left-in")
"""Ports through which a storage element takes what it stores."""


@dataclass(slots=True)
class Skeleton:
    """A figure and the places of its values.

    Parameters
    ----------
    width, height : float
        Px.
    svg : str
    nets : list
        Kind (``carry``, ``control``, ``clock`` or nothing) and net numbers of each stroke.
    words : list
        Name, net numbers (LSB first), width, height and size of the digit of a cell.
    spots : mapping
        Where the tip of a pointer at a name is.
    ways : list
        Net numbers, path data, a net of the storage element at its end, and the port at which it
        ends: the ways that bits can go at an edge.
    """

    width: float = 0.0
    height: float = 0.0
    svg: str = ""
    nets: list[tuple[str, tuple[int, ...]]] = field(default_factory=list)
    words: list[tuple[str, tuple[int, ...], float, float, float]] = field(default_factory=list)
    ways: list[tuple[tuple[int, ...], str, int, str]] = field(default_factory=list)
    spots: dict[str, Point] = field(default_factory=dict)

    def data(self) -> dict[str, Any]:
        """As plain lists."""
        return {
            "width": self.width,
            "height": self.height,
            "svg": self.svg,
            "nets": [[kind, list(nets)] for kind, nets in self.nets],
            "words": [[name, list(nets), *size] for name, nets, *size in self.words],
            "ways": [[list(nets), *way] for nets, *way in self.ways],
            **(
                {"spots": {name: list(at) for name, at in self.spots.items()}} if self.spots else {}
            ),
        }


def skeleton(  # noqa: PLR0913  # the way to draw, each by its name
    trace: Trace,
    *,
    opened: Iterable[str] = (),
    clock: Clock = "wedge",
    symbols: Style = "distinctive",
    points: Sequence[str] = (),
    words: Words = ENGLISH,
    room: float | None = None,
) -> Skeleton:
    """The skeleton of a design's block diagram; of `trace` only the design matters.

    Steps point at `points`. With `room`, in the first manner of drawing that is no wider, or in
    the narrowest.

    Examples
    --------
    >>> from edgewise import catalogue, run
    >>> made = skeleton(run(catalogue.design("serial-adder", n=4), a=6, b=3))
    >>> [name for name, *_ in made.words]
    ['shift', 'a_in', 'b_in', 'A', 'B', 'C', 'S', 'shift', 'shift']
    >>> sorted({kind for kind, _ in made.nets})
    ['', 'carry', 'control']
    """
    manner = manner_of(trace.design.circuit, opened, clock, symbols)
    picture = Picture(trace, manner, words=words).fitted(room)
    made = _Making(picture).made()
    made.spots = spots(picture, points)
    return made


@dataclass(slots=True)
class _Making:
    picture: Picture
    into: Skeleton = field(default_factory=Skeleton)
    kinds: dict[str, str] = field(default_factory=dict)
    pins: dict[str, Pin] = field(default_factory=dict)
    places: dict[str, Point] = field(default_factory=dict)
    owners: dict[str, Element] = field(default_factory=dict)

    def made(self) -> Skeleton:
        scene, layout = self.picture.scene, self.picture.layout
        self.pins = scene.pins
        for element in scene.walk():
            self.owners |= {pin.id: element for pin in element.pins}
        for thread in scene.threads:
            for end in (thread.source, *thread.targets):
                self.kinds[end] = self.kinds.get(end) or thread.kind
        self.places = {port.id: (port.x, port.y) for port in layout.ports}
        width, height = self.picture.size
        items = tuple(self._items())
        words, subject = self.picture.words, self.picture.trace.design
        title = words("figure-diagram", subject=alt_text.title(subject, words))
        drawing = Drawing(ceil(width), ceil(height), title, "", items, theme.NONE)
        self.into.width, self.into.height = drawing.width, drawing.height
        # The page's script knows the namespace; here it would only be repeated for each size.
        self.into.svg = svg(drawing, prefix="figure").replace(_NAMESPACE, "", 1)
        return self.into

    def _items(self) -> Iterator[Item]:
        elements = {element.id: element for element in self.picture.scene.walk()}
        boxes = self.picture.layout.boxes
        yield from self.picture.grounds()
        for wire in self.picture.layout.wires:
            yield from self._wire(wire)
        shown = self._shown(self.picture.manner)
        for placed in boxes:
            element = elements[placed.id]
            items = tuple(self._valued(item, element) for item in face(element, shown))
            yield Group(items, "part", placed.id, placed.x, placed.y)

    def _shown(self, manner: Manner) -> Shown:
        def stroke(pin: Pin) -> Stroke:
            return Stroke(f"{_MARK}{self._net(self.kinds.get(pin.id, ''), pin.nets)}", theme.THIN)

        def word(nets: tuple[int, ...]) -> Word:
            return Word(len(nets))

        threads = self.picture.scene.threads
        slashed = frozenset(t.source for t in threads if self.pins[t.source].bus)
        return Shown(stroke, word, word, manner.style, slashed)

    def _net(self, kind: str, nets: tuple[int, ...]) -> int:
        """The place of a stroke's kind and nets in the list; noted if it is new."""
        noted = (kind, nets)
        if noted not in self.into.nets:
            self.into.nets.append(noted)
        return self.into.nets.index(noted)

    def _valued(self, item: Item, element: Element) -> Item:
        """The item, but what depends on a bit as an empty place for it."""
        if isinstance(item, Line) and item.stroke.startswith(_MARK):
            name = item.stroke.removeprefix(_MARK)
            return Group((replace(item, stroke=theme.INK),), "net", name)
        if isinstance(item, Group) and item.kind == "cells":
            size = element.cell
            self.into.words.append(
                (element.label or element.id, element.word, size.width, size.height, size.digit)
            )
            name = str(len(self.into.words) - 1)
            return Group((), "word", name, *element.cells)
        return item

    def _wire(self, wire: PlacedWire) -> Iterator[Item]:
        stretches = wire_strokes.stretches(wire, self.places.__getitem__)
        for stretch in stretches:
            nets = {net for target in stretch.targets for net in self.pins[target].nets}
            name = str(self._net(wire.kind, tuple(sorted(nets))))
            yield Group((Line(stretch.points, theme.INK, theme.THIN),), "net", name)
        marks: list[Item] = [Circle(x, y, theme.DOT, fill=theme.INK) for x, y in wire.dots]
        marks += [Path(data, fill=theme.INK) for data in self.picture.arrows(wire)]
        if marks:
            yield Group(tuple(marks), f"dots {wire.kind}".strip())
        for target in wire.targets:
            pin, owner = self.pins[target], self.owners[target]
            if owner.role not in STORES or pin.port not in _DATA:
                continue
            points: list[Point] = []
            for stretch in stretches:
                if target in stretch.targets:
                    points += [p for p in stretch.points if not points or p != points[-1]]
            path = line_data(tuple(points))
            store = owner.word or owner.inside[0].word
            self.into.ways.append((pin.nets, path, store[-1], pin.port))
