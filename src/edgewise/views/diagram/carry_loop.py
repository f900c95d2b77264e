"""Loop: a full adder with its carry flip-flop directly under it.

What leaves the adder as carry comes back as carry one edge later. The flip-flop is read from right
to left, like written carries, so that the loop is short and nothing runs around the figure::

      a ──┐      ┌── s
      b ──┤  FA  │
       ┌──┤cin   ├──┐
       │  └──────┘  │
       └── q [C] d ─┘

A multiplexer between the two, which loads the carry, stands right of the flip-flop and looks left;
what else it takes in is named there.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Final

from edgewise.views.diagram.carry_choice import Chosen, find, spot
from edgewise.views.diagram.elements import Element, Pin
from edgewise.views.diagram.nets import Loop, Thread
from edgewise.views.drawing.bit_cells import cells_width

_BESIDE: Final = 26.0
"""Left and right of the adder, for the wires of the loop."""
_UNDER: Final = 22.0
_OUT: Final = "!"
"""Ends the id of the pin at which a stored carry leaves the loop."""


@dataclass(frozen=True, slots=True)
class Looped:
    """The parts of a figure with the adder and its flip-flop as one, and the threads then."""

    parts: list[Element]
    threads: list[Thread]
    loop: Loop


def looped(
    parts: Sequence[Element], threads: Sequence[Thread], *, stacked: bool = False
) -> Looped | None:
    """The parts with the adder's carry flip-flop under it, if there is one adder and one such.

    `stacked` puts what takes in the sum bit by bit under both, for a narrow figure.

    Examples
    --------
    >>> looped([], []) is None
    True
    """
    adders = [part for part in parts if part.role == "adder"]
    if len(adders) != 1:
        return None
    adder = adders[0]
    source = {end: thread for thread in threads for end in thread.targets}
    pins = {pin.port: pin for pin in adder.pins}
    back = source.get(pins["carry-in"].id) if "carry-in" in pins else None
    store = next((p for p in parts if back and back.source in {pin.id for pin in p.pins}), None)
    if back is None or store is None or store.role != "storage" or len(store.word) != 1:
        return None
    d = next((pin for pin in store.pins if pin.port == "d"), None)
    fed = source.get(d.id) if d else None
    if d is None or fed is None or len(fed.targets) != 1:
        return None
    chosen = None
    if fed.source != pins["carry-out"].id:
        chosen = find(parts, threads, fed, pins["carry-out"].id)
        if chosen is None:
            return None
    made = _Made(parts, threads, adder, store, fed, back, chosen)
    return made.looped(_taker(parts, threads, adder) if stacked and not chosen else None)


def _taker(
    parts: Sequence[Element], threads: Sequence[Thread], adder: Element
) -> tuple[Element, Thread] | None:
    """The register that shifts in the sum, if it gives nothing back to the adder's words."""
    own = {pin.id for pin in adder.pins if pin.port == "sum"}
    thread = next((t for t in threads if t.source in own and len(t.targets) == 1), None)
    if thread is None:
        return None
    taker = next(p for p in parts if thread.targets[0] in {pin.id for pin in p.pins})
    gives = {end for t in threads for end in t.targets if t.source in {p.id for p in taker.pins}}
    fits = taker.role == "storage" and thread.targets[0].endswith(".in")
    return (taker, thread) if fits and not gives & {pin.id for pin in adder.pins} else None


