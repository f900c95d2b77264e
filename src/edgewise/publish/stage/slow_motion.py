"""Slow motion: a clock period opened up, its events one by one, as a page's script reads them.

Everything that is said stands in the page: the script computes nothing, it moves a line over the
figure, veils what is still to come, and shows the sentence of the event. A stage of the lesson's
own run shows its diagram as it is after the event.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import groupby, pairwise
from typing import Final

from edgewise.circuit.clocks import gating
from edgewise.circuit.netlist import CLOCK_NET
from edgewise.inside import Change, Inside
from edgewise.lesson.inside import Opened
from edgewise.publish.stage import design_data
from edgewise.publish.stage.design_data import Data
from edgewise.views.text import alt_text
from edgewise.views.timing.inside_plan import Lane, Plan, plan_of
from edgewise.words.lists import equations, listed
from edgewise.words.messages import ENGLISH, Fact, Words
from edgewise.words.units import unit


@dataclass(frozen=True, slots=True)
class Event:
    """All that happens in one tick.

    Parameters
    ----------
    time : int
        Tick.
    said : str
    changes : tuple of Change
        With those since the event before that happened inside parts only.
    """

    time: int
    said: str
    changes: tuple[Change, ...]


def element(piece: Opened, figure: str, words: Words = ENGLISH) -> str:
    """The element of an opened period around its figure, which is HTML."""
    made = design_data.text(data(piece, words))
    return (
        "<edgewise-inside>\n"
        f'<script type="application/json">{made}</script>\n{figure}</edgewise-inside>\n'
    )


def data(piece: Opened, words: Words = ENGLISH) -> Data:
    """What ``web/inside.js`` reads."""
    plan = _plan(piece, words)
    moment = piece.inside
    netlist = moment.trace.design.netlist
    labels = ("open", "close", "back", "next", "events", "own")
    return {
        "first": moment.first,
        "last": moment.last,
        "low": [CLOCK_NET, *gating(netlist)],
        "lines": [
            [line.begin, line.end, line.x(line.begin), plan.scale.pitch, line.top, line.foot]
            for line in plan.lines
        ],
        "start": _start(moment, words),
        "events": [
            [event.time, event.said, [[one.net, one.after] for one in event.changes]]
            for event in events(piece, words)
        ],
        "words": {label: words(f"inside-slow-{label}") for label in labels},
    }


def _plan(piece: Opened, words: Words) -> Plan:
    wish = piece.figure.wish
    return plan_of(piece.inside, wish.names, clock=wish.clock != "hidden", words=words)


def events(piece: Opened, words: Words = ENGLISH) -> tuple[Event, ...]:
    r"""The events of an opened period, in order of time.

    Examples
    --------
    >>> from pathlib import Path
    >>> from edgewise.lesson import check_text
    >>> text = "---\ntitle: T\ndesign: serial-adder\noperands: {a: 22, b: 43}\n---\n"
    >>> text += "```inside\nedges: 8\ncolumns: [C, FA.sum]\n```\n"
    >>> (piece,) = check_text(text, "l.md", Path()).pieces.values()
    >>> [event.said for event in events(piece)][3]
    '8 gate delays after edge 8: FA.sum goes from 1 to 0 and FA.carry-out goes from 0 to 1. Glitch.'
    """
    telling = _Telling(piece.inside, _plan(piece, words).lanes, words)
    found: list[Event] = []
    waiting: list[Change] = []
    for time, several in groupby(piece.inside.changes, key=lambda change: change.time):
        waiting += several
        if said := telling.said(time, [change for change in waiting if change.time == time]):
            found.append(Event(time, said, tuple(waiting)))
            waiting = []
    return tuple(found)


@dataclass(frozen=True)
class _Telling:
    """What is said of the events of one opened period."""

    moment: Inside
    lanes: tuple[Lane, ...]
    words: Words

    @cached_property
    def shown(self) -> frozenset[int]:
        """What the lanes show."""
        return frozenset({CLOCK_NET, *(net for lane in self.lanes for net in lane.nets)})

    @cached_property
    def top(self) -> frozenset[int]:
        """Other nets that a diagram shows: those that are not inside parts."""
        netlist = self.moment.trace.design.netlist
        names = frozenset(netlist.top_names)
        return frozenset(at for at, label in enumerate(netlist.labels) if label in names)

    def said(self, time: int, changes: Sequence[Change]) -> str:
        """What happens in a tick; nothing where it happens inside parts only."""
        moment, words = self.moment, self.words
        labels = moment.trace.design.netlist.labels
        told = [self._net(c, words("timing-clock")) for c in changes if c.net == CLOCK_NET]
        told += [one for lane in self.lanes if (one := self._lane(lane, time))]
        others = [c for c in changes if c.net not in self.shown]
        named = [c for c in others if c.net in self.top][:_MOST_NAMED]
        told += [self._net(change, labels[change.net]) for change in named]
        if not told:
            return ""
        if left := len(others) - len(named):
            told.append(words("inside-slow-others", count=left))
        edge = moment.edge_of(time)
        after = moment.figure(time - (edge - moment.first) * moment.period)
        facts: dict[str, Fact] = {"edge": edge, "unit": unit(moment.unit, words)}
        when = words("inside-slow-when", time=words.decimal(after), **facts)
        said = words("inside-slow-event", when=when, changes=listed(told, words))
        marks = (mark for lane in self.lanes for mark in lane.marks if mark.end == time)
        marked = dict.fromkeys(mark.text(words) for mark in marks)
        return " ".join([f"{said[:1].upper()}{said[1:]}", *map(_sentence, marked)])

    def _net(self, change: Change, name: str) -> str:
        before, after = "01X"[change.before], "01X"[change.after]
        return self.words("inside-slow-net", name=name, before=before, after=after)

    def _lane(self, lane: Lane, time: int) -> str:
        """How a lane changes in a tick; nothing if it does not."""
        for (_, before), (at, after) in pairwise(lane.history):
            if at == time:
                spelled = [alt_text.spell(word, self.words) for word in (before, after)]
                facts = {"before": spelled[0], "after": spelled[1]}
                return self.words("inside-slow-net", name=lane.name, **facts)
        return ""


_MOST_NAMED: Final = 3
"""Nets that no lane shows and that are named in one sentence, at most."""


def _sentence(text: str) -> str:
    return f"{text[:1].upper()}{text[1:]}."


def _start(moment: Inside, words: Words) -> str:
    """What is said before anything happens: whose operands they are."""
    trace = moment.trace
    numbers = {**trace.design.parameters, **trace.operands}
    given = equations(numbers.items(), "\u00a0=\u00a0")
    name = "inside-slow-start" if moment.first else "inside-slow-start-inputs"
    facts: dict[str, Fact] = {"edge": moment.first} if moment.first else {}
    return words(f"{name}-with", given=given, **facts) if given else words(name, **facts)
