"""Verdicts on claims: whether they are true for every operand and parameter they speak of.

`settle` is the one door. Few combinations are run on the reference engine; for more,
`edgewise.study.claims.decision` goes through all of them or has it proved.
"""

from __future__ import annotations

import itertools
import math
import time
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Final

from edgewise.arithmetic import FUNCTIONS, Numbers, evaluate_at, number
from edgewise.blueprint import Blueprint
from edgewise.design import Design
from edgewise.engines.exhaustive.parallel import Progress
from edgewise.engines.symbolic.specification import Unsupported
from edgewise.errors import DesignError, EdgewiseError, Message, Place, TextError, nearest
from edgewise.formula import Claim, Select, names_in, show
from edgewise.study.claims import decision
from edgewise.study.claims.decision import LIMIT, Settled
from edgewise.study.claims.evidence import Evidence, Way
from edgewise.study.claims.explanation import Reason, reason
from edgewise.study.claims.holding_edges import FEW, Elsewhere, instead, true
from edgewise.study.claims.partial_evaluation import ground
from edgewise.study.claims.run import Run
from edgewise.study.claims.scope import Scope
from edgewise.study.claims.shared_runs import Steps, built, steps_of
from edgewise.words.lists import equations

MOST_BITS: Final = 16
"""Operand bits of which every combination is run where no faster engine can read the claim."""
MOST_RUNS: Final = 1 << 17
"""Runs on the reference engine for one claim, over all its parameters, at most."""
MOST_CASES: Final = 4096
"""Combinations of parameters in one claim, at most."""


@dataclass(frozen=True, slots=True)
class Verdict:
    """What became of a claim.

    Parameters
    ----------
    holds : bool
    evidence : Evidence
        How that was found; the same on any machine.
    parameters : mapping of str to int
        Of a false claim: those of its ranges in the case where it fails.
    counterexample : mapping of str to int
        Of a false claim: its ``for all`` operands where it fails: the fewest ones, and then
        the smallest, the first operand counting most.
    why : Reason
        Of a false claim: what is true instead.
    instead : Elsewhere
        Of a false claim: the rows at which it holds, if any.
    engine : str
        ``reference``, ``native``, ``proof`` or ``structure``.
    undecided : bool
        Whether time was up before it was known; then it does not hold, but need not be false.
    smallest : bool
        Whether the counterexample is known to be the smallest.
    run : Run, optional
        Of a false claim: the run in which it fails, on the reference engine.
    seconds : float
    detail : str
        What ran, for those who ask; differs from machine to machine, like `seconds`.
    """

    holds: bool
    evidence: Evidence
    parameters: Mapping[str, int] = field(default_factory=dict)
    counterexample: Mapping[str, int] = field(default_factory=dict)
    why: Reason = field(default_factory=Reason)
    instead: Elsewhere = field(default_factory=Elsewhere)
    engine: str = "reference"
    undecided: bool = False
    smallest: bool = True
    run: Run | None = field(default=None, compare=False, repr=False)
    seconds: float = field(default=0.0, compare=False)
    detail: str = field(default="", compare=False)

    @property
    def how(self) -> str:
        """How that was found, in English: ``checked on all 4,096 operand pairs``."""
        return str(self.evidence)


def settle(  # noqa: PLR0913  # the claim, and what it is settled in
    claim: Claim,
    blueprint: Blueprint,
    parameters: Mapping[str, int],
    operands: Mapping[str, int],
    place: Place | None = None,
    *,
    limit: float = LIMIT,
    progress: Progress | None = None,
) -> Verdict:
    """Find out whether a claim is true.

    Parameters
    ----------
    claim : Claim
    blueprint : Blueprint
        The design, which a claim over a range of parameters builds anew for each.
    parameters, operands : mapping of str to int
        Those it is claimed for; the claim's own take their place. Parameters that are not
        given follow their defaults, in each case anew.
    place : Place, optional
        Where the claim's text begins.
    limit : float
        Seconds for all proofs together; when they are up, the claim is undecided.
    progress : function, optional
        Told (operand sets done, operand sets in all) while all of a case are gone through.

    Raises
    ------
    EdgewiseError
        If the claim can't be settled: unknown names, or too many combinations.

    Examples
    --------
    >>> from edgewise import catalogue, formula
    >>> claim = formula.parse("S after 12 == (a + b) mod 64 for all a, b", "claim")
    >>> settle(claim, catalogue.find("serial-adder"), {"n": 6}, {}).how
    'checked on all 4,096 operand pairs'
    """
    asking = _Asking(claim, blueprint, operands, place, time.perf_counter(), limit, progress)
    for chosen in _cases(claim, blueprint, parameters, place):
        found = asking.case({**parameters, **chosen}, chosen)
        if found is not None:
            return found
    return asking.all_hold()


