"""Gates alone: every gate counted, or weighed by its inputs."""

from __future__ import annotations

from functools import partial
from typing import Final

from edgewise.circuit.parts import function
from edgewise.study.cost.technology import Plain, Technology, slowest, summed

CLOCK_TO_Q_GATES: Final = 3
"""Clock-to-Q of the flip-flop of six NAND gates."""
SETUP_GATES: Final = 2
"""Its set-up time: gates that d must pass in it before the edge."""
FLIP_FLOP_GATES: Final = 6
FLIP_FLOP_UNITS: Final = 7
"""One of its six NAND gates has three inputs, so it weighs two."""
CLOCK_TO_Q_UNITS: Final = 4
"""The slowest way from the edge leads through that gate."""


def _count(operator: str, _inputs: int) -> int:
    return int(bool(function(operator).operation))


def two_input_gates(operator: str, inputs: int) -> int:
    """How many gates of two inputs an elementary gate stands for; inverters are free."""
    return {"not": 0, "buffer": 0, "multiplexer": 3}.get(operator, inputs - 1)


def two_input_levels(operator: str, inputs: int) -> int:
    """Their levels: those of a balanced tree."""
    return {"not": 0, "buffer": 0, "multiplexer": 2}.get(operator, (inputs - 1).bit_length())


def _weight(operator: str) -> int:
    return 2 if operator in ("xor", "xnor") else 1


def unit_area(operator: str, inputs: int) -> int:
    """Area of an elementary gate in the unit-gate model."""
    return two_input_gates(operator, inputs) * _weight(operator)


def unit_delay(operator: str, inputs: int) -> int:
    """Its delay."""
    return two_input_levels(operator, inputs) * _weight(operator)


_COUNTED: Final = Plain(_count, _count, FLIP_FLOP_GATES, CLOCK_TO_Q_GATES, SETUP_GATES)
_UNITS: Final = Plain(
    partial(summed, unit_area),
    partial(slowest, unit_delay),
    FLIP_FLOP_UNITS,
    CLOCK_TO_Q_UNITS,
    SETUP_GATES,
)

_SIX_NAND: Final = (
    "the edge-triggered flip-flop of six NAND gates: Mano and Ciletti, Digital Design, sec. 5.4"
    " (from memory)"
)

GATE_COUNT: Final = Technology(
    "gate-count",
    "gate count",
    "gates",
    "gate levels",
    _COUNTED.area,
    _COUNTED.timing,
    f"the textbooks' count of gates (common practice, no source); {_SIX_NAND}",
    "wide gates and XOR gates look as cheap and fast as a NAND gate of two inputs",
)

UNIT_GATE: Final = Technology(
    "unit-gate",
    "unit-gate model",
    "gate units",
    "gate delays",
    _UNITS.area,
    _UNITS.timing,
    "A. Tyagi, IEEE Trans. Computers 42(10), 1993 (from memory); flip-flops, which the model leaves"
    f" out, after {_SIX_NAND}",
    "fan-out and the length of wires do not count",
)

TECHNOLOGIES: Final = (GATE_COUNT, UNIT_GATE)
