"""Loop: a full adder with its carry flip-flop directly under it.

What leaves the adder as carry comes back as carry one edge later. The flip-flop is read from right
to left, like written carries, so that the loop is short and nothing runs around the figure::

      a ──┐      ┌── s
      b ──┤  FA  │
       ┌──┤cin   ├──┐
       │  └──────┘  │
       └── q [C] d ─┘
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Final

from edgewise.views.diagram.elements import Element, Pin
from edgewise.views.diagram.nets import Loop, Thread

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


def looped(parts: Sequence[Element], threads: Sequence[Thread]) -> Looped | None:
    """The parts with the adder's carry flip-flop under it, if there is one adder and one such.

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
    if d is None or fed is None or fed.source != pins["carry-out"].id or len(fed.targets) != 1:
        return None
    return _made(parts, threads, (adder, store), (fed, back))


def _made(
    parts: Sequence[Element],
    threads: Sequence[Thread],
    pair: tuple[Element, Element],
    inner: tuple[Thread, Thread],
) -> Looped:
    adder, store = pair
    fed, back = inner
    into = next(pin.id for pin in adder.pins if pin.port == "carry-in")
    others = tuple(end for end in back.targets if end != into)
    store = _turned(store, adder.width, leaves=bool(others))
    top = adder.height + _UNDER
    spots = {pin.id: (_x(pin, adder), pin.at) for pin in adder.pins}
    spots |= {pin.id: (_x(pin, store), top + pin.at) for pin in store.pins}
    ends = {fed.source, *fed.targets, back.source, into}
    outer = tuple(
        pin.put(pin.side, spots[pin.id][1])
        for pin in (*adder.pins, *store.pins)
        if pin.id not in ends
    )
    width, height = adder.width + 2 * _BESIDE, top + store.height
    whole = Element(f"{adder.id}+{store.id}", "pair", width=width, height=height, pins=outer)
    lines = [_around(spots, fed.source, fed.targets[0]), _around(spots, back.source, into)]
    inside = (fed, replace(back, targets=(into,)))
    loop = Loop(
        whole,
        ((adder, (_BESIDE, 0.0)), (store, (_BESIDE, top))),
        tuple(zip(inside, lines, strict=True)),
    )
    kept = [thread for thread in threads if thread not in (fed, back)]
    if others:
        kept.append(Thread(f"{back.source}{_OUT}~", f"{back.source}{_OUT}", others, back.kind))
    left = [whole if part is adder else part for part in parts if part.id != store.id]
    return Looped(left, kept, loop)


def _x(pin: Pin, element: Element) -> float:
    return _BESIDE + (element.width if pin.side == "right" else 0.0)


def _around(
    spots: dict[str, tuple[float, float]], start: str, end: str
) -> tuple[tuple[float, float], ...]:
    """From a pin beside the adder to one beside the flip-flop, or back."""
    (x, y1), (_, y2) = spots[start], spots[end]
    beside = x + _BESIDE / 2 if x > _BESIDE else x - _BESIDE / 2
    return (x, y1), (beside, y1), (beside, y2), (x, y2)


def _turned(store: Element, width: float, *, leaves: bool) -> Element:
    """The flip-flop as wide as the adder, its data in at the right and out at the left."""
    wide = max(width, store.width)
    pins: list[Pin] = []
    for pin in store.pins:
        if pin.port == "d":
            pins.append(pin.put("right", pin.at, pin.label or "d"))
        elif pin.port == "q":
            pins.append(pin.put("left", pin.at, pin.label or "q"))
            if leaves:
                again = replace(pin, id=f"{pin.id}{_OUT}")
                pins.append(again.put("right", pin.at + 30, pin.label or "q"))
        else:
            pins.append(pin)
    room = wide - store.width
    return replace(
        store,
        width=wide,
        frame=(0.0, 0.0, wide, store.height),
        cells=(store.cells[0] + room / 2, store.cells[1]),
        pins=tuple(pins),
    )
