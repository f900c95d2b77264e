"""A new gate, in one file: two pairs, not symmetric, inverted."""

from __future__ import annotations

from edgewise.circuit.gates import gate
from edgewise.circuit.parts import PartType

AND_OR_INVERT: PartType = gate(
    "and-or-invert",
    "0 if a and b are 1, or c and d",
    ("a", "b", "c", "d"),
    ("not", ("or", ("and", "a", "b"), ("and", "c", "d"))),
    "&≥1",
)
