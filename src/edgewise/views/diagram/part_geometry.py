"""Places: how large each kind of part is drawn, and where its pins are."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import Final

from edgewise.circuit.model import Kind
from edgewise.circuit.parts import has_clock, symbol
from edgewise.views.diagram.elements import (
    LABEL,
    PAD,
    PORT_LABELS,
    ROW,
    Element,
    Pin,
    framed,
    margins,
    small,
)
from edgewise.views.drawing import gate_symbols, theme
from edgewise.views.drawing.bit_cells import cells_height, cells_width
from edgewise.views.drawing.text_metrics import width as text_width
from edgewise.views.drawing.theme import DIAGRAM_CELL, TABLE_CELL, CellSize
from edgewise.views.layout.graph import Side

_OF_BITS: Final = ("out", "q", "left-out")
"""Output ports of the stored bits themselves."""
BLOCK: Final = 9.0
"""From the top of a common control block to its first pin, and how much lower that is for it."""
NAME_ROOM: Final = 30.0
"""From the top of a frame to its cells; its name stands there."""


@dataclass(frozen=True, slots=True)
class Terminals:
    """The pins of a part before they have places, and what else its picture depends on."""

    id: str
    label: str
    what: Kind
    inputs: dict[str, tuple[Pin, ...]]
    """By port, LSB first."""
    outputs: dict[str, Pin]
    word: tuple[int, ...] = ()
    wedge: bool = False
    style: gate_symbols.Style = "distinctive"
    narrow: bool = False

    @property
    def cell(self) -> CellSize:
        """The size of its cells."""
        return TABLE_CELL if self.narrow else DIAGRAM_CELL

    def all_inputs(self) -> list[Pin]:
        """In order of the ports; the MSB of a port first."""
        return [pin for pins in self.inputs.values() for pin in reversed(pins)]


def place(parts: Terminals) -> Element:
    """The picture of a part: its size and the places of its pins."""
    return _PLACES.get(parts.what.role, _plain)(parts)


def _gate(t: Terminals) -> Element:
    inputs = [pin for pins in t.inputs.values() for pin in pins]
    alike = t.what.function is None or t.what.function.symmetric or len(inputs) == 1
    # Which bits an input takes stands over its wire, so that needs more room.
    pitch = ROW + 1 if any(pin.note for pin in inputs) else gate_symbols.PITCH
    drawn = gate_symbols.gate(t.what.name, len(inputs), t.style, pitch)
    pins = [
        pin.put("left", at, "" if alike else pin.port, stub=reach)
        for pin, (at, reach) in zip(inputs, drawn.inputs, strict=True)
    ]
    if "out" in t.outputs:
        at, reach = drawn.output
        pins.append(t.outputs["out"].put("right", at, stub=reach))
    left = margins(pins)[0]
    pins = [replace(p, stub=p.stub + left) if p.side == "left" else p for p in pins]
    return Element(
        t.id,
        "gate",
        t.what.name,
        t.label,
        drawn.width + left,
        drawn.height,
        tuple(pins),
        frame=(left, 0.0, left + drawn.width, drawn.height),
        symbol=drawn,
    )


def _adder(t: Terminals) -> Element:
    top, pitch = 40.0, 26.0
    pins = [
        pin.put("left", top + pitch * i, PORT_LABELS.get(pin.port, pin.port))
        for i, pin in enumerate(t.all_inputs())
    ]
    last = len(pins) - 1
    for port, at in (("sum", top), ("carry-out", top + pitch * last)):
        if port in t.outputs:
            pins.append(t.outputs[port].put("right", at, PORT_LABELS[port]))
    least = 72.0 if t.narrow else 96.0
    width = max(least, text_width(t.label, theme.SIZE_NAME, weight=theme.STRONG) + 2 * PAD)
    element = Element(t.id, "adder", t.what.name, t.label, pins=tuple(pins), mark=symbol(t.what))
    return framed(element, width, top + pitch * last + 20)


def _multiplexer(t: Terminals) -> Element:
    pitch = 24.0
    data = [pin for port, pins in t.inputs.items() if port != "select" for pin in reversed(pins)]
    slant = 12.0
    top = slant + 10
    pins = [
        pin.put("left", top + pitch * i, pin.port[1:] + pin.which) for i, pin in enumerate(data)
    ]
    height = 2 * top + pitch * (len(data) - 1)
    label = text_width(t.label, theme.SIZE_TEXT, weight=theme.STRONG)
    width = max(44.0, 16 + label + 14)
    if "out" in t.outputs:
        pins.append(t.outputs["out"].put("right", height / 2))
    selects = t.inputs.get("select", ())
    for i, pin in enumerate(reversed(selects)):
        at = width / 2 + (i - (len(selects) - 1) / 2) * 14
        stub = slant * at / width if t.style == "distinctive" else 0.0
        pins.append(pin.put("bottom", at, stub=stub))
    element = Element(
        t.id, "multiplexer", t.what.name, t.label, pins=tuple(pins), mark=symbol(t.what)
    )
    return framed(element, width, height, ("out",))


@dataclass(slots=True)
class _Sides:
    """The pins of a storage element, put one below the other under its cells."""

    low: dict[Side, float]
    """Where the next pin of each side goes."""
    pins: list[Pin]

    def beside(self, pin: Pin, side: Side, label: str) -> None:
        self.pins.append(pin.put(side, self.low[side], label))
        self.low[side] += ROW


def _storage(t: Terminals) -> Element:
    """Name, cells, then the pins that have labels; the wedge is the last of them."""
    body = NAME_ROOM + cells_height(len(t.word), t.cell)
    sides = _Sides({"left": body + 9, "right": body + 9}, [])
    first = _storage_pins(t, sides)
    wedge = 0.0
    if t.wedge or "clock" in t.inputs:
        wedge = sides.low["left"]
        sides.pins += [pin.put("left", wedge) for pin in t.inputs.get("clock", ())]
        sides.low["left"] += ROW
    marked = [replace(pin, label=_qualified(t, pin)) for pin in sides.pins]
    width = max(_storage_width(t, sides.pins), _storage_width(t, marked))
    height = max(body + 9, max(sides.low.values()) - ROW + 13)
    element = Element(
        t.id,
        "storage",
        t.what.name,
        t.label,
        pins=tuple(marked if t.style == "rectangular" else sides.pins),
        word=t.word,
        cells=(_cells_left(t, width, marked), NAME_ROOM),
        cell=t.cell,
        wedge=wedge,
        block=first - BLOCK if not _is_cell(t) and sides.low["left"] > first else 0.0,
        mark=symbol(t.what),
        clock_mark=_clock_mark(t),
    )
    return framed(element, width, height, ("q",))


def _cells_left(t: Terminals, width: float, marked: list[Pin]) -> float:
    """In the middle; further right where a long qualifier stands left of the cell."""
    middle = (width - cells_width(len(t.word), t.cell)) / 2
    if t.style != "rectangular" or not _is_cell(t):
        return middle
    level = [p.label for p in marked if p.side == "left" and p.at < NAME_ROOM + t.cell.height]
    return max([middle, *(LABEL + small(label) + 4 for label in level)])


def _storage_pins(t: Terminals, sides: _Sides) -> float:
    """What belongs to the bits, then what acts on all of them.

    Where the first of these pins is, or would be.
    """
    words = [port.name for port in t.what.ins if port.role == "data"]
    _bit_pins(t, sides, words)
    if not _is_cell(t):  # the block begins below all that belongs to the bits
        sides.low = dict.fromkeys(sides.low, max(sides.low.values()) + BLOCK)
    first = sides.low["left"]
    for port, pin in t.outputs.items():
        if port not in _OF_BITS:
            sides.beside(pin, "right", _said(pin))
    for port, group in t.inputs.items():
        for pin in reversed(group) if port not in (*words, "clock") else ():
            sides.beside(pin, "left", _said(pin))
    return first


def _bit_pins(t: Terminals, sides: _Sides, words: list[str]) -> None:
    """Serial data at the height of the cells, words below them."""
    cell, middle = _is_cell(t), NAME_ROOM + t.cell.height / 2
    backwards = t.what.setting("direction") == "left"
    level: dict[str, Side] = {"in": "right" if backwards else "left"}
    if cell and len(words) == 1:
        level[words[0]] = "left"
    for pin in [pin for port in words for pin in reversed(t.inputs.get(port, ()))]:
        label = pin.port if cell else _said(pin)
        if pin.port in level:
            sides.pins.append(pin.put(level[pin.port], middle, label if cell else ""))
        else:
            sides.beside(pin, "right" if pin.port == "left-in" else "left", label)
    free = "out" not in t.outputs and not backwards
    for port, pin in t.outputs.items():
        if port == "out":
            sides.pins.append(pin.put("left" if backwards else "right", middle))
        elif port == "q" and free:
            sides.pins.append(pin.put("right", middle, "q" if cell else ""))
        elif port in _OF_BITS:
            sides.beside(pin, "left" if port == "left-out" else "right", _said(pin))


def _storage_width(t: Terminals, pins: list[Pin]) -> float:
    """Room for the cells, for the labels of both sides, and for the name.

    Both styles have the room that the rectangular one needs: a figure keeps its places.
    """
    labels = [
        max((small(pin.label) for pin in pins if pin.side == side), default=0.0)
        for side in ("left", "right")
    ]
    around = 2 * (LABEL + small("1D") + 7) if _is_cell(t) else 2 * (9.0 if t.narrow else PAD)
    mark = text_width(symbol(t.what)) + PAD if symbol(t.what) else 0.0
    name = text_width(t.label, theme.SIZE_NAME, weight=theme.STRONG)
    return max(
        cells_width(len(t.word), t.cell) + around,
        sum(labels) + 2 * LABEL + 16,
        name + mark + 2 * PAD,
    )


def _is_cell(t: Terminals) -> bool:
    """Whether it is a single bit for ever, not a word of some width."""
    return t.what.setting("width") is None


def _qualified(t: Terminals, pin: Pin) -> str:
    """The label of a pin in the rectangular style: dependencies of IEC 60617-12, from memory.

    The clock is ``C1``; what it takes in has a 1: ``1D``, ``1R``. An enable is ``EN2``, a load
    ``M3``; what acts only with them has their number, too; ``S`` and ``R`` depend on nothing.
    """
    roles = {port.name: port.role for port in t.what.ins}
    known = {role for port, role in roles.items() if port in t.inputs}
    match roles.get(pin.port):
        case "clear":
            return "1R"
        case "reset" | "preset":
            return _negated("R" if roles[pin.port] == "reset" else "S", pin)
        case "level":
            return "C1"
        case "enable":
            return "EN2"
        case "load":
            return "M3"
        case "data" if pin.label:
            with_ = ",3" if "load" in known else ",2" if "enable" in known else ""
            depends = f"1{with_}" if has_clock(t.what) or "level" in known else ""
            name = pin.port.removesuffix("-bar").upper()
            return _negated(f"{depends}{name}", pin) + pin.which
    return pin.label


def _negated(label: str, pin: Pin) -> str:
    """A label of a pin at which a 0 acts."""
    return f"{label} bar" if pin.port.endswith("-bar") else label


def _clock_mark(t: Terminals) -> str:
    """What the clock does; a register that can be enabled shifts or counts only then."""
    said = symbol(t.what, clock=True)
    enabled = any(port.role == "enable" for port in t.what.ins if port.name in t.inputs)
    return said.replace("/", "/2") if enabled else said


def _said(pin: Pin) -> str:
    return pin.port.replace("-", " ") + pin.which


def _plain(t: Terminals) -> Element:
    """A frame with the name and the names of its ports."""
    top = 42.0
    ins, outs = t.all_inputs(), list(t.outputs.values())
    pins = [p.put("left", top + ROW * 1.2 * i, p.port + p.which) for i, p in enumerate(ins)]
    pins += [p.put("right", top + ROW * 1.2 * i, p.port) for i, p in enumerate(outs)]
    labels = sum(
        max((small(p.label) for p in pins if p.side == side), default=0.0)
        for side in ("left", "right")
    )
    name = text_width(t.label, theme.SIZE_NAME, weight=theme.STRONG)
    width = max(88.0, labels + 2 * LABEL + 24, name + 2 * PAD)
    height = top + ROW * 1.2 * (max(len(ins), len(outs), 1) - 1) + 16
    element = Element(t.id, "plain", t.what.name, t.label, pins=tuple(pins))
    return framed(element, width, height, tuple(t.outputs))


_PLACES: Final[dict[str, Callable[[Terminals], Element]]] = {
    "gate": _gate,
    "storage": _storage,
    "arithmetic": _adder,
    "selector": _multiplexer,
}
"""By the role of the part."""
