"""Pointer: an arrow at what a step speaks of.

It is ink with a pale rim, so that it says where without colour and stands out from the wires.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Final

from edgewise.errors import EdgewiseError
from edgewise.views.diagram.picture import Picture
from edgewise.views.diagram.spot import rimmed, spot
from edgewise.views.drawing import theme
from edgewise.views.drawing.shapes import Group, Point

SHAPE: Final[tuple[Point, ...]] = (
    (0, 0),
    (0, -17.5),
    (4.5, -15),
    (14.5, -32.5),
    (20.5, -29),
    (10.5, -11.5),
    (15, -9),
)
"""Its outline; the tip is at (0, 0), and it comes from above on the right."""
RIM: Final = 5.0


def pointer(x: float, y: float, name: str = "") -> Group:
    """An arrow whose tip is at (x, y).

    Examples
    --------
    >>> pointer(40, 30, "FA.sum").kind
    'pointer'
    """
    return rimmed(SHAPE, RIM, theme.INK, "pointer", name, x, y)


def spots(picture: Picture, names: Sequence[str]) -> dict[str, Point]:
    """The tip for each name that is drawn: a part, a port, a net or a bit of the design.

    Examples
    --------
    >>> from edgewise import catalogue, run
    >>> from edgewise.views.diagram.options import Manner
    >>> picture = Picture(run(catalogue.design("serial-adder", n=4), a=6, b=3), Manner())
    >>> list(spots(picture, ["C", "S(3)"]))
    ['C', 'S(3)']
    """
    netlist = picture.trace.design.netlist
    found: dict[str, Point] = {}
    for name in names:
        try:
            nets = tuple(netlist.find(name))
        except EdgewiseError:  # it is a part that stores nothing
            nets = ()
        place = spot(picture, name, nets)
        if place is not None:
            found[name] = place
    return found


def pointers(picture: Picture, names: Sequence[str]) -> Iterator[Group]:
    """An arrow at each of `spots`."""
    for name, place in spots(picture, names).items():
        yield pointer(*place, name)


def headroom(picture: Picture, names: Sequence[str]) -> float:
    """How far arrows at these names reach over the upper edge of the diagram.

    Examples
    --------
    >>> from edgewise import catalogue, run
    >>> from edgewise.views.diagram.options import Manner
    >>> picture = Picture(run(catalogue.design("serial-adder", n=4), a=6, b=3), Manner())
    >>> headroom(picture, ["A"]) > 0, headroom(picture, ["C"])
    (True, 0.0)
    """
    above = RIM / 2 - min(y for _, y in SHAPE)
    return max(0.0, *(above - y for _, y in spots(picture, names).values()), 0.0)
