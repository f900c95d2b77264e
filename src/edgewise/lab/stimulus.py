"""Random inputs for a bench: what the procedure of a design never does is tried, too."""

from __future__ import annotations

import random
from dataclasses import replace
from typing import Final

from edgewise.design import Design, Feed, Phase
from edgewise.engines import reference
from edgewise.trace import Trace

MOST_ROWS: Final = 10_000


def random_run(design: Design, rows: int, seed: int) -> Trace:
    """A run with random inputs, every row's its own; the same seed, the same run.

    Examples
    --------
    >>> from edgewise import catalogue
    >>> trace = random_run(catalogue.design("serial-adder", n=4), 3, 18)
    >>> trace.edges, [str(trace.word("a_in", row)) for row in range(3)]
    (3, ['0', '0', '1'])
    """
    draw = random.Random(seed)  # noqa: S311  # no secret
    widths = {net.name: net.width for net in design.circuit.inputs}
    phases = tuple(
        Phase(
            f"random({row})",
            1,
            tuple(Feed(name, draw.getrandbits(width)) for name, width in widths.items()),
        )
        for row in range(rows)
    )
    drawn = replace(design, procedure=phases, operands=(), computes=())
    return reference.run(drawn.check(), {})
