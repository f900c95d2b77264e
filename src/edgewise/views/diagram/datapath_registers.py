"""The registers of a datapath: side by side under the adder, what comes in and what goes out.

What stands at the wires, how many bits they have and which, is noted as they are laid.
"""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from math import ceil
from typing import Final

from edgewise.views.diagram import terminals
from edgewise.views.diagram.cell_wiring import Wiring
from edgewise.views.diagram.datapath import Datapath
from edgewise.views.diagram.elements import Element, Mark, Pin, small
from edgewise.views.diagram.part_geometry import BLOCK
from edgewise.views.diagram.placement import Line
from edgewise.views.drawing.bit_cells import cells_height
from edgewise.views.drawing.theme import TABLE_CELL

HEIGHT: Final = 64.0
"""Of the adder."""
_GAP: Final = 18.0
"""Between the adder and the registers under it."""
STEM: Final = 16.0
NAME: Final = 8.0
"""From the name of a control to its pin: so near that they stay together."""
DROP: Final = 22.0
"""Under a word: its bands, then how many bits it has."""
_TRACK: Final = 12.0
"""From the adder down to the wire that leaves to the right."""
_STEP: Final = 19.0
"""From pin to pin at the side of a register: names with their bits stand there."""


@dataclass(slots=True)
class DatapathRegisters(Wiring):
    """The registers of a datapath, and what stands at its wires."""

    path: Datapath = field(kw_only=True)
    marks: list[Mark] = field(default_factory=list)

    @property
    def wide(self) -> float:
        """The width of the adder."""
        return next(e.width for e in self.placement.elements if e.role == "cell")

    @property
    def left(self) -> float:
        """The left end of the register under the adder."""
        assert self.row.below is not None
        return self.placement.corners[self.row.below.id][0]

    def registers(self, name: str, width: float) -> None:
        """The register under the adder, and the one into which its LSB goes on."""
        below = self.row.below
        assert below is not None
        cells, source = self.row.cells, f"{name}.sum"
        x, y = self.spot(source)
        sums = {p.id: i for i, c in enumerate(cells) for p in c.adder.pins if p.port == "sum"}
        fed = [pin for pin in below.pins if self.source.get(pin.id) in sums]
        carried = [pin for pin in below.pins if self.source.get(pin.id, "").endswith("carry-out")]
        kept = bare(below, least=width)
        wide = kept.width
        left = -wide / 2
        q = f"{below.id}.q"
        up = Pin(f"{q}!", "q", below.word).put("top", -2 * STEM - left)
        places = [sums[self.source[pin.id]] for pin in fed]
        ins = Pin(f"{below.id}.d!", "d", tuple(p.nets[0] for p in fed)).put("top", x - left)
        tops = [up, ins, *(replace(pin, note="").put("top", 12.0) for pin in carried)]
        taken = {pin.id for pin in (*fed, *carried)}
        sides = [pin for pin in kept.pins if pin.side == "left" and pin.id not in taken]
        made = compact(replace(kept, pins=(*sides, *tops)))
        if self.path.lower:
            made = replace(made, arrow="right")
        self.placement.put(made, (left, HEIGHT + _GAP))
        self.done |= {pin.id for pin in fed}
        end = self.spot(ins.id)
        self.route(source, ins.id, (x, y), end)
        if len(fed) < len(cells):
            which = f"({max(places)}..{min(places)})" if len(places) > 1 else f"({places[0]})"
            self._note(which, x - small(which) / 2, y + _GAP + 15)
        else:
            self.bus(x, y + _GAP / 2, ins.nets)
        target = next((f"{name}.{p}" for p, s in self.path.words.items() if s == q), None)
        if target:
            self.route(up.id, target, self.spot(up.id), self.spot(target))
            self.bus(self.spot(up.id)[0], y + _GAP / 2, below.word)
        for pin in carried:
            start = self.spot(self.source[pin.id])
            turn, (px, py) = start[0] - STEM, self.spot(pin.id)
            way: Line = (start, (turn, start[1]), (turn, y + _TRACK), (px, y + _TRACK), (px, py))
            self.route(self.source[pin.id], pin.id, *way)
        if self.row.last is not None:
            self._last(name, self.row.last)

    def _last(self, name: str, last: Element) -> None:
        """The register right of that under the adder, which takes in the lowest sum."""
        below = self.row.below
        assert below is not None
        made = bare(last, top=f"{last.id}.out")
        words = [pin for pin in made.pins if pin.side == "left" and self.pins[pin.id].bus]
        others = [pin for pin in made.pins if pin not in words]
        over = [p.put("top", made.width - 12.0 - 14.0 * i) for i, p in enumerate(words, 1)]
        over = [replace(p, at=made.width - 12.0) for p in over[:1]]
        made = compact(replace(made, pins=(*others, *over), arrow="right"))
        names = [
            terminals.terminal_in(self.home[self.source[p.id]].label, p, control=True).width
            for p in made.pins
            if p.side == "left" and p.port != "in"
        ]
        room = max([3 * STEM, *(wide + 2 * STEM for wide in names)])
        x = self.placement.corners[below.id][0] + bare(below, least=self.wide).width + room
        self.placement.put(made, (x, HEIGHT + _GAP))
        start, end = self.spot(f"{name}.sum"), self.spot(f"{last.id}.in")
        track = start[1] + _TRACK
        turn = end[0] - room + STEM / 2
        way: Line = ((start[0], track), (turn, track), (turn, end[1]), end)
        self.route(f"{name}.sum", f"{last.id}.in", *way)
        self._note("(0)", turn + 4, end[1] - 6)

    def inputs(self) -> None:
        """Words and controls at the left of the registers."""
        for element in [*self.placement.elements]:
            stem = NAME
            for pin in element.pins:
                source = self.source.get(pin.id)
                if source is None or pin.id in self.done or pin.side not in ("left", "top"):
                    continue
                given = self.home[source]
                if given.role not in ("input", "tie"):
                    continue
                if pin.side == "top":
                    self._down(pin, source)
                    continue
                x, y = self.spot(pin.id)
                if given.role == "tie":
                    made = terminals.tie(pin, pin.id, given.label)
                else:
                    own = replace(given.pins[0], id=f"{pin.id}:name.")
                    made = terminals.terminal_in(given.label, own, control=given.control)
                own = made.pins[0]
                self.placement.put_at(made, own.id, (x - stem, y))
                self.route(own.id, pin.id, (x - stem, y), (x, y))
                self.kinds[own.id] = self.kinds.get(source, "")
                stem += ceil(made.width) + 4

    def _down(self, pin: Pin, source: str) -> None:
        """A word that comes down to the second register, over the gates."""
        x, y = self.spot(pin.id)
        element = self.home[source]
        made = terminals.word(element.id, element.label, "bottom", self.pins[source].nets)
        own, low = replace(made.pins[0], id=source), y - DROP
        if self.row.last is not None and pin.id.startswith(f"{self.row.last.id}."):
            own = replace(own, at=made.width - TABLE_CELL.width / 2)
            low = -DROP - 20.0
        made = replace(made, pins=(own,))
        self.placement.put_at(made, source, (x, low))
        self.route(source, pin.id, (x, low), (x, y))
        self.bus(x, low + DROP - STEM / 2, self.pins[source].nets)

    def outputs(self) -> None:
        """What the registers show."""
        for element in [e for e in (self.row.below, self.row.last) if e is not None]:
            q = f"{element.id}.q"
            for end in self.targets.get(q, ()):
                shown = self.home[end]
                if shown.role != "output" or end in self.done:
                    continue
                if len(shown.pins) > 1:
                    self._gathered(shown)
                else:
                    self._shown(element, q, end)

    def _shown(self, element: Element, q: str, end: str) -> None:
        """An output right of its register."""
        kept = next(e for e in self.placement.elements if e.id == element.id)
        x, y = self.placement.corners[element.id]
        at = kept.cells[1] + kept.cell.height / 2
        pin = Pin(q, "q", element.word).put("right", at)
        self._add(element.id, pin, (x + kept.width, y + at))
        made = replace(self.home[end], seed=None, hangs_on=None)
        spot = (x + kept.width + 2 * STEM, y + at)
        self.placement.put_at(made, end, spot)
        self.route(q, end, (x + kept.width, y + at), spot)
        self.bus_across(x + kept.width + STEM, y + at, element.word)

    def _gathered(self, shown: Element) -> None:
        """An output of the words of several registers: a bar under them, its cells under that."""
        ends = {pin.id: self.source[pin.id] for pin in shown.pins}
        homes = [self.home[source] for source in ends.values()]
        known = {e.id: e for e in self.placement.elements}
        if any(home.id not in known for home in homes):
            return
        low = max(
            self.placement.corners[e.id][1] + e.height
            for e in self.placement.elements
            if e.id in {home.id for home in homes} or e.role == "input"
        )
        xs = {}
        for end, source in ends.items():
            home = known[self.home[source].id]
            x = self.placement.corners[home.id][0] + 20.0
            xs[end] = x
            pin = Pin(source, "q", self.pins[source].nets).put("bottom", 20.0)
            self._add(home.id, pin, (x, self.placement.corners[home.id][1] + home.height))
        left = min(xs.values()) - 12
        width = max(xs.values()) + 12 - left
        made = terminals.gathered(shown, width, {end: x - left for end, x in xs.items()})
        self.placement.put(made, (left, low + STEM))
        for end, source in ends.items():
            self.route(source, end, self.spot(source), self.spot(end))
            self._note(self.pins[end].which, xs[end] + 5, self.spot(end)[1] - 4)

    def _add(self, ident: str, pin: Pin, spot: tuple[float, float]) -> None:
        """One more pin of an element that has its place."""
        for i, element in enumerate(self.placement.elements):
            if element.id == ident:
                self.placement.elements[i] = replace(element, pins=(*element.pins, pin))
        self.placement.spots[pin.id] = spot

    def bus(self, x: float, y: float, nets: tuple[int, ...]) -> None:
        """How many bits a wire downwards has, right of it."""
        if len(nets) > 1:
            self.marks.append(Mark(x, y, str(len(nets)), "down"))

    def bus_across(self, x: float, y: float, nets: tuple[int, ...]) -> None:
        """How many bits a wire from side to side has, over it."""
        self.marks.append(Mark(x, y, str(len(nets)), "across"))

    def _note(self, text: str, x: float, base: float) -> None:
        """Which bits a wire takes, its base line there."""
        self.marks.append(Mark(x, base, text, "bits"))