def _cases(
    claim: Claim, blueprint: Blueprint, parameters: Mapping[str, int], place: Place | None
) -> Iterator[dict[str, int]]:
    """Each combination of the claim's parameters."""
    known = [parameter.name for parameter in blueprint.parameters]
    spans: list[range] = []
    scope = Numbers(blueprint.numbers(parameters))
    for span in claim.ranges:
        if span.name not in known:
            raise TextError(
                Message(
                    "span-not-parameter",
                    name=span.name,
                    design=blueprint.name,
                    suggestion=nearest(span.name, known),
                ),
                place,
            )
        low, high = (number(evaluate_at(end, scope, place)) for end in (span.low, span.high))
        if low > high:
            raise TextError(Message("span-empty", name=span.name, low=low, high=high), place)
        spans.append(range(low, high + 1))
    size = math.prod(span_.stop - span_.start for span_ in spans)  # len() has an end
    if size > MOST_CASES:
        raise DesignError(Message("claim-designs-many", count=size, most=MOST_CASES), place)
    for values in itertools.product(*spans):
        yield {span.name: value for span, value in zip(claim.ranges, values, strict=True)}


_FALSE: Final = Settled("refuted", Evidence("falsified"), "reference", 0.0)
"""Of a run on the reference engine."""


@dataclass(slots=True)
class _Asking:
    """One claim being settled, case by case."""

    claim: Claim
    blueprint: Blueprint
    operands: Mapping[str, int]
    place: Place | None
    began: float
    limit: float
    progress: Progress | None
    runs: int = 0
    """Runs made on the reference engine."""
    checked: int = 0
    """Operand sets gone through, one by one or by the native engine."""
    ways: list[Settled] = field(default_factory=list)
    """How each case that was not run on the reference engine came out."""
    cases: int = 0
    names: tuple[str, ...] = ()

    def case(self, numbers: Mapping[str, int], chosen: Mapping[str, int]) -> Verdict | None:
        """Settle it for one combination of parameters; a verdict if it does not hold there."""
        key = tuple(numbers.items())
        design = self._design(key)
        self.names = _members(self.claim.for_all, design, self.place)
        self.cases += 1
        # A claim over many parameters must not push out what the next claim will need.
        steps = steps_of(self.blueprint, key) if self.names else Steps(design)
        try:
            settled = self._settled(design, steps)
        except EdgewiseError as wrong:
            raise _in_case(wrong, chosen, self.place) from None
        if isinstance(settled, Run):
            return self._false(settled, steps, chosen, _FALSE)
        if settled is None or settled.outcome == "proved":
            return None
        if settled.outcome == "undecided":
            spent = time.perf_counter() - self.began
            return Verdict(
                holds=False,
                evidence=settled.evidence
                if settled.large
                else Evidence("undecided", seconds=self.limit),
                parameters=chosen,
                engine=settled.engine,
                undecided=True,
                seconds=spent,
                detail=settled.detail,
            )
        assert settled.counterexample is not None
        return self._false(steps.of(settled.counterexample), steps, chosen, settled)

    def _design(self, key: tuple[tuple[str, int], ...]) -> Design:
        try:
            if self.claim.ranges and _of_edges_alone(self.claim, self.blueprint):
                return self.blueprint.timetable(dict(key))
            return built(self.blueprint, key)
        except EdgewiseError as wrong:
            raise wrong.placed(self.place) from None

    def _settled(self, design: Design, steps: Steps) -> Settled | Run | None:
        """A false run; or how it came out; nothing where every combination was run and holds."""
        widths = {operand.name: operand.width for operand in design.operands}
        bits = sum(widths[name] for name in self.names)
        others = _others(design, self.operands, self.names)
        if bits <= FEW and self.runs + (1 << bits) <= MOST_RUNS:
            return self._run_all(steps, others, bits)
        fixed = design.values({**others, **dict.fromkeys(self.names, 0)}, self.place)
        zeros = steps.of(fixed)
        true(self.claim.truth, Scope(zeros, place=self.place))  # tells what is wrong with it
        others = {name: value for name, value in fixed.items() if name not in self.names}
        left = self.limit - (time.perf_counter() - self.began)
        try:
            grounded = ground(self.claim.truth, Scope(zeros, place=self.place), self.names)
            settled = decision.settle(
                design, grounded, others, limit=max(left, 0.0), progress=self.progress
            )
        except Unsupported as why:
            self._require_few(design, bits, why)
            return self._run_all(steps, others, bits)
        self.ways.append(settled)
        if settled.engine == "native":
            self.checked += 1 << bits
        return settled

    def _run_all(self, steps: Steps, others: Mapping[str, int], bits: int) -> Run | None:
        """The first run in which it is false: of the smallest operands."""
        self.runs += 1 << bits
        self.checked += 1 << bits
        for run in steps.runs(self.names, others):
            if not true(self.claim.truth, Scope(run, place=self.place)):
                return run
        return None

    def _require_few(self, design: Design, bits: int, why: Unsupported) -> None:
        if bits > MOST_BITS:
            told = Message(
                "for-all-runs-many",
                names=", ".join(self.names),
                bits=bits,
                count=1 << bits if bits < 64 else 0,
                parameters=len(design.parameters),
                given=equations(design.parameters.items(), "="),
                why=why.told,
                most_bits=MOST_BITS,
                most=1 << MOST_BITS,
            )
            raise DesignError(told, self.place)
        if self.runs + (1 << bits) > MOST_RUNS:
            raise DesignError(Message("claim-runs-many", most=MOST_RUNS, why=why.told), self.place)

    def _false(
        self, run: Run, steps: Steps, chosen: Mapping[str, int], settled: Settled
    ) -> Verdict:
        truth = self.claim.truth
        why = reason(truth, Scope(run, place=self.place))
        assert not true(truth, Scope(run, place=self.place))
        elsewhere = instead(truth, run, steps, self.names, self.place)
        return Verdict(
            holds=False,
            evidence=Evidence("falsified"),
            parameters=chosen,
            counterexample={name: run.operands[name] for name in self.names},
            why=why,
            instead=elsewhere,
            engine=settled.engine,
            smallest=settled.smallest,
            run=run,
            seconds=time.perf_counter() - self.began,
            detail=settled.detail,
        )

    def all_hold(self) -> Verdict:
        """The verdict on a claim that holds in every case."""
        engines = [settled.engine for settled in self.ways]
        engine = "proof" if "proof" in engines else (*engines, "reference")[0]
        return Verdict(
            holds=True,
            evidence=self._evidence(),
            engine=engine,
            seconds=time.perf_counter() - self.began,
            detail="; ".join(dict.fromkeys(s.detail for s in self.ways)),
        )

    def _evidence(self) -> Evidence:
        over = tuple((span.name, show(span.low), show(span.high)) for span in self.claim.ranges)
        if not self.names:
            return Evidence("each" if over else "run", over=over)
        proofs = [settled.engine for settled in self.ways if settled.engine != "native"]
        way: Way = "sets"
        if proofs:
            way = "structure" if set(proofs) == {"structure"} else "sat"
        return Evidence(way, self.checked, self.names, over, len(proofs), self.cases)


