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
from dataclasses import dataclass, field
from itertools import pairwise
from math import ceil
from typing import Final

from edgewise.circuit.model import Circuit, Part, Signal, Tie
from edgewise.views.diagram.drivers import Origin, Sources
from edgewise.views.diagram.elements import PORT_LABELS, Element, Mark, Pin, small
from edgewise.views.diagram.nets import Scene, Thread
from edgewise.views.diagram.placement import Placement
from edgewise.views.diagram.terminals import bit, tie, word
from edgewise.views.drawing import theme
from edgewise.views.drawing.text_metrics import width as text_width
from edgewise.views.layout.graph import Point, Side

_HEIGHT: Final = 80.0
_SIDE: Final = 52.0
_APART: Final = 32.0
_CLOSE: Final = 20.0
"""The same on a narrow page."""
_DROP: Final = 22.0
"""From a word to its group, and from a group to its word."""


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
    made = _Groups(circuit, chain, names, ceil(len(chain.parts) / rows), tight=narrow > 0)
    made.build()
    return made.placement.scene("left")


@dataclass(slots=True)
class _Groups:
    circuit: Circuit
    chain: GroupChain
    names: Mapping[str, tuple[int, ...]]
    each: int
    """Groups in a row, at most."""
    tight: bool
    placement: Placement = field(default_factory=Placement)
    sources: Sources = field(init=False)
    shown: dict[Origin, str] = field(init=False)
    right: float = 0.0
    """Where the next group ends."""
    marks: list[Mark] = field(default_factory=list)

    def build(self) -> None:
        self.sources = Sources(self.circuit)
        self.shown = self.sources.shown()
        pitch = _HEIGHT + 2 * (_DROP + 42.0) + 2 * _CLOSE
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
        above = [self._word(part, name, "bottom") for name in over]
        below = [self._word(part, name, "top") for name in under]
        gap = 8.0 if self.tight else 16.0
        least = text_width(part.name, theme.SIZE_NAME, weight=theme.STRONG) + 2 * gap
        labels = sum(small(PORT_LABELS.get(port, port)) for port in (into, out)) + 28
        spans = [sum(made.width + gap for made in some) for some in (above, below)]
        width = 2.0 * ceil(max(least, labels, *spans) / 2)
        pins = [
            *_spread(part, above, over, "top", width),
            *_spread(part, below, under, "bottom", width),
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
            self._over(element, f"{part.name}.{port}")
        for element, port in zip(below, under, strict=True):
            self._under(element, f"{part.name}.{port}")

    def _used(self, part: Part, port: str) -> bool:
        found = part.kind.port(port)
        return found is not None and (
            found.direction == "in"
            or part is not self.chain.parts[-1]
            or Origin(part.name, port) in self.shown
        )

    def _word(self, part: Part, port: str, side: str) -> Element:
        """What stands over an input port, or under an output port."""
        name = f"{part.name}.{port}"
        nets = self.names[name]
        signal = part.signal(port)
        if side == "bottom":
            origins = [self.sources.origin(one) for one in signal]
            if isinstance(origins[0], Tie):
                digits = "".join("01X"[o.bit] for o in reversed(origins) if isinstance(o, Tie))
                return tie(Pin(name, port, nets).put("top", 0.0), name, digits)
            text = self._bits([o for o in origins if isinstance(o, Origin)])
            return word(f"{name}:word", text, "bottom", nets)
        found = [self.shown.get(Origin(part.name, port, i), "") for i in range(len(nets))]
        base = found[0].partition("(")[0]
        wide = next((len(o.signal) for o in self.circuit.outputs if o.name == base), 0)
        return word(f"{name}:word", joined(found, wide), "top", nets)

    def _bits(self, origins: Sequence[Origin]) -> str:
        wide = len(self.names[origins[0].port])
        return joined([f"{o.port}({o.index})" if wide > 1 else o.port for o in origins], wide)

    def _over(self, element: Element, target: str) -> None:
        x, y = self.placement.spots[target]
        source = element.pins[0].id
        self.placement.put_at(element, source, (x, y - _DROP))
        self.placement.join(Thread(f"{target}~", source, (target,)), [((x, y - _DROP), (x, y))])
        self._count(x, y - 8.0, len(element.word))

    def _under(self, element: Element, source: str) -> None:
        x, y = self.placement.spots[source]
        target = element.pins[0].id
        self.placement.put_at(element, target, (x, y + _DROP))
        self.placement.join(Thread(f"{source}~", source, (target,)), [((x, y), (x, y + _DROP))])
        self._count(x, y + _DROP / 2, len(element.word))

    def _count(self, x: float, y: float, bits: int) -> None:
        if bits > 1:
            self.marks.append(Mark(x, y, str(bits), "down"))

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
            made = bit(self._bits([origin]), self._bits([origin]), "left", self.names[pin])
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
            between = y2 - _SIDE - _DROP - 42.0 - _CLOSE / 2
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


def _spread(
    part: Part, words: Sequence[Element], ports: Sequence[str], side: Side, width: float
) -> list[Pin]:
    """Pins under their words, these side by side in the middle of a group."""
    gap = (width - sum(made.width for made in words)) / (len(words) or 1)
    pins, x = [], 0.0
    for made, port in zip(words, ports, strict=True):
        label = PORT_LABELS.get(port, port)
        at = round(x + gap / 2 + made.width / 2)
        pins.append(Pin(f"{part.name}.{port}", port, ()).put(side, float(at), label))
        x += gap + made.width
    return pins


def joined(names: Sequence[str], wide: int = 0) -> str:
    """Bits of one word of `wide` bits, LSB first, as one name: ``a(7..4)``, ``a(6,4,2,0)``.

    Examples
    --------
    >>> joined(["a(4)", "a(5)", "a(6)"]), joined(["a(0)", "a(2)"]), joined(["c"])
    ('a(6..4)', 'a(2,0)', 'c')
    >>> joined(["a(0)", "a(1)"], 2)
    'a'
    """
    if len(names) == 1:
        return names[0]
    base = names[0].partition("(")[0]
    places = [int(name.partition("(")[2].rstrip(")")) for name in names]
    if places == list(range(wide)):
        return base
    if places == list(range(places[0], places[0] + len(places))):
        return f"{base}({places[-1]}..{places[0]})"
    told = [str(place) for place in reversed(places)]
    if len(told) > 4:  # as many as there is room for
        told = [told[0], told[1], "…", told[-1]]
    return f"{base}({','.join(told)})"
