"""Sinks: the input ports of the parts and the outputs of a circuit, and what feeds them."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

from edgewise.circuit.model import CLOCK, Circuit, Part
from edgewise.circuit.storage import stores
from edgewise.views.diagram.drivers import Origin, Run, Sources
from edgewise.views.diagram.options import Manner

_CONTROLS: Final = ("enable", "clear", "load", "direction", "preset", "reset")
"""Roles of ports of storage elements that say what an edge does, or what is done without one."""
_CARRY: Final = re.compile(r"carry.*|c\d+")
_GENERATE: Final = re.compile(r"[gp](\d+|-.*)?|generate|propagate")


@dataclass(frozen=True, slots=True)
class Sink:
    """An input port of a part, or an output of the circuit.

    Examples
    --------
    >>> Sink("C", "d", ()).control
    False
    """

    owner: str
    """Name of the part; empty: an output of the circuit."""
    port: str
    runs: tuple[Run, ...]
    control: bool = False
    """Whether it says what an edge does."""


class Sinks:
    """The sinks of one circuit that are drawn, without those inside its parts.

    Examples
    --------
    >>> from edgewise import catalogue
    >>> sinks = Sinks(catalogue.design("serial-adder", n=4).circuit)
    >>> sinks.kind("", "shift"), sinks.kind("FA", "carry-out"), sinks.kind("A", "out")
    ('control', 'carry', '')
    >>> sinks.hide(Manner(clock="hidden"))
    >>> sinks.drives("", "shift"), sinks.drives("", "clock")
    (True, False)
    """

    def __init__(self, circuit: Circuit, *, clocked: bool = False) -> None:
        """`clocked`: the clock of storage elements counts as a sink, though nobody wrote it."""
        self.circuit = circuit
        self.widths: dict[tuple[str, str], int] = {("", CLOCK): 1}
        """Of every port that drives; its owner is a part, or empty for the circuit itself."""
        self.widths |= {("", net.name): net.width for net in circuit.inputs}
        for part in circuit.parts:
            for port in part.kind.ports:
                if port.direction == "out":
                    self.widths[part.name, port.name] = port.width
        self.items: list[Sink] = list(_all_sinks(circuit))
        if clocked:
            self.items += _clocks(circuit)

    def hide(self, manner: Manner, *, clock_enters: bool = False) -> None:
        """Take away what is not drawn: the bare clock, and what fed only that.

        `clock_enters` if the part around the circuit has a clock port of its own, because its
        clock is gated.
        """
        before = {part.name: self.drives(part.name) for part in self.circuit.parts}
        self.items = [
            sink
            for sink in self.items
            if not (_is_bare(sink) and manner.clock != "wires" and not clock_enters)
        ]
        while True:
            idle = {name for name, drove in before.items() if drove and not self.drives(name)}
            left = [sink for sink in self.items if sink.owner not in idle]
            if len(left) == len(self.items):
                return
            self.items = left

    def keep_outputs(self, names: set[str]) -> None:
        """Leave out the outputs that go nowhere."""
        self.items = [sink for sink in self.items if sink.owner or sink.port in names]

    def of(self, owner: str) -> list[Sink]:
        """The sinks of a part; of an empty name: the outputs of the circuit."""
        return [sink for sink in self.items if sink.owner == owner]

    def drives(self, owner: str, port: str | None = None) -> bool:
        """Whether a part, or one port of it, drives anything that is drawn."""
        return any(
            run.origin is not None
            and run.origin.owner == owner
            and (port is None or run.origin.port == port)
            for sink in self.items
            for run in sink.runs
        )

    def shown(self, part: Part) -> bool:
        """Whether anything of a part is left: an input, or an output that goes somewhere."""
        return bool(self.of(part.name)) or self.drives(part.name) or stores(part.kind)

    def kind(self, owner: str, port: str) -> str:
        """What a net is: ``clock``, ``carry``, ``control``, or nothing special."""
        fed = self._fed(owner, port)
        if self._is_clock(owner, port, fed):
            return "clock"
        if self._is_carry(port, fed):
            return "carry"
        return "control" if fed and all(map(self._is_control, fed)) else ""

    def _fed(self, owner: str, port: str) -> list[Sink]:
        """The sinks of what drives."""
        return [
            sink
            for sink in self.items
            if any(
                run.origin and (run.origin.owner, run.origin.port) == (owner, port)
                for run in sink.runs
            )
        ]

    @staticmethod
    def _is_clock(owner: str, port: str, fed: list[Sink]) -> bool:
        return (not owner and port == CLOCK) or any(sink.port == CLOCK for sink in fed)

    def _is_carry(self, port: str, fed: list[Sink]) -> bool:
        """Whether a net carries: it comes from a carry, or goes to one and is else only kept."""
        if any(_GENERATE.fullmatch(name) for name in (port, *(sink.port for sink in fed))):
            return False
        if _CARRY.fullmatch(port):
            return True
        taken = [sink for sink in fed if _CARRY.fullmatch(sink.port)]
        others = (sink for sink in fed if sink not in taken)
        return bool(taken) and all(not sink.owner or self._stores(sink.owner) for sink in others)

    def _stores(self, name: str) -> bool:
        part = self.circuit.part(name)
        return part is not None and part.kind.role == "storage"

    def _is_control(self, sink: Sink) -> bool:
        part = self.circuit.part(sink.owner) if sink.owner else None
        if part and part.kind.role == "gate":
            out = (sink.owner, part.kind.outs[0].name)
            if self._is_clock(*out, self._fed(*out)):
                return True
        port = part.kind.port(sink.port) if part else None
        return sink.control or (port is not None and port.role == "select")

    def stands_elsewhere(self, sink: Sink) -> bool:
        """Whether the cells of one part, or of an input, show the bits of an output."""
        origin = sink.runs[0].origin if len(sink.runs) == 1 else None
        if origin is None:
            return False
        stored = self._stores(origin.owner)
        return not origin.owner or (stored and origin.port in ("q", "out", "left-out"))


def _all_sinks(circuit: Circuit) -> Iterator[Sink]:
    sources = Sources(circuit)
    for part in circuit.parts:
        for port in part.kind.ports:
            if port.direction == "in":
                signal = part.signal(port.name)
                single = part.kind.role == "gate"
                runs = sources.single(signal) if single else sources.runs(signal)
                control = port.role in _CONTROLS
                yield Sink(part.name, port.name, runs, control)
    for output in circuit.outputs:
        yield Sink("", output.name, sources.runs(output.signal))


def _clocks(circuit: Circuit) -> Iterator[Sink]:
    for part in circuit.parts:
        if stores(part.kind) and part.kind.port(CLOCK) is None:
            yield Sink(part.name, CLOCK, (Run(0, 1, Origin("", CLOCK)),))


def _is_bare(sink: Sink) -> bool:
    """Whether it is a clock port that the clock itself feeds."""
    return sink.port == CLOCK and [run.origin for run in sink.runs] == [Origin("", CLOCK)]
