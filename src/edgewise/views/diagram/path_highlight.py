"""Trail: the mark under the wires of a path, with the arrival time where each net begins.

A path runs through nets; those inside a part that is not opened are not drawn, so that there it
goes on at the part's output. The mark is pale and wide, under the wires, and hides no value.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise
from typing import Final

from edgewise.errors import EdgewiseError, Message, nearest, raise_all
from edgewise.views.diagram import wire_strokes
from edgewise.views.diagram.elements import Element, Pin
from edgewise.views.diagram.picture import Picture
from edgewise.views.drawing import text_metrics, theme
from edgewise.views.drawing.shapes import Group, Item, Line, Point, Rectangle, Text
from edgewise.words.messages import ENGLISH, Words

_INWARDS: Final = {"left": (1, 0), "right": (-1, 0), "top": (0, 1), "bottom": (0, -1)}
_OUTPUTS: Final = ("output", "bit")
_PASSING: Final = ("enter", "leave", "open")
"""Elements through which a net goes without a gate."""

Step = tuple[str, str]
"""A net or port, and the delay when it is reached."""


@dataclass(frozen=True)
class Trail:
    """A path in a picture.

    Parameters
    ----------
    picture : Picture
    path : sequence of (str, str)
        Nets from the start on, and at last the port in which the path ends; each with the
        arrival time, as it is to be written.

    Examples
    --------
    >>> from edgewise import catalogue, run
    >>> from edgewise.views.diagram.options import Manner
    >>> trace = run(catalogue.design("serial-adder", n=4), a=6, b=3)
    >>> path = [("B(0)", "4"), ("FA.carry-out", "8"), ("C.d", "12")]
    >>> trail = Trail(Picture(trace, Manner()), path)
    >>> [group.kind for group in trail.under()], [group.name for group in trail.figures()]
    (['path', 'path'], ['B(0)', 'FA.carry-out', 'C.d'])
    """

    picture: Picture
    path: Sequence[Step]

    def under(self) -> Iterator[Group]:
        """The mark under the wires, net by net."""
        for (name, _), passed in zip(self._nets, self._passed, strict=True):
            lines = tuple(self._lines(passed))
            if lines:
                yield Group(lines, "path", name)

    def figures(self) -> Iterator[Group]:
        """The arrival time beside the pin at which each net begins, and where the path ends."""
        for (name, at), passed in zip(self._nets, self._passed, strict=True):
            if passed:
                yield Group(tuple(self._figure(passed[0][0], at)), "delay", name)
        last = self._passed[-1] if self._passed else []
        if last and self.path[-1][1] != self._nets[-1][1]:
            name, at = self.path[-1]
            yield Group(tuple(self._figure(last[-1][1], at)), "delay", name)

    # ------------------------------------------------------------------ which wires

    @cached_property
    def _numbers(self) -> tuple[int, ...]:
        """The net of every station but the last, which is a port."""
        netlist = self.picture.trace.design.netlist
        found: list[int] = []
        errors: list[EdgewiseError] = []
        for name, _ in self.path[:-1]:
            try:
                nets = tuple(netlist.find(name))
            except EdgewiseError as wrong:
                errors += wrong.parts()
                continue
            if len(nets) != 1:
                errors.append(EdgewiseError(Message("path-of-words", name=name, count=len(nets))))
            found += nets[:1]
        raise_all(errors)
        return tuple(found)

    @cached_property
    def _nets(self) -> list[Step]:
        """The nets that are drawn, in the path's order."""
        steps = zip(self.path[:-1], self._numbers, strict=True)
        return [step for step, net in steps if self._sources(net)]

    @cached_property
    def _drawn(self) -> list[int]:
        return [net for net in self._numbers if self._sources(net)]

    @cached_property
    def _passed(self) -> list[list[tuple[str, str]]]:
        """For every drawn net the (source, target) pins between which it is marked."""
        drawn = self._drawn
        passed: list[list[tuple[str, str]]] = []
        for i, net in enumerate(drawn):
            if i + 1 < len(drawn):
                goals = {self._owners[pin].id for pin in self._sources(drawn[i + 1])}
            else:
                goals = self._end
            passed.append(self._way(net, goals))
        return passed

    @cached_property
    def _end(self) -> set[str]:
        """The elements in which the last name may be drawn: its own, those around it."""
        name = self.path[-1][0]
        names = {name, name.partition("(")[0]}
        while (inside := name.rpartition(".")[0]) and inside != name:
            names |= {inside, inside.partition("(")[0]}
            name = inside
        ends = {element.id for element in self._elements if element.id in names}
        exact = {one for one in ends if "(" in one}
        return exact or ends or {e.id for e in self._elements if e.role in _OUTPUTS}

    @cached_property
    def _elements(self) -> tuple[Element, ...]:
        return tuple(self.picture.scene.walk())

    @cached_property
    def _owners(self) -> dict[str, Element]:
        """The element of every pin."""
        return {pin.id: element for element in self._elements for pin in element.pins}

    @cached_property
    def _pins(self) -> dict[str, Pin]:
        return self.picture.scene.pins

    def _sources(self, net: int) -> list[str]:
        """The pins at which a net begins."""
        threads = self.picture.scene.threads
        ends = {target for thread in threads for target in thread.targets}
        found = [t.source for t in threads if net in self._pins[t.source].nets]
        passing = [s for s in found if s in ends or self._owners[s].role in _PASSING]
        return [source for source in found if source not in passing] or found[:1]

    def _way(self, net: int, goals: set[str]) -> list[tuple[str, str]]:
        """The pins of a net from its start to one of the goals; where folded, to the ellipsis."""
        for wanted in (goals, {e.id for e in self._elements if e.role == "ellipsis"}):
            for source in self._sources(net):
                way = self._onwards(source, net, wanted, frozenset())
                if way:
                    return way
        return []

    def _onwards(
        self, source: str, net: int, goals: set[str], seen: frozenset[str]
    ) -> list[tuple[str, str]]:
        for thread in self.picture.scene.threads:
            if thread.source != source:
                continue
            for target in thread.targets:
                if net not in self._pins[target].nets:
                    continue
                owner = self._owners[target]
                if owner.id in goals:
                    return [(source, target)]
                for after in self._through(owner, target, net):
                    if after not in seen:
                        way = self._onwards(after, net, goals, seen | {source})
                        if way:
                            return [(source, target), *way]
        return []

    def _through(self, owner: Element, target: str, net: int) -> Iterable[str]:
        """Where a net goes on behind the border of an opened part."""
        if owner.role not in _PASSING:
            return ()
        others = [pin.id for pin in owner.pins if net in pin.nets and owner.role != "open"]
        return (target, *others)

    # ------------------------------------------------------------------ how it is drawn

    @cached_property
    def _spots(self) -> dict[str, Point]:
        return {port.id: (port.x, port.y) for port in self.picture.layout.ports}

    def _lines(self, passed: Sequence[tuple[str, str]]) -> Iterator[Item]:
        wires = {wire.source: wire for wire in self.picture.layout.wires}
        for source, target in passed:
            for pin in (source, target):
                yield from self._stub(pin)
            for stretch in wire_strokes.stretches(wires[source], self._spots.__getitem__):
                if target in stretch.targets:
                    yield Line(stretch.points, theme.TRAIL, theme.TRAIL_WEIGHT, round=True)

    def _stub(self, name: str) -> Iterator[Item]:
        """The wire between the border of a box and the outline of its symbol."""
        pin = self._pins[name]
        if pin.stub:
            x, y = self._spots[name]
            dx, dy = _INWARDS[pin.side]
            end = (x + dx * pin.stub, y + dy * pin.stub)
            yield Line(((x, y), end), theme.TRAIL, theme.TRAIL_WEIGHT, round=True)

    def _figure(self, name: str, text: str) -> Iterator[Item]:
        """A small figure beside a pin, on a ground of its own."""
        pin = self._pins[name]
        x, y = self._spots[name]
        dx, dy = _INWARDS[pin.side]
        wide, high = text_metrics.width(text, theme.SIZE_SMALL) + 6, theme.SIZE_SMALL + 3
        beside = (wide if dy else high) / 2 + theme.TRAIL_WEIGHT / 2 + 1
        along = (wide if dx else high) / 2 + 2
        places: list[tuple[float, float]] = []
        for away in (along, along + 9, along + 18):
            for side in (1, -1):
                middle = x - dx * away + dy * beside * side, y - dy * away + dx * beside * side
                places.append((middle[0] - wide / 2, middle[1] - high / 2))
        left, top = min(places, key=lambda spot: self._crossings(spot, wide, high))
        yield Rectangle(left, top, wide, high, theme.TRAIL, radius=theme.RADIUS)
        base = top + high / 2 + theme.MIDDLE * theme.SIZE_SMALL
        yield Text(left + wide / 2, base, text, theme.SIZE_SMALL, anchor="middle")

    def _crossings(self, corner: Point, wide: float, high: float) -> int:
        """How many wires and boxes a rectangle would touch."""
        left, top = corner
        right, bottom = left + wide, top + high
        found = 0
        for x1, y1, x2, y2 in self._obstacles:
            found += left < x2 + 1 and x1 - 1 < right and top < y2 + 1 and y1 - 1 < bottom
        return found

    @cached_property
    def _obstacles(self) -> tuple[tuple[float, float, float, float], ...]:
        """Left, top, right, bottom of every piece of a wire and of every box."""
        layout = self.picture.layout
        opened = {element.id for element in self._elements if element.role == "open"}
        found = [
            (min(a[0], b[0]), min(a[1], b[1]), max(a[0], b[0]), max(a[1], b[1]))
            for wire in layout.wires
            for line in wire.lines
            for a, b in pairwise(line)
        ]
        found += [
            (box.x, box.y, box.x + box.width, box.y + box.height)
            for box in layout.boxes
            if box.id not in opened
        ]
        return tuple(found)


