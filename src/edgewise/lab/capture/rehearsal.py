"""A run rehearsed: a design's netlist with the inputs it got and the edges that came."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace
from typing import Final, TypeAlias

from edgewise.bits import Bit
from edgewise.circuit.netlist import Netlist
from edgewise.circuit.truth import KLEENE
from edgewise.design import Design
from edgewise.engines import reference
from edgewise.engines.run_loop import Machine

_MACHINE: Final = Machine(KLEENE)
Feeds: TypeAlias = Sequence[Mapping[str, Sequence[Bit]]]
"""For each row the bits of each input, LSB first."""


def feeds(design: Design, operands: Mapping[str, int]) -> Feeds:
    """What a design's procedure feeds, row by row."""
    patterns = design.patterns(operands)
    return tuple(reference.fed(sources, patterns) for sources in design.schedule)


def rows(
    netlist: Netlist, fed: Feeds, edges: Sequence[int] = (), start: Mapping[str, Bit] | None = None
) -> tuple[bytes, ...]:
    """The rows of a run.

    Parameters
    ----------
    netlist : Netlist
    fed : sequence
        Inputs, row by row.
    edges : sequence of int
        How many edges the circuit gets between one row and the next; one each, unless given.
    start : mapping of str to bit, optional
        Flip-flops that begin otherwise than they should, by name.

    Examples
    --------
    >>> from edgewise import catalogue
    >>> design = catalogue.design("binary-counter", n=4, k=2)
    >>> found = rows(design.netlist, feeds(design, {}), [1, 2])
    >>> [sum(row[n] << i for i, n in enumerate(design.netlist.outputs["count"])) for row in found]
    [0, 1, 3]
    """
    if start:
        netlist = replace(
            netlist,
            flip_flops=tuple(
                replace(f, start=start.get(f.name, f.start)) for f in netlist.flip_flops
            ),
        )
    edge = _MACHINE.edge(netlist)
    stored: Iterable[Bit] = [one.start for one in netlist.flip_flops]
    found = []
    for number, inputs in enumerate(fed):
        row = _MACHINE.settle(netlist, stored, inputs)
        found.append(bytes(row))
        count = edges[number] if number < len(edges) else 1
        stored = [row[one.q] for one in netlist.flip_flops]
        for _ in range(count):
            stored = edge(row)
            row = _MACHINE.settle(netlist, stored, inputs)
    return tuple(found)
