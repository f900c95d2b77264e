"""The model of a circuit: parts, nets and ports. No time is in it.

Everything here is frozen and says nothing about how it was written down; a circuit built
by `edgewise.circuit.builder` equals the one read from the same circuit text.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cached_property
from typing import Final, Literal, TypeAlias

from edgewise.bits import Bit
from edgewise.circuit.cover import Decided
from edgewise.circuit.truth import Function
from edgewise.codes import UNSIGNED, Code
from edgewise.errors import CircuitError, Message, Place

CLOCK: Final = "clock"
"""The net that makes the edges. Every circuit has it; it is never declared."""


@dataclass(frozen=True, slots=True)
class Wire:
    """One bit of a net; index 0 is the LSB."""

    net: str
    index: int = 0


@dataclass(frozen=True, slots=True)
class Tie:
    """A constant bit: 0, 1, or X."""

    bit: Bit


Signal: TypeAlias = tuple[Wire | Tie, ...]
"""Bits that go somewhere together, LSB first."""


@dataclass(frozen=True, slots=True)
class Net:
    """A named bundle of `width` wires."""

    name: str
    width: int
    place: Place | None = field(default=None, compare=False)


Role: TypeAlias = Literal["gate", "selector", "storage", "arithmetic", "constant", "circuit"]
"""What a part is for; a circuit used as a part is a ``circuit``."""
PortRole: TypeAlias = Literal[
    "data", "select", "enable", "clear", "load", "direction", "clock", "preset", "reset", "level"
]
"""What a port is for. All but data and select say what a storage element does at an edge; preset
and reset say what it does at once, level that it lets data through while it is 1."""


@dataclass(frozen=True, slots=True)
class Port:
    """Where a part meets the nets outside."""

    name: str
    width: int
    direction: Literal["in", "out"]
    role: PortRole = "data"


@dataclass(frozen=True, slots=True)
class Adds:
    """What a part that adds single bits says of itself.

    Parameters
    ----------
    inputs : tuple of str
        Ports whose bits it adds, in the order of its truth table; the third is the carry in.
    sum, carry : str
        Ports of the two bits of the result.
    """

    inputs: tuple[str, ...]
    sum: str = "sum"
    carry: str = "carry-out"

    @property
    def carry_in(self) -> str | None:
        """The port of the carry that comes in; a full adder has one."""
        return self.inputs[2] if len(self.inputs) > 2 else None


@dataclass(frozen=True)
class Kind:
    """What a part is: its ports and its inside, every width a number.

    Parameters
    ----------
    name : str
        The trade's name: ``full-adder``.
    ports : tuple of Port
        Those in use; an optional input that nothing feeds is left out.
    settings : tuple of (str, int or str)
        What the part was given: ``(("width", 6),)``.
    inside : Circuit, optional
        The parts it is made of; a primitive (gate, multiplexer of 2, flip-flop) has none.
    word : str, optional
        The output port that the part's bare name stands for: ``A`` means ``A.q``.
    decided : tuple of Decided
        Where the known bits decide more of the part than its gates, one by one, can tell.
    role : str
        One of `Role`.
    function : Function, optional
        What a gate computes; None for all that is no gate.
    adds : Adds, optional
        Of a half adder or a full adder.
    """

    name: str
    ports: tuple[Port, ...]
    settings: tuple[tuple[str, int | str], ...] = ()
    inside: Circuit | None = None
    word: str | None = None
    decided: tuple[Decided, ...] = ()
    role: Role = "circuit"
    function: Function | None = None
    adds: Adds | None = None

    @cached_property
    def ins(self) -> tuple[Port, ...]:
        """The ports at which it reads."""
        return tuple(port for port in self.ports if port.direction == "in")

    @cached_property
    def outs(self) -> tuple[Port, ...]:
        """The ports at which it drives."""
        return tuple(port for port in self.ports if port.direction == "out")

    def port(self, name: str) -> Port | None:
        """The port of this name, or nothing."""
        return next((port for port in self.ports if port.name == name), None)

    def setting(self, name: str) -> int | str | None:
        """What a setting was given, or nothing."""
        return next((value for key, value in self.settings if key == name), None)


@dataclass(frozen=True, slots=True)
class Connection:
    """A port and the bits at it: its source on an input, what it drives on an output."""

    port: str
    signal: Signal
    place: Place | None = field(default=None, compare=False)


LOOKS: Final = ("plain", "row", "array", "groups", "datapath", "prefix-graph")
"""How a part can be drawn, if its designer says so: by itself, or as one of several."""


@dataclass(frozen=True, slots=True)
class Part:
    """One element of a circuit; its name may carry an index: ``FA(3)``.

    `look` is one of `LOOKS`, or empty: as its circuit suggests.
    """

    name: str
    kind: Kind
    connections: tuple[Connection, ...]
    place: Place | None = field(default=None, compare=False)
    look: str = ""

    def signal(self, port: str) -> Signal:
        """The bits at a port of this part; empty for a port not connected."""
        for connection in self.connections:
            if connection.port == port:
                return connection.signal
        return ()


@dataclass(frozen=True, slots=True)
class Join:
    """`target` is fed straight from `source`, wire by wire."""

    target: Signal
    source: Signal
    place: Place | None = field(default=None, compare=False)


@dataclass(frozen=True, slots=True)
class Output:
    """An output of the circuit, the bits it shows, and which numbers they stand for."""

    name: str
    signal: Signal
    place: Place | None = field(default=None, compare=False)
    code: Code = UNSIGNED


@dataclass(frozen=True)
class Circuit:
    """Parts, nets and ports.

    Parameters
    ----------
    name : str
        For people: ``bit-serial adder``.
    inputs : tuple of Net
        Nets fed from outside, in the order written.
    outputs : tuple of Output
    nets : tuple of Net
        Declared nets, without `inputs` and without the nets named after part outputs.
    parts : tuple of Part
    joins : tuple of Join
    place : Place, optional

    Notes
    -----
    The output port ``p`` of part ``P`` drives the net ``P.p`` unless it was connected to
    another one.
    """

    name: str
    inputs: tuple[Net, ...]
    outputs: tuple[Output, ...]
    nets: tuple[Net, ...]
    parts: tuple[Part, ...]
    joins: tuple[Join, ...] = ()
    place: Place | None = field(default=None, compare=False)

    @cached_property
    def kinds(self) -> tuple[Kind, ...]:
        """The kinds of its parts, each object once."""
        return tuple({id(part.kind): part.kind for part in self.parts}.values())

    @cached_property
    def port_nets(self) -> tuple[Net, ...]:
        """The nets named after the output ports that drive them.

        An output port that drives another net has no net of its own.
        """
        found = []
        for part in self.parts:
            for port in part.kind.outs:
                name = f"{part.name}.{port.name}"
                if name in [b.net for b in part.signal(port.name) if isinstance(b, Wire)]:
                    found.append(Net(name, port.width, part.place))
        return tuple(found)

    @cached_property
    def widths(self) -> Mapping[str, int]:
        """Width of every net: inputs, declared nets, the clock, nets named after output ports."""
        known = {net.name: net.width for net in (*self.inputs, *self.nets)}
        known[CLOCK] = 1
        return known | {net.name: net.width for net in self.port_nets}

    def part(self, name: str) -> Part | None:
        """The part of this name, or nothing."""
        return next((part for part in self.parts if part.name == name), None)


def no_slice(name: str, high: int, low: int, width: int, place: Place | None) -> CircuitError:
    """The error for bits that a net does not have.

    Examples
    --------
    >>> print(no_slice("w", 6, 6, 4, None))
    w has no bit 6; its bits are 3..0, MSB first
    """
    if high == low:
        told = Message("bit-unknown", name=name, index=high, top=width - 1)
    else:
        told = Message("slice-unknown", name=name, high=high, low=low, top=width - 1)
    return CircuitError(told, place)
