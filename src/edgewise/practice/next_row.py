"""The wrong ideas that show in a single row: what each makes of the one before."""

from __future__ import annotations

from collections.abc import Hashable
from typing import Final

from edgewise.design import Design
from edgewise.study.misconceptions import registry
from edgewise.study.misconceptions.misconception import Misconception

MOST_GATES: Final = 600
"""Gates of a design whose wrong ideas are looked at."""


def ideas(design: Design) -> tuple[tuple[Misconception, Design], ...]:
    """Those who store in the same flip-flops, but not always the same bits.

    A page numbers them in this order.

    Examples
    --------
    >>> from edgewise import catalogue
    >>> found = ideas(catalogue.design("serial-adder", n=4))
    >>> [idea.name for idea, _ in found][:4]
    ['one-after-another', 'wrong-end', 're-enters', 'carry-dropped']
    """
    if not design.edges or len(design.netlist.gates) > MOST_GATES:
        return ()
    return tuple(
        (idea, believed)
        for idea, believed in registry.applicable(design)
        if same_stores(believed, design) and deciding(believed) != deciding(design)
    )


def same_stores(one: Design, other: Design) -> bool:
    """Whether two designs store in flip-flops of the same names."""
    names, others = (sorted(f.name for f in d.netlist.flip_flops) for d in (one, other))
    return names == others


def deciding(design: Design, rows: int | None = None) -> Hashable:
    """All that decides what a row makes of the one before, in the first `rows` rows or in all."""
    netlist = design.netlist
    inputs = tuple((name, tuple(nets)) for name, nets in netlist.inputs.items())
    fed = tuple(
        tuple((name, tuple(of)) for name, of in row.items()) for row in design.schedule[:rows]
    )
    return netlist.gates, netlist.flip_flops, inputs, fed
