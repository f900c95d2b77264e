"""Toggles with glitches: how often nets change in one result, each change in between counted.

As `switching`, which counts the same nets over the same random operands, but with the delays of a
model: a sum that is right, wrong and right again is two toggles here and none there. Gates swallow
pulses that are shorter than their delay. Between two edges of a clock what is stored changes after
its clock-to-Q delay, and the next edge comes when all has settled.
"""

from __future__ import annotations

from collections.abc import Iterator

from edgewise.design import Design
from edgewise.engines import side_by_side
from edgewise.engines.timed.delays import Delays
from edgewise.engines.timed.lanes import waves
from edgewise.study.cost.arrival import begins
from edgewise.study.cost.models.gates import UNIT_GATE
from edgewise.study.cost.switching import (
    RESULTS,
    SEED,
    Activity,
    Tally,
    counted,
    operands,
    variance,
)
from edgewise.study.cost.technology import Technology


def toggles(
    design: Design,
    technology: Technology = UNIT_GATE,
    results: int = RESULTS,
    seed: int = SEED,
) -> Activity:
    """Count the toggles of a design, glitches among them.

    Parameters
    ----------
    design : Design
    technology : Technology
        Whose delays.
    results : int
        Runs, side by side.
    seed : int

    Examples
    --------
    >>> from edgewise import catalogue
    >>> from edgewise.study.cost import switching
    >>> adder = catalogue.design("ripple-carry-adder", n=8)
    >>> print(switching.toggles(adder))
    17.6 ± 0.3 toggles a result (256 random results, seed 2026)
    >>> print(toggles(adder))
    23.6 ± 0.6 toggles a result (256 random results, seed 2026)
    """
    netlist = design.netlist
    timing = technology.timing(netlist)
    delays = Delays(tuple((one, one) for one in timing.gates), ())
    moments = begins(netlist, timing)
    nets, tally = counted(netlist), Tally(results)
    for before, after in _changes(design, results, seed):
        driven = {net: (at, before[net], after[net]) for net, at in moments.items()}
        found = waves(netlist, delays, driven, results)
        for net in nets:
            for bits in found[net].toggles():
                tally.add(bits)
    counts = tally.counts()
    return Activity(sum(counts), results, seed, variance(counts, ring=not design.edges))


def _changes(design: Design, results: int, seed: int) -> Iterator[tuple[list[int], list[int]]]:
    """Settled rows, one after the other: edge after edge, or operands after operands."""
    before: list[int] | None = None
    for row in side_by_side.rows(design, operands(design, results, seed), results):
        if before is not None:
            yield before, row
        before = row
    if not design.edges and before is not None:
        # From each set of operands to the next, the last to the first.
        yield before, [bits >> 1 | (bits & 1) << results - 1 for bits in before]
