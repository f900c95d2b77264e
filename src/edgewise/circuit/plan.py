"""A circuit with all its nets numbered; what is inside a kind of part is numbered only once.

A **plan** counts: the constants and the clock as in a netlist, then the bits of the inputs, then
the nets of the circuit itself, then those inside its first part that has an inside, and so on. A
**stamp** puts the plan of an inside into the plan around it: its inputs are nets that are there
already, its other nets get the next free numbers. A half adder HA, fed with nets 9 and 5 of a
circuit that has 14 nets so far:

====================  ==========  ====  ====  =======  =======
net                   0, 1, 2, 3  a     b     X1.out   G1.out
====================  ==========  ====  ====  =======  =======
in the half adder     0, 1, 2, 3  4     5     6        7
in the plan around    0, 1, 2, 3  9     5     14       15
====================  ==========  ====  ====  =======  =======
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import TypeAlias

from edgewise.bits import X
from edgewise.circuit.cover import Cover, Decided
from edgewise.circuit.insides import once_a_kind
from edgewise.circuit.model import CLOCK, Circuit, Kind, Net, Part, Port, Signal, Tie
from edgewise.circuit.netlist import CLOCK_NET, CONSTANTS, FlipFlop, Gate
from edgewise.errors import Place

Nets: TypeAlias = tuple[int, ...]
"""Net numbers, LSB first."""


@dataclass(frozen=True, slots=True)
class Plan:
    """A circuit with its nets numbered.

    Parameters
    ----------
    circuit : Circuit
    inputs, nets, outputs : mapping of str to tuple of int
        Of the circuit itself; `nets` are all of its nets, the inputs and the clock too.
    elements : tuple of (Gate, FlipFlop or Stamp, Place or None)
        In text order, with the names that they have in the circuit. What a flip-flop calls its
        `gate` is the net at its clock port.
    joins : mapping of int to int
        For each net that is fed straight from another net, or from a constant, that one.
    first : int
        The number of the first net that does not come from outside.
    size : int
        Number of nets, those inside parts too.
    """

    circuit: Circuit
    inputs: Mapping[str, Nets]
    nets: Mapping[str, Nets]
    outputs: Mapping[str, Nets]
    elements: tuple[tuple[Gate | FlipFlop | Stamp, Place | None], ...]
    joins: Mapping[int, int]
    first: int
    size: int

    def at(self, signal: Signal) -> Nets:
        """The nets of a signal of the circuit."""
        return _at(signal, self.nets)


@dataclass(frozen=True, slots=True)
class Stamp:
    """The plan of an inside, put into the plan around it.

    Parameters
    ----------
    name : str
        Of the part.
    plan : Plan
    inputs : tuple of int
        What its inputs are in the plan around it.
    start, stop : int
        What its own nets are in the plan around it: numbers from `start` to before `stop`.
    """

    name: str
    plan: Plan
    inputs: Nets
    start: int
    stop: int

    def inside(self, around: Sequence[int]) -> list[int]:
        """Something known of each net around, for each net of the inside."""
        inputs = [around[net] for net in self.inputs]
        return [*around[: CLOCK_NET + 1], *inputs, *around[self.start : self.stop]]


def planned(circuit: Circuit) -> Plan:
    """The plan of a circuit that has no faults.

    Examples
    --------
    >>> from edgewise.circuit.builder import Builder
    >>> b = Builder("rain or tide")
    >>> either = b.part("OR", "or", {"in": (*b.input("rain"), *b.input("tide"))})["out"]
    >>> b.output("warn", either)
    >>> planned(b.circuit()).nets
    {'rain': (4,), 'tide': (5,), 'clock': (3,), 'OR.out': (6,)}
    """
    return _plan(circuit, circuit.inputs)


@once_a_kind
def _inside(kind: Kind) -> Plan:
    """The plan of what is inside a kind of part."""
    assert kind.inside is not None
    return _plan(kind.inside, kind.ins, kind.decided)


def _plan(circuit: Circuit, inputs: Iterable[Net | Port], decided: Iterable[Decided] = ()) -> Plan:
    draft = _Draft()
    nets = draft.nets
    fed = {net.name: draft.fresh(net.width) for net in inputs}
    first = draft.size
    nets.update(fed)
    for name, width in circuit.widths.items():
        if name not in fed:
            nets[name] = draft.fresh(width) if name != CLOCK else (CLOCK_NET,)
    for join in circuit.joins:
        draft.join(_at(join.target, nets), _at(join.source, nets))
    covers = {one.name: one.cover(nets) for one in decided}
    for part in circuit.parts:
        draft.add(part, covers.get(part.name))
    outputs = {output.name: _at(output.signal, nets) for output in circuit.outputs}
    return Plan(circuit, fed, nets, outputs, tuple(draft.elements), draft.joins, first, draft.size)


class _Draft:
    """A plan as it grows."""

    def __init__(self) -> None:
        self.nets: dict[str, Nets] = {}
        self.joins: dict[int, int] = {}
        self.size = CLOCK_NET + 1
        self.elements: list[tuple[Gate | FlipFlop | Stamp, Place | None]] = []

    def fresh(self, width: int) -> Nets:
        self.size += width
        return tuple(range(self.size - width, self.size))

    def join(self, targets: Iterable[int], sources: Iterable[int]) -> None:
        self.joins.update(zip(targets, sources, strict=True))

    def add(self, part: Part, cover: Cover | None) -> None:
        kind = part.kind
        nets = self.nets
        at = {connection.port: _at(connection.signal, nets) for connection in part.connections}
        if kind.inside is not None:
            self.elements.append((self.stamp(part.name, kind, at), part.place))
        elif kind.role == "constant":
            value = kind.setting("value")
            bits = [X if value == "X" else int(value or 0) >> i & 1 for i in range(len(at["out"]))]
            self.join(at["out"], [CONSTANTS[bit] for bit in bits])
        elif kind.function:
            read = tuple([net for port in kind.function.reads for net in at[port]])
            gate = Gate(kind.name, read, at[kind.outs[0].name][0], part.name, cover)
            self.elements.append((gate, part.place))
        else:
            self.elements.append((_flip_flop(part.name, kind, at, cover), part.place))

    def stamp(self, name: str, kind: Kind, at: Mapping[str, Nets]) -> Stamp:
        inside = _inside(kind)
        inputs = tuple([net for port in kind.ins for net in at[port.name]])
        start, stop = self.size, self.size + inside.size - inside.first
        self.size = stop
        here = [*range(CLOCK_NET + 1), *inputs, *range(start, stop)]  # what its nets are here
        if inside.joins:
            self.joins.update({here[net]: here[source] for net, source in inside.joins.items()})
        outside = [net for port in kind.outs for net in at[port.name]]
        self.join(outside, [here[net] for port in kind.outs for net in inside.outputs[port.name]])
        return Stamp(name, inside, inputs, start, stop)


def _at(signal: Signal, nets: Mapping[str, Nets]) -> Nets:
    return tuple(
        [CONSTANTS[bit.bit] if isinstance(bit, Tie) else nets[bit.net][bit.index] for bit in signal]
    )


def _flip_flop(name: str, kind: Kind, at: Mapping[str, Nets], cover: Cover | None) -> FlipFlop:
    start = kind.setting("start")
    enable, clear, clock, reset, preset = (
        at[port][0] if port in at else None for port in _CONTROLS
    )
    bit = X if start == "X" else int(start or 0)
    return FlipFlop(name, at["d"][0], at["q"][0], enable, clear, clock, bit, cover, reset, preset)


_CONTROLS = ("enable", "clear", "clock", "async-clear", "async-preset")
