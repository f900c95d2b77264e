"""Claims about time: when words have settled, which nets have no glitch.

A claim about all operands is proved where the structure alone decides: no path is longer, a
flip-flop's output changes once an edge. Otherwise every set of operands is run in time.
"""

from __future__ import annotations

import time
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from fractions import Fraction
from typing import Final

from edgewise.bits import X
from edgewise.circuit.clocks import gating
from edgewise.circuit.netlist import Netlist
from edgewise.design import Design
from edgewise.errors import DesignError, Message, Place, TextError, nearest
from edgewise.formula import TimeClaim, Timed
from edgewise.inside import Inside
from edgewise.study.claims.run import Run
from edgewise.study.claims.scope import Scope
from edgewise.study.claims.shared_runs import Steps
from edgewise.study.cost.arrival import arrivals
from edgewise.study.cost.technology import Timing
from edgewise.study.inside.moment import Manner, inside
from edgewise.words.messages import ENGLISH, Fact, Words
from edgewise.words.units import unit

MOST_BITS: Final = 12
"""Operand bits of which every combination is run in time."""


@dataclass(frozen=True, slots=True)
class TimeEvidence:
    """How a claim about time came out.

    Parameters
    ----------
    way : str
        ``run``, ``sets``: in time, on the run or on all operand sets; ``paths``: no path is
        longer; ``sat``: those that are longer are false ones; ``stored``: flip-flops' outputs, and
        what follows one alone.
    model, unit : str
        Whose delays.
    latest : str
        When the last change came, or can come along the longest path, in units.
    sets : int
        Operand sets gone through.
    """

    way: str
    model: str
    unit: str
    latest: str = ""
    sets: int = 0

    def __str__(self) -> str:
        return self.told()

    def told(self, words: Words = ENGLISH) -> str:
        """How it came out, as a part of a sentence.

        Examples
        --------
        >>> print(TimeEvidence("paths", "74hc", "ns", "38"))
        proved for all operands: no path takes longer than 38 ns (delays of 74hc)
        """
        facts: dict[str, Fact] = {"model": self.model, "unit": unit(self.unit, words)}
        if self.sets:
            facts["sets"] = self.sets
        return words(f"time-claim-{self.way}", time=words.decimal(self.latest), **facts)


@dataclass(frozen=True, slots=True)
class Failure:
    """Where a claim about time fails.

    Parameters
    ----------
    kind : str
        ``late``: it changes later; ``moving``: changes are still to come when the period ends;
        ``glitch``; ``false-edge`` and ``cut-pulse`` of a gated clock.
    name : str
    edge : int
    time, unit : str
        Of one that is late.
    bits : str
        Of a glitch: what it holds, one after the other.
    """

    kind: str
    name: str
    edge: int
    time: str = ""
    unit: str = ""
    bits: str = ""

    def told(self, words: Words = ENGLISH) -> str:
        """What is true instead.

        Examples
        --------
        >>> Failure("late", "S", 8, "12.5", "ns").told()
        'after edge 8 S changes as late as 12.5 ns'
        """
        facts: dict[str, Fact] = {"edge": self.edge, "name": self.name, "bits": self.bits}
        facts |= {"time": words.decimal(self.time), "unit": unit(self.unit, words)}
        return words(f"time-claim-{self.kind}", **facts)


@dataclass(frozen=True, slots=True)
class TimeVerdict:
    """What became of a claim about time.

    Parameters
    ----------
    holds : bool
    evidence : TimeEvidence
    counterexample : mapping of str to int
        Of a false claim: its ``for all`` operands where it fails, those with the fewest ones.
    why : Failure, optional
        Of a false claim: what is true instead.
    moment : Inside, optional
        Of a false claim: the period in which it fails.
    names : tuple of str
        What it is about.
    undecided : bool
        Time was up before it was known.
    """

    holds: bool
    evidence: TimeEvidence
    counterexample: Mapping[str, int] = field(default_factory=dict)
    why: Failure | None = None
    moment: Inside | None = field(default=None, compare=False, repr=False)
    names: tuple[str, ...] = ()
    undecided: bool = False
    engine: str = "timed"

    @property
    def how(self) -> str:
        """How that was found, in English."""
        return str(self.evidence)


def settle(
    claim: TimeClaim,
    run: Run,
    manner: Manner,
    place: Place | None = None,
    *,
    limit: float = 60.0,
) -> TimeVerdict:
    """Find out whether a claim about time is true of a design.

    Parameters
    ----------
    claim : TimeClaim
    run : Run
        The lesson's; operands that the claim does not speak of keep their values.
    manner : Manner
        Whose delays.
    place : Place, optional
    limit : float
        Seconds after which it is undecided.

    Raises
    ------
    EdgewiseError
        Names, edges or units that there are not; more runs than are made.

    Examples
    --------
    >>> from edgewise import catalogue, formula
    >>> run = Run(catalogue.design("serial-adder", n=4), {"a": 11, "b": 6})
    >>> claim = formula.parse("settled(S) within 4 gate delays for all a, b", "time_claim")
    >>> settle(claim, run, Manner()).how
    'proved for all operands: no path takes longer than 4 gate delays (delays of unit-gate)'
    """
    return _Settling(claim, run, manner, place).settled(limit)


