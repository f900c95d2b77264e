"""Terminals: where wires begin and end: inputs, outputs, constants, frames of opened parts."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Final

from edgewise.views.diagram.elements import ROW, Element, Pin, Role, framed, small
from edgewise.views.drawing import theme
from edgewise.views.drawing.bit_cells import cells_height, cells_width
from edgewise.views.drawing.text_metrics import width as text_width
from edgewise.views.drawing.theme import TABLE_CELL
from edgewise.views.layout.graph import Side

TERMINAL_GAP: Final = 7.0


def terminal_in(name: str, pin: Pin, *, control: bool, cells: bool = True) -> Element:
    """An input of the circuit: its name, its bits, and the wire that leaves.

    Examples
    --------
    >>> made = terminal_in("shift", Pin("shift.", "shift", (4,)), control=True)
    >>> made.id, made.pins[0].side
    ('shift', 'right')
    """
    x = text_width(name, theme.SIZE_NAME, weight=theme.STRONG) + TERMINAL_GAP
    wide = cells_width(len(pin.nets), TABLE_CELL) if cells else 0.0
    height = max(24.0, cells_height(len(pin.nets), TABLE_CELL))
    middle = TABLE_CELL.height / 2 + 2
    element = Element(
        pin.id.rpartition(".")[0],
        "input",
        label=name,
        pins=(pin.put("right", middle),),
        word=pin.nets if cells else (),
        cells=(x, 2.0),
        cell=TABLE_CELL,
        control=control,
    )
    return framed(element, x + wide, height + 2, (pin.port,))


def terminal_out(
    ident: str, name: str, pins: Sequence[Pin], word: tuple[int, ...], *, control: bool = False
) -> Element:
    """An output of the circuit: its name, and its bits where no register shows them."""
    many = len(pins) > 1
    wide = cells_width(len(word), TABLE_CELL) + TERMINAL_GAP if word else 0.0
    high = max(24.0, cells_height(len(word), TABLE_CELL) + 2 if word else 24.0)
    height = max(high, ROW * len(pins) + 6)
    start = (height - ROW * (len(pins) - 1)) / 2 if many else TABLE_CELL.height / 2 + 2
    top = (height - TABLE_CELL.height) / 2 if many else 2.0
    placed = [
        _gathered(pin.put("left", start + ROW * i), many=many)
        for i, pin in enumerate(reversed(pins))
    ]
    x = 5.0 + (max(small(p.label) for p in placed) + 14 if many else 0.0)
    element = Element(
        ident,
        "output",
        label=name,
        pins=tuple(placed),
        word=word,
        cells=(x, top),
        cell=TABLE_CELL,
        control=control,
    )
    name_width = text_width(name, theme.SIZE_NAME, weight=theme.STRONG)
    return framed(element, x + wide + name_width, height)


def _gathered(pin: Pin, *, many: bool) -> Pin:
    """A pin of an output; which of its bits come there stands over the wire, if there is room."""
    if not many:
        return pin
    return replace(pin, label=pin.which) if pin.note else replace(pin, note=pin.which)


def tie(pin: Pin, host: str, digits: str) -> Element:
    """A constant at a port: its digits at a short stub."""
    wide = text_width(digits, theme.SIZE_DIGIT, "bits") + 8
    facing: dict[Side, Side] = {"left": "right", "right": "left", "top": "bottom", "bottom": "top"}
    side = facing[pin.side]
    own = Pin(f"{host}:tie", "tie", pin.nets)
    at = 9.0 if side in ("left", "right") else wide / 2
    return Element(
        own.id,
        "tie",
        label=digits,
        width=wide,
        height=18.0,
        pins=(own.put(side, at),),
        frame=(0.0, 0.0, wide, 18.0),
        hangs_on=host,
        stem=12.0,
    )


def passage(ident: str, label: str, pins: Sequence[Pin], through: Pin, role: Role) -> Element:
    """Where a wire crosses the frame of an opened part: its port's name over the wire.

    Role ``enter``: `through` leads inwards, on the right. Role ``leave``: `pins` are the
    wires from inside, MSB first where there are many; `through` is on the right.
    """
    many = len(pins) > 1
    texts = [pin.which for pin in pins] if many else []
    wide = small(label) + 10 + (max(map(small, texts)) + 14 if many else 0.0)
    height = max(26.0, ROW * len(pins) + 8)
    middle = height / 2 if many else 18.0
    start = (height - ROW * (len(pins) - 1)) / 2 if many else middle
    placed = [
        pin.put("left", start + ROW * i, pin.which if many else "") for i, pin in enumerate(pins)
    ]
    placed.append(through.put("right", middle))
    element = Element(ident, role, label=label, pins=tuple(placed))
    return framed(element, wide, height)


def bit(ident: str, name: str, side: Side, nets: tuple[int, ...]) -> Element:
    """A bit of a word with its name; its pin is on `side`.

    Examples
    --------
    >>> bit("sum(2)", "sum(2)", "top", (9,)).pins[0].side
    'top'
    """
    upright = side in ("top", "bottom")
    size = theme.SIZE_SMALL if upright else theme.SIZE_NAME
    weight = theme.REGULAR if upright else theme.STRONG
    wide = text_width(name, size, weight=weight)
    cell = TABLE_CELL
    if upright:
        width, height = max(wide, cell.width), cell.height + 17.0
        x, y = (width - cell.width) / 2, 0.0 if side == "top" else 17.0
        at = width / 2
    else:
        width, height = wide + TERMINAL_GAP + cell.width, cell.height
        x, y = 0.0 if side == "left" else width - cell.width, 0.0
        at = height / 2
    pin = Pin(f"{ident}.", name, nets).put(side, at)
    return Element(
        ident,
        "bit",
        label=name,
        width=width,
        height=height,
        pins=(pin,),
        frame=(0.0, 0.0, width, height),
        word=nets,
        cells=(x, y),
        cell=cell,
        stem=16.0,
    )


def value(ident: str, name: str, net: int, place: str) -> Element:
    """The cell of one bit with its name, `right` of it or `below`.

    Examples
    --------
    >>> value("c", "c(4)", 9, "below").width == TABLE_CELL.width
    True
    """
    wide, high, gap = small(name), TABLE_CELL.height, 3.0
    width = TABLE_CELL.width + gap + wide if place == "right" else TABLE_CELL.width
    return Element(
        ident,
        "value",
        label=name,
        width=width,
        height=high,
        frame=(0.0, 0.0, width, high),
        word=(net,),
        cell=TABLE_CELL,
        mark=place,
    )


def word(ident: str, name: str, side: Side, nets: tuple[int, ...]) -> Element:
    """A word with its name over or under it; its pin is on `side`, top or bottom.

    Examples
    --------
    >>> word("a", "a", "bottom", (4, 5, 6)).width
    45
    """
    cell = TABLE_CELL
    wide = max(small(name), cells_width(len(nets), cell))
    high = cells_height(len(nets), cell) if len(nets) > theme.FOLD else cell.height
    below = side == "top"
    pin = Pin(f"{ident}.", name, nets).put(side, wide / 2)
    return Element(
        ident,
        "bit",
        label=name,
        width=wide,
        height=high + 17.0 + (4.0 if below else 0.0),
        pins=(pin,),
        frame=(0.0, 0.0, wide, high + 17.0),
        word=nets,
        cells=((wide - cells_width(len(nets), cell)) / 2, 0.0 if below else 17.0),
        cell=cell,
    )


def gathered(shown: Element, width: float, ats: dict[str, float]) -> Element:
    """An output of several words as a bar that they come down to, its cells under that."""
    name = text_width(shown.label, theme.SIZE_NAME, weight=theme.STRONG)
    cells = cells_width(len(shown.word), TABLE_CELL)
    x = (width - cells) / 2
    pins = tuple(replace(pin, note="", label="").put("top", ats[pin.id]) for pin in shown.pins)
    high = 14.0 + cells_height(len(shown.word), TABLE_CELL)
    return replace(
        shown,
        role="gathered",
        width=max(width, x + cells + TERMINAL_GAP + name),
        height=high,
        pins=pins,
        frame=(0.0, 0.0, width, high),
        cells=(x, 14.0),
        seed=None,
        hangs_on=None,
    )
