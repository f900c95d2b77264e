"""Faces: what is drawn of each part, in its place.

A face lies over the wires, which end at the borders of its box; the stubs from there to the
outline belong to the face.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Final

from edgewise.views.diagram import part_drawing, row_drawing
from edgewise.views.diagram.elements import Element
from edgewise.views.diagram.part_drawing import Shown
from edgewise.views.drawing.shapes import Item


def face(element: Element, shown: Shown) -> tuple[Item, ...]:
    """The items of one element, from the top left corner of its box."""
    return (
        *part_drawing.stubs(element, shown),
        *_FACES[element.role](element, shown),
        *row_drawing.marks(element),
    )


_FACES: Final[dict[str, Callable[[Element, Shown], Iterator[Item]]]] = {
    "gate": part_drawing.gate,
    "adder": part_drawing.adder,
    "multiplexer": part_drawing.multiplexer,
    "storage": part_drawing.storage,
    "plain": part_drawing.plain,
    "input": part_drawing.input_,
    "output": part_drawing.output,
    "tie": part_drawing.tie,
    "enter": part_drawing.passage,
    "leave": part_drawing.passage,
    "open": part_drawing.opened,
    "slice": row_drawing.slice_,
    "bit": row_drawing.bit,
    "ellipsis": row_drawing.ellipsis,
    "leaf": row_drawing.leaf,
    "node": row_drawing.node,
    "sum": row_drawing.sum_,
    "value": row_drawing.value,
    "note": row_drawing.note,
    "cell": row_drawing.cell,
    "unit": row_drawing.cell,
    "beneath": row_drawing.beneath,
    "stored": row_drawing.stored,
    "selector": row_drawing.selector,
    "spread": row_drawing.spread,
    "gathered": row_drawing.gathered,
    "product": row_drawing.product,
}
