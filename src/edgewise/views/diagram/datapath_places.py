"""Places of a datapath: the adders one box, the registers under it in a row.

As in books::

     a ──► [    M    ]──────────┐  b
           ┌───────────┐        │  │
        ┌──┤FA(n-1..0) │◄─(AND)─┴┐ │
        │  └──▲─────┬──┘         │ │
        └──┐  │     ├─────┐      │ │
           [    H    ]    └►[    Q   ]

A word goes on as one wire; which of its bits a wire takes stands beside it.
"""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from math import ceil
from typing import Final

from edgewise.views.diagram import terminals
from edgewise.views.diagram.datapath import Datapath, Gates
from edgewise.views.diagram.datapath_registers import (
    DROP,
    HEIGHT,
    STEM,
    DatapathRegisters,
    bare,
    compact,
)
from edgewise.views.diagram.elements import PORT_LABELS, Element, Pin
from edgewise.views.diagram.nets import Scene
from edgewise.views.drawing import theme
from edgewise.views.drawing.gate_symbols import backwards, turned
from edgewise.views.drawing.text_metrics import width as text_width
from edgewise.views.drawing.theme import TABLE_CELL
from edgewise.views.layout.graph import Direction

_GATED: Final = 30.0
"""Beside a word over gates, for what controls them."""


def places(scene: Scene, path: Datapath) -> Scene | None:
    """The scene with its places; nothing where a wire would have no way."""
    made = _Places(scene, path.row, path=path)
    return made.scene_with_layout() if made.build() else None


