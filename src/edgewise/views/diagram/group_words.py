"""Words of groups: what stands over and under a part of many bits, and how its bits are named."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import KW_ONLY, dataclass, field
from typing import Final

from edgewise.circuit.model import Circuit, Part, Tie
from edgewise.views.diagram.drivers import Origin, Sources
from edgewise.views.diagram.elements import PORT_LABELS, Element, Mark, Pin
from edgewise.views.diagram.nets import Thread
from edgewise.views.diagram.placement import Placement
from edgewise.views.diagram.terminals import tie, word
from edgewise.views.layout.graph import Side

DROP: Final = 22.0
"""From a word to its group, and from a group to its word."""


@dataclass(slots=True)
class GroupWords:
    """A figure of groups as it is placed: its words, each joined to its port."""

    circuit: Circuit
    names: Mapping[str, tuple[int, ...]]
    _: KW_ONLY
    placement: Placement = field(default_factory=Placement)
    sources: Sources = field(init=False)
    shown: dict[Origin, str] = field(init=False)
    """The name of the output bit that a port drives."""
    marks: list[Mark] = field(default_factory=list)

    def __post_init__(self) -> None:
        self.sources = Sources(self.circuit)
        self.shown = self.sources.shown()

    def word(self, part: Part, port: str, side: Side) -> Element:
        """What a port takes in or gives, over or under it: its pin is on `side`."""
        name = f"{part.name}.{port}"
        nets = self.names[name]
        if any(one.name == port for one in part.kind.ins):
            origins = [self.sources.origin(one) for one in part.signal(port)]
            if isinstance(origins[0], Tie):
                digits = "".join("01X"[o.bit] for o in reversed(origins) if isinstance(o, Tie))
                return tie(Pin(name, port, nets).put("top", 0.0), name, digits)
            text = self.bits([o for o in origins if isinstance(o, Origin)])
            return word(f"{name}:word", text, side, nets)
        found = [self.shown.get(Origin(part.name, port, i), "") for i in range(len(nets))]
        base = found[0].partition("(")[0]
        wide = next((len(o.signal) for o in self.circuit.outputs if o.name == base), 0)
        return word(f"{name}:word", joined(found, wide), side, nets)

    def bits(self, origins: Sequence[Origin]) -> str:
        """The name of bits of one input."""
        wide = len(self.names[origins[0].port])
        return joined([f"{o.port}({o.index})" if wide > 1 else o.port for o in origins], wide)

    def over(self, element: Element, pin: str) -> None:
        """Put a word over the pin that takes it in, or gives it."""
        x, y = self.placement.spots[pin]
        own, start = element.pins[0].id, (x, y - DROP)
        self.placement.put_at(element, own, start)
        if pin in {f"{one.owner}.{one.port}" for one in self.shown}:
            self.placement.join(Thread(f"{pin}~", pin, (own,)), [((x, y), start)])
        else:
            self.placement.join(Thread(f"{pin}~", own, (pin,)), [(start, (x, y))])
        self._count(x, y - 8.0, len(element.word))

    def under(self, element: Element, source: str) -> None:
        """Put a word under the pin that gives it."""
        x, y = self.placement.spots[source]
        target = element.pins[0].id
        self.placement.put_at(element, target, (x, y + DROP))
        self.placement.join(Thread(f"{source}~", source, (target,)), [((x, y), (x, y + DROP))])
        self._count(x, y + DROP / 2, len(element.word))

    def _count(self, x: float, y: float, bits: int) -> None:
        if bits > 1:
            self.marks.append(Mark(x, y, str(bits), "down"))


def spread(
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
