"""A new storage element, in one file."""

from __future__ import annotations

from edgewise.circuit.parts import PartType
from edgewise.circuit.registers import storing

TOGGLE_FLIP_FLOP: PartType = storing(
    "toggle-flip-flop",
    "changes at the edge where t is 1 (T flip-flop)",
    ("t",),
    ("xor", "q", "t"),
)
