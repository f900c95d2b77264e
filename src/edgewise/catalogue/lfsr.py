"""The linear feedback shift register: the XOR of some stages enters at the first.

Stage i stands in bit i - 1 and the bits move towards stage n. With taps of maximal length the
register goes through all 2**n - 1 states but 0, in which it would stay for ever.

References
----------
S. Golomb, *Shift Register Sequences*; Weste and Harris, *CMOS VLSI Design*, sec. 11.5 (both from
memory).
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from edgewise.blueprint import Blueprint
from edgewise.circuit.builder import Builder
from edgewise.circuit.model import Circuit
from edgewise.design import Design, Phase, Purpose
from edgewise.formula import Number, parse
from edgewise.parameter import Parameter

NAME: Final = "lfsr"

_OTHERS: Final = """
1 2 3 3 5 6 6,5,4 5 7 9 6,4,1 4,3,1 5,3,1 14 15,13,4 14 11 6,2,1 17 19 21 18 23,22,17 22 6,2,1
5,2,1 25 27 6,4,1 28 22,2,1 20 27,2,1 33 25 5,4,3,2,1 6,5,1 35 38,21,19 38 41,20,19 42,38,37
43,18,17 44,42,41 45,26,25 42 47,21,20 40 49,24,23 50,36,35 49 52,38,37 53,18,17 31 55,35,34
50 39 58,38,37 59 60,46,45 61,6,5 62 63,61,60
"""
"""The taps besides n of a register of maximal length, for n = 2, 3, …, 64. The widely copied
table (P. Alfke 1996, from memory); every row was checked to be primitive."""


def taps(n: int, chosen: int = 0) -> tuple[int, ...]:
    """The stages that are fed back, the highest first.

    Parameters
    ----------
    n : int
        Width, 2 to 64.
    chosen : int
        Bit i - 1 tells whether stage i is one; 0: a choice of maximal length.

    Examples
    --------
    >>> taps(8), taps(4, 0b1001)
    ((8, 6, 5, 4), (4, 1))
    """
    if not chosen:
        return (n, *map(int, _OTHERS.split()[n - 2].split(",")))
    return tuple(i for i in range(n, 0, -1) if chosen >> (i - 1) & 1)


def blueprint(name: str = NAME) -> Blueprint:
    """The blueprint of the register.

    Examples
    --------
    >>> design = blueprint().design({"n": 3, "k": 7})
    >>> design.expected({})["state"]  # after 2**3 - 1 edges it is where it began
    1
    """
    return Blueprint(
        name,
        "linear feedback shift register",
        (
            Parameter("n", Number(4), Number(2), Number(64)),
            Parameter("taps", Number(0), Number(0), parse("2**n - 1")),
            Parameter("start", Number(1), Number(0), parse("2**n - 1")),
            Parameter("k", parse("min(2**n - 1, 20)"), Number(0), Number(10000)),
        ),
        _design,
        "k steps of a register that feeds the XOR of its taps back; bit i - 1 of taps stands for"
        " stage i, 0 for taps of maximal length",
        "Golomb, Shift Register Sequences; Weste and Harris, CMOS VLSI Design, sec. 11.5 (both"
        " from memory)",
    )


def _design(numbers: Mapping[str, int]) -> Design:
    n, start, k = numbers["n"], numbers["start"], numbers["k"]
    chosen = taps(n, numbers["taps"])
    # Stage i at edge t holds what entered at edge t - i: the recurrence, without a register.
    entered = [start >> (i - 1) & 1 for i in range(n, 0, -1)]
    for _ in range(k):
        entered.append(sum(entered[-tap] for tap in chosen) % 2)
    state = sum(entered[-i] << (i - 1) for i in range(1, n + 1))
    return Design(
        NAME,
        register(n, chosen, start),
        dict(numbers),
        (),
        (Phase("step", k, ()),),
        (Purpose("state", Number(state)),),
    )


def register(n: int, chosen: tuple[int, ...], start: int = 1) -> Circuit:
    """A register of `n` stages with these taps.

    Examples
    --------
    >>> [part.name for part in register(4, (4, 3)).parts]
    ['XOR', 'S']
    """
    b = Builder("linear feedback shift register")
    state = b.net("stages", n)
    tapped = tuple(state[tap - 1] for tap in chosen)
    fed = b.part("XOR", "xor", {"in": tapped})["out"] if len(tapped) > 1 else tapped
    settings: dict[str, int | str] = {"width": n, "direction": "left", "start": start}
    b.part("S", "shift-register", {"in": fed, "q": state}, settings)
    b.output("state", state)
    b.output("out", state[-1])
    return b.circuit()
