"""Insides: a row, an array or a datapath stays what it is when a part of it is opened.

The part keeps its place, on a ground of its own; its inside stands under the figure, on the same
ground and under the same name.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Final

from edgewise.views.diagram.elements import Element, stands_for
from edgewise.views.diagram.nets import Scene, Thread

INSIDE: Final = "+"
"""Ends the ids of an inside under a figure that has its part, too."""


def added(figure: Scene, opened: Scene, paths: Sequence[str]) -> Scene:
    """The figure with the insides of some of its parts under it.

    Parameters
    ----------
    figure : Scene
        With no part opened.
    opened : Scene
        The same circuit, its opened parts with their insides.
    paths : sequence of str
        The parts to be shown, in their order.
    """
    whole = {element.id: element for element in opened.elements}
    elements = list(figure.elements)
    threads = list(figure.threads)
    under: list[str] = []
    for path in paths:
        holder, inner = _renamed(whole[path], opened.threads)
        elements = [replace(e, shown=True) if stands_for(e.id, path) else e for e in elements]
        elements.append(holder)
        threads += inner
        under.append(holder.id)
    return replace(figure, elements=tuple(elements), threads=tuple(threads), under=tuple(under))


def _renamed(holder: Element, threads: Sequence[Thread]) -> tuple[Element, list[Thread]]:
    """An opened part and the wires in it, the ids of its own told from those of its part."""
    own = {pin.id: f"{pin.id}{INSIDE}" for pin in holder.pins}
    inner = {pin.id for element in _walk(holder) for pin in element.pins} - {*own}
    kept = [
        replace(
            thread,
            id=f"{thread.id}{INSIDE}",
            source=own.get(thread.source, thread.source),
            targets=tuple(own.get(end, end) for end in thread.targets),
        )
        for thread in threads
        if inner & {thread.source, *thread.targets}
    ]
    pins = tuple(replace(pin, id=own[pin.id]) for pin in holder.pins)
    return replace(holder, id=f"{holder.id}{INSIDE}", pins=pins, seed=None), kept


def _walk(holder: Element) -> list[Element]:
    found = [holder]
    for element in found:
        found += element.inside
    return found
