"""A carry that leaks: stored at the end of one word and added to the next."""

from __future__ import annotations

import itertools
from collections.abc import Iterator
from dataclasses import dataclass

from edgewise.circuit.netlist import FlipFlop
from edgewise.design import Design
from edgewise.engines import reference
from edgewise.formula import Node
from edgewise.study.claims.holding_edges import true
from edgewise.study.claims.run import Run
from edgewise.study.claims.scope import Scope
from edgewise.study.coverage.adder_usage import adders
from edgewise.trace import Trace
from edgewise.words.messages import ENGLISH, Words


@dataclass(frozen=True, slots=True)
class Leak:
    """A stored carry that a phase begins with, and without which a claim would be true.

    Parameters
    ----------
    part : str
        The flip-flop.
    row : int
        The row in which it holds 1: the end of one phase, and what the next begins with.
    phase, following : str
        The phases.
    """

    part: str
    row: int
    phase: str
    following: str

    def sentences(self, words: Words = ENGLISH) -> tuple[str, str]:
        """Where the carry is, and that it alone makes the claim false."""
        facts = {"phase": self.phase, "part": self.part, "following": self.following}
        stored = words("finding-leak", edge=self.row, **facts)
        return stored, words("finding-leak-alone", part=self.part)


def leak(trace: Trace, claimed: Node) -> Leak | None:
    """The first carry that is stored when a phase begins and that alone makes a claim false.

    Each is tried: the run is made again from that row on, with 0 in place of the carry.

    Examples
    --------
    >>> from edgewise import catalogue
    >>> from edgewise.formula import parse
    >>> design = catalogue.design("serial-accumulator", n=4, x=2)
    >>> trace = reference.run(design, {"w": [8, 8]})
    >>> leak(trace, parse("A after end == total(w) mod 2**n")) is None  # the last carry
    True
    >>> design = catalogue.design("serial-accumulator", n=4, x=3)
    >>> trace = reference.run(design, {"w": [8, 8, 0]})
    >>> found = leak(trace, parse("A after end == total(w) mod 2**n"))
    >>> found.part, found.row, found.following
    ('C', 12, 'add(3)')
    """
    design = trace.design
    carries = list(_carries(design))
    phases = [(phase, last) for phase, _, last in design.spans if phase.edges]
    for (phase, row), (following, _) in itertools.pairwise(phases):
        for flip_flop in carries:
            if trace.rows[row][flip_flop.q] != 1:
                continue
            without = _without(trace, row, flip_flop)
            run = Run(design, trace.operands, lambda *_, made=without: made)
            if true(claimed, Scope(run)):
                return Leak(flip_flop.name, row, phase.name, following.name)
    return None


def _carries(design: Design) -> Iterator[FlipFlop]:
    """Flip-flops that store the carry out of an adder."""
    outs = {adder.carry for adder in adders(design)}
    return (flip_flop for flip_flop in design.netlist.flip_flops if flip_flop.d in outs)


def _without(trace: Trace, row: int, carry: FlipFlop) -> Trace:
    """The run with 0 in a flip-flop in one row; what follows from that on is made again."""
    design = trace.design
    netlist, rows = design.netlist, list(trace.rows[:row])
    patterns = design.patterns(trace.operands)
    edge = reference.edge(netlist)
    stored = [trace.rows[row][f.q] if f != carry else 0 for f in netlist.flip_flops]
    for number in range(row, design.edges + 1):
        if number > row:
            stored = edge(rows[-1])
        fed = reference.fed(design.schedule[number], patterns)
        rows.append(reference.settle(netlist, stored, fed))
    return Trace(design, trace.operands, tuple(rows))
