"""Circuits: the model, the parts, the text notation, and the netlist made from them."""

from edgewise.circuit import adders, counters, gates, multiplexers, registers

__all__ = ["adders", "counters", "gates", "multiplexers", "registers"]
# Each family makes its part types known when it is imported.
