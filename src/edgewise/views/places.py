"""Places: how large each kind of part is drawn, and where its pins are.

Everything is px from the top left corner of the part's box. A box has margins where texts
stand over the wires (`Pin.stub`), so that the layout keeps other things away from them.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from typing import Final, Literal, TypeAlias

from edgewise.views import look, symbols
from edgewise.views.boxes import Side
from edgewise.views.cells import cells_height, cells_width
from edgewise.views.lettering import width as text_width
from edgewise.views.look import DIAGRAM_CELL, TABLE_CELL, CellSize

Role: TypeAlias = Literal[
    "gate",
    "storage",
    "adder",
    "multiplexer",
    "plain",
    "input",
    "output",
    "enter",
    "leave",
    "tie",
    "open",
    "slice",
    "bit",
    "ellipsis",
]

PAD: Final = 14.0
"""Inside a frame, beside its cells."""
ROW: Final = 17.0
"""From pin to pin where each has its label."""
NAME_ROOM: Final = 30.0
"""From the top of a frame to its cells; its name stands there."""
LABEL: Final = 7.0
"""From a frame to the label of a pin."""
SLASH: Final = 22.0
"""Margin in which a bus has its slash and width."""
OPEN_TITLE: Final = 14.0
"""Room for the name of an opened part, besides its padding."""


@dataclass(frozen=True, slots=True)
class Pin:
    """One end of a wire at a part, with the bits that pass there.

    Examples
    --------
    >>> Pin("A.out", "out", (7,)).bus
    False
    """

    id: str
    port: str
    nets: tuple[int, ...]
    """Net numbers, LSB first."""
    which: str = ""
    """Which bits of the port, if not all: ``(3)``."""
    note: str = ""
    """Which bits of its source, if not all; stands over the end of the wire."""
    side: Side = "left"
    at: float = 0.0
    stub: float = 0.0
    """Px of wire inside the box, from its border to the outline of the symbol."""
    label: str = ""
    """Inside the outline, beside the pin."""

    @property
    def bus(self) -> bool:
        """Whether it has more than one bit."""
        return len(self.nets) > 1

    def put(self, side: Side, at: float, label: str = "", stub: float = 0.0) -> Pin:
        """The same pin in its place."""
        return replace(self, side=side, at=at, label=label, stub=stub)


@dataclass(frozen=True, slots=True)
class Element:
    """One thing of the picture with its size, its pins, and the word in its cells."""

    id: str
    role: Role
    kind: str = ""
    """The trade's name of the part: ``full-adder``."""
    label: str = ""
    width: float = 0.0
    height: float = 0.0
    pins: tuple[Pin, ...] = ()
    frame: tuple[float, float, float, float] = (0.0, 0.0, 0.0, 0.0)
    """Left, top, right, bottom of its outline."""
    word: tuple[int, ...] = ()
    """Net numbers of the bits in its cells, LSB first; empty: no cells."""
    cells: tuple[float, float] = (0.0, 0.0)
    """Top left corner of its cells."""
    wedge: float = 0.0
    """Where on the left side the clock wedge is; 0: none."""
    control: bool = False
    seed: tuple[int, int] | None = None
    hangs_on: str | None = None
    stem: float = 20.0
    inside: tuple[Element, ...] = ()
    cell: CellSize = DIAGRAM_CELL
    symbol: symbols.Symbol | None = None
    mark: str = ""
    """Qualifying symbol in the rectangular style."""


def small(text: str) -> float:
    """Width of a small label."""
    return text_width(text, look.SIZE_SMALL)


def margins(pins: Sequence[Pin]) -> tuple[float, float]:
    """What the box is wider than the frame, left and right, for notes and slashes."""
    left = max((small(p.note) + 8 for p in pins if p.side == "left" and p.note), default=0.0)
    right = max((small(p.note) + 8 for p in pins if p.side == "right" and p.note), default=0.0)
    return left, right


def framed(element: Element, width: float, height: float, slashed: Sequence[str] = ()) -> Element:
    """The element with its frame and the margins that its pins need.

    `slashed` are the ports that drive a bus: its slash stands over the stub.
    """
    left, right = margins(element.pins)
    for pin in element.pins:
        if pin.bus and pin.port in slashed:
            left = max(left, SLASH) if pin.side == "left" else left
            right = max(right, SLASH) if pin.side == "right" else right
    stubs = {"left": left, "right": right}
    pins = tuple(
        replace(pin, stub=pin.stub + stubs[pin.side])
        if pin.side in stubs
        else replace(pin, at=pin.at + left)
        for pin in element.pins
    )
    x, y = element.cells
    return replace(
        element,
        width=left + width + right,
        height=height,
        pins=pins,
        frame=(left, 0.0, left + width, height),
        cells=(x + left, y),
    )


