"""Switching activity: how many nets change in one result, for random operands.

It stands in for energy: in CMOS a gate takes energy from the supply when its output changes.
Counted are the outputs of gates and flip-flops from one settled row to the next; what flickers in
between is counted by `glitches`, and a net of great fan-out counts as one.

With a clock, a result is a whole run from the start to the last row. Without, it is the change from
one set of operands to the next. What is unknown (X) is run as 0. The clock itself, which rises and
falls once an edge, and gates in it are not counted.

The mean of a sample has an error. Runs are independent of one another; without a clock a set of
operands ends one change and begins the next, so that neighbours in the sample go together, and the
covariance of neighbours counts twice. Where that would make the error smaller it is left out.
"""

from __future__ import annotations

import random
from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from itertools import starmap
from math import sqrt
from operator import mul
from typing import Final

from edgewise.circuit.netlist import CLOCK_NET, Netlist
from edgewise.design import Design
from edgewise.engines import side_by_side

RESULTS: Final = 256
"""Runs that are counted."""
SEED: Final = 2026
"""Of the random operands."""


@dataclass(frozen=True, slots=True)
class Activity:
    """Toggles counted.

    Parameters
    ----------
    total : int
        Changes of all nets in all results.
    results, seed : int
        How many results, and from which random operands.
    variance : Fraction
        Of the mean: the square of its standard error.
    """

    total: int
    results: int
    seed: int
    variance: Fraction = Fraction(0)

    @property
    def mean(self) -> Fraction:
        """Toggles per result."""
        return Fraction(self.total, self.results)

    def __str__(self) -> str:
        mean, error = float(self.mean), sqrt(self.variance)
        sample = f"{self.results} random results, seed {self.seed}"
        return f"{mean:.1f} ± {error:.1f} toggles a result ({sample})"


def toggles(design: Design, results: int = RESULTS, seed: int = SEED) -> Activity:
    """Count the toggles of a design.

    Parameters
    ----------
    design : Design
    results : int
        Runs, side by side.
    seed : int

    Examples
    --------
    >>> from edgewise import catalogue
    >>> print(toggles(catalogue.design("ripple-carry-adder", n=8)))
    17.6 ± 0.3 toggles a result (256 random results, seed 2026)
    """
    netlist = design.netlist
    nets = counted(netlist)
    before: list[int] | None = None
    tally = Tally(results)
    for row in side_by_side.rows(design, operands(design, results, seed), results):
        if before is not None:
            for net in nets:
                tally.add(before[net] ^ row[net])
        before = row
    if not design.edges and before is not None:
        # From each set of operands to the next, the last to the first.
        for net in nets:
            value = before[net]
            tally.add(value ^ (value >> 1 | (value & 1) << results - 1))
    counts = tally.counts()
    return Activity(sum(counts), results, seed, variance(counts, ring=not design.edges))


def counted(netlist: Netlist) -> list[int]:
    """The nets whose changes count: outputs of gates and of what stores, gates in a clock aside."""
    nets = [gate.output for gate in netlist.gates if CLOCK_NET not in gate.inputs]
    return nets + [flip_flop.q for flip_flop in netlist.flip_flops]


class Tally:
    """Counts bits lane by lane: number j of `planes` holds bit j of every lane's count."""

    def __init__(self, lanes: int) -> None:
        self.lanes = lanes
        self.planes: list[int] = []

    def add(self, bits: int) -> None:
        """One more in each lane whose bit is 1."""
        for i, plane in enumerate(self.planes):
            if not bits:
                return
            self.planes[i], bits = plane ^ bits, plane & bits
        if bits:
            self.planes.append(bits)

    def counts(self) -> list[int]:
        """The count of each lane."""
        return [
            sum((plane >> lane & 1) << i for i, plane in enumerate(self.planes))
            for lane in range(self.lanes)
        ]


def variance(counts: list[int], *, ring: bool) -> Fraction:
    """The variance of the mean of some counts; in a ring neighbours go together."""
    many, total = len(counts), sum(counts)
    if many < 2:
        return Fraction(0)
    squares = sum(starmap(mul, zip(counts, counts, strict=True)))
    # Sums of squares and of neighbours' products about the mean, times the number of results.
    spread = many * squares - total * total
    if ring:
        neighbours = sum(starmap(mul, zip(counts, counts[1:] + counts[:1], strict=True)))
        spread += max(0, 2 * (many * neighbours - total * total))
    return Fraction(spread, many * many * (many - 1))


def operands(design: Design, results: int, seed: int) -> Mapping[str, list[int]]:
    """Words of random operands for each run; the same for every design with the same operands.

    Examples
    --------
    >>> from edgewise import catalogue
    >>> operands(catalogue.design("serial-adder", n=4), 3, 1)["a"]
    [12, 9, 2]
    """
    return {
        operand.name: [
            operand.pattern(operand.number(value))
            for chance in [random.Random(f"{seed} {operand.name} {operand.width}")]  # noqa: S311
            for value in (chance.getrandbits(operand.width) for _ in range(results))
        ]
        for operand in design.operands
    }
