"""Flash: the mark of a fault at a wire or a part, in the colour of errors.

A zigzag that points at its place tells a fault without colour too (IEC 60617-2 has one for a
fault, from memory). A pale rim keeps it apart from the wires under it.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Final

from edgewise.errors import EdgewiseError, Message, nearest, raise_all
from edgewise.views.diagram.picture import Picture
from edgewise.views.diagram.spot import holder, rimmed, spot
from edgewise.views.drawing import theme
from edgewise.views.drawing.shapes import Group, Point

_SHAPE: Final[tuple[Point, ...]] = (
    (0, 0),
    (9.5, -12.5),
    (5.5, -11.5),
    (10.5, -22),
    (3.5, -22),
    (-0.5, -9.5),
    (3.5, -10.5),
)
"""Its outline; the tip is at (0, 0)."""
_RIM: Final = 5.0


def flash(x: float, y: float, name: str = "", scale: float = 1.0) -> Group:
    """A flash whose tip is at (x, y).

    Examples
    --------
    >>> flash(40, 30, "FA.sum").kind
    'fault'
    """
    outline = tuple((dx * scale, dy * scale) for dx, dy in _SHAPE)
    return rimmed(outline, _RIM * scale, theme.BRICK, "fault", name, x, y)


def flashes(picture: Picture, names: Sequence[str]) -> Iterator[Group]:
    """A flash for each name that is drawn, at its wire or part.

    A name can be that of a part, a port, a net or a bit, a gate inside a part; what lies in a
    part that is not opened is marked at the part.

    Raises
    ------
    EdgewiseError or Problems
        Names that the design does not have.
    """
    netlist = picture.trace.design.netlist
    parts = {part.name for part in picture.trace.design.circuit.parts}
    gates = {gate.name for gate in netlist.gates}
    errors: list[EdgewiseError] = []
    for name in names:
        try:
            nets = tuple(netlist.find(name))
        except EdgewiseError:
            nets = ()
            if name not in parts | gates and holder(name) not in parts:
                known = nearest(name, [*parts, *netlist.top_names])
                errors.append(EdgewiseError(Message("mark-unknown", name=name, suggestion=known)))
        place = spot(picture, name, nets)
        if place is not None:
            yield flash(*place, name)
    raise_all(errors)
