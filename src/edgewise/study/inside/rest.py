"""Rest: whether everything has come when a clock period ends."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from edgewise.bits import Bit, X
from edgewise.circuit.netlist import CLOCK_NET, Netlist
from edgewise.circuit.truth import KLEENE
from edgewise.engines.run_loop import Machine
from edgewise.engines.timed.delays import Delays
from edgewise.inside import Change


def overrun(
    netlist: Netlist,
    delays: Delays,
    start: Sequence[Bit],
    changes: Iterable[Change],
    ends: Iterable[int],
) -> tuple[int, ...]:
    """Those of the times `ends`, in order, at which changes are still to come.

    Examples
    --------
    >>> from edgewise import catalogue
    >>> netlist = catalogue.design("ripple-carry-adder-without-carry-in", n=1).netlist
    >>> fed = [Change(0, netlist.inputs["a"][0], 0, 1)]
    >>> start = [0, 1, 2, *[0] * (netlist.size - 3)]
    >>> overrun(netlist, Delays(((9, 9),) * len(netlist.gates), ()), start, fed, [5])
    (5,)
    """
    values, waiting, found = list(start), iter(changes), list[int]()
    change = next(waiting, None)
    shown = 0  # when the last edge so far will have come to every q
    for end in ends:
        while change is not None and change.time < end:
            values[change.net] = change.after
            if change.after == 1:
                shown = max(shown, _shown(netlist, delays, change))
            change = next(waiting, None)
        if shown >= end or not _agree(netlist, values):
            found.append(end)
    return tuple(found)


def _shown(netlist: Netlist, delays: Delays, rise: Change) -> int:
    """When a rise, if it is an edge, has come to all that store at it."""
    taken = [
        times.late + times.clock_to_q
        for one, times in zip(netlist.flip_flops, delays.flip_flops, strict=True)
        if (CLOCK_NET if one.gate is None else one.gate) == rise.net
    ]
    return rise.time + max(taken) if taken else 0


def _agree(netlist: Netlist, values: Sequence[Bit]) -> bool:
    """Whether every gate gives what it is to give."""
    machine = Machine(KLEENE)
    for gate in netlist.gates:
        bit = machine.gate(gate.operator, [values[net] for net in gate.inputs])
        if bit == X and gate.cover:
            bit = gate.cover.value(values, KLEENE)
        if bit != values[gate.output]:
            return False
    return True
