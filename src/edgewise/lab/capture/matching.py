"""Which channel is which net: by name where it tells, else by what both show."""

from __future__ import annotations

import math
import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Final

from edgewise.bits import Bit, X
from edgewise.design import Design

MISMATCH: Final = 5.0
"""What a sample costs that is not as expected, nats: fewer than one in a hundred is disturbed."""
UNKNOWN: Final = 0.7
"""What a sample costs that may be anything: it is one bit of information, ln 2."""
INVERTED: Final = 5.0
"""What it costs to take a channel for inverted."""
MISSING: Final = 5.0
"""What a row costs that is in one of the two only."""
_ODD: Final = re.compile(r"[^a-z0-9]+")
_SCOPE: Final = re.compile(r"[./:]")


@dataclass(frozen=True, slots=True)
class Probe:
    """A channel, the net that it was put to, and whether it shows the opposite."""

    channel: str
    net: str
    inverted: bool = False
    named: bool = True


def watchable(design: Design) -> tuple[str, ...]:
    """The nets that a channel may be put to: inputs, outputs, and what trade names reach."""
    netlist = design.netlist
    found: dict[int, str] = {}
    for name in netlist.top_names:
        for net in netlist.names[name]:
            if net > 3:
                found.setdefault(net, netlist.labels[net])
    return tuple(found.values())


def by_name(design: Design, channels: Sequence[str]) -> dict[str, str]:
    """The channels whose names are those of nets, however brackets and case are written.

    Examples
    --------
    >>> from edgewise import catalogue
    >>> design = catalogue.design("serial-adder", n=4)
    >>> by_name(design, ["s[3]", "top.FA.sum", "carry", "D7"])
    {'s[3]': 'S(3)', 'top.FA.sum': 'FA.sum', 'carry': 'C'}
    """
    netlist = design.netlist
    known: dict[str, set[int]] = {}
    for name in netlist.top_names:
        nets = netlist.names[name]
        for i, net in enumerate(nets):
            label = name if len(nets) == 1 else f"{name}({i})"
            known.setdefault(_ODD.sub(" ", label.lower()).strip(), set()).add(net)
    found = {}
    for channel in channels:
        for told in _suffixes(channel):
            nets_ = known.get(_ODD.sub(" ", told.lower()).strip(), set())
            if len(nets_) == 1 and (net := next(iter(nets_))) > 3:
                found[channel] = netlist.labels[net]
                break
    return found


def _suffixes(channel: str) -> list[str]:
    """A name, and what is left of it without the scopes that may stand before."""
    starts = [0, *(found.end() for found in _SCOPE.finditer(channel))]
    return [channel[start:] for start in starts]


def cost(seen: Sequence[Bit], expected: Sequence[Bit], *, inverted: bool = False) -> float:
    """How badly samples fit what is expected, nats, as far as both have rows."""
    total = 0.0
    for one, other in zip(seen, expected, strict=False):
        if one == X:
            continue
        if other == X:
            total += UNKNOWN
        elif (one ^ inverted) != other:
            total += MISMATCH
    return total


def assigned(
    samples: Mapping[str, Sequence[Bit]], nets: Mapping[str, Sequence[Bit]]
) -> tuple[Probe, ...]:
    """Channels put to nets so that they fit best together, no net twice; order breaks ties.

    This is the assignment problem, solved by shortest augmenting paths (H. W. Kuhn, "The
    Hungarian method", 1955; the form with potentials, from memory).
    """
    channels, names = list(samples), list(nets)
    if not channels or not names:
        return ()
    table, flipped = [], []
    for row, channel in enumerate(channels):
        line, turns = [], []
        for column, name in enumerate(names):
            straight = cost(samples[channel], nets[name])
            turned = cost(samples[channel], nets[name], inverted=True) + INVERTED
            line.append(min(straight, turned) + 1e-4 * abs(row - column))
            turns.append(turned < straight)
        table.append(line + [_NOWHERE] * len(channels))
        flipped.append(turns)
    found = []
    for row, column in enumerate(_hungarian(table)):
        if column < len(names):
            found.append(Probe(channels[row], names[column], flipped[row][column], named=False))
    return tuple(found)


_NOWHERE: Final = 1e3
"""What it costs to put a channel to no net."""


def _hungarian(table: Sequence[Sequence[float]]) -> list[int]:
    """For each row a column, no column twice, of the least sum; columns are as many or more."""
    height, width = len(table), len(table[0])
    matching = _Matching(table, [0.0] * (height + 1), [0.0] * (width + 1), [0] * (width + 1))
    for row in range(1, height + 1):
        matching.add(row)
    columns = [0] * height
    for column in range(1, width + 1):
        if matching.owner[column]:
            columns[matching.owner[column] - 1] = column - 1
    return columns


@dataclass
class _Matching:
    """Rows matched so far, with the potentials of rows and columns; number 0 is nobody."""

    table: Sequence[Sequence[float]]
    rows: list[float]
    columns: list[float]
    owner: list[int]

    def add(self, row: int) -> None:
        """Match one more row, others giving way along the shortest path."""
        self.owner[0], column = row, 0
        width = len(self.columns)
        way = [0] * width
        least, used = [math.inf] * width, [False] * width
        while self.owner[column]:
            used[column] = True
            column = self._next(column, least, used, way)
        while column:
            self.owner[column] = self.owner[way[column]]
            column = way[column]

    def _next(self, column: int, least: list[float], used: list[bool], way: list[int]) -> int:
        """The nearest column that is not on the path yet; potentials move by its distance."""
        row = self.owner[column]
        free = [j for j in range(1, len(used)) if not used[j]]
        for j in free:
            reduced = self.table[row - 1][j - 1] - self.rows[row] - self.columns[j]
            if reduced < least[j]:
                least[j], way[j] = reduced, column
        nearest = min(free, key=least.__getitem__)
        step = least[nearest]
        for j, taken in enumerate(used):
            if taken:
                self.rows[self.owner[j]] += step
                self.columns[j] -= step
            else:
                least[j] -= step
        return nearest
