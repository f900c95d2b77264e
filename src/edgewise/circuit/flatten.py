"""From a circuit of parts that contain parts to one flat netlist."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from typing import Final

from edgewise.bits import X
from edgewise.circuit import check
from edgewise.circuit.gates import GATES
from edgewise.circuit.model import CLOCK, Circuit, Part, Signal, Tie
from edgewise.circuit.netlist import CLOCK_NET, CONSTANTS, FlipFlop, Gate, Netlist
from edgewise.errors import CircuitError, Place, raise_all

MOST_PARTS: Final = 100_000
"""Parts in a whole circuit, those inside parts counted, at most."""
MOST_NETS: Final = 2_000_000
"""Net bits in a whole circuit, at most."""
_LOOP_SHOWN: Final = 40
"""Nets of a loop that are printed, at most."""


def flatten(circuit: Circuit) -> Netlist:
    """Check a circuit and flatten it.

    Raises
    ------
    CircuitError or Problems
        For every wiring fault (see `edgewise.circuit.check.faults`), a combinational loop
        (printed net by net), or logic in a clock other than one AND gate.

    Examples
    --------
    >>> from edgewise.circuit.builder import Builder
    >>> b = Builder("half adder")
    >>> x, y = b.input("x"), b.input("y")
    >>> b.output("s", b.part("HA", "half-adder", {"a": x, "b": y})["sum"])
    >>> [gate.name for gate in flatten(b.circuit()).gates]
    ['HA.X1', 'HA.G1']
    """
    raise_all(_all_faults(circuit))
    work = _Flattening()
    inputs = {net.name: work.fresh(net.width) for net in circuit.inputs}
    outputs = work.add(circuit, "", {**inputs, CLOCK: (CLOCK_NET,)})
    return work.netlist(inputs, outputs, circuit)


def _all_faults(circuit: Circuit) -> Iterator[CircuitError]:
    """Wiring faults of a circuit and of every circuit inside it, each looked at once."""
    seen = {id(circuit)}
    pending = [circuit]
    for current in pending:  # grows while it is read
        yield from check.faults(current, inside=current is not circuit)
        for part in current.parts:
            inside = part.kind.inside
            if inside is not None and id(inside) not in seen:
                seen.add(id(inside))
                pending.append(inside)


@dataclass
class _Flattening:
    """Nets are numbered as they are met; `same_as` links those that are one net."""

    size: int = CLOCK_NET + 1
    parts: int = 0
    same_as: dict[int, int] = field(default_factory=dict)
    gates: list[tuple[Gate, Place | None]] = field(default_factory=list)
    flip_flops: list[tuple[FlipFlop, int, Place | None]] = field(default_factory=list)
    names: dict[str, tuple[int, ...]] = field(default_factory=dict)
    fed: dict[str, tuple[int, ...]] = field(default_factory=dict)
    """Names of input ports; they come after all others, as a net is called after its driver."""
    widths: dict[int, dict[str, int]] = field(default_factory=dict)
    """Of the nets in each circuit met, by its id."""

    def fresh(self, width: int) -> tuple[int, ...]:
        self.size += width
        if self.size > MOST_NETS:
            raise CircuitError(f"the whole circuit has more than {MOST_NETS} nets")
        return tuple(range(self.size - width, self.size))

    def add(
        self,
        circuit: Circuit,
        path: str,
        inputs: dict[str, tuple[int, ...]],
        place: Place | None = None,
    ) -> dict[str, tuple[int, ...]]:
        """Add the inside of one circuit; gives the nets of its outputs."""
        nets = dict(inputs)
        if id(circuit) not in self.widths:  # many parts share one inside
            self.widths[id(circuit)] = check.widths(circuit)
        for name, width in self.widths[id(circuit)].items():
            if name not in nets:
                nets[name] = self.fresh(width) if name != CLOCK else (CLOCK_NET,)

        def resolve(signal: Signal) -> tuple[int, ...]:
            return tuple(
                [
                    CONSTANTS[bit.bit] if isinstance(bit, Tie) else nets[bit.net][bit.index]
                    for bit in signal
                ]
            )

        for join in circuit.joins:
            for target, source in zip(resolve(join.target), resolve(join.source), strict=True):
                self.same_as[target] = source
        for name, bits in nets.items():
            if name != CLOCK and "." not in name:
                names = self.fed if path and name in inputs else self.names
                names[path + name] = bits
        for part in circuit.parts:
            self._add_part(part, path, {c.port: resolve(c.signal) for c in part.connections}, place)
        outputs = {output.name: resolve(output.signal) for output in circuit.outputs}
        self.names.update({path + name: bits for name, bits in outputs.items()})
        return outputs

    def _add_part(
        self, part: Part, path: str, at: dict[str, tuple[int, ...]], place: Place | None
    ) -> None:
        name, kind = path + part.name, part.kind
        place = part.place or place
        self.parts += 1
        if self.parts > MOST_PARTS:
            raise CircuitError(
                f"the whole circuit has more than {MOST_PARTS} parts, those inside parts counted",
                place,
            )
        for port in kind.ports:
            names = self.names if port.direction == "out" else self.fed
            names[f"{name}.{port.name}"] = at[port.name]
        if kind.word:
            self.names[name] = at[kind.word]
        if kind.inside is not None:
            ins = {p.name: at[p.name] for p in kind.ports if p.direction == "in"}
            inner = self.add(kind.inside, f"{name}.", ins, place)
            for p in kind.ports:
                if p.direction == "out":
                    self.same_as.update(zip(at[p.name], inner[p.name], strict=True))
        elif kind.name == "flip-flop":
            self._add_flip_flop(part, name, at, place)
        elif kind.name == "constant":
            value = kind.setting("value")
            for i, net in enumerate(at["out"]):
                self.same_as[net] = CONSTANTS[X if value == "X" else int(value or 0) >> i & 1]
        else:
            ins_tuple = (
                (*at["select"], *at["d0"], *at["d1"]) if kind.name not in GATES else at["in"]
            )
            self.gates.append((Gate(kind.name, ins_tuple, at["out"][0], name), place))

    def _add_flip_flop(
        self, part: Part, name: str, at: dict[str, tuple[int, ...]], place: Place | None
    ) -> None:
        start = part.kind.setting("start")
        flip_flop = FlipFlop(
            name,
            at["d"][0],
            at["q"][0],
            at["enable"][0] if "enable" in at else None,
            at["clear"][0] if "clear" in at else None,
            None,
            X if start == "X" else int(start or 0),
        )
        clock = at["clock"][0] if "clock" in at else CLOCK_NET
        self.flip_flops.append((flip_flop, clock, place))

    # ------------------------------------------------------------------ the flat result

    def netlist(
        self,
        inputs: dict[str, tuple[int, ...]],
        outputs: dict[str, tuple[int, ...]],
        circuit: Circuit,
    ) -> Netlist:
        """Number the nets anew, without gaps, and put the gates in order."""
        root = self._roots(circuit)
        number = {net: net for net in (*CONSTANTS, CLOCK_NET)}
        for net in root:
            number.setdefault(root[net], len(number))

        final = [number[root[net]] for net in range(self.size)]

        def renumbered(nets: Iterable[int]) -> tuple[int, ...]:
            return tuple([final[net] for net in nets])

        names = {name: renumbered(bits) for name, bits in (self.names | self.fed).items()}
        gates = [
            (Gate(g.operator, renumbered(g.inputs), number[root[g.output]], g.name), place)
            for g, place in self.gates
        ]
        draft = Netlist(
            len(number),
            {name: renumbered(bits) for name, bits in inputs.items()},
            {name: renumbered(bits) for name, bits in outputs.items()},
            tuple(gate for gate, _ in gates),
            (),
            names,
        )
        drivers = {gate.output: (gate, place) for gate, place in gates}
        flip_flops = []
        for flip_flop, clock, place in self.flip_flops:
            enable, clear = (
                None if net is None else number[root[net]]
                for net in (flip_flop.enable, flip_flop.clear)
            )
            numbered = FlipFlop(
                flip_flop.name,
                number[root[flip_flop.d]],
                number[root[flip_flop.q]],
                enable,
                clear,
                _clock_gate(flip_flop.name, number[root[clock]], drivers, draft, place),
                flip_flop.start,
            )
            _refuse_clock_at(numbered, place)
            flip_flops.append(numbered)
        _refuse_clock_as_data(draft, flip_flops, drivers)
        ordered = _in_order(draft, drivers)
        return Netlist(draft.size, draft.inputs, draft.outputs, ordered, tuple(flip_flops), names)

    def _roots(self, circuit: Circuit) -> dict[int, int]:
        root: dict[int, int] = {}
        for net in range(self.size):
            trail, met = [net], {net}
            while trail[-1] in self.same_as and trail[-1] not in root:
                onward = self.same_as[trail[-1]]
                trail.append(onward)
                if onward in met:
                    ring = trail[trail.index(onward) :][::-1]
                    text = " -> ".join(self._name_of(n) for n in ring)
                    raise CircuitError(
                        f"nets joined in a ring have no driver: {text}", circuit.place
                    )
                met.add(onward)
            end = root.get(trail[-1], trail[-1])
            for step in trail:
                root[step] = end
        return root

    def _name_of(self, net: int) -> str:
        found = [
            name if len(bits) == 1 else f"{name}({bits.index(net)})"
            for name, bits in self.names.items()
            if net in bits
        ]
        return min(found, key=len, default="?")


def _clock_gate(
    name: str,
    clock: int,
    drivers: dict[int, tuple[Gate, Place | None]],
    netlist: Netlist,
    place: Place | None,
) -> int | None:
    """The net that lets the clock through to a flip-flop; None for the bare clock."""
    if clock == CLOCK_NET:
        return None
    gate = drivers[clock][0] if clock in drivers else None
    if gate and gate.operator == "and" and gate.inputs.count(CLOCK_NET) == 1:
        return clock
    if not gate:
        found = f"net {netlist.labels[clock]}"
    elif gate.operator == "multiplexer":
        found = f"multiplexer {gate.name}"
    else:
        found = f"{gate.operator} gate {gate.name}"
    raise CircuitError(
        f"the clock of {name} comes from the {found}: every edge would then depend on its"
        " delays and glitches, which are not modelled here; use the clock itself with an"
        " enable, or one AND gate of the clock and other nets",
        place,
    )


def _refuse_clock_at(flip_flop: FlipFlop, place: Place | None) -> None:
    read = {"d": flip_flop.d, "enable": flip_flop.enable, "clear": flip_flop.clear}
    for port, net in read.items():
        if net == CLOCK_NET:
            raise CircuitError(
                f"port {port} of {flip_flop.name} reads the clock, but the clock is not data;"
                " it goes to clock ports only",
                place,
            )


def _refuse_clock_as_data(
    netlist: Netlist, flip_flops: list[FlipFlop], drivers: dict[int, tuple[Gate, Place | None]]
) -> None:
    clocks = {f.gate for f in flip_flops}
    data = {net for f in flip_flops for net in (f.d, f.enable, f.clear)}
    for net in sorted(n for n in clocks if n is not None):
        readers = [g.name for g in netlist.gates if net in g.inputs]
        if net in data or readers:
            raise CircuitError(
                f"{netlist.labels[net]} is a gated clock and is read as data"
                f"{' by ' + readers[0] if readers else ''}; take the net before the gate instead",
                drivers[net][1],
            )
    for gate, place in drivers.values():
        if CLOCK_NET in gate.inputs and gate.output not in clocks:
            raise CircuitError(
                f"{gate.name} reads the clock but drives no clock port; the clock is not data",
                place,
            )


def _in_order(netlist: Netlist, drivers: dict[int, tuple[Gate, Place | None]]) -> tuple[Gate, ...]:
    """Gates, each after all that it reads; a loop is an error that prints it net by net."""
    waits = {gate.output: sum(net in drivers for net in gate.inputs) for gate in netlist.gates}
    readers: dict[int, list[Gate]] = {}
    for gate in netlist.gates:
        for net in gate.inputs:
            readers.setdefault(net, []).append(gate)
    ready = [gate for gate in netlist.gates if not waits[gate.output]]
    ordered: list[Gate] = []
    for gate in ready:  # grows while it is read
        ordered.append(gate)
        for reader in readers.get(gate.output, ()):
            waits[reader.output] -= 1
            if not waits[reader.output]:
                ready.append(reader)
    if len(ordered) == len(netlist.gates):
        return tuple(ordered)
    stuck = {gate.output: gate for gate in netlist.gates if waits[gate.output] > 0}
    trail: dict[int, None] = {}
    net = next(iter(stuck))
    while net not in trail:
        trail[net] = None
        net = next(read for read in stuck[net].inputs if read in stuck)
    steps = list(trail)
    loop = [*steps[steps.index(net) :], net][::-1]
    shown = [netlist.labels[net] for net in loop]
    if len(shown) > _LOOP_SHOWN:
        left_out = f"… {len(shown) - _LOOP_SHOWN} more …"
        shown[_LOOP_SHOWN - 1 : -1] = [left_out]
    text = " -> ".join(shown)
    raise CircuitError(
        f"combinational loop: {text}; put a flip-flop into it, or break it",
        drivers[loop[0]][1],
    )
