"""The scale of a figure inside clock periods: how many px a tick has, and where lines break."""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil
from typing import Final, NamedTuple

from edgewise.errors import EdgewiseError, Message

_PULSE: Final = 9.0
"""Px between two changes of a lane that is worth breaking a line for."""
_PARTS: Final = 3
"""Lines that a period is broken into, at most."""
_LINES: Final = 40
"""Lines of a figure, at most."""
_LABEL: Final = 36.0
"""Px from one figure at the scale to the next, at least."""


class Stretch(NamedTuple):
    """A line: from one tick to before another, and how wide it is."""

    begin: int
    end: int
    width: float


@dataclass(frozen=True, slots=True)
class Scale:
    """Px of a tick, and the lines.

    Examples
    --------
    >>> [(line.begin, line.end) for line in Scale.fitting(100, 2, 10, 400).lines]
    [(0, 200)]
    >>> [(line.begin, line.end) for line in Scale.fitting(100, 2, 3, 400).lines]
    [(0, 100), (100, 200)]
    """

    pitch: float
    lines: tuple[Stretch, ...]

    @classmethod
    def fitting(cls, period: int, periods: int, gap: int, room: float) -> Scale:
        """The scale at which changes that are `gap` ticks apart are told apart, if there is one.

        Raises
        ------
        EdgewiseError
            More lines than a figure has.
        """
        each = _per_line(period, periods, gap, room)
        pitch = room / each
        end = period * periods
        lines = tuple(
            Stretch(begin, min(begin + each, end), pitch * (min(begin + each, end) - begin))
            for begin in range(0, end, each)
        )
        if len(lines) > _LINES:
            raise EdgewiseError(
                Message("timing-lines-many", periods=periods, count=len(lines), most=_LINES)
            )
        return cls(pitch, lines)

    def step(self, unit: int) -> int:
        """Ticks between two figures at the scale: 1, 2 or 5 units, or tens of these.

        Examples
        --------
        >>> Scale(0.1, ()).step(100)
        500
        """
        step = unit
        while True:
            for times in (1, 2, 5):
                if step * times * self.pitch >= _LABEL:
                    return step * times
            step *= 10


def _per_line(period: int, periods: int, gap: int, room: float) -> int:
    """Ticks of a line: some periods, or an even part of one."""
    for count in range(periods, 0, -1):
        lines = ceil(periods / count)
        if room / (period * ceil(periods / lines)) * gap >= _PULSE:
            return period * ceil(periods / lines)
    for parts in range(2, _PARTS + 1):
        if room * parts / period * gap >= _PULSE:
            return ceil(period / parts)
    return period
