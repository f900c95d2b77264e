"""Part faces: what is drawn of gates, adders, stores and terminals, and what all faces share."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from itertools import groupby
from typing import Final

from edgewise.bits import Word
from edgewise.views.diagram import wire_strokes
from edgewise.views.diagram.elements import LABEL, Element, Pin, small
from edgewise.views.diagram.wire_strokes import Stroke
from edgewise.views.drawing import theme
from edgewise.views.drawing.bit_cells import cells
from edgewise.views.drawing.gate_symbols import Style
from edgewise.views.drawing.shapes import Group, Item, Letters, Line, Rectangle, Text
from edgewise.views.drawing.text_metrics import width as text_width
from edgewise.views.drawing.theme import Family
from edgewise.words.messages import ENGLISH, Words

NOTE: Final = theme.SIZE_SMALL
_WEDGE: Final = 6.0
_NECK: Final = 5.0
"""How far a common control block is set in where it meets the bits, and how high."""
_ARROW: Final = 24.0
"""Length of the arrow along which a register shifts."""


@dataclass(frozen=True, slots=True)
class Shown:
    """What a face has to know besides its element."""

    stroke: Callable[[Pin], Stroke]
    """How the wire at a pin is drawn."""
    word: Callable[[tuple[int, ...]], Word]
    changed: Callable[[tuple[int, ...]], Word]
    style: Style
    slashed: frozenset[str]
    """Pins at which the width of a bus stands."""
    emphasis: bool = False
    """Draw cells lighter that did not change."""
    words: Words = ENGLISH


def middle_of(y: float, size: float) -> float:
    """The base line of capitals and digits whose middle is at y."""
    return y + theme.MIDDLE * size


def stubs(element: Element, shown: Shown) -> Iterator[Item]:
    """The ends of wires inside the box, to the outline, with what stands over them."""
    for pin in element.pins:
        if not pin.stub:
            continue
        x1, y1, x2, y2 = _stub(element, pin)
        stroke = shown.stroke(pin)
        yield Line(((x1, y1), (x2, y2)), stroke.colour, stroke.weight, stroke.dash)
        if pin.note:
            yield Text(
                (x1 + x2) / 2, y1 - 5, pin.note, NOTE, theme.SLATE, family="text", anchor="middle"
            )
        elif pin.id in shown.slashed and pin.side in ("left", "right"):
            yield from slash((x1 + x2) / 2, y1, len(pin.nets))


def slash(x: float, y: float, width: int) -> Iterator[Item]:
    """The mark of a bus, and how many bits it has."""
    yield Line(((x - 4, y + 5), (x + 3, y - 5)), theme.INK, theme.THIN)
    yield Text(x + 1, y - 8.5, str(width), NOTE, theme.SLATE, anchor="middle")


def _stub(element: Element, pin: Pin) -> tuple[float, float, float, float]:
    """From the border of the box, and a little beyond, to the outline."""
    w, h, over = element.width, element.height, wire_strokes.OVERLAP
    match pin.side:
        case "left":
            return -over, pin.at, pin.stub, pin.at
        case "right":
            return w - pin.stub, pin.at, w + over, pin.at
        case "top":
            return pin.at, -over, pin.at, pin.stub
        case "bottom":
            return pin.at, h - pin.stub, pin.at, h + over


def outline(element: Element, fill: str = theme.PAPER) -> Rectangle:
    """The frame of a part."""
    left, top, right, bottom = element.frame
    return Rectangle(
        left, top, right - left, bottom - top, fill, theme.INK, theme.OUTLINE, radius=theme.RADIUS
    )


def controlled(element: Element) -> Iterator[Item]:
    """A word with its common control block: IEC 60617-12, from memory, here below its cells.

    What the block takes in acts on every bit; its neck stands at the bits.
    """
    left, top, right, bottom = element.frame
    low, neck = element.block, element.block - _NECK
    size = right - left, neck - top
    yield Rectangle(left, top, *size, theme.PAPER, theme.INK, theme.OUTLINE, radius=theme.RADIUS)
    inner = left + _NECK, right - _NECK
    corners = ((inner[0], neck), (inner[0], low), (left, low), (left, bottom))
    mirrored = ((right, bottom), (right, low), (inner[1], low), (inner[1], neck))
    yield Line(corners + mirrored, theme.INK, theme.OUTLINE, fill=theme.PAPER)


def _name(element: Element, x: float, base: float, size: float = theme.SIZE_NAME) -> Text:
    return Text(x, base, element.label, size, weight=theme.STRONG)


def pin_labels(element: Element) -> Iterator[Text]:
    """The names of ports at the left and right side."""
    left, _, right, _ = element.frame
    for pin in element.pins:
        if not pin.label:
            continue
        base = middle_of(pin.at, NOTE)
        if pin.side == "left":
            yield Text(left + LABEL, base, pin.label, NOTE, theme.SLATE)
        elif pin.side == "right":
            yield Text(right - LABEL, base, pin.label, NOTE, theme.SLATE, anchor="end")


def bits(element: Element, shown: Shown) -> Iterator[Item]:
    """The cells of its word."""
    if not element.word:
        return
    word, changed = shown.word(element.word), shown.changed(element.word)
    if not shown.emphasis or word.width > theme.FOLD:
        group = cells(word, *element.cells, changed, element.cell, element.label, shown.words)
        yield group if changed.ones or not shown.emphasis else lighter(group)
        return
    runs = [list(run) for _, run in groupby(range(word.width), changed.bit)]
    x, y = element.cells
    # The changed ones last, so that the line between two cells is that of the darker one.
    for run in sorted(runs, key=lambda run: changed.bit(run[0])):
        part = Word.from_bits(word.bit(i) for i in run)
        left = x + element.cell.width * (word.width - 1 - run[-1])
        marks = Word.from_bits(changed.bit(i) for i in run)
        group = cells(part, left, y, marks, element.cell, element.label, shown.words)
        yield group if marks.ones else lighter(group)


def lighter(item: Item) -> Item:
    """The same in slate instead of ink."""
    if isinstance(item, Group):
        return replace(item, items=tuple(map(lighter, item.items)))
    if isinstance(item, Letters):
        fills = tuple(theme.SLATE if fill == theme.INK else fill for fill in item.fills)
        return replace(item, fills=fills)
    fill = theme.SLATE if item.fill == theme.INK else item.fill
    if isinstance(item, Text):
        return replace(item, fill=fill)
    stroke = theme.SLATE if item.stroke == theme.INK else item.stroke
    return replace(item, fill=fill, stroke=stroke)


def gate(element: Element, _shown: Shown) -> Iterator[Item]:
    """A gate's symbol, and the names of inputs that are not alike."""
    symbol = element.symbol
    assert symbol is not None
    yield Group(symbol.items, kind="symbol", x=element.frame[0])
    for pin in element.pins:
        if pin.label:
            base = middle_of(pin.at, NOTE)
            yield Text(pin.stub + 5, base, pin.label, NOTE, theme.SLATE)


