"""Elements: the things of a block diagram, with their pins, before they have places.

Everything is px from the top left corner of the element's box. A box has margins where texts
stand over the wires (`Pin.stub`), so that the layout keeps other things away from them.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Final, Literal, TypeAlias

from edgewise.views.drawing import theme
from edgewise.views.drawing.gate_symbols import Symbol
from edgewise.views.drawing.text_metrics import width as text_width
from edgewise.views.drawing.theme import DIAGRAM_CELL, CellSize
from edgewise.views.layout.graph import Side

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
    "leaf",
    "node",
    "sum",
    "value",
    "note",
    "cell",
    "unit",
    "beneath",
    "stored",
    "selector",
    "spread",
    "pair",
    "gathered",
    "product",
]

PAD: Final = 14.0
"""Inside a frame, beside its cells."""
ROW: Final = 17.0
"""From pin to pin where each has its label."""
_MERGED: Final = re.compile(r"(?P<base>\w+)\((?P<high>\d+)\.\.(?P<low>\d+)\)")
_MEMBER: Final = re.compile(r"(?P<base>\w+)\((?P<index>\d+)\)")
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
class Mark:
    """What stands at a wire, from the top left corner of the element that draws it.

    Parameters
    ----------
    x, y : float
    text : str
    kind : {"down", "across", "bits"}
        How many bits a wire downwards has, or one from side to side; which bits it takes.
    """

    x: float
    y: float
    text: str
    kind: Literal["down", "across", "bits"]


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
    symbol: Symbol | None = None
    mark: str = ""
    """Qualifying symbol in the rectangular style; of a node whether it is black or grey."""
    block: float = 0.0
    """Where the common control block of a word begins; 0: it has none."""
    clock_mark: str = ""
    """The same, beside the clock wedge."""
    arrow: Literal["", "left", "right"] = ""
    """Where the bits of a register move, if an arrow says so."""
    marks: tuple[Mark, ...] = ()
    shown: bool = False
    """Whether its inside stands under the figure."""


PORT_LABELS: Final = {"carry-in": "cin", "carry-out": "cout", "sum": "s"}
"""What ports of adders are called in a figure, for want of room."""
STORES: Final = ("storage", "beneath", "stored", "spread")
"""Roles of what stores."""


def small(text: str) -> float:
    """Width of a small label."""
    return text_width(text, theme.SIZE_SMALL)


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


def stands_for(name: str, part: str) -> bool:
    """Whether an element is a part, or is drawn for it and others of its family.

    Examples
    --------
    >>> stands_for("FA(7..0)", "FA(3)"), stands_for("FA(7..0)", "FA(8)"), stands_for("C", "C")
    (True, False, True)
    """
    merged, member = _MERGED.fullmatch(name), _MEMBER.fullmatch(part)
    if merged is None or member is None:
        return name == part
    inside = int(merged["low"]) <= int(member["index"]) <= int(merged["high"])
    return merged["base"] == member["base"] and inside
