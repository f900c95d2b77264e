"""A new gate, in one file: more ones than zeros."""

from __future__ import annotations

from edgewise.circuit.gates import gate
from edgewise.circuit.parts import PartType

MAJORITY: PartType = gate(
    "majority",
    "1 if at least two of three inputs are 1",
    ("a", "b", "c"),
    ("or", ("and", "a", "b"), ("and", "c", ("or", "a", "b"))),
    ">n/2",
)
