"""Scene: what a block diagram is made of, before it has places.

A circuit becomes elements (its parts, inputs and outputs, with sizes and pins) and threads
(its nets, from one pin to others). No value is in it: the scene of a design is the same in
every row.
"""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace
from typing import Final, Literal, TypeAlias

from edgewise.circuit.model import CLOCK, Circuit, Part
from edgewise.views import chain, places
from edgewise.views.columns import MOST, Node, columns, mean, rows
from edgewise.views.places import Element, Pin, Terminals
from edgewise.views.sources import Origin, Run, Sources
from edgewise.views.stack import stack
from edgewise.views.symbols import Style
from edgewise.views.threads import Scene, Thread

Clock: TypeAlias = Literal["wedge", "hidden", "wires"]

STORES: Final = ("flip-flop", "register", "shift-register", "counter")
CONTROLS: Final = ("enable", "clear", "load", "left")
"""Ports of storing parts that say what an edge does."""
_GATES: Final = ("and", "or", "xor", "nand", "nor", "xnor", "not", "buffer")
_CARRY: Final = re.compile(r"carry.*|c\d+")
_GENERATE: Final = re.compile(r"[gp]\d+|generate|propagate")


@dataclass(frozen=True, slots=True)
class Manner:
    """How a scene is drawn, whatever is in it."""

    opened: frozenset[str] = frozenset()
    """Paths of parts drawn with their inside."""
    clock: Clock = "wedge"
    style: Style = "distinctive"


def scene(
    circuit: Circuit, names: Mapping[str, tuple[int, ...]], manner: Manner | None = None
) -> Scene:
    """The scene of a whole circuit.

    Parameters
    ----------
    circuit : Circuit
    names : mapping of str to tuple of int
        Net numbers of every name, as in `Netlist.names`.
    manner : Manner, optional
    """
    manner = manner or Manner()
    adders = () if manner.opened else chain.chain(circuit)
    if adders:
        return chain.row(circuit, adders, names)
    room = _Room(circuit, names, manner, "")
    room.build()
    made = Scene(tuple(room.elements), tuple(room.threads))
    return stack(made) or made


@dataclass(slots=True)
class _Sink:
    """An input port of a part, or an output of the circuit, with what feeds it."""

    owner: str
    port: str
    runs: tuple[Run, ...]
    control: bool = False


