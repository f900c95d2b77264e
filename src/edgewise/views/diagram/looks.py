"""Looks: what the designer of a circuit says about its picture, where the guess is not wanted."""

from __future__ import annotations

from typing import Final

from edgewise.circuit.model import Circuit
from edgewise.errors import EdgewiseError

PLAIN: Final = "plain"
_MADE: Final = {
    "row": "a row of equal cells",
    "array": "an array of adders",
    "groups": "groups that hand one bit on",
    "datapath": "a datapath",
    "prefix-graph": "a prefix graph",
}


def asked(circuit: Circuit) -> str:
    """The look that parts of a circuit ask for; empty if none does.

    Raises
    ------
    EdgewiseError
        They ask for different ones.

    Examples
    --------
    >>> from edgewise import catalogue
    >>> asked(catalogue.design("serial-adder").circuit)
    ''
    """
    first = {part.look: part for part in reversed(circuit.parts) if part.look}
    if PLAIN in first:
        return PLAIN
    if len(first) > 1:
        one, other = list(first.values())[-1:-3:-1]
        raise EdgewiseError(
            f"{one.name} asks for look: {one.look}, {other.name} for look: {other.look}; a figure"
            " has one of them: leave one out",
            other.place,
        )
    return next(iter(first), "")


def refuse(circuit: Circuit, look: str) -> EdgewiseError:
    """What to say where the parts do not make what is asked for."""
    part = next(part for part in circuit.parts if part.look == look)
    return EdgewiseError(
        f"{part.name} asks for look: {look}, but the parts do not make {_MADE[look]}; leave look"
        " out, or write look: plain",
        part.place,
    )
