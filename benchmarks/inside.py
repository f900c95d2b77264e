"""Events inside a clock period: many changes side by side against one after the other."""

from __future__ import annotations

import random

from benchmarks.timing import timed
from edgewise import catalogue
from edgewise.engines import reference
from edgewise.engines.timed.delays import Delays
from edgewise.engines.timed.lanes import waves
from edgewise.engines.timed.simulation import Stimulus, simulate
from edgewise.study.cost import models, true_delay

LANES = 4096
PLAIN = 40
"""Changes that are played one after the other."""


def main() -> None:
    """Events a second, and true delays at 64 bits."""
    print("inside a clock period, 32-bit adders, 74hc: million events a second")
    for name in ("ripple-carry-adder", "carry-skip-adder", "kogge-stone-adder"):
        print(f"{name:22}{_rates(name)}")
    print("\ntrue delay at 64 bits, unit-gate: seconds")
    for name in ("carry-skip-adder", "sklansky-adder", "kogge-stone-adder", "brent-kung-adder"):
        design = catalogue.design(name, n=64)
        seconds = timed(lambda design=design: true_delay.of(design))()  # type: ignore[misc]
        print(f"{name:22}{seconds:8.2f}")


def _rates(name: str) -> str:
    netlist = catalogue.design(name, n=32).netlist
    delays = Delays(
        tuple((one, one) for one in models.technology("74hc").timing(netlist).gates), ()
    )
    draw = random.Random(1)  # noqa: S311  # cases, no secrets
    changes = {
        net: (0, draw.getrandbits(LANES), draw.getrandbits(LANES))
        for nets in netlist.inputs.values()
        for net in nets
    }
    quick = min(timed(lambda: waves(netlist, delays, changes, LANES))() for _ in range(3))
    events = sum(wave.changes for wave in waves(netlist, delays, changes, LANES))
    count, seconds = 0, 0.0
    for lane in range(PLAIN):
        inputs = {
            word: [changes[net][1] >> lane & 1 for net in nets]
            for word, nets in netlist.inputs.items()
        }
        start = reference.settle(netlist, [], inputs)
        stimuli = [Stimulus(0, net, after >> lane & 1) for net, (_, _, after) in changes.items()]
        played: list[int] = []

        def one() -> None:
            run = simulate(netlist, delays, start, stimuli, until=1 << 40)  # noqa: B023
            played.append(len(run.changes))  # noqa: B023

        seconds += timed(one)()
        count += played[0]
    side, plain = events / quick / 1e6, count / seconds / 1e6
    return f"{side:8.1f} side by side {plain:8.3f} one by one {side / plain:8.0f} times"


if __name__ == "__main__":
    main()
