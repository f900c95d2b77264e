"""Legend: what weights and fills mean, in one line, or in more where there is little room.

::

    1 ▬▬▬ [1]    0 ─── [0]    unknown - - - [X]    changed at this edge ▬
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property

from edgewise.bits import Bit, Word, X
from edgewise.views.drawing import text_metrics, theme
from edgewise.views.drawing.bit_cells import cells
from edgewise.views.drawing.shapes import Circle, Group, Item, Line, Rectangle, Text
from edgewise.views.drawing.theme import INK, CellSize
from edgewise.words.messages import ENGLISH, Words


def entries(words: Words) -> tuple[tuple[str, Bit], ...]:
    """What a bit can be."""
    return ("1", 1), ("0", 0), (words("key-unknown"), X)


@dataclass(frozen=True)
class Key:
    """The entries of a legend.

    Parameters
    ----------
    cell : CellSize
    wires : bool
        Show the weights of wires beside the fills of cells.
    banded : bool
        Explain the band.
    nodes : bool
        Explain the nodes of a prefix graph.
    buffers : bool
        Explain the buffers among them.
    buses : bool
        Explain the slash of a bus.
    ports : sequence of (str, str)
        Explain short names of ports: ``carry`` or ``sum``, and what is written for it.
    room : float, optional
        Px that it may be wide; in one line if left out.
    words : Words

    Examples
    --------
    >>> [item.text for item in Key().drawn().items if isinstance(item, Text)]
    ['1', '0', 'unknown', 'changed at this edge']
    >>> Key(wires=False).size[0] < Key().size[0], Key(room=300).size[1] > Key().size[1]
    (True, True)
    """

    cell: CellSize = theme.TABLE_CELL
    wires: bool = True
    banded: bool = True
    nodes: bool = False
    buffers: bool = False
    buses: bool = False
    ports: Sequence[tuple[str, str]] = ()
    room: float | None = None
    words: Words = ENGLISH

    def drawn(self, x: float = 0.0, y: float = 0.0) -> Group:
        """The legend, its top left corner at (x, y)."""
        items: list[Item] = []
        for entry, (across, down) in zip(self._entries, self._places, strict=True):
            items += entry.at(x + across, y + down)
        return Group(tuple(items), kind="legend")

    @cached_property
    def size(self) -> tuple[float, float]:
        """Width and height of the legend, px."""
        ends = [x + entry.width for entry, (x, _) in zip(self._entries, self._places, strict=True)]
        return max(ends), self._places[-1][1] + self.cell.height

    @cached_property
    def _places(self) -> list[tuple[float, float]]:
        places = []
        x = y = 0.0
        for entry in self._entries:
            if x and self.room is not None and x + entry.width > self.room:
                x, y = 0.0, y + self.cell.height + theme.GAP
            places.append((x, y))
            x += entry.width + theme.LEGEND_GAP
        return places

    @cached_property
    def _entries(self) -> tuple[_Entry, ...]:
        return tuple(self._listed())

    def _listed(self) -> Iterator[_Entry]:
        for word, bit in entries(self.words):
            yield _Entry(word, self.cell, bit=bit, wired=self.wires)
        if self.banded:
            yield _Entry(self.words("key-changed"), self.cell)
        if self.buses:
            yield _Entry(self.words("key-bus"), self.cell, wired=True)
        if self.nodes:
            yield _Entry(self.words("key-black-node"), self.cell, node=INK)
            yield _Entry(self.words("key-grey-node"), self.cell, node=theme.RULE)
        if self.buffers:
            yield _Entry(self.words("key-buffer-node"), self.cell, node=theme.PAPER)
        for what, written in self.ports:
            yield _Entry(self.words(f"key-{what}", written=written), self.cell, plain=True)


@dataclass(frozen=True, slots=True)
class _Entry:
    """A text and what it explains: a bit, a node, a bus, itself, or else the band."""

    text: str
    cell: CellSize
    bit: Bit | None = None
    wired: bool = False
    node: str = ""
    """Its fill."""
    plain: bool = False

    @property
    def width(self) -> float:
        """Px from the left of one to the right of the other."""
        wide = text_metrics.width(self.text, weight=theme.STRONG) + theme.GAP
        if self.plain:
            return wide - theme.GAP
        if self.node:
            return wide + self.cell.height - 2 * theme.OUTLINE
        if self.bit is None:
            return wide + (theme.LEGEND_WIRE if self.wired else theme.LEGEND_BAND)
        return wide + self.cell.width + (theme.LEGEND_WIRE + theme.GAP if self.wired else 0.0)

    def at(self, x: float, y: float) -> Iterator[Item]:
        """The items of the entry, its top left corner there."""
        size = self.cell
        middle = y + size.height / 2
        wide = text_metrics.width(self.text, weight=theme.STRONG)
        if self.node:
            radius = size.height / 2 - theme.OUTLINE
            if self.node == theme.PAPER:
                yield triangle(x, middle - radius, radius)
            else:
                yield Circle(x + radius, middle, radius, self.node, INK, theme.OUTLINE)
            yield _label(self.text, x + 2 * radius + theme.GAP, middle)
            return
        yield _label(self.text, x, middle)
        if self.plain:
            return
        left = x + wide + theme.GAP
        if self.bit is None and self.wired:
            yield Line(((left, middle), (left + theme.LEGEND_WIRE, middle)), INK, theme.BUS)
            half = left + theme.LEGEND_WIRE / 2
            yield Line(((half - 4, middle + 5), (half + 3, middle - 5)), INK, theme.THIN)
            return
        if self.bit is None:
            place = (left, middle - size.band / 2, theme.LEGEND_BAND, size.band)
            yield Rectangle(*place, fill=theme.AMBER, stroke=INK, weight=theme.BAND_LINE)
            return
        if self.wired:
            weight, dash = theme.wire(self.bit)
            yield Line(((left, middle), (left + theme.LEGEND_WIRE, middle)), INK, weight, dash)
            left += theme.LEGEND_WIRE + theme.GAP
        yield cells(Word.from_bits([self.bit]), left, y, size=size)


def triangle(x: float, y: float, radius: float) -> Line:
    """A buffer among the nodes of a prefix graph, as high as they are, its top left corner there.

    Examples
    --------
    >>> triangle(0, 0, 10).points
    ((1, 2), (19, 2), (10, 20))
    """
    corners = (x + 1, y + 2), (x + 2 * radius - 1, y + 2), (x + radius, y + 2 * radius)
    return Line(corners, INK, theme.OUTLINE, fill=theme.PAPER, closed=True)


def _label(text: str, x: float, middle: float) -> Text:
    return Text(x, middle + theme.MIDDLE * theme.SIZE_TEXT, text, weight=theme.STRONG)
