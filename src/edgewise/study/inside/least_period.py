"""The shortest clock period in which every set-up time is kept, along whatever path."""

from __future__ import annotations

from collections.abc import Mapping

from edgewise.circuit.netlist import CONSTANTS, Netlist
from edgewise.engines.timed.delays import Delays


def least_period(netlist: Netlist, delays: Delays, fed: Mapping[str, int]) -> int | None:
    """In ticks, clock skew among them; `fed` says when each input changes after an edge.

    It is enough for any operands; a shorter one may do where a path is a false one. None where
    that is not known: of a circuit without storage, with a gated clock, or with a loop.

    Examples
    --------
    >>> from edgewise import catalogue
    >>> from edgewise.study.inside import Manner
    >>> netlist = catalogue.design("serial-adder", n=4).netlist
    >>> manner = Manner()
    >>> delays = manner.delays(manner.model.timing(netlist))
    >>> least_period(netlist, delays, {"a_in": 400}) / manner.ticks
    12.0
    """
    stored = netlist.flip_flops
    if not stored or any(one.gate is not None for one in stored):
        return None
    at = dict.fromkeys(CONSTANTS, 0)
    for name, nets in netlist.inputs.items():
        at |= dict.fromkeys(nets, fed.get(name, 0))
    for one, times in zip(stored, delays.flip_flops, strict=True):
        at[one.q] = times.late + times.clock_to_q
    for gate, (rise, fall) in zip(netlist.gates, delays.gates, strict=True):
        read = [at.get(net) for net in gate.inputs]
        if None in read:
            return None  # a loop
        at[gate.output] = max(rise, fall) + max(one for one in read if one is not None)
    needed = [
        at[net] + setup - times.late
        for one, times in zip(stored, delays.flip_flops, strict=True)
        for net, setup in zip((one.d, one.enable, one.clear), times.setup, strict=True)
        if net is not None and net in at
    ]
    return max(needed, default=None)
