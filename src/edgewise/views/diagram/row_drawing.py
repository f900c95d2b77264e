"""Row faces: what is drawn of slices, cells and nodes, which stand side by side."""

from __future__ import annotations

from collections.abc import Iterator

from edgewise.views.diagram.elements import Element
from edgewise.views.diagram.part_drawing import (
    NOTE,
    Shown,
    bits,
    middle_of,
    outline,
    pin_labels,
    slash,
    wedge,
)
from edgewise.views.diagram.terminals import TERMINAL_GAP
from edgewise.views.drawing import theme
from edgewise.views.drawing.bit_cells import cells_width
from edgewise.views.drawing.legend import triangle
from edgewise.views.drawing.shapes import Circle, Group, Item, Line, Text


def slice_(element: Element, shown: Shown) -> Iterator[Item]:
    """An adder of a chain."""
    left, _, right, bottom = element.frame
    yield outline(element)
    name = element.label if shown.style == "distinctive" else f"{element.mark} {element.label}"
    middle = (left + right) / 2
    base = middle_of(bottom / 2, theme.SIZE_TEXT)
    for pin in element.pins:
        if not pin.label:
            continue
        if pin.side == "top":
            yield Text(pin.at, 16, pin.label, NOTE, theme.SLATE, anchor="middle")
        elif pin.side == "bottom":
            yield Text(pin.at, bottom - 7, pin.label, NOTE, theme.SLATE, anchor="middle")
    yield Text(middle, base, name, theme.SIZE_TEXT, weight=theme.STRONG, anchor="middle")


def bit(element: Element, shown: Shown) -> Iterator[Item]:
    """A bit of a word with its name, at the side where its wire is not."""
    yield from bits(element, shown)
    w, h = element.width, element.height
    match element.pins[0].side:
        case "bottom":
            yield Text(w / 2, 11, element.label, NOTE, anchor="middle")
        case "top":
            yield Text(w / 2, h - 3, element.label, NOTE, anchor="middle")
        case "left":
            base = middle_of(h / 2, theme.SIZE_NAME)
            yield Text(w, base, element.label, theme.SIZE_NAME, weight=theme.STRONG, anchor="end")
        case "right":
            base = middle_of(h / 2, theme.SIZE_NAME)
            yield Text(0, base, element.label, theme.SIZE_NAME, weight=theme.STRONG)


def ellipsis(element: Element, _shown: Shown) -> Iterator[Item]:
    """What stands for the slices left out."""
    y = element.pins[0].at
    for i in (-1, 0, 1):
        yield Circle(element.width / 2 + 9 * i, y, 2.25, theme.INK)


def leaf(element: Element, shown: Shown) -> Iterator[Item]:
    """What makes g and p of a column's bits."""
    yield outline(element)
    middle = element.width / 2
    yield Text(middle, 15, element.label, NOTE, weight=theme.STRONG, anchor="middle")
    yield from bits(element, shown)


def node(element: Element, shown: Shown) -> Iterator[Item]:
    """A node of a prefix graph with what it gives."""
    radius = element.height / 2
    if element.mark == "buffer":
        yield Group((triangle(0, 0, radius),), element.mark)
        yield from bits(element, shown)
        return
    fill = theme.INK if element.mark == "black" else theme.RULE
    circle = Circle(radius, radius, radius - theme.OUTLINE / 2, fill, theme.INK, theme.OUTLINE)
    yield Group((circle,), element.mark)
    yield from bits(element, shown)


def sum_(element: Element, shown: Shown) -> Iterator[Item]:
    """An XOR gate as the sign of its sum; a rectangle with its qualifying symbol by option."""
    size = element.height
    middle = size / 2
    if shown.style == "rectangular":
        yield outline(element)
        base = middle_of(middle, NOTE)
        yield Text(middle, base, element.mark, NOTE, anchor="middle")
        return
    radius = middle - theme.OUTLINE / 2
    yield Circle(middle, middle, radius, theme.PAPER, theme.INK, theme.OUTLINE)
    yield Line(((0, middle), (size, middle)), theme.INK, theme.OUTLINE)
    yield Line(((middle, 0), (middle, size)), theme.INK, theme.OUTLINE)


def value(element: Element, shown: Shown) -> Iterator[Item]:
    """A bit with its name right of it or below."""
    yield from bits(element, shown)
    if not element.label:
        return
    wide, high = element.cell.width, element.cell.height
    if element.mark == "right":
        yield Text(element.width, middle_of(high / 2, NOTE), element.label, NOTE, anchor="end")
    else:
        base = high + 2 + theme.ASCENT * NOTE
        yield Text(wide / 2, base, element.label, NOTE, anchor="middle")


