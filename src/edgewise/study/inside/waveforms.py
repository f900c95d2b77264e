"""From waveforms at the inputs of a circuit to all that follows in time."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from fractions import Fraction
from graphlib import CycleError, TopologicalSorter
from typing import Final, TypeAlias

from edgewise.bits import Bit, X
from edgewise.circuit.model import CLOCK
from edgewise.circuit.netlist import CLOCK_NET, FlipFlop, Gate, Netlist
from edgewise.circuit.truth import KLEENE
from edgewise.design import Design
from edgewise.engines.run_loop import Machine
from edgewise.engines.timed.delays import Delays
from edgewise.engines.timed.simulation import Stimulus, simulate
from edgewise.errors import DesignError, Message, Place, nearest, raise_all
from edgewise.response import Response
from edgewise.study.inside import races
from edgewise.study.inside.moment import Manner, skewed, ticks
from edgewise.waveform import Waveform

MOST_CHANGES: Final = 100_000
"""Changes of nets that are followed, at most; the last of them is the end."""
MOST_FED: Final = 200_000
"""Steps of all waveforms times the bits of their inputs, at most."""
_PATIENCE: Final = 8
"""How many times all delays of the circuit are waited for after the last change at the inputs."""
PLAIN: Final = Manner()
"""The unit-gate model, and nothing special."""


def follow(
    design: Design,
    manner: Manner = PLAIN,
    waveforms: Sequence[Waveform] = (),
    *,
    until: Fraction | None = None,
    place: Place | None = None,
) -> Response:
    """Follow a circuit in time; it may have loops of gates, and clocks of its own.

    Parameters
    ----------
    design : Design
        As it was made; its procedure plays no part.
    manner : Manner
        Its period and `when` play no part.
    waveforms : sequence of Waveform
        These replace those of the design.
    until : Fraction, optional
        The last time that is looked at, in units of the model. Unless given all is waited for, or
        long enough to see that it never settles.

    Raises
    ------
    EdgewiseError or Problems
        For what is wrong with the wiring; an input that is fed nothing, or a word too large for it;
        a loop of gates that take no time.

    Examples
    --------
    >>> from edgewise import blueprint
    >>> latch = blueprint.from_text('''
    ... circuit: latch of two NAND gates
    ... inputs: {set_n: 1, reset_n: 1}
    ... parts:
    ...   G1: {part: nand, in: [set_n, G2.out]}
    ...   G2: {part: nand, in: [reset_n, G1.out]}
    ... outputs: {q: G1.out, q_n: G2.out}
    ... waveforms: {set_n: [1, 0 after 10, 1 after 20], reset_n: [1]}
    ... ''', "latch.yaml").made()
    >>> response = follow(latch)
    >>> [str(response.word("q", time * response.ticks)) for time in (0, 15, 25)]
    ['X', '1', '1']
    """
    timed = design.in_time()
    netlist = timed.netlist
    delays = skewed(manner.delays(manner.model.timing(netlist)), netlist, manner, place)
    _refuse_still_loops(netlist, delays, manner)
    given = {one.input: one for one in (*design.waveforms, *waveforms)}
    raise_all(_faults(netlist, given, place))
    stimuli = sorted(_stimuli(netlist, given.values(), manner, place))
    start = at_rest(netlist, (one for one in stimuli if not one.time))
    end = _end(stimuli, delays, manner, until, place)
    stimuli = [one for one in _moving(start, stimuli) if one.time <= end]
    run = simulate(netlist, delays, start, stimuli, until=end, most=MOST_CHANGES)
    if len(run.changes) >= MOST_CHANGES:
        end = run.changes[-1].time
        stimuli = [one for one in stimuli if one.time <= end]
    if run.quiet and until is None:
        times = (*(one.time for one in run.changes[-1:]), *(one.time for one in stimuli[-1:]))
        last = max(times, default=0)
        end = last + max(manner.ticks, last // 20)
    response = Response(
        timed,
        manner.model.name,
        manner.model.time_unit,
        manner.ticks,
        end,
        tuple(start),
        tuple(sorted({one.time for one in stimuli})),
        run.changes,
        run.violations,
        run.quiet,
        run.busy,
    )
    return races.looked_for(response, delays, stimuli)


def _refuse_still_loops(netlist: Netlist, delays: Delays, manner: Manner) -> None:
    """A loop of gates without delay would swing within one tick."""
    still = {
        gate.output: gate.inputs
        for gate, times in zip(netlist.gates, delays.gates, strict=True)
        if not max(times)
    }
    try:
        TopologicalSorter(
            {net: [read for read in reads if read in still] for net, reads in still.items()}
        ).prepare()
    except CycleError as found:
        loop = " -> ".join(netlist.labels[net] for net in found.args[1])
        raise DesignError(Message("loop-still", nets=loop, model=manner.model.name)) from None


def _faults(
    netlist: Netlist, given: Mapping[str, Waveform], place: Place | None
) -> Iterator[DesignError]:
    """What is wrong with the waveforms of a circuit."""
    clocked = any(one.gate is None for one in netlist.flip_flops)
    reading = {net for gate in netlist.gates for net in gate.inputs}
    fed = {**netlist.inputs, CLOCK: (CLOCK_NET,)}
    for name, wave in given.items():
        if name not in fed:
            yield DesignError(
                Message("waveform-input-unknown", name=name, suggestion=nearest(name, fed)),
                wave.place,
            )
            continue
        most = (1 << len(fed[name])) - 1
        for _, word in wave.steps:
            if word is not None and not 0 <= word <= most:
                told = Message("waveform-word", name=name, found=word, most=most)
                yield DesignError(told, wave.place)
                break
    for name in fed:
        if name not in given and (name != CLOCK or clocked or CLOCK_NET in reading):
            clock = "true" if name == CLOCK else "false"
            yield DesignError(Message("waveform-missing", name=name, clock=clock), place)


def _stimuli(
    netlist: Netlist, waveforms: Iterable[Waveform], manner: Manner, place: Place | None
) -> Iterator[Stimulus]:
    """Each bit of each step."""
    bits = 0
    for wave in waveforms:
        nets = (CLOCK_NET,) if wave.input == CLOCK else netlist.inputs[wave.input]
        bits += len(wave.steps) * len(nets)
        if bits > MOST_FED:
            raise DesignError(Message("waveforms-many", most=MOST_FED), place)
        for time, word in wave.steps:
            at = ticks(time, manner, "wave", wave.input, wave.place)
            for index, net in enumerate(nets):
                yield Stimulus(at, net, X if word is None else word >> index & 1)


def _moving(start: Sequence[Bit], stimuli: Iterable[Stimulus]) -> Iterator[Stimulus]:
    """Those that change something."""
    now = dict[int, Bit]()
    for one in stimuli:
        if now.get(one.net, start[one.net]) != one.bit:
            now[one.net] = one.bit
            yield one


def _end(
    stimuli: Sequence[Stimulus],
    delays: Delays,
    manner: Manner,
    until: Fraction | None,
    place: Place | None,
) -> int:
    if until is not None:
        return ticks(until, manner, "end", place=place)
    slow = sum(map(max, delays.gates)) + delays.resolving
    slow += sum(one.clock_to_q + one.late for one in delays.flip_flops)
    return max((one.time for one in stimuli), default=0) + _PATIENCE * max(slow, manner.ticks)


def at_rest(netlist: Netlist, fed: Iterable[Stimulus]) -> list[Bit]:
    """Every net's bit once all is at rest; what nothing has decided is X.

    Where a loop could be in several states, or in none, it is in X.
    """
    values: list[Bit] = [X] * netlist.size
    values[0], values[1], values[CLOCK_NET] = 0, 1, 0
    for one in fed:
        values[one.net] = one.bit
    gives = {gate.output: _gate(gate) for gate in netlist.gates}
    gives |= {one.q: _stored(one) for one in netlist.flip_flops}
    readers: dict[int, list[int]] = {}
    for gate in netlist.gates:
        for net in {*gate.inputs, *(gate.cover.nets if gate.cover else ())}:
            readers.setdefault(net, []).append(gate.output)
    for flip_flop in netlist.flip_flops:
        for forced in (flip_flop.preset, flip_flop.reset):
            if forced is not None:
                readers.setdefault(forced, []).append(flip_flop.q)
    waiting = list(gives)
    for net in waiting:  # grows while it is read: a net comes from X to a bit once
        bit = gives[net](values)
        if bit != values[net]:
            values[net] = bit
            waiting += readers.get(net, ())
    return values


_Gives: TypeAlias = Callable[[Sequence[Bit]], Bit]
_MACHINE: Final = Machine(KLEENE)


def _gate(gate: Gate) -> _Gives:
    """From all nets to what a gate gives."""

    def gives(values: Sequence[Bit]) -> Bit:
        bit = _MACHINE.gate(gate.operator, [values[net] for net in gate.inputs])
        return gate.cover.value(values, KLEENE) if gate.cover and bit == X else bit

    return gives


def _stored(one: FlipFlop) -> _Gives:
    """From all nets to what a flip-flop holds before its first edge."""

    def gives(values: Sequence[Bit]) -> Bit:
        preset, reset = (0 if net is None else values[net] for net in (one.preset, one.reset))
        return KLEENE.bit_mux(preset, KLEENE.bit_mux(reset, one.start, 0), 1)

    return gives