def trail(picture: Picture, path: Sequence[Step]) -> Trail:
    """A path in a picture, its end checked.

    Raises
    ------
    EdgewiseError or Problems
        A name that the design does not have, one of several bits, or a path without an end.
    """
    if len(path) < 2:
        raise EdgewiseError(Message("path-without-end"))
    design, end = picture.trace.design, path[-1][0]
    parts = [part.name for part in design.circuit.parts]
    known = {*design.netlist.names, *parts, *(gate.name for gate in design.netlist.gates)}
    stored = {flip_flop.name for flip_flop in design.netlist.flip_flops}
    if not {end, end.partition("(")[0], end.rpartition(".")[0]} & (known | stored):
        close = nearest(end, [*parts, *(one.name for one in design.circuit.outputs)])
        raise EdgewiseError(Message("path-end-unknown", name=end, suggestion=close))
    return Trail(picture, path)


def told(path: Sequence[Step], unit: str = "", words: Words = ENGLISH) -> str:
    """A path in words.

    Examples
    --------
    >>> told([("a(0)", "0"), ("c(1)", "4")], "gate delays")
    'The marked path: a(0) at 0, c(1) at 4 gate delays.'
    """
    stations = ", ".join(words("about-station", name=name, delay=at) for name, at in path)
    if unit:
        return words("about-path-in", stations=stations, unit=unit)
    return words("about-path", stations=stations)
