"""Wrong ideas about carries, and about what a full adder gives."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import Final

from edgewise.circuit.builder import Builder
from edgewise.circuit.model import Circuit, Part, Signal, Tie, Wire
from edgewise.design import Design
from edgewise.study.edits import circuit_edits
from edgewise.study.misconceptions.register import each_part

_ADDERS: Final = ("full-adder",)
_ZERO: Final[Signal] = (Tie(0),)


def _carry_flip_flops(circuit: Circuit) -> tuple[Part, ...]:
    """Flip-flops that store the carry-out of an adder."""
    carries = {
        wire
        for part in circuit.parts
        if part.kind.name in _ADDERS
        for wire in part.signal("carry-out")
    }
    return tuple(
        part
        for part in circuit.parts
        if part.kind.name == "flip-flop" and part.signal("d")[0] in carries
    )


def dropped(design: Design) -> Design:
    """No full adder takes a carry."""
    return each_part(design, _ADDERS, lambda part: circuit_edits.rewired(part, {"carry-in": _ZERO}))


def _changed(design: Design, change: Callable[[Circuit], Circuit]) -> Design | None:
    """The design with each of its circuits changed; nothing if none of them is."""
    changed = circuit_edits.everywhere(design, change)
    return None if changed is design else changed


def stays_set(design: Design) -> Design | None:
    """Once set, a carry flip-flop stays set: d = carry-out or q."""
    return _changed(design, _stays_set)


def _stays_set(circuit: Circuit) -> Circuit:
    carries = _carry_flip_flops(circuit)
    if not carries:
        return circuit
    b = Builder("stuck")
    added = [
        b.part(f"{c.name}_stays", "or", {"in": (*c.signal("d"), *c.signal("q"))}).part
        for c in carries
    ]
    stays = {
        c.name: circuit_edits.rewired(c, {"d": a.signal("out")})
        for c, a in zip(carries, added, strict=True)
    }
    parts = tuple(stays.get(part.name, part) for part in circuit.parts)
    return replace(circuit, parts=(*parts, *added))


def kept_between_words(design: Design) -> Design:
    """A carry flip-flop is not cleared between words."""

    def of(circuit: Circuit) -> Circuit:
        carries = {part.name for part in _carry_flip_flops(circuit)}
        cleared = [p for p in circuit.parts if p.name in carries and p.signal("clear")]
        freed = {p.name: circuit_edits.without(p, "clear") for p in cleared}
        kept = tuple(freed.get(part.name, part) for part in circuit.parts)
        return replace(circuit, parts=kept) if freed else circuit

    return circuit_edits.everywhere(design, of)


def too_far(design: Design) -> Design | None:
    """The carry reaches the place after the next one; one from outside goes where it should."""
    return _changed(design, _too_far)


def _too_far(circuit: Circuit) -> Circuit:
    carries = _carry_flip_flops(circuit)
    if carries:
        return _delayed_carry(circuit, carries)
    adders = [part for part in circuit.parts if part.kind.name in _ADDERS]
    incoming = [part.signal("carry-in") for part in adders]
    chained = all(
        set(after) <= set(before.signal("carry-out"))
        for before, after in zip(adders, incoming[1:], strict=False)
    )
    if len(adders) < 2 or not chained:
        return circuit
    shifted = [_ZERO, *incoming[:-1]]
    if not set(incoming[0]) & {bit for p in circuit.parts for bit in p.signal("carry-out")}:
        shifted = [incoming[0], _ZERO, *incoming[1:-1]]
    moved = {
        part.name: circuit_edits.rewired(part, {"carry-in": carry})
        for part, carry in zip(adders, shifted, strict=True)
    }
    return replace(circuit, parts=tuple(moved.get(part.name, part) for part in circuit.parts))


def _delayed_carry(circuit: Circuit, carries: tuple[Part, ...]) -> Circuit:
    b = Builder("late")
    late: dict[Wire | Tie, Wire | Tie] = {}
    for carry in carries:
        ports = {
            c.port: c.signal for c in carry.connections if c.port in ("enable", "clear", "clock")
        }
        q = carry.signal("q")
        added = b.part(f"{carry.name}_late", "flip-flop", {"d": q, **ports})
        late[q[0]] = added["q"][0]

    def later(part: Part) -> Part:
        if part.kind.name not in _ADDERS:
            return part
        return circuit_edits.rewired(
            part, {"carry-in": tuple(late.get(w, w) for w in part.signal("carry-in"))}
        )

    parts = tuple(later(part) for part in circuit.parts)
    return replace(circuit, parts=(*parts, *b.circuit().parts))


def or_sum(design: Design) -> Design:
    """Full adders whose sum is the OR of their inputs."""
    return _another_adder(design, _adder_inside(_or_sum))


def carry_of_two(design: Design) -> Design:
    """Full adders whose carry is a AND b."""
    return _another_adder(design, _adder_inside(_carry_of_two))


def _another_adder(design: Design, inside: Circuit) -> Design:
    def swap(part: Part) -> Part:
        return replace(part, kind=replace(part.kind, inside=inside))

    return each_part(design, _ADDERS, swap)


def _adder_inside(build: Callable[[Builder, Signal, Signal, Signal], None]) -> Circuit:
    b = Builder("full adder")
    build(b, b.input("a"), b.input("b"), b.input("carry-in"))
    return b.circuit()


def _or_sum(b: Builder, a: Signal, other: Signal, carry: Signal) -> None:
    b.output("sum", b.part("X1", "or", {"in": (*carry, *other, *a)})["out"])
    pairs = [
        b.part(f"G{i}", "and", {"in": p})["out"]
        for i, p in enumerate(((*other, *a), (*carry, *other), (*carry, *a)))
    ]
    b.output(
        "carry-out", b.part("OR", "or", {"in": tuple(wire for p in pairs for wire in p)})["out"]
    )


def _carry_of_two(b: Builder, a: Signal, other: Signal, carry: Signal) -> None:
    b.output("sum", b.part("X1", "xor", {"in": (*carry, *other, *a)})["out"])
    b.output("carry-out", b.part("G1", "and", {"in": (*other, *a)})["out"])