@dataclass(frozen=True, slots=True)
class Terminals:
    """The pins of a part before they have places, and what else its picture depends on."""

    id: str
    label: str
    kind: str
    inputs: dict[str, tuple[Pin, ...]]
    """By port, LSB first."""
    outputs: dict[str, Pin]
    settings: dict[str, int | str]
    word: tuple[int, ...] = ()
    wedge: bool = False
    style: symbols.Style = "distinctive"

    def all_inputs(self) -> list[Pin]:
        """In order of the ports; the MSB of a port first."""
        return [pin for pins in self.inputs.values() for pin in reversed(pins)]


def place(parts: Terminals) -> Element:
    """The picture of a part: its size and the places of its pins."""
    return _PLACES.get(parts.kind, _plain)(parts)


def _gate(t: Terminals) -> Element:
    inputs = t.inputs["in"]
    symbol = symbols.gate(t.kind, len(inputs), t.style)
    pins = [
        pin.put("left", at, stub=reach)
        for pin, (at, reach) in zip(inputs, symbol.inputs, strict=True)
    ]
    if "out" in t.outputs:
        at, reach = symbol.output
        pins.append(t.outputs["out"].put("right", at, stub=reach))
    left = margins(pins)[0]
    pins = [replace(p, stub=p.stub + left) if p.side == "left" else p for p in pins]
    return Element(
        t.id,
        "gate",
        t.kind,
        t.label,
        symbol.width + left,
        symbol.height,
        tuple(pins),
        frame=(left, 0.0, left + symbol.width, symbol.height),
        symbol=symbol,
    )


_ADDER_LABELS: Final = {"carry-in": "cin", "sum": "s", "carry-out": "cout"}


def _adder(t: Terminals) -> Element:
    top, pitch = 40.0, 26.0
    pins = [
        pin.put("left", top + pitch * i, _ADDER_LABELS.get(pin.port, pin.port))
        for i, pin in enumerate(t.all_inputs())
    ]
    last = len(pins) - 1
    for port, at in (("sum", top), ("carry-out", top + pitch * last)):
        if port in t.outputs:
            pins.append(t.outputs[port].put("right", at, _ADDER_LABELS[port]))
    width = max(96.0, text_width(t.label, look.SIZE_NAME, weight=look.STRONG) + 2 * PAD)
    element = Element(t.id, "adder", t.kind, t.label, pins=tuple(pins), mark="Σ")
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
    label = text_width(t.label, look.SIZE_TEXT, weight=look.STRONG)
    width = max(44.0, 16 + label + 14)
    if "out" in t.outputs:
        pins.append(t.outputs["out"].put("right", height / 2))
    selects = t.inputs.get("select", ())
    for i, pin in enumerate(reversed(selects)):
        at = width / 2 + (i - (len(selects) - 1) / 2) * 14
        stub = slant * at / width if t.style == "distinctive" else 0.0
        pins.append(pin.put("bottom", at, stub=stub))
    element = Element(t.id, "multiplexer", t.kind, t.label, pins=tuple(pins), mark="MUX")
    return framed(element, width, height, ("out",))


