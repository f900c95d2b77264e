"""The size of a circuit: gates, flip-flops, logic depth.

Each count comes with its definition, because books differ:

======================  =====================  =======================================
function                inverters and buffers  a gate of m inputs
======================  =====================  =======================================
`gates`, `depth`        not counted            one gate, one level
… ``inverters=True``    counted like gates     one gate, one level
… ``two_input=True``    as above               m - 1 gates, the levels of a balanced tree
`unit_area`,            0                      as ``two_input``; AND, OR, NAND, NOR weigh 1,
`unit_delay`                                   XOR, XNOR 2; multiplexer area 3, delay 2
======================  =====================  =======================================

A 2:1 multiplexer, which has no parts inside, counts as one gate and one level, and as three
gates at two levels (AND, AND, OR) where ``two_input`` is set.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Mapping

from edgewise.circuit.netlist import Gate, Netlist
from edgewise.circuit.parts import function
from edgewise.study.cost.models import gates as model
from edgewise.study.cost.technology import slowest, summed


def gate_counts(netlist: Netlist) -> Mapping[str, int]:
    """How many gates there are of each kind, inverters and buffers too; by name.

    Examples
    --------
    >>> from edgewise import catalogue
    >>> gate_counts(catalogue.design("ripple-carry-adder", n=4).netlist)
    {'and': 8, 'or': 4, 'xor': 8}
    """
    return dict(sorted(Counter(gate.operator for gate in netlist.gates).items()))


def gates(netlist: Netlist, *, two_input: bool = False, inverters: bool = False) -> int:
    """Number of gates.

    Parameters
    ----------
    netlist : Netlist
    two_input : bool
        Whether a gate of m inputs counts as m - 1 gates.
    inverters : bool
        Whether inverters and buffers count.

    Examples
    --------
    >>> from edgewise import catalogue
    >>> gates(catalogue.design("ripple-carry-adder", n=4).netlist)
    20
    """
    counted = [gate for gate in netlist.gates if inverters or _is_logic(gate)]
    if not two_input:
        return len(counted)
    return sum(map(_weight, counted))


def flip_flops(netlist: Netlist) -> int:
    """Number of flip-flops.

    Examples
    --------
    >>> from edgewise import catalogue
    >>> flip_flops(catalogue.design("serial-adder", n=6).netlist)
    19
    """
    return len(netlist.flip_flops)


def depth(netlist: Netlist, *, two_input: bool = False, inverters: bool = False) -> int:
    """Logic depth: gates on the critical path without a flip-flop on it.

    The path runs from an input or a flip-flop's output to an output or an input of a
    flip-flop.

    Parameters
    ----------
    netlist : Netlist
    two_input, inverters : bool
        As in `gates`.

    Examples
    --------
    >>> from edgewise import catalogue
    >>> depth(catalogue.design("ripple-carry-adder", n=4).netlist)
    9
    """
    return _longest(netlist, lambda gate: _levels(gate, two_input=two_input, inverters=inverters))


def unit_area(netlist: Netlist) -> int:
    """Area in the unit-gate model.

    Examples
    --------
    >>> from edgewise import catalogue
    >>> unit_area(catalogue.design("ripple-carry-adder", n=4).netlist)
    28

    References
    ----------
    A. Tyagi, "A reduced-area scheme for carry-select adders", IEEE Trans. Computers 42(10),
    1993 (from memory).
    """
    return sum(summed(model.unit_area, gate.operator, len(gate.inputs)) for gate in netlist.gates)


def unit_delay(netlist: Netlist) -> int:
    """Delay of the critical path in the unit-gate model; flip-flops are outside the model.

    Examples
    --------
    >>> from edgewise import catalogue
    >>> unit_delay(catalogue.design("ripple-carry-adder", n=4).netlist)
    10

    References
    ----------
    As for `unit_area`.
    """
    return _longest(
        netlist, lambda gate: slowest(model.unit_delay, gate.operator, len(gate.inputs))
    )


def _is_logic(gate: Gate) -> bool:
    """Whether it is more than an inverter or a buffer."""
    return bool(function(gate.operator).operation)


def _weight(gate: Gate) -> int:
    """How many gates of two inputs it stands for; an inverter, where it counts, for one."""
    return summed(model.two_input_gates, gate.operator, len(gate.inputs)) or 1


def _levels(gate: Gate, *, two_input: bool, inverters: bool) -> int:
    if not _is_logic(gate):
        return int(inverters)
    return slowest(model.two_input_levels, gate.operator, len(gate.inputs)) if two_input else 1


def _longest(netlist: Netlist, delay: Callable[[Gate], int]) -> int:
    at = [0] * netlist.size
    for gate in netlist.gates:
        at[gate.output] = delay(gate) + max(at[net] for net in gate.inputs)
    ends = [net for bits in netlist.outputs.values() for net in bits]
    for flip_flop in netlist.flip_flops:
        ends += [n for n in (flip_flop.d, flip_flop.enable, flip_flop.clear, flip_flop.gate) if n]
    return max((at[net] for net in ends), default=0)
