"""Picture: a scene in its places, drawn with the values of any row.

circuit -> scene -> layout -> items of a row
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from typing import Final

from edgewise.bits import Word
from edgewise.errors import EdgewiseError, Message, raise_all
from edgewise.trace import Trace
from edgewise.views.diagram import wire_label, wire_strokes
from edgewise.views.diagram.breaking import Break, broken, parted
from edgewise.views.diagram.elements import PORT_LABELS, Pin
from edgewise.views.diagram.face import face
from edgewise.views.diagram.nets import Scene
from edgewise.views.diagram.options import NARROWEST, Manner
from edgewise.views.diagram.part_drawing import Shown
from edgewise.views.diagram.scene import scene
from edgewise.views.diagram.wire_strokes import Stroke
from edgewise.views.drawing import text_metrics, theme
from edgewise.views.drawing.shapes import Circle, Group, Item, Line, Path, Rectangle, Text
from edgewise.views.layout.elk import lay_out, work
from edgewise.views.layout.graph import Layout, PlacedWire, Point, Side, stacked
from edgewise.views.text import alt_text
from edgewise.words.messages import ENGLISH, Words

HEADING: Final = 34.0
"""Room above the picture for what it shows."""
_SHOWN: Final = 6.0
"""How far the ground of a part reaches round it whose inside stands under the figure."""
_WORDS: Final = 24.0
"""Room below a folded picture for the values of its words."""
_WIRE_AT: Final = {"left": 0.0, "right": 1.0}
"""Where the wire of an input or output is, in shares of its width; else in the middle."""
_HELD: Final = 40.0
"""Px of wire from what stands at one part alone, at most, that are not cut."""
_WIDER: Final = 1.15
"""By how much more room is tried where there was too little."""


@dataclass(frozen=True)
class Picture:
    """A design in one manner of drawing; made once, drawn for as many rows as wanted.

    Examples
    --------
    >>> from edgewise import catalogue, run
    >>> trace = run(catalogue.design("serial-adder", n=4), a=6, b=3)
    >>> picture = Picture(trace, Manner())
    >>> picture.size[0] > 600
    True
    """

    trace: Trace
    manner: Manner
    names: tuple[str, ...] = ()
    """Nets whose names stand beside their wires."""
    words: Words = ENGLISH
    room: float | None = None
    """Px that it may be wide; what is wider is broken into panels, if that can be."""

    @cached_property
    def scene(self) -> Scene:
        """What is drawn, without places or values."""
        design = self.trace.design
        made = scene(design.circuit, design.netlist.names, self.manner)
        return made.labelled(self._labels(made))

    @cached_property
    def layout(self) -> Layout:
        """Where it is."""
        scene = self.scene
        figure = scene.fixed or scene.placed(lay_out(scene.graph(), scene.direction))
        return stacked([figure, *(lay_out(inside, "right") for inside in scene.insides())])

    @property
    def has_buses(self) -> bool:
        """Whether a wire has the slash of a bus."""
        if any(mark.kind != "bits" for one in self.scene.elements for mark in one.marks):
            return True
        pins = self.scene.pins
        sources = (pins[thread.source] for thread in self.scene.threads)
        return any(pin.bus and pin.stub and pin.side in ("left", "right") for pin in sources)

    @property
    def shortened(self) -> tuple[tuple[str, str], ...]:
        """What ports stand for whose names are shortened in it, and what is written there."""
        elements = self.scene.elements
        every = (*elements, *(one for element in elements for one in element.inside))
        shown = {(pin.port, pin.label) for element in every for pin in element.pins}
        written = {"carry": "", "sum": ""}
        for port, label in PORT_LABELS.items():
            if (port, label) in shown:
                what = port.partition("-")[0]
                written[what] += f", {label}" if written[what] else label
        return tuple((what, labels) for what, labels in written.items() if labels)

    def fitted(self, room: float | None, *, breaks: bool = False) -> Picture:
        """The picture in the first manner that is narrow enough, or in the narrowest.

        With `breaks` what is too wide even so is broken into panels, the lowest way there is.
        """
        if room is None:
            return self
        whole: list[Picture] = []
        for narrow in range(NARROWEST + 1):
            one = replace(self, manner=replace(self.manner, narrow=narrow))
            if whole and one.scene == whole[-1].scene:
                continue  # few scenes have more than two manners
            if one.size[0] <= room:
                return one
            whole.append(one)
        narrowest = min(whole, key=lambda one: one.size[0])
        if not breaks:
            return narrowest
        fits = _fitting(whole, room)
        if fits:
            return min(fits, key=lambda one: one.size[1])
        # What fits nowhere is told with the least width that it needs.
        while not fits and room < narrowest.size[0]:
            room *= _WIDER
            fits = _fitting(whole, room)
        while fits:
            narrowest = min(fits, key=lambda one: one.size[0])
            fits = _fitting(whole, narrowest.size[0] - 1)
        return narrowest

    @property
    def work(self) -> float:
        """What placing it is about to take, as of `edgewise.views.layout.elk.work`."""
        scene = self.scene
        own = 0.0 if scene.fixed else work(scene.graph(), scene.direction)
        return own + sum(work(inside, "right") for inside in scene.insides())

    @cached_property
    def size(self) -> tuple[float, float]:
        """Width and height, px."""
        below = _WORDS if self.scene.words else 0.0
        if self.panels:
            _, width, height = self.panels.panels([*self._apart(self._drawn(0))])
            return width, height + below
        return self.layout.width, self.layout.height + below

    @cached_property
    def panels(self) -> Break | None:
        """How it is broken, if it is."""
        if self.room is None or self.layout.width <= self.room:
            return None
        whole = {e.id for e in self.scene.walk() if e.role not in ("spread", "unit")}
        loose = {
            e.id: _WIRE_AT.get(e.pins[0].side, 0.5)
            for e in self.scene.walk()
            if e.role in ("input", "output", "bit")
        }
        size = self.layout.width, self.layout.height
        items = [*self._apart(self._drawn(0))]
        held = self._held
        found = broken(items, whole, held, loose, size, self.room)
        if held and not found:
            found = broken(items, whole, (), loose, size, self.room)
        return found and replace(found, leftward=self.scene.direction != "right")

    @property
    def _held(self) -> set[str]:
        """The short wires of what stands at one part alone: a constant, a control named again."""
        homes = {pin.id: e for e in self.scene.walk() for pin in e.pins}
        return {
            thread.source
            for thread in self.scene.threads
            if len(thread.targets) == 1
            and homes[thread.source].role in ("input", "tie", "value")
            and self._reach(thread.source, thread.targets[0]) <= _HELD
        }

    def _reach(self, one: str, other: str) -> float:
        """How far two pins are apart, from left to right."""
        return abs(self._spots[one][0] - self._spots[other][0])

    def placed(self, items: Sequence[Item]) -> tuple[Item, ...]:
        """Items of the picture where they stand in it: in panels, if it is broken."""
        if self.panels is None:
            return tuple(items)
        return tuple(self.panels.panels([*self._apart(items)])[0])

    def _apart(self, items: Iterable[Item]) -> Iterator[Item]:
        """The items as they can be broken: nothing is drawn with a part that it is far from."""
        return parted(items, {box.id: (box.width, box.height) for box in self.layout.boxes})

    @cached_property
    def _pins(self) -> dict[str, Pin]:
        return self.scene.pins

    @cached_property
    def _kinds(self) -> dict[str, str]:
        """For every pin the kind of the wire at it; at a container the one outside."""
        kinds: dict[str, str] = {}
        for thread in self.scene.threads:
            for end in (thread.source, *thread.targets):
                kinds[end] = kinds.get(end) or thread.kind
        return kinds

    @cached_property
    def _spots(self) -> dict[str, Point]:
        return {port.id: (port.x, port.y) for port in self.layout.ports}

    def items(
        self,
        row: int,
        *,
        emphasis: bool = False,
        under: Sequence[Item] = (),
        over: Sequence[Item] = (),
    ) -> Iterator[Item]:
        """The items of a row, the top left corner at (0, 0).

        With `emphasis`, cells that did not change are lighter; `under` lies under the wires, `over`
        on everything.
        """
        yield from self.placed([*self._drawn(row, emphasis=emphasis, under=under), *over])
        if self.scene.words:
            yield self._words(self.trace.rows[row])

    def _drawn(
        self, row: int, *, emphasis: bool = False, under: Sequence[Item] = ()
    ) -> Iterator[Item]:
        """The items of a row before it is broken."""
        values = self.trace.rows[row]
        elements = {element.id: element for element in self.scene.walk()}
        shown = self._shown(row, emphasis=emphasis)
        yield from self.grounds()
        yield from under
        for wire in self.layout.wires:
            yield Group(tuple(self._wire(wire, values)), "wire", wire.source)
        for placed in self.layout.boxes:
            items = face(elements[placed.id], shown)
            yield Group(items, "part", placed.id, placed.x, placed.y)

    def grounds(self) -> Iterator[Rectangle]:
        """What lies under everything: the ground of opened parts."""
        elements = {element.id: element for element in self.scene.walk()}
        for placed in self.layout.boxes:
            element = elements[placed.id]
            if element.role != "open" and not element.shown:
                continue
            out = _SHOWN if element.shown else 0.0
            place = placed.x - out, placed.y - out, placed.width + 2 * out, placed.height + 2 * out
            yield Rectangle(*place, theme.PANEL, theme.INK, theme.OUTLINE, radius=theme.RADIUS)

    def _shown(self, row: int, *, emphasis: bool) -> Shown:
        values = self.trace.rows[row]
        before = self.trace.rows[row - 1] if row else values

        def stroke(pin: Pin) -> Stroke:
            bits = tuple(values[net] for net in pin.nets)
            return wire_strokes.stroke(self._kinds.get(pin.id, ""), bits)

        def word(nets: tuple[int, ...]) -> Word:
            return Word.from_bits(values[net] for net in nets)

        def changed(nets: tuple[int, ...]) -> Word:
            return Word.from_bits(int(values[net] != before[net]) for net in nets)

        threads = self.scene.threads
        slashed = frozenset(t.source for t in threads if self._pins[t.source].bus)
        return Shown(stroke, word, changed, self.manner.style, slashed, emphasis, self.words)

    def _wire(self, wire: PlacedWire, values: bytes) -> Iterator[Item]:
        stretches = wire_strokes.stretches(wire, self._spots.__getitem__)
        colour = theme.INK
        for stretch in stretches:
            nets = {net for target in stretch.targets for net in self._pins[target].nets}
            stroke = wire_strokes.stroke(wire.kind, tuple(values[net] for net in sorted(nets)))
            colour = stroke.colour
            yield Line(stretch.points, stroke.colour, stroke.weight, stroke.dash)
        for x, y in wire.dots:
            yield Circle(x, y, theme.DOT, fill=colour)
        for data in self.arrows(wire):
            yield Path(data, fill=colour)
        text = self.scene.labels.get(wire.id)
        if text:
            size = text_metrics.width(text, theme.SIZE_SMALL), theme.SIZE_SMALL + 2
            left, top, _, height = wire.label or wire_label.room(self.layout, wire, size)
            base = top + height - theme.DESCENT * theme.SIZE_SMALL
            yield Text(left, base, text, theme.SIZE_SMALL)

    def arrows(self, wire: PlacedWire) -> Iterator[str]:
        """Path data of the arrowheads of a wire that carries data."""
        for target in wire.targets if wire.kind not in ("control", "clock") else ():
            data = wire_strokes.arrow(self._spots[target], self._sides[target])
            if data and target not in self._passed:
                yield data

    @cached_property
    def _sides(self) -> dict[str, Side]:
        return {port.id: port.side for port in self.layout.ports}

    @cached_property
    def _passed(self) -> set[str]:
        """Pins where a wire goes on, and those of bits that only show it."""
        return {
            pin.id
            for element in self.scene.walk()
            for pin in element.pins
            if element.role in ("open", "enter", "leave", "ellipsis")
        }

    def _words(self, values: bytes) -> Group:
        """What the words of a folded figure hold."""
        items: list[Item] = []
        x, base = theme.MARGIN, self.size[1] - _WORDS + 8
        for name, nets in self.scene.words:
            value = alt_text.spell(Word.from_bits(values[net] for net in nets), self.words)
            text = f"{name} = {value}"
            items.append(Text(x, base, text, theme.SIZE_SMALL))
            x += text_metrics.width(text, theme.SIZE_SMALL) + theme.LEGEND_GAP
        return Group(tuple(items), "words")

    def _labels(self, made: Scene) -> Mapping[str, str]:
        """For every wire that is to have its name beside it: that name."""
        labels: dict[str, str] = {}
        errors: list[EdgewiseError] = []
        pins = made.pins
        for name in self.names:
            try:
                nets = tuple(self.trace.design.netlist.find(name))
            except EdgewiseError as wrong:
                errors += wrong.parts()
                continue
            found = [t.id for t in made.threads if pins[t.source].nets == nets]
            if found:
                labels[found[0]] = name
            else:
                errors.append(EdgewiseError(Message("wire-undrawn", name=name)))
        raise_all(errors)
        return labels


def _fitting(whole: Sequence[Picture], room: float) -> list[Picture]:
    """Those that are no wider than the room when they are broken for it."""
    panels = [replace(one, room=room) for one in whole]
    return [one for one in panels if one.size[0] <= room]


def when(trace: Trace, row: int, words: Words = ENGLISH) -> str:
    """What stands over the picture of a row; empty for a circuit without edges.

    Examples
    --------
    >>> from edgewise import catalogue, run
    >>> trace = run(catalogue.design("serial-adder", n=4), a=6, b=3)
    >>> when(trace, 0), when(trace, 5)
    ('at the start, inputs of phase load', 'after edge 5, inputs of phase add')
    """
    if not trace.design.procedure:
        return ""
    return alt_text.moment(trace, row, words)
