"""Responses: what a circuit does in time when waveforms come to its inputs.

What `edgewise.inside.Inside` is to a clock period, this is to a circuit that need not have one
clock. Times are whole ticks from the start; `ticks` of them make one unit.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import groupby
from operator import itemgetter
from typing import Final, NamedTuple

from edgewise.bits import Bit, Word, X
from edgewise.circuit.netlist import Netlist
from edgewise.design import Design
from edgewise.inside import Change, Glitch, Violation

_SWINGS: Final = 4
"""Changes of a net, at least, of which it can be said that it oscillates."""


class Race(NamedTuple):
    """Two nets that change together, and what comes of either order."""

    time: int
    nets: tuple[int, int]
    ends: tuple[tuple[Bit, ...], tuple[Bit, ...]]
    """What the outputs end at, bit by bit, if the first of the two is first; if the second is."""


class Oscillation(NamedTuple):
    """Nets that change again and again, until the inputs change or the simulation ends."""

    begin: int
    end: int
    nets: tuple[int, ...]
    period: int


class Passage(NamedTuple):
    """A word that holds others on its way from one at rest to the next."""

    name: str
    begin: int
    """When inputs changed."""
    words: tuple[tuple[int, Word], ...]
    """From when on what stood there; the first before it, the last at rest."""


class Stretch(NamedTuple):
    """The time from one change of the inputs to the next."""

    begin: int
    end: int


@dataclass(frozen=True)
class Response:
    """What every net does when waveforms come to the inputs of a circuit.

    Parameters
    ----------
    design : Design
        As it is followed in time (`Design.in_time`).
    model, unit : str
        Whose delays they are, and the unit of time, in the plural.
    ticks : int
        Ticks in a unit.
    end : int
        The last tick that was looked at.
    start : tuple of bit
        By net, at rest with what the inputs are fed first.
    stimuli : tuple of int
        The ticks at which inputs change.
    changes : tuple of Change
        In order of time.
    violations : tuple of Violation
    quiet : bool
        Nothing was still to come at the end.
    busy : tuple of int
        Those of `stimuli` at which changes were still to come.
    races : tuple of Race
    unlooked : tuple of int
        Those of `stimuli` at which so many inputs change that their order was not looked into.
    """

    design: Design
    model: str
    unit: str
    ticks: int
    end: int
    start: tuple[Bit, ...]
    stimuli: tuple[int, ...]
    changes: tuple[Change, ...]
    violations: tuple[Violation, ...] = ()
    quiet: bool = True
    busy: tuple[int, ...] = ()
    races: tuple[Race, ...] = ()
    unlooked: tuple[int, ...] = ()

    def figure(self, ticks: int) -> str:
        """A time in units: whole, or with as many decimals as it has, three at most."""
        whole, rest = divmod(ticks, self.ticks)
        return f"{whole}.{round(1000 * rest / self.ticks):03}".rstrip("0") if rest else str(whole)

    @cached_property
    def stretches(self) -> tuple[Stretch, ...]:
        """The start, and then from each change of the inputs to the next."""
        begins = (0, *(time for time in self.stimuli if time))
        return tuple(map(Stretch, begins, (*begins[1:], self.end)))

    @cached_property
    def spells(self) -> tuple[Stretch, ...]:
        """The start, and then from a change of the inputs that finds all at rest to the next one.

        Examples
        --------
        >>> from edgewise import blueprint
        >>> from edgewise.study.inside import follow
        >>> text = "{circuit: g, inputs: {x: 1}, parts: {A: {part: nand, in: [x, x]}},"
        >>> text += " outputs: {y: A.out}, waveforms: {x: [0, 1 after 5, 0 after 5.5, 1 after 9]}}"
        >>> response = follow(blueprint.from_text(text, "").made())
        >>> [response.figure(one.begin) for one in response.stretches]
        ['0', '5', '5.5', '9']
        >>> [response.figure(one.begin) for one in response.spells]
        ['0', '5', '9']
        """
        begins = [one.begin for one in self.stretches if one.begin not in self.busy]
        return tuple(map(Stretch, begins, (*begins[1:], self.end)))

    def nets(self, name: str) -> tuple[int, ...]:
        """The nets of a name, LSB first."""
        return self.design.netlist.find(name)

    @cached_property
    def columns(self) -> tuple[str, ...]:
        """The names that are shown if none are chosen: inputs and outputs."""
        netlist = self.design.netlist
        return tuple(dict.fromkeys((*netlist.inputs, *netlist.outputs)))

    def history(self, nets: Sequence[int]) -> tuple[tuple[int, Word], ...]:
        """What the word made of these nets, LSB first, holds from which time on."""
        bits = [self.start[net] for net in nets]
        places = {net: at for at, net in enumerate(nets)}
        found = [(0, Word.from_bits(bits))]
        changes = (change for change in self.changes if change.net in places)
        for time, several in groupby(changes, key=lambda change: change.time):
            for change in several:
                bits[places[change.net]] = change.after
            found.append((time, Word.from_bits(bits)))
        return tuple(found[1:] if len(found) > 1 and found[1][0] == 0 else found)

    def word(self, name: str, time: int) -> Word:
        """The word of a name at a time, its changes included."""
        history = self.history(self.nets(name))
        return history[bisect_right([at for at, _ in history], time) - 1][1]

    def at(self, time: int) -> list[Bit]:
        """Every net's bit at a time, its changes included."""
        bits = list(self.start)
        for change in self.changes[: bisect_right(self._times, time)]:
            bits[change.net] = change.after
        return bits

    def _moves(self, stretch: Stretch) -> dict[int, list[Change]]:
        """The changes of a stretch, by net."""
        moves: dict[int, list[Change]] = {}
        for change in self._within(stretch):
            moves.setdefault(change.net, []).append(change)
        return moves

    @cached_property
    def _times(self) -> tuple[int, ...]:
        return tuple(change.time for change in self.changes)

    def _within(self, stretch: Stretch) -> Iterable[Change]:
        low = bisect_left(self._times, stretch.begin)
        return self.changes[low : self._stop(self._times, stretch)]

    def _stop(self, times: Sequence[int], stretch: Stretch) -> int:
        """Where the times of a stretch stop; the last one has its end, too."""
        return len(times) if stretch.end == self.end else bisect_left(times, stretch.end)

    def rests(self, stretch: Stretch) -> bool:
        """Whether nothing was still to come when a stretch ended."""
        return self.quiet if stretch.end == self.end else stretch.end not in self.busy

    def settled(self, stretch: Stretch) -> int | None:
        """Ticks from the begin of a stretch until all is at rest; None if it never is."""
        if not self.rests(stretch):
            return None
        return max((change.time for change in self._within(stretch)), default=stretch.begin) - (
            stretch.begin
        )

    @cached_property
    def slowest(self) -> tuple[int, int] | None:
        """The longest time from when inputs change until all is at rest, and when they do.

        Where they change again before, from the last time; None if all never is at rest.
        """
        if not self.quiet:
            return None
        found = []
        for spell in self.spells:
            last = self.stretches[self._place(spell.end) - 1].begin
            moved = max((change.time for change in self._within(spell)), default=last)
            found.append((max(moved - last, 0), last))
        return max(found, key=itemgetter(0))

    def _place(self, end: int) -> int:
        """How many stretches there are before the end of a spell."""
        if end == self.end:
            return len(self.stretches)
        return bisect_left([stretch.begin for stretch in self.stretches], end)

    @cached_property
    def oscillations(self) -> tuple[Oscillation, ...]:
        """The stretches whose end finds nets that change at equal distances."""
        found = []
        for stretch in self.stretches:
            swinging: dict[int, list[int]] = {}
            for net, several in self._moves(stretch).items():
                if period := _period([change.time for change in several], stretch.end):
                    swinging.setdefault(period, []).append(net)
            found += [
                Oscillation(*stretch, tuple(nets), period) for period, nets in swinging.items()
            ]
        return tuple(found)

    @cached_property
    def passages(self) -> tuple[Passage, ...]:
        """The outputs of several bits that hold other words between two at rest."""
        found = []
        words = {n: nets for n, nets in self.design.netlist.outputs.items() if len(nets) > 1}
        for name, nets in words.items():
            history = self.history(nets)
            times = [time for time, _ in history]
            for stretch in self.spells[1:]:
                if not self.rests(stretch):
                    continue
                low, stop = bisect_left(times, stretch.begin) - 1, self._stop(times, stretch)
                if stop - low > 2 and low >= 0:
                    found.append(Passage(name, stretch.begin, history[low:stop]))
        return tuple(sorted(found, key=lambda one: one.begin))

    @cached_property
    def glitches(self) -> tuple[Glitch, ...]:
        """The outputs of one bit that change more than once in a stretch that ends at rest.

        What is unknown for a while is no glitch.
        """
        outputs = {nets[0] for nets in self.design.netlist.outputs.values() if len(nets) == 1}
        return tuple(
            Glitch(net, stretch.begin, tuple(several))
            for stretch in self.stretches
            if self.rests(stretch)
            for net, several in self._moves(stretch).items()
            if net in outputs and len(several) > 1 and X not in {one.after for one in several}
        )


def outputs(netlist: Netlist) -> tuple[int, ...]:
    """The nets of a circuit's outputs, each once."""
    return tuple(dict.fromkeys(net for nets in netlist.outputs.values() for net in nets))


def _period(times: Sequence[int], end: int) -> int:
    """The distance at which a net changes again and again up to `end`; 0 if it does not."""
    if len(times) < _SWINGS:
        return 0
    period = times[-1] - times[-3]
    return period if times[-2] - times[-4] == period and end - times[-1] < period else 0
