"""Switching activity: how many nets change in one result, for random operands.

It stands in for energy: in CMOS a gate takes energy from the supply when its output changes.
Counted are the outputs of gates and flip-flops from one settled row to the next; what flickers in
between (hazards) is not seen, and a net that feeds many counts as one.

With a clock, a result is a whole run from the start to the last row. Without, it is the change from
one set of operands to the next. What is unknown (X) is run as 0.
"""

from __future__ import annotations

import random
from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Final

from edgewise.circuit.model import Tie
from edgewise.circuit.netlist import CLOCK_NET, FlipFlop, Gate, Netlist
from edgewise.design import Design
from edgewise.procedure import Source

RESULTS: Final = 256
"""Runs that are counted."""
SEED: Final = 2026
"""Of the random operands."""


@dataclass(frozen=True, slots=True)
class Activity:
    """Toggles counted.

    Parameters
    ----------
    total : int
        Changes of all nets in all results.
    results, seed : int
        How many results, and from which random operands.
    """

    total: int
    results: int
    seed: int

    @property
    def mean(self) -> Fraction:
        """Toggles per result."""
        return Fraction(self.total, self.results)

    def __str__(self) -> str:
        mean = float(self.mean)
        return f"{mean:.1f} toggles a result ({self.results} random results, seed {self.seed})"


def toggles(design: Design, results: int = RESULTS, seed: int = SEED) -> Activity:
    """Count the toggles of a design.

    Parameters
    ----------
    design : Design
    results : int
        Runs, side by side: bit i of a Python number belongs to run i.
    seed : int

    Examples
    --------
    >>> from edgewise import catalogue
    >>> print(toggles(catalogue.design("ripple-carry-adder", n=8)))
    17.6 toggles a result (256 random results, seed 2026)
    """
    netlist, mask = design.netlist, (1 << results) - 1
    words = operands(design, results, seed)
    lanes = {
        (name, i): sum((value >> i & 1) << lane for lane, value in enumerate(values))
        for name, values in words.items()
        for i in range(max(value.bit_length() for value in values))
    }
    counted = [gate.output for gate in netlist.gates if CLOCK_NET not in gate.inputs]
    counted += [flip_flop.q for flip_flop in netlist.flip_flops]

    def bit(source: Source) -> int:
        if isinstance(source, Tie):
            return mask if source.bit == 1 else 0
        return lanes.get((source.operand, source.index), 0)

    stored = [mask if flip_flop.start == 1 else 0 for flip_flop in netlist.flip_flops]
    before: list[int] | None = None
    total = 0
    for fed in design.schedule[: design.edges + 1]:
        inputs = {name: [bit(source) for source in sources] for name, sources in fed.items()}
        row = _settle(netlist, stored, inputs, mask)
        if before is not None:
            total += sum((before[net] ^ row[net]).bit_count() for net in counted)
        before = row
        stored = [_next(flip_flop, row, mask) for flip_flop in netlist.flip_flops]
    if not design.edges and before is not None:
        # From each set of operands to the next, the last to the first.
        for net in counted:
            value = before[net]
            turned = value >> 1 | (value & 1) << results - 1
            total += (value ^ turned).bit_count()
    return Activity(total, results, seed)


def operands(design: Design, results: int, seed: int) -> Mapping[str, list[int]]:
    """Random operands for each run; the same for every design with operands of the same names.

    Examples
    --------
    >>> from edgewise import catalogue
    >>> operands(catalogue.design("serial-adder", n=4), 3, 1)["a"]
    [12, 9, 2]
    """
    return {
        operand.name: [
            value
            for chance in [random.Random(f"{seed} {operand.name} {operand.width}")]  # noqa: S311
            for value in (chance.getrandbits(operand.width) for _ in range(results))
        ]
        for operand in design.operands
    }


def _settle(
    netlist: Netlist, stored: list[int], inputs: Mapping[str, list[int]], mask: int
) -> list[int]:
    row = [0] * netlist.size
    row[1] = row[CLOCK_NET] = mask
    for name, bits in netlist.inputs.items():
        for net, value in zip(bits, inputs[name], strict=True):
            row[net] = value
    for flip_flop, value in zip(netlist.flip_flops, stored, strict=True):
        row[flip_flop.q] = value
    for gate in netlist.gates:
        row[gate.output] = _value(gate, row, mask)
    return row


def _value(gate: Gate, row: list[int], mask: int) -> int:
    first, *others = (row[net] for net in gate.inputs)
    match gate.operator:
        case "multiplexer":
            return first & others[1] | ~first & others[0] & mask
        case "and" | "nand":
            for other in others:
                first &= other
        case "or" | "nor":
            for other in others:
                first |= other
        case "xor" | "xnor":
            for other in others:
                first ^= other
    return first ^ mask if gate.operator in ("nand", "nor", "xnor", "not") else first


def _next(flip_flop: FlipFlop, row: list[int], mask: int) -> int:
    value = row[flip_flop.d]
    if flip_flop.enable is not None:
        enable = row[flip_flop.enable]
        value = value & enable | row[flip_flop.q] & ~enable
    if flip_flop.clear is not None:
        value &= ~row[flip_flop.clear]
    if flip_flop.gate is not None:
        arrives = row[flip_flop.gate]
        value = value & arrives | row[flip_flop.q] & ~arrives
    return value & mask
