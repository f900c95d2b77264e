"""Adders in groups of places: carry-skip, carry-select and carry-increment.

The carry need not ripple through every place of a group to reach the next group:

- **skip**: it passes a group at once where every place of the group propagates. A multiplexer
  takes the carry out of a group from its carry-in where P, the AND of all its p, is 1, else from
  its ripple. (An OR of the ripple and ``P and carry-in`` adds as well, but lets a carry that
  *falls* wait for the ripple: the OR is 0 only when both are.)
- **select**: a group works out both its sums, for a carry-in of 0 and of 1; the carry chooses.
- **increment**: a group works out its sum for a carry-in of 0, and then adds the carry-in to
  it: ``c_i = G_i or (P_i and carry-in)``, with G_i and P_i of the places below i in the group.

The lowest group is a plain ripple. Groups are `m` places wide; where m may be 0, that stands
for widths 1, 2, 3, …, with which the carry reaches a group when the group is ready for it.

References
----------
B. Parhami, *Computer Arithmetic*, sec. 7.1 (skip) and 7.3 (select); A. Tyagi, IEEE Trans.
Computers 42(10), 1993 (increment); all from memory.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from functools import lru_cache, partial
from typing import Final

from edgewise.blueprint import Blueprint
from edgewise.catalogue.sums import CARRY_IN, of_sum
from edgewise.circuit.builder import Bits, Builder
from edgewise.circuit.model import Circuit, Kind, Port, Signal
from edgewise.circuit.parts import one_bit
from edgewise.design import Design
from edgewise.formula import Number
from edgewise.parameter import Parameter


def widths(n: int, m: int) -> list[int]:
    """The width of each group of `n` places, the lowest first; `m` 0: 1, 2, 3, ….

    Examples
    --------
    >>> widths(10, 4), widths(10, 0), widths(8, 0)
    ([4, 4, 2], [1, 2, 3, 4], [1, 2, 3, 2])
    """
    found: list[int] = []
    while n:
        width = min(n, m or len(found) + 1)
        found.append(width)
        n -= width
    return found


def _halves(b: Builder, one: Signal, other: Signal) -> tuple[list[Signal], list[Signal]]:
    placed = [
        b.part(f"HA({i})", "half-adder", {"a": x, "b": y})
        for i, (x, y) in enumerate(zip(one, other, strict=True))
    ]
    return [half["carry-out"] for half in placed], [half["sum"] for half in placed]


def _and(b: Builder, name: str, *bits: Signal) -> Signal:
    return b.part(name, "and", {"in": tuple(bit for signal in bits for bit in signal)})["out"]


def _or(b: Builder, name: str, one: Signal, other: Signal) -> Signal:
    return b.part(name, "or", {"in": (*one, *other)})["out"]


def _ripple(
    b: Builder, g: list[Signal], p: list[Signal], carry: Signal, tag: str = ""
) -> list[Signal]:
    """The carry into each place and out of the last; an empty `carry` is none."""
    carries = [carry]
    for i, (generated, passes) in enumerate(zip(g, p, strict=True)):
        if carries[-1]:
            passed = _and(b, f"pass{tag}({i})", carries[-1], passes)
            carries.append(_or(b, f"C{tag}({i})", generated, passed))
        else:
            carries.append(generated)
    return carries


def _sum(b: Builder, carries: list[Signal], p: list[Signal], tag: str = "XOR") -> Signal:
    bits: list[Signal] = []
    for i, (carry, half) in enumerate(zip(carries, p, strict=False)):
        bits.append(b.part(f"{tag}({i})", "xor", {"in": (*carry, *half)})["out"] if carry else half)
    return tuple(bit for signal in bits for bit in signal)


def _plain(b: Builder, one: Signal, other: Signal, carry: Signal) -> tuple[Signal, Signal]:
    g, p = _halves(b, one, other)
    carries = _ripple(b, g, p, carry)
    return _sum(b, carries, p), carries[-1]


def _skipping(b: Builder, one: Signal, other: Signal, carry: Signal) -> tuple[Signal, Signal]:
    g, p = _halves(b, one, other)
    carries = _ripple(b, g, p, carry)
    if not carry:
        return _sum(b, carries, p), carries[-1]
    passes = _and(b, "P", *p) if len(p) > 1 else p[0]
    ways: Mapping[str, Bits] = {"d0": carries[-1], "d1": carry, "select": passes}
    return _sum(b, carries, p), b.part("skip", "multiplexer", ways)["out"]


def _selecting(b: Builder, one: Signal, other: Signal, carry: Signal) -> tuple[Signal, Signal]:
    g, p = _halves(b, one, other)
    zero = _ripple(b, g, p, ())
    # With a carry-in of 1 the first place passes a carry on where either bit is 1.
    first = _or(b, "C1(0)", g[0], p[0])
    above = _ripple(b, g[1:], p[1:], first, "1_")
    sums = _sum(b, zero, p, "X0")
    inverted = b.part("X1(0)", "not", {"in": p[0]})["out"]
    ones = (*inverted, *_sum(b, above, p[1:], "X1_"))
    chosen = tuple(
        b.part(f"M({i})", "multiplexer", {"d0": sums[i], "d1": ones[i], "select": carry})["out"][0]
        for i in range(len(p))
    )
    out: Mapping[str, Bits] = {"d0": zero[-1], "d1": above[-1], "select": carry}
    return chosen, b.part("MC", "multiplexer", out)["out"]


def _incrementing(b: Builder, one: Signal, other: Signal, carry: Signal) -> tuple[Signal, Signal]:
    g, p = _halves(b, one, other)
    generated = _ripple(b, g, p, ())
    passes, carries = p[0], [carry]
    for i in range(len(p)):
        if i:
            passes = _and(b, f"P({i})", passes, p[i])
        passed = _and(b, f"add({i})", carry, passes)
        carries.append(_or(b, f"CI({i})", generated[i + 1], passed))
    return _sum(b, carries, p), carries[-1]


Making = Callable[[Builder, Signal, Signal, Signal], tuple[Signal, Signal]]

DESIGNS: Final[Mapping[str, tuple[str, Making, int, str, str]]] = {
    "carry-skip-adder": (
        "carry-skip adder",
        _skipping,
        4,
        "the carry skips a group of m places in which every place propagates: a multiplexer hands"
        " it on",
        "Parhami, Computer Arithmetic, sec. 7.1 (carry-skip adders; from memory)",
    ),
    "carry-select-adder": (
        "carry-select adder",
        _selecting,
        0,
        "each group adds for both carries, the carry chooses; groups of m places, 0: of 1, 2, 3, …",
        "Parhami, Computer Arithmetic, sec. 7.3 (carry-select adders; from memory)",
    ),
    "carry-increment-adder": (
        "carry-increment adder",
        _incrementing,
        0,
        "each group adds without carry, then adds the carry; groups of m places, 0: of 1, 2, 3, …",
        "Tyagi, IEEE Trans. Computers 42(10), 1993; Parhami, Computer Arithmetic, sec. 7.3 (both"
        " from memory)",
    ),
}
"""By catalogue name: title, inside of a group, usual width of one (0: growing), about, source."""


def blueprint(name: str) -> Blueprint:
    """The blueprint of one of the `DESIGNS`.

    Examples
    --------
    >>> [part.name for part in blueprint("carry-skip-adder").design({"n": 8}).circuit.parts]
    ['group(0)', 'group(1)']
    """
    title, _, width, about, source = DESIGNS[name]
    groups = Parameter("m", Number(width), Number(1 if width else 0), Number(64))
    return Blueprint(
        name,
        title,
        (Parameter("n", Number(8), Number(1), Number(256)), groups, CARRY_IN),
        partial(_design, name),
        about,
        source,
    )


def _design(name: str, numbers: Mapping[str, int]) -> Design:
    n, m, carry_in = numbers["n"], numbers["m"], bool(numbers["c"])
    return of_sum(name, adder(name, widths(n, m), carry_in=carry_in), numbers)


def adder(name: str, group_widths: list[int], *, carry_in: bool = False) -> Circuit:
    """An adder of groups of these widths, the lowest first.

    Examples
    --------
    >>> adder("carry-select-adder", [2, 3]).parts[1].kind.name
    'carry-select-group'
    """
    title, making = DESIGNS[name][:2]
    b = Builder(title)
    n = sum(group_widths)
    one, other = b.input("a", n), b.input("b", n)
    carry: Signal = b.input("carry_in") if carry_in else ()
    total: list[Signal] = []
    for number, span in enumerate(_spans(group_widths)):
        lowest = number == 0 and (making is not _skipping or not carry)
        kind = group(name, span.stop - span.start, carry_in=bool(carry), plain=lowest)
        ports = {"a": one[span], "b": other[span]} | ({"carry-in": carry} if carry else {})
        placed = b.part(f"group({number})", kind, ports)
        total.append(placed["sum"])
        carry = placed["carry-out"]
    b.output("sum", tuple(bit for signal in total for bit in signal))
    b.output("carry", carry)
    return b.circuit()


def _spans(group_widths: list[int]) -> Iterator[slice]:
    low = 0
    for width in group_widths:
        yield slice(low, low + width)
        low += width


@lru_cache(maxsize=256)
def group(name: str, width: int, *, carry_in: bool, plain: bool) -> Kind:
    """A group of `width` places as a part; `plain` is a ripple only.

    Ports a, b, sum (`width` bits each), carry-out; with a carry-in also carry-in.
    """
    b = Builder("group of places")
    one, other = b.input("a", width), b.input("b", width)
    carry: Signal = b.input("carry-in") if carry_in else ()
    total, out = (_plain if plain else DESIGNS[name][1])(b, one, other, carry)
    b.output("sum", total)
    b.output("carry-out", out)
    ports = (
        Port("a", width, "in"),
        Port("b", width, "in"),
        *one_bit("in", *["carry-in"] * carry_in),
        Port("sum", width, "out"),
        *one_bit("out", "carry-out"),
    )
    kind = "ripple-group" if plain else f"{name.removesuffix('-adder')}-group"
    return Kind(kind, ports, (("width", width),), b.circuit())
