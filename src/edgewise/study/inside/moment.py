"""From a run to what happens between its edges, with the delays of a cost model."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from fractions import Fraction
from typing import Final

from edgewise.bits import Bit
from edgewise.circuit.clocks import falling
from edgewise.circuit.netlist import CLOCK_NET, Netlist
from edgewise.clocking import Times
from edgewise.engines import reference
from edgewise.engines.timed.delays import Delays, Outcome, Stored
from edgewise.engines.timed.simulation import Stimulus, simulate
from edgewise.errors import DesignError, Message, Place, nearest
from edgewise.inside import Inside
from edgewise.study.cost.arrival import arrivals
from edgewise.study.cost.models.gates import UNIT_GATE
from edgewise.study.cost.technology import Technology, Timing
from edgewise.study.inside.least_period import least_period
from edgewise.trace import Trace

MOST_PERIODS: Final = 100
"""Clock periods that are looked into at once, at most."""
FINE: Final = 100
"""Ticks in a tick of the model, so that delays can be spread and times given with decimals."""


@dataclass(frozen=True, slots=True)
class Manner:
    """How a moment is looked into; times in units of the model.

    Parameters
    ----------
    model : Technology
        Whose delays.
    period : Fraction, optional
        From edge to edge; twice the critical path unless given, so that all is settled when the
        clock falls.
    transport : bool
        Gates let pulses of any length pass.
    spread, seed : int
        Delays moved by up to so many percent, at random.
    when : mapping of str to Fraction
        How long after the edge an input changes. Unless given it changes as if a flip-flop drove
        it, and what gates a clock changes when the clock falls.
    late : mapping of str to Fraction
        By how much the clock reaches a word, or one bit that is stored, later: its skew.
    outcome : str
        What is stored where a set-up or hold time is not kept: ``X``, ``old``, ``new``, or
        ``either``, by lot.
    resolve : Fraction
        For how long it is X before that: metastability.
    """

    model: Technology = UNIT_GATE
    period: Fraction | None = None
    transport: bool = False
    spread: int = 0
    seed: int = 1
    when: Mapping[str, Fraction] = field(default_factory=dict)
    late: Mapping[str, Fraction] = field(default_factory=dict)
    outcome: Outcome = "X"
    resolve: Fraction = Fraction(0)

    @property
    def ticks(self) -> int:
        """Ticks in a unit."""
        return self.model.ticks * FINE

    def delays(self, timing: Timing) -> Delays:
        """The delays of a netlist that takes so long in the model."""
        exact = Delays(
            tuple((FINE * gate, FINE * gate) for gate in timing.gates),
            tuple(
                Stored(FINE * shown, (FINE * d, FINE * enable, FINE * clear), FINE * timing.hold)
                for shown, (d, enable, clear) in zip(timing.clock_to_q, timing.setup, strict=True)
            ),
            self.transport,
            self.outcome,
            ticks(self.resolve, self, "resolve"),
            self.seed,
        )
        return exact.spread(self.spread, self.seed) if self.spread else exact


def inside(
    trace: Trace,
    first: int,
    last: int | None = None,
    manner: Manner = Manner(),
    *,
    before: Trace | None = None,
    place: Place | None = None,
) -> Inside:
    """Everything that happens from one edge to the end of the period that another begins.

    Parameters
    ----------
    trace : Trace
    first, last : int
        Edges; only `first` unless `last` is given. 0 for a circuit without clock edges.
    manner : Manner
    before : Trace, optional
        For a circuit without clock edges: the run whose values stood before. Unless given all of
        its inputs were unknown.

    Raises
    ------
    DesignError
        No such edges, too many of them, a name that is not there, a time that is negative or too
        fine, a period that is too short for what is to happen in it.

    Examples
    --------
    >>> from edgewise import catalogue, run
    >>> moment = inside(run(catalogue.design("serial-adder", n=4), a=11, b=6), 6)
    >>> print(moment.sentences()[0])
    after edge 6 all nets have settled within 8 gate delays
    """
    last = first if last is None else last
    netlist = trace.design.netlist
    _refuse(trace, first, last, place)
    timing = manner.model.timing(netlist)
    delays = skewed(manner.delays(timing), netlist, manner, place)
    period = _period(netlist, timing, manner, place)
    start, fed = _start(trace, first, before), _inputs(trace, timing, period, manner, place)
    run = simulate(
        netlist,
        delays,
        start,
        _stimuli(trace, (first, last), period, fed),
        until=period * (last - first + 1) - 1,
    )
    return Inside(
        trace,
        first,
        last,
        manner.model.name,
        manner.model.time_unit,
        manner.ticks,
        period,
        tuple(start),
        run.changes,
        run.violations,
        run.quiet,
        run.busy,
        tuple(Times(one.setup, one.hold, one.late) for one in delays.flip_flops),
        least_period(netlist, delays, fed),
    )


def _refuse(trace: Trace, first: int, last: int, place: Place | None) -> None:
    low = min(trace.edges, 1)
    if not low <= first <= last <= trace.edges:
        asked = f"{first}" if first == last else f"{first}..{last}"
        raise DesignError(Message("edge-behind-unknown", edges=asked, last=trace.edges), place)
    if last - first >= MOST_PERIODS:
        raise DesignError(Message("periods-many", count=last - first + 1, most=MOST_PERIODS), place)


def _start(trace: Trace, first: int, before: Trace | None) -> Sequence[Bit]:
    """Every net's bit before anything happens."""
    if first:
        start = bytearray(trace.rows[first - 1])
    elif before is not None:
        start = bytearray(before.rows[0])
    else:
        start = bytearray(reference.at_rest(trace.design).rows[0])
    start[CLOCK_NET] = 0
    return start if not first else _gated(trace.design.netlist, start)


