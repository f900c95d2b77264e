"""Slices: a word of flip-flops, each under its multiplexer, one bit beside the other.

A bit goes back up to its own multiplexer and to those of its neighbours; what comes from outside
stands over its input. Found in the nets, the MSB left::

         w(1)         w(0)
       [ M(1) ]     [ M(0) ]
     ┌─[ Q(1) ]─┬───[ Q(0) ]
        word(1)      word(0)
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from typing import Final

from edgewise.circuit.model import CLOCK
from edgewise.views.diagram import terminals
from edgewise.views.diagram.elements import Element, Pin, small
from edgewise.views.diagram.nets import Scene, Thread
from edgewise.views.diagram.placement import Line, Placement
from edgewise.views.drawing import theme
from edgewise.views.drawing.text_metrics import width as text_width
from edgewise.views.drawing.theme import DIAGRAM_CELL, TABLE_CELL
from edgewise.views.layout.graph import Point

_HIGH: Final = 52.0
"""Of a multiplexer."""
_SLANT: Final = 12.0
"""By how much it is narrower at its output, at each side."""
_STORE: Final = 70.0
_LOW: Final = 62.0
"""Of a flip-flop; of a narrow one."""
_BETWEEN: Final = 16.0
"""From a multiplexer to its flip-flop, and from that to where its bit turns."""
_LEVEL: Final = 10.0
"""From wire to wire over a multiplexer."""
_STEM: Final = 14.0


@dataclass(frozen=True, slots=True)
class Slice:
    """A multiplexer with the flip-flop that it feeds."""

    select: Element
    store: Element


@dataclass(frozen=True, slots=True)
class Arrival:
    """What comes to an input of a multiplexer from the side, over it: how high, and from where."""

    pin: str
    source: str
    level: int
    right: bool = False


def slices(scene: Scene, *, narrow: bool = False) -> Scene | None:
    """The scene with its places, if it is a word of flip-flops behind multiplexers.

    Examples
    --------
    >>> slices(Scene((), ())) is None
    True
    """
    found = _found(scene)
    if len(found) < 2:
        return None
    made = _Places(scene, found, narrow)
    return made.placed() if made.build() else None


def _found(scene: Scene) -> list[Slice]:
    """The slices from the LSB on; empty if anything else is there."""
    home = {pin.id: element for element in scene.elements for pin in element.pins}
    given = {end: home[t.source].role for t in scene.threads for end in t.targets}
    if any(e.inside for e in scene.elements) or any(p.port == CLOCK for p in scene.pins.values()):
        return []
    found = []
    for thread in scene.threads:
        source, target = home[thread.source], home[thread.targets[0]]
        single = len(thread.targets) == 1
        if single and (source.role, target.role) == ("multiplexer", "storage"):
            found.append(Slice(source, target))
    known = {element.id for one in found for element in (one.select, one.store)}
    for element in scene.elements:
        if element.role not in ("input", "output", "tie") and element.id not in known:
            return []
        if element.role == "storage" and {pin.port for pin in element.pins} != {"d", "q"}:
            return []
        for pin in element.pins if element.role == "multiplexer" else ():
            if pin.bus and pin.side == "left":
                return []
            if pin.side == "bottom" and given[pin.id] != "input":
                return []
    return found


@dataclass(slots=True)
class _Places:
    scene: Scene
    slices: list[Slice]
    narrow: bool
    placement: Placement = field(default_factory=Placement)
    home: dict[str, Element] = field(init=False)
    source: dict[str, str] = field(init=False)
    threads: dict[str, Thread] = field(init=False)
    place: dict[str, int] = field(init=False)
    """Of every multiplexer and flip-flop: which slice it is of, from the LSB on."""
    arrivals: defaultdict[int, list[Arrival]] = field(default_factory=lambda: defaultdict(list))
    over: dict[int, str] = field(default_factory=dict)
    """The input of a multiplexer that has its source over it."""

    def __post_init__(self) -> None:
        self.home = {pin.id: e for e in self.scene.elements for pin in e.pins}
        self.source = {end: t.source for t in self.scene.threads for end in t.targets}
        self.threads = {thread.source: thread for thread in self.scene.threads}
        self.place = {
            element.id: i
            for i, one in enumerate(self.slices)
            for element in (one.select, one.store)
        }

    def placed(self) -> Scene:
        """The scene on the page."""
        return self.placement.scene("left")

    def build(self) -> bool:
        """Lay everything; False if there is no room for it."""
        if not all(self._sorted(i) for i in range(len(self.slices))) or not self._shown():
            return False
        for i, one in enumerate(self.slices):
            self._slice(i, one)
        for i in range(len(self.slices)):
            self._stored(i)
            self._from_over(i)
        self._from_sides()
        self._selected()
        return True

    # ------------------------------------------------------------ what comes from where

    def _data(self, select: Element) -> list[Pin]:
        return [pin for pin in select.pins if pin.side == "left"]

    def _sorted(self, i: int) -> bool:
        """Which inputs are fed from the left, from the right and from over the slice."""
        sides: dict[bool, list[Pin]] = {False: [], True: []}
        for pin in self._data(self.slices[i].select):
            given = self.source[pin.id]
            home = self.home[given]
            step = self.place[home.id] - i if home.id in self.place else None
            ends = len(self.threads[given].targets) == 1 and home.role == "input"
            if step in (0, 1) or (ends and i == len(self.slices) - 1):
                sides[False].append(pin)
            elif step == -1 or (ends and i == 0):
                sides[True].append(pin)
            elif i in self.over:
                return False
            else:
                self.over[i] = pin.id
        order = [pin.id for pin in self._data(self.slices[i].select)]
        level = 0
        for pin in sides[False]:  # what goes further runs higher
            level += 1
            self.arrivals[i].append(Arrival(pin.id, self.source[pin.id], level))
        apart = not sides[False] or not sides[True]
        apart = apart or order.index(sides[False][-1].id) < order.index(sides[True][0].id)
        level = 0 if apart else level
        for pin in reversed(sides[True]):
            level += 1
            self.arrivals[i].append(Arrival(pin.id, self.source[pin.id], level, right=True))
        return True

    def _shown(self) -> bool:
        """Whether each stored bit is shown once at most, and outputs show nothing else."""
        outputs = [e for e in self.scene.elements if e.role == "output"]
        shown = [self.home[self.source[pin.id]].id for e in outputs for pin in e.pins]
        stores = {one.store.id for one in self.slices}
        return len(shown) == len({*shown}) and stores >= {*shown}

    # ------------------------------------------------------------ sizes

    @property
    def _step(self) -> float:
        """From input to input of a multiplexer."""
        return 11.0 if self.narrow else 14.0

    @property
    def _wide(self) -> float:
        """Of a slice."""
        inputs = max(len(self._data(one.select)) for one in self.slices)
        names = [text_width(one.store.label, theme.SIZE_NAME) for one in self.slices]
        store = max(map(small, (one.store.label for one in self.slices))) + 20.0
        if not self.narrow:
            store = max(names) + DIAGRAM_CELL.width + 38.0
        return float(2 * round(max(self._step * inputs + 2 * _SLANT - 6.0, store) / 2))

    @property
    def _ways(self) -> tuple[float, float, float]:
        """Px right of a slice: where it is selected, its bit goes up, and the next one's does."""
        return (6.0, 14.0, 26.0) if self.narrow else (8.0, 18.0, 30.0)

    @property
    def _pitch(self) -> float:
        return self._wide + self._ways[2] + self._ways[0]

    def _x(self, i: int) -> float:
        """The middle of a slice."""
        return -self._pitch * i

    def _edge(self, i: int) -> float:
        """The right edge of a slice; of one left of all, too."""
        return self._x(i) + self._wide / 2

    def _spot(self, pin: str) -> Point:
        return self.placement.spots[pin]

    # ------------------------------------------------------------ a slice

    def _slice(self, i: int, one: Slice) -> None:
        x = self._x(i)
        data = self._data(one.select)
        wide = self._step * len(data) + 2 * _SLANT - 6.0
        out = next(pin for pin in one.select.pins if pin.side == "right")
        select = next(pin for pin in one.select.pins if pin.side == "bottom")
        first = wide / 2 - self._step * (len(data) - 1) / 2
        pins = [
            replace(pin, note="", which="").put("top", first + self._step * k, pin.label)
            for k, pin in enumerate(data)
        ]
        pins += [
            out.put("bottom", wide / 2),
            select.put("right", _HIGH / 2, stub=_SLANT / 2),
        ]
        made = replace(
            one.select,
            role="selector",
            width=wide,
            height=_HIGH,
            frame=(0.0, 0.0, wide, _HIGH),
            pins=tuple(pins),
            seed=None,
        )
        self.placement.put(made, (x - wide / 2, 0.0))
        self._store(one.store, x)
        source, target = out.id, f"{one.store.id}.d"
        line = [(self._spot(source), self._spot(target))]
        self.placement.join(Thread(f"{source}~", source, (target,)), line)

    def _store(self, store: Element, x: float) -> None:
        """A flip-flop: what it takes in above, what it holds below."""
        ports = {pin.port: pin for pin in store.pins}
        wide, high = (self._wide, _LOW) if self.narrow else (self._wide - 4.0, _STORE)
        label = "" if self.narrow else ports["d"].label
        pins = (ports["d"].put("top", wide / 2, label), ports["q"].put("bottom", wide / 2))
        cell = TABLE_CELL if self.narrow else DIAGRAM_CELL
        cells = ((wide - cell.width) / 2, 22.0)
        if not self.narrow:
            cells = (wide - 10 - cell.width, 24.0)
        made = replace(
            store,
            role="stored" if self.narrow else "beneath",
            width=wide,
            height=high,
            frame=(0.0, 0.0, wide, high),
            pins=pins,
            cells=cells,
            cell=cell,
            wedge=high - 12.0 if store.wedge else 0.0,
            seed=None,
        )
        self.placement.put(made, (x - wide / 2, _HIGH + _BETWEEN))

    # ------------------------------------------------------------ what is stored

    def _at(self, i: int, given: str) -> Iterator[Arrival]:
        """Where a bit comes to a slice, from below upwards."""
        found = [one for one in self.arrivals[i] if one.source == given]
        yield from sorted(found, key=lambda one: one.level)

    def _stored(self, i: int) -> None:
        """From a flip-flop down to its bit of the output, and up to the multiplexers."""
        given = f"{self.slices[i].store.id}.q"
        x, y = self._spot(given)
        turn = y + _BETWEEN
        lines: list[Line] = []
        targets: list[str] = []
        for end in self.threads[given].targets if given in self.threads else ():
            if self.home[end].role == "output":
                name = self._name(end)
                made = terminals.bit(name, name, "top", self.slices[i].store.word)
                spot = (x, turn + _STEM)
                self.placement.put_at(made, made.pins[0].id, spot)
                targets.append(made.pins[0].id)
                lines.append(((x, y), spot))
        left = self._edge(i + 1) + self._ways[2]
        up = [*self._at(i, given), *self._at(i + 1, given)]
        right = [*self._at(i - 1, given)]
        for way, ends in ((left, up), (self._edge(i) + self._ways[1], right)):
            here = turn
            for place, one in enumerate(sorted(ends, key=lambda one: one.level)):
                lead: Line = ((way, here),)
                if place == 0:
                    lead = (*(() if lines else ((x, y),)), (x, turn), (way, turn))
                here = -_LEVEL * one.level - 6.0
                spot = self._spot(one.pin)
                lines.append((*lead, (way, here), (spot[0], here), spot))
                targets.append(one.pin)
        if targets:
            self.placement.join(Thread(f"{given}~", given, tuple(targets)), lines)

    def _name(self, end: str) -> str:
        """The name of the bit of an output that a pin is."""
        element = self.home[end]
        pin = next(pin for pin in element.pins if pin.id == end)
        return f"{element.label}{pin.which}"

    # ------------------------------------------------------------ what comes from outside

    @property
    def _top(self) -> float:
        """Over all wires to neighbours."""
        levels = [one.level for ones in self.arrivals.values() for one in ones]
        return -_LEVEL * max(levels, default=0) - 6.0 - _STEM / 2

    def _from_over(self, i: int) -> None:
        """What stands over an input: a bit of a word, one far away by its name, a constant."""
        if i not in self.over:
            return
        pin = self.scene.pins[self.over[i]]
        given = self.home[self.source[pin.id]]
        x, y = self._spot(pin.id)
        name = f"{given.label}{pin.note}"
        if given.role == "tie":
            made = terminals.tie(replace(pin, side="top"), pin.id, given.label)
        else:
            made = terminals.bit(f"{pin.id}:over", name, "bottom", pin.nets)
        source = made.pins[0].id
        start = (x, self._top)
        self.placement.put_at(made, source, start)
        self.placement.join(Thread(f"{source}~", source, (pin.id,)), [(start, (x, y))])

    def _from_sides(self) -> None:
        """Inputs that only the first slice or only the last takes in, beside it."""
        last = len(self.slices) - 1
        for i in {0, last}:
            for one in self.arrivals[i]:
                given = self.home[one.source]
                if given.role != "input":
                    continue
                y = -_LEVEL * one.level - 6.0
                end = self._spot(one.pin)
                side = self._edge(0) + self._ways[1]
                if not one.right:
                    side = self._edge(last + 1) + self._ways[1]
                made = terminals.bit(
                    one.source.removesuffix("."),
                    given.label,
                    "left" if one.right else "right",
                    given.pins[0].nets,
                )
                source = made.pins[0].id
                self.placement.put_at(made, source, (side, y))
                way = [((side, y), (end[0], y), end)]
                self.placement.join(Thread(f"{source}~", source, (one.pin,)), way)

    def _selected(self) -> None:
        """What selects, over everything, and down at the right of each multiplexer."""
        groups: defaultdict[str, list[str]] = defaultdict(list)
        for one in self.slices:
            select = next(pin for pin in one.select.pins if pin.side == "bottom")
            groups[self.source[select.id]].append(select.id)
        y = min(y for _, y in self.placement.corners.values()) - _STEM
        for given, ends in groups.items():
            home = self.home[given]
            own = replace(home.pins[0], note="")
            made = terminals.terminal_in(home.label, own, control=home.control)
            x = self._edge(len(self.slices)) + self._ways[1]
            self.placement.put_at(made, given, (x, y))
            lines: list[Line] = []
            order = sorted(ends, key=lambda pin: -self._spot(pin)[0])
            for place, target in enumerate(order):
                end = self._spot(target)
                way = self._edge(self.place[self.home[target].id]) + self._ways[0]
                lead: Line = ((x, y),) if place == 0 else ()
                lines.append((*lead, (way, y), (way, end[1]), end))
            kind = self.threads[given].kind
            self.placement.join(Thread(f"{given}~", given, tuple(order), kind), lines)
            y -= 2 * _STEM
