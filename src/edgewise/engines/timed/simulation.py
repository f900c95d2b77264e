"""The event-driven simulation: three-valued, time in whole ticks.

A gate looks at its inputs whenever one of them changes. If its output is to differ from what it is
(or is to be), the change comes after the gate's delay; with inertial delays a change that is still
to come is taken back when the inputs change their mind. A flip-flop stores at a rising edge of its
clock what stood at its ports before that tick, and shows it after its clock-to-Q delay; a port that
changed within the set-up time before the edge, or the hold time after it, leaves unknown what is
stored, where it matters: for a stated time, or until the next edge. Asynchronous preset and clear
are stored at once, whatever the clock does, and after the clock-to-Q delay too.

Inertial delay is that of continuous assignments in IEEE 1800-2017, 10.3.3 and 28.16, transport
delay that of IEEE 1076-2008, 10.5.2.2 (both from memory).
"""

from __future__ import annotations

import random
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from heapq import heappop, heappush
from typing import Final, NamedTuple

from edgewise.bits import Bit, X
from edgewise.circuit.cover import Cover
from edgewise.circuit.netlist import CLOCK_NET, FlipFlop, Netlist
from edgewise.circuit.truth import KLEENE
from edgewise.engines.run_loop import Machine
from edgewise.engines.timed.delays import Delays, Stored
from edgewise.engines.timed.gates import function, patience
from edgewise.inside import Change, Violation

MOST_EVENTS: Final = 2_000_000
"""Changes of nets in one simulation, at most."""


class Stimulus(NamedTuple):
    """A net that is driven from outside from a time on."""

    time: int
    net: int
    bit: Bit


@dataclass(frozen=True, slots=True)
class Run:
    """What happened in a simulation.

    Parameters
    ----------
    start : tuple of bit
        By net, before anything happened.
    changes : tuple of Change
        In order of time, then of net. A net has one change in a tick at most.
    violations : tuple of Violation
    quiet : bool
        Nothing was still to come when the simulation ended.
    busy : tuple of int
        The ticks in which something was driven from outside while changes were still to come.
    """

    start: tuple[Bit, ...]
    changes: tuple[Change, ...]
    violations: tuple[Violation, ...]
    quiet: bool
    busy: tuple[int, ...] = ()


def simulate(
    netlist: Netlist,
    delays: Delays,
    start: Sequence[Bit],
    stimuli: Iterable[Stimulus],
    *,
    until: int,
    most: int = MOST_EVENTS,
) -> Run:
    """Let nets be driven from outside, and follow everything that comes of it.

    Parameters
    ----------
    netlist : Netlist
        Its gates may be in any order; loops are followed as they are.
    delays : Delays
    start : sequence of bit
        By net; gates that don't agree with it change at once.
    stimuli : iterable of Stimulus
        What comes from outside; the clock is the net `CLOCK_NET`.
    until : int
        The last tick that is looked at.
    most : int
        The simulation ends after this many changes.

    Returns
    -------
    Run

    Examples
    --------
    A pulse that is shorter than the gate's delay is swallowed:

    >>> from edgewise import catalogue
    >>> netlist = catalogue.design("ripple-carry-adder-without-carry-in", n=1).netlist
    >>> delays = Delays(((5, 5),) * len(netlist.gates), ())
    >>> pulse = [Stimulus(0, netlist.inputs["a"][0], 1), Stimulus(3, netlist.inputs["a"][0], 0)]
    >>> start = [0, 1, 2] + [0] * (netlist.size - 3)
    >>> [change.time for change in simulate(netlist, delays, start, pulse, until=50).changes]
    [0, 3]
    """
    return _Simulation(netlist, delays, list(start), most).run(stimuli, until)


class _Pending(NamedTuple):
    """A change that is to come."""

    net: int
    bit: Bit
    ticket: int


@dataclass(slots=True)
class _Edge:
    """The last edge that a flip-flop took: when, and what stood everywhere before it."""

    time: int
    row: list[Bit]


