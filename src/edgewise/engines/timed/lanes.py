"""The simulation in time of many changes at once: a bit of a whole number for each.

As `simulation` plays one change of the inputs of a circuit without loops, this plays many, side by
side: gate after gate, what its inputs give at each moment at which one of them changes in any lane,
and what of that comes out after its delay. Known bits only. What is stored counts as an input that
changes after its clock-to-Q delay.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Final

from edgewise.circuit.netlist import CLOCK_NET, Netlist
from edgewise.engines.run_loop import Machine
from edgewise.engines.side_by_side import Lanes
from edgewise.engines.timed.delays import Delays

_BEFORE: Final = -1
"""The moment before all."""


@dataclass(frozen=True, slots=True)
class Wave:
    """A net in all lanes.

    Parameters
    ----------
    times : tuple of int
        The first is before all; then each moment at which it changes in some lane.
    bits : tuple of int
        What it holds from each of them on, a bit for each lane.
    """

    times: tuple[int, ...]
    bits: tuple[int, ...]

    def at(self, time: int) -> int:
        """What it holds at a moment, the changes of this moment included."""
        return self.bits[max(0, bisect_right(self.times, time) - 1)]

    def toggles(self) -> Iterator[int]:
        """For each change the lanes in which it is one."""
        return (one ^ other for one, other in pairwise(self.bits))

    @property
    def changes(self) -> int:
        """How often it changes, over all lanes."""
        return sum(lanes.bit_count() for lanes in self.toggles())


def waves(
    netlist: Netlist,
    delays: Delays,
    changes: Mapping[int, tuple[int, int, int]],
    lanes: int,
) -> list[Wave]:
    """Every net while inputs change, all having settled before.

    Parameters
    ----------
    netlist : Netlist
        Its gates in the order of evaluation; flip-flops count as inputs.
    delays : Delays
    changes : mapping of int to (int, int, int)
        For each net that no gate drives: when it changes (0 or later), from which bits to which.
    lanes : int

    Examples
    --------
    A half adder in two lanes: a rises in both, b in the second only; they take 1 and 2 of time.

    >>> from edgewise import catalogue
    >>> netlist = catalogue.design("ripple-carry-adder-without-carry-in", n=1).netlist
    >>> a, b = netlist.inputs["a"][0], netlist.inputs["b"][0]
    >>> delays = Delays(tuple((2 if g.operator == "xor" else 1,) * 2 for g in netlist.gates), ())
    >>> found = waves(netlist, delays, {a: (0, 0b00, 0b11), b: (0, 0b00, 0b10)}, 2)
    >>> found[netlist.outputs["sum"][0]], found[netlist.outputs["carry"][0]].changes
    (Wave(times=(-1, 2), bits=(0, 1)), 1)
    """
    mask = (1 << lanes) - 1
    machine = Machine(logic := Lanes(mask))
    found = [Wave((_BEFORE,), (0,))] * netlist.size
    found[1] = found[CLOCK_NET] = Wave((_BEFORE,), (logic.constant(1),))
    for net, (time, before, after) in changes.items():
        if before != after:
            found[net] = Wave((_BEFORE, time), (before, after))
        else:
            found[net] = Wave((_BEFORE,), (before,))
    for number, gate in enumerate(netlist.gates):
        read = [found[net] for net in gate.inputs]
        times = sorted({time for wave in read for time in wave.times})
        given = [machine.gate(gate.operator, [wave.at(time) for wave in read]) for time in times]
        found[gate.output] = _behind(Wave(tuple(times), tuple(given)), delays, number)
    return found


def _behind(given: Wave, delays: Delays, number: int) -> Wave:
    """What comes out of a gate whose inputs give something."""
    rise, fall = delays.gates[number]
    moved = [
        (time, after & ~before, before & ~after)
        for time, (before, after) in zip(given.times[1:], pairwise(given.bits), strict=True)
    ]
    coming: dict[int, tuple[int, int]] = {}
    for at, (time, up, down) in enumerate(moved):
        for lanes, delay, rises in ((up, rise, True), (down, fall, False)):
            if lanes and (left := lanes & ~_taken_back(moved, at, time + delay, delays, number)):
                ones, zeros = coming.get(time + delay, (0, 0))
                both = (ones | left, zeros) if rises else (ones, zeros | left)
                coming[time + delay] = both
    times, bits = [_BEFORE], [given.bits[0]]
    for time in sorted(coming):
        ones, zeros = coming[time]
        if (after := (bits[-1] & ~zeros) | ones) != bits[-1]:
            times.append(time)
            bits.append(after)
    return Wave(tuple(times), tuple(bits))


def _taken_back(
    moved: Sequence[tuple[int, int, int]], at: int, comes: int, delays: Delays, number: int
) -> int:
    """The lanes in which a later change of the inputs takes back what is to come at a time."""
    rise, fall = delays.gates[number]
    lanes = 0
    for time, up, down in moved[at + 1 :]:
        if not delays.transport:
            if time >= comes:
                break
            lanes |= up | down
        elif time + min(rise, fall) > comes:
            break
        else:
            lanes |= (up if time + rise <= comes else 0) | (down if time + fall <= comes else 0)
    return lanes
