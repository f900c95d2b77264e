"""Foot: the carries of a prefix graph, and the sums that are made of them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import KW_ONLY, dataclass, field, replace
from typing import Final

from edgewise.circuit.model import Circuit, Part
from edgewise.views.diagram.drivers import Origin
from edgewise.views.diagram.elements import Element, Pin
from edgewise.views.diagram.nets import Thread
from edgewise.views.diagram.placement import Placement
from edgewise.views.diagram.prefix_graph import Pair, PrefixGraph, Sum
from edgewise.views.diagram.terminals import bit, value
from edgewise.views.drawing.theme import TABLE_CELL
from edgewise.views.layout.graph import Point

RADIUS: Final = 10.0
"""Of a node, and of a sum."""
BESIDE: Final = 8.0
"""From the middle of a node to where the span below comes in."""
PITCH: Final = 60.0
"""From column to column, at least."""
CLEAR: Final = 12.0
"""Between a row and the wires above or below it."""
_SUM: Final = 12.0
"""From a column to its sum, to the right."""
_HALF: Final = TABLE_CELL.width / 2


@dataclass(slots=True)
class PrefixFoot:
    """A prefix graph as it is placed: its columns, and their foot."""

    circuit: Circuit
    graph: PrefixGraph
    names: Mapping[str, tuple[int, ...]]
    narrow: int = 0
    """From 2 on the names of a column's bits stand one higher than the other."""
    _: KW_ONLY
    placement: Placement = field(default_factory=Placement)
    outputs: dict[Origin, str] = field(default_factory=dict)
    """The name of the output bit that a port drives."""
    pitch: float = PITCH
    down: float = 0.0
    """Down to here, everything is placed."""

    # ------------------------------------------------------------ names and nets

    def net(self, origin: Origin) -> int:
        """The number of the net of a bit."""
        name = f"{origin.owner}.{origin.port}" if origin.owner else origin.port
        return self.names[name][origin.index]

    def nets(self, pair: Pair) -> tuple[int, ...]:
        """Of p, if it is there, and g: written down, g stands left."""
        g, p = pair
        return (self.net(g),) if p is None else (self.net(p), self.net(g))

    def input(self, origin: Origin) -> str:
        """The name of a bit of an input."""
        wide = len(self.names[origin.port]) > 1
        return f"{origin.port}({origin.index})" if wide else origin.port

    def x(self, column: int) -> float:
        """The middle of a column."""
        return -self.pitch * column

    def p_beside(self, part: Part) -> Origin | None:
        """The p of a column that no node asks for: as in the other columns."""
        found = {
            pair[1].port
            for pair, other in zip(self.graph.columns, self.graph.leaves, strict=True)
            if pair[1] is not None and other is not None and other.kind is part.kind
        }
        return Origin(part.name, found.pop()) if len(found) == 1 else None

    # ------------------------------------------------------------ the foot

    def foot(self) -> None:
        """Carries, then the sums that are made of them, then the bits of the sum."""
        sums = {one.column: one for one in self.graph.sums}
        for column in range(len(self.graph.columns)):
            g, p = self.graph.last(column), self.graph.columns[column][1]
            part = self.graph.leaves[column]
            if p is None and part is not None:
                p = self.p_beside(part)
            x = self.x(column)
            if column + 1 in sums or column in sums:
                self._carry(g, column)
            if column in sums:
                self._sum(sums[column], x)
            elif p in self.outputs and p is not None:
                self._alone(p, x)

    def _carry(self, g: Origin, column: int) -> None:
        """The cell of a carry beside its wire."""
        name = f"c({column + 1 - self._comes_in})"
        made = value(f"{g.owner}.{g.port}:carry", name, self.net(g), "right")
        self.placement.put(made, (self.x(column) + (5.0 if self.narrow else BESIDE), self.down))

    @property
    def _comes_in(self) -> bool:
        """Whether column 0 is a carry-in; the others are one place lower then."""
        return self.graph.leaves[0] is None and self.graph.columns[0][1] is None

    @property
    def turn(self) -> float:
        """The y at which a carry turns to the next column."""
        return self.down + TABLE_CELL.height + CLEAR

    def _sum(self, one: Sum, x: float) -> None:
        name = one.part.name
        carry, p = self.net(one.carry), self.net(one.p)
        out = Origin(name, "out")
        pins = (
            Pin(f"{name}:carry", "in", (carry,)).put("top", RADIUS),
            Pin(f"{name}:p", "in", (p,)).put("left", RADIUS),
            Pin(f"{name}.out", "out", (self.net(out),)).put("bottom", RADIUS),
        )
        size, kind = 2 * RADIUS, one.part.kind.name
        made = Element(name, "sum", kind, name, size, size, pins, (0.0, 0.0, size, size), mark="=1")
        middle = x + _SUM, self.turn + CLEAR + RADIUS
        self.placement.put(made, (middle[0] - RADIUS, middle[1] - RADIUS))
        self._named(one.p, f"{name}:p", x - _SUM)
        end = (middle[0], middle[1] + RADIUS)
        self._result(out, f"{name}.out", end)

    def _named(self, p: Origin, target: str, x: float) -> None:
        """The p of a column beside its sum."""
        end = self.placement.spots[target]
        pin = Pin(f"{p.owner}.{p.port}:p.", p.port, (self.net(p),))
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
        pin = Pin(f"{p.owner}.{p.port}:p.", p.port, (self.net(p),))
        made = value(f"{p.owner}.{p.port}:p", self._p_name(p), pin.nets[0], "right")
        made = replace(made, pins=(pin.put("bottom", _HALF),))
        spot = (x + _SUM, self.turn + CLEAR + RADIUS + TABLE_CELL.height / 2)
        self.placement.put_at(made, pin.id, spot)
        self._result(p, pin.id, spot)

    def _result(self, origin: Origin, source: str, spot: Point) -> None:
        name = self.outputs.get(origin)
        if name is None:
            return
        made = bit(name, name, "top", (self.net(origin),))
        end = (spot[0], spot[1] + made.stem)
        self.placement.put_at(made, made.pins[0].id, end)
        self.placement.join(Thread(f"{source}~", source, (made.pins[0].id,)), [(spot, end)])
