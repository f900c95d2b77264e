"""Gating: where a run changes what gates a clock while that clock is high."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from edgewise.bits import X
from edgewise.circuit.clocks import gating
from edgewise.engines.reference import settle
from edgewise.errors import Message
from edgewise.trace import Trace


@dataclass(frozen=True, slots=True)
class Disturbed:
    """A gated clock whose gating net changes just after an edge, while the clock is high."""

    edge: int
    clock: str
    """The net of the gated clock."""
    gating: str
    """The net that changes."""
    before: int
    after: int


def disturbed(trace: Trace) -> Iterator[Disturbed]:
    """The first such change of each gating net.

    What drives an input can be made to change at the falling edge; a flip-flop changes just
    after the rising one. So a gating net that follows a flip-flop is looked at in the first
    half of each row: what is stored is new, the inputs are still those of the row before.

    Parameters
    ----------
    trace : Trace
    """
    netlist = trace.design.netlist
    pairs = {(clock, net) for clock, nets in gating(netlist).items() for net in nets}
    for row in range(1, len(trace.rows)):
        if not pairs:
            return
        old, new = trace.rows[row - 1], trace.rows[row]
        stored = [new[flip_flop.q] for flip_flop in netlist.flip_flops]
        inputs = {name: [old[net] for net in nets] for name, nets in netlist.inputs.items()}
        half = settle(netlist, stored, inputs)
        for clock, net in sorted(pairs):
            if half[net] != old[net]:
                pairs.discard((clock, net))
                labels = netlist.labels
                yield Disturbed(row, labels[clock], labels[net], old[net], half[net])


def warning(found: Disturbed) -> Message:
    """What such a change does, and what to do about it.

    Examples
    --------
    >>> print(str(warning(Disturbed(3, "gate.out", "EN", 0, 1))).partition(", which")[0])
    edge 3 changes EN from 0 to 1 while the clock is high: a false edge on gate.out
    """
    known = "false-edge" if found.after else "cut"
    return Message(
        "clock-gating-disturbed",
        edge=found.edge,
        gating=found.gating,
        before="01X"[found.before],
        after="01X"[found.after],
        pulse="either" if X in (found.before, found.after) else known,
        clock=found.clock,
    )
