"""Marks under a lane: glitches, false edges, cut pulses, times that were not kept."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import Final, Literal, TypeAlias

from edgewise.inside import Inside
from edgewise.views.drawing import text_metrics, theme
from edgewise.views.drawing.shapes import Item, Line, Path, Rectangle, Text, line_data
from edgewise.words.messages import Words

ROW: Final = 21.0
"""Height of a row of marks."""
_DEEP: Final = 4.0
_APART: Final = 6.0
"""Px between two marks of a row, at least."""

Kind: TypeAlias = Literal["glitch", "false-edge", "cut-pulse", "late-clock", "setup", "hold"]
_POINTED: Final = ("false-edge", "late-clock")
"""Marked by a triangle at one time; the others by a bracket from time to time."""
_WRONG: Final = ("setup", "hold")
"""In the colour of errors: something stores what nobody knows."""


@dataclass(frozen=True, slots=True)
class Mark:
    """What is marked, from one tick to another; `count` of them lie together."""

    kind: Kind
    begin: int
    end: int
    count: int = 1

    def text(self, words: Words) -> str:
        """What stands at it."""
        return words(f"inside-mark-{self.kind}", count=self.count)


def of(moment: Inside, nets: Iterable[int]) -> tuple[Mark, ...]:
    """What is to be marked of some nets, in order of time.

    Examples
    --------
    >>> from edgewise import catalogue, run
    >>> from edgewise.study.inside import inside
    >>> moment = inside(run(catalogue.design("serial-adder", n=6), a=22, b=43), 8)
    >>> [mark.kind for mark in of(moment, moment.nets("FA.sum"))]
    ['glitch']
    """
    wanted = frozenset(nets)
    marks = dict.fromkeys(_all(moment, wanted))
    return tuple(sorted(marks, key=lambda mark: (mark.begin, mark.end, mark.kind)))


def _all(moment: Inside, nets: frozenset[int]) -> Iterator[Mark]:
    for glitch in moment.glitches:
        if glitch.net in nets:
            yield Mark("glitch", glitch.changes[0].time, glitch.changes[-1].time)
    for pulse in moment.pulses:
        if pulse.net in nets and pulse.false:
            yield Mark("false-edge", pulse.rise, pulse.rise)
        if pulse.net in nets and pulse.cut and pulse.fall is not None:
            yield Mark("cut-pulse", pulse.rise, pulse.fall)
    for late in _late(moment, nets):
        for begin in range(0, moment.end, moment.period):
            yield Mark("late-clock", begin + late, begin + late)
    for wrong in moment.violations:
        if wrong.net in nets:
            yield Mark(wrong.kind, *sorted((wrong.edge, wrong.change)))


def _late(moment: Inside, nets: frozenset[int]) -> frozenset[int]:
    """How late the clock comes to what stores these nets, where it is late."""
    stored = zip(moment.trace.design.netlist.flip_flops, moment.asked, strict=False)
    return frozenset(times.late for one, times in stored if one.q in nets and times.late)


@dataclass(frozen=True, slots=True)
class Placed:
    """A mark with its place: px from `start` to `end`, its text from `left` to `right`."""

    mark: Mark
    start: float
    end: float
    left: float
    right: float
    row: int = 0

    def meets(self, other: Placed) -> bool:
        """Whether they would touch in one row."""
        mine, others = (self.left, self.right), (other.left, other.right)
        return mine[0] < others[1] + _APART and others[0] < mine[1] + _APART


def placed(
    marks: Sequence[Mark],
    x: Callable[[int], float],
    room: tuple[float, float],
    words: Words,
) -> tuple[Placed, ...]:
    """Marks with their places; glitches that have no room side by side become one mark.

    Parameters
    ----------
    marks : sequence of Mark
        In order of time.
    x : function
        Px of a tick.
    room : (float, float)
        Px between which texts stand.
    words : Words
    """

    def place(mark: Mark) -> Placed:
        start, end = x(mark.begin), x(mark.end)
        wide = text_metrics.width(mark.text(words), theme.SIZE_SMALL)
        left = min(max(room[0], (start + end - wide) / 2), room[1] - wide)
        return Placed(mark, start, end, min(left, start), max(left + wide, end))

    found: list[Placed] = []
    for mark in marks:
        new = place(mark)
        same = [one for one in found if one.mark.kind == mark.kind and one.meets(new)]
        for one in same:
            found.remove(one)
            joined = Mark(
                mark.kind,
                min(one.mark.begin, new.mark.begin),
                max(one.mark.end, new.mark.end),
                one.mark.count + new.mark.count,
            )
            new = place(joined)
        rows = {one.row for one in found if one.meets(new)}
        row = next(row for row in range(len(rows) + 1) if row not in rows)
        found.append(Placed(new.mark, new.start, new.end, new.left, new.right, row))
    return tuple(found)


def drawn(one: Placed, top: float, words: Words) -> Iterator[Item]:
    """A bracket or a triangle, and its text below it; `top` is that of the first row."""
    mark, y = one.mark, top + ROW * one.row
    colour = theme.BRICK if mark.kind in _WRONG else theme.INK
    if mark.kind in _POINTED:
        corners = ((one.start - 4, y + 6), (one.start, y - 1), (one.start + 4, y + 6))
        yield Path(line_data(corners, closed=True), fill=colour)
    else:
        bracket = ((one.start, y), (one.start, y + _DEEP), (one.end, y + _DEEP), (one.end, y))
        yield Line(bracket, colour, theme.OUTLINE)
    text = mark.text(words)
    wide = text_metrics.width(text, theme.SIZE_SMALL)
    middle = min(max((one.start + one.end) / 2, one.left + wide / 2), one.right - wide / 2)
    base = y + _DEEP + 1 + 0.95 * theme.SIZE_SMALL
    yield Rectangle(middle - wide / 2 - 2, y + _DEEP + 2, wide + 4, ROW - _DEEP - 3, theme.PAPER)
    yield Text(middle, base, text, theme.SIZE_SMALL, colour, anchor="middle")
