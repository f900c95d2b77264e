"""What must be true of a circuit before it can run: names, drivers, existing wires."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Final

from edgewise.circuit.builder import show
from edgewise.circuit.model import CLOCK, Circuit, Connection, Part, Signal, Wire
from edgewise.errors import CircuitError, Place, nearest

_SHOWN: Final = 6
"""Bits named in one message, at most."""


def faults(circuit: Circuit, *, inside: bool = False) -> tuple[CircuitError, ...]:
    """Everything wrong with the wiring of a circuit, in text order.

    `inside` tells that it is the inside of a part; such a circuit may have the input
    ``clock``, the part's clock port.

    Found here: two things with one name, a wire that does not exist, a net with two drivers
    or none, the clock driven from inside. Combinational loops show when the circuit is
    flattened.
    """
    known = widths(circuit)
    return (
        *_name_faults(circuit, inside),
        *_wire_faults(circuit, known),
        *_driver_faults(circuit, known),
    )


def widths(circuit: Circuit) -> dict[str, int]:
    """Width of every net: inputs, declared nets, and the nets named after part outputs.

    An output port that drives another net has no net of its own.
    """
    known = {net.name: net.width for net in (*circuit.inputs, *circuit.nets)}
    known[CLOCK] = 1
    known |= {name: width for name, width, _ in _own_nets(circuit)}
    return known


def _own_nets(circuit: Circuit) -> Iterator[tuple[str, int, Place | None]]:
    """The nets named after the output ports that drive them, their widths and places."""
    for part in circuit.parts:
        for port in part.kind.ports:
            if port.direction == "out":
                name = f"{part.name}.{port.name}"
                for bit in part.signal(port.name):
                    if isinstance(bit, Wire) and bit.net == name:
                        yield name, port.width, part.place
                        break


def _name_faults(circuit: Circuit, inside: bool) -> Iterator[CircuitError]:  # noqa: FBT001
    seen: dict[str, str] = {} if inside else {CLOCK: "the clock"}
    named = [("an input", net.name, net.place) for net in circuit.inputs]
    named += [("a net", net.name, net.place) for net in circuit.nets]
    named += [("a part", part.name, part.place) for part in circuit.parts]
    for what, name, place in named:
        if name in seen:
            yield CircuitError(f"{name} is {what}, but {seen[name]} has that name already", place)
        seen.setdefault(name, what)
    nets = {net.name: net.width for net in circuit.nets}
    words = {p.name: p.signal(p.kind.word) for p in circuit.parts if p.kind.word}
    outputs: set[str] = set()
    for output in circuit.outputs:
        same_net = output.name in nets and all(
            isinstance(bit, Wire) and bit.net == output.name for bit in output.signal
        )
        same_word = words.get(output.name) == output.signal
        if output.name in outputs or (output.name in seen and not same_net and not same_word):
            what = seen.get(output.name, "another output")
            yield CircuitError(
                f"{output.name} is an output, but {what} has that name already; give the output"
                " another name",
                output.place,
            )
        outputs.add(output.name)


def _signals(circuit: Circuit) -> Iterator[tuple[Signal, Place | None]]:
    for part in circuit.parts:
        for connection in part.connections:
            yield connection.signal, connection.place
    for join in circuit.joins:
        yield join.target, join.place
        yield join.source, join.place
    for output in circuit.outputs:
        yield output.signal, output.place


def _wire_faults(circuit: Circuit, known: Mapping[str, int]) -> Iterator[CircuitError]:
    for signal, place in _signals(circuit):
        for bit in signal:
            if not isinstance(bit, Wire):
                continue
            if bit.net not in known:
                yield CircuitError(
                    f"there is no net named {bit.net}{nearest(bit.net, known)}", place
                )
                break
            if not 0 <= bit.index < known[bit.net]:
                yield CircuitError(
                    f"{bit.net} has no bit {bit.index}; its bits are {known[bit.net] - 1}..0, MSB"
                    " first",
                    place,
                )
                break
    for output in circuit.outputs:
        if Wire(CLOCK) in output.signal:
            yield CircuitError(
                f"output {output.name} shows the clock, but the clock is not data: every row"
                " stands for one of its edges already",
                output.place,
            )


def driven(part: Part) -> Iterator[Connection]:
    """The connections at which a part drives a net."""
    outs = {port.name for port in part.kind.ports if port.direction == "out"}
    return (connection for connection in part.connections if connection.port in outs)


def _driver_faults(circuit: Circuit, known: Mapping[str, int]) -> Iterator[CircuitError]:
    drivers: dict[Wire, str] = {Wire(CLOCK): "the clock itself"}
    for net in circuit.inputs:
        drivers.update({Wire(net.name, i): f"the input {net.name}" for i in range(net.width)})
    driving = [
        (connection.signal, f"{part.name}.{connection.port}", connection.place)
        for part in circuit.parts
        for connection in driven(part)
    ]
    driving += [
        (join.target, f"the join from {show(join.source)}", join.place) for join in circuit.joins
    ]
    for signal, driver, place in driving:
        for bit in signal:
            if not isinstance(bit, Wire):
                yield CircuitError(f"{driver} can't drive the constant {'01X'[bit.bit]}", place)
            elif bit in drivers:
                yield CircuitError(
                    f"{_one(bit, known)} has two drivers: {drivers[bit]} and {driver};"
                    " leave one of them out",
                    place,
                )
            else:
                drivers[bit] = driver
    declared = ((net.name, net.width, net.place) for net in circuit.nets)
    for name, width, place in (*declared, *_own_nets(circuit)):
        missing = [i for i in range(width) if Wire(name, i) not in drivers]
        if missing:
            some = ", ".join(f"{name}({i})" for i in missing[:_SHOWN])
            more = ", …" if len(missing) > _SHOWN else ""
            which = name if len(missing) == width else some + more
            yield CircuitError(
                f"nothing drives net {which}; let an output port or a join drive it", place
            )


def _one(bit: Wire, known: Mapping[str, int]) -> str:
    """A wire as text: with its index only where the net has others."""
    return bit.net if known.get(bit.net) == 1 else show((bit,))
