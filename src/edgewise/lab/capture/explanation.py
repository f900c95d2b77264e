"""A recording explained: what fits the whole of it, and what to measure to tell the rest apart."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from typing import Final

from edgewise.bits import Bit, X
from edgewise.design import Design
from edgewise.errors import EdgewiseError, Message
from edgewise.lab.capture import lining, matching, rehearsal
from edgewise.lab.capture.hypothesis import USUAL, Hypothesis, hypotheses
from edgewise.lab.capture.lining import Lined
from edgewise.lab.capture.matching import INVERTED, MISSING, Probe, cost
from edgewise.lab.capture.recording import Recording
from edgewise.words.messages import Words

MOST: Final = 5
"""Explanations that are told."""
LEFT_OVER: Final = 20
"""Of so many samples one may be left over before an explanation is doubted."""
MOST_RIVALS: Final = 40
NEAR: Final = 4.0
"""An explanation this much worse than the best, nats, is still worth a measurement."""


@dataclass(frozen=True, slots=True)
class Scored:
    """A hypothesis with the channels as they fit it best.

    Parameters
    ----------
    hypothesis : Hypothesis
    probes : tuple of Probe
    nats : float
        How badly it fits, how unlikely it is beforehand included.
    unexplained : int
        Samples that are not as it would have them.
    """

    hypothesis: Hypothesis
    probes: tuple[Probe, ...]
    nats: float
    unexplained: int
    swapped: tuple[str, str] | None = None
    """Channels that are put to each other's nets."""
    dead: str = ""
    """A channel that shows one level only, whatever its net does."""

    @property
    def name(self) -> str:
        """By which programs know it."""
        if self.dead:
            return f"dead {self.dead}"
        return f"probes {' and '.join(self.swapped)}" if self.swapped else self.hypothesis.name

    def told(self, words: Words) -> str:
        """What is wrong, as a sentence."""
        if self.swapped:
            return words("capture-probes", first=self.swapped[0], second=self.swapped[1])
        if self.dead:
            return words("capture-dead", channel=self.dead)
        return self.hypothesis.told(words)


@dataclass(frozen=True, slots=True)
class Explanation:
    """What explains a recording equally well: hypotheses that show the same on all channels."""

    members: tuple[Scored, ...]

    @property
    def best(self) -> Scored:
        """The one that is least unlikely beforehand."""
        return self.members[0]


@dataclass(frozen=True, slots=True)
class Difference:
    """A sample that is not as in the run."""

    row: int
    net: str
    channel: str
    seen: Bit
    expected: Bit


@dataclass(frozen=True, slots=True)
class Measurement:
    """What would tell explanations apart: a net, a row, and who expects what there."""

    net: str
    row: int
    zero: tuple[str, ...]
    one: tuple[str, ...]


@dataclass(frozen=True)
class Explained:
    """A recording, lined up and explained.

    Parameters
    ----------
    design : Design
    operands : mapping of str to int
    lined : Lined
    explanations : tuple of Explanation
        The best first.
    right : Scored
        Nothing is wrong.
    """

    design: Design
    operands: Mapping[str, int]
    lined: Lined
    explanations: tuple[Explanation, ...]
    right: Scored

    @cached_property
    def probes(self) -> tuple[Probe, ...]:
        """The channels as they are named; those without a name as they fit the best explanation."""
        best = self.explanations[0].best
        return self.right.probes if best.swapped else best.probes

    @cached_property
    def differences(self) -> tuple[Difference, ...]:
        """The samples that are not as in the run, row by row."""
        found = []
        for probe in self.probes:
            expected = self.right.hypothesis.shown(probe.net)
            seen = self.lined.samples[probe.channel]
            for row, (one, other) in enumerate(zip(seen, expected, strict=False)):
                bit = one if one == X else one ^ probe.inverted
                if X not in (bit, other) and bit != other:
                    found.append(Difference(row, probe.net, probe.channel, bit, other))
        return tuple(sorted(found, key=lambda one: one.row))

    @property
    def misset(self) -> int:
        """Samples of inputs that are not as the procedure feeds them."""
        netlist = self.design.netlist
        inputs = {netlist.labels[net] for nets in netlist.inputs.values() for net in nets}
        return sum(one.net in inputs for one in self.differences)

    @cached_property
    def unmatched(self) -> tuple[str, ...]:
        """Channels that fit no net."""
        known = {probe.channel for probe in self.probes}
        return tuple(name for name in self.lined.samples if name not in known)

    @cached_property
    def likely(self) -> tuple[Explanation, ...]:
        """The explanations that are told: those that leave fewer samples over than none does."""
        most = self.right.unexplained + abs(len(self.right.hypothesis.rows) - self.lined.rows)
        found = [
            one
            for one in self.explanations
            if one.best.unexplained < most or one.best is self.right
        ]
        return tuple(found[:MOST])

    @property
    def explained(self) -> bool:
        """Whether the best explanation leaves few samples over: one in twenty, at most."""
        best = self.explanations[0].best
        samples = self.lined.rows * max(len(best.probes), 1)
        return best.unexplained * LEFT_OVER <= samples

    @property
    def as_it_should(self) -> bool:
        """Whether nothing is wrong, as far as the recording tells."""
        best = self.explanations[0].best
        return best.hypothesis.form == "right" and not (best.swapped or best.dead)

    @cached_property
    def next(self) -> Measurement | None:
        """What to measure next; nothing if no net of this run tells any two apart."""
        return _next(self)


