"""The order in which gates are evaluated, and loops, in which there is none."""

from __future__ import annotations

from typing import Final

from edgewise.circuit.netlist import Drivers, Gate, Netlist
from edgewise.errors import CircuitError, Message

_LOOP_SHOWN: Final = 40
"""Nets of a loop that are printed, at most."""


def in_order(netlist: Netlist, drivers: Drivers) -> tuple[Gate, ...]:
    """The gates of a netlist, each after all that it reads.

    Parameters
    ----------
    netlist : Netlist
        Its gates may be in any order.
    drivers : mapping of int to (Gate, Place or None)
        The gate that drives each net.

    Raises
    ------
    CircuitError
        For a loop of gates, which is printed net by net.
    """
    readers: dict[int, list[Gate]] = {net: [] for net in drivers}
    waits: dict[int, int] = {}
    for gate in netlist.gates:
        driven = [net for net in gate.inputs if net in drivers]
        waits[gate.output] = len(driven)
        for net in driven:
            readers[net].append(gate)
    ordered = [gate for gate in netlist.gates if not waits[gate.output]]
    for gate in ordered:  # grows while it is read
        for reader in readers[gate.output]:
            waits[reader.output] -= 1
            if not waits[reader.output]:
                ordered.append(reader)
    if len(ordered) < len(netlist.gates):
        raise _loop(
            {gate.output: gate for gate in netlist.gates if waits[gate.output]}, netlist, drivers
        )
    return tuple(ordered)


def _loop(stuck: dict[int, Gate], netlist: Netlist, drivers: Drivers) -> CircuitError:
    """The error for a loop among gates of which each waits for another one of them."""
    trail: dict[int, None] = {}
    net = next(iter(stuck))
    while net not in trail:
        trail[net] = None
        net = next(read for read in stuck[net].inputs if read in stuck)
    steps = list(trail)
    loop = [*steps[steps.index(net) :], net][::-1]
    shown = [netlist.labels[net] for net in loop]
    if len(shown) > _LOOP_SHOWN:
        shown[_LOOP_SHOWN - 1 : -1] = [
            str(Message("loop-left-out", count=len(shown) - _LOOP_SHOWN))
        ]
    text = " -> ".join(shown)
    return CircuitError(Message("loop", nets=text), drivers[loop[0]][1])
