"""Slips: wrong ideas that can be run, as designs of their own.

A slip turns a design into the one that its believer has in mind. Run on any engine, it
gives the answer that the idea leads to; where that differs from the truth, an example or an
exercise can tell the idea from the truth. Wrong answers are mostly right executions of a
wrong procedure (J. S. Brown and R. R. Burton, "Diagnostic Models for Procedural Bugs in
Basic Mathematical Skills", Cognitive Science 2(2), 1978, 155-192).
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, replace
from typing import Final

from edgewise.bits import Word, X
from edgewise.circuit.builder import Builder, wires
from edgewise.circuit.model import Circuit, Kind, Net, Part, Signal, Tie, Wire
from edgewise.design import Design, Feed
from edgewise.engines import reference
from edgewise.errors import EdgewiseError, nearest
from edgewise.study import surgery

BROWN_BURTON: Final = "Brown and Burton 1978"
COMMON: Final = "common practice, no source"


@dataclass(frozen=True, slots=True)
class Slip:
    """A wrong idea.

    Parameters
    ----------
    name : str
        Ours, in words with hyphens.
    thought : str
        The idea as a learner would say it, one sentence.
    source : str
        Where it is described, or ``common practice, no source``.
    change : function
        The design of one who thinks so; None where the idea has no meaning.
    """

    name: str
    thought: str
    source: str
    change: Callable[[Design], Design | None]

    def of(self, design: Design) -> Design | None:
        """The design that the believer has in mind, or None where the slip doesn't apply.

        It applies where it changes the design at all; whether it changes the answer depends
        on the operands.
        """
        changed = self.change(design)
        if changed is None or changed == design:
            return None
        return replace(changed, name=f"{design.name} ({self.name})")


# --------------------------------------------------------------------------- shift registers


def _each(design: Design, kinds: Iterable[str], change: Callable[[Part], Part]) -> Design:
    wanted = tuple(kinds)
    return surgery.with_parts(design, lambda p: change(p) if p.kind.name in wanted else p)


def _in_turn(design: Design) -> Design | None:
    flip_flops = design.netlist.flip_flops
    if len(flip_flops) < 2:  # noqa: PLR2004
        return None
    rank = {part.name: i for i, part in enumerate(design.circuit.parts)}
    leftward = {p.name for p in design.circuit.parts if p.kind.setting("direction") == "left"}

    def key(position: int) -> tuple[int, int]:
        part, _, bit = flip_flops[position].name.partition(".bit(")
        index = int(bit.rstrip(")") or 0)
        return rank.get(part, 0), index if part in leftward else -index

    order = tuple(sorted(range(len(flip_flops)), key=key))
    changed = surgery.one_after_another(design.netlist, order)
    return replace(design, altered=changed) if changed != design.netlist else None


def _wrong_end(design: Design) -> Design:
    def flip(part: Part) -> Part:
        if part.kind.port("left") or part.kind.setting("width") == 1:
            return part
        widths = {c.port: len(c.signal) for c in part.connections}
        way = "right" if part.kind.setting("direction") == "left" else "left"
        return replace(part, kind=surgery.remade(part.kind, widths, direction=way))

    return _each(design, ("shift-register",), flip)


def _reenters(design: Design) -> Design:
    return _each(
        design,
        ("shift-register",),
        lambda part: surgery.rewired(part, {"in": part.signal("out")}),
    )


# --------------------------------------------------------------------------- carries

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


def _carry_dropped(design: Design) -> Design:
    return _each(design, _ADDERS, lambda part: surgery.rewired(part, {"carry-in": _ZERO}))


def _carry_stuck(design: Design) -> Design | None:
    """Once set, a carry flip-flop stays set: d = carry-out or q."""
    carries = _carry_flip_flops(design.circuit)
    if not carries:
        return None
    circuit = design.circuit
    b = Builder("stuck")
    added = [
        b.part(f"{c.name}_stays", "or", {"in": (*c.signal("d"), *c.signal("q"))}).part
        for c in carries
    ]
    stays = {c.name: surgery.rewired(c, {"d": a.signal("out")}) for c, a in zip(carries, added, strict=True)}
    parts = tuple(stays.get(part.name, part) for part in circuit.parts)
    return surgery.with_circuit(design, replace(circuit, parts=(*parts, *added)))


def _carry_kept(design: Design) -> Design:
    """A carry flip-flop is not cleared between words."""
    carries = {part.name for part in _carry_flip_flops(design.circuit)}
    return surgery.with_parts(
        design,
        lambda p: surgery.without(p, "clear") if p.name in carries and p.signal("clear") else p,
    )


def _carry_too_far(design: Design) -> Design | None:
    """The carry reaches the place after the next one."""
    circuit = design.circuit
    carries = _carry_flip_flops(circuit)
    if carries:
        return _delayed_carry(design, carries)
    adders = [part for part in circuit.parts if part.kind.name in _ADDERS]
    incoming = [part.signal("carry-in") for part in adders]
    chained = all(
        set(after) <= set(before.signal("carry-out"))
        for before, after in zip(adders, incoming[1:], strict=False)
    )
    if len(adders) < 2 or not chained:  # noqa: PLR2004
        return None
    shifted = [incoming[0], _ZERO, *incoming[1:-1]]
    moved = {
        part.name: surgery.rewired(part, {"carry-in": carry})
        for part, carry in zip(adders, shifted, strict=True)
    }
    return surgery.with_parts(design, lambda part: moved.get(part.name, part))


def _delayed_carry(design: Design, carries: tuple[Part, ...]) -> Design:
    circuit = design.circuit
    b = Builder("late")
    late: dict[Wire | Tie, Wire | Tie] = {}
    for carry in carries:
        ports = {c.port: c.signal for c in carry.connections if c.port in ("enable", "clear", "clock")}
        q = carry.signal("q")
        added = b.part(f"{carry.name}_late", "flip-flop", {"d": q, **ports})
        late[q[0]] = added["q"][0]

    def later(part: Part) -> Part:
        if part.kind.name not in _ADDERS:
            return part
        return surgery.rewired(part, {"carry-in": tuple(late.get(w, w) for w in part.signal("carry-in"))})

    parts = tuple(later(part) for part in circuit.parts)
    return surgery.with_circuit(design, replace(circuit, parts=(*parts, *b.circuit().parts)))


def _another_adder(design: Design, inside: Circuit) -> Design:
    def swap(part: Part) -> Part:
        return replace(part, kind=replace(part.kind, inside=inside))

    return _each(design, _ADDERS, swap)


def _adder_inside(build: Callable[[Builder, Signal, Signal, Signal], None]) -> Circuit:
    b = Builder("full adder")
    build(b, b.input("a"), b.input("b"), b.input("carry-in"))
    return b.circuit()


def _or_sum(b: Builder, a: Signal, other: Signal, carry: Signal) -> None:
    b.output("sum", b.part("X1", "or", {"in": (*carry, *other, *a)})["out"])
    pairs = [b.part(f"G{i}", "and", {"in": p})["out"] for i, p in enumerate(((*other, *a), (*carry, *other), (*carry, *a)))]
    b.output("carry-out", b.part("OR", "or", {"in": tuple(wire for p in pairs for wire in p)})["out"])


def _carry_of_two(b: Builder, a: Signal, other: Signal, carry: Signal) -> None:
    b.output("sum", b.part("X1", "xor", {"in": (*carry, *other, *a)})["out"])
    b.output("carry-out", b.part("G1", "and", {"in": (*other, *a)})["out"])


# --------------------------------------------------------------------------- procedure


def _msb_first(design: Design) -> Design:
    def turned(feed: Feed) -> Feed:
        orders = {"lsb-first": "msb-first", "msb-first": "lsb-first"}
        is_operand = isinstance(feed.what, str)
        return replace(feed, order=orders.get(feed.order, feed.order)) if is_operand else feed

    return surgery.with_feeds(design, turned)


def _early(design: Design) -> Design | None:
    return surgery.read_after(design, lambda row: max(row - 1, 0)) if design.edges else None


def _late(design: Design) -> Design | None:
    if not design.edges:
        return None
    return surgery.longer(surgery.read_after(design, lambda row: row + 1))


def _loading_not_counted(design: Design) -> Design | None:
    phases = list(surgery.phases_with_edges(design))
    if len(phases) < 2:  # noqa: PLR2004
        return None
    skipped = phases[0].edges
    return surgery.read_after(design, lambda row: max(row - skipped, 0))


def _enable_ignored(design: Design) -> Design:
    def always(part: Part) -> Part:
        for port in ("enable", "clock"):
            if part.kind.port("q") and part.signal(port):
                part = surgery.without(part, port)
        return part

    changed = surgery.with_parts(design, always)
    return replace(changed, circuit=_without_idle_clock_gates(changed.circuit))


def _without_idle_clock_gates(circuit: Circuit) -> Circuit:
    """Without the AND gates that gated a clock that nothing takes any more."""
    read = {
        bit
        for part in circuit.parts
        for c in part.connections
        if (port := part.kind.port(c.port)) and port.direction == "in"
        for bit in c.signal
    }
    return replace(
        circuit,
        parts=tuple(
            part
            for part in circuit.parts
            if part.kind.name != "and"
            or Wire("clock") not in part.signal("in")
            or read & set(part.signal("out"))
        ),
    )


def _unknown_as(bit: int) -> Callable[[Design], Design]:
    def take(design: Design) -> Design:
        netlist = design.netlist
        starts = tuple(
            replace(f, start=bit) if f.start == X else f for f in netlist.flip_flops
        )
        fed = surgery.with_feeds(
            design,
            lambda feed: feed
            if feed.what is not None
            else replace(feed, what=bit * ((1 << len(netlist.inputs[feed.input])) - 1)),
        )
        if starts == netlist.flip_flops:
            return fed
        return replace(fed, altered=replace(netlist, flip_flops=starts))

    return take


def _reversed(design: Design) -> Design:
    circuit = design.circuit
    outputs = tuple(replace(o, signal=o.signal[::-1]) for o in circuit.outputs)
    nets = {net.name for net in circuit.nets}
    if not any(o.name in nets for o in circuit.outputs):
        return surgery.with_circuit(design, replace(circuit, outputs=outputs))
    # An output that is a net of its own name is read through a second name.
    netlist = design.netlist
    turned = {name: bits[::-1] for name, bits in netlist.outputs.items()}
    return replace(
        design,
        altered=replace(netlist, outputs=turned, names={**netlist.names, **turned}),
    )


SLIPS: Final = (
    Slip(
        "one-after-another",
        "The stages change one after another from the input side, so each sees what the one"
        " before it has just become.",
        "REFERENCES: the classic of clocked logic; as blocking assignment, IEEE 1800 cl. 10.4",
        _in_turn,
    ),
    Slip("wrong-end", "The new bit enters at the other end of the register.", COMMON, _wrong_end),
    Slip("re-enters", "The bit that leaves the register comes in again at its other end.", COMMON, _reenters),
    Slip("carry-dropped", "Each place is added by itself; the carry is left out.", COMMON, _carry_dropped),
    Slip(
        "carry-stays-set",
        "Once there is a carry, it is added in every place that follows.",
        BROWN_BURTON,
        _carry_stuck,
    ),
    Slip(
        "carry-kept-between-words",
        "The carry that is left from one word is added to the next.",
        BROWN_BURTON,
        _carry_kept,
    ),
    Slip("carry-too-far", "The carry goes one place further left than it should.", COMMON, _carry_too_far),
    Slip(
        "or-for-sum",
        "One and one make one: the sum bit is 1 if any input is 1.",
        COMMON,
        lambda design: _another_adder(design, _adder_inside(_or_sum)),
    ),
    Slip(
        "carry-of-two",
        "There is a carry only if both operand bits are 1; the carry coming in does not matter.",
        COMMON,
        lambda design: _another_adder(design, _adder_inside(_carry_of_two)),
    ),
    Slip("msb-first", "The words are fed from the left end, as one reads them.", COMMON, _msb_first),
    Slip("one-edge-early", "The start counts as edge 1, so the answer stands one edge sooner.", COMMON, _early),
    Slip("one-edge-late", "One more edge is needed to bring the answer out.", COMMON, _late),
    Slip("loading-not-counted", "Only the edges after loading count.", COMMON, _loading_not_counted),
    Slip("enable-ignored", "A register takes its input at every edge, enabled or not.", COMMON, _enable_ignored),
    Slip("unknown-as-0", "What is not known is 0.", COMMON, _unknown_as(0)),
    Slip("unknown-as-1", "What is not known is 1.", COMMON, _unknown_as(1)),
    Slip("read-backwards", "The answer is read with its LSB on the left.", COMMON, _reversed),
)
"""Every slip, in the order in which a list shows them."""


def find(name: str) -> Slip:
    """The slip of this name; the error for an unknown one suggests the nearest."""
    for slip in SLIPS:
        if slip.name == name:
            return slip
    raise EdgewiseError(f"there is no slip {name}{nearest(name, (s.name for s in SLIPS))}")


def applicable(design: Design) -> tuple[tuple[Slip, Design], ...]:
    """Each slip that has a meaning for a design, with the design it leads to.

    Examples
    --------
    >>> from edgewise import catalogue
    >>> ripple = catalogue.design("ripple-carry-adder", n=4)
    >>> [slip.name for slip, _ in applicable(ripple)][:3]
    ['carry-dropped', 'carry-too-far', 'or-for-sum']
    """
    found = ((slip, slip.of(design)) for slip in SLIPS)
    return tuple((slip, changed) for slip, changed in found if changed is not None)


def answers(design: Design, operands: Mapping[str, int]) -> dict[str, Word]:
    """The words at a design's outputs, where and when its answer is read.

    Examples
    --------
    >>> from edgewise import catalogue
    >>> design = catalogue.design("serial-adder", n=4)
    >>> dropped = find("carry-dropped").of(design)
    >>> str(answers(design, {"a": 6, "b": 3})["sum"]), str(answers(dropped, {"a": 6, "b": 3})["sum"])
    ('1001', '0101')
    """
    trace = reference.run(design, operands)
    return {
        p.output: trace.bits(
            design.netlist.outputs[p.output], trace.edges if p.after is None else p.after
        )
        for p in design.computes
    }
