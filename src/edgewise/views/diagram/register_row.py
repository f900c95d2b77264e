"""Register row: flip-flops that shift into one another, with sums between and one feedback line.

Found in the nets: each flip-flop takes what the one before holds, straight or through an XOR gate
with the feedback; the feedback is what the last one holds, or its XOR with what comes in. Drawn as
in books on codes, the MSB left, whichever way the bits move::

      crc(2)     crc(1)     crc(0)
    ⊕──[R(2)]──⊕──[R(1)]─────[R(0)]──┐
    │          │                      │
    └──────────┴──────────────────────┘
"""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from math import ceil
from typing import Final

from edgewise.circuit.truth import Function
from edgewise.views.diagram.elements import Element, Pin
from edgewise.views.diagram.nets import Scene, Thread
from edgewise.views.diagram.placement import Placement
from edgewise.views.diagram.terminals import bit
from edgewise.views.layout.graph import Point, Side

_LEAST: Final = 3
"""Flip-flops in a row."""
_RADIUS: Final = 10.0
_GAP: Final = 16.0
_LINE: Final = 26.0
"""From the row to the feedback line."""
_STEM: Final = 20.0


@dataclass(frozen=True, slots=True)
class RegisterRow:
    """Flip-flops in the order in which bits move through them.

    Parameters
    ----------
    stores : tuple of Element
    sums : dict of str to Element
        By the flip-flop that each feeds.
    feedback : Element, optional
        The gate that makes it; what the last flip-flop holds, without one.
    """

    stores: tuple[Element, ...]
    sums: dict[str, Element]
    feedback: Element | None


class _NoRow(Exception):
    """There is something in the scene that a row of flip-flops does not have."""


def row(scene: Scene) -> Scene | None:
    """The scene with its places, if it is a row of flip-flops; else nothing.

    Examples
    --------
    >>> row(Scene((), ())) is None
    True
    """
    stores = [e for e in scene.elements if e.role == "storage" and len(e.word) == 1]
    others = {e.role for e in scene.elements} - {"storage", "gate", "input", "output"}
    if len(stores) < _LEAST or others or any(e.inside for e in scene.elements):
        return None
    try:
        return _Places(scene, _Search(scene, stores).found()).placed()
    except _NoRow:
        return None


def _is_xor(element: Element) -> bool:
    """Whether it is a gate of two inputs that adds."""
    from edgewise.circuit.parts import function

    of: Function | None = function(element.kind) if element.role == "gate" else None
    return of is not None and of.plain == "xor" and len(element.pins) == 3


@dataclass(slots=True)
class _Search:
    scene: Scene
    stores: list[Element]
    home: dict[str, Element] = field(init=False)
    source: dict[str, str] = field(init=False)

    def __post_init__(self) -> None:
        self.home = {pin.id: element for element in self.scene.elements for pin in element.pins}
        self.source = {end: t.source for t in self.scene.threads for end in t.targets}

    def found(self) -> RegisterRow:
        if any({pin.port for pin in store.pins} != {"d", "q"} for store in self.stores):
            raise _NoRow
        fed = {store.id: self.home[self.source[f"{store.id}.d"]] for store in self.stores}
        before: dict[str, Element] = {}
        sums: dict[str, Element] = {}
        loops: set[str] = set()
        for store in self.stores:
            feeder = fed[store.id]
            if feeder.role == "storage":
                before[store.id] = feeder
                continue
            if not _is_xor(feeder):
                raise _NoRow
            taken = [self.source[p.id] for p in feeder.pins if p.id in self.source]
            held = [s for s in taken if self.home[s].role == "storage"]
            back = [s for s in taken if s not in held]
            if len(held) == 1 and len(back) == 1 and self.home[back[0]].role == "gate":
                before[store.id], sums[store.id] = self.home[held[0]], feeder
                loops.add(back[0])
            else:
                loops.add(self.source[f"{store.id}.d"])
        return self._ordered(before, sums, loops)

    def _ordered(
        self, before: dict[str, Element], sums: dict[str, Element], loops: set[str]
    ) -> RegisterRow:
        firsts = [store for store in self.stores if store.id not in before]
        after = {one.id: self._store(name) for name, one in before.items()}
        if len(firsts) != 1 or len(loops) != 1 or len(after) != len(before):
            raise _NoRow
        order = firsts
        while order[-1].id in after:
            order.append(after[order[-1].id])
        gate = self.home[loops.pop()]
        gates = {e.id for e in self.scene.elements if e.role in ("gate", "storage")}
        known = {gate.id, *(one.id for one in sums.values()), *(one.id for one in order)}
        inputs = [self.source[p.id] for p in gate.pins if p.id in self.source]
        if known != gates or f"{order[-1].id}.q" not in inputs or gate.id in sums:
            raise _NoRow
        return RegisterRow(tuple(order), sums, gate)

    def _store(self, name: str) -> Element:
        return next(store for store in self.stores if store.id == name)


