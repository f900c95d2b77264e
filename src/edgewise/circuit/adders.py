"""Half adder and full adder, made of two-input gates as in the textbooks."""

from __future__ import annotations

from collections.abc import Mapping

from edgewise.circuit.builder import Builder
from edgewise.circuit.cover import Decided, Terms
from edgewise.circuit.model import Adds, Circuit, Port
from edgewise.circuit.parts import PartType, Settings, one_bit, register


def _half_ports(_settings: Settings, _bits: Mapping[str, int]) -> tuple[Port, ...]:
    return (*one_bit("in", "a", "b"), *one_bit("out", "sum", "carry-out"))


def _half_adder(_settings: Settings, _bits: Mapping[str, int]) -> Circuit:
    b = Builder("half adder")
    both = (*b.input("a"), *b.input("b"))
    b.output("sum", b.part("X1", "xor", {"in": both})["out"])
    b.output("carry-out", b.part("G1", "and", {"in": both})["out"])
    return b.circuit()


def _full_ports(_settings: Settings, _bits: Mapping[str, int]) -> tuple[Port, ...]:
    return (*one_bit("in", "a", "b", "carry-in"), *one_bit("out", "sum", "carry-out"))


def _full_adder(_settings: Settings, _bits: Mapping[str, int]) -> Circuit:
    b = Builder("full adder")
    a, other, carry = b.input("a"), b.input("b"), b.input("carry-in")
    differ = b.part("X1", "xor", {"in": (*other, *a)})["out"]
    total = b.part("X2", "xor", {"in": (*carry, *differ)})["out"]
    generated = b.part("G1", "and", {"in": (*other, *a)})["out"]
    passed = b.part("G2", "and", {"in": (*carry, *differ)})["out"]
    b.output("sum", total)
    b.output("carry-out", b.part("OR", "or", {"in": (*generated, *passed)})["out"])
    return b.circuit()


def _carry(_settings: Settings, _bits: Mapping[str, int]) -> tuple[Decided, ...]:
    """``a b + carry-in (a + b)``, whose gates say X for a = carry-in = 1 and b = X."""
    a, b, carry = (("a", 0, 1), ("b", 0, 1), ("carry-in", 0, 1))
    return (Decided("OR", (Terms((a, b)), Terms((carry,), (a, b)))),)


register(
    PartType(
        "half-adder",
        "adds two bits: sum and carry-out",
        _half_ports,
        frozenset({"a", "b"}),
        inside=_half_adder,
        role="arithmetic",
        symbol="Σ",
        adds=Adds(("a", "b")),
    ),
    PartType(
        "full-adder",
        "adds three bits: sum and carry-out",
        _full_ports,
        frozenset({"a", "b", "carry-in"}),
        inside=_full_adder,
        decided=_carry,
        role="arithmetic",
        symbol="Σ",
        adds=Adds(("a", "b", "carry-in")),
    ),
)
