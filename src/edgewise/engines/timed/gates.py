"""What gates give for known and unknown inputs, quickly; and when a part's cover may decide.

Where known bits decide more than the gates of a part can tell one by one, a cover does
(`edgewise.circuit.cover`). It must not tell sooner than the gates could: it counts once its nets
have stood as long as a change takes from them to the gate.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import lru_cache
from itertools import product
from typing import Final

from edgewise.bits import Bit
from edgewise.circuit.netlist import Gate, Netlist
from edgewise.circuit.truth import KLEENE
from edgewise.engines.run_loop import Machine
from edgewise.engines.timed.delays import Delays

_TABLED: Final = 6
"""A gate of up to this many inputs is looked up."""
Function = Callable[[Sequence[Bit]], Bit]
"""From all nets to what a gate gives."""


def function(gate: Gate) -> Function:
    """What a gate by itself gives."""
    nets = gate.inputs
    if len(nets) > _TABLED:
        machine = Machine(KLEENE)
        return lambda values: machine.gate(gate.operator, [values[net] for net in nets])
    table = _table(gate.operator, len(nets))
    match nets:
        case (one,):
            return lambda values: table[values[one]]
        case (one, two):
            return lambda values: table[values[one] + 3 * values[two]]
    weighed = [(net, 3**i) for i, net in enumerate(nets)]
    return lambda values: table[sum([values[net] * weight for net, weight in weighed])]


@lru_cache(maxsize=256)
def _table(operator: str, inputs: int) -> bytes:
    """What a gate gives for any inputs, the first of them the fastest to change."""
    machine = Machine(KLEENE)
    return bytes(machine.gate(operator, bits[::-1]) for bits in product(range(3), repeat=inputs))


def patience(netlist: Netlist, delays: Delays) -> dict[int, int]:
    """For each gate with a cover, how long a change takes from the cover's nets to its inputs.

    Examples
    --------
    In a full adder the carry's gate comes behind an exclusive or and an and:

    >>> from edgewise import catalogue
    >>> netlist = catalogue.design("ripple-carry-adder", n=1).netlist
    >>> delays = Delays(tuple((2 if g.operator == "xor" else 1,) * 2 for g in netlist.gates), ())
    >>> sorted(patience(netlist, delays).values())
    [3]
    """
    drivers = {gate.output: number for number, gate in enumerate(netlist.gates)}
    return {
        number: _longest(netlist, delays, drivers, number)
        for number, gate in enumerate(netlist.gates)
        if gate.cover
    }


def _longest(netlist: Netlist, delays: Delays, drivers: dict[int, int], number: int) -> int:
    """From the nets of a gate's cover to its inputs; a part has no loops inside."""
    cover = netlist.gates[number].cover
    begin = cover.nets if cover else frozenset()
    found: dict[int, int] = {}

    def to(net: int) -> int:
        driver = drivers.get(net)
        if net in begin or driver is None:
            return 0
        if net not in found:
            found[net] = 0
            inputs = netlist.gates[driver].inputs
            found[net] = max(delays.gates[driver]) + max(map(to, inputs), default=0)
        return found[net]

    return max(map(to, netlist.gates[number].inputs))
