"""Many runs of one design on the reference engine, the steps that they share made once."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from functools import cached_property, lru_cache
from itertools import product
from typing import Final

from edgewise.blueprint import Blueprint
from edgewise.circuit.model import Tie
from edgewise.design import Design, Source
from edgewise.engines import reference
from edgewise.operands import Operands
from edgewise.study.claims.run import Run
from edgewise.trace import Trace

_MOST: Final = 400_000
"""Steps kept."""


class Steps:
    """Runs of one design, each step from row to row made only once.

    Runs of all operands share most of their rows: an 8-bit serial adder has 65,536 runs of
    17 rows, but a tenth as many different steps.

    Parameters
    ----------
    design : Design

    Examples
    --------
    >>> from edgewise import catalogue
    >>> steps = Steps(catalogue.design("serial-adder", n=2))
    >>> runs = [run.trace for run in steps.runs(("a", "b"), {})]
    >>> len(runs), sum(run.edges + 1 for run in runs), len(steps.known)
    (16, 80, 64)
    """

    def __init__(self, design: Design) -> None:
        self.design = design
        self.edge = reference.edge(design.netlist)
        self.known: dict[tuple[bytes, tuple[int, ...]], bytes] = {}

    @cached_property
    def sources(self) -> list[list[tuple[str, Source]]]:
        """Of each row: all input bits, LSB first, with the input's name."""
        return [
            [(name, source) for name, bits in row.items() for source in bits]
            for row in self.design.schedule
        ]

    def run(self, design: Design, operands: Mapping[str, int]) -> Trace:
        """As `reference.run`, for operands already checked."""
        before, patterns = b"", design.patterns(operands)
        rows: list[bytes] = []
        for row, sources in enumerate(self.sources):
            fed = tuple(
                s.bit if isinstance(s, Tie) else patterns[s.operand] >> s.index & 1
                for _, s in sources
            )
            after = self.known.get((before, fed))
            if after is None:
                if len(self.known) > _MOST:
                    self.known.clear()
                after = self.known[before, fed] = self._step(row, before, fed)
            rows.append(after)
            before = after
        return Trace(design, operands, tuple(rows))

    def _step(self, row: int, before: bytes, fed: tuple[int, ...]) -> bytes:
        netlist = self.design.netlist
        stored = self.edge(before) if row else [one.start for one in netlist.flip_flops]
        inputs: dict[str, list[int]] = {name: [] for name in netlist.inputs}
        for (name, _), bit in zip(self.sources[row], fed, strict=True):
            inputs[name].append(bit)
        return reference.settle(netlist, stored, inputs)

    def runs(self, names: Sequence[str], others: Mapping[str, int]) -> Iterator[Run]:
        """A run for each set of values of some operands, those with the fewest ones first.

        With as many ones, those of the smallest words first, the first operand counting most.

        Parameters
        ----------
        names : sequence of str
            None of them: the one run of the others.
        others : mapping of str to int
            Operands that keep one value.
        """
        if not names:
            yield Run(self.design, others)
            return
        self.design.values({**others, **dict.fromkeys(names, 0)})  # the others must fit
        order = [operand for operand in self.design.operands if operand.name in names]
        words = ([*map(operand.pattern, operand.numbers)] for operand in order)
        for patterns in sorted(product(*words), key=lambda of: (sum(map(int.bit_count, of)), of)):
            chosen = {one.name: one.number(of) for one, of in zip(order, patterns, strict=True)}
            yield self.of({**others, **chosen})

    def of(self, operands: Mapping[str, int]) -> Run:
        """The run of complete operands in range."""
        return Run(self.design, Operands(self.design.operands, operands), self.run)


@lru_cache(maxsize=64)
def built(blueprint: Blueprint, numbers: tuple[tuple[str, int], ...]) -> Design:
    """The design for these parameters; kept for the next question."""
    return blueprint.design(dict(numbers))


@lru_cache(maxsize=3)
def steps_of(blueprint: Blueprint, numbers: tuple[tuple[str, int], ...]) -> Steps:
    """The steps of that design; kept for the next question."""
    return Steps(built(blueprint, numbers))
