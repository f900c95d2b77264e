"""Lookahead places: a lookahead tree drawn from the top down, the LSB right.

What the members give runs straight down into their unit, the carries up between them; no two wires
cross. Words of groups, sums too, stand over them. Where a gate makes the sum, it stands under the
unit, and p is named beside it, not wired through the unit, as at the foot of a prefix graph::

      a b sum     a b sum
     [group(1)]◄┐[group(0)]◄┬─ carry_in
        g  p    │   g  p    │
     ◄[         LA         ]◄
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from math import ceil
from typing import Final

from edgewise.circuit.model import Circuit, Part
from edgewise.circuit.parts import symbol
from edgewise.views.diagram.drivers import Origin
from edgewise.views.diagram.elements import PORT_LABELS, Element, Pin, Role, small
from edgewise.views.diagram.group_words import GroupWords, spread
from edgewise.views.diagram.lookahead_tree import Member
from edgewise.views.diagram.nets import Scene, Thread
from edgewise.views.diagram.placement import Line
from edgewise.views.diagram.terminals import bit, value
from edgewise.views.drawing import theme
from edgewise.views.drawing.text_metrics import width as text_width
from edgewise.views.drawing.theme import TABLE_CELL
from edgewise.views.layout.graph import Point, Side

_HIGH: Final = 80.0
_LOW: Final = 60.0
"""Of a unit that gives nothing downwards."""
_SIDE: Final = 42.0
"""From the top of a part to the carry at its right."""
_LEVEL: Final = 34.0
"""From a member to the unit under it."""
_APART: Final = 40.0
_CLOSE: Final = 28.0
"""Between two members, where carries go up; on a narrow page."""
_TIGHT: Final = 10.0
"""The same where none goes up."""
_FORK: Final = 14.0
"""From where the first carry forks to both sides."""
_RADIUS: Final = 10.0
_FOOT: Final = 30.0
"""From a unit to the sums under it."""
_BESIDE: Final = 34.0
"""From a sum to its p."""


def places(
    circuit: Circuit, root: Member, names: Mapping[str, tuple[int, ...]], *, narrow: bool
) -> Scene:
    """The scene of a lookahead tree, with its places."""
    made = _Tree(circuit, names, root, narrow)
    made.build()
    return made.placement.scene("left")


@dataclass(slots=True)
class _Tree(GroupWords):
    root: Member
    narrow: bool
    footed: bool = False
    """Whether gates at the foot make the sums."""
    right: float = 0.0
    """Where the next place or group ends."""
    spans: dict[str, tuple[float, float]] = field(default_factory=dict)
    """From where to where each member reaches, with what stands over it."""
    downs: dict[str, list[float]] = field(default_factory=dict)
    """Px of what each member gives to its unit, in the order of the ports."""
    carries: dict[Origin, list[str]] = field(default_factory=dict)
    """The pins that take in each carry."""

    def build(self) -> None:
        self.footed = any(leaf.foot for leaf in self.root.leaves())
        self._member(self.root)
        for leaf in self.root.leaves():
            if leaf.foot is not None:
                self._sum(leaf)
            elif self.footed:
                self._alone(leaf)
        self._carried(self.root)
        self._comes_in()
        self._goes_out()
        self.placement.note(self.marks)

    @property
    def _gap(self) -> float:
        if self.narrow:
            return _TIGHT if self.footed else _CLOSE
        return _APART

    def _nets(self, part: str, port: str) -> tuple[int, ...]:
        return self.names[f"{part}.{port}"]

    # ------------------------------------------------------------ members

    def _member(self, member: Member) -> float:
        """Place a member with all that stands over it; the y where it ends."""
        if not member.members:
            return self._leaf(member)
        bottoms = [self._member(one) for one in member.members]
        top = max(bottoms) + _LEVEL
        spans = [self.spans[one.part.name] for one in member.members]
        left, right = min(a for a, _ in spans), max(b for _, b in spans)
        self.spans[member.part.name] = left, right
        pins = self._taken(member, left)
        pins += self._given(member, right - left, ceil(left))
        if member is self.root:
            pins.append(self._last(member.part.name))
        end = self._put(member, pins, (left, top), right - left)
        for one in member.members:
            for (out, into), x in zip(one.given, self.downs[one.part.name], strict=True):
                start = self.placement.spots[f"{one.part.name}.{out}"]
                target = f"{member.part.name}.{into}"
                source = f"{one.part.name}.{out}"
                self.placement.join(Thread(f"{source}~", source, (target,)), [(start, (x, top))])
        return end

    def _taken(self, member: Member, left: float) -> list[Pin]:
        """Under each member what it gives, and between two of them the carry that goes up."""
        pins, name = [], member.part.name
        for one in member.members:
            for (_, into), x in zip(one.given, self.downs[one.part.name], strict=True):
                pin = Pin(f"{name}.{into}", into, self._nets(name, into))
                pins.append(pin.put("top", x - left, into))
        for one in member.members[1:]:
            assert one.carry is not None
            port = one.carry.port
            pin = Pin(f"{name}.{port}", port, self._nets(name, port))
            _, right = self.spans[one.part.name]
            if one.foot is None:
                pins.append(pin.put("top", right + self._gap / 2 - left, port))
            else:
                x = sum(self.spans[one.part.name]) / 2 + _BESIDE / 2
                pins.append(pin.put("bottom", x - left, port))
        return pins

    def _last(self, name: str) -> Pin:
        """The carry of all, at the left."""
        port = next(o.port for o in self.shown if o.owner == name)
        return Pin(f"{name}.{port}", port, self._nets(name, port)).put("left", _SIDE, port)

    def _given(self, member: Member, width: float, left: float) -> list[Pin]:
        """What a member gives to the unit under it, at its foot; the first port right."""
        ports = [port for port, _ in member.given][::-1]
        name, pins, xs = member.part.name, [], []
        step = width / len(ports) if ports else 0.0
        for place, port in enumerate(ports):
            at = round(step * (place + 0.5))
            label = PORT_LABELS.get(port, port)
            pins.append(
                Pin(f"{name}.{port}", port, self._nets(name, port)).put("bottom", at, label)
            )
            xs.append(left + at)
        self.downs[name] = xs[::-1]
        return pins

    def _leaf(self, member: Member) -> float:
        """A place or a group with the words over it."""
        part = member.part
        over = [port.name for port in part.kind.ins if port.name != member.into]
        given = {port for port, _ in member.given}
        if not self.footed:
            over += [port.name for port in part.kind.outs if self._shows(part, port.name)]
        words = [self.word(part, name, "bottom") for name in over]
        gap = 8.0 if self.narrow else 16.0
        name = text_width(part.name, theme.SIZE_NAME, weight=theme.STRONG)
        under = sum(small(PORT_LABELS.get(port, port)) + 2 * gap for port in given)
        least = name + (2 * gap if not member.into else 2 * (small("cin") + 20))
        width = 2.0 * ceil(max(least, under, sum(made.width + gap for made in words)) / 2)
        left = self.right - width
        self.spans[part.name] = left, self.right
        pins = [
            Pin(p.id, p.port, self.names[p.id]).put(p.side, p.at, p.label)
            for p in spread(part, words, over, "top", width)
        ]
        pins += self._given(member, width, left)
        end = self._put(member, pins, (left, 0.0), width)
        self.right = left - self._gap
        for element, port in zip(words, over, strict=True):
            self.over(element, f"{part.name}.{port}")
        return end

    def _shows(self, part: Part, port: str) -> bool:
        return Origin(part.name, port) in self.shown

    def _put(self, member: Member, pins: list[Pin], corner: Point, width: float) -> float:
        """A member with its pins; the y where it ends."""
        name, kind = member.part.name, member.part.kind.name
        high = _HIGH if any(pin.side == "bottom" for pin in pins) else _LOW
        if member.into:
            pin = Pin(f"{name}.{member.into}", member.into, self._nets(name, member.into))
            label = PORT_LABELS.get(member.into, member.into)
            pins = [*pins, pin.put("right", _SIDE, label)]
            if member.carry is not None:
                self.carries.setdefault(member.carry, []).append(pin.id)
        frame = (0.0, 0.0, width, high)
        role: Role = "unit" if member.members else "cell"
        # The unit is what the standard calls a carry-propagate-generate symbol.
        mark = "CPG" if member.members else symbol(member.part.kind)
        made = Element(name, role, kind, name, width, high, tuple(pins), frame, mark=mark)
        self.placement.put(made, corner)
        return corner[1] + high

    # ------------------------------------------------------------ sums

    @property
    def _bottom(self) -> float:
        """Where the unit ends that all else stands over."""
        spots = self.placement.spots
        name = self.root.part.name
        ends = [spots[f"{name}.{one.carry.port}"][1] for one in self.root.members[1:] if one.carry]
        return max(ends)

    def _sum(self, leaf: Member) -> None:
        """The gate that makes the sum of a place, under the unit, and the name of its p."""
        assert leaf.foot is not None
        assert leaf.carry is not None
        name = leaf.foot.name
        bits = [
            self.sources.origin(s)
            for port in leaf.foot.kind.ins
            for s in leaf.foot.signal(port.name)
        ]
        p = next(o for o in bits if isinstance(o, Origin) and o.owner == leaf.part.name)
        middle = sum(self.spans[leaf.part.name]) / 2
        x, y = middle + _BESIDE / 2, self._bottom + _FOOT + _RADIUS
        size = 2 * _RADIUS
        pins = (
            Pin(f"{name}:carry", "in", self._net(leaf.carry)).put("top", _RADIUS),
            Pin(f"{name}:p", "in", self._net(p)).put("left", _RADIUS),
            Pin(f"{name}.out", "out", self._nets(name, "out")).put("bottom", _RADIUS),
        )
        frame = (0.0, 0.0, size, size)
        made = Element(name, "sum", leaf.foot.kind.name, name, size, size, pins, frame, mark="=1")
        self.placement.put(made, (x - _RADIUS, y - _RADIUS))
        self.carries.setdefault(leaf.carry, []).append(f"{name}:carry")
        source = self._named(p, (x - _BESIDE + TABLE_CELL.width / 2, y), "right")
        start, end = self.placement.spots[source], self.placement.spots[f"{name}:p"]
        self.placement.join(Thread(f"{name}:p~", source, (f"{name}:p",)), [(start, end)])
        self._result(Origin(name, "out"), f"{name}.out", (x, y + _RADIUS))

    def _net(self, origin: Origin) -> tuple[int, ...]:
        name = f"{origin.owner}.{origin.port}" if origin.owner else origin.port
        return (self.names[name][origin.index],)

    def _named(self, p: Origin, spot: Point, side: Side) -> str:
        """A p by its name, as if it came from here; the pin where it leaves."""
        place = next(k for k, one in enumerate(self.root.leaves()) if one.part.name == p.owner)
        pin = Pin(f"{p.owner}.{p.port}:p.", p.port, self._net(p))
        where = "below" if side == "right" else "right"
        made = value(f"{p.owner}.{p.port}:p", f"p({place})", pin.nets[0], where)
        placed = pin.put(side, (TABLE_CELL.height if side == "right" else TABLE_CELL.width) / 2)
        self.placement.put_at(replace(made, pins=(placed,)), pin.id, spot)
        return pin.id

    def _alone(self, leaf: Member) -> None:
        """A p that is itself a bit of the sum."""
        for p in [o for o in self.shown if o.owner == leaf.part.name]:
            spot = (sum(self.spans[leaf.part.name]) / 2 + _BESIDE / 2, self._bottom + _FOOT + 20)
            self._result(p, self._named(p, spot, "bottom"), spot)

    def _result(self, origin: Origin, source: str, spot: Point) -> None:
        made = bit(self.shown[origin], self.shown[origin], "top", self._net(origin))
        end = (spot[0], spot[1] + made.stem)
        self.placement.put_at(made, made.pins[0].id, end)
        self.placement.join(Thread(f"{source}~", source, (made.pins[0].id,)), [(spot, end)])

    # ------------------------------------------------------------ carries

    def _carried(self, unit: Member) -> None:
        """From a unit up to the right of each member, and on to what stands over that."""
        for member in unit.members[1:]:
            assert member.carry is not None
            self._up(f"{unit.part.name}.{member.carry.port}", self.carries[member.carry])
        for member in unit.members:
            self._carried(member)

    def _up(self, source: str, targets: list[str]) -> None:
        x, y = self.placement.spots[source]
        ends = sorted(targets, key=lambda pin: self.placement.spots[pin][1])
        lines: list[Line] = []
        for place, pin in enumerate(ends):
            end = self.placement.spots[pin]
            lead: Line = ((x, y),) if place == 0 else ()
            lines.append((*lead, (x, end[1]), end))
        self.placement.join(Thread(f"{source}~", source, tuple(ends), "carry"), lines)

    def _comes_in(self) -> None:
        """The carry that comes in from outside, to all that take it in."""
        carry = self.root.carry
        targets = self.carries.get(carry, []) if carry else []
        if carry is None or not targets:
            return
        name = self.bits([carry])
        made = bit(name, name, "left", self._net(carry))
        _, right = self.spans[self.root.part.name]
        spots = {pin: self.placement.spots[pin] for pin in targets}
        order = sorted(targets, key=lambda pin: spots[pin][1])
        x = right + max(self._gap / 2, _FORK)
        level = spots[order[0]][1]
        start = (x + _FORK, level)
        self.placement.put_at(made, made.pins[0].id, start)
        lines: list[Line] = [(start, spots[order[0]])]
        for place, pin in enumerate(reversed(order[1:])):
            end = spots[pin]
            lead: Line = ((x, level),) if place == 0 else ()
            turn: Line = ((x, end[1]),)
            if pin.endswith(":carry"):
                low = self._bottom + _FOOT / 2
                turn = ((x, low), (end[0], low))
            lines.append((*lead, *turn, end))
        source = made.pins[0].id
        ends = (order[0], *reversed(order[1:]))
        self.placement.join(Thread(f"{source}~", source, ends, "carry"), lines)

    def _goes_out(self) -> None:
        name = self.root.part.name
        port = next(o for o in self.shown if o.owner == name)
        source = f"{name}.{port.port}"
        x, y = self.placement.spots[source]
        made = bit(self.shown[port], self.shown[port], "right", self._net(port))
        target, end = made.pins[0].id, (x - max(self._gap, _FORK + 4), y)
        self.placement.put_at(made, target, end)
        self.placement.join(Thread(f"{source}~", source, (target,), "carry"), [((x, y), end)])