def _others(design: Design, operands: Mapping[str, int], names: Sequence[str]) -> dict[str, int]:
    """The operands that keep the value they were given."""
    members = {m: family for family, all_ in design.families.items() for m in all_}
    return {
        name: value
        for name, value in operands.items()
        if name not in names and members.get(name) not in names
    }


def _in_case(wrong: EdgewiseError, chosen: Mapping[str, int], place: Place | None) -> EdgewiseError:
    """The error, with the parameters of the case in which it arose."""
    case = ": ".join(f"{name}={value}" for name, value in chosen.items())
    return (wrong.within(case) if case else wrong).placed(place)


def _members(names: Sequence[str], design: Design, place: Place | None) -> tuple[str, ...]:
    """The operands that ``for all`` names, those of a family one by one."""
    single = [operand.name for operand in design.operands]
    found: list[str] = []
    for name in names:
        if name in design.families:
            found += design.families[name]
        elif name in single:
            found.append(name)
        else:
            known = nearest(name, [*single, *design.families])
            raise TextError(Message("for-all-unknown", name=name, suggestion=known), place)
    return tuple(dict.fromkeys(found))


def _of_edges_alone(claim: Claim, blueprint: Blueprint) -> bool:
    """Whether a claim speaks of edge counts and parameters only, so that no circuit is needed."""
    names = list(names_in(claim.truth))
    phases = {
        id(inner)
        for name in names
        if name.base == "edges"
        for step in name.steps
        if isinstance(step, Select)
        for item in step.items
        for inner in names_in(item)
    }
    known = {"edges", "end", *FUNCTIONS, *(parameter.name for parameter in blueprint.parameters)}
    return not claim.for_all and all(name.base in known for name in names if id(name) not in phases)
