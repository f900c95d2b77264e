"""A new storage element, in one file."""

from __future__ import annotations

from edgewise.circuit.parts import PartType
from edgewise.circuit.registers import storing

JK_FLIP_FLOP: PartType = storing(
    "sluice-flip-flop",
    "set at the edge where j is 1, reset where k is 1, toggled where both are",
    ("j", "k"),
    ("choose", "q", "j", ("not", "k")),
)
