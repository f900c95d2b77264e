"""Spot: where in a picture the thing of a name is, and the look of marks that point at it."""

from __future__ import annotations

from typing import Final

from edgewise.views.diagram.elements import Element, stands_for
from edgewise.views.diagram.picture import Picture
from edgewise.views.drawing import theme
from edgewise.views.drawing.shapes import Group, Line, Point

_AWAY: Final = 9.0
"""Px from a pin along its wire."""
_SIDES: Final = {"left": (-1, 0), "right": (1, 0), "top": (0, -1), "bottom": (0, 1)}


def rimmed(  # noqa: PLR0913, PLR0917  a shape, its look, its place
    outline: tuple[Point, ...], rim: float, ink: str, kind: str, name: str, x: float, y: float
) -> Group:
    """A filled mark with a pale rim that keeps it apart from the wires under it."""
    pale = Line(outline, theme.PAPER, rim, fill=theme.PAPER, closed=True, round=True)
    body = Line(outline, ink, theme.HAIR, fill=ink, closed=True, round=True)
    return Group((pale, body), kind, name, x, y)


def holder(name: str) -> str:
    """The part in which a name lies: ``FA(3)`` for ``FA(3).G1``; empty on the page."""
    return name.rpartition(".")[0]


def spot(picture: Picture, name: str, nets: tuple[int, ...]) -> Point | None:
    """Where a part, port, net or bit is drawn, its nets given; None if nothing shows it.

    What lies in a part that is not opened is at the part.
    """
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
    outer = holder(name)
    return spot(picture, outer, ()) if outer else None


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