def explain(design: Design, operands: Mapping[str, int], recording: Recording) -> Explained:
    """Line up a recording with a run, and explain it.

    Raises
    ------
    EdgewiseError
        No channel can be the clock, or there is no other.

    Examples
    --------
    >>> from pathlib import Path
    >>> from edgewise import catalogue, run
    >>> from edgewise.lab import dump
    >>> from edgewise.lab.capture import value_change_dump
    >>> design = catalogue.design("serial-adder", n=4)
    >>> text = dump.text(run(design, a=5, b=6))
    >>> found = explain(design, {"a": 5, "b": 6}, value_change_dump.read(text, Path("run.vcd")))
    >>> found.as_it_should, found.lined.clock, len(found.probes)
    (True, 'clock', 18)
    """
    ways = [way for way in lining.lined(recording, design.edges) if way.samples]
    if not ways:
        raise EdgewiseError(Message("recording-clock-only"))
    found = [_explained(design, operands, way) for way in ways]
    return min(found, key=_unlikely)


def _unlikely(found: Explained) -> float:
    """How unlikely a way to read a recording is: of its best explanation, and of its clock."""
    return found.explanations[0].best.nats + INVERTED * found.lined.inverted


def _explained(design: Design, operands: Mapping[str, int], lined: Lined) -> Explained:
    named = matching.by_name(design, tuple(lined.samples))
    fed = _fed(design, operands, lined, named)
    seen = {net: lined.samples[channel] for channel, net in named.items()}
    tried = [*hypotheses(design, operands, fed, lined.presses, seen)]
    watched = [net for net in matching.watchable(design) if net not in named.values()]
    scored = [_scored(one, lined, named, watched) for one in tried]
    right = scored[0]
    scored += [*_probes_swapped(tried[0], lined, named), *_dead(right, lined)]
    groups: dict[tuple[object, ...], list[Scored]] = {}
    for one in sorted(scored, key=lambda one: one.nats):
        groups.setdefault(_shows(one), []).append(one)
    explanations = tuple(Explanation(tuple(members)) for members in groups.values())
    return Explained(design, operands, lined, explanations, right)


def _fed(
    design: Design, operands: Mapping[str, int], lined: Lined, named: Mapping[str, str]
) -> rehearsal.Feeds:
    """The procedure's inputs; where they may be anything, what the recording has there."""
    channels = {net: channel for channel, net in named.items()}
    labels = design.netlist.labels
    fed = []
    for row, inputs in enumerate(rehearsal.feeds(design, operands)):
        given = {}
        for name, bits in inputs.items():
            found = []
            for net, bit in zip(design.netlist.inputs[name], bits, strict=True):
                channel = channels.get(labels[net])
                samples = lined.samples[channel] if channel else ()
                found.append(samples[row] if bit == X and row < len(samples) else bit)
            given[name] = found
        fed.append(given)
    return tuple(fed)


