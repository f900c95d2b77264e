"""Motion: which bits travel along which wires at a clock edge, and where they are meanwhile.

First what the edge stores runs into the storage elements; then what they now hold runs on, gate
by gate, until everything has settled. A bit that no storage element takes does not run.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise
from math import hypot
from typing import Final

from edgewise.bits import Word
from edgewise.circuit.netlist import FlipFlop, Gate
from edgewise.circuit.truth import KLEENE
from edgewise.engines.reference import next_bit
from edgewise.engines.run_loop import Machine
from edgewise.views.diagram.elements import STORES, Element
from edgewise.views.diagram.picture import Picture
from edgewise.views.diagram.wire_strokes import stretches
from edgewise.views.layout.graph import PlacedWire, Point

_MACHINE: Final = Machine(KLEENE)
_STILL: Final = ("control", "clock")
"""Kinds of wires that carry no data."""
_HOLD: Final = frozenset({"enable", "clear", "preset", "load", "select"})
"""Ports that say what is stored, and are not stored themselves."""


@dataclass(frozen=True, slots=True)
class Token:
    """A word on its way along a wire, from its source to one target.

    Examples
    --------
    >>> token = Token("w", "A.in", Word(1, 1), ((0, 0), (30, 0), (30, 10)))
    >>> token.at(0.0), token.at(0.5), token.at(1.0)
    ((0.0, 0.0), (20.0, 0.0), (30.0, 10.0))
    """

    wire: str
    target: str
    word: Word
    points: tuple[Point, ...]

    @property
    def length(self) -> float:
        """Px of its way."""
        return sum(hypot(x2 - x1, y2 - y1) for (x1, y1), (x2, y2) in pairwise(self.points))

    def at(self, share: float) -> Point:
        """Where it is when that share of its way, 0 to 1, lies behind it."""
        lengths = [hypot(x2 - x1, y2 - y1) for (x1, y1), (x2, y2) in pairwise(self.points)]
        left = share * sum(lengths)
        for ((x1, y1), (x2, y2)), length in zip(pairwise(self.points), lengths, strict=True):
            if left <= length and length:
                part = left / length
                return x1 + part * (x2 - x1), y1 + part * (y2 - y1)
            left -= length
        x, y = self.points[-1]
        return float(x), float(y)


@dataclass(frozen=True)
class Motion:
    """The tokens of a picture's edges.

    Examples
    --------
    >>> from edgewise import catalogue, run
    >>> from edgewise.views.diagram.options import Manner
    >>> trace = run(catalogue.design("serial-adder", n=4), a=6, b=3)
    >>> motion = Motion(Picture(trace, Manner()))
    >>> [(token.target, str(token.word)) for token in motion.stored(6)]
    [('A.in', 'X'), ('B.in', 'X'), ('S.in', '0'), ('C.d', '1')]
    >>> [[token.target for token in wave] for wave in motion.settled(6)]
    [['FA.a', 'FA.b', 'sum<sum', 'carry<carry', 'FA.carry-in']]
    """

    picture: Picture

    def stored(self, edge: int) -> tuple[Token, ...]:
        """What edge number `edge` stores, on its way to the storage elements that take it."""
        row = self.picture.trace.rows[edge - 1]
        return tuple(
            token
            for token in self._tokens(row)
            if self._owner[token.target].role in STORES and self._taken(token.target, row)
        )

    def settled(self, row: int) -> tuple[tuple[Token, ...], ...]:
        """What runs on in a row until it has settled: waves, one after the other."""
        waves: defaultdict[int, list[Token]] = defaultdict(list)
        for token in self._tokens(self.picture.trace.rows[row]):
            if self._owner[token.target].role not in STORES:
                waves[self._level[token.wire]].append(token)
        return tuple(tuple(waves[level]) for level in sorted(waves))

    def _tokens(self, row: bytes) -> Iterator[Token]:
        for wire, target, points in self._ways:
            word = Word.from_bits(row[net] for net in self._nets[target])
            yield Token(wire.id, target, word, points)

    @cached_property
    def _ways(self) -> tuple[tuple[PlacedWire, str, tuple[Point, ...]], ...]:
        """Each data wire's way to each of its targets."""
        layout = self.picture.layout
        spots = {port.id: (port.x, port.y) for port in layout.ports}
        ways = []
        for wire in layout.wires:
            if wire.kind in _STILL or self._owner[wire.source].role == "tie":
                continue
            pieces = stretches(wire, spots.__getitem__)
            for target in wire.targets:
                points = [p for piece in pieces if target in piece.targets for p in piece.points]
                if self._port[target] not in _HOLD and len(points) > 1:
                    ways.append((wire, target, tuple(points)))
        return tuple(ways)

    @cached_property
    def _owner(self) -> Mapping[str, Element]:
        """The element of each pin."""
        return {pin.id: element for element in self.picture.scene.walk() for pin in element.pins}

    @cached_property
    def _nets(self) -> Mapping[str, tuple[int, ...]]:
        return {pin.id: pin.nets for pin in self.picture.scene.pins.values()}

    @cached_property
    def _port(self) -> Mapping[str, str]:
        return {pin.id: pin.port for pin in self.picture.scene.pins.values()}

    @cached_property
    def _level(self) -> Mapping[str, int]:
        """How many parts lie between storage elements or inputs and each wire, at most."""
        wires = {wire.id: wire for wire in self.picture.layout.wires}
        into: defaultdict[str, list[str]] = defaultdict(list)
        for wire in wires.values():
            for target in wire.targets:
                into[self._owner[target].id].append(wire.id)
        levels: dict[str, int] = {}

        def level(wire: str, above: frozenset[str]) -> int:
            source = self._owner[wires[wire].source]
            if wire not in levels:
                if source.role in STORES or source.role == "input" or wire in above:
                    return 0
                levels[wire] = max(
                    (level(one, above | {wire}) + 1 for one in into[source.id]), default=0
                )
            return levels[wire]

        return {wire: level(wire, frozenset()) for wire in wires}

    def _taken(self, pin: str, row: bytes) -> bool:
        """Whether what is stored at the edge after `row` would differ if the pin's bits did."""
        other = bytearray(row)
        for net in self._nets[pin]:
            other[net] = 0 if row[net] == 1 else 1
        gates, flip_flops = self._inside(self._owner[pin].id)
        for gate in gates:
            other[gate.output] = _MACHINE.gate(gate.operator, [other[n] for n in gate.inputs])
        return any(next_bit(one, row) != next_bit(one, other) for one in flip_flops)

    def _inside(self, part: str) -> tuple[list[Gate], list[FlipFlop]]:
        """The gates and flip-flops of a part."""
        netlist = self.picture.trace.design.netlist

        def within(name: str) -> bool:
            return name == part or name.startswith(f"{part}.")

        return (
            [gate for gate in netlist.gates if within(gate.name)],
            [one for one in netlist.flip_flops if within(one.name)],
        )
