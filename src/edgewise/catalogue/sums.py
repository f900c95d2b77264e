"""What the adders built in Python share: operands a and b, perhaps a carry-in, their sum."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from edgewise.circuit.model import Circuit
from edgewise.design import Design, Operand, Purpose
from edgewise.formula import Number, parse
from edgewise.parameter import Parameter

CARRY_IN: Final = Parameter("c", Number(0), Number(0), Number(1))
"""The parameter that says whether a carry comes in."""


def of_sum(name: str, circuit: Circuit, numbers: Mapping[str, int]) -> Design:
    """The design of a circuit that adds a and b of n bits, and carry_in where c is 1."""
    n, carry_in = numbers["n"], bool(numbers["c"])
    total = "(a + b + carry_in)" if carry_in else "(a + b)"
    return Design(
        name,
        circuit,
        dict(numbers),
        (Operand("a", n), Operand("b", n), *([Operand("carry_in", 1)] * carry_in)),
        (),
        (
            Purpose("sum", parse(f"{total} mod 2**n")),
            Purpose("carry", parse(f"{total} div 2**n")),
        ),
    )
