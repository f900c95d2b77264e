"""The digit-serial adder: d bits an edge, between the bit-serial adder and the parallel one.

A word of n bits is kept in d shift registers of n/d bits: register j holds the bits j, j + d,
j + 2d, …, so that their outputs side by side are the word's next digit. A row of d full adders
adds two digits, and one flip-flop keeps the carry from digit to digit.

References
----------
R. Hartley, P. Corbett, "Digit-serial processing techniques", IEEE Trans. Circuits and Systems
37(6), 1990; Mano and Ciletti, *Digital Design*, sec. 6.2 (both from memory).
"""

from __future__ import annotations

from collections.abc import Mapping

from edgewise.blueprint import Blueprint
from edgewise.circuit.builder import Builder, PlacedPart, wires
from edgewise.circuit.model import Circuit, Signal
from edgewise.design import Design, Feed, Operand, Phase, Purpose
from edgewise.errors import DesignError, Message
from edgewise.formula import Number, parse
from edgewise.parameter import Parameter

NAME = "digit-serial-adder"


def blueprint(name: str = NAME) -> Blueprint:
    """The blueprint of the adder.

    Examples
    --------
    >>> [blueprint().design({"n": 12, "d": d}).edges for d in (1, 2, 3, 4, 6, 12)]
    [13, 7, 5, 4, 3, 2]
    """
    return Blueprint(
        name,
        "digit-serial adder",
        (
            Parameter("n", Number(8), Number(1), Number(64)),
            # 2 where n is even, else 1
            Parameter("d", parse("2 - n mod 2"), Number(1), parse("n")),
        ),
        _design,
        "adds d bits at each edge, d dividing n, after one edge of load: d = 1 is the bit-serial"
        " adder, d = n the parallel one",
        "Hartley and Corbett, IEEE Trans. Circuits and Systems 37(6), 1990; Mano and Ciletti,"
        " Digital Design, sec. 6.2 (both from memory)",
    )


def _design(numbers: Mapping[str, int]) -> Design:
    n, d = numbers["n"], numbers["d"]
    if n % d:
        fitting = ", ".join(str(i) for i in range(1, n + 1) if n % i == 0)
        raise DesignError(Message("digits-unfit", d=d, n=n, fitting=fitting))
    return Design(
        NAME,
        adder(n, d),
        dict(numbers),
        (Operand("a", n), Operand("b", n)),
        (
            Phase("load", 1, (Feed("load", 1),)),
            Phase("add", n // d, (Feed("load", 0),)),
        ),
        (
            Purpose("sum", parse("(a + b) mod 2**n")),
            Purpose("carry", parse("(a + b) div 2**n")),
        ),
    )


def adder(n: int, d: int) -> Circuit:
    """The circuit for words of `n` bits and digits of `d`.

    Examples
    --------
    >>> [part.name for part in adder(4, 2).parts]
    ['A(0)', 'A(1)', 'B(0)', 'B(1)', 'FA(0)', 'FA(1)', 'C', 'S(0)', 'S(1)']
    """
    b = Builder("digit-serial adder")
    load = b.input("load")
    words = {name: b.input(name.lower(), n) for name in "AB"}
    width = {"width": n // d}
    digits: dict[str, list[PlacedPart]] = {
        name: [
            b.part(
                f"{name}({j})", "shift-register", {"in": 0, "d": word[j::d], "load": load}, width
            )
            for j in range(d)
        ]
        for name, word in words.items()
    }
    carry: Signal = wires("C.q", 1)
    sums: list[Signal] = []
    for j, (one, other) in enumerate(zip(digits["A"], digits["B"], strict=True)):
        ports = {"a": one["out"], "b": other["out"], "carry-in": carry}
        full = b.part(f"FA({j})", "full-adder", ports)
        carry = full["carry-out"]
        sums.append(full["sum"])
    b.part("C", "flip-flop", {"d": carry, "clear": load})
    kept = [b.part(f"S({j})", "shift-register", {"in": s}, width) for j, s in enumerate(sums)]
    b.output("sum", tuple(kept[i % d].word[i // d] for i in range(n)))
    b.output("carry", wires("C.q", 1))
    return b.circuit()