class _Simulation:
    """A netlist in the midst of a simulation."""

    def __init__(self, netlist: Netlist, delays: Delays, values: list[Bit], most: int) -> None:
        self.netlist, self.delays, self.values, self.most = netlist, delays, values, most
        self.changes: list[Change] = []
        self.violations: list[Violation] = []
        self.busy: list[int] = []
        self.spins = False
        self.gates = netlist.gates
        self.of = [function(gate) for gate in netlist.gates]
        self.patience = patience(netlist, delays)
        self.store = [Machine(KLEENE).store(one) for one in netlist.flip_flops]
        self.readers: list[list[int]] = [[] for _ in range(netlist.size)]
        for number, gate in enumerate(netlist.gates):
            for net in {*gate.inputs, *(gate.cover.nets if gate.cover else ())}:
                self.readers[net].append(number)
        self.clocked: list[list[int]] = [[] for _ in range(netlist.size)]
        self.ports: list[list[int]] = [[] for _ in range(netlist.size)]
        self.forced: list[list[int]] = [[] for _ in range(netlist.size)]
        for number, one in enumerate(netlist.flip_flops):
            self.clocked[_clock(one)].append(number)
            for net in _ports(one):
                if net is not None:
                    self.ports[net].append(number)
            for net in {one.reset, one.preset}:
                if net is not None:
                    self.forced[net].append(number)
        self.lots = random.Random(delays.seed)  # noqa: S311  nothing secret
        self.queue: list[int] = []
        self.due: dict[int, list[_Pending]] = {}
        self.tickets = 0
        self.coming: dict[int, list[tuple[int, Bit, int]]] = {}
        self.edges: dict[int, _Edge] = {}
        self.late: dict[int, list[tuple[int, Bit]]] = {}
        self.moved: dict[int, tuple[int, Bit]] = {}
        self.since: dict[int, int] = {}
        self.again: dict[int, set[int]] = {}

    # The loop.

    def run(self, stimuli: Iterable[Stimulus], until: int) -> Run:
        start = tuple(self.values)
        for time, net, bit in stimuli:
            self.put(time, net, bit)
        self.look(range(len(self.gates)), 0)
        while self.queue and self.queue[0] <= until and not self.spins:
            self.tick(heappop(self.queue))
            self.spins |= len(self.changes) >= self.most
        quiet = not self.queue and not self.spins
        return Run(start, tuple(self.changes), tuple(self.violations), quiet, tuple(self.busy))

    def tick(self, time: int) -> None:
        """All that happens in one tick; gates without delay follow within it."""
        before: dict[int, Bit] = {}
        values, rounds = self.values, 0
        if any(not one.ticket for one in self.due.get(time, ())) and self.restless:
            self.busy.append(time)
        self.look(self.again.pop(time, ()), time)
        while batch := self.due.pop(time, None):
            rounds += 1
            if rounds > len(values):  # a loop of gates without delay
                self.spins = True
                break
            changed: set[int] = set()
            for net, bit, ticket in batch:
                if ticket and not self.arrived(net, ticket):
                    continue
                if values[net] != bit:
                    changed.add(net)
                    before.setdefault(net, values[net])
                    values[net] = bit
                    self.since[net] = time
            self.look({number for net in changed for number in self.readers[net]}, time)
        self.edge(time, before)
        self.held(time, before)
        self.force(time, before)
        for net in sorted(before):
            if values[net] != before[net]:
                self.changes.append(Change(time, net, before[net], values[net]))
                self.moved[net] = time, before[net]

    @property
    def restless(self) -> bool:
        """Whether a gate or flip-flop has a change still to come, or an edge."""
        return bool(self.late or self.again) or any(self.coming.values())

    def put(self, time: int, net: int, bit: Bit, ticket: int = 0) -> None:
        self.wake(time)
        self.due[time].append(_Pending(net, bit, ticket))

    def wake(self, time: int) -> None:
        """See to it that this tick is looked at."""
        if time not in self.due:
            self.due[time] = []
            heappush(self.queue, time)

    # Gates.

    def look(self, numbers: Iterable[int], time: int) -> None:
        """See what these gates are to give."""
        for number in numbers:
            gate = self.gates[number]
            bit = self.of[number](self.values)
            if bit == X and gate.cover:
                bit = self.covered(gate.cover, number, time)
            self.drive(gate.output, bit, time, number)

    def covered(self, cover: Cover, number: int, time: int) -> Bit:
        """What the part around a gate decides, once that could have come to the gate."""
        bit = cover.value(self.values, KLEENE)
        if bit != X:
            last = max([self.since[net] for net in cover.nets if net in self.since], default=None)
            if last is not None and (ready := last + self.patience[number]) > time:
                self.again.setdefault(ready, set()).add(number)
                self.wake(ready)
                return X
        return bit

    def drive(self, net: int, bit: Bit, time: int, gate: int) -> None:
        coming = self.coming.setdefault(net, [])
        there = coming[-1][1] if coming else self.values[net]
        if bit == there:
            return
        if self.delays.transport:
            at = time + self.delays.taken(gate, bit)
            while coming and coming[-1][0] >= at:
                coming.pop()
            if (coming[-1][1] if coming else self.values[net]) == bit:
                return
        else:
            coming.clear()
            if bit == self.values[net]:
                return
            at = time + self.delays.taken(gate, bit)
        self.tickets += 1
        coming.append((at, bit, self.tickets))
        self.put(at, net, bit, self.tickets)

    def arrived(self, net: int, ticket: int) -> bool:
        """Whether a change was not taken back; it is not to come any more."""
        coming = self.coming.get(net, [])
        for place, (_, _, own) in enumerate(coming):
            if own == ticket:
                del coming[place]
                return True
        return False

    # Flip-flops.

    def edge(self, time: int, before: dict[int, Bit]) -> None:
        """The edges of this tick, and what may be one; to some flip-flops they come late."""
        rising = self.late.pop(time, [])
        for net, was in before.items():
            if (was, self.values[net]) in _RISES:
                bit = 1 if (was, self.values[net]) == (0, 1) else X
                for number in self.clocked[net]:
                    if late := self.delays.flip_flops[number].late:
                        self.late.setdefault(time + late, []).append((number, bit))
                        self.wake(time + late)
                    else:
                        rising.append((number, bit))
        for number, bit in rising:
            row = self.values.copy()
            for net, was in before.items():
                row[net] = was
            self.take(number, time, row, bit)

    def take(self, number: int, time: int, row: list[Bit], gate: Bit) -> None:
        """Store what stood everywhere before an edge, unless a set-up time was not kept."""
        one, times = self.netlist.flip_flops[number], self.delays.flip_flops[number]
        if self.forcing(one, 0) == self.forcing(one, 1) != X:  # whatever it takes in
            return
        if one.gate is not None:
            row[one.gate] = gate
        bit, astray = self.store[number](row), False
        for net, needed in zip(_ports(one), times.setup, strict=True):
            if net is None:
                continue
            since, was = self.moved.get(net, (-needed - 1, 0))
            if row[net] != self.values[net]:  # in this very tick
                since, was = time, row[net]
            if needed and time - since < needed and self.matters(number, row, net):
                self.violations.append(Violation("setup", number, net, time, since, needed))
                bit, astray = self.outcome(number, row, net, was, self.values[net]), True
        self.edges[number] = _Edge(time, row)
        self.show(one.q, self.forcing(one, bit), time, times, astray=astray)

    def held(self, time: int, before: dict[int, Bit]) -> None:
        """See whether what changed in this tick had to stand, for an edge just before."""
        for net in before:
            for number in self.ports[net]:
                edge, times = self.edges.get(number), self.delays.flip_flops[number]
                if edge is None or not edge.time < time < edge.time + times.hold:
                    continue
                if edge.row[net] == self.values[net] or not self.matters(number, edge.row, net):
                    continue
                needed = times.hold
                self.violations.append(Violation("hold", number, net, edge.time, time, needed))
                bit = self.outcome(number, edge.row, net, edge.row[net], self.values[net])
                one = self.netlist.flip_flops[number]
                bit = self.forcing(one, bit)
                self.show(one.q, bit, edge.time, times, time, astray=True)

    def force(self, time: int, before: dict[int, Bit]) -> None:
        """What presets and clears store that changed in this tick."""
        for number in {number for net in before for number in self.forced[net]}:
            one = self.netlist.flip_flops[number]
            coming = self.coming.get(one.q)
            bit = self.forcing(one, coming[-1][1] if coming else self.values[one.q])
            self.show(one.q, bit, time, self.delays.flip_flops[number])

    def forcing(self, one: FlipFlop, stored: Bit) -> Bit:
        """What preset and clear make of a bit that is stored."""
        preset, reset = (0 if net is None else self.values[net] for net in (one.preset, one.reset))
        return KLEENE.bit_mux(preset, KLEENE.bit_mux(reset, stored, 0), 1)

    def matters(self, number: int, row: list[Bit], net: int) -> bool:
        """Whether what is stored depends on a net."""
        return self.stored_with(number, row, net, 0) != self.stored_with(number, row, net, 1)

    def stored_with(self, number: int, row: list[Bit], net: int, bit: Bit) -> Bit:
        kept, row[net] = row[net], bit
        stored = self.store[number](row)
        row[net] = kept
        return stored

    def outcome(self, number: int, row: list[Bit], net: int, old: Bit, new: Bit) -> Bit:
        outcome = self.delays.outcome
        if outcome == "either":
            outcome = "new" if self.lots.getrandbits(1) else "old"
        bit = {"X": X, "old": old, "new": new}[outcome]
        return self.stored_with(number, row, net, bit)

    def show(  # what happens, where and when
        self,
        net: int,
        bit: Bit,
        time: int,
        times: Stored,
        now: int | None = None,
        *,
        astray: bool = False,
    ) -> None:
        """What is stored comes to q; what was still to come is replaced."""
        at = max(time + times.clock_to_q, (now or time) + 1)
        if astray and self.delays.resolving:
            self.bring(net, X, at)
            at += self.delays.resolving
        self.bring(net, bit, at)

    def bring(self, net: int, bit: Bit, at: int) -> None:
        """Let a net become a bit, whatever else was to come from then on."""
        coming = self.coming.setdefault(net, [])
        coming[:] = [one for one in coming if one[0] < at]
        if (coming[-1][1] if coming else self.values[net]) == bit:
            return
        self.tickets += 1
        coming.append((at, bit, self.tickets))
        self.put(at, net, bit, self.tickets)


_RISES: Final = frozenset({(0, 1), (0, X), (X, 1)})


def _clock(one: FlipFlop) -> int:
    return CLOCK_NET if one.gate is None else one.gate


def _ports(one: FlipFlop) -> tuple[int | None, int | None, int | None]:
    return one.d, one.enable, one.clear