def _storage(t: Terminals) -> Element:
    """Name, cells, then the pins that have labels; the wedge is the last of them."""
    cell = t.kind == "flip-flop"
    middle = NAME_ROOM + DIAGRAM_CELL.height / 2
    body = NAME_ROOM + cells_height(len(t.word))
    backwards = t.settings.get("direction") == "left"
    rows: dict[Side, float] = {"left": body + 9, "right": body + 9}
    pins: list[Pin] = []

    def beside(pin: Pin, side: Side, label: str) -> None:
        pins.append(pin.put(side, rows[side], label))
        rows[side] += ROW

    into: Side = "right" if backwards else "left"
    out: Side = "left" if backwards else "right"
    level = {"d": "left", "in": into} if cell else {"in": into}
    for port, group in t.inputs.items():
        for pin in reversed(group):
            if port in level:
                pins.append(pin.put(level[port], middle, "d" if port == "d" else ""))
            elif port != "clock":
                beside(pin, "right" if port == "left-in" else "left", _said(pin))
    free = "out" not in t.outputs or backwards
    for port, pin in t.outputs.items():
        if port == "out":
            pins.append(pin.put(out, middle))
        elif port == "q" and free:
            pins.append(pin.put("right", middle, "q" if cell else ""))
        else:
            beside(pin, "left" if port == "left-out" else "right", _said(pin))
    wedge = 0.0
    if t.wedge or "clock" in t.inputs:
        wedge = rows["left"]
        pins += [pin.put("left", wedge) for pin in t.inputs.get("clock", ())]
        rows["left"] += ROW
    sides = {side: [p.label for p in pins if p.side == side] for side in rows}
    labels = sum(max((small(text) for text in texts), default=0.0) for texts in sides.values())
    around = 2 * (LABEL + 8 + 7) if cell else 2 * PAD
    width = max(cells_width(len(t.word)) + around, labels + 2 * LABEL + 16)
    width = max(width, text_width(t.label, look.SIZE_NAME, weight=look.STRONG) + 2 * PAD)
    low = max(rows.values()) - ROW
    height = max(body + 9, low + 13)
    x = (width - cells_width(len(t.word))) / 2
    element = Element(
        t.id,
        "storage",
        t.kind,
        t.label,
        pins=tuple(pins),
        word=t.word,
        cells=(x, NAME_ROOM),
        wedge=wedge,
        mark=_mark(t),
    )
    return framed(element, width, height, ("q",))


def _said(pin: Pin) -> str:
    return pin.port.replace("-", " ") + pin.which


def _mark(t: Terminals) -> str:
    """The general qualifying symbol of IEC 60617-12, for the rectangular style."""
    if t.kind == "shift-register":
        return f"SRG{len(t.word)}"
    if t.kind == "counter":
        modulo = t.settings.get("modulo", "full")
        return f"CTR{len(t.word)}" if modulo == "full" else f"CTRDIV{modulo}"
    return ""


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
    name = text_width(t.label, look.SIZE_NAME, weight=look.STRONG)
    width = max(88.0, labels + 2 * LABEL + 24, name + 2 * PAD)
    height = top + ROW * 1.2 * (max(len(ins), len(outs), 1) - 1) + 16
    element = Element(t.id, "plain", t.kind, t.label, pins=tuple(pins))
    return framed(element, width, height, tuple(t.outputs))


_PLACES: Final[dict[str, Callable[[Terminals], Element]]] = {
    **dict.fromkeys(("and", "or", "xor", "nand", "nor", "xnor", "not", "buffer"), _gate),
    **dict.fromkeys(("flip-flop", "register", "shift-register", "counter"), _storage),
    **dict.fromkeys(("full-adder", "half-adder"), _adder),
    "multiplexer": _multiplexer,
}

TERMINAL_GAP: Final = 7.0


def terminal_in(name: str, pin: Pin, *, control: bool) -> Element:
    """An input of the circuit: its name, its bits, and the wire that leaves."""
    name_width = text_width(name, look.SIZE_NAME, weight=look.STRONG)
    x = name_width + TERMINAL_GAP
    wide = cells_width(len(pin.nets), TABLE_CELL)
    height = max(24.0, cells_height(len(pin.nets), TABLE_CELL))
    middle = TABLE_CELL.height / 2 + 2
    element = Element(
        pin.id.rpartition(".")[0],
        "input",
        label=name,
        pins=(pin.put("right", middle),),
        word=pin.nets,
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
        pin.put("left", start + ROW * i, pin.which if many else "")
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
    name_width = text_width(name, look.SIZE_NAME, weight=look.STRONG)
    return framed(element, x + wide + name_width, height)


def tie(pin: Pin, host: str, digits: str) -> Element:
    """A constant at a port: its digits at a short stub."""
    wide = text_width(digits, look.SIZE_DIGIT, "bits") + 4
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


def hung(element: Element, port: str) -> Element:
    """The element, hanging on a port of another one."""
    return replace(element, hangs_on=port)


def seeded(element: Element, seed: tuple[int, int]) -> Element:
    """The element with its column and row."""
    return replace(element, seed=seed)


def crossed(element: Element, before: tuple[int, ...], after: tuple[int, ...]) -> Element:
    """An ellipsis with what enters and what leaves it."""
    nets = {"carry-in": before, "carry-out": after}
    return replace(element, pins=tuple(replace(p, nets=nets[p.port]) for p in element.pins))
