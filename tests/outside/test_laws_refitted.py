"""Laws of the catalogue, held against counts where nobody looked.

Outside: the counts are made here from the timetable and the flat circuit, and a law is worked
out by Python's own integers, not by the formula language. A polynomial law is interpolated
anew in exact rational numbers (Newton's divided differences; Knuth, The Art of Computer
Programming, vol. 2, sec. 4.6.4, from memory) from designs far beyond the range that it was
asked for, and must come out the same.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from typing import Final

import pytest

from edgewise import catalogue
from edgewise.blueprint import Blueprint
from edgewise.errors import EdgewiseError
from edgewise.study.laws.fit import find

INVERTERS: Final = {"not", "buffer"}
WORDS: Final = {
    "floor_log2": lambda n: n.bit_length() - 1,
    "ceil_log2": lambda n: (n - 1).bit_length(),
    "min": min,
    "max": max,
}
RANGES: Final = ((1, 4), (2, 5), (3, 8), (4, 12))


def count(blueprint: Blueprint, quantity: str, n: int) -> int | None:
    """Edges or gates of one design; nothing where there is no such design."""
    try:
        design = blueprint.design({"n": n})
    except EdgewiseError:
        return None
    if quantity == "edges":
        return sum(phase.edges for phase in design.procedure)
    return sum(gate.operator not in INVERTERS for gate in design.netlist.gates)


def value(text: str, n: int) -> int:
    """A law's formula, by Python."""
    python = text.replace(" div ", " // ").replace(" mod ", " % ")
    return int(eval(python, {"__builtins__": {}}, {**WORDS, "n": n}))  # noqa: S307  our own formula


def newton(points: Sequence[tuple[int, int]], at: int) -> Fraction:
    """The polynomial through these points, at another place."""
    slopes = [Fraction(y) for _, y in points]
    xs = [x for x, _ in points]
    for level in range(1, len(points)):
        for i in range(len(points) - 1, level - 1, -1):
            slopes[i] = (slopes[i] - slopes[i - 1]) / (xs[i] - xs[i - level])
    total = slopes[-1]
    for x, slope in zip(xs[-2::-1], slopes[-2::-1], strict=True):
        total = total * (at - x) + slope
    return total


def of_n() -> list[str]:
    """Designs with a parameter n."""
    return [
        name
        for name in catalogue.ORDER
        if any(parameter.name == "n" for parameter in catalogue.find(name).parameters)
    ]


@pytest.mark.parametrize("quantity", ["edges", "gates"])
@pytest.mark.parametrize("name", of_n())
def test_a_law_holds_where_nobody_looked(name: str, quantity: str) -> None:
    blueprint = catalogue.find(name)
    far = {n: counted for n in (13, 17, 20, 23) if (counted := count(blueprint, quantity, n))}
    for low, high in RANGES:
        try:
            law = find(blueprint, quantity, {"n": (low, high)})
        except EdgewiseError:
            continue  # no such design in this range
        for n, counted in far.items() if law.text else ():
            assert value(law.text, n) == counted, f"{law.text}, found for n = {low} to {high}"
        if law.text and "log2" not in law.text and "mod" not in law.text and len(far) == 4:
            assert value(law.text, high) == newton(list(far.items()), high)
