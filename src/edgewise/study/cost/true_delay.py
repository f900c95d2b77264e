"""The true delay of a design: the latest change over all operands and all that stood before.

Of a design without flip-flops it is exact, and shown by two sets of operands, one after the other,
that are played in `edgewise.engines.timed`. Where something is stored, any stored bits are thought
possible, so that nothing changes later, but the change itself may never come.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Any, Final, Literal

from edgewise.circuit.model import Tie
from edgewise.circuit.netlist import Netlist
from edgewise.design import Design
from edgewise.engines import reference
from edgewise.engines.replay import operands_of
from edgewise.engines.sat import last_change, lateness
from edgewise.engines.sat.lateness import Effort
from edgewise.engines.sat.moments import Course
from edgewise.engines.symbolic.variables import Variable
from edgewise.engines.timed.delays import Delays
from edgewise.engines.timed.simulation import Stimulus, simulate
from edgewise.study.cost import path_count
from edgewise.study.cost.arrival import End, arrivals, begins, ends
from edgewise.study.cost.models.gates import UNIT_GATE
from edgewise.study.cost.technology import Technology, Timing, number, plain
from edgewise.words.lists import enumerated, equations
from edgewise.words.messages import ENGLISH, Words
from edgewise.words.units import unit

Pulses = Literal["inertial", "transport"]
_NAMED: Final = 4
"""Ends of false paths that a sentence names."""


@dataclass(frozen=True, slots=True)
class Shown:
    """Operands after which a change comes late, as the engine in time has it.

    Parameters
    ----------
    before, operands : mapping of str to int
        What stood there, and what follows.
    at : Fraction
        When the last output changes.
    pulses : str
        Whether gates swallow short pulses; only where they pass all of them if ``transport``.
    """

    before: Mapping[str, int]
    operands: Mapping[str, int]
    at: Fraction
    pulses: Pulses


@dataclass(frozen=True, slots=True)
class TrueDelay:
    """What is known of the latest change.

    Parameters
    ----------
    technology : Technology
    clocked : bool
        Something is stored.
    longest : Fraction
        The critical path.
    at, most : Fraction
        A change may come at `at`; none comes after `most`. They are equal, unless the effort was
        spent before that was known.
    paths : int
        Paths that are longer than `most`: all of them are false.
    ends : tuple of (str, Fraction)
        Where they end, the latest first, and how long the longest of them is.
    shown : Shown, optional
    """

    technology: Technology
    clocked: bool
    longest: Fraction
    at: Fraction
    most: Fraction
    paths: int = 0
    ends: tuple[tuple[str, Fraction], ...] = ()
    shown: Shown | None = None

    @property
    def false(self) -> bool:
        """Whether each critical path is known to be false."""
        return self.most < self.longest

    def sentences(self, words: Words = ENGLISH) -> Iterator[str]:
        r"""The true delay, which paths are false, and the operands that show it.

        Examples
        --------
        >>> from edgewise import catalogue
        >>> print(*of(catalogue.design("carry-skip-adder", n=4, m=2)).sentences(), sep="\n")
        true delay: 8 gate delays; whatever operands follow on others, nothing changes later
        4 paths are longer and false: no operands take them; they end in carry (10)
        shown by a = 1, b = 5 after a = 1, b = 7: the last output changes 8 gate delays later
        """
        named = unit(self.technology.time_unit, words)
        figure = words.decimal(number(self.most))
        if self.at < self.most:
            yield words(
                "path-true-within", low=words.decimal(number(self.at)), high=figure, unit=named
            )
        elif self.clocked:
            if self.false:
                yield words("path-true-clocked", time=figure, unit=named)
        else:
            yield words("path-true", time=figure, unit=named)
        if self.false:
            told = [f"{name} ({words.decimal(number(at))})" for name, at in self.ends]
            listed = enumerated(told, words, _NAMED)
            yield words("path-false", paths=self.paths, ends=listed)
        if self.shown:
            yield words(
                "path-shown",
                before=equations(self.shown.before.items()),
                operands=equations(self.shown.operands.items()),
                time=words.decimal(number(self.shown.at)),
                unit=named,
                pulses=self.shown.pulses,
            )

    def data(self) -> dict[str, Any]:
        """The same for programs."""
        shown = self.shown
        return {
            "model": self.technology.name,
            "unit": self.technology.time_unit,
            "longest": plain(self.longest),
            "at": plain(self.at),
            "most": plain(self.most),
            "false_paths": self.paths,
            "false_ends": {name: plain(at) for name, at in self.ends},
            "shown": shown
            and {
                "before": dict(shown.before),
                "operands": dict(shown.operands),
                "at": plain(shown.at),
                "pulses": shown.pulses,
            },
        }


def of(
    design: Design,
    technology: Technology = UNIT_GATE,
    effort: Effort = lateness.USUAL,
    *,
    show: bool = True,
) -> TrueDelay:
    """The true delay of a design.

    Parameters
    ----------
    design : Design
    technology : Technology
    effort : Effort
    show : bool
        Whether operands that show it are looked for.

    Examples
    --------
    >>> from edgewise import catalogue
    >>> adders = (catalogue.design("carry-skip-adder", n=n) for n in (4, 16, 32))
    >>> [(str(found.at), str(found.longest)) for found in map(of, adders)]
    [('8', '8'), ('22', '38'), ('30', '78')]
    """
    netlist, timing = design.netlist, technology.timing(design.netlist)
    at = arrivals(netlist, timing).at
    last = list(ends(netlist, timing, at))
    course = course_of(design, timing, [(net, when - at[net]) for when, net, *_ in last])
    found = lateness.latest(course, effort)
    paths = path_count.longer(course, found.most)
    units = technology.units
    return TrueDelay(
        technology,
        bool(netlist.flip_flops),
        units(max((when for when, *_ in last), default=0)),
        units(found.at),
        units(found.most),
        paths,
        tuple((name, units(when)) for name, when in _late(last, found.most)),
        _shown(design, technology, course, found.at, effort) if show else None,
    )


def course_of(design: Design, timing: Timing, last: Sequence[tuple[int, int]]) -> Course:
    """What a solver is asked about a design: its inputs change once, some nets are waited for."""
    netlist = design.netlist
    if netlist.flip_flops:
        inputs: dict[int, Variable | int] = {
            net: Variable("", net) for net in begins(netlist, timing)
        }
    else:
        inputs = {
            net: what.bit if isinstance(what, Tie) else Variable(what.operand, what.index)
            for name, fed in design.schedule[0].items()
            for net, what in zip(netlist.inputs[name], fed, strict=True)
        }
    return Course(netlist, timing.gates, begins(netlist, timing), inputs, tuple(last))


def _late(last: Sequence[End], most: int) -> list[tuple[str, int]]:
    """Where paths end that are longer, and how long they are."""
    late: dict[str, int] = {}
    for when, _, _, part, port in last:
        name = f"{part}.{port}" if part else port
        if when > most:
            late[name] = max(late.get(name, 0), when)
    return sorted(late.items(), key=lambda one: -one[1])


def _shown(
    design: Design, technology: Technology, course: Course, at: int, effort: Effort
) -> Shown | None:
    """Two sets of operands, looked for by terms, and played in time."""
    if design.netlist.flip_flops or not at:
        return None
    if not all(operand.code.total for operand in design.operands):
        return None  # what takes the longest may be words of no numbers
    pair = last_change.changed(course, at, effort)
    if pair is None:
        return None
    before, after = (operands_of(values, design.operands) for values in (pair.before, pair.after))
    for pulses in ("inertial", "transport"):
        if _played(design, course, before, after, pulses) == pair.at:
            return Shown(before, after, technology.units(pair.at), pulses)
    raise AssertionError("the engine in time does not confirm the solver's operands")


def _played(
    design: Design,
    course: Course,
    before: Mapping[str, int],
    after: Mapping[str, int],
    pulses: Pulses,
) -> int:
    """When the last output changes, as the engine in time has it."""
    netlist = _bare(design.netlist)
    start, end = (reference.run(design, design.values(one)).rows[0] for one in (before, after))
    stimuli = [Stimulus(when, net, end[net]) for net, when in course.begins.items()]
    delays = Delays(tuple((one, one) for one in course.delays), (), pulses == "transport")
    run = simulate(netlist, delays, start, stimuli, until=1 << 60)
    watched = {net for net, _ in course.ends}
    return max((change.time for change in run.changes if change.net in watched), default=0)


def _bare(netlist: Netlist) -> Netlist:
    """Gates alone: what the part around them decides takes no time of its own."""
    return replace(netlist, gates=tuple(replace(gate, cover=None) for gate in netlist.gates))
