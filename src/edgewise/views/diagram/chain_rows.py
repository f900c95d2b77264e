"""Rows: a chain of adders folded like a long line of writing, for a narrow page.

The LSB is at the right end of the first row; the carry leaves a row on the left and comes in
again on the right of the next::

     ┌── [FA(1)] ── [FA(0)] ── carry_in
     └───────────────────────┐
         [FA(3)] ── [FA(2)] ─┘
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from itertools import pairwise
from math import ceil
from typing import Final

from edgewise.circuit.model import Circuit, Part, Tie
from edgewise.views.diagram.drivers import Origin, Sources
from edgewise.views.diagram.elements import PORT_LABELS, Element, Pin, small
from edgewise.views.diagram.nets import Scene, Thread
from edgewise.views.diagram.placement import Placement
from edgewise.views.diagram.terminals import bit, tie
from edgewise.views.layout.graph import Point

_WIDTH: Final = 56.0
_HEIGHT: Final = 64.0
_SIDE: Final = 36.0
_GAP: Final = 12.0
_STEM: Final = 14.0


def rows(
    circuit: Circuit, parts: tuple[Part, ...], names: Mapping[str, tuple[int, ...]], number: int
) -> Scene:
    """The scene of a chain in this many rows (see `carry_chain.chain`)."""
    made = _Rows(circuit, names, parts, ceil(len(parts) / min(number, len(parts))))
    made.build()
    return made.placement.scene("left")


@dataclass(slots=True)
class _Rows:
    circuit: Circuit
    names: Mapping[str, tuple[int, ...]]
    parts: tuple[Part, ...]
    each: int
    """Adders in a row, at most."""
    placement: Placement = field(default_factory=Placement)
    shown: dict[Origin, str] = field(default_factory=dict)
    """The name of the output bit that a port drives."""
    pitch: float = _WIDTH + _GAP

    def build(self) -> None:
        sources = Sources(self.circuit)
        self.shown = sources.shown()
        names = [f"{net.name}({net.width - 1})" for net in self.circuit.inputs if net.width > 1]
        over = 2 * max(map(small, names), default=0.0) + 2 * 4
        under = max(map(small, self.shown.values()), default=0.0) + 8
        self.pitch = max(_WIDTH + _GAP, float(ceil(over)), float(ceil(under)))
        for place, part in enumerate(self.parts):
            self._slice(part, place, sources)
        self._first(sources)
        for before, after in pairwise(self.parts):
            self._carry(before, after)
        self._last()

    # ------------------------------------------------------------ slices

    def _corner(self, place: int) -> Point:
        row, column = divmod(place, self.each)
        return -self.pitch * column, row * (_HEIGHT + 2 * (37 + _STEM) + 2 * _GAP)

    def _slice(self, part: Part, place: int, sources: Sources) -> None:
        tops = [port.name for port in part.kind.ins if port.name != "carry-in"]
        pins = []
        for port in part.kind.ports:
            name = f"{part.name}.{port.name}"
            pin = Pin(name, port.name, self.names[name])
            label = PORT_LABELS.get(port.name, port.name)
            if port.name in tops:
                at = _WIDTH * (2 * tops.index(port.name) + 1) / (2 * len(tops))
                pins.append(pin.put("top", at, label))
            elif port.name == "sum":
                pins.append(pin.put("bottom", _WIDTH / 2, label))
            else:
                pins.append(pin.put("right" if port.name == "carry-in" else "left", _SIDE))
        frame = (0.0, 0.0, _WIDTH, _HEIGHT)
        kind = part.kind.name
        made = Element(
            part.name, "slice", kind, part.name, _WIDTH, _HEIGHT, tuple(pins), frame, mark="Σ"
        )
        self.placement.put(made, self._corner(place))
        for pin in pins:
            if pin.side == "top":
                self._over(part, pin, sources)
            elif pin.side == "bottom" and Origin(part.name, "sum") in self.shown:
                self._hang(pin, self.shown[Origin(part.name, "sum")])

    def _over(self, part: Part, pin: Pin, sources: Sources) -> None:
        """The bit, or the constant, that comes to a pin from above."""
        origin = sources.origin(part.signal(pin.port)[0])
        x, y = self.placement.spots[pin.id]
        if isinstance(origin, Tie):
            made = tie(pin, pin.id, "01X"[origin.bit])
        else:
            made = bit(f"{pin.id}:bit", self._name(origin), "bottom", pin.nets)
        start = (x, y - _STEM)
        self.placement.put_at(made, made.pins[0].id, start)
        self.placement.join(Thread(f"{pin.id}~", made.pins[0].id, (pin.id,)), [(start, (x, y))])

    def _hang(self, pin: Pin, name: str) -> None:
        x, y = self.placement.spots[pin.id]
        made = bit(f"{pin.id}:bit", name, "top", pin.nets)
        end = (x, y + _STEM)
        self.placement.put_at(made, made.pins[0].id, end)
        self.placement.join(Thread(f"{pin.id}~", pin.id, (made.pins[0].id,)), [((x, y), end)])

    def _name(self, origin: Origin) -> str:
        wide = len(self.names[origin.port]) > 1
        return f"{origin.port}({origin.index})" if wide else origin.port

    # ------------------------------------------------------------ carries

    def _first(self, sources: Sources) -> None:
        """What comes into the LSB."""
        part = self.parts[0]
        if not part.signal("carry-in"):
            return
        pin = next(p for e in self.placement.elements for p in e.pins if p.side == "right")
        origin = sources.origin(part.signal("carry-in")[0])
        if isinstance(origin, Tie):
            made = tie(pin, pin.id, "01X"[origin.bit])
        else:
            made = bit(self._name(origin), self._name(origin), "left", pin.nets)
        self._beside(made, pin.id, (self.placement.spots[pin.id][0] + 2 * _GAP), into=True)

    def _beside(self, made: Element, pin: str, x: float, *, into: bool) -> None:
        """A terminal at the end of a row, and its wire."""
        here = self.placement.spots[pin]
        there = (x, here[1])
        self.placement.put_at(made, made.pins[0].id, there)
        ends = (made.pins[0].id, pin) if into else (pin, made.pins[0].id)
        line = (there, here) if into else (here, there)
        self.placement.join(Thread(f"{ends[0]}~", ends[0], (ends[1],), "carry"), [line])

    def _carry(self, before: Part, after: Part) -> None:
        source, target = f"{before.name}.carry-out", f"{after.name}.carry-in"
        (x1, y1), (x2, y2) = self.placement.spots[source], self.placement.spots[target]
        line: tuple[Point, ...] = ((x1, y1), (x2, y2))
        if y1 != y2:  # to the next row
            between = y2 - _SIDE - _STEM - 37 - _GAP
            left, right = x1 - _GAP, x2 + _GAP
            line = ((x1, y1), (left, y1), (left, between), (right, between), (right, y2), (x2, y2))
        self.placement.join(Thread(f"{source}~", source, (target,), "carry"), [line])

    def _last(self) -> None:
        source = f"{self.parts[-1].name}.carry-out"
        name = self.shown.get(Origin(self.parts[-1].name, "carry-out"))
        if name is None:
            return
        made = bit(name, name, "right", self.names[source])
        self._beside(made, source, self.placement.spots[source][0] - 2 * _GAP, into=False)
