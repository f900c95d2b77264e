"""What must be true of a circuit before it can run: names, drivers, existing wires."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Final

from edgewise.circuit.builder import show
from edgewise.circuit.model import CLOCK, Circuit, Part, Signal, Tie, Wire
from edgewise.errors import CircuitError, Message, Place, nearest

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
    return (
        *_name_faults(circuit, inside),
        *_wire_faults(circuit),
        *_driver_faults(circuit),
    )


def _name_faults(circuit: Circuit, inside: bool) -> Iterator[CircuitError]:  # noqa: FBT001
    seen: dict[str, str] = {} if inside else {CLOCK: "clock"}
    for what, things in (
        ("input", circuit.inputs),
        ("net", circuit.nets),
        ("part", circuit.parts),
    ):
        for thing in things:
            name = thing.name
            if name in seen:
                yield CircuitError(
                    Message("name-taken", name=name, what=what, taken=seen[name]), thing.place
                )
            else:
                seen[name] = what
    nets = {net.name for net in circuit.nets}
    shown = {output.name for output in circuit.outputs}
    words = {
        p.name: p.signal(p.kind.word) for p in circuit.parts if p.name in shown and p.kind.word
    }
    outputs: set[str] = set()
    for output in circuit.outputs:
        same_net = output.name in nets and all(
            isinstance(bit, Wire) and bit.net == output.name for bit in output.signal
        )
        same_word = words.get(output.name) == output.signal
        if output.name in outputs or (output.name in seen and not same_net and not same_word):
            what = seen.get(output.name, "output")
            yield CircuitError(
                Message("output-taken", name=output.name, taken=what),
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


def _wire_faults(circuit: Circuit) -> Iterator[CircuitError]:
    known = circuit.widths
    for signal, place in _signals(circuit):
        for bit in signal:
            if isinstance(bit, Tie) or 0 <= bit.index < known.get(bit.net, 0):
                continue
            if bit.net not in known:
                yield CircuitError(
                    Message("net-unknown", name=bit.net, suggestion=nearest(bit.net, known)), place
                )
            else:
                yield CircuitError(
                    Message("bit-unknown", name=bit.net, index=bit.index, top=known[bit.net] - 1),
                    place,
                )
            break
    for output in circuit.outputs:
        if Wire(CLOCK) in output.signal:
            yield CircuitError(
                Message("output-clock", output=output.name),
                output.place,
            )


def _driving(circuit: Circuit) -> Iterator[tuple[Signal, str | Message, Place | None]]:
    """What drives nets from inside the circuit, and the nets that it drives."""
    for part in circuit.parts:
        outs = [port.name for port in part.kind.outs]
        for connection in part.connections:
            if connection.port in outs:
                yield connection.signal, f"{part.name}.{connection.port}", connection.place
    for join in circuit.joins:
        yield join.target, Message("driver-join", source=show(join.source)), join.place


def _driver_faults(circuit: Circuit) -> Iterator[CircuitError]:
    drivers: dict[tuple[str, int], str | Message] = {(CLOCK, 0): Message("driver-clock")}
    for net in circuit.inputs:
        feeder = Message("driver-input", name=net.name)
        drivers.update(dict.fromkeys(((net.name, i) for i in range(net.width)), feeder))
    for signal, driver, place in _driving(circuit):
        for bit in signal:
            if isinstance(bit, Tie):
                yield CircuitError(
                    Message("constant-driven", driver=driver, bit="01X"[bit.bit]), place
                )
            elif (bit.net, bit.index) in drivers:
                yield CircuitError(
                    Message(
                        "drivers-two",
                        net=_one(bit, circuit.widths),
                        first=drivers[bit.net, bit.index],
                        second=driver,
                    ),
                    place,
                )
            else:
                drivers[bit.net, bit.index] = driver
    for net in (*circuit.nets, *circuit.port_nets):
        name, width = net.name, net.width
        missing = [i for i in range(width) if (name, i) not in drivers]
        if missing:
            some = ", ".join(f"{name}({i})" for i in missing[:_SHOWN])
            more = ", …" if len(missing) > _SHOWN else ""
            which = name if len(missing) == width else some + more
            yield CircuitError(Message("net-undriven", net=which), net.place)


def _one(bit: Wire, known: Mapping[str, int]) -> str:
    """A wire as text: with its index only where the net has others."""
    return bit.net if known.get(bit.net) == 1 else show((bit,))


def unread(circuit: Circuit) -> Iterator[Part]:
    """The parts of a circuit that nothing else reads: no fault, but mostly an oversight.

    Examples
    --------
    >>> from edgewise.circuit.builder import Builder
    >>> b = Builder("rain")
    >>> x = b.input("x")
    >>> b.output("y", b.part("USED", "not", {"in": x})["out"])
    >>> b.part("IDLE", "not", {"in": x}).part.name
    'IDLE'
    >>> [part.name for part in unread(b.circuit())]
    ['IDLE']
    """
    readers: dict[Wire | Tie, set[str]] = {}
    for part in circuit.parts:
        for port in part.kind.ins:
            for bit in part.signal(port.name):
                readers.setdefault(bit, set()).add(part.name)
    for signal in (*(j.source for j in circuit.joins), *(o.signal for o in circuit.outputs)):
        for bit in signal:
            readers.setdefault(bit, set()).add("")  # no part has this name
    for part in circuit.parts:
        outs = {bit for port in part.kind.outs for bit in part.signal(port.name)}
        if not any(readers.get(bit, set()) - {part.name} for bit in outs):
            yield part
