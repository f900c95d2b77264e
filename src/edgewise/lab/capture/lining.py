"""A recording lined up with a run: the clock, its edges, and what each channel was in each row."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Final

from edgewise.bits import Bit
from edgewise.errors import EdgewiseError
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
            times = channel.falls if inverted else channel.rises
            if times:
                presses = _presses(times, edges)
                far = abs(len(presses) - edges)
                busy = -len(channel.times) if not named else 0
                found.append((far, inverted, busy, channel, presses))
    if not found:
        raise EdgewiseError(
            "no channel has an edge, so none can be the clock; record the clock beside the lights"
        )
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


def _presses(times: Sequence[int], edges: int) -> list[list[int]]:
    """Edges, those of one press together: bounces are much nearer to each other than presses.

    The gap between is sought that gives as many presses as the run has edges; where there is none,
    the widest one, as far as presses are then at least `_RATIO` times as far apart as bounces.
    """
    gaps = [after - before for before, after in pairwise(times)]
    if len(times) > edges > 0:
        ordered = sorted(gaps, reverse=True)
        if edges == 1:
            return [list(times)]
        if ordered[edges - 2] >= _RATIO * ordered[edges - 1]:
            return _split(times, ordered[edges - 2])
    ordered = sorted(gaps)
    ratios = [(after / max(before, 1), after) for before, after in pairwise(ordered)]
    widest = max(ratios, default=(0.0, 0))
    return _split(times, widest[1] if widest[0] >= _RATIO else 0)


def _split(times: Sequence[int], gap: int) -> list[list[int]]:
    found = [[times[0]]]
    for before, after in pairwise(times):
        if after - before >= gap:
            found.append([after])
        else:
            found[-1].append(after)
    return found


def _timed(
    recording: Recording, clock: Channel, presses: list[list[int]], *, named: bool, inverted: bool
) -> Lined:
    """What each channel was in the last part of each period, before the next edge."""
    starts = [clock.times[0], *(press[-1] for press in presses)]
    ends = [*(press[0] for press in presses), max(recording.end, starts[-1] + 1)]
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
    counts = tuple(map(len, presses))
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
