"""What the names in a circuit text stand for: nets, ports, words, bits, slices, constants."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import Final

from edgewise.arithmetic import Numbers, evaluate_at, number
from edgewise.bits import X
from edgewise.circuit import parts
from edgewise.circuit.builder import wires
from edgewise.circuit.model import CLOCK, Kind, Signal, Tie, no_slice
from edgewise.errors import (
    MOST_TOLD,
    CircuitError,
    EdgewiseError,
    Message,
    Place,
    Suggestion,
    nearest,
)
from edgewise.formula import Dot, Name, Node, Number, Select, Slice, Unknown, parse
from edgewise.yamltext import Sequence, Tree, scalar

MOST_LISTED: Final = 100_000
"""Items of all lists of nets in a circuit, counted for each member of a family, at most."""


@dataclass
class Piece:
    """A part of the text, before its kind is known."""

    name: str
    values: Mapping[str, int]
    """Numbers in force: parameters and the family's index."""
    type_name: str
    settings: dict[str, int | str]
    ports: Mapping[str, Tree]
    outputs: Mapping[str, int]
    """Width of each output port."""
    place: Place
    places: Mapping[str, Place]
    kind: Kind | None = None
    """Set for a circuit used as a part."""
    word: str | None = None
    look: str = ""


class Consequence(EdgewiseError):
    """A name that has no meaning only because of an error reported elsewhere."""


@dataclass
class Signals:
    """The names declared so far."""

    widths: dict[str, int] = field(default_factory=lambda: {CLOCK: 1})
    """Width of each declared net and input."""
    pieces: dict[str, Piece] = field(default_factory=dict)
    """Parts, by name."""
    broken: set[str] = field(default_factory=set)
    """Names, without index, whose declaration has an error."""
    listed: int = 0
    """Items of lists read so far, for each member of a family anew."""
    unknown: int = 0
    """Names that stand for nothing, so far."""
    following: list[tuple[str, str]] = field(default_factory=list)
    """Output ports whose nets are just being looked up."""

    def signal(self, tree: Tree, values: Mapping[str, int]) -> Signal:
        """The bits that a text names: a net, a part's port or word, a bit, a list, 0, 1, X."""
        if isinstance(tree, Sequence):
            self.listed += len(tree.items)
            if self.listed > MOST_LISTED:
                raise CircuitError(Message("lists-many", most=MOST_LISTED), tree.place)
            items = [self.signal(item, values) for item in tree.items]
            bits = sum(map(len, items))
            if bits > parts.MOST_INPUTS:
                raise CircuitError(
                    Message("list-bits", count=bits, most=parts.MOST_INPUTS), tree.place
                )
            return tuple(bit for item in reversed(items) for bit in item)
        text = scalar(tree, "a signal")
        formula: Node = parse(text.text, place=text.place)
        match formula:
            case Unknown():
                return (Tie(X),)
            case Number(value=bit) if bit in (0, 1):
                return (Tie(bit),)
            case Name():
                return self._named(formula, values, text.place)
        raise CircuitError(
            Message("net-expected", found=text.text),
            text.place,
        )

    def _named(self, name: Name, values: Mapping[str, int], place: Place) -> Signal:
        scope, steps, base = Numbers(values), list(name.steps), name.base

        def value(node: Node) -> int:
            return number(evaluate_at(node, scope, place))

        if steps and isinstance(steps[0], Select) and len(steps[0].items) == 1:
            member = f"{base}({value(steps[0].items[0])})"
            if member in self.pieces or member in self.widths:
                base = member
                steps.pop(0)
        match steps:
            case [Dot(name=port), *behind]:
                steps = behind
                bits = self._port(base, port, place)
            case _ if base in self.widths:
                bits = wires(base, self.widths[base])
            case _ if base in self.pieces:
                bits = self._port(base, self._word(base, place), place)
            case _:
                if steps and isinstance(steps[0], Select) and len(steps[0].items) == 1:
                    base = f"{base}({value(steps[0].items[0])})"
                raise self._unknown(base, "any", place)
        for step in steps:
            bits = _selected(bits, step, value, base, place)
        return bits

    def _word(self, part: str, place: Place) -> str:
        piece = self.pieces[part]
        if piece.word is None:
            one = next(iter(piece.outputs), None)
            told = Message("part-outputs", part=part, count=len(piece.outputs), one=one or "")
            raise CircuitError(told, place)
        return piece.word

    def _unknown(self, name: str, what: str, place: Place) -> EdgewiseError:
        """The error for a name that is not declared; `name` may carry an index."""
        base = name.partition("(")[0]
        if base in self.broken:
            return Consequence("")
        self.unknown += 1
        if self.unknown > MOST_TOLD:  # only their number is told, and looking is slow
            return CircuitError(Message("none-named", what=what, name=name, there=""), place)
        families = [*self.pieces, *self.widths] if what != "part" else [*self.pieces]
        family = [other for other in families if other.startswith(f"{base}(")]
        if family:
            ends = {"first": family[0], "last": family[-1]}
            there: Suggestion | Message = Message("family-there", indexed=int("(" in name), **ends)
        else:
            known = [n for n in (*self.widths, *self.pieces) if n != CLOCK]
            there = nearest(base, self.pieces if what == "part" else known)
        return CircuitError(Message("none-named", what=what, name=name, there=there), place)

    def _port(self, part: str, port: str, place: Place) -> Signal:
        piece = self.pieces.get(part)
        if piece is None:
            raise self._unknown(part, "part", place)
        if port not in piece.outputs:
            if port in piece.ports:
                raise CircuitError(Message("port-is-input", part=part, port=port), place)
            known = nearest(port, piece.outputs)
            raise CircuitError(
                Message(
                    "output-unknown", part=part, kind=piece.type_name, port=port, suggestion=known
                ),
                place,
            )
        driven = piece.ports.get(port)
        if driven is None or self.following[-1:] == [(part, port)]:
            return wires(f"{part}.{port}", piece.outputs[port])
        if (part, port) in self.following:
            raise CircuitError(
                Message("port-is-output", part=part, port=port),
                place,
            )
        self.following.append((part, port))
        try:
            return self.signal(driven, piece.values)
        finally:
            self.following.pop()


def _selected(
    bits: Signal, step: object, value: Callable[[Node], int], base: str, place: Place
) -> Signal:
    match step:
        case Select(items=(item,)):
            high = low = value(item)
        case Slice():
            high, low = value(step.high), value(step.low)
        case _:
            raise CircuitError(Message("index-expected", name=base), place)
    if not 0 <= low <= high < len(bits):
        raise no_slice(base, high, low, len(bits), place)
    return bits[low : high + 1]
