"""What a design is known by where learners bring something back: all that decides its runs."""

from __future__ import annotations

import hashlib
from collections.abc import Iterator
from typing import Final

from edgewise.design import Design

_LETTERS: Final = 8


def told(design: Design) -> Iterator[str]:
    """The circuit and the procedure, line by line; no place and no wording is in it."""
    yield design.name
    yield from map(str, design.parameters.items())
    for gate in design.netlist.gates:
        yield f"{gate.operator} {gate.inputs} {gate.output}"
    for f in design.netlist.flip_flops:
        yield f"{f.d} {f.q} {f.enable} {f.clear} {f.gate} {f.start}"
    for phase in design.procedure:
        fed = [(one.input, one.what, one.order) for one in phase.feeds]
        yield f"{phase.edges} {fed}"


def short(design: Design) -> str:
    """A few letters that tell it from other designs.

    Examples
    --------
    >>> from edgewise import catalogue
    >>> one, other = (short(catalogue.design("serial-adder", n=n)) for n in (4, 5))
    >>> len(one), one == other
    (8, False)
    """
    return hashlib.sha256("\n".join(told(design)).encode()).hexdigest()[:_LETTERS]