def adder(element: Element, shown: Shown) -> Iterator[Item]:
    """An adder with its ports."""
    left, _, right, _ = element.frame
    yield outline(element)
    middle = (left + right) / 2
    yield Text(middle, 22, element.label, theme.SIZE_NAME, weight=theme.STRONG, anchor="middle")
    if shown.style == "rectangular":
        base = (element.frame[1] + element.frame[3]) / 2 + 14
        yield Text(middle, base, element.mark, theme.SIZE_NAME, anchor="middle")
    yield from pin_labels(element)


def multiplexer(element: Element, shown: Shown) -> Iterator[Item]:
    """A trapezoid, narrow at its output."""
    left, top, right, bottom = element.frame
    mirrored = any(pin.port == "out" and pin.side == "left" for pin in element.pins)
    if shown.style == "rectangular":
        yield outline(element)
        middle = (left + right) / 2
        yield Text(middle, 13, element.mark, NOTE, anchor="middle")
    else:
        wide, slim = (right, left) if mirrored else (left, right)
        corners = ((wide, top), (slim, top + 12), (slim, bottom - 12), (wide, bottom))
        yield Line(corners, theme.INK, theme.OUTLINE, fill=theme.PAPER, closed=True)
    yield from pin_labels(element)
    base = middle_of((top + bottom) / 2, theme.SIZE_TEXT)
    name = Text(right - 8, base, element.label, theme.SIZE_TEXT, weight=theme.STRONG, anchor="end")
    yield replace(name, x=left + 8, anchor="start") if mirrored else name


def storage(element: Element, shown: Shown) -> Iterator[Item]:
    """What stores: its name, its cells, its ports and its clock."""
    right = element.frame[2]
    if shown.style == "rectangular" and element.block:
        yield from controlled(element)
    else:
        yield outline(element)
    yield _name(element, element.frame[0] + 12, 20)
    if shown.style == "rectangular" and element.mark:
        yield Text(right - 12, 20, element.mark, theme.SIZE_TEXT, theme.SLATE, anchor="end")
    yield from bits(element, shown)
    yield from pin_labels(element)
    yield from wedge(element, shown)
    if element.arrow:
        yield from shift_arrow(element)


