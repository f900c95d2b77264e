"""Looks: what the designer of a circuit says about its picture, where the guess is not wanted."""

from __future__ import annotations

from typing import Final

from edgewise.circuit.model import Circuit
from edgewise.errors import EdgewiseError, Message

PLAIN: Final = "plain"


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
            Message(
                "looks-two", first=one.name, look=one.look, second=other.name, other=other.look
            ),
            other.place,
        )
    return next(iter(first), "")


def refuse(circuit: Circuit, look: str) -> EdgewiseError:
    """What to say where the parts do not make what is asked for."""
    part = next(part for part in circuit.parts if part.look == look)
    return EdgewiseError(
        Message("look-unmade", part=part.name, look=look),
        part.place,
    )
