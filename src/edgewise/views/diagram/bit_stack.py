"""Stack: a word of flip-flops, each behind its multiplexer, one bit below the other.

The rows are all alike, so their wires are too; a general layout loses that. Here every row
has the MSB's shape: data in from the left, the stored bit out to the right, and back over
its row to the tracks on the left, from where its neighbours take it::

    tracks      M(1)────Q(1)──┬──(1)
     │ │ │                    │
     │ └─┼── over row 0 ──────┐
     │   │      M(0)────Q(0)──┴──(0)
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace
from typing import Final

from edgewise.views.diagram.elements import Element, Pin
from edgewise.views.diagram.nets import Scene, Thread
from edgewise.views.layout.graph import Layout, PlacedBox, PlacedPort, PlacedWire, Point

_PAGE: Final = 12.0
_TRACK: Final = 12.0
"""From track to track."""
_GAP: Final = 16.0
"""Between the tracks and what stands beside them."""
_BETWEEN: Final = 32.0
"""From a multiplexer to its flip-flop."""
_OVER: Final = 16.0
"""From the wire over a row to the row."""
_UNDER: Final = 13.0
"""From a multiplexer to the wire that selects."""

Line = tuple[Point, ...]
_Interval = tuple[float, float]


def stack(scene: Scene) -> Scene | None:
    """The scene with its layout, if it is a word of flip-flops behind multiplexers.

    Examples
    --------
    >>> stack(Scene((), ())) is None
    True
    """
    pairs = _pairs(scene)
    if len(pairs) < 2:
        return None
    made = _Stack(scene, pairs)
    return made.scene_with_layout() if made.fits() else None


def _pairs(scene: Scene) -> list[tuple[Element, Element]]:
    """Each multiplexer with the flip-flop that it feeds, MSB first; empty if others are there."""
    if any(element.inside for element in scene.elements):
        return []
    home = {pin.id: element for element in scene.elements for pin in element.pins}
    pairs = []
    for thread in scene.threads:
        source, target = home[thread.source], home[thread.targets[0]]
        single = len(thread.targets) == 1
        if single and (source.role, target.role) == ("multiplexer", "storage"):
            pairs.append((source, target))
    paired = {element.id for pair in pairs for element in pair}
    for element in scene.elements:
        if element.role not in ("input", "output") and element.id not in paired:
            return []
        ports = {pin.port for pin in element.pins}
        if element.role == "storage" and ports - {"clock"} != {"d", "q"}:
            return []
        if element.role == "multiplexer" and any(
            pin.bus and pin.side != "bottom" for pin in element.pins
        ):
            return []
    return pairs[::-1]


@dataclass(slots=True)
class _Stack:
    """Places for the rows, then tracks, then everything else."""

    scene: Scene
    pairs: list[tuple[Element, Element]]
    spots: dict[str, Point] = field(default_factory=dict)
    """Of every pin."""
    corners: dict[str, Point] = field(default_factory=dict)
    """Top left corner of every element."""
    tracks: dict[str, int] = field(default_factory=dict)
    """Of every thread that runs up and down on the left."""
    over: dict[str, float] = field(default_factory=dict)
    """Of every stored bit: y of the wire back over its row."""
    outputs: dict[str, Element] = field(default_factory=dict)
    """Outputs, as high as the rows that they show."""

    @property
    def _inputs(self) -> list[Element]:
        return [e for e in self.scene.elements if e.role == "input"]

    def _pin(self, element: Element, port: str) -> Pin:
        return next(pin for pin in element.pins if pin.port == port)

    # ------------------------------------------------------------ places

    def fits(self) -> bool:
        """Find all places; False if two inputs would meet."""
        self._set_rows()
        self._set_outputs()
        return self._set_inputs()

    def _set_rows(self) -> None:
        front, behind = self.pairs[0]
        up = max(front.height / 2, self._pin(behind, "d").at)
        under = front.height / 2 + _UNDER
        down = max(under, behind.height - self._pin(behind, "d").at)
        pitch = _OVER + up + down + _TRACK
        for number, (mux, store) in enumerate(self.pairs):
            top = _PAGE + number * pitch
            middle = top + _OVER + up
            self.over[store.id] = top + 4
            self.corners[mux.id] = (-mux.width, middle - mux.height / 2)
            self.corners[store.id] = (_BETWEEN, middle - self._pin(store, "d").at)
            for element in (mux, store):
                self._set(element)

    def _set(self, element: Element) -> None:
        """Find the pins of an element that has its corner."""
        x, y = self.corners[element.id]
        for pin in element.pins:
            across = {"left": 0.0, "right": element.width}.get(pin.side, pin.at)
            below = {"top": 0.0, "bottom": element.height}.get(pin.side, pin.at)
            self.spots[pin.id] = (x + across, y + below)

    def _set_outputs(self) -> None:
        source = {target: t.source for t in self.scene.threads for target in t.targets}
        store = self.pairs[0][1]
        x = _BETWEEN + store.width + 40
        for element in self.scene.elements:
            if element.role != "output":
                continue
            ys = [self.spots[source[pin.id]][1] for pin in element.pins]
            top = min(ys) - 12
            pins = tuple(replace(p, at=y - top) for p, y in zip(element.pins, ys, strict=True))
            height = max(max(ys) - top + 12, element.height)
            cells = (element.cells[0], (height - element.cell.height) / 2)
            made = replace(element, pins=pins, height=height, cells=cells)
            if len(pins) == 1:
                made = replace(element)
                top = ys[0] - element.pins[0].at
            left, _, right, _ = element.frame
            self.outputs[element.id] = replace(made, frame=(left, 0.0, right, made.height))
            self.corners[element.id] = (x, top)
            self._set(self.outputs[element.id])

    def _set_inputs(self) -> bool:
        """Give each input the height of one of its sinks, then each net its track."""
        taken: list[_Interval] = []
        for element in self._inputs:
            pin = element.pins[0]
            thread = next(t for t in self.scene.threads if t.source == pin.id)
            if not self._inner(thread):
                self._set_below(element)
                continue
            for y in sorted(self._level(target) for target in thread.targets):
                room = (y - pin.at, y - pin.at + element.height)
                if all(room[1] + 4 <= low or high + 4 <= room[0] for low, high in taken):
                    taken.append(room)
                    self.corners[element.id] = (0.0, room[0])
                    self.spots[pin.id] = (0.0, y)
                    break
            else:
                return False
        self._set_tracks()
        last = max(self.tracks.values(), default=0)
        widest = max(mux.width for mux, _ in self.pairs)
        edge = -widest - 2 * _GAP - _TRACK * last
        for element in self._inputs:
            self.corners[element.id] = (edge - element.width, self.corners[element.id][1])
            self._set(element)
        return True

    def _set_below(self, element: Element) -> None:
        """The clock comes from below all rows."""
        pin = element.pins[0]
        low = max(self._level(pin.id) for mux, _ in self.pairs for pin in mux.pins)
        self.corners[element.id] = (0.0, low + 28 - pin.at)
        self.spots[pin.id] = (0.0, low + 28)

    def _level(self, target: str) -> float:
        """The y at which a wire comes to a pin from the tracks."""
        y = self.spots[target][1]
        below = any(
            pin.id == target and pin.side == "bottom" for m, _ in self.pairs for pin in m.pins
        )
        return y + _UNDER if below else y

    def _set_tracks(self) -> None:
        """Threads that run up and down, in as few tracks as there are at one height."""
        full: list[list[_Interval]] = []
        for thread in sorted(self.scene.threads, key=self._rank):
            ys = self._heights(thread)
            if len(set(ys)) < 2:
                continue
            low, high = min(ys), max(ys)
            for number, others in enumerate(full):
                if all(high + _TRACK <= a or b + _TRACK <= low for a, b in others):
                    others.append((low, high))
                    self.tracks[thread.id] = number
                    break
            else:
                self.tracks[thread.id] = len(full)
                full.append([(low, high)])

    def _rank(self, thread: Thread) -> bool:
        """Inputs have the tracks on the left."""
        return all(thread.source != e.pins[0].id for e in self._inputs)

    def _inner(self, thread: Thread) -> list[str]:
        """The targets at multiplexers."""
        there = {pin.id for mux, _ in self.pairs for pin in mux.pins}
        return [target for target in thread.targets if target in there]

    def _heights(self, thread: Thread) -> list[float]:
        """Every y at which a thread meets its track."""
        inner = self._inner(thread)
        if not inner:
            return []
        owner = thread.source.rpartition(".")[0]
        start = self.over.get(owner, self.spots[thread.source][1])
        return [start, *map(self._level, inner)]

    # ------------------------------------------------------------ wires

    def _x(self, thread: Thread) -> float:
        last = max(self.tracks.values(), default=0)
        widest = max(mux.width for mux, _ in self.pairs)
        return -widest - _GAP - _TRACK * (last - self.tracks[thread.id])

    def _lines(self, thread: Thread) -> Iterator[Line]:
        from edgewise.views.layout.routing import straight  # few figures need it, and it takes time

        start = self.spots[thread.source]
        inner = self._inner(thread)
        for target in thread.targets:
            if target not in inner and self.spots[target][1] == start[1]:
                yield straight((start, self.spots[target]))
        if not inner:
            yield from self._clock(start, thread)
            return
        lead: Line = (start,)
        owner = thread.source.rpartition(".")[0]
        if owner in self.over:
            x = start[0] + 14
            lead = ((x, start[1]), (x, self.over[owner]))
            if len(inner) == len(thread.targets):
                lead = (start, *lead)
        if thread.id not in self.tracks:
            yield straight((*lead, *self._ends(inner[0], lead[-1][0])))
            return
        x = self._x(thread)
        yield from self._comb(lead, x, inner)

    def _clock(self, start: Point, thread: Thread) -> Iterator[Line]:
        """From below between multiplexers and flip-flops, to each clock input."""
        from edgewise.views.layout.routing import straight

        ends = [self.spots[t] for t in thread.targets if self.spots[t][1] != start[1]]
        x = _BETWEEN / 2
        for number, end in enumerate(sorted(ends, key=lambda end: end[1])):
            lead: Line = (start, (x, start[1])) if number == 0 else ()
            yield straight((*lead, (x, end[1]), end))

    def _comb(self, lead: Line, x: float, inner: Sequence[str]) -> Iterator[Line]:
        """From the lead to the track, and from there to each target, the farthest first."""
        from edgewise.views.layout.routing import straight

        here = lead[-1][1]
        level = [t for t in inner if self._level(t) == here]
        above = sorted((t for t in inner if self._level(t) < here), key=self._level)
        below = sorted((t for t in inner if self._level(t) > here), key=self._level, reverse=True)
        first = True
        for group in (level, above, below):
            for number, target in enumerate(group):
                y = self._level(target)
                run: Line = (x, here), (x, y)
                if number and group is not level:
                    run = ((x, y),)
                if first:
                    run = (*lead, *run)
                    first = False
                yield straight((*run, *self._ends(target, x)))

    def _ends(self, target: str, _x: float) -> Line:
        """The last corners of the way to a pin of a multiplexer."""
        x, y = self.spots[target]
        level = self._level(target)
        return ((x, level), (x, y)) if level != y else ((x, y),)

    # ------------------------------------------------------------ the result

    def scene_with_layout(self) -> Scene:
        """The scene with the places found, moved onto the page."""
        elements = tuple(replace(self.outputs.get(e.id, e), seed=None) for e in self.scene.elements)
        move = _PAGE - min(x for x, _ in self.corners.values())
        boxes = tuple(
            PlacedBox(e.id, self.corners[e.id][0] + move, self.corners[e.id][1], e.width, e.height)
            for e in elements
        )
        ports = tuple(
            PlacedPort(pin.id, self.spots[pin.id][0] + move, self.spots[pin.id][1], pin.side, e.id)
            for e in elements
            for pin in e.pins
        )
        wires = tuple(self._wire(thread, move) for thread in self.scene.threads)
        bottoms = [box.y + box.height for box in boxes]
        bottoms += [y for wire in wires for line in wire.lines for _, y in line]
        layout = Layout(
            max(box.x + box.width for box in boxes) + _PAGE,
            max(bottoms) + _PAGE,
            boxes,
            ports,
            wires,
        )
        return replace(self.scene, elements=elements, fixed=layout)

    def _wire(self, thread: Thread, move: float) -> PlacedWire:
        from edgewise.views.layout.routing import dots

        lines = tuple(_moved(line, move) for line in self._lines(thread))
        return PlacedWire(
            thread.id, thread.source, thread.targets, thread.kind, None, lines, dots(lines)
        )


def _moved(line: Line, by: float) -> Line:
    return tuple((x + by, y) for x, y in line)
