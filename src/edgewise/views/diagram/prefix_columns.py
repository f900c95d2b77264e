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
from edgewise.views.diagram.placement import Line, Placement
from edgewise.views.diagram.prefix_graph import Node, Pair, PrefixGraph, Sum
from edgewise.views.diagram.terminals import bit, value
from edgewise.views.drawing import theme
from edgewise.views.drawing.theme import TABLE_CELL, CellSize
from edgewise.views.layout.graph import Point, Side

RADIUS: Final = 10.0
"""Of a node, and of a sum."""
_BESIDE: Final = 8.0
"""From the middle of a node to where the span below comes in."""
_CELLS: Final = RADIUS + 3
"""From the middle of a node to its cells."""
_PITCH: Final = 60.0
"""From column to column, at least."""
_LEAF: Final = (52.0, 46.0)
"""Width and height of what makes g and p."""
_NARROW: Final = CellSize(width=13, height=20, digit=13, band=3, gap=2)
_HIGHER: Final = 14.0
_TRACK: Final = 9.0
_CLEAR: Final = 12.0
"""Between a row and the wires above or below it."""
_SUM: Final = 12.0
"""From a column to its sum, to the right."""
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
class _Columns:
    circuit: Circuit
    graph: PrefixGraph
    names: Mapping[str, tuple[int, ...]]
    narrow: int = 0
    """From 2 on the names of a column's bits stand one higher than the other."""
    placement: Placement = field(default_factory=Placement)
    outputs: dict[Origin, str] = field(default_factory=dict)
    """The name of the output bit that a port drives."""
    tracks: dict[tuple[int, Origin], float] = field(default_factory=dict)
    """Of each level and span: y of the wire to the nodes that take it in from the right."""
    pitch: float = _PITCH
    leaf: float = _LEAF[0]
    """Width of what makes g and p."""
    down: float = 0.0
    """Down to here, everything is placed."""

    def build(self) -> None:
        sources = Sources(self.circuit)
        self.outputs = sources.shown()
        self._set_pitch(sources)
        self._leaves(sources)
        for level in range(1, self.graph.nodes[-1].level + 1):
            self._level(level)
        self.down += _CLEAR
        self._foot()
        self._wires()

    @property
    def cell(self) -> CellSize:
        """The size of the cells of g and p."""
        return _NARROW if self.narrow else TABLE_CELL

    # ------------------------------------------------------------ names and nets

    def _net(self, origin: Origin) -> int:
        name = f"{origin.owner}.{origin.port}" if origin.owner else origin.port
        return self.names[name][origin.index]

    def _nets(self, pair: Pair) -> tuple[int, ...]:
        """Of p, if it is there, and g: written down, g stands left."""
        g, p = pair
        return (self._net(g),) if p is None else (self._net(p), self._net(g))

    def _input(self, origin: Origin) -> str:
        wide = len(self.names[origin.port]) > 1
        return f"{origin.port}({origin.index})" if wide else origin.port

    def _x(self, column: int) -> float:
        return -self.pitch * column

    def _set_pitch(self, sources: Sources) -> None:
        """Room for the names of the bits over each column, and for that of its sum below."""
        longest = [
            small(self._input(origin))
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
            x = self._x(column)
            if part is None:
                self._inputs(pair, x, height)
                continue
            made = self._leaf(part, pair)
            self.placement.put(made, (x - width / 2, 0.0))
            for place, pin in enumerate(made.pins[:-1]):
                origin = sources.origin(part.signal(pin.port)[0])
                assert isinstance(origin, Origin)
                over = bit(f"{pin.id}:bit", self._input(origin), "bottom", pin.nets)
                if self.narrow > 1 and place % 2 == 0:
                    over = _higher(over)
                spot = self.placement.spots[pin.id]
                start = (spot[0], spot[1] - over.stem)
                self.placement.put_at(over, over.pins[0].id, start)
                self.placement.join(
                    Thread(f"{pin.id}~", over.pins[0].id, (pin.id,)), [(start, spot)]
                )
        if any(
            part and len(self._nets(pair)) > 1
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
        out = Pin(f"{part.name}.{pair[0].port}", pair[0].port, self._nets(pair))
        g, p = pair[0], pair[1] or self._p_beside(part)
        word = self._nets((g, p))
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

    def _p_beside(self, part: Part) -> Origin | None:
        """The p of a column that no node asks for: as in the other columns."""
        found = {
            pair[1].port
            for pair, other in zip(self.graph.columns, self.graph.leaves, strict=True)
            if pair[1] is not None and other is not None and other.kind is part.kind
        }
        return Origin(part.name, found.pop()) if len(found) == 1 else None

    def _inputs(self, pair: Pair, x: float, y: float) -> None:
        """A column whose g and p come in from outside."""
        g = pair[0]
        made = bit(self._input(g), self._input(g), "bottom", self._nets(pair))
        if pair[1] is not None:
            name = f"{self._input(g)} {self._input(pair[1])}"
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
        top = self.down + _CLEAR
        taken: list[tuple[int, int, int]] = []
        # What reaches further runs higher: no way down to a node crosses it.
        for g, nodes in sorted(
            spans.items(), key=lambda one: (-max(n.column for n in one[1]), -one[1][0].reach)
        ):
            low, high = nodes[0].reach, max(node.column for node in nodes)
            track = 1 + max((t for a, b, t in taken if low < b and a < high), default=-1)
            taken.append((low, high, track))
            self.tracks[level, g] = top + _TRACK * track
        self.down = max((self.tracks[level, g] for g in spans), default=top) + _CLEAR
        for node in row:
            self.placement.put(self._node(node), (self._x(node.column) - RADIUS, self.down))
        joining = [node for node in row if node.below is not None]
        names = sorted({node.part.name.partition("(")[0] for node in joining})
        if not self.narrow or len(names) == 1:
            self._note(", ".join(names), self.down)
        self.down += 2 * RADIUS

    def _note(self, text: str, y: float) -> None:
        """What the nodes of a row have in common, left of it."""
        right = self._x(len(self.graph.columns) - 1) - self.leaf / 2 - theme.GAP
        made = Element(f"row {y:g}", "note", label=text, width=small(text), height=2 * RADIUS)
        self.placement.put(made, (right - made.width, y))

    def _node(self, node: Node) -> Element:
        name = node.part.name
        pins = [Pin(f"{name}:own", "own", self._nets(node.own)).put("top", RADIUS)]
        if node.below is not None:
            rim = RADIUS - (RADIUS**2 - _BESIDE**2) ** 0.5
            below = Pin(f"{name}:below", "below", self._nets(node.below))
            pins.append(below.put("top", RADIUS + _BESIDE, stub=rim))
        g = node.out[0]
        pins.append(Pin(f"{name}.{g.port}", g.port, self._nets(node.out)).put("bottom", RADIUS))
        word = self._nets(node.out)
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

    # ------------------------------------------------------------ the foot

    def _foot(self) -> None:
        """Carries, then the sums that are made of them, then the bits of the sum."""
        sums = {one.column: one for one in self.graph.sums}
        for column in range(len(self.graph.columns)):
            g, p = self.graph.last(column), self.graph.columns[column][1]
            part = self.graph.leaves[column]
            if p is None and part is not None:
                p = self._p_beside(part)
            x = self._x(column)
            if column + 1 in sums or column in sums:
                self._carry(g, column)
            if column in sums:
                self._sum(sums[column], x)
            elif p in self.outputs and p is not None:
                self._alone(p, x)

    def _carry(self, g: Origin, column: int) -> None:
        """The cell of a carry beside its wire."""
        name = f"c({column + 1 - self._comes_in})"
        made = value(f"{g.owner}.{g.port}:carry", name, self._net(g), "right")
        self.placement.put(made, (self._x(column) + (5.0 if self.narrow else _BESIDE), self.down))

    @property
    def _comes_in(self) -> bool:
        """Whether column 0 is a carry-in; the others are one place lower then."""
        return self.graph.leaves[0] is None and self.graph.columns[0][1] is None

    @property
    def _turn(self) -> float:
        """The y at which a carry turns to the next column."""
        return self.down + TABLE_CELL.height + _CLEAR

    def _sum(self, one: Sum, x: float) -> None:
        name = one.part.name
        carry, p = self._net(one.carry), self._net(one.p)
        out = Origin(name, "out")
        pins = (
            Pin(f"{name}:carry", "in", (carry,)).put("top", RADIUS),
            Pin(f"{name}:p", "in", (p,)).put("left", RADIUS),
            Pin(f"{name}.out", "out", (self._net(out),)).put("bottom", RADIUS),
        )
        size, kind = 2 * RADIUS, one.part.kind.name
        made = Element(name, "sum", kind, name, size, size, pins, (0.0, 0.0, size, size), mark="=1")
        middle = x + _SUM, self._turn + _CLEAR + RADIUS
        self.placement.put(made, (middle[0] - RADIUS, middle[1] - RADIUS))
        self._named(one.p, f"{name}:p", x - _SUM)
        end = (middle[0], middle[1] + RADIUS)
        self._result(out, f"{name}.out", end)

    def _named(self, p: Origin, target: str, x: float) -> None:
        """The p of a column beside its sum."""
        end = self.placement.spots[target]
        pin = Pin(f"{p.owner}.{p.port}:p.", p.port, (self._net(p),))
        made = value(f"{p.owner}.{p.port}:p", self._p_name(p), pin.nets[0], "below")
        pin = pin.put("right", TABLE_CELL.height / 2)
        made = replace(made, pins=(pin,))
        start = (x + _HALF, end[1])
        self.placement.put_at(made, pin.id, start)
        self.placement.join(Thread(f"{target}~", pin.id, (target,)), [(start, end)])

    def _p_name(self, p: Origin) -> str:
        column = next(k for k, (g, _) in enumerate(self.graph.columns) if g.owner == p.owner)
        return f"p({column - self._comes_in})"

    def _alone(self, p: Origin, x: float) -> None:
        """A p that is itself a bit of the sum."""
        pin = Pin(f"{p.owner}.{p.port}:p.", p.port, (self._net(p),))
        made = value(f"{p.owner}.{p.port}:p", self._p_name(p), pin.nets[0], "right")
        made = replace(made, pins=(pin.put("bottom", _HALF),))
        spot = (x + _SUM, self._turn + _CLEAR + RADIUS + TABLE_CELL.height / 2)
        self.placement.put_at(made, pin.id, spot)
        self._result(p, pin.id, spot)

    def _result(self, origin: Origin, source: str, spot: Point) -> None:
        name = self.outputs.get(origin)
        if name is None:
            return
        made = bit(name, name, "top", (self._net(origin),))
        end = (spot[0], spot[1] + made.stem)
        self.placement.put_at(made, made.pins[0].id, end)
        self.placement.join(Thread(f"{source}~", source, (made.pins[0].id,)), [(spot, end)])

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
                lines.append(((x, y), (x, self._turn), (end[0], self._turn), end))
            elif g in self.outputs:
                beside = any(one.column == column for one in self.graph.sums)
                end = (x - self.pitch / 2 if beside else x, self._turn)
                if beside and self.narrow:
                    end = (end[0] - _CLEAR, end[1] + _CLEAR)
                side: Side = "right" if beside and not self.narrow else "top"
                targets.append(self._end(g, end, side))
                lines.append(((x, y), (x, self._turn), (end[0], self._turn), end))
            lines += self._branches(below[g], g, (x, y), joined=bool(lines))
            targets += [f"{node.part.name}:below" for node in below[g]]
            final = g in {self.graph.last(k) for k in range(len(self.graph.columns))}
            if targets:
                thread = Thread(f"{source}~", source, tuple(targets), "carry" if final else "")
                self.placement.join(thread, lines)

    def _source(self, g: Origin) -> str:
        return f"{g.owner}.{g.port}" if g.owner else f"{self._input(g)}."

    def _end(self, g: Origin, spot: Point, side: Side) -> str:
        name = self.outputs[g]
        made = bit(name, name, side, (self._net(g),))
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
