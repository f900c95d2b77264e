"""Changing a design in one place: parts, connections, phases, flip-flops."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from itertools import count

from edgewise.circuit import parts
from edgewise.circuit.builder import Builder
from edgewise.circuit.cover import Cover
from edgewise.circuit.model import Circuit, Connection, Kind, Part, Signal, Wire
from edgewise.circuit.netlist import CONSTANTS, FlipFlop, Gate, Netlist
from edgewise.design import Design, Feed, Phase


def with_parts(design: Design, change: Callable[[Part], Part]) -> Design:
    """The design with each top-level part put through `change`."""
    circuit = design.circuit
    return with_circuit(design, replace(circuit, parts=tuple(change(p) for p in circuit.parts)))


def everywhere(design: Design, change: Callable[[Circuit], Circuit]) -> Design:
    """The design with its circuit, and every circuit that it uses as a part, put through `change`.

    What is inside a part of the notation itself, such as a full adder, is left alone.

    Examples
    --------
    >>> from edgewise import catalogue
    >>> seen = []
    >>> _ = everywhere(
    ...     catalogue.design("carry-skip-adder", n=8), lambda c: seen.append(c.name) or c
    ... )
    >>> seen
    ['group of places', 'group of places', 'carry-skip adder']
    """
    made: dict[int, Kind] = {}

    def of(circuit: Circuit) -> Circuit:
        inner = tuple(inside(part) for part in circuit.parts)
        same = all(one is other for one, other in zip(inner, circuit.parts, strict=True))
        return change(circuit if same else replace(circuit, parts=inner))

    def inside(part: Part) -> Part:
        kind = part.kind
        if kind.inside is None or kind.role != "circuit":
            return part
        if id(kind) not in made:
            changed = of(kind.inside)
            made[id(kind)] = kind if changed is kind.inside else replace(kind, inside=changed)
        return part if made[id(kind)] is kind else replace(part, kind=made[id(kind)])

    circuit = of(design.circuit)
    return design if circuit is design.circuit else with_circuit(design, circuit)


def with_circuit(design: Design, circuit: Circuit) -> Design:
    """The design with another circuit inside."""
    return replace(design, circuit=circuit, altered=None)


def rewired(part: Part, signals: Mapping[str, Signal]) -> Part:
    """The part with other bits at some of its ports.

    A port that was not in use makes it another kind, with that port.
    """
    given = {c.port: c.signal for c in part.connections} | dict(signals)
    kind = part.kind
    if any(kind.port(name) is None for name in signals):
        kind = remade(kind, {name: len(signal) for name, signal in given.items()})
    places = {c.port: c.place for c in part.connections}
    connections = tuple(
        Connection(port.name, given[port.name], places.get(port.name)) for port in kind.ports
    )
    return replace(part, kind=kind, connections=connections)


def without(part: Part, port: str) -> Part:
    """The part with an optional input left unconnected."""
    connections = tuple(c for c in part.connections if c.port != port)
    kind = remade(part.kind, {c.port: len(c.signal) for c in connections})
    return replace(part, kind=kind, connections=connections)


def driven(circuit: Circuit, output: str, gate: str, inputs: Sequence[str]) -> Circuit:
    """The circuit with an output driven by a gate of some inputs, without what is then unread.

    Examples
    --------
    >>> adder = parts.kind("half-adder", {}, {"a": 1, "b": 1}).inside
    >>> [part.kind.name for part in driven(adder, "sum", "or", ("a", "b")).parts]
    ['and', 'or']
    """
    taken = {part.name for part in circuit.parts}
    name = next(free for number in count(1) if (free := f"{gate.upper()}{number}") not in taken)
    signal = tuple(Wire(one) for one in inputs)
    added = Builder(circuit.name).part(name, gate, {"in": signal})
    outputs = tuple(
        replace(one, signal=added["out"]) if one.name == output else one for one in circuit.outputs
    )
    return _read(replace(circuit, parts=(*circuit.parts, added.part), outputs=outputs))


def _read(circuit: Circuit) -> Circuit:
    """The circuit without the parts whose outputs nothing reads."""
    reading = [bit for one in circuit.outputs for bit in one.signal]
    reading += [bit for one in circuit.joins for bit in one.source]
    reading += [b for p in circuit.parts for port in p.kind.ins for b in p.signal(port.name)]
    read = set(reading)
    kept = tuple(
        part
        for part in circuit.parts
        if any(bit in read for port in part.kind.outs for bit in part.signal(port.name))
    )
    return circuit if kept == circuit.parts else _read(replace(circuit, parts=kept))


def remade(kind: Kind, widths: Mapping[str, int], **settings: int | str) -> Kind:
    """The same type of part with other ports in use or other settings."""
    return parts.kind(kind.name, {**dict(kind.settings), **settings}, widths)


def with_feeds(design: Design, change: Callable[[Feed], Feed]) -> Design:
    """The design with each feed of its procedure put through `change`."""
    procedure = tuple(
        replace(phase, feeds=tuple(change(feed) for feed in phase.feeds))
        for phase in design.procedure
    )
    return replace(design, procedure=procedure)


def longer(design: Design, edges: int = 1) -> Design:
    """The design with its last phase longer (or shorter) by some edges."""
    last = max(i for i, phase in enumerate(design.procedure) if phase.edges)
    procedure = list(design.procedure)
    procedure[last] = replace(procedure[last], edges=procedure[last].edges + edges)
    return replace(design, procedure=tuple(procedure))


def read_after(design: Design, row: Callable[[int], int]) -> Design:
    """The design with its answers read in other rows: `row` of the right one."""
    computes = tuple(
        replace(p, after=row(design.edges if p.after is None else p.after)) for p in design.computes
    )
    return replace(design, computes=computes)


def phases_with_edges(design: Design) -> Iterator[Phase]:
    """The phases that have any edge."""
    return (phase for phase in design.procedure if phase.edges)


def in_part(flip_flop: FlipFlop, part: str) -> bool:
    """Whether a flip-flop is a top-level part or inside one."""
    return flip_flop.name == part or flip_flop.name.startswith(f"{part}.")


def with_flip_flops(design: Design, change: Callable[[FlipFlop], FlipFlop]) -> Design:
    """The design with each flip-flop of its netlist put through `change`."""
    netlist = design.netlist
    changed = tuple(change(flip_flop) for flip_flop in netlist.flip_flops)
    return replace(design, altered=replace(netlist, flip_flops=changed))


def stuck(netlist: Netlist, net: int, bit: int) -> Netlist:
    """The netlist with all that reads a net reading a constant; its driver drives nothing."""
    changed = _reading(netlist, {net: CONSTANTS[bit]})
    names = {
        name: tuple(CONSTANTS[bit] if one == net else one for one in bits)
        for name, bits in netlist.names.items()
    }
    return replace(changed, names=names)


def exchanged(netlist: Netlist, one: int, other: int) -> Netlist | None:
    """The netlist with two nets swapped for all that reads them; None if that makes a loop."""
    changed = _reading(netlist, {one: other, other: one})
    waiting = {gate.output for gate in changed.gates}
    ordered, left = [], list(changed.gates)
    while left:
        ready = [gate for gate in left if not waiting & {*gate.inputs}]
        if not ready:
            return None
        ordered += ready
        waiting -= {gate.output for gate in ready}
        left = [gate for gate in left if gate.output in waiting]
    return replace(changed, gates=tuple(ordered))


def _reading(netlist: Netlist, instead: Mapping[int, int]) -> Netlist:
    """The netlist with all that reads some nets reading others instead."""

    def read(net: int) -> int:
        return instead.get(net, net)

    def maybe(net: int | None) -> int | None:
        return None if net is None else read(net)

    outputs = {name: tuple(map(read, bits)) for name, bits in netlist.outputs.items()}
    netlist = _without_covers(netlist, lambda nets, _: bool(nets & instead.keys()))
    return replace(
        netlist,
        gates=tuple(
            replace(g, inputs=tuple(map(read, g.inputs)), cover=g.cover and g.cover.over(read))
            for g in netlist.gates
        ),
        flip_flops=tuple(
            replace(
                f,
                d=read(f.d),
                enable=maybe(f.enable),
                clear=maybe(f.clear),
                gate=maybe(f.gate),
                cover=f.cover and f.cover.over(read),
            )
            for f in netlist.flip_flops
        ),
        outputs=outputs,
        names={**netlist.names, **outputs},
    )


def pin_stuck(netlist: Netlist, gate: Gate, pin: int, bit: int) -> Netlist:
    """The netlist with one input of one gate reading a constant."""
    inputs = tuple(CONSTANTS[bit] if i == pin else net for i, net in enumerate(gate.inputs))
    whole = _without_covers(netlist, lambda nets, output: gate.output in {*nets, output})
    gates = tuple(replace(g, inputs=inputs) if g.output == gate.output else g for g in whole.gates)
    return replace(whole, gates=gates)


def _without_covers(netlist: Netlist, changed: Callable[[set[int], int], bool]) -> Netlist:
    """The netlist without the covers of parts in which something is `changed`.

    That is asked of the nets inside the part that lie between what the cover reads and the gate or
    flip-flop that has it, and of the net that this drives: a full adder with a broken gate is no
    full adder any more, and what its truth table says of X is not true of it.
    """
    drivers = {gate.output: gate for gate in netlist.gates}

    def kept(cover: Cover | None, reads: Iterable[int], output: int) -> Cover | None:
        if cover is None:
            return None
        edge = cover.nets
        inside, waiting = set[int](), [net for net in reads if net not in edge]
        while waiting:
            net = waiting.pop()
            if net not in inside:
                inside.add(net)
                driver = drivers.get(net)
                waiting += [n for n in driver.inputs if n not in edge] if driver else []
        return None if changed(inside, output) else cover

    return replace(
        netlist,
        gates=tuple(replace(g, cover=kept(g.cover, g.inputs, g.output)) for g in netlist.gates),
        flip_flops=tuple(
            replace(f, cover=kept(f.cover, filter(None, (f.d, f.enable)), f.q))
            for f in netlist.flip_flops
        ),
    )


def one_after_another(netlist: Netlist, order: tuple[int, ...]) -> Netlist:
    """A netlist whose flip-flops change in turn, each seeing those before it changed.

    Parameters
    ----------
    netlist : Netlist
    order : tuple of int
        Positions in ``netlist.flip_flops``, the first to change first.

    Returns
    -------
    Netlist
        Every flip-flop stores at each edge what the turn left in it; the gates that this
        takes stand beside the old ones.
    """
    turn = _Turn(netlist)
    stores = {}
    for position in order:
        flip_flop = netlist.flip_flops[position]
        stores[position] = turn.next_net(flip_flop)
        turn.now[flip_flop.q] = stores[position]
    flip_flops = tuple(
        replace(f, d=stores.get(i, f.d), enable=None, clear=None, gate=None, cover=None)
        if i in stores
        else f
        for i, f in enumerate(netlist.flip_flops)
    )
    return replace(
        netlist,
        size=turn.size,
        gates=(*netlist.gates, *turn.added),
        flip_flops=flip_flops,
    )


class _Turn:
    """Builds what each flip-flop sees in its turn."""

    def __init__(self, netlist: Netlist) -> None:
        self.drivers = {gate.output: gate for gate in netlist.gates}
        self.turns = {gate.output: i for i, gate in enumerate(netlist.gates)}
        self.size = netlist.size
        self.added: list[Gate] = []
        self.now: dict[int, int] = {}
        """Nets of flip-flops that have changed in this turn, and where their new bit is."""

    def next_net(self, flip_flop: FlipFlop) -> int:
        """The net that holds what the flip-flop stores in its turn."""
        seen: dict[int, int] = {}
        stored = self.net(flip_flop.d, seen)
        if flip_flop.enable is not None:
            enable = self.net(flip_flop.enable, seen)
            cover = flip_flop.cover and flip_flop.cover.over(lambda net: self.net(net, seen))
            stored = self._choose(enable, flip_flop.q, stored, flip_flop, cover)
        if flip_flop.clear is not None:
            stored = self._choose(self.net(flip_flop.clear, seen), stored, CONSTANTS[0], flip_flop)
        if flip_flop.gate is not None:
            stored = self._choose(self.net(flip_flop.gate, seen), flip_flop.q, stored, flip_flop)
        return stored

    def net(self, net: int, seen: dict[int, int]) -> int:
        """A net as it stands in this turn; gates behind changed flip-flops are made again."""
        if net in seen:
            return seen[net]
        cone, waiting = {net}, [net]
        while waiting:
            driver = self.drivers.get(waiting.pop())
            for source in driver.inputs if driver else ():
                if source not in cone and source not in seen and source not in self.now:
                    cone.add(source)
                    waiting.append(source)
        for one in sorted(cone, key=lambda n: self.turns.get(n, -1)):
            gate = self.drivers.get(one)
            if one in self.now or gate is None:
                seen[one] = self.now.get(one, one)
                continue
            inputs = tuple(self.now.get(n, seen.get(n, n)) for n in gate.inputs)
            same = inputs == gate.inputs
            cover = gate.cover and gate.cover.over(lambda n: self.now.get(n, seen.get(n, n)))
            seen[one] = one if same else self._gate(gate.operator, inputs, gate.name, cover)
        return seen[net]

    def _choose(
        self,
        select: int,
        when_0: int,
        when_1: int,
        flip_flop: FlipFlop,
        cover: Cover | None = None,
    ) -> int:
        return self._gate("multiplexer", (select, when_0, when_1), flip_flop.name, cover)

    def _gate(self, operator: str, inputs: tuple[int, ...], name: str, cover: Cover | None) -> int:
        self.size += 1
        self.added.append(Gate(operator, inputs, self.size - 1, f"{name} in turn", cover))
        return self.size - 1
