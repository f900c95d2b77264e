"""Wide register: one as wide as a row of cells, each of its bits in its column."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise
from math import ceil
from typing import Final

from edgewise.views.diagram.cell_wiring import APART, GAP, Wiring
from edgewise.views.diagram.elements import LABEL, Element, Pin, small
from edgewise.views.diagram.placement import Line
from edgewise.views.drawing import theme
from edgewise.views.drawing.text_metrics import width as text_width
from edgewise.views.drawing.theme import DIAGRAM_CELL

_TURN: Final = 13.0
"""From a row to the track under it."""
_SLIP: Final = 24.0
"""From the middle of a column to where its next bit comes in, to the left."""
_BESIDE: Final = 21.0
"""The same where the next bit is that of the column: under the sum."""
_ROW: Final = 30.0
"""From pin to pin at the left: inputs stand there."""


@dataclass(slots=True)
class Registers(Wiring):
    """The registers of a row of cells: above it, below it, and at its end."""

    def spread(self, register: Element, bottom: float) -> None:
        """A register above the row, each bit over its column."""
        ends = {self.pins[e].nets[0]: e for e in self.targets[f"{register.id}.q"]}
        places = [place for place, net in enumerate(register.word) if net in ends]
        xs = [self.spot(ends[register.word[place]])[0] for place in places]
        inputs = [pin for pin in register.pins if pin.id in self.source]
        made, lead = _wide(register, xs, inputs, self._room(inputs))
        outs = [
            Pin(f"{register.id}.q!{place}", "q", (register.word[place],)).put(
                "bottom", x - min(xs) + lead
            )
            for place, x in zip(places, xs, strict=True)
        ]
        self._frame(replace(made, pins=(*made.pins, *outs)), xs, lead, bottom - made.height)
        for pin in outs:
            end = ends[pin.nets[0]]
            self.route(pin.id, end, self.spot(pin.id), self.spot(end))

    def _room(self, inputs: Sequence[Pin]) -> float:
        """From pin to pin, so that the inputs that come there do not meet."""
        heights = [self.home[self.source[pin.id]].height for pin in inputs]
        return max([_ROW, *(ceil(height) + 4.0 for height in heights)])

    def _frame(self, made: Element, xs: Sequence[float], lead: float, top: float) -> None:
        """A wide register with its cells in their columns."""
        self.placement.put(made, (min(xs) - lead, top))
        for cell, x in zip(made.inside, xs, strict=True):
            corner = (x - cell.width / 2, top + (made.height - cell.height) / 2)
            self.placement.put_inside(cell, made.id, corner)

    def below(self, register: Element) -> None:
        """A register under the row that takes each sum one place down, and what it gives back."""
        xs = [self.x(place) for place in range(len(self.row.cells))]
        slip = -_SLIP if self.row.lower else _BESIDE
        fed = {pin.id: self.home[self.source[pin.id]] for pin in register.pins if pin.which}
        left = [p for p in register.pins if p.id in self.source and p.id not in fed]
        made, lead = _wide(register, xs, left, self._room(left))
        if not self.row.lower:  # the last sum comes right of the last cell
            wide = made.width + _BESIDE + small("q")
            made = replace(made, width=wide, frame=(0.0, 0.0, wide, made.height))
        name = register.id
        ins, outs = [], []
        for pin in register.pins:
            if pin.id in fed:
                x = self.x(int(pin.which.strip("()")))
                ins.append(replace(pin, note="").put("top", x - min(xs) + lead + slip))
        for place, x in enumerate(xs):
            net = (register.word[place],)
            outs.append(Pin(f"{name}.q!{place}", "q", net).put("top", x - min(xs) + lead))
        bus = Pin(f"{name}.q", "q", register.word).put("bottom", made.width - 2 * GAP)
        if self.row.last is None:
            bus = bus.put("right", made.height - 14.0, "q")
        shown = [e for e in self.targets[f"{name}.q"] if self.home[e].role == "output"]
        pins = (*made.pins, *ins, *outs, *((bus,) if shown else ()))
        self._frame(replace(made, pins=pins), xs, lead, self.low + 2 * _TURN)
        track = self.low + _TURN
        for pin in ins:
            start, end = self.spot(self.source[pin.id]), self.spot(pin.id)
            lead_in: Line = (start, (start[0], track))
            if start[1] < self.low:  # a carry leaves at the side
                lead_in = (start, (start[0] - GAP, start[1]), (start[0] - GAP, track))
            self.route(self.source[pin.id], pin.id, *lead_in, (end[0], track), end)
        self._back(name)
        if self.row.last is not None:
            self._beside(made, self.row.last, track)
        for out in shown if self.row.last is None else ():
            self._word(bus.id, out)

    def _back(self, name: str) -> None:
        """What the register under the row gives back to the adders."""
        for place, cell in enumerate(self.row.cells):
            for pin in cell.adder.pins:
                if self.source.get(pin.id) == f"{name}.q":
                    out = f"{name}.q!{place}"
                    self.route(out, pin.id, self.spot(out), self.spot(pin.id))

    def _beside(self, register: Element, last: Element, track: float) -> None:
        """The register right of the one below the row, into which the lowest sum goes on."""
        x, y = self.placement.corners[register.id]
        x, y = x + register.width, y + register.height - GAP / 2
        self.placement.put_at(replace(last, seed=None), f"{last.id}.in", (x + APART, y))
        source = self.source[f"{last.id}.in"]
        start = self.spot(source)
        turn = x + GAP
        way = (start, (start[0], track), (turn, track), (turn, y), (x + APART, y))
        self.route(source, f"{last.id}.in", *way)

    def last(self) -> None:
        """The register that takes in the sum of the lowest cell, and what it shows."""
        register = self.row.last
        if register is None:
            return
        if self.row.below is None:
            start = self.source[f"{register.id}.in"]
            x, y = self.spot(start)
            end = (x + APART, y)
            self.placement.put_at(replace(register, seed=None), f"{register.id}.in", end)
            self.route(start, f"{register.id}.in", (x, y), end)
        for pin in register.pins:
            for out in self.targets.get(pin.id, ()):
                if self.home[out].role == "output":
                    self._word(pin.id, out)

    def _word(self, start: str, end: str) -> None:
        """An output of the last register; with the bits of the one beside it, below both."""
        x, y = self.spot(start)
        made = replace(self.home[end], seed=None, hangs_on=None)
        if len(made.pins) == 1:
            self.placement.put_at(made, end, (x + APART, y))
            self.route(start, end, (x, y), (x + APART, y))
            return
        register = self.placement.corners[self.home[start].id]
        low = register[1] + self.home[start].height + 2 * GAP
        first, second = (pin.id for pin in made.pins)
        other = self.source[first]
        if second != end or other not in self.placement.spots:
            return
        self.placement.put_at(made, first, (x + 2 * APART, low))
        bus = self.spot(other)
        self.route(other, first, bus, (bus[0], low), (x + 2 * APART, low))
        down = self.spot(second)
        self.route(start, second, (x, y), (x + APART, y), (x + APART, down[1]), down)

    def controls(self) -> None:
        """Inputs at the left of registers: straight, or along a trunk to several of them."""
        for element in [*self.placement.elements]:
            for pin in element.pins:
                start = self.source.get(pin.id)
                if start is None or pin.id in self.done or pin.side != "left":
                    continue
                if self.home[start].role != "input":
                    continue
                x, y = self.spot(pin.id)
                under = self._is_last(element)
                if len(self.targets[start]) > 1:
                    self._trunk(start)
                    continue
                made = replace(self.home[start], seed=None)
                origin = (x - APART, y)
                if under and made.height > _ROW:
                    continue  # what stands below a folded word would meet the wires there
                if under:  # beside the trunk of what goes to several registers
                    origin = (max(self._left() + 5 * APART, self._left() + made.width), y)
                self.placement.put_at(made, start, origin)
                self.route(start, pin.id, origin, (x, y))

    def _is_last(self, element: Element) -> bool:
        return self.row.below is not None and element.label == getattr(self.row.last, "label", "")

    def _left(self) -> float:
        """Left of the registers that are as wide as the row."""
        wide = [e.id for e in self.placement.elements if e.role == "spread"]
        return min(self.placement.corners[name][0] for name in wide)

    def _trunk(self, start: str) -> None:
        """One input to several registers: the first straight, the others from a trunk."""
        ends = sorted(self.targets[start], key=lambda end: self.spot(end)[1])
        trunk = self._left() - GAP
        x, y = self.spot(ends[0])
        origin = (trunk - GAP, y)
        self.placement.put_at(replace(self.home[start], seed=None), start, origin)
        self.route(start, ends[0], origin, (x, y))
        for before, end in pairwise(ends):
            high, (x, low) = self.spot(before)[1], self.spot(end)
            self.route(start, end, (trunk, high), (trunk, low), (x, low))


def _wide(
    register: Element, xs: Sequence[float], inputs: Sequence[Pin], room: float
) -> tuple[Element, float]:
    """A register whose cells stand at these places, and px to the middle of the leftmost."""
    pins = tuple(
        pin.put("left", 24.0 + room * i, pin.label or pin.port) for i, pin in enumerate(inputs)
    )
    # As wide in both styles: a figure keeps its places.
    labels = max((small(pin.port) for pin in pins), default=0.0)
    labels = max(labels, small("1,3D")) + LABEL
    name = text_width(register.label, theme.SIZE_NAME, weight=theme.STRONG)
    lead = float(ceil(labels + 24 + name + DIAGRAM_CELL.width / 2))
    low = max((pin.at for pin in pins), default=0.0)
    wedge = low + 24.0 if register.wedge else 0.0
    width = lead + max(xs) - min(xs) + DIAGRAM_CELL.width / 2 + 12
    height = max(56.0, wedge + 14, low + 18)
    cells = (
        Element(
            f"{register.id}({place})",
            "value",
            width=DIAGRAM_CELL.width,
            height=DIAGRAM_CELL.height,
            word=(register.word[place],),
        )
        for place in range(len(xs))
    )
    made = replace(
        register,
        role="spread",
        width=width,
        height=height,
        frame=(0.0, 0.0, width, height),
        pins=pins,
        word=(),
        cells=(labels + 12, 0.0),
        wedge=wedge,
        inside=tuple(cells),
        seed=None,
    )
    return made, lead
