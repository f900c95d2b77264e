"""What may stand at a clock, row by row: the clock itself, or one AND gate of it and other nets."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from edgewise.circuit.netlist import CLOCK_NET, CONSTANTS, Drivers, FlipFlop, Gate, Netlist
from edgewise.circuit.parts import function, part_type
from edgewise.errors import CircuitError, Message, Place


def passes_clock(gate: Gate) -> bool:
    """Whether a gate may stand in a clock: an AND gate."""
    return function(gate.operator).plain == "and"


def refuse_clock_faults(netlist: Netlist, drivers: Drivers, places: Sequence[Place | None]) -> None:
    """Raise `CircuitError` for other logic in a clock, and for a clock that is read as data.

    What is stored without an edge is refused too: a row tells what stands after one.

    Parameters
    ----------
    netlist : Netlist
        Its gates may be in any order.
    drivers : mapping of int to (Gate, Place or None)
        The gate that drives each net.
    places : sequence of Place or None
        Of the flip-flops.
    """
    for flip_flop, place in zip(netlist.flip_flops, places, strict=True):
        _refuse_between_edges(flip_flop, place)
        _refuse_logic(flip_flop, netlist, drivers, place)
        _refuse_clock_at(flip_flop, place)
    _refuse_clock_as_data(netlist, drivers)


def _refuse_between_edges(flip_flop: FlipFlop, place: Place | None) -> None:
    for port, net in (("async-preset", flip_flop.preset), ("async-clear", flip_flop.reset)):
        if net is not None:
            raise CircuitError(Message("clock-not-awaited", port=port, name=flip_flop.name), place)


def _refuse_logic(
    flip_flop: FlipFlop, netlist: Netlist, drivers: Drivers, place: Place | None
) -> None:
    clock = flip_flop.gate
    if clock is None:
        return
    gate = drivers[clock][0] if clock in drivers else None
    if not gate:
        found = Message("clock-from-net", net=netlist.labels[clock])
    elif passes_clock(gate) and gate.inputs.count(CLOCK_NET) == 1:
        return
    else:
        role = part_type(gate.operator).role
        found = Message("clock-from-gate", role=role, kind=gate.operator, name=gate.name)
    raise CircuitError(
        Message("clock-made", name=flip_flop.name, source=found),
        place,
    )


def _refuse_clock_at(flip_flop: FlipFlop, place: Place | None) -> None:
    for port, net in (("d", flip_flop.d), ("enable", flip_flop.enable), ("clear", flip_flop.clear)):
        if net == CLOCK_NET:
            raise CircuitError(
                Message("clock-at-port", port=port, name=flip_flop.name),
                place,
            )


def _refuse_clock_as_data(netlist: Netlist, drivers: Drivers) -> None:
    clocks = {f.gate for f in netlist.flip_flops}
    data = {net for f in netlist.flip_flops for net in (f.d, f.enable, f.clear)}
    for net in sorted(n for n in clocks if n is not None):
        readers = [g.name for g in netlist.gates if net in g.inputs]
        if net in data or readers:
            raise CircuitError(
                Message(
                    "clock-gated-read",
                    net=netlist.labels[net],
                    readers=len(readers),
                    reader="".join(readers[:1]),
                ),
                drivers[net][1],
            )
    for gate, place in drivers.values():
        if CLOCK_NET in gate.inputs and gate.output not in clocks:
            raise CircuitError(
                Message("clock-at-gate", gate=gate.name),
                place,
            )


def gating(netlist: Netlist) -> dict[int, tuple[int, ...]]:
    """Each gated clock, with the nets that its AND gate lets it through by.

    Examples
    --------
    >>> from edgewise import catalogue
    >>> netlist = catalogue.design("serial-adder-gated-clock", n=4).netlist
    >>> [[netlist.labels[net] for net in nets] for nets in gating(netlist).values()]
    [['shift']]
    """
    clocks = {f.gate for f in netlist.flip_flops if f.gate is not None}
    return {
        gate.output: tuple(net for net in gate.inputs if net != CLOCK_NET)
        for gate in netlist.gates
        if gate.output in clocks and CLOCK_NET in gate.inputs
    }


def sources(netlist: Netlist, nets: Iterable[int]) -> frozenset[int]:
    """The nets that these follow through gates: inputs and flip-flop outputs."""
    drivers = {gate.output: gate for gate in netlist.gates}
    waiting, seen = list(nets), set[int]()
    while waiting:
        net = waiting.pop()
        if net not in seen:
            seen.add(net)
            waiting += drivers[net].inputs if net in drivers else ()
    return frozenset(seen - drivers.keys() - {*CONSTANTS, CLOCK_NET})


def falling(netlist: Netlist) -> frozenset[int]:
    """The nets that change at the falling edge, so that no gated clock is disturbed.

    They are the inputs that a gating net follows, and what follows those inputs only.

    Examples
    --------
    >>> from edgewise import catalogue
    >>> netlist = catalogue.design("serial-adder-gated-clock", n=4).netlist
    >>> [netlist.labels[net] for net in falling(netlist)]
    ['shift']
    """
    fed = {net for nets in netlist.inputs.values() for net in nets}
    clocks = gating(netlist)
    late = sources(netlist, (net for nets in clocks.values() for net in nets)) & fed
    found = set(late)
    for gate in netlist.gates:
        read = set(gate.inputs) - set(CONSTANTS)
        if read and read <= found:
            found.add(gate.output)
    return frozenset(found)
