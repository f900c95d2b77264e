"""Circuits: the model, the parts, the text notation, and the netlist made from them."""

from edgewise.circuit import (
    adders,
    counters,
    flip_flops,
    gates,
    latches,
    multiplexers,
    registers,
)

__all__ = ["adders", "counters", "flip_flops", "gates", "latches", "multiplexers", "registers"]
# Each family makes its part types known when it is imported.
