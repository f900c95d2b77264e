"""What clocks do to flip-flops inside a period: windows to be kept, false edges, cut pulses."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from typing import NamedTuple

from edgewise.bits import Bit

Happening = tuple[int, int, Bit, Bit]
"""A change: time, net, from, to."""


class Times(NamedTuple):
    """What a flip-flop asks for, in ticks.

    Parameters
    ----------
    setup : (int, int, int)
        For how long d, enable and clear must stand before an edge.
    hold : int
        For how long they must stand after it.
    late : int
        How much later the clock comes to it.
    """

    setup: tuple[int, int, int]
    hold: int
    late: int


class Window(NamedTuple):
    """The time around an edge in which a port must stand."""

    net: int
    """The port's net."""
    begin: int
    edge: int
    """When the edge comes to the flip-flop."""
    end: int


class Pulse(NamedTuple):
    """A gated clock that is high for a while.

    A *false* edge is a rise at an edge that does not arrive row by row: what gates the clock
    changed while the clock was high. A *cut* pulse ends while the clock is still high.
    """

    net: int
    edge: int
    """The edge that begins the period in which it rises."""
    rise: int
    fall: int | None
    """None if it is high to the end."""
    false: bool
    cut: bool


class LateBit(NamedTuple):
    """What a late clock finds at d is not what stood there when its edge was due."""

    flip_flop: int
    """Its place in the netlist."""
    net: int
    """At its d."""
    begin: int
    """When the edge was due."""
    change: int
    """The last change before it came."""
    before: Bit
    after: Bit


def late_bits(
    changes: Iterable[Happening], fed: Sequence[tuple[int, int]], begins: Iterable[int]
) -> Iterator[LateBit]:
    """The bits that are gone when a late clock comes.

    Parameters
    ----------
    changes : iterable of change
        In order of time.
    fed : sequence of (int, int)
        Of each flip-flop the net at its d, and how late its clock comes.
    begins : iterable of int
        When edges are due.

    Examples
    --------
    >>> gone = [(104, 7, 0, 1)]
    >>> list(late_bits(gone, [(7, 9), (7, 0)], [100]))
    [LateBit(flip_flop=0, net=7, begin=100, change=104, before=0, after=1)]
    """
    happened: dict[int, list[Happening]] = {}
    for change in changes:
        happened.setdefault(change[1], []).append(change)
    for begin in begins:
        for number, (net, late) in enumerate(fed):
            # What changes in the tick of an edge comes after what the edge finds.
            seen = [one for one in happened.get(net, ()) if begin <= one[0] < begin + late]
            if seen and seen[0][2] != seen[-1][3]:
                yield LateBit(number, net, begin, seen[-1][0], seen[0][2], seen[-1][3])


def windows(
    changes: Iterable[Happening],
    flip_flops: Iterable[tuple[int, Iterable[int | None], Times]],
) -> Iterator[Window]:
    """The windows around every edge.

    Parameters
    ----------
    changes : iterable of change
    flip_flops : iterable of (int, iterable of int or None, Times)
        The net of its clock, the nets at d, enable and clear, and what it asks for.

    Examples
    --------
    >>> d_stands = (3, (7, None, None), Times((20, 0, 0), 5, 0))
    >>> list(windows([(100, 3, 0, 1), (150, 3, 1, 0)], [d_stands]))
    [Window(net=7, begin=80, edge=100, end=105)]
    """
    rises: dict[int, list[int]] = {}
    for time, net, _, after in changes:
        if after == 1:
            rises.setdefault(net, []).append(time)
    for clock, ports, times in flip_flops:
        for port, setup in zip(ports, times.setup, strict=True):
            if port is not None and setup + times.hold:
                for time in rises.get(clock, ()):
                    edge = time + times.late
                    yield Window(port, edge - setup, edge, edge + times.hold)


def pulses(
    changes: Iterable[Happening],
    gated: Iterable[int],
    edge_of: Callable[[int], int],
    high_until: Callable[[int], int],
    arrives: Callable[[int, int], Bit],
) -> Iterator[Pulse]:
    """The pulses of gated clocks.

    Parameters
    ----------
    changes : iterable of change
        In order of time.
    gated : iterable of int
        Nets of gated clocks.
    edge_of, high_until : function
        The edge that begins the period of a time; when the clock falls after an edge.
    arrives : function
        Whether an edge comes to a gated clock, row by row.

    Examples
    --------
    What gates the clock rises while the clock is high, too late for the edge:

    >>> seen = [(4, 9, 0, 1), (14, 9, 1, 0)]
    >>> list(pulses(seen, [9], lambda time: 1, lambda edge: 13, lambda edge, net: 0))
    [Pulse(net=9, edge=1, rise=4, fall=14, false=True, cut=False)]
    """
    wanted = set(gated)
    rises: dict[int, int] = {}
    seen = set[tuple[int, int]]()

    def pulse(net: int, rise: int, fall: int | None) -> Pulse:
        edge = edge_of(rise)
        false = arrives(edge, net) == 0 or (edge, net) in seen
        seen.add((edge, net))
        return Pulse(net, edge, rise, fall, false, fall is not None and fall < high_until(edge))

    for time, net, _, after in changes:
        if net not in wanted:
            continue
        if after == 1:
            rises[net] = time
        elif net in rises:
            yield pulse(net, rises.pop(net), time)
    for net, begin in rises.items():
        yield pulse(net, begin, None)