@dataclass(slots=True)
class _Places:
    scene: Scene
    row: RegisterRow
    placement: Placement = field(default_factory=Placement)
    ends: dict[str, list[tuple[str, tuple[Point, ...]]]] = field(default_factory=dict)

    @property
    def _way(self) -> int:
        """1 if bits move to the right, -1 if to the left, where the MSB stands."""
        first, last = self.row.stores[0].word[0], self.row.stores[-1].word[0]
        for output in self.scene.elements:
            nets = [pin.nets[0] for pin in output.pins if len(pin.nets) == 1]
            if output.role == "output" and {first, last} <= set(nets):
                bits = {pin.nets[0]: int(pin.which.strip("()") or 0) for pin in output.pins}
                return -1 if bits[last] > bits[first] else 1
        return 1

    def _sides(self) -> tuple[Side, Side]:
        """Where bits come in and go out."""
        return ("left", "right") if self._way > 0 else ("right", "left")

    def placed(self) -> Scene:
        store = _even(self.row.stores[0])
        pitch = store.width + 2 * _RADIUS + 2 * _GAP
        level = next(pin.at for pin in store.pins if pin.port == "d")
        for k, one in enumerate(self.row.stores):
            middle = self._way * pitch * k
            self._store(one, middle)
            if one.id in self.row.sums:
                self._sum(self.row.sums[one.id], (middle - self._way * pitch / 2, level))
        assert self.row.feedback is not None
        last = self._way * pitch * (len(self.row.stores) - 0.5)
        self._sum(self.row.feedback, (last, level))
        self._along(store.height + _LINE)
        self._inputs(level, last)
        for name, ends in self.ends.items():
            kind = next((t.kind for t in self.scene.threads if t.source == name), "")
            thread = Thread(f"{name}~", name, tuple(end for end, _ in ends), kind)
            self.placement.join(thread, [line for _, line in ends])
        return self.placement.scene("right" if self._way > 0 else "left")

    def _store(self, store: Element, middle: float) -> None:
        store = _even(store)
        into, out = self._sides()
        pins = [
            pin.put(into if pin.port == "d" else out, pin.at, pin.label or pin.port)
            for pin in store.pins
        ]
        shown = self._shown(f"{store.id}.q")
        again = Pin(f"{store.id}.q!", "q", store.word).put("top", store.width / 2)
        made = replace(store, pins=(*pins, *((again,) if shown else ())))
        self.placement.put(made, (middle - store.width / 2, 0.0))
        for name, _ in shown[:1]:
            start = self.placement.spots[again.id]
            over = bit(f"{again.id}:bit", name, "bottom", store.word)
            end = (start[0], start[1] - _STEM)
            # A bit that is shown upwards: its name stands over it.
            self.placement.put_at(over, over.pins[0].id, end)
            self.ends[again.id] = [(over.pins[0].id, (start, end))]

    def _shown(self, source: str) -> list[tuple[str, str]]:
        """The output bits that a flip-flop gives, and their pins."""
        found = []
        for thread in self.scene.threads:
            for end in thread.targets if thread.source == source else ():
                for element in self.scene.elements:
                    pin = next((p for p in element.pins if p.id == end), None)
                    if pin is not None and element.role == "output":
                        found.append((f"{element.label}{pin.which}", end))
        return found

    def _sum(self, gate: Element, middle: Point) -> None:
        """A gate as the sign of its sum; data at its sides, feedback below."""
        into, out = self._sides()
        source = {end: t.source for t in self.scene.threads for end in t.targets}
        feedback = self.row.feedback
        own = gate is feedback
        pins = []
        for pin in gate.pins:
            side: Side = "bottom" if own else out
            if pin.id in source:
                held = source[pin.id].endswith(".q")
                side = into if held else (out if own else "bottom")
            pins.append(pin.put(side, _RADIUS))
        size = 2 * _RADIUS
        frame = (0.0, 0.0, size, size)
        made = replace(
            gate,
            role="sum",
            width=size,
            height=size,
            pins=tuple(pins),
            frame=frame,
            mark="=1",
            symbol=None,
            seed=None,
        )
        self.placement.put(made, (middle[0] - _RADIUS, middle[1] - _RADIUS))

    def _along(self, low: float) -> None:
        """The wires of the row, and the feedback under it."""
        feedback = self.row.feedback
        assert feedback is not None
        spots = self.placement.spots
        for thread in self.scene.threads:
            for end in thread.targets:
                if thread.source not in spots or end not in spots:
                    continue
                start, there = spots[thread.source], spots[end]
                line: tuple[Point, ...] = (start, there)
                if start[1] != there[1] or thread.source.startswith(f"{feedback.id}."):
                    continue
                self.ends.setdefault(thread.source, []).append((end, line))
        (out,) = (pin.id for pin in feedback.pins if pin.port == "out")
        x, y = spots[out]
        targets = next(t.targets for t in self.scene.threads if t.source == out)
        taps = sorted(targets, key=lambda end: -abs(spots[end][0] - x))
        lines: list[tuple[str, tuple[Point, ...]]] = []
        for end in taps:
            there = spots[end]
            way: tuple[Point, ...] = ((there[0], low), there)
            if end.endswith(".d"):
                beyond = there[0] - self._way * _GAP
                way = ((beyond, low), (beyond, there[1]), there)
            lines.append((end, way if lines else ((x, y), (x, low), *way)))
        self.ends[out] = lines

    def _inputs(self, level: float, last: float) -> None:
        """What comes in, beyond the last flip-flop."""
        for element in self.scene.elements:
            if element.role != "input":
                continue
            thread = next(t for t in self.scene.threads if t.source == element.pins[0].id)
            if len(thread.targets) != 1 or thread.targets[0] not in self.placement.spots:
                raise _NoRow
            side: Side = "left" if self._way > 0 else "right"
            made = bit(element.id, element.label, side, element.pins[0].nets)
            made = replace(made, pins=(replace(made.pins[0], id=thread.source),))
            start = (last + self._way * (_RADIUS + 2 * _GAP), level)
            self.placement.put_at(made, thread.source, start)
            end = thread.targets[0]
            self.ends[thread.source] = [(end, (start, self.placement.spots[end]))]


def _even(store: Element) -> Element:
    """A flip-flop of an even width, so that all of the row lies on the grid."""
    width = 2.0 * ceil(store.width / 2)
    x, y = store.cells
    return replace(
        store,
        width=width,
        frame=(0.0, 0.0, width, store.height),
        cells=(x + (width - store.width) / 2, y),
        seed=None,
    )
