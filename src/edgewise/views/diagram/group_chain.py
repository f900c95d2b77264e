"""Groups: parts side by side, each of which hands one bit to the next, and words over and under.

Found in the nets, whatever the parts are: each takes words from inputs and gives words to outputs,
and one bit goes from part to part. Drawn like a chain of adders, the LSB right; on a narrow page
in several rows, each read on from the one above::

      a(7..4) b(7..4)   a(3..0) b(3..0)
      [  group(1)   ]◄──[  group(0)   ]◄── carry_in
         sum(7..4)         sum(3..0)
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import ceil
from typing import Final

from edgewise.circuit.model import Circuit, Part, Signal, Tie
from edgewise.views.diagram.drivers import Origin, Sources
from edgewise.views.diagram.elements import PORT_LABELS, Element, Pin, small
from edgewise.views.diagram.group_words import DROP, GroupWords, spread
from edgewise.views.diagram.nets import Scene, Thread
from edgewise.views.diagram.terminals import bit, tie
from edgewise.views.drawing import theme
from edgewise.views.drawing.text_metrics import width as text_width
from edgewise.views.layout.graph import Point, Side

_HEIGHT: Final = 80.0
_SIDE: Final = 52.0
_APART: Final = 32.0
_CLOSE: Final = 20.0
"""The same on a narrow page."""


@dataclass(frozen=True, slots=True)
class Hand:
    """The bit that one part hands to the next: an output port, and an input port."""

    out: str
    into: str


@dataclass(frozen=True, slots=True)
class GroupChain:
    """Parts from the LSB on, and what each hands to the next."""

    parts: tuple[Part, ...]
    hands: tuple[Hand, ...]
    first: str
    """The input port at which the first part takes in what others are handed; may be empty."""
    last: str
    """The output port at which the last part gives it; may be empty."""


def find(circuit: Circuit) -> GroupChain | None:
    """The chain of groups that a circuit is, or nothing.

    Examples
    --------
    >>> from edgewise import catalogue
    >>> chain = find(catalogue.design("carry-skip-adder", n=8).circuit)
    >>> [part.name for part in chain.parts], chain.hands[0]
    (['group(0)', 'group(1)'], Hand(out='carry-out', into='carry-in'))
    """
    if len(circuit.parts) < 2 or any(part.kind.role != "circuit" for part in circuit.parts):
        return None
    sources = Sources(circuit)
    links = {
        (origin.owner, origin.port, part.name, port.name)
        for part in circuit.parts
        for port in part.kind.ins
        for one in part.signal(port.name)
        if isinstance(origin := sources.origin(one), Origin) and origin.owner
    }
    after = {link[0]: link for link in links}
    order = [part for part in circuit.parts if part.name not in {link[2] for link in links}]
    if len(after) != len(links) or len(links) != len(circuit.parts) - 1 or len(order) != 1:
        return None
    by_name = {part.name: part for part in circuit.parts}
    hands = []
    while order[-1].name in after:
        _, out, name, into = after[order[-1].name]
        order.append(by_name[name])
        hands.append(Hand(out, into))
    if len(order) != len(circuit.parts) or not all(_single(order, hands)):
        return None
    made = GroupChain(tuple(order), tuple(hands), "", "")
    return _Ends(circuit, sources, made).named()


def _single(order: Sequence[Part], hands: Sequence[Hand]) -> Iterator[bool]:
    """Whether each bit that is handed on is one bit at both ends."""
    for (before, after), hand in zip(pairwise(order), hands, strict=True):
        out, into = before.kind.port(hand.out), after.kind.port(hand.into)
        yield out is not None and into is not None and out.width == into.width == 1


@dataclass(slots=True)
class _Ends:
    """What comes into a chain and leaves it, by name."""

    circuit: Circuit
    sources: Sources
    chain: GroupChain

    def named(self) -> GroupChain | None:
        """The chain, if each of its words is one of an input or an output."""
        chain = self.chain
        into, out = {hand.into for hand in chain.hands}, {hand.out for hand in chain.hands}
        first, last = chain.parts[0], chain.parts[-1]
        starts = [port.name for port in first.kind.ins if port.name in into]
        ends = [port.name for port in last.kind.outs if port.name in out]
        for part in chain.parts:
            for port in part.kind.ports:
                if port.direction == "in" and not self.taken(part.signal(port.name)):
                    return None
        shown = {(o.owner, o.port) for o in self.sources.shown()}
        known = {(part.name, port.name) for part in chain.parts for port in part.kind.outs}
        if not {one for one in shown if one[0]} <= known or any(not owner for owner, _ in shown):
            return None
        return GroupChain(chain.parts, chain.hands, "".join(starts[:1]), "".join(ends[:1]))

    def taken(self, signal: Signal) -> bool:
        """Whether bits come from one input, from one part, or are constant, all of them."""
        origins = [self.sources.origin(one) for one in signal]
        homes = {(o.owner, o.port) if isinstance(o, Origin) else None for o in origins}
        return len(homes) == 1


def places(
    circuit: Circuit, chain: GroupChain, names: Mapping[str, tuple[int, ...]], narrow: int
) -> Scene:
    """The scene of a chain of groups, in as many rows as `narrow` asks for."""
    rows = min(max(narrow, 1), len(chain.parts))
    made = _Groups(circuit, names, chain, ceil(len(chain.parts) / rows), tight=narrow > 0)
    made.build()
    return made.placement.scene("left")


@dataclass(slots=True)
class _Groups(GroupWords):
    chain: GroupChain
    each: int
    """Groups in a row, at most."""
    tight: bool
    right: float = 0.0
    """Where the next group ends."""

    def build(self) -> None:
        pitch = _HEIGHT + 2 * (DROP + 42.0) + 2 * _CLOSE
        for place, part in enumerate(self.chain.parts):
            row, column = divmod(place, self.each)
            if not column:
                self.right = 0.0
            self._group(part, place, row * pitch)
        self._first()
        for place, hand in enumerate(self.chain.hands):
            self._hand(place, hand)
        self._last()
        self.placement.note(self.marks)

    # ------------------------------------------------------------ groups

    def _into(self, place: int) -> str:
        return self.chain.hands[place - 1].into if place else self.chain.first

    def _out(self, place: int) -> str:
        hands = self.chain.hands
        return hands[place].out if place < len(hands) else self.chain.last

    def _group(self, part: Part, place: int, top: float) -> None:
        """A group with the words over and under it."""
        into, out = self._into(place), self._out(place)
        over = [port.name for port in part.kind.ins if port.name != into]
        under = [
            port.name
            for port in part.kind.outs
            if port.name != out and Origin(part.name, port.name) in self.shown
        ]
        above = [self.word(part, name, "bottom") for name in over]
        below = [self.word(part, name, "top") for name in under]
        gap = 8.0 if self.tight else 16.0
        least = text_width(part.name, theme.SIZE_NAME, weight=theme.STRONG) + 2 * gap
        labels = sum(small(PORT_LABELS.get(port, port)) for port in (into, out)) + 28
        spans = [sum(made.width + gap for made in some) for some in (above, below)]
        width = 2.0 * ceil(max(least, labels, *spans) / 2)
        pins = [
            *spread(part, above, over, "top", width),
            *spread(part, below, under, "bottom", width),
        ]
        pins = [Pin(p.id, p.port, self.names[p.id]).put(p.side, p.at, p.label) for p in pins]
        ends: tuple[tuple[str, Side], ...] = (into, "right"), (out, "left")
        for port, side in ends:
            if port and self._used(part, port):
                name = f"{part.name}.{port}"
                pin = Pin(name, port, self.names[name])
                pins.append(pin.put(side, _SIDE, PORT_LABELS.get(port, port)))
        frame = (0.0, 0.0, width, _HEIGHT)
        kind = part.kind.name
        made = Element(part.name, "cell", kind, part.name, width, _HEIGHT, tuple(pins), frame)
        self.placement.put(made, (self.right - width, top))
        self.right -= width + (_CLOSE if self.tight else _APART)
        for element, port in zip(above, over, strict=True):
            self.over(element, f"{part.name}.{port}")
        for element, port in zip(below, under, strict=True):
            self.under(element, f"{part.name}.{port}")

    def _used(self, part: Part, port: str) -> bool:
        found = part.kind.port(port)
        return found is not None and (
            found.direction == "in"
            or part is not self.chain.parts[-1]
            or Origin(part.name, port) in self.shown
        )

    # ------------------------------------------------------------ what is handed on

    def _first(self) -> None:
        part, port = self.chain.parts[0], self.chain.first
        if not port:
            return
        pin = f"{part.name}.{port}"
        x, y = self.placement.spots[pin]
        origin = self.sources.origin(part.signal(port)[0])
        if isinstance(origin, Tie):
            held = Pin(pin, port, self.names[pin]).put("right", 0.0)
            made = tie(held, pin, "01X"[origin.bit])
        else:
            made = bit(self.bits([origin]), self.bits([origin]), "left", self.names[pin])
        start = (x + _CLOSE, y)
        self.placement.put_at(made, made.pins[0].id, start)
        self._carry(made.pins[0].id, pin, (start, (x, y)))

    def _carry(self, source: str, target: str, line: tuple[Point, ...]) -> None:
        kind = "carry" if "carry" in source or "carry" in target else ""
        self.placement.join(Thread(f"{source}~", source, (target,), kind), [line])

    def _hand(self, place: int, hand: Hand) -> None:
        source = f"{self.chain.parts[place].name}.{hand.out}"
        target = f"{self.chain.parts[place + 1].name}.{hand.into}"
        (x1, y1), (x2, y2) = self.placement.spots[source], self.placement.spots[target]
        line: tuple[Point, ...] = ((x1, y1), (x2, y2))
        if y1 != y2:  # to the next row
            between = y2 - _SIDE - DROP - 42.0 - _CLOSE / 2
            left, right = x1 - _CLOSE / 2, x2 + _CLOSE / 2
            line = ((x1, y1), (left, y1), (left, between), (right, between), (right, y2), (x2, y2))
        self._carry(source, target, line)

    def _last(self) -> None:
        part, port = self.chain.parts[-1], self.chain.last
        name = self.shown.get(Origin(part.name, port)) if port else None
        if name is None:
            return
        source = f"{part.name}.{port}"
        x, y = self.placement.spots[source]
        made = bit(name, name, "right", self.names[source])
        self.placement.put_at(made, made.pins[0].id, (x - _CLOSE, y))
        self._carry(source, made.pins[0].id, ((x, y), (x - _CLOSE, y)))