def _gated(netlist: Netlist, row: bytearray) -> bytearray:
    """A row while the clock is low, which keeps every gated clock low."""
    for one in netlist.flip_flops:
        if one.gate is not None:
            row[one.gate] = 0
    return row


def ticks(
    units: Fraction, manner: Manner, what: str, name: str = "", place: Place | None = None
) -> int:
    """A time in ticks.

    Raises
    ------
    DesignError
        If it is negative, or finer than a tick.
    """
    exact = units * manner.ticks
    if exact < 0 or exact.denominator != 1:
        raise DesignError(
            Message(
                "time-expected",
                what=what,
                name=name,
                found=f"{float(units):g}",
                unit=manner.model.time_unit,
            ),
            place,
        )
    return exact.numerator


def _period(netlist: Netlist, timing: Timing, manner: Manner, place: Place | None) -> int:
    if manner.period is not None:
        period = ticks(manner.period, manner, "period", "", place)
        if period < 2:
            raise DesignError(Message("period-short"), place)
        return period
    latest = arrivals(netlist, timing).latest
    critical = latest[0] if latest else 0
    # With delays that are spread a path may be longer than its model says.
    return 2 * max(1, FINE * critical * (100 + manner.spread) // 100 + FINE)


def _inputs(
    trace: Trace, timing: Timing, period: int, manner: Manner, place: Place | None
) -> dict[str, int]:
    """When each input changes, in ticks after the edge."""
    netlist = trace.design.netlist
    late, clocked = falling(netlist), bool(trace.edges)
    for name in manner.when:
        if name not in netlist.inputs:
            raise DesignError(
                Message("input-unknown", name=name, suggestion=nearest(name, netlist.inputs)), place
            )
    found = {}
    for name, nets in netlist.inputs.items():
        at = FINE * timing.outside[0] if clocked else 0
        if clocked and late.issuperset(nets):
            at = period // 2
        if name in manner.when:
            at = ticks(manner.when[name], manner, "time", name, place)
        if at >= period:
            unit = manner.model.time_unit
            raise DesignError(
                Message(
                    "input-late",
                    name=name,
                    time=_plain(at, manner),
                    unit=unit,
                    period=_plain(period, manner),
                ),
                place,
            )
        found[name] = at
    return found


def _plain(ticks: int, manner: Manner) -> str:
    return f"{ticks / manner.ticks:g}"


def skewed(delays: Delays, netlist: Netlist, manner: Manner, place: Place | None = None) -> Delays:
    """The delays, with the clock late at some storage elements."""
    if not manner.late:
        return delays
    stored = {one.q: at for at, one in enumerate(netlist.flip_flops)}
    flip_flops = list(delays.flip_flops)
    for name, units in manner.late.items():
        nets = netlist.find(name, place)
        if not stored.keys() >= set(nets):
            raise DesignError(Message("stores-nothing", name=name), place)
        skew = ticks(units, manner, "skew", name, place)
        for at in (stored[net] for net in nets):
            flip_flops[at] = replace(flip_flops[at], late=skew)
    return replace(delays, flip_flops=tuple(flip_flops))


def _stimuli(
    trace: Trace, edges: tuple[int, int], period: int, inputs: Mapping[str, int]
) -> Iterator[Stimulus]:
    """The clock, and what the inputs are fed."""
    first, last = edges
    nets = trace.design.netlist.inputs
    for edge in range(first, last + 1):
        begin = (edge - first) * period
        if edge:
            yield Stimulus(begin, CLOCK_NET, 1)
            yield Stimulus(begin + period // 2, CLOCK_NET, 0)
        for name, at in inputs.items():
            for net in nets[name]:
                yield Stimulus(begin + at, net, trace.rows[edge][net])
