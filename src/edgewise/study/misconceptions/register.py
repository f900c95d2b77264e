"""Wrong ideas about registers: in what order they change, and where a bit enters."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import replace

from edgewise.circuit.model import Circuit, Part
from edgewise.circuit.storage import storage
from edgewise.design import Design
from edgewise.study.edits import circuit_edits


def each_part(design: Design, kinds: Iterable[str], change: Callable[[Part], Part]) -> Design:
    """The design with each part of these kinds put through `change`, those inside parts too."""
    wanted = tuple(kinds)

    def of(circuit: Circuit) -> Circuit:
        changed = tuple(change(p) if p.kind.name in wanted else p for p in circuit.parts)
        return replace(circuit, parts=changed)

    return circuit_edits.everywhere(design, of)


def in_turn(design: Design) -> Design | None:
    """Flip-flops change one after another, part by part, from the input side of each."""
    flip_flops = design.netlist.flip_flops
    if len(flip_flops) < 2:
        return None
    number = {flip_flop.q: i for i, flip_flop in enumerate(flip_flops)}
    order = []
    for one in storage(design.circuit, design.netlist):
        leftward = one.part.kind.setting("direction") == "left"
        nets = one.q if leftward else reversed(one.q)
        order += [number[net] for net in nets if net in number]
    changed = circuit_edits.one_after_another(design.netlist, tuple(order))
    return replace(design, altered=changed) if changed != design.netlist else None


def wrong_end(design: Design) -> Design:
    """Each shift register shifts the other way: the new bit enters where one leaves."""

    def flip(part: Part) -> Part:
        if part.kind.port("left") or part.kind.setting("width") == 1:
            return part
        widths = {c.port: len(c.signal) for c in part.connections}
        way = "right" if part.kind.setting("direction") == "left" else "left"
        return replace(part, kind=circuit_edits.remade(part.kind, widths, direction=way))

    return each_part(design, ("shift-register",), flip)


def re_enters(design: Design) -> Design:
    """Each shift register takes the bit that leaves it in place of its serial input."""
    return each_part(
        design,
        ("shift-register",),
        lambda part: circuit_edits.rewired(part, {"in": part.signal("out")}),
    )
