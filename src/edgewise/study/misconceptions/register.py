"""Wrong ideas about registers: in what order they change, and where a bit enters."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import Final

from edgewise.circuit.model import Circuit, Part
from edgewise.circuit.parts import part_type
from edgewise.circuit.storage import storage
from edgewise.design import Design
from edgewise.study.edits import circuit_edits
from edgewise.study.misconceptions.misconception import COMMON, Misconception


def each_part(
    design: Design, wanted: Callable[[Part], bool], change: Callable[[Part], Part]
) -> Design:
    """The design with each part that is `wanted` put through `change`, those inside parts too."""

    def of(circuit: Circuit) -> Circuit:
        changed = tuple(change(part) if wanted(part) else part for part in circuit.parts)
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
        one_way = part.kind.setting("direction") is not None and not part.kind.port("left")
        if not one_way or part.kind.setting("width") == 1:
            return part
        widths = {c.port: len(c.signal) for c in part.connections}
        way = "right" if part.kind.setting("direction") == "left" else "left"
        return replace(part, kind=circuit_edits.remade(part.kind, widths, direction=way))

    return each_part(design, _shifts, flip)


def _shifts(part: Part) -> bool:
    """Whether a part shifts, and has a serial input and output as a shift register has."""
    kind = part.kind
    shifts = kind.role == "storage" and part_type(kind.name).does == "shift"
    return shifts and kind.port("in") is not None and kind.port("out") is not None


def re_enters(design: Design) -> Design:
    """Each shift register takes the bit that leaves it in place of its serial input."""
    return each_part(
        design,
        _shifts,
        lambda part: circuit_edits.rewired(part, {"in": part.signal("out")}),
    )


MISCONCEPTIONS: Final = (
    Misconception(
        "one-after-another",
        "",
        "a flip-flop that feeds another one",
        "IEEE 1800, clause 10.4, has it as blocking assignments in a clocked block (from memory)",
        in_turn,
    ),
    Misconception(
        "wrong-end",
        "",
        "a shift register of two bits or more that shifts one way only",
        COMMON,
        wrong_end,
    ),
    Misconception(
        "re-enters",
        "",
        "a shift register that is fed from elsewhere",
        COMMON,
        re_enters,
    ),
)
"""In the order in which a list shows them."""
