"""Flash: the mark of a fault at a wire or a part, in the colour of errors.

A zigzag that points at its place tells a fault without colour too (IEC 60617-2 has one for a
fault, from memory). A pale rim keeps it apart from the wires under it.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Final

from edgewise.errors import EdgewiseError, nearest, raise_all
from edgewise.views.diagram.elements import Element, stands_for
from edgewise.views.diagram.picture import Picture
from edgewise.views.drawing import theme
from edgewise.views.drawing.shapes import Group, Line, Point

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
_AWAY: Final = 9.0
"""Px from a pin along its wire to the tip."""
_SIDES: Final = {"left": (-1, 0), "right": (1, 0), "top": (0, -1), "bottom": (0, 1)}


def flash(x: float, y: float, name: str = "", scale: float = 1.0) -> Group:
    """A flash whose tip is at (x, y).

    Examples
    --------
    >>> flash(40, 30, "FA.sum").kind
    'fault'
    """
    outline = tuple((dx * scale, dy * scale) for dx, dy in _SHAPE)
    rim = Line(outline, theme.PAPER, _RIM * scale, fill=theme.PAPER, closed=True, round=True)
    body = Line(outline, theme.BRICK, theme.HAIR, fill=theme.BRICK, closed=True, round=True)
    return Group((rim, body), "fault", name, x, y)


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
            if name not in parts | gates and _holder(name) not in parts:
                known = nearest(name, [*parts, *netlist.top_names])
                errors.append(EdgewiseError(f"there is nothing called {name} to mark{known}"))
        spot = _spot(picture, name, nets)
        if spot is not None:
            yield flash(*spot, name)
    raise_all(errors)


def _holder(name: str) -> str:
    """The part in which a name lies: ``FA(3)`` for ``FA(3).G1``; empty on the page."""
    return name.rpartition(".")[0]


def _spot(picture: Picture, name: str, nets: tuple[int, ...]) -> Point | None:
    elements = {element.id: element for element in picture.scene.walk()}
    pins = picture.scene.pins
    if name in pins:
        return _at_pin(picture, name)
    if name in elements:
        return _at_part(picture, elements[name])
    for thread in picture.scene.threads if nets else ():
        if pins[thread.source].nets == nets:
            return _at_pin(picture, thread.source)
    for element in elements.values():
        if len(nets) == 1 and nets[0] in element.word and len(element.word) <= theme.FOLD:
            return _at_cell(picture, element, element.word.index(nets[0]))
    for pin in pins.values() if nets else ():
        if set(nets) <= set(pin.nets):
            return _at_pin(picture, pin.id)
    whole = next((one for one in elements.values() if stands_for(one.id, name)), None)
    if whole is not None:
        return _at_part(picture, whole)
    holder = _holder(name)
    return _spot(picture, holder, ()) if holder else None


def _at_pin(picture: Picture, name: str) -> Point:
    pin = picture.scene.pins[name]
    x, y = next((port.x, port.y) for port in picture.layout.ports if port.id == name)
    dx, dy = _SIDES[pin.side]
    return x + dx * _AWAY, y + dy * _AWAY


def _at_part(picture: Picture, element: Element) -> Point:
    box = next(box for box in picture.layout.boxes if box.id == element.id)
    _, top, right, _ = element.frame if any(element.frame) else (0, 0, box.width, 0)
    return box.x + right - 16, box.y + top


def _at_cell(picture: Picture, element: Element, bit: int) -> Point:
    box = next(box for box in picture.layout.boxes if box.id == element.id)
    left, top = element.cells
    place = len(element.word) - 1 - bit
    return box.x + left + element.cell.width * (place + 0.5), box.y + top