def settle_moment(
    claim: TimeClaim, moment: Inside, manner: Manner, place: Place | None = None
) -> TimeVerdict:
    """Find out whether a claim about time is true of some clock periods of one run.

    Raises
    ------
    EdgewiseError
        As of `settle`; an edge that is not looked behind, a claim about all operands.
    """
    if claim.for_all:
        raise TextError(Message("claim-time-one-run"), place)
    trace = moment.trace
    run = Run(trace.design, trace.operands, lambda *_: trace)
    settling = _Settling(claim, run, manner, place)
    edges = settling.edges or range(moment.first, moment.last + 1)
    outside = [edge for edge in edges if not moment.first <= edge <= moment.last]
    if outside:
        facts = {"edge": outside[0], "first": moment.first, "last": moment.last}
        raise TextError(Message("claim-time-outside", **facts), place)
    latest = 0
    for edge in edges:
        why, at = settling.fails(moment, edge)
        latest = max(latest, at)
        if why:
            return settling.false(why, moment)
    return settling.true("run", moment.figure(latest))


@dataclass
class _Settling:
    """A claim being settled."""

    claim: TimeClaim
    run: Run
    manner: Manner
    place: Place | None

    def __post_init__(self) -> None:
        scope = Scope(self.run, place=self.place)
        self.names = tuple(scope.net_name(name) for name in self.claim.names)
        netlist = self.netlist
        self.nets = {name: tuple(netlist.find(name)) for name in self.names}
        self.within = self._ticks() if self.claim.kind == "settled" else 0
        self.edges: tuple[int, ...] = ()
        if (when := self.claim.when) is not None:
            edge = scope.row_of(Timed("after", self.claim.names[0], when))
            if not edge:
                told = Message("edge-zero-none", last=self.design.edges)
                raise TextError(told, self.place)
            self.edges = (edge,)

    @property
    def design(self) -> Design:
        return self.run.design

    @property
    def netlist(self) -> Netlist:
        return self.design.netlist

    def _ticks(self) -> int:
        """The time that is claimed, its unit being the model's."""
        claim, model = self.claim, self.manner.model
        found = " ".join(claim.unit.split())
        facts = {"time": claim.time, "found": found, "model": model.name, "unit": model.time_unit}
        if not found:
            raise TextError(Message("claim-time-no-unit", **facts), self.place)
        if found not in (model.time_unit, model.time_unit.removesuffix("s")):
            raise TextError(Message("claim-time-unit", **facts), self.place)
        ticks = Fraction(claim.time) * self.manner.ticks
        if ticks.denominator != 1:
            raise TextError(Message("claim-time-fine", **facts), self.place)
        return ticks.numerator

    # ------------------------------------------------------------------ one period

    def fails(self, moment: Inside, edge: int) -> tuple[Failure | None, int]:
        """Why it is false of a period, and the last change there; nothing where it is true."""
        latest = 0
        for name, nets in self.nets.items():
            if self.claim.kind == "settled":
                at = moment.settled(edge, nets) or 0
                latest = max(latest, at)
                if not moment.rests(edge):
                    return Failure("moving", name, edge), at
                if at > self.within:
                    return Failure("late", name, edge, moment.figure(at), moment.unit), at
            elif why := _glitch(moment, edge, nets):
                return why, 0
        return None, latest

    # ------------------------------------------------------------------ all of them

    def settled(self, limit: float) -> TimeVerdict:
        if proved := self._by_structure():
            return proved
        began, latest, sets = time.monotonic(), 0, 0
        fraction = ""
        for run, before in self._cases():
            if time.monotonic() - began > limit:
                evidence = replace(self.true("sets").evidence, way="undecided")
                return TimeVerdict(holds=False, evidence=evidence, undecided=True)
            trace, stood = run.trace, None if before is None else before.trace
            sets += 1
            last = trace.edges
            first, last = (self.edges[0], self.edges[0]) if self.edges else (min(1, last), last)
            moment = inside(trace, first, last, self.manner, before=stood, place=self.place)
            for edge in range(first, last + 1):
                why, at = self.fails(moment, edge)
                latest = max(latest, at)
                if why:
                    own = inside(trace, edge, edge, self.manner, before=stood)
                    operands = None if before is None else before.operands
                    return self.false(why, own, run.operands, operands)
            fraction = moment.figure(latest)
        if self.claim.for_all:
            return self.true("sets", fraction, sets)
        return self.true("run", fraction)

    def _cases(self) -> Iterator[tuple[Run, Run | None]]:
        """The runs, and in a circuit without edges those that stood before."""
        names = self._members()
        widths = {one.name: one.width for one in self.design.operands}
        bits = sum(widths[name] for name in names)
        clocked = bool(self.design.edges)
        if not clocked and not names:
            raise DesignError(Message("claim-time-before"), self.place)
        many = bits if clocked else 2 * bits
        if many > MOST_BITS:
            told = Message(
                "claim-time-many",
                names=", ".join(names),
                bits=many,
                count=f"{1 << many:,}",
                clocked=int(clocked),
                limit=MOST_BITS,
                most=1 << MOST_BITS,
            )
            raise DesignError(told, self.place)
        runs = list(Steps(self.design).runs(names, self._others(names)))
        if clocked:
            yield from ((run, None) for run in runs)
        else:
            yield from ((run, stood) for stood in runs for run in runs)

    def _others(self, names: Sequence[str]) -> dict[str, int]:
        return {name: of for name, of in self.run.operands.items() if name not in names}

    def _members(self) -> tuple[str, ...]:
        families = self.design.families
        single = [operand.name for operand in self.design.operands]
        found: list[str] = []
        for name in self.claim.for_all:
            if name not in single and name not in families:
                known = nearest(name, [*single, *families])
                told = Message("for-all-unknown", name=name, suggestion=known)
                raise TextError(told, self.place)
            found += families.get(name, (name,))
        return tuple(dict.fromkeys(found))

    # ------------------------------------------------------------------ by structure

    def _by_structure(self) -> TimeVerdict | None:
        """Proved for all operands and all edges, where no run is needed for that."""
        if not self.claim.for_all or self._irregular():
            return None
        self._members()  # tells which are not there
        every = [net for nets in self.nets.values() for net in nets]
        if self.claim.kind == "glitchless":
            calm = _calm(self.netlist)
            return self.true("stored") if calm.issuperset(every) else None
        timing = self.manner.model.timing(self.netlist)
        at = arrivals(self.netlist, timing).at
        fine = self.manner.ticks // self.manner.model.ticks
        latest = max((fine * at[net] for net in every), default=0)
        if latest <= self.within:
            return self.true("paths", _figure(latest, self.manner.ticks))
        return self._by_true_delay(timing, every)

    def _by_true_delay(self, timing: Timing, nets: Sequence[int]) -> TimeVerdict | None:
        """Proved by SAT where the paths that are longer are false ones.

        Only of a circuit without storage: stored bits and inputs may be unknown otherwise.
        """
        if self.netlist.flip_flops:
            return None
        from edgewise.engines.sat import lateness
        from edgewise.study.cost import true_delay

        course = true_delay.course_of(self.design, timing, [(net, 0) for net in nets])
        if X in course.inputs.values():
            return None
        fine = self.manner.ticks // self.manner.model.ticks
        most = fine * lateness.latest(course).most
        return self.true("sat", _figure(most, self.manner.ticks)) if most <= self.within else None

    def _irregular(self) -> bool:
        """Whether something does not come with the clock and the model's delays."""
        manner = self.manner
        return bool(manner.when or manner.late or manner.spread or manner.period) or bool(
            gating(self.netlist)
        )

    # ------------------------------------------------------------------ verdicts

    def true(self, way: str, latest: str = "", sets: int = 0) -> TimeVerdict:
        kind = "settled" if self.claim.kind == "settled" or way in _PROOFS else "glitchless"
        name = way if way in _PROOFS else f"{way}-{kind}"
        model = self.manner.model
        evidence = TimeEvidence(name, model.name, model.time_unit, latest, sets)
        return TimeVerdict(holds=True, evidence=evidence, names=self.names)

    def false(
        self,
        why: Failure,
        moment: Inside,
        operands: Mapping[str, int] | None = None,
        before: Mapping[str, int] | None = None,
    ) -> TimeVerdict:
        model = self.manner.model
        names = self._members()
        shown = {name: (operands or {})[name] for name in names}
        shown |= {f"{name} before": (before or {})[name] for name in names if before}
        evidence = TimeEvidence("falsified", model.name, model.time_unit)
        return TimeVerdict(
            holds=False,
            evidence=evidence,
            counterexample=shown,
            why=why,
            moment=moment,
            names=self.names,
        )


_PROOFS: Final = ("paths", "sat", "stored")


def _glitch(moment: Inside, edge: int, nets: Sequence[int]) -> Failure | None:
    """The first glitch of these nets in a period."""
    labels = moment.trace.design.netlist.labels
    for one in moment.glitches:
        if one.net in nets and one.edge == edge:
            bits = " ".join("01X"[bit] for bit in one.bits)
            return Failure("glitch", labels[one.net], edge, bits=bits)
    for pulse in moment.pulses:
        if pulse.net in nets and pulse.edge == edge and (pulse.false or pulse.cut):
            kind = "false-edge" if pulse.false else "cut-pulse"
            return Failure(kind, labels[pulse.net], edge)
    return None


def _calm(netlist: Netlist) -> frozenset[int]:
    """Nets that change once in a period at most: what is stored or fed, and what follows one."""
    calm = {one.q for one in netlist.flip_flops}
    calm |= {net for nets in netlist.inputs.values() for net in nets}
    for gate in netlist.gates:
        if len(set(gate.inputs)) == 1 and calm.issuperset(gate.inputs):
            calm.add(gate.output)
    return frozenset(calm)


def _figure(ticks: int, of: int) -> str:
    return f"{ticks / of:g}"
