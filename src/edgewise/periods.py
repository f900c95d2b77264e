"""Clock periods, looked into: every change of every net between some edges of a run.

What `Trace` is to rows, this is to what happens in between. Times are whole ticks after the first
of the edges; `ticks` of them make one unit.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import groupby
from typing import Literal, NamedTuple

from edgewise.bits import Bit, Word
from edgewise.circuit.netlist import CLOCK_NET
from edgewise.clocking import LateBit, Pulse, Times, Window, late_bits, pulses, windows
from edgewise.trace import Trace


class Change(NamedTuple):
    """A net that changes."""

    time: int
    net: int
    before: Bit
    after: Bit


class Violation(NamedTuple):
    """A set-up or hold time that was not kept, where what is stored depends on it."""

    kind: Literal["setup", "hold"]
    flip_flop: int
    """Its place in the netlist."""
    net: int
    """The port's net."""
    edge: int
    """When the edge came to the flip-flop."""
    change: int
    """When the net changed."""
    needed: int
    """How long it has to stand."""


class Glitch(NamedTuple):
    """A net that changes more often in a clock period than it has to.

    A *static* one ends where it began, a *dynamic* one does not (E. McCluskey, *Logic Design
    Principles*, 1986, from memory).
    """

    net: int
    edge: int
    """The edge that begins the period."""
    changes: tuple[Change, ...]

    @property
    def kind(self) -> Literal["static", "dynamic"]:
        """Static or dynamic."""
        return "static" if self.changes[0].before == self.changes[-1].after else "dynamic"

    @property
    def bits(self) -> tuple[Bit, ...]:
        """What the net holds, one bit after the other."""
        return (self.changes[0].before, *(change.after for change in self.changes))


