"""The plan of a figure inside clock periods: lanes, lines, and where everything stands."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise
from math import ceil, floor
from typing import Final, NamedTuple

from edgewise.bits import Word
from edgewise.circuit.clocks import gating
from edgewise.errors import EdgewiseError, Message, raise_all
from edgewise.inside import Inside
from edgewise.views.drawing import text_metrics, theme
from edgewise.views.timing import marks
from edgewise.views.timing.marks import Placed
from edgewise.views.timing.scale import Scale
from edgewise.views.timing.timing_diagram import WIDTH
from edgewise.views.timing.waveforms import HEIGHT, SLOPE
from edgewise.words.messages import ENGLISH, Words
from edgewise.words.units import unit

ROW: Final = 34.0
"""From signal to signal."""
LEAD: Final = 12.0
"""What is seen of the time before the line."""
HEAD: Final = 2 * (theme.SIZE_SMALL + 6.0) + 4.0
"""Edge numbers and scale."""
SIZE: Final = theme.SIZE_SMALL
_LINE_GAP: Final = 22.0
_FOOT: Final = 24.0
_LEAST_CHART: Final = 160.0


def names_of(moment: Inside) -> tuple[str, ...]:
    """What is shown unless it is said: gated clocks, `Trace.columns`, ports not kept waiting.

    Examples
    --------
    >>> from edgewise import catalogue, run
    >>> from edgewise.study.inside import inside
    >>> moment = inside(run(catalogue.design("serial-adder-gated-clock", n=4), a=6, b=3), 5)
    >>> names_of(moment)
    ('gate.out', 'shift', 'a_in', 'b_in', 'A', 'B', 'FA.sum', 'FA.carry-out', 'C', 'S')
    """
    netlist, columns = moment.trace.design.netlist, moment.trace.columns
    shown = {net for name in columns for net in moment.nets(name)}
    gated = [netlist.labels[net] for net in gating(netlist)]
    wrong = [netlist.labels[one.net] for one in moment.violations if one.net not in shown]
    return tuple(dict.fromkeys([*gated, *columns, *wrong]))


def plan_of(
    moment: Inside,
    names: Sequence[str] | None = None,
    *,
    clock: bool = True,
    width: float = WIDTH,
    words: Words = ENGLISH,
) -> Plan:
    """Where everything stands.

    Raises
    ------
    EdgewiseError or Problems
        As of `inside_timing`.
    """
    chosen = tuple(names_of(moment) if names is None else names)
    if not chosen:
        raise EdgewiseError(Message("nets-none", names=", ".join(moment.trace.columns)))
    lanes: list[Lane] = []
    errors: list[EdgewiseError] = []
    for name in chosen:
        try:
            lanes.append(_lane(moment, name))
        except EdgewiseError as wrong:
            errors += wrong.parts()
    raise_all(errors)
    return Plan(moment, tuple(lanes), width, clock and bool(moment.first), words)


@dataclass(frozen=True, slots=True)
class Lane:
    """A net or word, what it holds from which tick on, and what is marked of it."""

    name: str
    nets: tuple[int, ...]
    history: tuple[tuple[int, Word], ...]
    marks: tuple[marks.Mark, ...]


def _lane(moment: Inside, name: str) -> Lane:
    nets = moment.nets(name)
    before = (-1, Word.from_bits([moment.start[net] for net in nets]))
    changed = [one for one in moment.history(nets) if one[0] or one[1] != before[1]]
    return Lane(name, nets, (before, *changed), marks.of(moment, nets))


class Spot(NamedTuple):
    """A window around an edge: its first and last tick, and whether it was not kept."""

    begin: int
    end: int
    broken: bool


@dataclass(frozen=True)
class Plan:
    """The measures of the figure."""

    moment: Inside
    lanes: tuple[Lane, ...]
    width: float
    clock: bool
    words: Words

    @cached_property
    def unit(self) -> str:
        """The unit of time, as it stands at the scale."""
        return unit(self.moment.unit, self.words)

    @cached_property
    def left(self) -> float:
        """X of a line's begin: right of the names."""
        said = (*(lane.name for lane in self.lanes), self.words("timing-clock"))
        wide = [text_metrics.width(name, weight=theme.STRONG) for name in said]
        wide += [text_metrics.width(self.unit, SIZE)]
        return ceil(theme.MARGIN + max(wide) + theme.GAP + LEAD)

    @cached_property
    def scale(self) -> Scale:
        """Px of every tick.

        Raises
        ------
        EdgewiseError
            More lines than a figure has.
        """
        gaps = [
            after[0] - before[0]
            for lane in self.lanes
            for before, after in pairwise(lane.history[1:])
        ]
        room = max(floor(self.width) - self.left - SLOPE - theme.MARGIN, _LEAST_CHART)
        gap, moment = min(gaps, default=self.period), self.moment
        return Scale.fitting(self.period, moment.last - moment.first + 1, gap, room)

    @cached_property
    def period(self) -> int:
        """Ticks that are shown of each period: all; where no clock ticks, not much silence."""
        moment = self.moment
        last = moment.settled(0) if not moment.first and moment.rests(0) else None
        return moment.period if last is None else min(moment.period, last + max(last // 8, 1))

    @cached_property
    def lines(self) -> tuple[Laid, ...]:
        """Each line with its marks and its height."""
        found: list[Laid] = []
        top = theme.MARGIN
        for number in range(len(self.scale.lines)):
            line = Laid(self, number, top)
            found.append(line)
            top = line.bottom + _LINE_GAP
        return tuple(found)

    @cached_property
    def begins(self) -> range:
        """The ticks at which periods begin."""
        return range(0, self.moment.end, self.moment.period)

    @cached_property
    def settled(self) -> tuple[tuple[int, int], ...]:
        """Where and how long after its edge all nets have settled, period by period."""
        moment = self.moment
        found = []
        for edge, begin in zip(range(moment.first, moment.last + 1), self.begins, strict=True):
            time = moment.settled(edge)
            if time is not None and moment.rests(edge):
                found.append((begin + time, time))
        return tuple(found)

    @cached_property
    def windows(self) -> tuple[tuple[Spot, ...], ...]:
        """Of each lane, the windows around edges in which it must stand."""
        moment = self.moment
        broken = {(one.net, one.edge) for one in moment.violations}
        found = []
        for lane in self.lanes:
            own = [one for one in moment.windows if one.net in lane.nets]
            wrong = {(one.begin, one.end) for one in own if (one.net, one.edge) in broken}
            spots = dict.fromkeys((one.begin, one.end) for one in own)
            found.append(tuple(Spot(*spot, spot in wrong) for spot in spots))
        return tuple(found)


@dataclass(frozen=True)
class Laid:
    """A line of the figure with its place."""

    plan: Plan
    number: int
    top: float

    @property
    def begin(self) -> int:
        """The first tick."""
        return self.plan.scale.lines[self.number].begin

    @property
    def end(self) -> int:
        """The tick after the last."""
        return self.plan.scale.lines[self.number].end

    def x(self, tick: int) -> float:
        """Px of a tick, no farther than the line goes."""
        inner = min(max(tick, self.begin), self.end) - self.begin
        return self.plan.left + inner * self.plan.scale.pitch

    def has(self, tick: int) -> bool:
        """Whether a tick is in it."""
        return self.begin <= tick < self.end

    @cached_property
    def marks(self) -> tuple[tuple[Placed, ...], ...]:
        """The marks of each lane that begin, end, or go on in it."""
        room = self.plan.left - LEAD, self.plan.left + self.plan.scale.lines[self.number].width
        return tuple(
            marks.placed(
                [m for m in lane.marks if m.begin < self.end and m.end >= self.begin],
                self.x,
                room,
                self.plan.words,
            )
            for lane in self.plan.lanes
        )

    @cached_property
    def lanes(self) -> tuple[float, ...]:
        """Y of the high level of each lane, and at last of the foot."""
        y = self.top + HEAD + ROW * self.plan.clock
        found = [y]
        for placed in self.marks:
            rows = max((one.row + 1 for one in placed), default=0)
            y += ROW + marks.ROW * rows
            found.append(y)
        return tuple(found)

    @property
    def foot(self) -> float:
        """Y below the low level of the last lane and its marks."""
        return self.lanes[-1] - (ROW - HEIGHT) + 4

    @property
    def bottom(self) -> float:
        """Y of its end."""
        return self.foot + _FOOT
