"""Columns: a row of cells in its places, the MSB left.

Every cell is drawn like every other: its bits and gates stand over its adder, its flip-flop under
it, and what goes on to a neighbour leaves at the side, through the flip-flop between the two if
there is one. A register whose bits the cells take in, or fill, is as wide as the row, each of its
bits in its column::

          M [m2]      [m1]      [m0]
    b_in ──┬─┼─────────┬─┼───────┬ │
           [AND]      [AND]     [AND]
           [FA(2)]─R──[FA(1)]─R─[FA(0)]── P
            [C(2)]     [C(1)]    [C(0)]
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import ceil
from typing import Final

from edgewise.views.diagram import terminals
from edgewise.views.diagram.cell_row import Cell, CellRow, Link
from edgewise.views.diagram.cell_wiring import APART, GAP
from edgewise.views.diagram.elements import PORT_LABELS, Element, Pin
from edgewise.views.diagram.nets import Scene
from edgewise.views.diagram.placement import Line
from edgewise.views.diagram.wide_register import Registers
from edgewise.views.drawing import theme
from edgewise.views.drawing.gate_symbols import backwards, turned
from edgewise.views.drawing.text_metrics import width as text_width
from edgewise.views.drawing.theme import DIAGRAM_CELL
from edgewise.views.layout.graph import Side

WIDTH: Final = 84.0
"""Of an adder."""
HEIGHT: Final = 92.0
_SIDE: Final = 52.0
"""From the top of an adder to the pins at its sides."""
_LOW: Final = WIDTH / 4
"""From the middle of an adder to the two pins below it."""
_TRACK: Final = 12.0
_BIT: Final = 48.0
"""From the foot of a bit with its name to what runs over it."""
_STORE: Final = 70.0
"""Height of a flip-flop under its adder."""


def columns(scene: Scene, row: CellRow) -> Scene | None:
    """The scene with its places; nothing where a wire would have no way."""
    made = _Columns(scene, row)
    return made.scene_with_layout() if made.build() else None


@dataclass(slots=True)
class _Columns(Registers):
    def build(self) -> bool:
        """Lay everything; False if a wire found no way."""
        self.low = HEIGHT
        stores = [link.store for link in self.row.links if link.store is not None]
        between = max((store.width for store in stores), default=0.0)
        self.pitch = WIDTH + (ceil(between) + 2 * GAP + 8 if between else APART)
        for place, cell in enumerate(self.row.cells):
            self._cell(cell, self.x(place))
        for link in self.row.links:
            self._link(link)
        self._sides()
        if self.row.below is not None:
            self.below(self.row.below)
        self._feeds()
        self._sums()
        if self.row.flag is not None:
            self._flag(self.row.flag)
        self.last()
        self.controls()
        every = {end for thread in self.scene.threads for end in thread.targets}
        return every <= self.done

    def _cell(self, cell: Cell, x: float) -> None:
        linked = {pin for link in self.row.links for pin in (link.source, link.target)}
        looped = {cell.loop.source, cell.loop.target} if cell.loop else set()
        sums = any(link.source.endswith(".sum") for link in self.row.links)
        pins, tops = [], []
        for pin in cell.adder.pins:
            label = PORT_LABELS.get(pin.port, pin.port)
            if pin.id in looped:
                at = WIDTH / 2 + (_LOW if pin.id in self.source else -_LOW)
                pins.append(pin.put("bottom", at, label))
            elif pin.port == "sum":
                side: Side = "right" if sums else "bottom"
                at = _SIDE if sums else WIDTH / 2 + (_LOW if self.row.below else 0.0)
                pins.append(pin.put(side, at, label))
            elif pin.port in ("carry-in", "carry-out"):
                pins.append(pin.put("right" if pin.port == "carry-in" else "left", _SIDE, label))
            elif pin.id in linked or self._is_tie(pin):
                pins.append(pin.put("left", _SIDE, label))
            elif self.home[self.source[pin.id]] is self.row.below:
                pins.append(pin.put("bottom", WIDTH / 2, label))
            else:
                tops.append(pin)
        for i, pin in enumerate(tops):
            at = WIDTH * (2 * i + 1) / (2 * len(tops))
            pins.append(pin.put("top", at, pin.port))
        adder = replace(
            cell.adder,
            role="cell",
            width=WIDTH,
            height=HEIGHT,
            frame=(0.0, 0.0, WIDTH, HEIGHT),
            pins=tuple(pins),
            seed=None,
        )
        self.placement.put(adder, (x - WIDTH / 2, 0.0))
        for pin_id, gate in cell.gates.items():
            self._gate(gate, pin_id)
        if cell.loop and cell.loop.store:
            self._loop(cell.loop, cell.loop.store)

    def _is_tie(self, pin: Pin) -> bool:
        return self.home[self.source[pin.id]].role == "tie"

    def _gate(self, gate: Element, target: str) -> None:
        """A gate that looks down, its output over a pin of the adder."""
        assert gate.symbol is not None
        symbol = turned(gate.symbol)
        inputs = [pin for pin in gate.pins if pin.id in self.source]
        # Of two inputs above, the first is right: what comes to many gates comes from its own side.
        inputs.sort(key=lambda pin: self._rank(self.source[pin.id]))
        pins = [
            replace(pin, note="").put("top", at, stub=reach)
            for pin, (at, reach) in zip(inputs, symbol.inputs, strict=True)
        ]
        out = next(pin for pin in gate.pins if pin.id not in self.source)
        pins.append(out.put("bottom", symbol.output[0], stub=symbol.output[1]))
        made = replace(
            gate,
            width=symbol.width,
            height=symbol.height,
            pins=tuple(pins),
            frame=(0.0, 0.0, symbol.width, symbol.height),
            symbol=symbol,
            seed=None,
        )
        x, y = self.spot(target)
        self.placement.put_at(made, out.id, (x, y - GAP))
        self.route(out.id, target, (x, y - GAP), (x, y))
        self.top = min(self.top, y - GAP - symbol.height)

    def _rank(self, source: str) -> int:
        """The inputs of a gate from right to left."""
        return (1 if self._from_left(source) else -1) if self.is_common(source) else 0

    def _from_left(self, source: str) -> bool:
        """Whether what goes to many gates comes from the left, as inputs do."""
        first = {pin.id for pin in self.row.cells[0].adder.pins}
        return self.home[source].role == "input" and not first & {*self.targets[source]}

    def _loop(self, link: Link, store: Element) -> None:
        """A flip-flop under its adder."""
        ports = {pin.port: pin for pin in store.pins}
        width = 2 * _LOW + 32
        pins = (
            ports["d"].put("top", width / 2 - _LOW, ports["d"].label),
            ports["q"].put("top", width / 2 + _LOW, "q"),
        )
        name = text_width(store.label, theme.SIZE_NAME, weight=theme.STRONG)
        wide = max(width, name + DIAGRAM_CELL.width + 34)
        made = replace(
            store,
            role="beneath",
            width=wide,
            height=_STORE,
            pins=pins,
            cells=(wide - 10 - DIAGRAM_CELL.width, 24.0),
            wedge=58.0 if store.wedge else 0.0,
            frame=(0.0, 0.0, wide, _STORE),
            seed=None,
        )
        (x1, y), (x2, _) = self.spot(link.source), self.spot(link.target)
        self.placement.put(made, (x1 - pins[0].at, y + GAP + 8))
        below = y + GAP + 8
        self.route(link.source, ports["d"].id, (x1, y), (x1, below))
        self.route(ports["q"].id, link.target, (x2, below), (x2, y))

    def _link(self, link: Link) -> None:
        """From a cell to its neighbour, through the flip-flop between them."""
        start, end = self.spot(link.source), self.spot(link.target)
        if link.store is None:
            self.route(link.source, link.target, start, end)
            return
        right = end[0] > start[0]
        sides: dict[str, Side] = {
            "d": "left" if right else "right",
            "q": "right" if right else "left",
        }
        pins = {
            pin.port: pin.put(sides[pin.port], pin.at, pin.label or pin.port)
            for pin in link.store.pins
        }
        made = replace(link.store, pins=tuple(pins.values()), seed=None)
        left = (start[0] + end[0] - made.width) / 2
        self.placement.put(made, (left, start[1] - pins["d"].at))
        self.route(link.source, pins["d"].id, start, self.spot(pins["d"].id))
        self.route(pins["q"].id, link.target, self.spot(pins["q"].id), end)

    def _sides(self) -> None:
        """Constants and single bits at the ends of the row."""
        for cell in self.row.cells:
            for pin in cell.adder.pins:
                start = self.source.get(pin.id)
                placed = self.placed(pin.id)
                if start is None or pin.id in self.done or placed.side == "top":
                    continue
                element = self.home[start]
                x, y = self.spot(pin.id)
                out = 1 if placed.side == "right" else -1
                if element.role == "tie":
                    made = terminals.tie(placed, pin.id, element.label)
                    self.placement.put_at(made, start, (x + 12 * out, y))
                    self.route(start, pin.id, (x + 12 * out, y), (x, y))
                elif element.role == "input" and not self.is_common(start):
                    side: Side = "left" if out > 0 else "right"
                    made = terminals.bit(start, element.label, side, pin.nets)
                    self.placement.put_at(made, made.pins[0].id, (x + APART * out, y))
                    self.route(made.pins[0].id, pin.id, (x + APART * out, y), (x, y))

    def _feeds(self) -> None:
        """Bits over the cells, then what goes to many of them."""
        common = [s for s in self.targets if self.is_common(s) and self._gate_ends(s)]
        if self.row.above is None:
            # Bits of inputs stand under what is common, so that no wire of theirs crosses it.
            high = self.top - (GAP if common else 0.0)
            tracks = {s: high - _BIT - _TRACK * i for i, s in enumerate(common)}
        else:
            tracks = {s: self.top - GAP - _TRACK * i for i, s in enumerate(common)}
            high = min(tracks.values(), default=self.top) - (GAP if common else 0.0)
            self.spread(self.row.above, high)
        for element in [*self.placement.elements]:
            for pin in element.pins:
                start = self.source.get(pin.id)
                if pin.side != "top" or start is None or pin.id in self.done or start in tracks:
                    continue
                if self.home[start].role != "input":
                    continue
                x, y = self.spot(pin.id)
                made = self._bit_of(start, pin)
                self.placement.put_at(made, made.pins[0].id, (x, high))
                self.route(made.pins[0].id, pin.id, (x, high), (x, y))
        for start, y in tracks.items():
            self._common(start, y)

    def _gate_ends(self, source: str) -> list[str]:
        return [end for end in self.targets[source] if self.home[end].role == "gate"]

    def _bit_of(self, start: str, pin: Pin) -> Element:
        """The bit of an input that goes to a pin."""
        nets = self.pins[start].nets
        name = self.home[start].label
        text = f"{name}({nets.index(pin.nets[0])})" if len(nets) > 1 else name
        return terminals.bit(f"{pin.id}:bit", text, "bottom", pin.nets)

    def _common(self, start: str, y: float) -> None:
        """One bit to many gates, along a track over them."""
        ends = sorted(self._gate_ends(start), key=lambda end: self.spot(end)[0])
        left = self._from_left(start)
        if left:
            ends.reverse()
        if self.home[start].role == "input":
            element = self.home[start]
            edge = self._edge(left=left)
            origin = (edge, y)
            self.placement.put_at(_facing(element, "right" if left else "left"), start, origin)
            lead: Line = (origin,)
        else:
            x0, y0 = self.spot(start)
            lead = ((x0, y0), (x0 + GAP, y0), (x0 + GAP, y))
        for number, end in enumerate(ends):
            x, low = self.spot(end)
            self.route(start, end, *(lead if number == 0 else ()), (x, y), (x, low))
        for end in self.targets[start]:
            if end in ends:
                continue
            x, low = self.spot(end)
            self.route(start, end, (x + APART, y), (x + APART, low), (x, low))

    def _edge(self, *, left: bool) -> float:
        """Beyond the last cell."""
        if left:
            known = [x for x, _ in self.placement.corners.values()]
            return min(known) - GAP
        return self.x(0) + WIDTH / 2 + APART + GAP

    def _sums(self) -> None:
        """Bits of results under the cells, and the last carry left of them."""
        for cell in self.row.cells:
            sources = [pin.id for pin in cell.adder.pins if pin.id not in self.source]
            if cell.loop and cell.loop.store:
                sources += [pin.id for pin in cell.loop.store.pins if pin.id not in self.source]
            for start in sources:
                for end in self.targets.get(start, ()):
                    if self.home[end].role == "output":
                        self._result(start, end)

    def _flag(self, flag: Element) -> None:
        """Left of the row the gate of the last two carries; the earlier comes under the cell."""
        assert flag.symbol is not None
        symbol = backwards(flag.symbol)
        last = f"{self.row.cells[-1].adder.id}.carry-out"
        taken = [pin for pin in flag.pins if pin.id in self.source]
        taken.sort(key=lambda pin: self.source[pin.id] != last)
        out = next(pin for pin in flag.pins if pin.id not in self.source)
        pins = [
            pin.put("right", at, stub=reach)
            for pin, (at, reach) in zip(taken, sorted(symbol.inputs), strict=True)
        ]
        pins.append(out.put("left", symbol.output[0], stub=symbol.output[1]))
        size = symbol.width, symbol.height
        made = replace(
            flag,
            width=size[0],
            height=size[1],
            pins=tuple(pins),
            frame=(0.0, 0.0, *size),
            symbol=symbol,
            seed=None,
        )
        x, y = self.spot(last)
        self.placement.put_at(made, taken[0].id, (x - APART, y))
        self.route(last, taken[0].id, (x, y), (x - APART, y))
        (x1, y1), (x2, _) = self.spot(self.source[taken[1].id]), self.spot(last)
        end = self.spot(taken[1].id)
        way, turn, low = x1 - APART / 2, x2 - APART / 2, HEIGHT + GAP / 2
        points = (way, y1), (way, low), (turn, low), (turn, end[1]), end
        self.route(self.source[taken[1].id], taken[1].id, *points)
        for target in self.targets[out.id]:
            self._result(out.id, target)

    def _result(self, start: str, end: str) -> None:
        element, pin = self.home[end], self.pins[end]
        many = len(element.pins) > 1
        name = f"{element.label}{pin.which}" if many else element.label
        placed = self.placed(start)
        x, y = self.spot(start)
        if placed.side == "left":
            made = terminals.bit(end, name, "right", pin.nets)
            spot = (x - APART, y)
        elif placed.side == "bottom":
            made = _under(terminals.bit(end, name, "top", pin.nets))
            spot = (x, y + GAP)
        else:
            # From under its flip-flop: the net begins there once more.
            store = self.home[start]
            corner = self.placement.corners[store.id]
            middle = 37.0
            x, y = corner[0] + middle, corner[1] + _STORE
            again = Pin(f"{start}!", "q", pin.nets).put("bottom", middle)
            self.add(store.id, again)
            made = _under(terminals.bit(end, name, "top", pin.nets))
            start, spot = again.id, (x, y + GAP)
        self.placement.put_at(made, made.pins[0].id, spot)
        self.route(start, made.pins[0].id, (x, y), spot)
        self.done.add(end)


def _under(element: Element) -> Element:
    """A bit that leaves room for its band over its name."""
    return replace(element, height=element.height + 4)


def _facing(element: Element, side: Side) -> Element:
    """An input with its wire at this side."""
    if side == "right":
        return replace(element, seed=None)
    pin = element.pins[0]
    made = terminals.bit(element.id, element.label, "left", pin.nets)
    return replace(made, pins=(replace(made.pins[0], id=pin.id),))
