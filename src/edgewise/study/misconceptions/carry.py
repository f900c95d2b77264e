"""Wrong ideas about carries, and about what a full adder gives."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import Final

from edgewise.circuit.builder import Builder
from edgewise.circuit.model import Adds, Circuit, Kind, Part, Signal, Tie, Wire
from edgewise.design import Design
from edgewise.study.edits import circuit_edits
from edgewise.study.misconceptions.misconception import COMMON, NEVER_CLEARED, Misconception
from edgewise.study.misconceptions.register import each_part

_ZERO: Final[Signal] = (Tie(0),)


def _full(part: Part) -> bool:
    """Whether it is a full adder."""
    return part.kind.adds is not None and part.kind.adds.carry_in is not None


def _comes(part: Part) -> Signal:
    """The carry into a full adder."""
    adds = part.kind.adds
    return part.signal(adds.carry_in) if adds and adds.carry_in else ()


def _goes(part: Part) -> Signal:
    """The carry out of an adder."""
    return part.signal(part.kind.adds.carry) if part.kind.adds else ()


def _fed(part: Part, carry: Signal) -> Part:
    """A full adder with another carry coming in."""
    adds = part.kind.adds
    return circuit_edits.rewired(part, {adds.carry_in: carry}) if adds and adds.carry_in else part


def _carry_flip_flops(circuit: Circuit) -> tuple[Part, ...]:
    """Flip-flops that store the carry out of a full adder."""
    carries = {wire for part in circuit.parts if _full(part) for wire in _goes(part)}
    return tuple(
        part
        for part in circuit.parts
        if part.kind.role == "storage"
        and part.kind.inside is None
        and part.signal("d")[0] in carries
    )


def dropped(design: Design) -> Design:
    """No full adder takes a carry."""
    return each_part(design, _full, lambda part: _fed(part, _ZERO))


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
    adders = [part for part in circuit.parts if _full(part)]
    incoming = [_comes(part) for part in adders]
    chained = all(
        set(after) <= set(_goes(before))
        for before, after in zip(adders, incoming[1:], strict=False)
    )
    if len(adders) < 2 or not chained:
        return circuit
    shifted = [_ZERO, *incoming[:-1]]
    if not set(incoming[0]) & {bit for part in circuit.parts for bit in _goes(part)}:
        shifted = [incoming[0], _ZERO, *incoming[1:-1]]
    moved = {part.name: _fed(part, carry) for part, carry in zip(adders, shifted, strict=True)}
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
        return _fed(part, tuple(late.get(wire, wire) for wire in _comes(part)))

    parts = tuple(later(part) for part in circuit.parts)
    return replace(circuit, parts=(*parts, *b.circuit().parts))


def or_sum(design: Design) -> Design:
    """Full adders whose sum is the OR of their inputs."""
    return _another_output(design, lambda adds: (adds.sum, "or", adds.inputs))


def carry_of_two(design: Design) -> Design:
    """Full adders whose carry is a AND b."""
    return _another_output(design, lambda adds: (adds.carry, "and", adds.inputs[:2]))


Driven = Callable[[Adds], tuple[str, str, tuple[str, ...]]]
"""An output of an adder, the gate that drives it instead, and the inputs that this reads."""


def _another_output(design: Design, driven: Driven) -> Design:
    """The design with another gate behind one output of each full adder; the other one stays.

    So who has one wrong idea of the sum and one of the carry has both.
    """
    made: dict[int, Kind] = {}

    def swap(part: Part) -> Part:
        kind = part.kind
        assert kind.adds is not None
        assert kind.inside is not None
        if id(kind) not in made:
            inside = circuit_edits.driven(kind.inside, *driven(kind.adds))
            made[id(kind)] = replace(kind, inside=inside)
        return replace(part, kind=made[id(kind)])

    return each_part(design, _full, swap)


MISCONCEPTIONS: Final = (
    Misconception(
        "carry-dropped",
        "",
        "a full adder",
        COMMON,
        dropped,
    ),
    Misconception(
        "carry-stays-set",
        "",
        "a flip-flop that stores the carry of a full adder",
        NEVER_CLEARED,
        stays_set,
    ),
    Misconception(
        "carry-kept-between-words",
        "",
        "a carry flip-flop with a clear",
        NEVER_CLEARED,
        kept_between_words,
    ),
    Misconception(
        "carry-too-far",
        "",
        "a carry flip-flop, or a chain of full adders",
        COMMON,
        too_far,
    ),
    Misconception(
        "or-for-sum",
        "",
        "a full adder",
        COMMON,
        or_sum,
    ),
    Misconception(
        "carry-of-two",
        "",
        "a full adder",
        COMMON,
        carry_of_two,
    ),
)
"""In the order in which a list shows them."""
