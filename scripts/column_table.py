"""Measure every figure of the catalogue where it is to stand: its smallest letters, and its panels.

Run ``make figures``. A figure is laid out anew for each place.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from edgewise import catalogue
from edgewise.views.diagram.block_diagram import diagram
from edgewise.views.drawing import theme
from edgewise.views.drawing.column import column
from edgewise.views.drawing.shapes import Group, Item
from scripts.contact_sheet import traced

PLACES: Final = ("85mm", "120mm", "170mm", "slide", "phone")
SIZE: Final = 8
HEADING: Final = f"{'':40}" + "".join(f"{place:>12}" for place in PLACES)


def panels(items: tuple[Item, ...]) -> int:
    """Into how many panels a figure is broken; 0 for one in one piece."""
    groups = [item for item in items if isinstance(item, Group)]
    return sum(group.kind == "panel" or panels(group.items) for group in groups)


def table() -> Iterator[str]:
    """The lines of the table, its heading first: smallest letters in pt, and panels."""
    yield HEADING
    for name in catalogue.ORDER:
        trace, cells = traced(name, SIZE), []
        for place in map(column, PLACES):
            drawing = diagram(trace, 0, room=place.room)
            # On paper a figure is as wide as it was drawn, or is scaled down to its column.
            scale = place.shown(drawing.width) / (drawing.width / 96 * 25.4)
            letters = theme.SIZE_SMALL * 0.75 * scale
            broken = panels(drawing.items)
            cells.append(f"{letters:.1f} pt" + (f" /{broken}" if broken else "   "))
        yield f"{name:40}" + "".join(f"{cell:>12}" for cell in cells)


def main() -> None:
    """Print the table."""
    for line in table():
        print(line)


if __name__ == "__main__":
    main()
