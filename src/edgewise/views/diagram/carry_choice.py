"""Choice: the multiplexer between a full adder and its carry flip-flop, by which a carry is loaded.

It stands right of the flip-flop, looks left, and takes in the carry from the right; what else it
takes in, and what selects, come from inputs and are named at it.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from math import ceil
from typing import Final

from edgewise.views.diagram import terminals
from edgewise.views.diagram.elements import Element, Pin
from edgewise.views.diagram.nets import Line, Thread
from edgewise.views.layout.graph import Point

_STEM: Final = 14.0
"""From the multiplexer to the names at it, and to the carry that goes around it."""


@dataclass(frozen=True, slots=True)
class Chosen:
    """A multiplexer that looks left, and the names at it, each with its place from its corner."""

    select: Element
    carried: Thread
    """The carry that it takes in."""
    names: tuple[tuple[Element, Point], ...]
    named: tuple[Thread, ...]
    """From each name to the multiplexer."""

    @property
    def low(self) -> float:
        """How far under its middle it is clear."""
        return self.select.height / 2 + 8.0

    @property
    def room(self) -> float:
        """How much lower the flip-flop stands, for what selects and for the carry over it."""
        top = min((y for _, (_, y) in self.names), default=0.0)
        return -top

    def members(self, x: float, level: float) -> list[tuple[Element, Point]]:
        """All of it, the output at this level, the left edge there."""
        y = level - self.select.height / 2
        return [
            (self.select, (x, y)),
            *((name, (x + dx, y + dy)) for name, (dx, dy) in self.names),
        ]

    def wires(self, fed: Thread, spots: Mapping[str, Point]) -> Iterator[tuple[Thread, Line]]:
        """From the adder around it, from it to the flip-flop, and from each name."""
        yield fed, (spots[fed.source], spots[fed.targets[0]])
        (x1, y1), (x2, y2) = spots[self.carried.source], spots[self.carried.targets[0]]
        beside = x2 + _STEM
        yield self.carried, ((x1, y1), (beside, y1), (beside, y2), (x2, y2))
        for thread in self.named:
            yield thread, (spots[thread.source], spots[thread.targets[0]])

    def outside(self, threads: Sequence[Thread]) -> list[Thread]:
        """The threads without the ends that are named here."""
        ends = {end for thread in self.named for end in thread.targets}
        left = (
            replace(thread, targets=tuple(end for end in thread.targets if end not in ends))
            for thread in threads
        )
        return [thread for thread in left if thread.targets]


def find(
    parts: Sequence[Element], threads: Sequence[Thread], fed: Thread, carry: str
) -> Chosen | None:
    """The multiplexer that feeds a flip-flop with this carry or with inputs, or nothing.

    Examples
    --------
    >>> find([], [], Thread("C~", "M.out", ("C.d",)), "FA.carry-out") is None
    True
    """
    home = {pin.id: part for part in parts for pin in part.pins}
    source = {end: thread for thread in threads for end in thread.targets}
    select = home.get(fed.source)
    if select is None or select.role != "multiplexer" or any(pin.bus for pin in select.pins):
        return None
    taken = [pin for pin in select.pins if pin.id in source]
    carried = [pin for pin in taken if source[pin.id].source == carry]
    others = [pin for pin in taken if pin not in carried]
    if len(carried) != 1 or len(taken) != len(select.pins) - 1:
        return None
    thread = source[carried[0].id]
    if len(thread.targets) > 1 or any(source[pin.id].source in home for pin in others):
        return None
    return _made(select, thread, {pin.id: source[pin.id] for pin in others})


def _made(select: Element, carried: Thread, given: Mapping[str, Thread]) -> Chosen:
    """The multiplexer mirrored, with the names at it."""
    left, top, right, bottom = select.frame
    width = float(round(right - left))  # whole px add up exactly
    pins = []
    for pin in select.pins:
        if pin.side == "bottom":
            pins.append(pin.put("top", round(width - (pin.at - left)), stub=pin.stub))
        else:
            side = "left" if pin.side == "right" else "right"
            pins.append(replace(pin, note="").put(side, pin.at, pin.label))  # type: ignore[arg-type]
    mirrored = replace(select, width=width, frame=(0.0, top, width, bottom), pins=tuple(pins))
    names, named = [], []
    for pin in [pin for pin in mirrored.pins if pin.id in given]:
        thread = given[pin.id]
        label = thread.source.removesuffix(".")
        side = "bottom" if pin.side == "top" else "left"
        made = _even(terminals.bit(f"{pin.id}:name", label, side, pin.nets))  # type: ignore[arg-type]
        own = made.pins[0]
        x, y = spot(pin, mirrored, (0.0, 0.0))
        # The carry goes around between the multiplexer and the names at its right.
        corner = (x - own.at, y - _STEM - made.height)
        if pin.side == "right":
            corner = (x + 2 * _STEM, y - own.at)
        names.append((made, corner))
        named.append(Thread(f"{pin.id}~", own.id, (pin.id,), thread.kind))
    return Chosen(mirrored, carried, tuple(names), tuple(named))


def _even(made: Element) -> Element:
    """The name of a bit, its width and its pin on whole px."""
    pin = made.pins[0]
    if pin.side != "bottom":
        return made
    wide = 2.0 * ceil(made.width / 2)
    x, y = made.cells
    cells = x + (wide - made.width) / 2, y
    return replace(made, width=wide, cells=cells, pins=(pin.put("bottom", wide / 2),))


def spot(pin: Pin, element: Element, corner: Point) -> Point:
    """Where a pin is."""
    x, y = corner
    across = {"left": 0.0, "right": element.width}.get(pin.side, pin.at)
    below = {"top": 0.0, "bottom": element.height}.get(pin.side, pin.at)
    return x + across, y + below
