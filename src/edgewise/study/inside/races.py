"""Races: where it depends on which of two nets is first what a circuit ends at.

Two inputs that change in one tick are tried in either order, each waiting until all is at rest.
Where gates of a loop never come to rest, all orders are gone through in which its gates may act,
one at a time: the single-winner model of gates whose delays are not known (J. Brzozowski and C.-J.
Seger, *Asynchronous Circuits*, 1995, ch. 6, from memory).
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from graphlib import CycleError, TopologicalSorter
from itertools import combinations, groupby
from typing import Final, TypeAlias

from edgewise.bits import Bit
from edgewise.circuit.netlist import Netlist
from edgewise.circuit.truth import KLEENE
from edgewise.engines.run_loop import Machine
from edgewise.engines.timed.delays import Delays
from edgewise.engines.timed.simulation import Stimulus, simulate
from edgewise.response import Race, Response, outputs

MOST_TOGETHER: Final = 6
"""Inputs that change in one tick, at most, for their orders to be tried."""
MOST_TRIED: Final = 4_000_000
"""Nets of all simulations, at most, in which orders of inputs are tried."""
MOST_STATES: Final = 2_000
"""States of a circuit whose gates act in any order, at most."""
MOST_GATES: Final = 200
"""Gates of such a circuit, at most."""
MOST_SWINGS: Final = 20
"""Oscillations that are asked for their gates, at most."""

State: TypeAlias = tuple[Bit, ...]
Ends: TypeAlias = tuple[Bit, ...]


def looked_for(response: Response, delays: Delays, stimuli: Sequence[Stimulus]) -> Response:
    """The response with its races, and the ticks at which none were looked for."""
    netlist = response.design.netlist
    found, unlooked = list[Race](), list[int]()
    values, at = list(response.start), 0
    remembers = bool(netlist.flip_flops) or _loops(netlist)
    together = [(time, tuple(some)) for time, some in groupby(stimuli, key=lambda one: one.time)]
    tried = 0
    for time, some in together:
        while at < len(response.changes) and response.changes[at].time < time:
            values[response.changes[at].net] = response.changes[at].after
            at += 1
        if not remembers or len(some) < 2 or time in response.busy:
            continue
        tried += netlist.size * len(some) * len(some) * (len(some) - 1)
        if len(some) > MOST_TOGETHER or tried > MOST_TRIED:
            unlooked.append(time)
        else:
            found += _of_inputs(netlist, delays, values, some)
    for one in response.oscillations[:MOST_SWINGS]:
        found += _of_gates(response, one.begin)
    found.sort(key=lambda race: race.time)
    return replace(response, races=tuple(found), unlooked=tuple(unlooked))


def _loops(netlist: Netlist) -> bool:
    """Whether gates are in a loop."""
    try:
        TopologicalSorter({gate.output: gate.inputs for gate in netlist.gates}).prepare()
    except CycleError:
        return True
    return False


def _of_inputs(
    netlist: Netlist, delays: Delays, values: Sequence[Bit], some: Sequence[Stimulus]
) -> Iterator[Race]:
    """The pairs of inputs whose order decides."""
    for one, other in combinations(some, 2):
        rest = [more for more in some if more not in (one, other)]
        first = _after(netlist, delays, values, [one, other, *rest])
        second = _after(netlist, delays, values, [other, one, *rest])
        if first is not None and second is not None and first != second:
            yield Race(one.time, (one.net, other.net), (first, second))


def _after(
    netlist: Netlist, delays: Delays, values: Sequence[Bit], order: Sequence[Stimulus]
) -> Ends | None:
    """What the outputs end at if these come one after the other; None if they never do."""
    now = list(values)
    long = 16 * (
        sum(map(max, delays.gates))
        + sum(one.clock_to_q + one.late for one in delays.flip_flops)
        + delays.resolving
        + 1
    )
    for one in order:
        run = simulate(netlist, delays, now, [Stimulus(0, one.net, one.bit)], until=long)
        if not run.quiet:
            return None
        for change in run.changes:
            now[change.net] = change.after
    return tuple(now[net] for net in outputs(netlist))


def _of_gates(response: Response, time: int) -> Iterator[Race]:
    """The first two gates whose order decides at what a circuit ends that oscillates."""
    netlist, values = response.design.netlist, response.at(time)
    if len(netlist.gates) > MOST_GATES:
        return
    shown = outputs(netlist)
    graph = _graph(netlist, tuple(values))
    ends = _ends(graph) if graph else {}
    for after in (graph or {}).values():
        for (one, first), (other, second) in combinations(after.items(), 2):
            if len(ends[first]) == len(ends[second]) == 1:
                (left,), (right,) = ends[first], ends[second]
                told = (tuple(left[net] for net in shown), tuple(right[net] for net in shown))
                if told[0] != told[1]:
                    yield Race(time, (one, other), told)
                    return


Graph: TypeAlias = dict[State, dict[int, State]]
"""By state, the nets that are to change and the state once each has."""


def _graph(netlist: Netlist, start: State) -> Graph | None:
    """All states that may come if gates act one at a time; None if there are too many."""
    machine, graph, waiting = Machine(KLEENE), Graph(), [start]
    for state in waiting:  # grows while it is read
        if state in graph:
            continue
        if len(graph) == MOST_STATES:
            return None
        graph[state] = {}
        for gate in netlist.gates:
            bit = machine.gate(gate.operator, [state[net] for net in gate.inputs])
            if bit != state[gate.output]:
                after = (*state[: gate.output], bit, *state[gate.output + 1 :])
                graph[state][gate.output] = after
                waiting.append(after)
    return graph


def _ends(graph: Graph) -> dict[State, frozenset[State]]:
    """The states at rest that each may end at."""
    ends = {state: frozenset(() if after else (state,)) for state, after in graph.items()}
    moving = True
    while moving:
        moving = False
        for state, after in reversed(graph.items()):
            reached = ends[state].union(*(ends[one] for one in after.values()))
            moving |= reached != ends[state]
            ends[state] = reached
    return ends
