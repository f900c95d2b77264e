"""Wrong ideas about the procedure, about X, and about how an answer is read."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import Final

from edgewise.bits import X
from edgewise.circuit.model import Circuit, Part, Wire
from edgewise.design import Design, Feed
from edgewise.study.edits import circuit_edits
from edgewise.study.misconceptions.misconception import COMMON, Misconception


def msb_first(design: Design) -> Design:
    """Operands that are fed bit by bit are fed from the other end."""

    def turned(feed: Feed) -> Feed:
        orders = {"lsb-first": "msb-first", "msb-first": "lsb-first"}
        is_operand = isinstance(feed.what, str)
        return replace(feed, order=orders.get(feed.order, feed.order)) if is_operand else feed

    return circuit_edits.with_feeds(design, turned)


def early(design: Design) -> Design | None:
    """The answer is read one row too soon."""
    return circuit_edits.read_after(design, lambda row: max(row - 1, 0)) if design.edges else None


def late(design: Design) -> Design | None:
    """The answer is read after one edge more."""
    if not design.edges:
        return None
    return circuit_edits.longer(circuit_edits.read_after(design, lambda row: row + 1))


def loading_not_counted(design: Design) -> Design | None:
    """The answer is read as many rows too soon as the first phase has edges."""
    phases = list(circuit_edits.phases_with_edges(design))
    if len(phases) < 2:
        return None
    skipped = phases[0].edges
    return circuit_edits.read_after(design, lambda row: max(row - skipped, 0))


def enable_ignored(design: Design) -> Design:
    """Storage elements have no enable and no gated clock."""

    def always(part: Part) -> Part:
        for port in ("enable", "clock"):
            if part.kind.port("q") and part.signal(port):
                part = circuit_edits.without(part, port)
        return part

    changed = circuit_edits.with_parts(design, always)
    return replace(changed, circuit=_without_idle_clock_gates(changed.circuit))


def _without_idle_clock_gates(circuit: Circuit) -> Circuit:
    """Without the AND gates that gated a clock that nothing takes any more."""
    read = {
        bit
        for part in circuit.parts
        for c in part.connections
        if (port := part.kind.port(c.port)) and port.direction == "in"
        for bit in c.signal
    }
    return replace(
        circuit,
        parts=tuple(
            part
            for part in circuit.parts
            if part.kind.function is None
            or part.kind.function.plain != "and"
            or not {Wire("clock")} & {bit for c in part.connections for bit in c.signal}
            or read & set(part.signal("out"))
        ),
    )


def unknown_as(bit: int) -> Callable[[Design], Design]:
    """Unknown initial states and inputs fed X are `bit`."""

    def take(design: Design) -> Design:
        netlist = design.netlist
        starts = tuple(replace(f, start=bit) if f.start == X else f for f in netlist.flip_flops)
        fed = circuit_edits.with_feeds(
            design,
            lambda feed: (
                feed
                if feed.what is not None
                else replace(feed, what=bit * ((1 << len(netlist.inputs[feed.input])) - 1))
            ),
        )
        if starts == netlist.flip_flops:
            return fed
        return replace(fed, altered=replace(netlist, flip_flops=starts))

    return take


def read_backwards(design: Design) -> Design | None:
    """Each output with its bits in reverse."""
    circuit = design.circuit
    if all(len(output.signal) < 2 for output in circuit.outputs):
        return None
    outputs = tuple(replace(o, signal=o.signal[::-1]) for o in circuit.outputs)
    nets = {net.name for net in circuit.nets}
    if not any(o.name in nets for o in circuit.outputs):
        return circuit_edits.with_circuit(design, replace(circuit, outputs=outputs))
    # An output that is a net of its own name is read through a second name.
    netlist = design.netlist
    turned = {name: bits[::-1] for name, bits in netlist.outputs.items()}
    return replace(
        design,
        altered=replace(netlist, outputs=turned, names={**netlist.names, **turned}),
    )


MISCONCEPTIONS: Final = (
    Misconception(
        "msb-first",
        "",
        "an operand that is fed bit by bit",
        COMMON,
        msb_first,
    ),
    Misconception(
        "one-edge-early",
        "",
        "a procedure with clock edges",
        COMMON,
        early,
    ),
    Misconception(
        "one-edge-late",
        "",
        "a procedure with clock edges",
        COMMON,
        late,
    ),
    Misconception(
        "loading-not-counted",
        "",
        "a procedure of two phases or more",
        COMMON,
        loading_not_counted,
    ),
    Misconception(
        "enable-ignored",
        "",
        "a storage element with an enable or a gated clock",
        COMMON,
        enable_ignored,
    ),
    Misconception(
        "unknown-as-0",
        "",
        "an unknown initial state or an input fed X",
        COMMON,
        unknown_as(0),
    ),
    Misconception(
        "unknown-as-1",
        "",
        "an unknown initial state or an input fed X",
        COMMON,
        unknown_as(1),
    ),
    Misconception(
        "read-backwards",
        "",
        "an answer of two bits or more",
        COMMON,
        read_backwards,
    ),
)
"""In the order in which a list shows them."""
