"""JK and T flip-flops: a D flip-flop with gates before it."""

from __future__ import annotations

from edgewise.circuit.parts import register
from edgewise.circuit.registers import storing

register(
    storing(
        "jk-flip-flop",
        "set at the edge by j, reset by k, changed by both",
        ("j", "k"),
        ("choose", "q", "j", ("not", "k")),
        "JK flip-flop",
    ),
    storing(
        "t-flip-flop",
        "changes at the edge where t is 1",
        ("t",),
        ("xor", "q", "t"),
        "T flip-flop",
    ),
)