@dataclass(frozen=True, slots=True)
class _Made:
    parts: Sequence[Element]
    threads: Sequence[Thread]
    adder: Element
    store: Element
    fed: Thread
    """What the flip-flop takes in: from the adder, or from the multiplexer."""
    back: Thread
    chosen: Chosen | None = None

    def looped(self, taken: tuple[Element, Thread] | None) -> Looped:
        adder, fed, back = self.adder, self.fed, self.back
        into = next(pin.id for pin in adder.pins if pin.port == "carry-in")
        others = tuple(end for end in back.targets if end != into)
        low = self.chosen.low if self.chosen else 0.0
        store = _turned(self.store, adder.width, leaves=bool(others), low=low)
        top = adder.height + _UNDER + (self.chosen.room if self.chosen else 0.0)
        members = [(adder, (_BESIDE, 0.0)), (store, (_BESIDE, top))]
        if self.chosen:
            level = top + next(pin.at for pin in store.pins if pin.port == "d")
            members += self.chosen.members(2 * _BESIDE + store.width, level)
        under = top + store.height
        if taken:
            members.append((taken[0], (_BESIDE, under + 2 * _UNDER)))
        spots = {pin.id: spot(pin, e, corner) for e, corner in members for pin in e.pins}
        if self.chosen:
            inside = [*self.chosen.wires(fed, spots)]
        else:
            inside = [(fed, _around(spots, fed.source, fed.targets[0]))]
        inside.append((replace(back, targets=(into,)), _around(spots, back.source, into)))
        if taken:
            inside.append((taken[1], _down(spots, taken[1], under + _UNDER)))
        ends = {end for thread, _ in inside for end in (thread.source, *thread.targets)}
        outer = tuple(
            pin.put(pin.side, spots[pin.id][1])
            for element, _ in members
            for pin in element.pins
            if pin.id not in ends
        )
        name = "+".join(element.id for element, _ in members)
        width = max(adder.width + 2 * _BESIDE, *(x + e.width for e, (x, _) in members))
        height = max(y + e.height for e, (_, y) in members)
        whole = Element(name, "pair", width=width, height=height, pins=outer)
        inner = {thread.id for thread, _ in inside}
        threads = self.chosen.outside(self.threads) if self.chosen else self.threads
        kept = [thread for thread in threads if thread.id not in inner]
        if others:
            out = f"{back.source}{_OUT}"
            kept.append(Thread(f"{out}~", out, others, back.kind))
        ids = {element.id for element, _ in members}
        left = [
            whole if part.id == adder.id else part
            for part in self.parts
            if part.id not in ids - {adder.id}
        ]
        return Looped(left, kept, Loop(whole, tuple(members), tuple(inside)))


def _down(
    spots: dict[str, tuple[float, float]], thread: Thread, between: float
) -> tuple[tuple[float, float], ...]:
    """From the sum, outside the loop, to the register under the flip-flop."""
    (x1, y1), (x2, y2) = spots[thread.source], spots[thread.targets[0]]
    right, left = x1 + _BESIDE - 4, x2 - _BESIDE / 2
    return (x1, y1), (right, y1), (right, between), (left, between), (left, y2), (x2, y2)


def _around(
    spots: dict[str, tuple[float, float]], start: str, end: str
) -> tuple[tuple[float, float], ...]:
    """From a pin beside the adder to one beside the flip-flop, or back."""
    (x, y1), (_, y2) = spots[start], spots[end]
    beside = x + _BESIDE / 2 if x > _BESIDE else x - _BESIDE / 2
    return (x, y1), (beside, y1), (beside, y2), (x, y2)


def _turned(store: Element, width: float, *, leaves: bool, low: float) -> Element:
    """The flip-flop as wide as the adder, its data in at the right and out at the left.

    `low` px under that level the stored carry leaves, if anything stands beside it.
    """
    wide = max(width, store.width)
    high = store.height
    pins: list[Pin] = []
    for pin in store.pins:
        if pin.port == "d":
            pins.append(pin.put("right", pin.at, pin.label or "d"))
        elif pin.port == "q":
            pins.append(pin.put("left", pin.at, pin.label or "q"))
            if leaves:
                again = replace(pin, id=f"{pin.id}{_OUT}")
                at = pin.at + max(low, 30.0)
                high = max(high, at + 13.0)
                pins.append(again.put("right", at, pin.label or "q"))
        else:
            pins.append(pin)
    # What stood right of the middle beside a long label now stands as far left of it.
    left, cells = store.cells[0], cells_width(len(store.word), store.cell)
    return replace(
        store,
        width=wide,
        height=high,
        frame=(0.0, 0.0, wide, high),
        cells=(wide - left - cells - (wide - store.width) / 2, store.cells[1]),
        pins=tuple(pins),
    )
