"""Scales of a chart, and where names find room beside its field."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import ceil, floor, log2, log10
from typing import Final

LINE: Final = 17
"""From one name to the next below it, at least, px."""
SPAN: Final = 8
"""A scale is logarithmic if the largest figure is so many times the least, or more."""
ROOM: Final = 22
"""Between two ticks that are labelled, px."""


@dataclass(frozen=True, slots=True)
class Scale:
    """A scale from `whole[0]` to `whole[-1]`, the ticks between them."""

    whole: tuple[float, ...]
    log: bool

    @classmethod
    def of(cls, figures: Sequence[float], *, log: bool | None = None) -> Scale:
        """A scale that holds all figures and ends at round ones.

        Examples
        --------
        >>> Scale.of([4, 64]).whole, Scale.of([3, 9]).whole
        ((4.0, 8.0, 16.0, 32.0, 64.0), (0.0, 2.0, 4.0, 6.0, 8.0, 10.0))
        """
        least, most = min(figures), max(figures)
        if log is None:
            log = least > 0 and most >= SPAN * least
        if log and least > 0:
            return cls(tuple(_rounded(least, most)), log=True)
        step = _step(most if least >= 0 else most - least)
        low = floor(min(least, 0) / step) * step
        high = ceil(most / step) * step or step
        return cls(tuple(low + step * i for i in range(round((high - low) / step) + 1)), log=False)

    def at(self, value: float, length: float) -> float:
        """Where a figure stands, px from the low end."""
        low, high = self.whole[0], self.whole[-1]
        if self.log:
            return length * (log10(value) - log10(low)) / ((log10(high) - log10(low)) or 1)
        return length * (value - low) / ((high - low) or 1)

    def labelled(self, length: float) -> list[float]:
        """The ticks that leave each other room."""
        kept: list[float] = []
        for tick in self.whole:
            if not kept or self.at(tick, length) - self.at(kept[-1], length) >= ROOM:
                kept.append(tick)
        return kept


def _rounded(least: float, most: float) -> list[float]:
    """1, 2, 5, 10, … or, where that has few ticks, powers of two, around some figures."""
    doubled = [2.0**e for e in range(floor(log2(least)), ceil(log2(most)) + 1)]
    if len(doubled) <= 8:
        return doubled if len(doubled) > 1 else [doubled[0], doubled[0] * 2]
    tens = [
        m * 10.0**e for e in range(floor(log10(least)), ceil(log10(most)) + 1) for m in (1, 2, 5)
    ]
    low = max(t for t in tens if t <= least)
    high = min(t for t in tens if t >= most)
    return [t for t in tens if low <= t <= high]


def _step(span: float) -> float:
    """A round step that divides a span into four to ten."""
    size: float = 10.0 ** floor(log10(span / 4)) if span > 0 else 1.0
    for factor in (1, 2, 5, 10):
        if span / (size * factor) <= 8:
            return size * factor
    return size * 10


def spread(wanted: Sequence[float], height: float) -> list[float]:
    """Heights near those wanted, a line apart and within the field.

    Neighbours that would meet are put around their common middle.

    Examples
    --------
    >>> spread([50, 52, 300], 340)
    [42.5, 59.5, 300.0]
    """
    order = sorted(range(len(wanted)), key=lambda i: (wanted[i], i))
    groups: list[tuple[list[int], float]] = []
    for i in order:
        groups.append(([i], wanted[i]))
        while len(groups) > 1 and _top(groups[-1], height) < _bottom(groups[-2], height) + LINE:
            members, _ = groups.pop()
            before, _ = groups.pop()
            both = before + members
            groups.append((both, sum(wanted[j] for j in both) / len(both)))
    found = [0.0] * len(wanted)
    for group in groups:
        for row, i in enumerate(group[0]):
            found[i] = round(_top(group, height) + LINE * row, 1)
    return found


def _top(group: tuple[list[int], float], height: float) -> float:
    members, middle = group
    extent = LINE * (len(members) - 1)
    return min(max(middle - extent / 2, 0.0), height - extent)


def _bottom(group: tuple[list[int], float], height: float) -> float:
    return _top(group, height) + LINE * (len(group[0]) - 1)
