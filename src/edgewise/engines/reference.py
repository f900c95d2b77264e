"""The reference engine: three-valued, one row at a time, plain Python to be read.

Every other engine is held to this one.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from typing import Final

from edgewise.bits import Bit, X, bit_and, bit_mux, bit_not, bit_or, bit_xor
from edgewise.circuit.model import Tie
from edgewise.circuit.netlist import CLOCK_NET, FlipFlop, Netlist
from edgewise.design import Design, Source
from edgewise.trace import Trace

_OPERATORS: Final[Mapping[str, Callable[[Sequence[Bit]], Bit]]] = {
    "and": bit_and,
    "or": bit_or,
    "xor": bit_xor,
    "nand": lambda bits: bit_not(bit_and(bits)),
    "nor": lambda bits: bit_not(bit_or(bits)),
    "xnor": lambda bits: bit_not(bit_xor(bits)),
    "not": lambda bits: bit_not(bits[0]),
    "buffer": lambda bits: bits[0],
    "multiplexer": lambda bits: bit_mux(*bits),
}


def run(design: Design, operands: Mapping[str, int | Sequence[int]]) -> Trace:
    """Run the whole procedure of a design once.

    Parameters
    ----------
    design : Design
    operands : mapping of str to int, or to a sequence of them for a family
        Checked against the design's operands.

    Returns
    -------
    Trace
        edges + 1 rows.

    Raises
    ------
    DesignError
        Operands that don't fit.

    Examples
    --------
    >>> from edgewise import catalogue
    >>> trace = run(catalogue.design("ripple-carry-adder", n=4), {"a": 9, "b": 6, "carry_in": 0})
    >>> str(trace.word("sum", 0))
    '1111'
    """
    values = design.values(operands)
    netlist = design.netlist
    stored = [flip_flop.start for flip_flop in netlist.flip_flops]
    data = [flip_flop.d for flip_flop in netlist.flip_flops]
    controlled = [(i, one) for i, one in enumerate(netlist.flip_flops) if _controlled(one)]
    rows: list[bytes] = []
    for row, inputs in enumerate(design.schedule):
        if row:
            before = rows[-1]
            stored = [before[net] for net in data]
            for i, flip_flop in controlled:
                stored[i] = next_bit(flip_flop, before)
        fed = {name: [_bit(source, values) for source in inputs[name]] for name in inputs}
        rows.append(settle(netlist, stored, fed))
    return Trace(design, values, tuple(rows))


def at_rest(design: Design) -> Trace:
    """The start of a design, no input known: row 0 alone, for figures of the circuit itself.

    Examples
    --------
    >>> from edgewise import catalogue
    >>> trace = at_rest(catalogue.design("serial-adder", n=4))
    >>> trace.edges, str(trace.word("A", 0)), str(trace.word("a_in", 0))
    (0, '0000', 'X')
    """
    netlist = design.netlist
    unknown = {name: [X] * len(nets) for name, nets in netlist.inputs.items()}
    start = settle(netlist, [flip_flop.start for flip_flop in netlist.flip_flops], unknown)
    return Trace(design, {}, (start,))


def settle(netlist: Netlist, stored: Iterable[Bit], inputs: Mapping[str, Iterable[Bit]]) -> bytes:
    """Every net's bit, once the combinational nets have settled.

    Parameters
    ----------
    netlist : Netlist
    stored : iterable of bit
        What each flip-flop holds, in the order of ``netlist.flip_flops``.
    inputs : mapping of str to iterable of bit
        Bits of each input, LSB first.
    """
    values = bytearray(netlist.size)
    values[0], values[1], values[2], values[CLOCK_NET] = 0, 1, X, 1
    for name, nets in netlist.inputs.items():
        for net, bit in zip(nets, inputs[name], strict=True):
            values[net] = bit
    for flip_flop, bit in zip(netlist.flip_flops, stored, strict=True):
        values[flip_flop.q] = bit
    for gate in netlist.gates:
        operator = _OPERATORS[gate.operator]
        bit = operator([values[net] for net in gate.inputs])
        values[gate.output] = gate.cover.value(values) if gate.cover and bit == X else bit
    return bytes(values)


def next_bit(flip_flop: FlipFlop, row: Sequence[Bit]) -> Bit:
    """What a flip-flop stores at the edge that follows `row`."""
    held = row[flip_flop.q]
    stored = row[flip_flop.d]
    if flip_flop.enable is not None:
        stored = bit_mux(row[flip_flop.enable], held, stored)
    if flip_flop.cover and stored == X:
        stored = flip_flop.cover.value(row)
    if flip_flop.clear is not None:
        stored = bit_mux(row[flip_flop.clear], stored, 0)
    if flip_flop.gate is not None:
        stored = bit_mux(row[flip_flop.gate], held, stored)
    return stored


def _controlled(flip_flop: FlipFlop) -> bool:
    """Whether it can do anything but store `d` at each edge."""
    return (flip_flop.enable, flip_flop.clear, flip_flop.gate) != (None, None, None)


def _bit(source: Source, operands: Mapping[str, int]) -> Bit:
    if isinstance(source, Tie):
        return source.bit
    return operands[source.operand] >> source.index & 1