def _scored(
    one: Hypothesis, lined: Lined, named: Mapping[str, str], watched: Sequence[str]
) -> Scored:
    """A hypothesis with the nats of all channels, those without a name put where they fit."""
    probes = [_named(channel, net, one, lined) for channel, net in named.items()]
    others = {c: samples for c, samples in lined.samples.items() if c not in named}
    if others:
        probes += matching.assigned(others, {net: one.shown(net) for net in watched})
    return _summed(one, tuple(probes), lined)


def _named(channel: str, net: str, one: Hypothesis, lined: Lined) -> Probe:
    seen, shown = lined.samples[channel], one.shown(net)
    turned = cost(seen, shown, inverted=True) + INVERTED < cost(seen, shown)
    return Probe(channel, net, turned)


def _summed(
    one: Hypothesis, probes: tuple[Probe, ...], lined: Lined, swapped: tuple[str, str] | None = None
) -> Scored:
    rows = len(one.rows)
    nats = one.unlikely + MISSING * abs(rows - lined.rows)
    unexplained = 0
    for probe in probes:
        seen, shown = lined.samples[probe.channel], one.shown(probe.net)
        nats += cost(seen, shown, inverted=probe.inverted) + INVERTED * probe.inverted
        unexplained += sum(
            X not in (bit, other) and bit ^ probe.inverted != other
            for bit, other in zip(seen, shown, strict=False)
        )
    return Scored(one, probes, nats, unexplained, swapped)


def _probes_swapped(right: Hypothesis, lined: Lined, named: Mapping[str, str]) -> list[Scored]:
    """Nothing wrong, but two channels are each at the other's net."""
    channels, found = list(named), []
    for i, one in enumerate(channels):
        for other in channels[:i]:
            nets = {**named, one: named[other], other: named[one]}
            probes = tuple(Probe(channel, net) for channel, net in nets.items())
            scored = _summed(right, probes, lined, (other, one))
            found.append(replace(scored, nats=scored.nats + USUAL))
    return found


def _dead(right: Scored, lined: Lined) -> Iterator[Scored]:
    """Nothing wrong, but one channel shows one level only: its lead is off, or its wire."""
    for probe in right.probes:
        seen = lined.samples[probe.channel]
        if len(set(seen)) > 1 or len(set(right.hypothesis.shown(probe.net)) - {X}) < 2:
            continue
        others = tuple(one for one in right.probes if one is not probe)
        rest = _summed(right.hypothesis, others, lined)
        nats = rest.nats + USUAL
        yield Scored(right.hypothesis, right.probes, nats, rest.unexplained, None, probe.channel)


def _shows(one: Scored) -> tuple[object, ...]:
    """What a hypothesis would show on the channels; two that show the same can't be told apart."""
    shown = {
        probe.channel: tuple(
            bit if bit == X else bit ^ probe.inverted for bit in one.hypothesis.shown(probe.net)
        )
        for probe in one.probes
        if probe.channel != one.dead
    }
    return (len(one.hypothesis.rows), one.dead, *sorted(shown.items()))


# ---------------------------------------------------------------------- the next measurement


def _next(found: Explained) -> Measurement | None:
    """The net and row that part the best explanations most evenly."""
    best = found.explanations[0].best.nats
    rivals = [
        member
        for explanation in found.explanations[:MOST]
        if explanation.best.nats <= best + NEAR
        for member in explanation.members[:MOST_RIVALS]
        if not (member.swapped or member.dead)
    ]
    taken = {probe.net for probe in found.probes}
    chosen: tuple[tuple[int, int, int], Measurement] | None = None
    for place, net in enumerate(matching.watchable(found.design)):
        if net in taken:
            continue
        for row in range(min((len(one.hypothesis.rows) for one in rivals), default=0)):
            bits = {one.name: one.hypothesis.shown(net)[row] for one in rivals}
            zero = tuple(name for name, bit in bits.items() if bit == 0)
            one = tuple(name for name, bit in bits.items() if bit == 1)
            if zero and one:
                rank = (abs(len(zero) - len(one)), row, place)
                if chosen is None or rank < chosen[0]:
                    chosen = rank, Measurement(net, row, zero, one)
    return chosen[1] if chosen else None