@dataclass(frozen=True)
class Periods:
    """What every net does between two edges of a run.

    Parameters
    ----------
    trace : Trace
    first, last : int
        Edges; looked at is from `first` to the end of the period that `last` begins. Row
        ``first - 1`` stands before. Of a circuit without clock edges both are 0: the inputs
        change at time 0, and `start` stood before.
    model, unit : str
        Whose delays they are, and the unit of time, in the plural.
    ticks : int
        Ticks in a unit.
    period : int
        From edge to edge, in ticks; the clock falls half-way.
    start : tuple of bit
        By net, just before `first`.
    changes : tuple of Change
        In order of time.
    violations : tuple of Violation
    quiet : bool
        Nothing was still to come at the end.
    busy : tuple of int
        Ticks at which an edge came, or an input changed, while changes were still to come.
    asked : tuple of Times
        What each flip-flop asks for; its skew.
    least : int, optional
        The shortest period in which every set-up time is kept along whatever path, in ticks.
    """

    trace: Trace
    first: int
    last: int
    model: str
    unit: str
    ticks: int
    period: int
    start: tuple[Bit, ...]
    changes: tuple[Change, ...]
    violations: tuple[Violation, ...]
    quiet: bool
    busy: tuple[int, ...] = ()
    asked: tuple[Times, ...] = ()
    least: int | None = None

    @property
    def end(self) -> int:
        """The tick at which the last period ends."""
        return self.period * (self.last - self.first + 1)

    def edge_of(self, time: int) -> int:
        """The edge that begins the period in which a time lies."""
        return min(self.first + time // self.period, self.last)

    def figure(self, ticks: int) -> str:
        """A time in units: whole, or with as many decimals as it has, three at most.

        Examples
        --------
        >>> Periods(None, 1, 1, "", "ns", 100, 1, (), (), (), True).figure(1250)
        '12.5'
        """
        whole, rest = divmod(ticks, self.ticks)
        return f"{whole}.{round(1000 * rest / self.ticks):03}".rstrip("0") if rest else str(whole)

    def of(self, nets: Iterable[int]) -> Iterator[Change]:
        """The changes of some nets."""
        wanted = set(nets)
        return (change for change in self.changes if change.net in wanted)

    def history(self, nets: Sequence[int]) -> tuple[tuple[int, Word], ...]:
        """What the word made of these nets, LSB first, holds from which time on.

        Examples
        --------
        >>> from edgewise import catalogue, run
        >>> from edgewise.study.inside import inside
        >>> moment = inside(run(catalogue.design("johnson-counter", n=3)), 1)
        >>> word = moment.trace.columns[0]
        >>> [(at, str(word)) for at, word in moment.history(moment.nets(word))]
        [(0, '000'), (400, '100')]
        """
        bits = [self.start[net] for net in nets]
        found = [(0, Word.from_bits(bits))]
        for time, several in groupby(self.of(nets), key=lambda change: change.time):
            for change in several:
                for at, net in enumerate(nets):
                    if net == change.net:
                        bits[at] = change.after
            found.append((time, Word.from_bits(bits)))
        return tuple(found[1:] if len(found) > 1 and found[1][0] == 0 else found)

    def nets(self, name: str) -> tuple[int, ...]:
        """The nets of a name, LSB first."""
        return self.trace.design.netlist.find(name)

    def at(self, time: int) -> list[Bit]:
        """Every net's bit at a time, its changes included."""
        bits = list(self.start)
        for change in self.changes:
            if change.time > time:
                break
            bits[change.net] = change.after
        return bits

    @cached_property
    def clocks(self) -> frozenset[int | None]:
        """The clock, and what gates make of it."""
        return frozenset({CLOCK_NET, *(f.gate for f in self.trace.design.netlist.flip_flops)})

    @cached_property
    def glitches(self) -> tuple[Glitch, ...]:
        """The nets that change more than once in one period, the clock and its gates aside."""
        found: dict[tuple[int, int], list[Change]] = {}
        for change in self.changes:
            if change.net not in self.clocks:
                found.setdefault((self.edge_of(change.time), change.net), []).append(change)
        return tuple(
            Glitch(net, edge, tuple(several))
            for (edge, net), several in found.items()
            if len(several) > 1
        )

    def rests(self, edge: int) -> bool:
        """Whether nothing was still to come when the period of an edge ended."""
        if edge == self.last:
            return self.quiet
        return self.period * (edge + 1 - self.first) not in self.busy

    def settled(self, edge: int, nets: Iterable[int] | None = None) -> int | None:
        """Ticks from an edge to the last change before the next one; None if there is none.

        Clocks do not count. Of all nets unless some are named.
        """
        begin = (edge - self.first) * self.period
        wanted = None if nets is None else set(nets)
        times = [
            change.time - begin
            for change in self.changes
            if begin <= change.time < begin + self.period
            and change.net not in self.clocks
            and (wanted is None or change.net in wanted)
        ]
        return max(times, default=None)

    @cached_property
    def windows(self) -> tuple[Window, ...]:
        """The times around edges in which ports must stand, whether they do or not."""
        flip_flops = self.trace.design.netlist.flip_flops
        clocked = (
            (CLOCK_NET if one.gate is None else one.gate, (one.d, one.enable, one.clear), times)
            for one, times in zip(flip_flops, self.asked, strict=False)
        )
        return tuple(dict.fromkeys(windows(self.changes, clocked)))

    @cached_property
    def late_bits(self) -> tuple[LateBit, ...]:
        """What a late clock finds changed: the bit that was to be stored has gone."""
        flip_flops = self.trace.design.netlist.flip_flops
        asked = zip(flip_flops, self.asked, strict=False)
        fed = ((one.d, times.late) for one, times in asked)
        begins = range(0, self.end, self.period) if self.first else ()
        return tuple(late_bits(self.changes, tuple(fed), begins))

    @cached_property
    def pulses(self) -> tuple[Pulse, ...]:
        """What gated clocks do: their pulses, false and cut ones among them."""
        rows = self.trace.rows
        return tuple(
            pulses(
                self.changes,
                self.clocks - {None, CLOCK_NET},  # type: ignore[arg-type]
                self.edge_of,
                lambda edge: (edge - self.first) * self.period + self.period // 2,
                lambda edge, net: rows[edge - 1][net],
            )
        )

    @cached_property
    def astray(self) -> tuple[tuple[int, Bit, Bit], ...]:
        """What ends otherwise than row `last` of the trace says: net, the bit there, the bit here.

        Only nets that store, and outputs; none, if the clock is slow enough and nothing else is
        wrong.
        """
        netlist, row, end = self.trace.design.netlist, self.trace.rows[self.last], self.at(self.end)
        shown = [flip_flop.q for flip_flop in netlist.flip_flops]
        shown += [net for nets in netlist.outputs.values() for net in nets]
        return tuple(
            (net, row[net], end[net]) for net in dict.fromkeys(shown) if row[net] != end[net]
        )
