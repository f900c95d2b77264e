"""What a bench sheet says, as facts: parts, steps, the run push by push, and cautions."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property
from typing import Final, Literal, TypeAlias

from edgewise.bits import X
from edgewise.circuit.clocks import gating, sources
from edgewise.lab.wiring.board import STAGES, Around, Beside, Board, Pin, Stage, Wire
from edgewise.lab.wiring.nets import Nets
from edgewise.trace import Trace
from edgewise.words.messages import Fact

SUPPLY: Final = 5.0
"""Volts on the sheet; the family works from 2 V to 6 V, 7 V being the absolute maximum (makers'
sheets, as in docs/bench.md)."""
LEAST_SUPPLY: Final = 2
MOST_SUPPLY: Final = 6
ABSOLUTE: Final = 7
LIGHT_DROP: Final = 2.0
"""Volts across a red light-emitting diode (common practice, no source)."""
LIGHT_OHMS: Final = 1500
RATED: Final = 4.0
"""Milliamperes of an output at which its levels are stated (makers' sheets, 74HC at 4.5 V)."""
PULL_OHMS: Final = 4700
"""With some 60 pF of pins and wires a contact's edge takes about half a microsecond, which is what
makers allow at 4.5 V (from memory)."""
CAPACITOR: Final = "100 nF"
BULK: Final = "10 µF"
MOST_ROWS: Final = 200
"""Pushes that a sheet lists."""
MOST_POINTS: Final = 24


def light_current(ohms: int = LIGHT_OHMS) -> float:
    """Milliamperes through a light and its resistor.

    Examples
    --------
    >>> light_current() < RATED, light_current(680) < RATED
    (True, False)
    """
    return 1000 * (SUPPLY - LIGHT_DROP) / ohms


@dataclass(frozen=True, slots=True)
class Item:
    """A line of the list of parts: how many, what (a message's name, or a chip's own), which."""

    count: int
    what: str
    names: tuple[str, ...] = ()
    value: str = ""
    source: str = ""


@dataclass(frozen=True, slots=True)
class Fitting:
    """A line of the building order that is no wire between pins of the circuit.

    Parameters
    ----------
    start, end : Pin
    what : str
        ``resistor``, or ``wire``: a lead to a rail.
    value : str
        Of a resistor.
    net : str
        What it carries; nothing for a rail.
    """

    start: Pin
    end: Pin
    what: Literal["resistor", "wire"]
    value: str = ""
    net: str = ""


Shown: TypeAlias = Literal["set", "light", "point"]
"""What a column is: switches to be set, lights to be seen, pins to be measured."""


@dataclass(frozen=True, slots=True)
class Column:
    """A word of the run at the bench, MSB first.

    Parameters
    ----------
    shown : str
    name : str
    nets : tuple of int
        Of the design.
    places : tuple of str
        The switch, light or pin of each bit.
    """

    shown: Shown
    name: str
    nets: tuple[int, ...]
    places: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Push:
    """A row of the run at the bench.

    Parameters
    ----------
    row : int
        Pushes so far.
    phase : str
        The phase whose inputs stand in the row; nothing where there is no clock.
    words : tuple of str
        What stands in each of `Sheet.columns`, X for either; switches are set before the next
        push, lights and pins show it after the last.
    """

    row: int
    phase: str
    words: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Caution:
    """A caution: the name of its message, and facts for it."""

    message: str
    facts: tuple[tuple[str, Fact], ...] = ()


@dataclass(frozen=True)
class Sheet:
    """A board and a run on it.

    Parameters
    ----------
    board : Board
    trace : Trace
    """

    board: Board
    trace: Trace

    @cached_property
    def items(self) -> tuple[Item, ...]:
        """What to fetch from the store."""
        board = self.board
        found = [
            Item(
                len(packages),
                packages[0].chip.title,
                tuple(p.name for p in packages),
                name,
                packages[0].chip.source,
            )
            for name, packages in board.parts.items()
        ]
        found.append(Item(len(board.packages), "bench-item-decoupling", (), CAPACITOR))
        found.append(Item(1, "bench-item-bulk", (), BULK))
        counts = {what: [one.name for one in board.of(what)] for what in _BESIDE}
        for what, names in counts.items():
            if names:
                found.append(Item(len(names), f"bench-item-{what}", tuple(names)))
        if counts["light"]:
            found.append(
                Item(len(counts["light"]), "bench-item-resistor", (), f"{LIGHT_OHMS / 1000:g} kΩ")
            )
        if pulls := self.pulls:
            found.append(Item(pulls, "bench-item-pull", (), f"{PULL_OHMS / 1000:g} kΩ"))
        return tuple(found)

    @property
    def pulls(self) -> int:
        """Pull-up resistors: one for each switch and clear, two for the change-over button."""
        return sum(_PULLS[one.what] for one in self.board.beside)

    @cached_property
    def stages(self) -> tuple[tuple[Stage, tuple[Wire | Fitting, ...]], ...]:
        """The lines of each stage that has any, in building order."""
        found: dict[Stage, tuple[Wire | Fitting, ...]] = {
            stage: tuple(wire for wire in self.board.wires if wire.stage == stage)
            for stage in STAGES
        }
        found["outputs"] = tuple(
            line
            for wire in self.board.wires
            if wire.stage == "outputs"
            for line in self._light(wire)
        )
        for one in self.board.beside:
            stage = _STAGE.get(one.what)
            if stage:
                found[stage] = (*found[stage], *_contacts(one))
        return tuple((stage, lines) for stage, lines in found.items() if lines)

    @cached_property
    def lines(self) -> int:
        """Lines of the building order."""
        return sum(len(lines) for _, lines in self.stages)

    @staticmethod
    def _light(wire: Wire) -> Iterator[Fitting]:
        """A light: from the pin through its resistor, and on to GND."""
        ohms = f"{LIGHT_OHMS / 1000:g} kΩ"
        yield Fitting(wire.start, Pin(wire.end.of, 1), "resistor", ohms, wire.net)
        yield Fitting(Pin(wire.end.of, 2), Pin("GND"), "wire")

    @cached_property
    def columns(self) -> tuple[Column, ...]:
        """The words of the run: lights, switches, and what else can be measured."""
        return (*self._lights(), *self._switches(), *self._points())

    def _switches(self) -> Iterator[Column]:
        netlist = self.board.design.netlist
        switches = {one.net: one.name for one in self.board.of("switch")}
        for name, bits in netlist.inputs.items():
            nets = tuple(net for net in reversed(bits) if netlist.labels[net] in switches)
            if nets:
                places = tuple(switches[netlist.labels[net]] for net in nets)
                yield Column("set", name, nets, places)

    def _lights(self) -> Iterator[Column]:
        lights = {one.net: one.name for one in self.board.of("light")}
        for name, bits in self.board.design.netlist.outputs.items():
            nets = tuple(reversed(bits))
            places = tuple(lights[self._nets.net(net)] for net in nets)
            yield Column("light", name, nets, places)

    def _points(self) -> Iterator[Column]:
        """Words of the run that pins drive and that neither lights nor switches show."""
        netlist = self.board.design.netlist
        seen = {net for bits in netlist.outputs.values() for net in bits}
        seen |= {net for bits in netlist.inputs.values() for net in bits}
        room = MOST_POINTS
        for name in self.trace.columns:
            nets = tuple(
                net
                for net in reversed(netlist.find(name))
                if net not in seen and self._nets.net(net) in self.board.drivers
            )
            if nets and len(nets) <= room:
                room -= len(nets)
                seen |= set(nets)
                yield Column("point", name, nets, tuple(str(self._pin(net)) for net in nets))

    @cached_property
    def _nets(self) -> Nets:
        return Nets(self.board.design)

    def _pin(self, net: int) -> Pin:
        return self.board.drivers[self._nets.net(net)]

    @cached_property
    def points(self) -> frozenset[Pin]:
        """The pins that are measuring points."""
        return frozenset(
            self._pin(net)
            for column in self.columns
            if column.shown == "point"
            for net in column.nets
        )

    @cached_property
    def pushes(self) -> tuple[Push, ...]:
        """The run, row by row; no more of it than a sheet has room for."""
        found = []
        for row in range(min(self.trace.edges, MOST_ROWS) + 1):
            phase, bits = self.trace.phase(row), self.trace.rows[row]
            words = tuple("".join("01X"[bits[n]] for n in one.nets) for one in self.columns)
            found.append(Push(row, phase.name if phase else "", words))
        return tuple(found)

    @cached_property
    def cautions(self) -> tuple[Caution, ...]:
        """What to mind, in the order of the sheet."""
        return tuple(self._cautions())

    def _cautions(self) -> Iterator[Caution]:
        board = self.board
        supply = (
            ("volts", f"{SUPPLY:g}"),
            ("least", LEAST_SUPPLY),
            ("most", MOST_SUPPLY),
            ("absolute", ABSOLUTE),
        )
        yield Caution("bench-caution-rules")
        yield Caution("bench-caution-supply", supply)
        yield Caution("bench-caution-off")
        yield Caution("bench-caution-floating")
        yield Caution("bench-caution-static")
        yield Caution("bench-caution-outputs")
        if any(board.of("light")):
            current = f"{light_current():.1f}"
            facts = (
                ("current", current),
                ("rated", f"{RATED:g}"),
                ("ohms", f"{LIGHT_OHMS / 1000:g}"),
            )
            yield Caution("bench-caution-lights", facts)
        netlist = board.design.netlist
        passing = {net for nets in gating(netlist).values() for net in nets}
        late = sources(netlist, passing)
        names = [
            place
            for column in self._switches()
            for net, place in zip(column.nets, column.places, strict=True)
            if net in late
        ]
        if names:
            yield Caution(
                "bench-caution-gated", (("switches", ", ".join(names)), ("count", len(names)))
            )

    @property
    def uncertain(self) -> bool:
        """Whether any value of the run is unknown."""
        return any(X in row for row in self.trace.rows)


_STAGE: Final[dict[Around, Stage]] = {"switch": "inputs", "button": "clock", "clear": "clear"}


def _contacts(one: Beside) -> Iterator[Fitting]:
    """A resistor from VCC to each contact, and the other side to GND."""
    contacts = 2 if one.what == "button" else 1
    for number in range(1, contacts + 1):
        ohms = f"{PULL_OHMS / 1000:g} kΩ"
        yield Fitting(Pin("VCC"), Pin(one.name, number), "resistor", ohms)
    yield Fitting(Pin(one.name, contacts + 1), Pin("GND"), "wire")


_BESIDE: Final[tuple[Around, ...]] = ("switch", "light", "button", "clear")
_PULLS: Final = {"switch": 1, "light": 0, "button": 2, "clear": 1}
