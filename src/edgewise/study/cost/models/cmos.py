"""CMOS: transistors of textbook cells, and their delay by logical effort.

Every gate drives as strongly as an inverter of the smallest size. Then its delay is its parasitic
delay p plus the sum of the input loads g of all that it feeds, in units of tau, the delay of such
an inverter that feeds another, without parasitic delay. Thirds of tau are the ticks, so that all
is exact.

References
----------
I. Sutherland, R. Sproull, D. Harris, *Logical Effort*, 1999, ch. 1 (g and p); Weste and Harris,
*CMOS VLSI Design*, ch. 1 and 9 (cells); all from memory.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache
from itertools import starmap
from typing import Final

from edgewise.circuit.netlist import FlipFlop, Gate, Netlist
from edgewise.circuit.parts import function
from edgewise.circuit.truth import fed_by, ways
from edgewise.study.cost.technology import Technology, Timing, summed

WIDEST: Final = 4
"""Inputs of one cell, at most; wider gates are trees."""
INVERTER: Final = 2
"""Transistors."""
MULTIPLEXER: Final = 12
XOR: Final = 12
FLIP_FLOP: Final = 24
"""Two latches of 8 (gate, inverter, clocked inverter), input and output inverters, two inverters
for the clock."""
LOAD: Final = 3
"""What an inverter's input, a flip-flop's d or an output of the circuit is to its driver, ticks."""
CLOCK_TO_Q: Final = 30
"""Clock-to-Q without load: two inverters of fan-out 4 each."""
SETUP: Final = 15
"""Set-up time: one such inverter."""


@lru_cache(maxsize=512)
def transistors(operator: str, inputs: int) -> int:
    """Transistors of an elementary gate.

    Examples
    --------
    >>> transistors("nand", 2), transistors("and", 3), transistors("xor", 2), transistors("or", 6)
    (4, 8, 12, 22)
    """
    match operator:
        case "not":
            return INVERTER
        case "buffer":
            return 2 * INVERTER
        case "multiplexer":
            return MULTIPLEXER
        case "xor" | "xnor":
            return XOR * (inputs - 1)
        case "nand" | "nor" if inputs <= WIDEST:
            return 2 * inputs
        case "and" | "or" if inputs <= WIDEST:
            return 2 * inputs + INVERTER
    straight = {"nand": "and", "nor": "or"}.get(operator, operator)
    first = sum(transistors(straight, width) for width in _widths(inputs) if width > 1)
    return first + transistors(operator, len(_widths(inputs)))


def _widths(inputs: int) -> tuple[int, ...]:
    """The cells of a tree's first level: four inputs each, the last the rest."""
    return tuple(min(WIDEST, inputs - i) for i in range(0, inputs, WIDEST))


@lru_cache(maxsize=512)
def load(operator: str, inputs: int) -> int:
    """What one input of an elementary gate is to its driver, ticks: three times its logical effort.

    Examples
    --------
    >>> load("not", 1), load("nand", 2), load("nor", 2), load("xor", 2)
    (3, 4, 5, 12)
    """
    width = min(inputs, WIDEST)
    match operator:
        case "multiplexer":
            return 6
        case "xor" | "xnor":
            return 12
        case "nand" | "and":
            return width + 2
        case "nor" | "or":
            return 2 * width + 1
    return LOAD


@lru_cache(maxsize=512)
def parasitic(operator: str, inputs: int) -> int:
    """Delay of an elementary gate that feeds nothing, ticks, with what is inside the cell.

    Examples
    --------
    >>> parasitic("not", 1), parasitic("nand", 2), parasitic("and", 2), parasitic("xor", 2)
    (3, 6, 12, 12)
    """
    match operator:
        case "not":
            return 3
        case "buffer":
            return 9
        case "multiplexer":
            return 18
        case "xor" | "xnor":
            levels = (inputs - 1).bit_length()
            return 12 * levels + load("xor", 2) * (levels - 1)
        case "nand" | "nor" if inputs <= WIDEST:
            return 3 * inputs
        case "and" | "or" if inputs <= WIDEST:
            return 3 * inputs + LOAD + 3
    straight = {"nand": "and", "nor": "or"}.get(operator, operator)
    last = len(_widths(inputs))
    return parasitic(straight, WIDEST) + load(operator, last) + parasitic(operator, last)


def _storage(flip_flop: FlipFlop) -> int:
    held = MULTIPLEXER if flip_flop.enable is not None else 0
    cleared = transistors("and", 2) + INVERTER if flip_flop.clear is not None else 0
    return FLIP_FLOP + held + cleared


def _area(netlist: Netlist) -> tuple[int, int]:
    logic = sum(summed(transistors, gate.operator, len(gate.inputs)) for gate in netlist.gates)
    storage = sum(map(_storage, netlist.flip_flops))
    return logic + storage, storage


def _loads(netlist: Netlist) -> Iterator[tuple[int, int]]:
    """Every net that is fed somewhere, with the load there."""
    for gate in netlist.gates:
        feeding = fed_by(function(gate.operator), len(gate.inputs))
        for net, elements in zip(gate.inputs, feeding, strict=True):
            yield net, sum(starmap(load, elements))
    for flip_flop in netlist.flip_flops:
        held, cleared = flip_flop.enable is not None, flip_flop.clear is not None
        last = load("and", 2) if cleared else LOAD
        yield flip_flop.d, load("multiplexer", 3) if held else last
        if flip_flop.enable is not None:
            yield flip_flop.enable, load("multiplexer", 3)
            yield flip_flop.q, load("multiplexer", 3)
        if flip_flop.clear is not None:
            yield flip_flop.clear, LOAD
    for bits in netlist.outputs.values():
        for net in bits:
            yield net, LOAD


def _setup(flip_flop: FlipFlop) -> tuple[int, int, int]:
    d = clear = SETUP
    if flip_flop.clear is not None:
        d += parasitic("and", 2) + LOAD
        clear = d + parasitic("not", 1) + load("and", 2)
    if flip_flop.enable is not None:
        after = load("and", 2) if flip_flop.clear is not None else LOAD
        d += parasitic("multiplexer", 3) + after
    return d, d, clear


@lru_cache(maxsize=512)
def _through(operator: str, inputs: int) -> int:
    """Delay of any gate that feeds nothing: of the slowest way through its elementary gates."""
    return max(
        sum(starmap(parasitic, way)) + sum(starmap(load, way[1:]))
        for way in ways(function(operator), inputs)
    )


def _timing(netlist: Netlist) -> Timing:
    fed = [0] * netlist.size
    for net, each in _loads(netlist):
        fed[net] += each

    def delay(gate: Gate) -> int:
        return _through(gate.operator, len(gate.inputs)) + fed[gate.output]

    return Timing(
        tuple(map(delay, netlist.gates)),
        tuple(CLOCK_TO_Q + fed[flip_flop.q] for flip_flop in netlist.flip_flops),
        tuple(map(_setup, netlist.flip_flops)),
        (CLOCK_TO_Q + LOAD, SETUP),
    )


CMOS: Final = Technology(
    "cmos",
    "CMOS transistors",
    "transistors",
    "tau",
    _area,
    _timing,
    "Sutherland, Sproull and Harris, Logical Effort, ch. 1; Weste and Harris, CMOS VLSI Design,"
    " ch. 1 and 9 (all from memory); times of the flip-flop: common practice, no source",
    "no gate is made stronger and no buffer put in, so a net of great fan-out is slower than"
    " it would be built; wires weigh nothing",
    ticks=3,
)

TECHNOLOGIES: Final = (CMOS,)
