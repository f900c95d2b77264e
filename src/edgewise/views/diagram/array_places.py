"""Places of an array of adders: columns by weight with the MSB left, rows downwards."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from itertools import pairwise
from typing import Final

from edgewise.views.diagram import terminals
from edgewise.views.diagram.adder_array import AdderArray
from edgewise.views.diagram.elements import Element, Pin, small
from edgewise.views.diagram.nets import Scene, Thread
from edgewise.views.diagram.placement import Line, Placement
from edgewise.views.drawing import theme
from edgewise.views.drawing.text_metrics import width as text_width
from edgewise.views.drawing.theme import TABLE_CELL

_HEIGHT: Final = 48.0
_SIDE: Final = 30.0
"""From the top of an adder to the pins at its sides."""
_STEM: Final = 14.0
_LINE: Final = 13.0
"""From name to name over a product."""
_TRACK: Final = 10.0
"""Under an adder: where its carry turns to the next row."""


def places(scene: Scene, array: AdderArray, *, narrow: bool = False) -> Scene | None:
    """The scene with its places; nothing where a wire would have no way."""
    made = _Places(scene, array, narrow)
    return made.placement.scene("down") if made.build() else None


@dataclass(slots=True)
class _Places:
    scene: Scene
    array: AdderArray
    narrow: bool
    placement: Placement = field(default_factory=Placement)
    routes: dict[str, list[tuple[str, Line]]] = field(default_factory=dict)
    home: dict[str, Element] = field(init=False)
    source: dict[str, str] = field(init=False)
    targets: dict[str, tuple[str, ...]] = field(init=False)
    done: set[str] = field(default_factory=set)
    wide: float = 0.0
    pitch: float = 0.0
    rise: float = 0.0
    """From row to row."""

    def __post_init__(self) -> None:
        self.home = {pin.id: element for element in self.scene.elements for pin in element.pins}
        self.source = {end: t.source for t in self.scene.threads for end in t.targets}
        self.targets = {t.source: t.targets for t in self.scene.threads}

    def build(self) -> bool:
        """Lay everything; False if a wire found no way."""
        adders = sorted(
            (self._adder(name) for name in self.array.row),
            key=lambda one: (self.array.row[one.id], self.array.column[one.id]),
        )
        names = [text_width(one.label, theme.SIZE_TEXT, weight=theme.STRONG) for one in adders]
        bits = [small(name) for pair in self.array.products.values() for name in pair]
        inner = max(TABLE_CELL.width + 4, *bits) if bits else TABLE_CELL.width + 4
        self.step = 2.0 * round((inner + 4) / 2)
        self.wide = 2.0 * round(max(2.5 * self.step, *(name + 12 for name in names)) / 2)
        self.pitch = self.wide + (12.0 if self.narrow else 24.0)
        self.rise = _HEIGHT + 2 * _STEM + 2 * _LINE + TABLE_CELL.height + 2 * _TRACK
        for adder in adders:
            self._place(adder)
        self._words()
        self._carries()
        self._foot()
        for source, ends in self.routes.items():
            kind = next((t.kind for t in self.scene.threads if t.source == source), "")
            thread = Thread(f"{source}~", source, tuple(end for end, _ in ends), kind)
            self.placement.join(thread, [line for _, line in ends])
        every = {end for thread in self.scene.threads for end in thread.targets}
        return every <= self.done and not self._pierced()

    def _pierced(self) -> bool:
        """Whether a wire runs through an adder."""
        boxes = [
            (x, y, x + one.width, y + one.height)
            for one in self.placement.elements
            if one.role == "slice"
            for x, y in [self.placement.corners[one.id]]
        ]
        pieces = [
            (min(a[0], b[0]), min(a[1], b[1]), max(a[0], b[0]), max(a[1], b[1]))
            for lines in self.placement.lines.values()
            for line in lines
            for a, b in pairwise(line)
        ]
        return any(
            x1 < right and left < x2 and y1 < bottom and top < y2
            for x1, y1, x2, y2 in pieces
            for left, top, right, bottom in boxes
        )

    step: float = 0.0
    """From one pin over an adder to the next."""

    def _adder(self, name: str) -> Element:
        return next(element for element in self.scene.elements if element.id == name)

    def _route(self, source: str, target: str, *line: tuple[float, float]) -> None:
        self.routes.setdefault(source, []).append((target, line))
        self.done.add(target)

    def _spot(self, adder: str) -> tuple[float, float]:
        """The middle of the top of an adder."""
        return -self.pitch * self.array.column[adder], self.rise * self.array.row[adder]

    # ------------------------------------------------------------ adders

    def _place(self, adder: Element) -> None:
        """An adder: sums come and go in its middle, products left of them, carries right."""
        x, y = self._spot(adder.id)
        middle = self.wide / 2
        tops: list[tuple[Pin, float]] = []
        pins: list[Pin] = []
        free = [middle - self.step, middle + self.step, middle]
        for pin in sorted(adder.pins, key=self._rank):
            if pin.id not in self.source:
                pins.append(self._out(adder, pin))
            elif self._sideways(adder, pin):
                pins.append(pin.put("right", _SIDE))
            else:
                at = self._at(pin, free)
                tops.append((pin, at))
                pins.append(pin.put("top", at))
        frame = (0.0, 0.0, self.wide, _HEIGHT)
        made = replace(
            adder,
            role="slice",
            width=self.wide,
            height=_HEIGHT,
            frame=frame,
            pins=tuple(pins),
            mark="Σ",
            seed=None,
        )
        self.placement.put(made, (x - middle, y))
        for pin, _ in tops:
            self._over(pin)
        for pin in made.pins:
            if pin.side == "right" and self.home[self.source[pin.id]].role == "tie":
                self._tie(pin, self.source[pin.id])

    def _tie(self, pin: Pin, source: str) -> None:
        """A constant in place of a carry."""
        x, y = self.placement.spots[pin.id]
        made = terminals.tie(pin, pin.id, self.home[source].label)
        self.placement.put_at(made, source, (x + 8.0, y))
        self._route(source, pin.id, (x + 8.0, y), (x, y))

    def _rank(self, pin: Pin) -> int:
        """Sums choose their place first, then carries, then products."""
        source = self.source.get(pin.id, "")
        return 0 if source.endswith(".sum") else 1 if source.endswith(".carry-out") else 2

    def _at(self, pin: Pin, free: list[float]) -> float:
        source = self.source[pin.id]
        wanted = free[-1] if source.endswith(".sum") else free[0]
        if source.endswith(".carry-out"):
            wanted = max(free)
        free.remove(wanted)
        return wanted

    def _out(self, adder: Element, pin: Pin) -> Pin:
        if pin.port == "sum":
            return pin.put("bottom", self.wide / 2)
        if adder.id not in self.array.sideways:
            return pin.put("bottom", self.wide / 2 - self.step)
        return pin.put("left", _SIDE)

    def _sideways(self, adder: Element, pin: Pin) -> bool:
        """Whether a carry comes from the adder right of this one, or a constant in its place."""
        source = self.source[pin.id]
        fed = self.home[source]
        if fed.role == "tie":
            return pin.port == "carry-in"
        if not source.endswith(".carry-out"):
            return False
        return self.array.row[fed.id] == self.array.row[adder.id]

    def _over(self, pin: Pin) -> None:
        """What comes to a pin from above: a product, a bit of a word, a constant, a sum."""
        source = self.source[pin.id]
        element = self.home[source]
        x, y = self.placement.spots[pin.id]
        start = (x, y - _STEM)
        if element.role == "adder":
            if source.endswith(".sum"):
                self._route(source, pin.id, self.placement.spots[source], (x, y))
            return
        if element.role == "gate":
            made = self._product(element, source)
        elif element.role == "tie":
            held = next(p for e in self.placement.elements for p in e.pins if p.id == pin.id)
            made = terminals.tie(held, pin.id, element.label)
            made = replace(made, pins=(replace(made.pins[0], id=source),))
        else:
            nets = element.pins[0].nets
            place = nets.index(pin.nets[0])
            name = f"{element.label}({place})" if len(nets) > 1 else element.label
            made = terminals.bit(f"{pin.id}:bit", name, "bottom", pin.nets)
        own = made.pins[0].id
        self.placement.put_at(made, own, start)
        self._route(own, pin.id, start, (x, y))

    def _product(self, gate: Element, source: str) -> Element:
        """An AND gate as its bit, under the names of the bits that it takes in."""
        out = next(pin for pin in gate.pins if pin.id == source)
        names = self.array.products[gate.id]
        width = max(TABLE_CELL.width, *map(small, names))
        self.done |= {pin.id for pin in gate.pins}
        return replace(
            gate,
            role="product",
            label="\n".join(names),
            width=width,
            height=2 * _LINE + 2 + TABLE_CELL.height,
            pins=(out.put("bottom", width / 2),),
            frame=(0.0, 0.0, width, 2 * _LINE + 2 + TABLE_CELL.height),
            word=out.nets,
            cells=((width - TABLE_CELL.width) / 2, 2 * _LINE + 2),
            cell=TABLE_CELL,
            symbol=None,
            seed=None,
        )

    # ------------------------------------------------------------ words, carries, results

    def _words(self) -> None:
        """The words that come in, over the array at its left."""
        left = -self.pitch * max(self.array.column.values()) - self.wide / 2
        top = -_STEM - 2 * _LINE - TABLE_CELL.height - 12.0
        for element in self.scene.elements:
            if element.role != "input" or len(element.pins[0].nets) < 2:
                continue
            made = terminals.terminal_in(element.label, element.pins[0], control=False)
            made = replace(made, pins=())
            self.placement.put(made, (left, top - made.height))
            left += made.width + 32.0

    def _carries(self) -> None:
        """Straight to the left, or down to the next row."""
        for name in self.array.row:
            source = f"{name}.carry-out"
            for target in self.targets.get(source, ()):
                if self.home[target].role != "adder":
                    continue
                start, end = self.placement.spots[source], self.placement.spots[target]
                if start[1] == end[1]:
                    self._route(source, target, start, end)
                elif name not in self.array.sideways:
                    track = start[1] + _TRACK
                    self._route(source, target, start, (start[0], track), (end[0], track), end)
                else:
                    self._route(source, target, start, (end[0], start[1]), end)

    def _foot(self) -> None:
        """The bits of the result under their columns."""
        low = self.rise * max(self.array.row.values()) + _HEIGHT + _STEM + 2 * _TRACK
        for output in self.scene.elements:
            if output.role != "output":
                continue
            for pin in output.pins:
                source = self.source[pin.id]
                many = bool(pin.which)
                name = f"{output.label}{pin.which}" if many else output.label
                made = terminals.bit(f"{pin.id}:bit", name, "top", pin.nets)
                self._down(source, made, low)
                self.done.add(pin.id)

    def _down(self, source: str, made: Element, low: float) -> None:
        element = self.home[source]
        target = made.pins[0].id
        if element.role == "gate":  # a product that is itself a bit of the result
            column = self._weight(element)
            held = self._product(element, source)
            spot = (-self.pitch * column, -_STEM)
            self.placement.put_at(held, source, spot)
            line: Line = (spot, (spot[0], low))
        else:
            x, y = self.placement.spots[source]
            left = x
            if not source.endswith(".sum"):
                left = -self.pitch * (self.array.column[element.id] + 1)
            turn: Line = (
                ((x, y + _TRACK), (left, y + _TRACK))
                if element.id not in self.array.sideways
                else ((left, y),)
            )
            line = ((x, y), (x, low)) if left == x else ((x, y), *turn, (left, low))
        self.placement.put_at(made, target, line[-1])
        self._route(source, target, *line)

    def _weight(self, gate: Element) -> int:
        names = self.array.products[gate.id]
        return sum(int(name.partition("(")[2].rstrip(")") or 0) for name in names)
