"""Scene: what a block diagram is made of, before it has places.

A circuit becomes elements (its parts, inputs and outputs, with sizes and pins) and threads
(its nets, from one pin to others). No value is in it: the scene of a design is the same in
every row.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from typing import Final

from edgewise.circuit.model import CLOCK, Circuit, Part
from edgewise.circuit.netlist import CLOCK_NET
from edgewise.circuit.parts import has_clock
from edgewise.circuit.storage import stores
from edgewise.views.diagram import (
    adder_array,
    carry_chain,
    carry_loop,
    cell_row,
    group_chain,
    insides,
    lookahead_tree,
    looks,
    part_geometry,
    prefix_graph,
    register_row,
    terminals,
)
from edgewise.views.diagram.bit_slices import slices
from edgewise.views.diagram.digit_columns import digits
from edgewise.views.diagram.drivers import Origin
from edgewise.views.diagram.elements import Element, Pin, small
from edgewise.views.diagram.loads import Sink, Sinks
from edgewise.views.diagram.named_controls import NamedControls
from edgewise.views.diagram.nets import Loop, Scene, Thread
from edgewise.views.diagram.options import Manner
from edgewise.views.diagram.ordering import seats
from edgewise.views.diagram.part_geometry import Terminals


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
    look = looks.asked(circuit)
    figure = None
    if look != looks.PLAIN:
        figure = _structure(circuit, names, replace(manner, opened=frozenset()), look)
        if look and figure is None:
            raise looks.refuse(circuit, look)
    if figure is None or manner.opened:
        parts = _parts(circuit, names, manner)
        if figure is None:
            return parts
        order = [part.name for part in circuit.parts if part.name in manner.opened]
        return insides.added(figure, parts, order)
    return figure


def _parts(circuit: Circuit, names: Mapping[str, tuple[int, ...]], manner: Manner) -> Scene:
    """The scene of the parts one by one, to be laid out."""
    room = _Room(circuit, names, manner, "")
    room.build()
    tight = manner.narrow > 0
    return Scene(tuple(room.elements), tuple(room.threads), loop=room.loop, tight=tight)


def _structure(
    circuit: Circuit, names: Mapping[str, tuple[int, ...]], manner: Manner, look: str
) -> Scene | None:
    """The scene as what it is, or as what is asked for; nothing if it is none of these."""
    narrow = manner.narrow
    adders = carry_chain.chain(circuit) if look in ("", "row") else ()
    if adders:
        if narrow:
            from edgewise.views.diagram.chain_rows import rows  # few figures need it

            return rows(circuit, adders, names, narrow)
        return carry_chain.row(circuit, adders, names)
    clocked = manner.clock == "wires" and any(stores(part.kind) for part in circuit.parts)
    grouped = look in ("", "groups") and not clocked
    groups = group_chain.find(circuit) if grouped else None
    if groups:
        return group_chain.places(circuit, groups, names, narrow)
    graph = prefix_graph.find(circuit) if look in ("", "prefix-graph") else None
    if graph:
        from edgewise.views.diagram.prefix_columns import columns  # few figures need it

        return columns(circuit, graph, names, narrow=narrow)
    tree = lookahead_tree.find(circuit) if look in ("", "groups") else None
    if tree:
        from edgewise.views.diagram import lookahead_places  # few figures need it

        return lookahead_places.places(circuit, tree, names, narrow=narrow > 0)
    made = _parts(circuit, names, manner)
    sliced = slices(made, narrow=narrow > 0) if look in ("", "row") else None
    row = register_row.row(made) if look in ("", "row") else None
    side = digits(made) if look in ("", "groups") else None
    return sliced or row or side or _array(made, manner, look) or _cells(made, manner, look)


def _array(made: Scene, manner: Manner, look: str) -> Scene | None:
    """The scene as an array of adders, if it is one."""
    array = adder_array.find(made) if look in ("", "array") else None
    if array is None:
        return None
    from edgewise.views.diagram import array_places  # few figures need it

    return array_places.places(made, array, narrow=manner.narrow > 0)


_MOST_CELLS: Final = 4
"""Of a row that registers feed; a longer one is drawn as a datapath."""


def _cells(made: Scene, manner: Manner, look: str) -> Scene | None:
    """The scene as a row of cells, or with all of them as one, if it is one."""
    row = cell_row.find(made) if look in ("", "row", "datapath") else None
    if row is None:
        return None
    long = row.below is not None and len(row.cells) > _MOST_CELLS
    if look == "datapath" or (not look and row.flag is None and (manner.narrow or long)):
        from edgewise.views.diagram import datapath, datapath_places

        path = datapath.find(made, row)
        placed = datapath_places.places(made, path) if path else None
        if placed or look:
            return placed
    from edgewise.views.diagram.cell_columns import columns  # few figures need it

    return columns(made, row)


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
    sinks: Sinks = field(init=False)
    ends: defaultdict[tuple[str, str], list[str]] = field(default_factory=lambda: defaultdict(list))
    """Of each driving port, its owner first: the pins it goes to."""
    hanging: list[Element] = field(default_factory=list)
    loose: list[Element] = field(default_factory=list)
    """Constants at an opened part, where nothing can hang."""
    loop: Loop | None = None

    def build(self) -> None:
        """Fill `elements` and `threads`."""
        enters = self.holder is not None and any(p.port == CLOCK for p in self.holder.pins)
        wired = self.manner.clock == "wires" and (self.holder is None or enters)
        self.sinks = Sinks(self.circuit, clocked=wired)
        self.sinks.hide(self.manner, clock_enters=enters)
        if self.holder is not None:
            self.sinks.keep_outputs({pin.port for pin in self.holder.pins if pin.side == "right"})
        names = [net.name for net in self.circuit.inputs if self.sinks.drives("", net.name)]
        if wired and CLOCK not in names and self.sinks.drives("", CLOCK):
            names.append(CLOCK)
        parts = [self._part(part) for part in self.circuit.parts if self.sinks.shown(part)]
        outputs = [self._output(sink) for sink in self.sinks.of("")]
        entrances = [self._input(name) for name in names] + self.loose
        self._thread()
        if self.holder is None:
            parts = self._loop(parts)
            driving = {thread.source for thread in self.threads}
            entrances = [one for one in entrances if one.pins[0].id in driving]
            self._name_controls(entrances, parts)
            outputs = self._hang_outputs(parts, outputs)
        order = self.holder is not None
        seeds = seats(entrances, parts, outputs, self.threads, in_order=order)
        standing = [replace(e, seed=seeds.get(e.id)) for e in (*entrances, *parts, *outputs)]
        if self.loop:
            (whole,) = (e for e in standing if e.role == "pair")
            place = standing.index(whole)
            standing[place : place + 1] = [element for element, _ in self.loop.members]
            self.loop = replace(self.loop, whole=whole)
            self.threads += (thread for thread, _ in self.loop.threads)
        self.elements = [*standing, *self.hanging]

    def _loop(self, parts: list[Element]) -> list[Element]:
        """The parts with a carry flip-flop under its adder."""
        if self.manner.clock == "wires" or looks.asked(self.circuit) == looks.PLAIN:
            return parts
        made = carry_loop.looped(parts, self.threads, stacked=self.manner.narrow > 1)
        if made is None:
            return parts
        self.loop, self.threads = made.loop, made.threads
        return made.parts

    def _name_controls(self, entrances: list[Element], parts: list[Element]) -> None:
        """No control runs under the adder and its flip-flop; where all is stacked, none has to."""
        if self.loop is None or self.manner.narrow > 1:
            return
        made = NamedControls(entrances, parts, self.threads, self.loop.whole)
        made.name()
        self.hanging += made.hanging

    # ------------------------------------------------------------ pins

    def _nets(self, owner: str, port: str) -> tuple[int, ...]:
        name = f"{self.path}{owner}.{port}" if owner else self.path + port
        # Nobody has to write the clock; then it has no name in the netlist.
        return (CLOCK_NET,) if port == CLOCK and name not in self.names else self.names[name]

    def _pins(self, sink: Sink, prefix: str) -> tuple[Pin, ...]:
        """The pins of a sink, LSB first; each is noted as an end of its driver."""
        nets = self._nets(sink.owner, sink.port)
        pins = []
        for run in sink.runs:
            which = _which(run.at, run.width) if run.width < len(nets) else ""
            bits = nets[run.at : run.at + run.width]
            note = ""
            if run.origin is not None:
                driver = run.origin.owner, run.origin.port
                if run.width < self.sinks.widths[driver]:
                    note = _which(run.origin.index, run.width)
            else:
                bits = tuple(int(tie) for tie in run.ties)
            pin = Pin(f"{prefix}{sink.port}{which}", sink.port, bits, which, note)
            pins.append(pin)
        return tuple(pins)

    def _connect(self, sink: Sink, pins: tuple[Pin, ...], element: Element) -> None:
        """Note each pin as an end of its driver, or hang its constant on it."""
        placed = {pin.id: pin for pin in element.pins}
        for run, pin in zip(sink.runs, pins, strict=True):
            origin = run.origin
            bare = origin == Origin("", CLOCK) and self.holder is None
            if origin is None or (bare and self.manner.clock != "wires"):
                digits = "".join("01X"[bit] for bit in reversed(run.ties)) or CLOCK
                self._hang(placed[pin.id], digits, element)
            else:
                self.ends[origin.owner, origin.port].append(pin.id)

    def _hang(self, pin: Pin, digits: str, element: Element) -> None:
        constant = terminals.tie(pin, pin.id, digits)
        kind = "clock" if digits == CLOCK else ""
        if element.inside:
            constant = replace(constant, hangs_on=None)
            self.loose.append(constant)
        else:
            self.hanging.append(constant)
        self.threads.append(Thread(f"{constant.id}~", constant.pins[0].id, (pin.id,), kind))

    # ------------------------------------------------------------ elements

    def _part(self, part: Part) -> Element:
        ident = self.path + part.name
        sinks = self.sinks.of(part.name)
        inputs = {sink.port: self._pins(sink, f"{ident}.") for sink in sinks}
        outputs = {
            port.name: Pin(f"{ident}.{port.name}", port.name, self._nets(part.name, port.name))
            for port in part.kind.ports
            if port.direction == "out" and self.sinks.drives(part.name, port.name)
        }
        stores = part.kind.role == "storage"
        terminals = Terminals(
            ident,
            part.name,
            part.kind,
            inputs,
            outputs,
            self.names[ident] if stores else (),
            has_clock(part.kind) and self.manner.clock != "hidden",
            self.manner.style,
            narrow=self.manner.narrow > 0,
        )
        if ident in self.manner.opened and part.kind.inside is not None:
            element = self._opened(part, terminals, part.kind.inside)
        else:
            element = part_geometry.place(terminals)
        for sink in sinks:
            self._connect(sink, inputs[sink.port], element)
        return element

    def _opened(self, part: Part, terminals: Terminals, inside: Circuit) -> Element:
        pins = [p.put("left", float(i)) for i, p in enumerate(terminals.all_inputs())]
        pins += [p.put("right", float(i)) for i, p in enumerate(terminals.outputs.values())]
        holder = Element(
            terminals.id,
            "open",
            part.kind.name,
            part.name,
            small(part.name) * 1.5 + 40,
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
            control = self.sinks.kind("", name) in ("control", "clock")
            return terminals.terminal_in(name, pin, control=control, cells=name != CLOCK)
        outer = [pin for pin in self.holder.pins if pin.port == name and pin.side == "left"]
        return self._passage(name, [replace(p, id=f"{p.id}<") for p in outer], outer, nets)

    def _passage(
        self, name: str, pins: list[Pin], outer: list[Pin], nets: tuple[int, ...]
    ) -> Element:
        through = Pin(f"{self.path}{name}>", name, nets)
        made = terminals.passage(f"{self.path}{name}|", name, pins, through, "enter")
        for here, there in zip(pins, outer, strict=True):
            kind = self.sinks.kind("", name)
            self.threads.append(Thread(f"{there.id}~in", there.id, (here.id,), kind))
        return made

    def _output(self, sink: Sink) -> Element:
        pins = self._pins(sink, f"{self.path}{sink.port}<")
        nets = self._nets("", sink.port)
        if self.holder is None:
            word = () if self.sinks.stands_elsewhere(sink) else nets
            made = terminals.terminal_out(f"{sink.port}", sink.port, pins, word)
            self._connect(sink, pins, made)
            return made
        outer = next(p for p in self.holder.pins if p.id == f"{self.path}{sink.port}")
        through = Pin(f"{self.path}{sink.port}>", sink.port, nets)
        made = terminals.passage(
            f"{self.path}{sink.port}|", sink.port, pins[::-1], through, "leave"
        )
        self._connect(sink, pins, made)
        origin = sink.runs[0].origin
        kind = self.sinks.kind(origin.owner, origin.port) if origin else ""
        self.threads.append(Thread(f"{outer.id}~out", through.id, (outer.id,), kind))
        return made

    # ------------------------------------------------------------ threads

    def _thread(self) -> None:
        for (owner, port), ends in self.ends.items():
            if owner:
                source = f"{self.path}{owner}.{port}"
            elif self.holder is None:
                source = f"{port}."
            else:
                source = f"{self.path}{port}>"
            kind = self.sinks.kind(owner, port)
            self.threads.append(Thread(f"{source}~", source, tuple(ends), kind))

    def _hang_outputs(self, parts: list[Element], outputs: list[Element]) -> list[Element]:
        """Outputs of a part that drives several wires hang on it, where there is room.

        In a column of their own, their wires would have to run round one another.
        """
        left = []
        sole = {t.targets[0]: t.source for t in self.threads if len(t.targets) == 1}
        alone = len(parts) == 1
        host = {
            pin.id: part
            for part in parts
            if part.role in ("storage", "pair") or (alone and part.role != "open")
            for pin in part.pins
        }
        for output in outputs:
            source = sole.get(output.pins[0].id) if len(output.pins) == 1 else None
            part = host.get(source) if source else None
            if source and part and _has_room(part, source, output):
                self.hanging.append(replace(output, hangs_on=source, stem=28.0))
            else:
                left.append(output)
        return left


def _has_room(part: Element, source: str, output: Element) -> bool:
    """Whether a part drives several wires, and none runs where the output would hang."""
    here = next(pin for pin in part.pins if pin.id == source)
    beside = [p.at for p in part.pins if p.side == here.side and p.id != source]
    top = here.at - output.pins[0].at
    return (
        here.side == "right"
        and bool(beside)
        and all(at + 10 <= top or top + output.height + 10 <= at for at in beside)
    )


def _which(low: int, width: int) -> str:
    return f"({low})" if width == 1 else f"({low + width - 1}..{low})"
