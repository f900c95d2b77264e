"""Arrival times: when every net has settled by its longest path, and which end is last."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Literal

from edgewise.circuit.netlist import Netlist
from edgewise.study.cost.technology import Timing

Kind = Literal["input", "flip-flop", "gate", "setup", "output"]
End = tuple[int, int, Kind, str, str]
"""When, net, kind, part and port."""


@dataclass(frozen=True, slots=True)
class Arrivals:
    """When every net has settled, in ticks after the edge (or after the inputs changed).

    `latest` is the end of the critical path: (when, net, kind, part, port), nothing if there is
    none.
    """

    at: tuple[int, ...]
    latest: End | None


def arrivals(netlist: Netlist, timing: Timing) -> Arrivals:
    """When every net has settled, exactly: gates come in the order of evaluation."""
    at = [0] * netlist.size
    for net, begin in begins(netlist, timing).items():
        at[net] = begin
    for gate, delay in zip(netlist.gates, timing.gates, strict=True):
        at[gate.output] = delay + max([at[net] for net in gate.inputs])
    latest = max(ends(netlist, timing, at), key=lambda end: end[0], default=None)
    return Arrivals(tuple(at), latest)


def ends(netlist: Netlist, timing: Timing, at: Sequence[int]) -> Iterator[End]:
    """Where paths end: set-up times of what stores, outputs."""
    yield from _setups(netlist, timing, at)
    yield from _outputs(netlist, at, timing.outside[1] if netlist.flip_flops else 0)


def begins(netlist: Netlist, timing: Timing) -> dict[int, int]:
    """When each net changes with which paths begin: inputs, and what is stored."""
    outside = timing.outside[0] if netlist.flip_flops else 0
    found = {net: outside for bits in netlist.inputs.values() for net in bits}
    for flip_flop, clock_to_q in zip(netlist.flip_flops, timing.clock_to_q, strict=True):
        found[flip_flop.q] = clock_to_q
    return found


def _setups(netlist: Netlist, timing: Timing, at: Sequence[int]) -> Iterator[End]:
    for flip_flop, (d, enable, clear) in zip(netlist.flip_flops, timing.setup, strict=True):
        yield at[flip_flop.d] + d, flip_flop.d, "setup", flip_flop.name, "d"
        if flip_flop.enable is not None:
            net = flip_flop.enable
            yield at[net] + enable, net, "setup", flip_flop.name, "enable"
        if flip_flop.clear is not None:
            yield at[flip_flop.clear] + clear, flip_flop.clear, "setup", flip_flop.name, "clear"
        if flip_flop.gate is not None:
            yield at[flip_flop.gate], flip_flop.gate, "setup", flip_flop.name, "clock"


def _outputs(netlist: Netlist, at: Sequence[int], setup: int) -> Iterator[End]:
    """The outputs; in a circuit with flip-flops each leads to d of one outside."""
    for name, bits in netlist.outputs.items():
        for i, net in enumerate(bits):
            yield at[net] + setup, net, "output", "", name if len(bits) == 1 else f"{name}({i})"