@dataclass(slots=True)
class _Places(DatapathRegisters):
    merged: dict[str, str] = field(default_factory=dict)
    """Of a pin of the whole row: a pin of the scene at the same place."""

    @property
    def flow(self) -> Direction:
        """Where the signals flow to: down to the registers, or left with the carry."""
        return "down"

    # ------------------------------------------------------------ the adder

    def build(self) -> bool:
        """Lay everything; False if a wire found no way."""
        cells = self.row.cells
        self.low = HEIGHT
        first, last = cells[0].adder, cells[-1].adder
        base, _, _ = first.id.partition("(")
        name = f"{base}({len(cells) - 1}..0)"
        registers = [e.frame[2] - e.frame[0] for e in (self.row.below,) if e]
        least = text_width(name, theme.SIZE_NAME, weight=theme.STRONG) + 72.0
        tops = [port for port in ("a", "b") if self._over(port)]
        wides = [self._wide(port) for port in tops]
        width = 4.0 * ceil(max(least, *registers, sum(wides)) / 4)
        ats = {
            port: sum(wides[:i]) + wides[i] / 2 + (width - sum(wides)) / 2
            for i, port in enumerate(tops)
        }
        pins = [self._merged(name, port, width, ats.get(port)) for port in ("a", "b", "sum")]
        for pin in (*first.pins, *last.pins):
            if pin.port == "carry-in" and pin in first.pins:
                pins.append(pin.put("right", 18.0, PORT_LABELS[pin.port]))
            elif pin.port == "carry-out" and pin in last.pins:
                pins.append(pin.put("left", 18.0, PORT_LABELS[pin.port]))
        self.done |= {link.target for link in self.row.links}
        frame = (0.0, 0.0, width, HEIGHT)
        adder = Element(
            name, "cell", first.kind, name, width, HEIGHT, tuple(pins), frame, mark=first.mark
        )
        self.placement.put(adder, (-width / 2, 0.0))
        if self.row.below is not None:
            self.registers(name, width)
        else:
            self._sum_word(name)
        for port in ("a", "b"):
            self._operand(name, port)
        self._carries(first, last)
        self.inputs()
        self.outputs()
        self.placement.note(self.marks)
        every = {end for thread in self.scene.threads for end in thread.targets}
        return every <= self.done

    def _merged(self, name: str, port: str, width: float, over: float | None) -> Pin:
        """A port of all adders as one."""
        bits = [p for c in self.row.cells for p in c.adder.pins if p.port == port]
        pin = Pin(f"{name}.{port}", port, tuple(p.nets[0] for p in bits))
        self.done |= {p.id for p in bits if p.id in self.source}
        if port == "sum":
            shift = 2 * STEM if self.row.below is not None else 0.0
            return pin.put("bottom", width / 2 + shift, PORT_LABELS[port])
        if over is not None:
            return pin.put("top", over, port)
        if port in self.path.gates:
            return pin.put("right", 46.0, port)
        return pin.put("bottom", width / 2 - 2 * STEM, port)

    def _over(self, port: str) -> bool:
        """Whether a port takes its word from above."""
        if port in self.path.gates:
            return not self._beside(self.path.gates[port])
        return port in self.path.words and self.home[self.path.words[port]] is not self.row.below

    def _beside(self, gates: Gates) -> bool:
        """Whether gates stand right of the adder, over the register that controls them."""
        return self.row.last is not None and self.home[gates.control] is self.row.last

    def _wide(self, port: str) -> float:
        """What a word over a port needs."""
        word = self.path.gates[port].word if port in self.path.gates else self.path.words[port]
        element = self.home[word]
        wide = terminals.word(word, element.label, "bottom", self.pins[word].nets).width
        return wide + (_GATED if port in self.path.gates else STEM)

    # ------------------------------------------------------------ words over the adder

    def _operand(self, name: str, port: str) -> None:
        target = f"{name}.{port}"
        if port in self.path.words:
            source = self.path.words[port]
            if self.home[source] is not self.row.below:
                self._word(source, target)
            return
        gates = self.path.gates[port]
        (self._beside_gate if self._beside(gates) else self._over_gate)(name, gates, target)

    def _word(self, source: str, target: str) -> None:
        """A word over a pin: an input, or the register that holds it."""
        x, y = self.spot(target)
        element = self.home[source]
        if element is self.row.above:
            made = bare(element, down=element.frame[2] / 2 - element.frame[0] / 2)
            self.placement.put_at(made, source, (x, y - STEM))
        else:
            made = terminals.word(element.id, element.label, "bottom", self.pins[source].nets)
            made = replace(made, pins=(replace(made.pins[0], id=source),))
            self.placement.put_at(made, source, (x, y - DROP))
        self.route(source, target, self.spot(source), (x, y))
        self.bus(x, y - STEM / 2, self.pins[source].nets)

    def _gate(self, gates: Gates, name: str) -> tuple[Element, Pin, Pin, Pin]:
        """The gates as one, with the pins of the word, the control and the output."""
        ident = gates.first.id.partition("(")[0] + name.partition("(")[1] + name.partition("(")[2]
        word = Pin(f"{ident}.word", "in", self.pins[gates.word].nets)
        control = Pin(f"{ident}.in", "in", self.pins[gates.control].nets)
        cells = self.row.cells
        outs = [
            next(p for p in gate.pins if p.id not in self.source).nets[0]
            for cell in cells
            for gate in cell.gates.values()
            if gate.kind == gates.first.kind
        ]
        out = Pin(f"{ident}.out", "out", tuple(outs))
        for cell in cells:
            for gate in cell.gates.values():
                self.done |= {pin.id for pin in gate.pins}
        made = replace(gates.first, id=ident, label=ident, seed=None)
        return made, word, control, out

    def _over_gate(self, name: str, gates: Gates, target: str) -> None:
        """Gates over their port: the word over them, what controls them from the right."""
        assert gates.first.symbol is not None
        symbol = turned(gates.first.symbol)
        made, word, control, out = self._gate(gates, name)
        right, left = symbol.inputs
        pins = (
            control.put("top", right[0], stub=right[1]),
            word.put("top", left[0], stub=left[1]),
            out.put("bottom", symbol.output[0], stub=symbol.output[1]),
        )
        frame = (0.0, 0.0, symbol.width, symbol.height)
        made = replace(
            made,
            width=symbol.width,
            height=symbol.height,
            pins=pins,
            frame=frame,
            symbol=symbol,
        )
        x, y = self.spot(target)
        self.placement.put_at(made, out.id, (x, y - STEM))
        self.route(out.id, target, (x, y - STEM), (x, y))
        self.bus(x, y - STEM / 2, out.nets)
        self._word(gates.word, word.id)
        self.merged[control.id] = gates.control

    def _beside_gate(self, name: str, gates: Gates, target: str) -> None:
        """Gates right of the adder, what controls them under them, the word over them."""
        assert gates.first.symbol is not None
        symbol = backwards(gates.first.symbol)
        made, word, control, out = self._gate(gates, name)
        high, low = sorted(symbol.inputs)
        pins = (
            word.put("right", high[0], stub=high[1]),
            control.put("right", low[0], stub=low[1]),
            out.put("left", symbol.output[0], stub=symbol.output[1]),
        )
        size = symbol.width, symbol.height
        frame = (0.0, 0.0, *size)
        made = replace(made, width=size[0], height=size[1], pins=pins, frame=frame, symbol=symbol)
        x, y = self.spot(target)
        start, end = self.spot(gates.control)[0], x + STEM
        # Left of what comes up from the register, as near to it as may be.
        left = max(end, start - size[0] - STEM)
        self.placement.put_at(made, out.id, (left, y))
        self.route(out.id, target, (left, y), (x, y))
        here, there = self.spot(gates.control), self.spot(control.id)
        self.route(gates.control, control.id, here, (here[0], there[1]), there)
        self._held(gates.word, word.id)

    def _held(self, source: str, target: str) -> None:
        """The word of the gates beside the adder, over the adder."""
        element = self.home[source]
        x, y = self.spot(target)
        turn = x + STEM / 2
        if element is self.row.above:
            made = bare(element, least=self.wide)
            if element.cell is TABLE_CELL or len(element.word) > theme.FOLD:  # no room left of it
                pins = [p.put("top", made.width / 2) if p.bus else p for p in made.pins]
                made = compact(replace(made, pins=tuple(pins)))
            out = Pin(source, "q", element.word).put("right", made.height - 14.0, "q")
            made = replace(made, pins=(*made.pins, out))
            corner = (self.left, -STEM - made.height)
            self.placement.put(made, corner)
        else:
            made = terminals.terminal_in(element.label, self.pins[source], control=False)
            self.placement.put_at(made, source, (self.left + made.width, -STEM - 12))
        start = self.spot(source)
        self.route(source, target, start, (turn, start[1]), (turn, y), (x, y))
        self.bus_across(start[0] + STEM, start[1], element.word)

    def _sum_word(self, name: str) -> None:
        """The word of the sum under the adder."""
        source = f"{name}.sum"
        x, y = self.spot(source)
        ends = [
            end
            for cell in self.row.cells
            for pin in cell.adder.pins
            if pin.port == "sum"
            for end in self.targets.get(pin.id, ())
        ]
        homes = {self.home[end].id for end in ends}
        if len(homes) != 1 or any(self.home[end].role != "output" for end in ends):
            return
        shown = self.home[ends[0]]
        nets = tuple(p.nets[0] for c in self.row.cells for p in c.adder.pins if p.port == "sum")
        made = terminals.word(shown.id, shown.label, "top", nets)
        self.placement.put_at(made, made.pins[0].id, (x, y + STEM))
        self.route(source, made.pins[0].id, (x, y), (x, y + STEM))
        self.bus(x, y + STEM / 2, nets)
        self.done |= {*ends}

    # ------------------------------------------------------------ what comes in and goes out

    def _carries(self, first: Element, last: Element) -> None:
        for pin in first.pins:
            source = self.source.get(pin.id)
            if pin.port != "carry-in" or source is None:
                continue
            x, y = self.spot(pin.id)
            element = self.home[source]
            if element.role == "tie":
                made = terminals.tie(self.placed(pin.id), pin.id, element.label)
                self.placement.put_at(made, source, (x + STEM, y))
                self.route(source, pin.id, (x + STEM, y), (x, y))
            elif element.role == "input":
                self._from_right(source, pin.id)
        for pin in last.pins:
            for end in self.targets.get(pin.id, ()) if pin.port == "carry-out" else ():
                if self.home[end].role == "output":
                    x, y = self.spot(pin.id)
                    made = terminals.bit(end, self.home[end].label, "right", pin.nets)
                    self.placement.put_at(made, made.pins[0].id, (x - STEM, y))
                    self.route(pin.id, made.pins[0].id, (x, y), (x - STEM, y))
                    self.done.add(end)

    def _from_right(self, source: str, target: str) -> None:
        """One bit that comes in at the right, to the carry and to the gates that it controls."""
        element = self.home[source]
        gates = [pin for pin, control in self.merged.items() if control == source]
        x, y = self.spot(target)
        right = max(self.placement.corners[e.id][0] + e.width for e in self.placement.elements)
        made = terminals.bit(element.id, element.label, "left", element.pins[0].nets)
        made = replace(made, pins=(replace(made.pins[0], id=source),))
        if not gates:
            self.placement.put_at(made, source, (x + STEM, y))
            self.route(source, target, (x + STEM, y), (x, y))
            return
        trunk, high = right + STEM / 2, min(self.spot(pin)[1] for pin in gates) - STEM / 2
        origin = (trunk + STEM / 4, high)
        self.placement.put_at(made, source, origin)
        self.route(source, target, origin, (trunk, high), (trunk, y), (x, y))
        for pin in gates:
            gx, gy = self.spot(pin)
            self.route(source, pin, (trunk, high), (gx, high), (gx, gy))
