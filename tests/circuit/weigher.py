"""A new adder, in one file: a full adder whose ports have other names."""

from __future__ import annotations

from collections.abc import Mapping

from edgewise.circuit.builder import Builder
from edgewise.circuit.model import Adds, Circuit
from edgewise.circuit.parts import PartType, Settings, one_bit


def _inside(_settings: Settings, _bits: Mapping[str, int]) -> Circuit:
    b = Builder("weigher")
    fed = {"a": b.input("x"), "b": b.input("y"), "carry-in": b.input("c")}
    adder = b.part("FA", "full-adder", fed)
    b.output("weight", adder["sum"])
    b.output("over", adder["carry-out"])
    return b.circuit()


WEIGHER = PartType(
    "weigher",
    "adds three bits",
    lambda *_: (*one_bit("in", "x", "y", "c"), *one_bit("out", "weight", "over")),
    frozenset({"x", "y", "c"}),
    inside=_inside,
    role="arithmetic",
    symbol="Σ",
    adds=Adds(("x", "y", "c"), "weight", "over"),
)
