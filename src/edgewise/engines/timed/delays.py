"""Delays: how long everything in one netlist takes, in whole ticks."""

from __future__ import annotations

import random
from dataclasses import dataclass, replace
from typing import Final, Literal

from edgewise.errors import DesignError, Message

Outcome = Literal["X", "old", "new", "either"]
"""What a flip-flop stores whose set-up or hold time is not kept: an unknown bit, what stood at the
port before the change, what stood there after it, or one of the two by lot."""


@dataclass(frozen=True, slots=True)
class Stored:
    """The times of one flip-flop.

    Parameters
    ----------
    clock_to_q : int
    setup : (int, int, int)
        For how long d, enable and clear must stand before the edge.
    hold : int
        For how long they must stand after it.
    late : int
        By how much the clock reaches it later than others: skew.
    """

    clock_to_q: int
    setup: tuple[int, int, int] = (0, 0, 0)
    hold: int = 0
    late: int = 0


@dataclass(frozen=True, slots=True)
class Delays:
    """The delays of a netlist.

    Parameters
    ----------
    gates : tuple of (int, int)
        Rise and fall delay of each gate, in the netlist's order. A change to X takes the shorter.
    flip_flops : tuple of Stored
    transport : bool
        Pulses of any length pass a gate. Otherwise a gate swallows those that are shorter than its
        delay, as gates do (inertial delay).
    outcome : str
        What a flip-flop stores whose set-up or hold time is not kept.
    resolving : int
        For how long it shows X before that: metastability.
    seed : int
        Of the lots that are drawn where the outcome is either.

    Examples
    --------
    >>> slow_to_fall = Delays(((2, 3),), ())
    >>> [slow_to_fall.taken(0, to) for to in (0, 1, 2)]
    [3, 2, 2]
    """

    gates: tuple[tuple[int, int], ...]
    flip_flops: tuple[Stored, ...]
    transport: bool = False
    outcome: Outcome = "X"
    resolving: int = 0
    seed: int = 1

    def taken(self, gate: int, after: int) -> int:
        """How long a gate takes for a change."""
        rise, fall = self.gates[gate]
        return rise if after == 1 else fall if after == 0 else min(rise, fall)

    def spread(self, percent: int, seed: int) -> Delays:
        """Each delay of gates and flip-flops moved by up to so many percent, at random.

        The same seed gives the same delays. A delay of one tick or more stays at least one.

        Raises
        ------
        DesignError
            A percentage that is not in 0..90.

        Examples
        --------
        >>> Delays(((100, 100),), (Stored(50),)).spread(20, seed=7).gates
        ((100, 89),)
        """
        if not 0 <= percent <= MOST_SPREAD:
            raise DesignError(Message("spread-range", percent=percent, most=MOST_SPREAD))
        draw = random.Random(seed)  # noqa: S311  nothing secret

        def moved(ticks: int) -> int:
            span = ticks * percent // 100
            return max(min(ticks, 1), ticks + draw.randint(-span, span))

        return replace(
            self,
            gates=tuple((moved(rise), moved(fall)) for rise, fall in self.gates),
            flip_flops=tuple(replace(f, clock_to_q=moved(f.clock_to_q)) for f in self.flip_flops),
        )


MOST_SPREAD: Final = 90
"""Percent that a delay may be moved by, at most."""