def shift_arrow(element: Element) -> Iterator[Item]:
    """Where the bits move, beside the name."""
    name = text_width(element.label, theme.SIZE_NAME, weight=theme.STRONG)
    start = element.frame[0] + 12 + name + theme.GAP
    ends = (start, start + _ARROW)
    tail, tip = ends if element.arrow == "right" else ends[::-1]
    back = -5.0 if element.arrow == "right" else 5.0
    y = 15.0
    yield Line(((tail, y), (tip, y)), theme.INK, theme.THIN)
    yield Line(((tip + back, y - 4), (tip, y), (tip + back, y + 4)), theme.INK, theme.THIN)


def wedge(element: Element, shown: Shown) -> Iterator[Item]:
    """The mark of its clock input, if it is shown."""
    left = element.frame[0]
    if element.wedge:
        y = element.wedge
        points = ((left, y - _WEDGE), (left + 9, y), (left, y + _WEDGE))
        yield Line(points, theme.SLATE, theme.THIN)
        if shown.style == "rectangular":
            base = middle_of(y, NOTE)
            yield Text(left + 14, base, element.clock_mark, NOTE, theme.SLATE)


def plain(element: Element, _shown: Shown) -> Iterator[Item]:
    """A frame with a name."""
    left, _, right, _ = element.frame
    yield outline(element)
    middle = (left + right) / 2
    yield Text(middle, 22, element.label, theme.SIZE_NAME, weight=theme.STRONG, anchor="middle")
    yield from pin_labels(element)


def input_(element: Element, shown: Shown) -> Iterator[Item]:
    """An input: its name, then its cells."""
    base = middle_of(2 + element.cell.height / 2, theme.SIZE_NAME)
    fill = theme.SLATE if element.control else theme.INK
    yield Text(0, base, element.label, theme.SIZE_NAME, fill, weight=theme.STRONG)
    yield from bits(element, shown)


def output(element: Element, shown: Shown) -> Iterator[Item]:
    """An output: its cells, unless they stand elsewhere, then its name."""
    left = element.frame[0]
    if len(element.pins) > 1:
        ats = [pin.at for pin in element.pins]
        x = left + 1.5
        yield Line(((x, min(ats) - 8), (x, max(ats) + 8)), theme.INK, 3.0)
        yield from pin_labels(element)
        if not any(pin.label for pin in element.pins):  # the bar and its word are one bus
            y = element.cells[1] + element.cell.height / 2 if element.word else sum(ats) / len(ats)
            yield Line(((x, y), (element.cells[0], y)), theme.INK, theme.BUS)
    yield from bits(element, shown)
    x = element.cells[0]
    if element.word:
        right = element.frame[2]
        yield Text(
            right,
            middle_of(element.cells[1] + element.cell.height / 2, theme.SIZE_NAME),
            element.label,
            theme.SIZE_NAME,
            weight=theme.STRONG,
            anchor="end",
        )
    else:
        y = (
            element.pins[0].at
            if len(element.pins) == 1
            else (element.frame[1] + element.frame[3]) / 2
        )
        yield Text(
            x, middle_of(y, theme.SIZE_NAME), element.label, theme.SIZE_NAME, weight=theme.STRONG
        )


def tie(element: Element, _shown: Shown) -> Iterator[Item]:
    """A constant."""
    digits = element.label.strip("01X") == ""
    family: Family = "bits" if digits else "text"
    fill = theme.INK if digits else theme.SLATE
    size = theme.SIZE_DIGIT if digits else NOTE
    base = middle_of(element.height / 2, size)
    middle = element.width / 2
    yield Text(middle, base, element.label, size, fill, family, anchor="middle")


def passage(element: Element, shown: Shown) -> Iterator[Item]:
    """Where a wire crosses the frame of an opened part."""
    many = [pin for pin in element.pins if pin.side == "left"]
    through = next(pin for pin in element.pins if pin.side == "right")
    stroke = shown.stroke(through)
    left, _, right, _ = element.frame
    over, y = wire_strokes.OVERLAP, through.at
    start = left - over
    if len(many) > 1:
        ats = [pin.at for pin in many]
        bar = left + 1.5
        yield Line(((bar, min(ats) - 8), (bar, max(ats) + 8)), theme.INK, 3.0)
        yield from pin_labels(element)
        start = left + max(small(pin.label) for pin in many) + 14
    ends = ((start, y), (element.width + over, y))
    yield Line(ends, stroke.colour, stroke.weight, stroke.dash)
    middle = (max(start, left) + right) / 2
    yield Text(middle, y - 5, element.label, NOTE, theme.SLATE, anchor="middle")


def opened(element: Element, _shown: Shown) -> Iterator[Item]:
    """The name of an opened part."""
    yield Text(12, 20, element.label, theme.SIZE_NAME, weight=theme.STRONG)
