"""A recording: channels of one bit each, and the times at which they changed."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Final

from edgewise.bits import Bit, X

MOST_BYTES: Final = 64_000_000
"""Of a file that is read."""
MOST_CHANNELS: Final = 256
MOST_CHANGES: Final = 2_000_000
LONGEST_NAME: Final = 200


@dataclass(frozen=True)
class Channel:
    """One line that was recorded.

    Parameters
    ----------
    name : str
    times : tuple of int
        When it changed, in order; the first is when the recording begins.
    bits : tuple of int
        What it was from each of these times on: 0, 1, or X.

    Examples
    --------
    >>> channel = Channel("D0", (0, 40), (0, 1))
    >>> channel.at(39), channel.at(40)
    (0, 1)
    """

    name: str
    times: tuple[int, ...]
    bits: tuple[Bit, ...]

    def at(self, time: float) -> Bit:
        """What it was at a time; X before the first."""
        place = bisect_right(self.times, time) - 1
        return self.bits[place] if place >= 0 else X

    def held_most(self, start: float, end: float) -> tuple[Bit, int]:
        """What it was longest between two times, and how often it changed there."""
        first, last = bisect_right(self.times, start), bisect_right(self.times, end)
        spent: dict[Bit, float] = {}
        bit, since = self.at(start), start
        for place in range(first, last):
            spent[bit] = spent.get(bit, 0) + self.times[place] - since
            bit, since = self.bits[place], self.times[place]
        spent[bit] = spent.get(bit, 0) + end - since
        return max(spent, key=lambda one: (spent[one], -one)), last - first


@dataclass(frozen=True)
class Recording:
    """What was recorded.

    Parameters
    ----------
    channels : tuple of Channel
    end : int
        When the recording ends.
    unit : str
        Of the times, as the file names it; empty where the times are numbers of samples.
    sampled : bool
        Whether there are no times: each sample is the state at one clock edge.
    """

    channels: tuple[Channel, ...]
    end: int
    unit: str = ""
    sampled: bool = False


def recording(
    changes: Mapping[str, Iterable[tuple[int, Bit]]],
    end: int,
    unit: str = "",
    *,
    sampled: bool = False,
) -> Recording:
    """A recording from each channel's changes; what changes nothing is left out.

    Examples
    --------
    >>> recording({"D0": [(0, 0), (5, 0), (9, 1)]}, 10).channels[0].times
    (0, 9)
    """
    channels = []
    for name, pairs in changes.items():
        times: list[int] = []
        bits: list[Bit] = []
        for time, bit in pairs:
            if times and times[-1] == time:
                bits[-1] = bit
            elif not bits or bits[-1] != bit:
                times.append(time)
                bits.append(bit)
        channels.append(Channel(name, tuple(times), tuple(bits)))
    return Recording(tuple(channels), end, unit, sampled)