@dataclass(slots=True)
class _Room:
    """One level of a circuit: the page, or the inside of an opened part."""

    circuit: Circuit
    names: Mapping[str, tuple[int, ...]]
    manner: Manner
    path: str
    """``FA.`` inside FA; empty on the page."""
    holder: Element | None = None
    """The opened part around it."""
    elements: list[Element] = field(default_factory=list)
    threads: list[Thread] = field(default_factory=list)
    sinks: list[_Sink] = field(default_factory=list)
    widths: dict[tuple[str, str], int] = field(default_factory=dict)
    ends: dict[tuple[str, str], list[tuple[str, str]]] = field(
        default_factory=lambda: defaultdict(list)
    )
    """Of each driving port: the pins it goes to, each with its port's name."""
    hanging: list[Element] = field(default_factory=list)
    passages: list[Element] = field(default_factory=list)

    # ------------------------------------------------------------ what is shown

    def build(self) -> None:
        """Fill `elements` and `threads`."""
        self._gather()
        self._hide()
        inputs = [net.name for net in self.circuit.inputs if self._drives("", net.name)]
        if self.manner.clock == "wires" and self.holder is None and self._drives("", CLOCK):
            inputs.append(CLOCK)
        parts = [self._part(part) for part in self.circuit.parts if self._shown(part)]
        outputs = [self._output(sink) for sink in self.sinks if not sink.owner]
        entrances = [self._input(name) for name in inputs]
        self._thread()
        if self.holder is None:
            outputs = self._hang_outputs(parts, outputs)
        everything = [*entrances, *parts, *outputs]
        self._seed(entrances, parts, outputs)
        seeds = {e.id: e.seed for e in self.elements}
        self.elements = [replace(e, seed=seeds.get(e.id)) for e in everything] + self.hanging

    def _gather(self) -> None:
        sources = Sources(self.circuit)
        for net in self.circuit.inputs:
            self.widths["", net.name] = net.width
        self.widths["", CLOCK] = 1
        for part in self.circuit.parts:
            for port in part.kind.ports:
                if port.direction == "out":
                    self.widths[part.name, port.name] = port.width
                    continue
                signal = part.signal(port.name)
                single = part.kind.name in _GATES
                runs = sources.single(signal) if single else sources.runs(signal)
                control = port.name in CONTROLS and part.kind.name in STORES
                self.sinks.append(_Sink(part.name, port.name, runs, control))
        for output in self.circuit.outputs:
            self.sinks.append(_Sink("", output.name, sources.runs(output.signal)))

    def _hide(self) -> None:
        """Take away what is not drawn: the bare clock, controls by option, what fed only them."""
        before = {name: self._drives(name) for name in self._part_names()}
        clock = Origin("", CLOCK)
        shown = []
        for sink in self.sinks:
            bare = sink.port == CLOCK and [run.origin for run in sink.runs] == [clock]
            inner = self.holder is not None and any(
                pin.port == CLOCK for pin in self.holder.pins
            )
            if bare and self.manner.clock != "wires" and not inner:
                continue
            opened = self.path + sink.owner in self.manner.opened
            if sink.control and self.manner.clock == "hidden" and not opened and not self.path:
                continue
            shown.append(sink)
        self.sinks = shown
        while True:
            idle = {n for n in self._part_names() if before[n] and not self._drives(n)}
            left = [sink for sink in self.sinks if sink.owner not in idle]
            if len(left) == len(self.sinks):
                break
            self.sinks = left

    def _part_names(self) -> list[str]:
        return [part.name for part in self.circuit.parts]

    def _drives(self, owner: str, port: str | None = None) -> bool:
        return any(
            run.origin is not None
            and run.origin.owner == owner
            and (port is None or run.origin.port == port)
            for sink in self.sinks
            for run in sink.runs
        )

    def _shown(self, part: Part) -> bool:
        """Whether anything of a part is left: its inputs, or an output that goes somewhere."""
        return any(sink.owner == part.name for sink in self.sinks) or self._drives(part.name) or (
            part.kind.name in STORES
        )

    # ------------------------------------------------------------ pins

    def _nets(self, owner: str, port: str) -> tuple[int, ...]:
        if not owner and port == CLOCK and self.path + port not in self.names:
            return (3,)
        return self.names[f"{self.path}{owner}.{port}" if owner else self.path + port]

    def _pins(self, sink: _Sink, prefix: str) -> tuple[Pin, ...]:
        """The pins of a sink, LSB first; each is noted as an end of its driver."""
        nets = self._nets(sink.owner, sink.port)
        pins = []
        for run in sink.runs:
            which = _which(run.at, run.width) if run.width < len(nets) else ""
            bits = nets[run.at : run.at + run.width]
            note = ""
            if run.origin is not None:
                driver = run.origin.owner, run.origin.port
                if run.width < self.widths[driver]:
                    note = _which(run.origin.index, run.width)
            else:
                bits = tuple(int(tie) for tie in run.ties)
            pin = Pin(f"{prefix}{sink.port}{which}", sink.port, bits, which, note)
            pins.append(pin)
        return tuple(pins)

    def _connect(self, sink: _Sink, pins: tuple[Pin, ...], element: Element) -> None:
        """Note each pin as an end of its driver, or hang its constant on it."""
        placed = {pin.id: pin for pin in element.pins}
        for run, pin in zip(sink.runs, pins, strict=True):
            origin = run.origin
            bare = origin == Origin("", CLOCK) and self.holder is None
            if origin is None or (bare and self.manner.clock != "wires"):
                digits = "".join("01X"[bit] for bit in reversed(run.ties)) or CLOCK
                self._hang(placed[pin.id], digits, element)
            else:
                self.ends[origin.owner, origin.port].append((pin.id, sink.port))

    def _hang(self, pin: Pin, digits: str, element: Element) -> None:
        constant = places.tie(pin, pin.id, digits)
        if element.inside:
            constant = replace(constant, hangs_on=None)
            self.passages.append(constant)
        kind = "clock" if digits == CLOCK else ""
        self.hanging.append(constant)
        self.threads.append(Thread(f"{constant.id}~", constant.pins[0].id, (pin.id,), kind))

    # ------------------------------------------------------------ elements

    def _part(self, part: Part) -> Element:
        ident = self.path + part.name
        sinks = [sink for sink in self.sinks if sink.owner == part.name]
        inputs = {sink.port: self._pins(sink, f"{ident}.") for sink in sinks}
        outputs = {
            port.name: Pin(
                f"{ident}.{port.name}", port.name, self._nets(part.name, port.name)
            )
            for port in part.kind.ports
            if port.direction == "out" and self._drives(part.name, port.name)
        }
        stores = part.kind.name in STORES
        terminals = Terminals(
            ident,
            part.name,
            part.kind.name,
            inputs,
            outputs,
            dict(part.kind.settings),
            self.names[ident] if stores else (),
            stores and self.manner.clock != "hidden",
            self.manner.style,
        )
        if ident in self.manner.opened and part.kind.inside is not None:
            element = self._opened(part, terminals, part.kind.inside)
        else:
            element = places.place(terminals)
        for sink in sinks:
            self._connect(sink, inputs[sink.port], element)
        return element

    def _opened(self, part: Part, terminals: Terminals, inside: Circuit) -> Element:
        pins = [p.put("left", float(i)) for i, p in enumerate(terminals.all_inputs())]
        pins += [p.put("right", float(i)) for i, p in enumerate(terminals.outputs.values())]
        holder = Element(
            terminals.id,
            "open",
            terminals.kind,
            part.name,
            places.small(part.name) * 1.5 + 40,
            40.0,
            tuple(pins),
        )
        room = _Room(inside, self.names, self.manner, f"{terminals.id}.", holder)
        room.build()
        self.threads += room.threads
        return replace(holder, inside=tuple(room.elements))

    def _input(self, name: str) -> Element:
        nets = self._nets("", name)
        if self.holder is None:
            pin = Pin(f"{name}.", name, nets)
            control = bool(self._kind("", name) in ("control", "clock"))
            return places.terminal_in(name, pin, control=control)
        outer = [pin for pin in self.holder.pins if pin.port == name and pin.side == "left"]
        return self._passage(name, [replace(p, id=f"{p.id}<") for p in outer], outer, nets)

    def _passage(
        self, name: str, pins: list[Pin], outer: list[Pin], nets: tuple[int, ...]
    ) -> Element:
        through = Pin(f"{self.path}{name}>", name, nets)
        made = places.passage(f"{self.path}{name}|", name, pins, through, "enter")
        for here, there in zip(pins, outer, strict=True):
            kind = self._kind("", name)
            self.threads.append(Thread(f"{there.id}~in", there.id, (here.id,), kind))
        return made

    def _output(self, sink: _Sink) -> Element:
        pins = self._pins(sink, f"{self.path}{sink.port}<")
        nets = self._nets("", sink.port)
        if self.holder is None:
            word = () if self._stands_elsewhere(sink) else nets
            made = places.terminal_out(f"{sink.port}", sink.port, pins, word)
            self._connect(sink, pins, made)
            return made
        outer = next((p for p in self.holder.pins if p.id == f"{self.path}{sink.port}"), None)
        through = Pin(f"{self.path}{sink.port}>", sink.port, nets)
        made = places.passage(
            f"{self.path}{sink.port}|", sink.port, pins[::-1], through, "leave"
        )
        self._connect(sink, pins, made)
        if outer is not None:
            ends = [*self._kinds_of(sink)]
            kind = "carry" if _CARRY.fullmatch(sink.port) or "carry" in ends else ""
            self.threads.append(Thread(f"{outer.id}~out", through.id, (outer.id,), kind))
        return made

    def _kinds_of(self, sink: _Sink) -> Iterator[str]:
        for run in sink.runs:
            if run.origin is not None:
                yield self._kind(run.origin.owner, run.origin.port)

    def _stands_elsewhere(self, sink: _Sink) -> bool:
        """Whether the cells of one part, or of an input, show the same bits."""
        if len(sink.runs) != 1 or sink.runs[0].origin is None:
            return False
        origin = sink.runs[0].origin
        if not origin.owner:
            return True
        part = self.circuit.part(origin.owner)
        stored = ("q", "out", "left-out")
        return part is not None and part.kind.name in STORES and origin.port in stored

    # ------------------------------------------------------------ threads

    def _kind(self, owner: str, port: str) -> str:
        ends = [
            (sink, run)
            for sink in self.sinks
            for run in sink.runs
            if run.origin is not None and (run.origin.owner, run.origin.port) == (owner, port)
        ]
        ports = [sink.port for sink, _ in ends]
        if (not owner and port == CLOCK) or CLOCK in ports:
            return "clock"
        named = [port, *ports]
        if any(map(_CARRY.fullmatch, named)) and not any(map(_GENERATE.fullmatch, named)):
            return "carry"
        if ends and all(self._is_control(sink) for sink, _ in ends):
            return "control"
        return ""

    def _is_control(self, sink: _Sink) -> bool:
        part = self.circuit.part(sink.owner) if sink.owner else None
        if part is not None and part.kind.name == "and" and self._kind(part.name, "out") == "clock":
            return True
        select = part is not None and part.kind.name == "multiplexer" and sink.port == "select"
        return sink.control or select

    def _thread(self) -> None:
        for (owner, port), ends in self.ends.items():
            if owner:
                source = f"{self.path}{owner}.{port}"
            elif self.holder is None:
                source = f"{port}."
            else:
                source = f"{self.path}{port}>"
            targets = tuple(pin for pin, _ in ends)
            self.threads.append(
                Thread(f"{source}~", source, targets, self._kind(owner, port))
            )

    def _hang_outputs(self, parts: list[Element], outputs: list[Element]) -> list[Element]:
        """Outputs of a part that drives several wires hang on it, where there is room.

        In a column of their own, their wires would have to run round one another.
        """
        left = []
        sole = {t.targets[0]: t.source for t in self.threads if len(t.targets) == 1}
        host = {pin.id: part for part in parts if not part.inside for pin in part.pins}
        for output in outputs:
            source = sole.get(output.pins[0].id) if len(output.pins) == 1 else None
            part = host.get(source) if source else None
            if source and part and _has_room(part, source, output):
                self.hanging.append(replace(output, hangs_on=source, stem=28.0))
            else:
                left.append(output)
        return left

    # ------------------------------------------------------------ seeds

    def _seed(
        self, entrances: list[Element], parts: list[Element], outputs: list[Element]
    ) -> None:
        loose = [e for e in self.passages if e.hangs_on is None]
        if len(entrances) + len(parts) + len(outputs) + len(loose) > MOST:
            self.elements = []
            return
        home = {
            pin.id: element.id for e in (entrances, parts, outputs, loose) for element in e
            for pin in element.pins
        }
        links = {
            (home[t.source], home[target])
            for t in self.threads
            for target in t.targets
            if t.source in home and target in home
        }
        among = {e.id for e in parts}
        inner = sorted((a, b) for a, b in links if a in among and b in among)
        nodes = [self._node(e, inner, links) for e in parts]
        column = columns(nodes, inner)
        row = rows(nodes, inner, column)
        end = max(column.values(), default=0) + 1
        for e in (*entrances, *loose):
            column[e.id] = 0
        for e in outputs:
            column[e.id] = end
        for number, e in enumerate((*entrances, *loose, *outputs)):
            beside = [row[b] for a, b in sorted(links) if a == e.id and b in among]
            beside += [row[a] for a, b in sorted(links) if b == e.id and a in among]
            row[e.id] = float(number) if self.holder else mean(beside, float(number))
        ranked = sorted(row, key=lambda name: (row[name], list(row).index(name)))
        seeds = {name: (column[name], rank) for rank, name in enumerate(ranked)}
        self.hanging = [replace(e, seed=seeds.get(e.id)) for e in self.hanging]
        self.elements = [
            replace(e, seed=seeds[e.id]) for e in (*entrances, *parts, *outputs)
        ]

    def _node(
        self, element: Element, inner: list[tuple[str, str]], links: set[tuple[str, str]]
    ) -> Node:
        storing = element.kind in STORES
        ends = {b for a, b in links if a == element.id}
        kinds = {self.path + p.name: p.kind.name for p in self.circuit.parts}
        front = element.kind == "multiplexer" and bool(ends) and all(
            kinds.get(b) in STORES for b in ends
        )
        return Node(element.id, storing, len(element.word), front)


def _has_room(part: Element, source: str, output: Element) -> bool:
    """Whether a part drives several wires, and none runs where the output would hang."""
    here = next(pin for pin in part.pins if pin.id == source)
    beside = [p.at for p in part.pins if p.side == here.side and p.id != source]
    top = here.at - output.pins[0].at
    return (
        here.side == "right"
        and bool(beside)
        and all(at + 4 < top or top + output.height + 4 < at for at in beside)
    )


def _which(low: int, width: int) -> str:
    return f"({low})" if width == 1 else f"({low + width - 1}..{low})"
