"""A recording lined up with a run: the clock, its edges, and what each channel was in each row."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from itertools import pairwise
from typing import Final

from edgewise.bits import Bit
from edgewise.errors import EdgewiseError, Message
from edgewise.lab.capture.recording import Channel, Recording

_CLOCK: Final = re.compile(r"(.*[^a-z])?(clock|clk|takt|ck|cp)([^a-z].*)?", re.IGNORECASE)
_RATIO: Final = 4.0
"""Edges of one press are nearer to each other than presses are, by at least this."""


@dataclass(frozen=True, slots=True)
class Lined:
    """Samples, row by row.

    Parameters
    ----------
    clock : str
        The channel of the clock; empty where every sample is a row.
    presses : tuple of int
        For each edge of the run how many edges the channel had there: more than one is a bounce.
    samples : mapping of str to tuple of bit
        For each other channel its bit in each row: the longest one of the end of the period.
    glitches : mapping of str to int
        For each such channel how often it changed and changed back while it should have stood.
    named : bool
        Whether the clock follows from its name.
    inverted : bool
        Whether its falling edge is the active one.
    """

    clock: str
    presses: tuple[int, ...]
    samples: Mapping[str, tuple[Bit, ...]]
    glitches: Mapping[str, int]
    named: bool = False
    inverted: bool = False

    @property
    def rows(self) -> int:
        """Number of rows."""
        return len(next(iter(self.samples.values()), ()))

    @property
    def bounces(self) -> int:
        """Edges of the clock's channel that are none of the run."""
        return sum(self.presses) - len(self.presses)


def lined(recording: Recording, edges: int) -> Iterator[Lined]:
    """The ways to read a recording, the most likely first.

    Parameters
    ----------
    recording : Recording
    edges : int
        Of the run that was to be recorded.

    Raises
    ------
    EdgewiseError
        No channel can be the clock.
    """
    if recording.sampled:
        yield _samples(recording)
        return
    if not edges:
        yield _unclocked(recording)
        return
    named = [one for one in recording.channels if _CLOCK.fullmatch(one.name)]
    found = []
    for channel in named or recording.channels:
        for inverted in (False, True):
            presses = _presses(channel, edges, inverted=inverted)
            if presses:
                far = abs(len(presses) - edges)
                busy = -len(channel.times) if not named else 0
                found.append((far, inverted, busy, channel, presses))
    if not found:
        raise EdgewiseError(Message("recording-without-edge"))
    found.sort(key=lambda one: one[:3])
    nearest = found[0][0]
    for far, inverted, _, channel, presses in found[:6]:
        if far <= nearest + 1:
            yield _timed(recording, channel, presses, named=bool(named), inverted=inverted)


def _samples(recording: Recording) -> Lined:
    rows = range(recording.end + 1)
    others = [one for one in recording.channels if not _CLOCK.fullmatch(one.name)]
    samples = {one.name: tuple(one.at(row) for row in rows) for one in others}
    return Lined("", (1,) * recording.end, samples, {})


def _unclocked(recording: Recording) -> Lined:
    """Without a clock there is one row: what stands at the end."""
    samples = {one.name: (one.at(recording.end),) for one in recording.channels}
    return Lined("", (), samples, {})


@dataclass(frozen=True, slots=True)
class _Press:
    """An edge of the run: when it begins and has come to rest, and the edges until the next."""

    first: int
    last: int
    edges: int


def _presses(channel: Channel, edges: int, *, inverted: bool) -> list[_Press]:
    """The active edges, bounces taken together: those of a contact that closes, and that opens.

    Changes of a press are much nearer to each other than presses are. The gap between is sought
    that gives as many presses as the run has edges, or nearly.
    """
    times = channel.times[1:]
    gaps = sorted({after - before for before, after in pairwise(times)})
    least = [0, *(after for before, after in pairwise(gaps) if after >= _RATIO * max(before, 1))]
    ways = [_split(channel, gap, inverted=inverted) for gap in least]
    return min(ways, key=lambda found: abs(len(found) - edges), default=[])


def _split(channel: Channel, gap: int, *, inverted: bool) -> list[_Press]:
    """The presses, where changes less than a gap apart are of one movement of the contact."""
    rest, moved = (1, 0) if inverted else (0, 1)
    movements: list[list[int]] = []
    for place in range(1, len(channel.times)):
        near = movements and channel.times[place] - channel.times[place - 1] < gap
        if near:
            movements[-1].append(place)
        else:
            movements.append([place])
    found: list[_Press] = []
    for places in movements:
        before, after = channel.bits[places[0] - 1], channel.bits[places[-1]]
        active = sum((channel.bits[p - 1], channel.bits[p]) == (rest, moved) for p in places)
        if (before, after) == (rest, moved):
            found.append(_Press(channel.times[places[0]], channel.times[places[-1]], active))
        elif found and active:  # the contact opens: its bounces are edges behind the last press
            found[-1] = replace(found[-1], edges=found[-1].edges + active)
    return found


def _timed(
    recording: Recording, clock: Channel, presses: list[_Press], *, named: bool, inverted: bool
) -> Lined:
    """What each channel was in the last part of each period, before the next edge."""
    starts = [clock.times[0], *(press.last for press in presses)]
    ends = [*(press.first for press in presses), max(recording.end, starts[-1] + 1)]
    samples: dict[str, tuple[Bit, ...]] = {}
    glitches: dict[str, int] = {}
    for channel in recording.channels:
        if channel is clock:
            continue
        bits, odd = [], 0
        for start, end in zip(starts, ends, strict=True):
            bit, changes = _settled(channel, start, end)
            bits.append(bit)
            odd += changes
        samples[channel.name], glitches[channel.name] = tuple(bits), odd
    counts = tuple(press.edges for press in presses)
    return Lined(clock.name, counts, samples, glitches, named=named, inverted=inverted)


def _settled(channel: Channel, start: int, end: int) -> tuple[Bit, int]:
    """A channel's bit in the last quarter of a period, and its changes that came to nothing there.

    The very end is left out: there the next edge is near, and samplers are not exact.
    """
    quarter = max((end - start) / 4, 1)
    bit, changes = channel.held_most(
        max(end - quarter, start), max(end - quarter / 20, start + 0.5)
    )
    return bit, changes
