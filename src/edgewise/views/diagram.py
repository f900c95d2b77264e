"""Diagram: the block diagram of a design with its values after one edge.

    circuit -> scene -> layout -> drawing
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import cached_property
from math import ceil
from typing import Final

from edgewise.bits import Word
from edgewise.errors import EdgewiseError, nearest, raise_all
from edgewise.sheet import GATED_CLOCK_CAUTION
from edgewise.trace import Trace
from edgewise.views import description, lettering, look, strokes
from edgewise.views.boxes import Layout, PlacedWire
from edgewise.views.drawing import Drawing
from edgewise.views.faces import Shown, face
from edgewise.views.items import Circle, Group, Item, Line, Rectangle, Text
from edgewise.views.layout import lay_out
from edgewise.views.legend import legend as legend_of
from edgewise.views.legend import legend_size
from edgewise.views.places import Element, Pin
from edgewise.views.scene import Clock, Manner, Scene, scene
from edgewise.views.strokes import Stroke
from edgewise.views.symbols import Style

_HEADING: Final = 34.0
"""Room for the heading."""


def diagram(
    trace: Trace,
    after: int | None = None,
    *,
    open: Iterable[str] = (),
    clock: Clock = "wedge",
    symbols: Style = "distinctive",
    legend: bool = False,
) -> Drawing:
    row = trace.edges if after is None else after
    trace.bits((), row)
    manner = Manner(frozenset(open), clock, symbols)
    plan = Plan(trace, manner)
    items = [*heading(trace, row), Group(tuple(plan.items(row)), kind="diagram", y=_HEADING)]
    width, height = plan.layout.width, plan.layout.height + _HEADING
    if legend:
        items.append(legend_of(look.MARGIN, height))
        w, h = legend_size()
        width, height = max(width, w + 2 * look.MARGIN), height + h + look.MARGIN
    width = max(width, look.MARGIN * 2 + lettering.width(_when(trace, row)))
    title = f"Block diagram {description.moment(row)}: {description.subject(trace)}"
    return Drawing(ceil(width), ceil(height), title, "x", tuple(items))


def _when(trace: Trace, row: int) -> str:
    if not trace.edges:
        return ""
    phase = trace.phase(row)
    return description.moment(row) + (f", phase {phase.name}" if phase else "")


def heading(trace: Trace, row: int) -> list[Item]:
    return [Text(look.MARGIN, 26, _when(trace, row), fill=look.SLATE)]


@dataclass
class Plan:
    trace: Trace
    manner: Manner

    @cached_property
    def scene(self) -> Scene:
        design = self.trace.design
        return scene(design.circuit, design.netlist.names, self.manner)

    @cached_property
    def layout(self) -> Layout:
        return lay_out(self.scene.graph(), self.scene.direction)

    def items(self, row: int) -> Iterator[Item]:
        elements = {e.id: e for e in self.scene.walk()}
        pins = self.scene.pins
        kinds = {}
        for thread in self.scene.threads:
            for end in (thread.source, *thread.targets):
                if kinds.get(end) != "carry" or thread.kind:
                    kinds[end] = thread.kind
        values = self.trace.rows[row]
        before = self.trace.rows[row - 1] if row else values

        def stroke(pin: Pin) -> Stroke:
            return strokes.stroke(kinds.get(pin.id, ""), tuple(values[n] for n in pin.nets))

        def word(nets):
            return Word.from_bits(values[n] for n in nets)

        def changed(nets):
            return Word.from_bits(int(values[n] != before[n]) for n in nets)

        sources = frozenset(t.source for t in self.scene.threads if pins[t.source].bus)
        shown = Shown(stroke, word, changed, lambda g, e: g, self.manner.style, sources)
        for placed in self.layout.boxes:
            if elements[placed.id].role == "open":
                yield Rectangle(
                    placed.x, placed.y, placed.width, placed.height,
                    look.PANEL, look.INK, look.OUTLINE, radius=look.RADIUS,
                )
        for wire in self.layout.wires:
            yield self._wire(wire, pins, values)
        for placed in self.layout.boxes:
            e = elements[placed.id]
            yield Group(face(e, shown), "part", e.id, placed.x, placed.y)

    def _wire(self, wire: PlacedWire, pins, values) -> Group:
        where = {p.id: (p.x, p.y) for p in self.layout.ports}
        items: list[Item] = []
        for stretch in strokes.stretches(wire, where.__getitem__):
            nets = {n for t in stretch.targets for n in pins[t].nets}
            bits = tuple(values[n] for n in nets)
            s = strokes.stroke(wire.kind, bits)
            items.append(Line(stretch.points, s.colour, s.weight, s.dash))
        for dot in wire.dots:
            items.append(Circle(*dot, 3.5, fill=s.colour))
        return Group(tuple(items), "wire", wire.source)
