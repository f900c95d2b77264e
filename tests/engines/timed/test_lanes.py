"""Many changes at once: lane by lane what the plain simulation plays, and much faster."""

from __future__ import annotations

import random
import time

import pytest

from edgewise import catalogue
from edgewise.circuit.netlist import CLOCK_NET, Gate, Netlist
from edgewise.engines import reference
from edgewise.engines.timed.delays import Delays
from edgewise.engines.timed.lanes import Wave, waves
from edgewise.engines.timed.simulation import Run, Stimulus, simulate
from edgewise.study.cost import models

LANES = 8
Changes = dict[int, tuple[int, int, int]]


def at_random(seed: int, *, transport: bool) -> tuple[Netlist, Delays, Changes]:
    """A few gates and inputs that change at moments of their own."""
    draw = random.Random(seed)  # noqa: S311  # cases, no secrets
    first, inputs = CLOCK_NET + 1, draw.randint(2, 4)
    size, gates = first + inputs, list[Gate]()
    for _ in range(draw.randint(2, 14)):
        operator = draw.choice(["and", "or", "nand", "nor", "xor", "xnor", "not", "multiplexer"])
        wide = {"not": 1, "multiplexer": 3}.get(operator, draw.randint(2, 3))
        read = tuple(draw.randrange(first, size) for _ in range(wide))
        gates.append(Gate(operator, read, size, ""))
        size += 1
    x = tuple(range(first, first + inputs))
    times = tuple((draw.randint(1, 6), draw.randint(1, 6)) for _ in gates)
    changes = {
        net: (draw.randint(0, 9), draw.getrandbits(LANES), draw.getrandbits(LANES)) for net in x
    }
    return Netlist(size, {"x": x}, {}, tuple(gates), (), {}), Delays(times, (), transport), changes


def played(netlist: Netlist, delays: Delays, changes: Changes, lane: int) -> Run:
    """One lane by the plain simulation."""
    inputs = {
        name: [changes[net][1] >> lane & 1 for net in nets] for name, nets in netlist.inputs.items()
    }
    start = reference.settle(netlist, [], inputs)
    stimuli = [Stimulus(at, net, after >> lane & 1) for net, (at, _, after) in changes.items()]
    return simulate(netlist, delays, start, stimuli, until=1 << 40)


def events(found: list[Wave], lane: int) -> list[tuple[int, int, int]]:
    return sorted(
        (at, net, after >> lane & 1)
        for net, wave in enumerate(found)
        for at, before, after in zip(wave.times[1:], wave.bits, wave.bits[1:], strict=False)
        if (before ^ after) >> lane & 1
    )


@pytest.mark.parametrize("transport", [False, True], ids=["inertial", "transport"])
def test_circuits_at_random_event_for_event(*, transport: bool) -> None:
    for seed in range(100):
        netlist, delays, changes = at_random(seed, transport=transport)
        found = waves(netlist, delays, changes, LANES)
        for lane in range(LANES):
            run = played(netlist, delays, changes, lane)
            assert events(found, lane) == sorted((c.time, c.net, c.after) for c in run.changes)
        assert sum(wave.changes for wave in found) == sum(
            len(events(found, lane)) for lane in range(LANES)
        )


def test_twenty_times_the_plain_one_and_a_million_a_second() -> None:
    """In one run, per event; found were 430 times as many and 50 million a second."""
    netlist = catalogue.design("kogge-stone-adder", n=16).netlist
    timing, lanes = models.technology("74hc").timing(netlist), 2048
    delays = Delays(tuple((one, one) for one in timing.gates), ())
    draw = random.Random(1)  # noqa: S311  # cases, no secrets
    changes = {
        net: (0, draw.getrandbits(lanes), draw.getrandbits(lanes))
        for nets in netlist.inputs.values()
        for net in nets
    }
    begun = time.process_time()
    found = waves(netlist, delays, changes, lanes)
    quick = (time.process_time() - begun) / sum(wave.changes for wave in found)
    begun = time.process_time()
    runs = [played(netlist, delays, changes, lane) for lane in range(20)]
    plain = (time.process_time() - begun) / sum(len(run.changes) for run in runs)
    assert plain / quick > 20
    assert 1 / quick > 1_000_000
