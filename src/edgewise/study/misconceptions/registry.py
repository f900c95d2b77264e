"""The misconceptions that there are: those of each file beside this one, and of other packages."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from types import NoneType
from typing import Final

from edgewise import catalogue
from edgewise.bits import Word
from edgewise.design import Design
from edgewise.engines import reference
from edgewise.errors import EdgewiseError, Message, nearest
from edgewise.guests import Group, Guest, GuestError, warn
from edgewise.study.misconceptions import carry, procedure, register
from edgewise.study.misconceptions.misconception import Misconception

MISCONCEPTIONS: Final = (
    *register.MISCONCEPTIONS,
    *carry.MISCONCEPTIONS,
    *procedure.MISCONCEPTIONS,
)
"""Every misconception, in the order in which a list shows them."""


def _guarded(guest: Guest, misconception: Misconception) -> Misconception:
    """One of another package: what goes wrong in it, or in what it makes, is told as its own."""
    change_of = guest.guarded(misconception.change, Design, NoneType)

    def change(design: Design) -> Design | None:
        try:
            changed = change_of(design)
            if changed is None or changed == design:
                return None
            changed.check()
        except GuestError:
            raise
        except EdgewiseError as wrong:
            raise guest.error("guest-design", design=design.name, why=str(wrong)) from None
        if [p.output for p in changed.computes] != [p.output for p in design.computes]:
            raise guest.error("guest-answer", design=design.name)
        return changed

    return replace(misconception, change=change)


GUESTS: Final = Group(
    "edgewise.misconceptions",
    "misconception",
    Misconception,
    lambda: [one.name for one in MISCONCEPTIONS],
    _guarded,
    lambda one: one.of(catalogue.design("serial-adder", n=2)),
)
"""Those that other packages bring."""


def names() -> tuple[str, ...]:
    """The name of every misconception, those that other packages bring too."""
    return (*(one.name for one in MISCONCEPTIONS), *GUESTS.names())


def find(name: str) -> Misconception:
    """The misconception of this name; the error for an unknown one suggests the nearest."""
    found = next((one for one in MISCONCEPTIONS if one.name == name), None) or GUESTS.find(name)
    if found is None:
        raise EdgewiseError(
            Message("misconception-unknown", name=name, suggestion=nearest(name, names()))
        )
    return found


def applicable(design: Design) -> tuple[tuple[Misconception, Design], ...]:
    """Each misconception that has a meaning for a design, with the design it leads to.

    What is wrong with one of another package is a warning.

    Examples
    --------
    >>> from edgewise import catalogue
    >>> ripple = catalogue.design("ripple-carry-adder", n=4)
    >>> [misconception.name for misconception, _ in applicable(ripple)][:3]
    ['carry-dropped', 'carry-too-far', 'or-for-sum']
    """
    found: list[tuple[Misconception, Design]] = []
    for misconception in (*MISCONCEPTIONS, *GUESTS.all()):
        try:
            changed = misconception.of(design)
        except GuestError as wrong:
            warn(wrong)
        else:
            found += [] if changed is None else [(misconception, changed)]
    return tuple(found)


def answers(design: Design, operands: Mapping[str, int]) -> dict[str, Word]:
    """The words at a design's outputs, where and when its answer is read.

    Examples
    --------
    >>> from edgewise import catalogue
    >>> design = catalogue.design("serial-adder", n=4)
    >>> dropped = find("carry-dropped").of(design)
    >>> [str(answers(one, {"a": 6, "b": 3})["sum"]) for one in (design, dropped)]
    ['1001', '0101']
    """
    trace = reference.run(design, operands)
    return {
        p.output: trace.bits(
            design.netlist.outputs[p.output], trace.edges if p.after is None else p.after
        )
        for p in design.computes
    }