def note(element: Element, _shown: Shown) -> Iterator[Item]:
    """A name that a row has in common."""
    yield Text(0, middle_of(element.height / 2, NOTE), element.label, NOTE, theme.SLATE)


def cell(element: Element, shown: Shown) -> Iterator[Item]:
    """An adder of a row: its name, and the names of its ports at all four sides."""
    yield outline(element)
    left, _, right, bottom = element.frame
    middle = (left + right) / 2
    yield Text(middle, 36, element.label, theme.SIZE_NAME, weight=theme.STRONG, anchor="middle")
    if shown.style == "rectangular" and element.mark:
        yield Text(middle, 52, element.mark, theme.SIZE_TEXT, anchor="middle")
    for pin in element.pins:
        if pin.label and pin.side in ("top", "bottom"):
            base = 16 if pin.side == "top" else bottom - 7
            yield Text(pin.at, base, pin.label, NOTE, theme.SLATE, anchor="middle")
    yield from pin_labels(element)


def beneath(element: Element, shown: Shown) -> Iterator[Item]:
    """A flip-flop under its adder: its pins above."""
    yield outline(element)
    for pin in element.pins:
        if pin.label:
            yield Text(pin.at, 15, pin.label, NOTE, theme.SLATE, anchor="middle")
    yield from bits(element, shown)
    base = middle_of(element.cells[1] + element.cell.height / 2, theme.SIZE_NAME)
    yield Text(10, base, element.label, theme.SIZE_NAME, weight=theme.STRONG)
    yield from wedge(element, shown)


def stored(element: Element, shown: Shown) -> Iterator[Item]:
    """A narrow flip-flop: its name over its cell."""
    yield from leaf(element, shown)
    yield from wedge(element, shown)


def selector(element: Element, shown: Shown) -> Iterator[Item]:
    """A multiplexer that looks down."""
    left, top, right, bottom = element.frame
    middle = (left + right) / 2
    name = element.label
    if shown.style == "rectangular":
        yield outline(element)
        name = f"{element.mark} {name}"
    else:
        corners = ((left, top), (right, top), (right - 12, bottom), (left + 12, bottom))
        yield Line(corners, theme.INK, theme.OUTLINE, fill=theme.PAPER, closed=True)
    for pin in element.pins:
        if pin.label:
            yield Text(pin.at, 14, pin.label, NOTE, theme.SLATE, anchor="middle")
    base = bottom - 14
    yield Text(middle, base, name, theme.SIZE_TEXT, weight=theme.STRONG, anchor="middle")


def spread(element: Element, shown: Shown) -> Iterator[Item]:
    """A register as wide as a row; its cells are elements of their own."""
    yield outline(element)
    base = middle_of(element.height / 2, theme.SIZE_NAME)
    yield Text(element.cells[0], base, element.label, theme.SIZE_NAME, weight=theme.STRONG)
    yield from pin_labels(element)
    yield from wedge(element, shown)


def marks(element: Element) -> Iterator[Item]:
    """What stands at the wires around it."""
    for mark in element.marks:
        x, y = mark.x, mark.y
        if mark.kind == "across":
            yield from slash(x, y, int(mark.text))
        elif mark.kind == "down":
            yield Line(((x - 4, y + 3), (x + 4, y - 3)), theme.INK, theme.THIN)
            yield Text(x + 8, middle_of(y, NOTE), mark.text, NOTE, theme.SLATE)
        else:
            yield Text(x, y, mark.text, NOTE, theme.SLATE)


def gathered(element: Element, shown: Shown) -> Iterator[Item]:
    """An output of several words: a bar over its cells, and its name."""
    left, _, right, _ = element.frame
    yield Line(((left, 1.5), (right, 1.5)), theme.INK, 3.0)
    x, y = element.cells
    middle = x + cells_width(len(element.word), element.cell) / 2
    yield Line(((middle, 1.5), (middle, y)), theme.INK, theme.BUS)
    yield from bits(element, shown)
    base = middle_of(y + element.cell.height / 2, theme.SIZE_NAME)
    start = 2 * middle - x + TERMINAL_GAP
    yield Text(start, base, element.label, theme.SIZE_NAME, weight=theme.STRONG)


def product(element: Element, shown: Shown) -> Iterator[Item]:
    """A product of two bits: their names, one over the other, and its bit."""
    middle = element.width / 2
    for i, name in enumerate(element.label.split("\n")):
        yield Text(middle, 11.0 + 13.0 * i, name, NOTE, anchor="middle")
    yield from bits(element, shown)
