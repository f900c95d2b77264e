"""Columns: a prefix graph as it is drawn in books: the MSB left, levels downwards.

Each column has its bits and what makes g and p of them at the top, its nodes below one another, and
its carry at the foot, where the sum is made of it and of the p of the next column. A wire stands
for a span's g and p together; where only g goes on, its weight shows the bit. The p of a column is
named at the foot, not wired through all levels, as in books::

      a b    a b    a b    a b
      HA(3)  HA(2)  HA(1)  HA(0)
       │ ┌────┤ ┌────┤ ┌────┤
       ●─┘    ●─┘    ◍─┘    │
       │ ┌────┼──────┤      │
       │ │    │ ┌────┼──────┤
       ◍─┘    ◍─┘    │      │
    ┌──┘   ⊕──┘   ⊕──┘   ⊕──┘   p(0)
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace
from math import ceil
from typing import Final

from edgewise.circuit.model import Circuit, Part
from edgewise.views.diagram.drivers import Origin, Sources
from edgewise.views.diagram.elements import Element, Pin, small
from edgewise.views.diagram.nets import Scene, Thread
from edgewise.views.diagram.placement import Line
from edgewise.views.diagram.prefix_foot import BESIDE, CLEAR, RADIUS, PrefixFoot
from edgewise.views.diagram.prefix_graph import Node, Pair, PrefixGraph
from edgewise.views.diagram.terminals import bit
from edgewise.views.drawing import theme
from edgewise.views.drawing.theme import TABLE_CELL, CellSize
from edgewise.views.layout.graph import Point, Side

_CELLS: Final = RADIUS + 3
"""From the middle of a node to its cells."""
_LEAF: Final = (52.0, 46.0)
"""Width and height of what makes g and p."""
_NARROW: Final = CellSize(width=13, height=20, digit=13, band=3, gap=2)
_HIGHER: Final = 14.0
_TRACK: Final = 9.0
_HALF: Final = TABLE_CELL.width / 2


def columns(
    circuit: Circuit,
    graph: PrefixGraph,
    names: Mapping[str, tuple[int, ...]],
    *,
    narrow: int = 0,
) -> Scene:
    """The scene of a prefix graph, with its places."""
    made = _Columns(circuit, graph, names, narrow)
    made.build()
    return made.placement.scene("down")


def _higher(over: Element) -> Element:
    """A bit whose name stands above that of the bit beside it."""
    x, y = over.cells
    left, top, right, bottom = over.frame
    frame = left, top, right, bottom + _HIGHER
    return replace(over, height=over.height + _HIGHER, cells=(x, y + _HIGHER), frame=frame)


@dataclass(slots=True)
class _Columns(PrefixFoot):
    tracks: dict[tuple[int, Origin], float] = field(default_factory=dict)
    """Of each level and span: y of the wire to the nodes that take it in from the right."""
    leaf: float = _LEAF[0]
    """Width of what makes g and p."""

    def build(self) -> None:
        sources = Sources(self.circuit)
        self.outputs = sources.shown()
        self._set_pitch(sources)
        self._leaves(sources)
        for level in range(1, self.graph.nodes[-1].level + 1):
            self._level(level)
        self.down += CLEAR
        self.foot()
        self._wires()

    @property
    def cell(self) -> CellSize:
        """The size of the cells of g and p."""
        return _NARROW if self.narrow else TABLE_CELL

    def _set_pitch(self, sources: Sources) -> None:
        """Room for the names of the bits over each column, and for that of its sum below."""
        longest = [
            small(self.input(origin))
            for part in self.graph.leaves
            for port in (part.kind.ins if part else ())
            if part and isinstance(origin := sources.origin(part.signal(port.name)[0]), Origin)
        ]
        ports = max((len(part.kind.ins) for part in self.graph.leaves if part), default=1)
        least, beside = (_NARROW.width * 2 + 20, 2.5) if self.narrow else (_LEAF[0], 4.0)
        names = max(longest, default=0.0)
        above = ports * (names + beside)
        if self.narrow > 1:
            labels = (small(part.name) for part in self.graph.leaves if part)
            above = max(names + TABLE_CELL.width + 2 * beside, *labels, 0.0) + beside
        self.leaf = max(least, 2.0 * ceil(above / 2))
        below = max((small(name) for name in self.outputs.values()), default=0.0)
        gap = 4.0 if self.narrow else theme.GAP
        self.pitch = max(self.leaf + gap, ceil(below) + 2 * gap)

    # ------------------------------------------------------------ the top

    def _leaves(self, sources: Sources) -> None:
        width, height = self.leaf, _LEAF[1]
        for column, (pair, part) in enumerate(
            zip(self.graph.columns, self.graph.leaves, strict=True)
        ):
            x = self.x(column)
            if part is None:
                self._inputs(pair, x, height)
                continue
            made = self._leaf(part, pair)
            self.placement.put(made, (x - width / 2, 0.0))
            for place, pin in enumerate(made.pins[:-1]):
                origin = sources.origin(part.signal(pin.port)[0])
                assert isinstance(origin, Origin)
                over = bit(f"{pin.id}:bit", self.input(origin), "bottom", pin.nets)
                if self.narrow > 1 and place % 2 == 0:
                    over = _higher(over)
                spot = self.placement.spots[pin.id]
                start = (spot[0], spot[1] - over.stem)
                self.placement.put_at(over, over.pins[0].id, start)
                self.placement.join(
                    Thread(f"{pin.id}~", over.pins[0].id, (pin.id,)), [(start, spot)]
                )
        if any(
            part and len(self.nets(pair)) > 1
            for pair, part in zip(self.graph.columns, self.graph.leaves, strict=True)
        ):
            self._note("g p", 21.0)
        self.down = height

    def _leaf(self, part: Part, pair: Pair) -> Element:
        """What makes g and p of the bits over it; their cells stand in it."""
        width, height = self.leaf, _LEAF[1]
        ports = [port.name for port in part.kind.ins]
        step = width / len(ports)
        pins = [
            Pin(f"{part.name}.{port}", port, self.names[f"{part.name}.{port}"]).put(
                "top", step * (i + 0.5)
            )
            for i, port in enumerate(ports)
        ]
        out = Pin(f"{part.name}.{pair[0].port}", pair[0].port, self.nets(pair))
        g, p = pair[0], pair[1] or self.p_beside(part)
        word = self.nets((g, p))
        return Element(
            part.name,
            "leaf",
            part.kind.name,
            part.name,
            width,
            height,
            (*pins, out.put("bottom", width / 2)),
            (0.0, 0.0, width, height),
            word=word,
            cells=((width - self.cell.width * len(word)) / 2, 21.0),
            cell=self.cell,
        )

    def _inputs(self, pair: Pair, x: float, y: float) -> None:
        """A column whose g and p come in from outside."""
        g = pair[0]
        made = bit(self.input(g), self.input(g), "bottom", self.nets(pair))
        if pair[1] is not None:
            name = f"{self.input(g)} {self.input(pair[1])}"
            cells = ((made.width - 4 * _HALF) / 2, made.cells[1])
            made = replace(made, label=name, cells=cells)
        self.placement.put_at(made, made.pins[0].id, (x, y))

    # ------------------------------------------------------------ the nodes

    def _level(self, level: int) -> None:
        """The tracks to a row of nodes, then the row."""
        row = [node for node in self.graph.nodes if node.level == level]
        spans: defaultdict[Origin, list[Node]] = defaultdict(list)
        for node in row:
            if node.below is not None:
                spans[node.below[0]].append(node)
        top = self.down + CLEAR
        taken: list[tuple[int, int, int]] = []
        # What reaches further runs higher: no way down to a node crosses it.
        for g, nodes in sorted(
            spans.items(), key=lambda one: (-max(n.column for n in one[1]), -one[1][0].reach)
        ):
            low, high = nodes[0].reach, max(node.column for node in nodes)
            track = 1 + max((t for a, b, t in taken if low < b and a < high), default=-1)
            taken.append((low, high, track))
            self.tracks[level, g] = top + _TRACK * track
        self.down = max((self.tracks[level, g] for g in spans), default=top) + CLEAR
        for node in row:
            self.placement.put(self._node(node), (self.x(node.column) - RADIUS, self.down))
        joining = [node for node in row if node.below is not None]
        names = sorted({node.part.name.partition("(")[0] for node in joining})
        if not self.narrow or len(names) == 1:
            self._note(", ".join(names), self.down)
        self.down += 2 * RADIUS

    def _note(self, text: str, y: float) -> None:
        """What the nodes of a row have in common, left of it."""
        right = self.x(len(self.graph.columns) - 1) - self.leaf / 2 - theme.GAP
        made = Element(f"row {y:g}", "note", label=text, width=small(text), height=2 * RADIUS)
        self.placement.put(made, (right - made.width, y))

    def _node(self, node: Node) -> Element:
        name = node.part.name
        pins = [Pin(f"{name}:own", "own", self.nets(node.own)).put("top", RADIUS)]
        if node.below is not None:
            rim = RADIUS - (RADIUS**2 - BESIDE**2) ** 0.5
            below = Pin(f"{name}:below", "below", self.nets(node.below))
            pins.append(below.put("top", RADIUS + BESIDE, stub=rim))
        g = node.out[0]
        pins.append(Pin(f"{name}.{g.port}", g.port, self.nets(node.out)).put("bottom", RADIUS))
        word = self.nets(node.out)
        return Element(
            name,
            "node",
            node.part.kind.name,
            name,
            RADIUS + _CELLS + self.cell.width * len(word),
            2 * RADIUS,
            tuple(pins),
            (0.0, 0.0, 2 * RADIUS, 2 * RADIUS),
            word=word,
            cells=(RADIUS + _CELLS, RADIUS - self.cell.height / 2),
            cell=self.cell,
            mark="buffer" if node.below is None else "black" if node.black else "grey",
        )

    # ------------------------------------------------------------ the wires

    def _wires(self) -> None:
        own: dict[Origin, Node] = {node.own[0]: node for node in self.graph.nodes}
        below: defaultdict[Origin, list[Node]] = defaultdict(list)
        for node in self.graph.nodes:
            if node.below is not None:
                below[node.below[0]].append(node)
        carries = {one.carry: one for one in self.graph.sums}
        starts = [(g, column) for column, (g, _) in enumerate(self.graph.columns)]
        starts += [(node.out[0], node.column) for node in self.graph.nodes]
        for g, column in starts:
            source = self._source(g)
            x, y = self.placement.spots[source]
            targets: list[str] = []
            lines: list[Line] = []
            if g in own:
                targets.append(f"{own[g].part.name}:own")
                lines.append(((x, y), self.placement.spots[targets[0]]))
            elif g in carries:
                targets.append(f"{carries[g].part.name}:carry")
                end = self.placement.spots[targets[0]]
                lines.append(((x, y), (x, self.turn), (end[0], self.turn), end))
            elif g in self.outputs:
                beside = any(one.column == column for one in self.graph.sums)
                end = (x - self.pitch / 2 if beside else x, self.turn)
                if beside and self.narrow:
                    end = (end[0] - CLEAR, end[1] + CLEAR)
                side: Side = "right" if beside and not self.narrow else "top"
                targets.append(self._end(g, end, side))
                lines.append(((x, y), (x, self.turn), (end[0], self.turn), end))
            lines += self._branches(below[g], g, (x, y), joined=bool(lines))
            targets += [f"{node.part.name}:below" for node in below[g]]
            final = g in {self.graph.last(k) for k in range(len(self.graph.columns))}
            if targets:
                thread = Thread(f"{source}~", source, tuple(targets), "carry" if final else "")
                self.placement.join(thread, lines)

    def _source(self, g: Origin) -> str:
        return f"{g.owner}.{g.port}" if g.owner else f"{self.input(g)}."

    def _end(self, g: Origin, spot: Point, side: Side) -> str:
        name = self.outputs[g]
        made = bit(name, name, side, (self.net(g),))
        self.placement.put_at(made, made.pins[0].id, spot)
        return made.pins[0].id

    def _branches(
        self, nodes: list[Node], g: Origin, start: Point, *, joined: bool
    ) -> Iterator[Line]:
        """From a column to the nodes that take it in, level by level, the farthest first."""
        x, y = start
        levels: defaultdict[int, list[Node]] = defaultdict(list)
        for node in nodes:
            levels[node.level].append(node)
        # The lowest level's line begins at the source, unless the column itself goes on.
        for level in sorted(levels, reverse=not joined):
            track = self.tracks[level, g]
            far = True
            for node in sorted(levels[level], key=lambda node: -node.column):
                end = self.placement.spots[f"{node.part.name}:below"]
                lead: Line = ((x, track), (end[0], track)) if far else ((end[0], track),)
                if not joined:
                    lead = ((x, y), *lead)
                joined, far = True, False
                yield (*lead, end)