def bare(
    element: Element, *, down: float | None = None, top: str = "", least: float = 0.0
) -> Element:
    """A register without margins, at least so wide: its inputs at the left.

    `down`: px from the left to its word, which leaves at the bottom; `top`: the pin that leaves
    at the top, over the LSB.
    """
    left, _, right, _ = element.frame
    width = max(float(round(right - left)), least)
    room = width - (right - left)
    pins: list[Pin] = []
    for pin in element.pins:
        if pin.id == top:
            pins.append(pin.put("top", width - 32.0))
        elif pin.side == "left":
            pins.append(replace(pin, stub=0.0, note=""))
        elif pin.port == "q" and down is not None:
            pins.append(pin.put("bottom", down))
    return replace(
        element,
        width=width,
        frame=(0.0, 0.0, width, element.height),
        cells=(element.cells[0] - left + room / 2, element.cells[1]),
        pins=tuple(pins),
        seed=None,
    )


def compact(element: Element) -> Element:
    """A register no higher than its pins at the left need, each with room for a name before it."""
    body = element.cells[1] + cells_height(len(element.word), element.cell)
    moved, low, block = dict[str, float](), body + 9.0, 0.0
    for pin in sorted(element.pins, key=lambda pin: pin.at):
        if pin.side == "left" and pin.at > body:
            if element.block and pin.at > element.block and not block:
                block, low = low, low + BLOCK
            moved[pin.id] = low
            low += _STEP
    if element.block and not block:
        block, low = low, low + BLOCK
    pins = [replace(pin, at=moved.get(pin.id, pin.at)) for pin in element.pins]
    wedge = low if element.wedge else 0.0
    high = max(body + 9.0, low + (13.0 if wedge else 13.0 - _STEP))
    frame = (*element.frame[:3], high)
    return replace(element, pins=tuple(pins), wedge=wedge, height=high, frame=frame, block=block)
