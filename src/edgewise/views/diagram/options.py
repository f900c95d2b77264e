"""Manner: how a block diagram is drawn, whatever is in it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import Final, Literal, TypeAlias, get_args

from edgewise.circuit.model import Circuit
from edgewise.errors import EdgewiseError, Message, nearest, raise_all
from edgewise.listing import choice
from edgewise.views.drawing.gate_symbols import Style

Clock: TypeAlias = Literal["wedge", "hidden", "wires"]
"""How the clock shows: by the wedge at each input; not at all; or with its wires too."""


@dataclass(frozen=True, slots=True)
class Manner:
    """The options of a picture, checked.

    Examples
    --------
    >>> Manner().clock
    'wedge'
    """

    opened: frozenset[str] = frozenset()
    """Paths of parts drawn with their inside."""
    clock: Clock = "wedge"
    style: Style = "distinctive"
    narrow: int = 0
    """0: as wide as it is; 1: small cells, little room between; the more, the narrower."""


NARROWEST: Final = 4


def manner(
    circuit: Circuit,
    opened: Iterable[str] = (),
    clock: Clock = "wedge",
    symbols: Style = "distinctive",
) -> Manner:
    """Check the options of a picture.

    Parameters
    ----------
    circuit : Circuit
    opened : iterable of str
        Paths of parts; what a part is in is opened with it.
    clock, symbols : str

    Raises
    ------
    EdgewiseError or Problems
        A part that is not there or has no inside, or an unknown way to draw.

    Examples
    --------
    >>> from edgewise import catalogue
    >>> adder = catalogue.design("serial-adder", n=4).circuit
    >>> sorted(manner(adder, ["FA"]).opened)
    ['FA']
    >>> manner(adder, ["Fa"])
    Traceback (most recent call last):
    edgewise.errors.EdgewiseError: there is no part Fa to open; did you mean FA?
    """
    errors: list[EdgewiseError] = []
    for option, found, known in (("clock", clock, Clock), ("symbols", symbols, Style)):
        words = get_args(known)
        if found not in words:
            errors.append(
                EdgewiseError(
                    Message(
                        "value-expected", name=option, found=repr(found), expected=choice(words)
                    )
                )
            )
    paths: set[str] = set()
    if isinstance(opened, str):
        opened = (opened,)
    for name in opened:
        try:
            paths.update(_paths(circuit, name))
        except EdgewiseError as wrong:
            errors.append(wrong)
    raise_all(errors)
    return Manner(frozenset(paths), clock, symbols)


def _paths(circuit: Circuit, name: str) -> Iterator[str]:
    """The part of this path and all that it is in."""
    here, path = circuit, ""
    for step in name.split("."):
        part = here.part(step)
        if part is None:
            known = [f"{path}{p.name}" for p in here.parts]
            raise EdgewiseError(
                Message("part-to-open-unknown", name=name, suggestion=nearest(path + step, known))
            )
        path += step
        if part.kind.inside is None:
            raise EdgewiseError(
                Message("part-to-open-without-inside", name=path, kind=part.kind.name)
            )
        yield path
        here, path = part.kind.inside, f"{path}."
