"""Play a circuit row by row on the reference engine, without a design around it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from edgewise.bits import Bit, Word
from edgewise.circuit.builder import Bits, Builder
from edgewise.circuit.flatten import flatten
from edgewise.circuit.model import Circuit
from edgewise.engines.reference import next_bit, settle

Row = Mapping[str, Sequence[Bit]]
"""What each input is fed in one row, LSB first."""


def play(circuit: Circuit, rows: Sequence[Row]) -> list[dict[str, Word]]:
    """The outputs in each row; row k holds what edge k+1 will sample."""
    netlist = flatten(circuit)
    stored = [flip_flop.start for flip_flop in netlist.flip_flops]
    found = []
    for fed in rows:
        values = settle(netlist, stored, fed)
        found.append(
            {
                name: Word.from_bits(values[net] for net in nets)
                for name, nets in netlist.outputs.items()
            }
        )
        stored = [next_bit(flip_flop, values) for flip_flop in netlist.flip_flops]
    return found


def alone(
    kind: str, widths: Mapping[str, int], settings: Mapping[str, int | str] | None = None
) -> Circuit:
    """One part, with an input of the circuit at each of these ports and all its outputs shown."""
    b = Builder("alone")
    fed: dict[str, Bits] = {port: b.input(f"x_{port}", width) for port, width in widths.items()}
    placed = b.part("P", kind, fed, settings or {})
    for port in placed.part.kind.ports:
        if port.direction == "out":
            b.output(port.name, placed[port.name])
    return b.circuit()
