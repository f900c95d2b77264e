"""Settling a truth about a run for all operands, by the cheapest way that is sound.

Going through all operand sets with the compiled engine where that takes about two seconds,
a SAT proof otherwise; where the solver does not soon find one, and going through all sets
takes less than the limit, that. Whatever is found false is run on the reference engine
before anyone hears of it. Few combinations are better run on the reference engine at once; that is
`edgewise.study.claims.verdict`, where claims come in.
"""

from __future__ import annotations

import math
import time
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import Final

from edgewise.arithmetic import evaluate
from edgewise.codes import UNSIGNED
from edgewise.design import Design, Operand
from edgewise.engines.exhaustive import compiler
from edgewise.engines.exhaustive.lanes import plan_freely
from edgewise.engines.exhaustive.operand_space import LARGEST, Space
from edgewise.engines.exhaustive.parallel import Progress
from edgewise.engines.replay import bits_of
from edgewise.engines.sat import bounded
from edgewise.engines.sat.outcome import Outcome, Proof
from edgewise.engines.symbolic.arithmetic import Truth, Whole, Words
from edgewise.engines.symbolic.cardinality import at_least
from edgewise.engines.symbolic.readings import number_of
from edgewise.engines.symbolic.specification import Lowered, Named, Unsupported, given, lower
from edgewise.engines.symbolic.terms import FALSE, TRUE, Exhausted, Term, Terms, TimeUp
from edgewise.engines.symbolic.unrolling import Rail, Row, unroll
from edgewise.engines.symbolic.variables import Variable
from edgewise.errors import Message, UnknownBit
from edgewise.formula import Name, Node, Number, Select, Slice, Timed, show
from edgewise.study.claims.evidence import Evidence
from edgewise.study.claims.run import READ, WORD_FUNCTIONS, Run
from edgewise.study.claims.scope import Scope, times

PATIENCE: Final = 2.0
"""Seconds that going through all sets may take, by estimate."""
LIMIT: Final = 20.0
"""Seconds for a proof before it is left undecided."""
_LANES: Final = 256
"""Sets at once on the machine of the estimate: the same everywhere, so that a page says the
same wherever it is built."""
_RATE: Final = 2e9
"""Vector operations a second there, on all cores: an estimate that only chooses the way."""
_FEW: Final = 16
"""Operand bits up to which the order of the loops does not matter."""
_COMPILING: Final = 3e-4
"""Seconds to compile an operation, about."""
_FIRST: Final = 2000
"""How often the solver may turn back before all sets are gone through, where that would not
take longer than the limit: a count, not a time, so that a page says the same anywhere."""
_LARGEST: Final = compiler.LARGEST // 4
"""Terms for the compiled engine, at most; a plan of its kernel can take more operations."""
_SMALLEST_IN: Final = 3.0
"""Seconds to look for the smallest counterexample by SAT when all sets can be gone through."""


@dataclass(frozen=True, slots=True)
class Settled:
    """How a truth came out.

    Parameters
    ----------
    outcome : Outcome
        ``proved``: true for all operands; ``refuted``; ``undecided``: time was up.
    evidence : Evidence
        How that was found; the same on any machine.
    engine : str
        ``native``; ``proof``; ``structure`` where both sides fold to the same terms, so that
        nothing was left to run.
    seconds : float
    counterexample : mapping of str to int, optional
        All operands of a run in which it is false.
    smallest : bool
        Whether no run with fewer ones in its operands, and with as many ones none with smaller
        operands (the first counting most), is false too. False only if time was up before
        that was known.
    detail : str
        What ran, for those who ask: vectors, clauses.
    large : bool
        Of an undecided one: whether it was too large to be written down; more time won't help.
    """

    outcome: Outcome
    evidence: Evidence
    engine: str
    seconds: float = field(compare=False)
    counterexample: Mapping[str, int] | None = None
    smallest: bool = True
    detail: str = field(default="", compare=False)
    large: bool = False

    @property
    def how(self) -> str:
        """``checked on all 16,777,216 operand pairs``, ``proved by SAT``."""
        return str(self.evidence)


@dataclass(frozen=True, slots=True)
class Grounded:
    """The scope of a grounded formula: operands, their bits, and nets in rows."""

    design: Design
    words: Words
    rows: Sequence[Row]
    operands: Named

    def look_up(self, name: Name, row: int | None) -> Lowered:
        """What a name stands for; a net is read in `row`."""
        match name.steps:
            case (Select(items=(of,)),) if name.base in WORD_FUNCTIONS:
                return self._of_word(name.base, of)
            case (Select(),) if name.base == "total":
                return self.operands.look_up(name, row)
        if row is not None:
            code = self.design.coded.get(self._nets(name), UNSIGNED)
            return number_of(self.words, code, self._rails(name, row))
        bits = self._operand_bits(name)
        return self.operands.look_up(name, row) if bits is None else self.words.unsigned(bits)

    def _of_word(self, function: str, of: Node) -> Lowered:
        rails = self._word(function, of)
        if function == "known":
            return Truth(self.words.terms.any_of(rail.unknown for rail in rails) ^ 1)
        READ[function].numbers(len(rails))  # refuses widths that it has no words of
        return number_of(self.words, READ[function], rails)

    def _word(self, function: str, of: Node) -> list[Rail]:
        """The bits of what a function reads."""
        match of:
            case Timed(what=Name() as name, when=Number(value=row)):
                return self._rails(name, row)
            case Name() as name if (bits := self._operand_bits(name)) is not None:
                return [Rail(bit, FALSE) for bit in bits]
        raise Unsupported(Message("word-unknown-here", function=function, of=show(of)))

    def _rails(self, name: Name, row: int) -> list[Rail]:
        return [self.rows[row][net] for net in self._nets(name)]

    def _nets(self, name: Name) -> tuple[int, ...]:
        return self.design.netlist.find(show(name))

    def _operand_bits(self, name: Name) -> list[Term] | None:
        """Bits of an operand of which an index or a slice is taken; None for anything else."""
        whole = show(Name(name.base, name.steps[:-1]))
        if whole not in {operand.name for operand in self.design.operands}:
            return None
        match name.steps:
            case (*_, Select(items=(Number(value=low),))):
                high = low
            case (*_, Slice(high=Number(value=high), low=Number(value=low))):
                pass
            case _:
                return None
        terms = self.words.terms
        return [terms.variable(Variable(whole, i)) for i in range(low, high + 1)]


def settle(
    design: Design,
    truth: Node,
    fixed: Mapping[str, int] | None = None,
    *,
    limit: float = LIMIT,
    progress: Progress | None = None,
) -> Settled:
    """Find out whether a truth about a run holds for all operands.

    Parameters
    ----------
    design : Design
    truth : Node
        Grounded; see `edgewise.study.claims.partial_evaluation`.
    fixed : mapping of str to int, optional
        Operands that keep one value.
    limit : float
        Seconds for a proof.
    progress : function, optional
        Told (sets done, sets in all) while all sets are gone through.

    Raises
    ------
    Unsupported
        A formula that has no form as terms; the caller goes through the sets one by one.

    Examples
    --------
    >>> from edgewise import catalogue, formula
    >>> design = catalogue.design("serial-adder", n=12)
    >>> settled = settle(design, formula.parse("S after 24 == (a + b) mod 4096"))
    >>> settled.outcome, settled.how
    ('proved', 'checked on all 16,777,216 operand pairs')
    """
    began = time.perf_counter()
    try:
        return _settled(_Question(design, truth, dict(fixed or {})), limit, began, progress)
    except Exhausted as why:
        up = isinstance(why, TimeUp)
        left = Evidence("undecided", seconds=limit, excess="" if up else why.message)
        return Settled("undecided", left, "proof", time.perf_counter() - began, large=not up)


def _settled(question: _Question, limit: float, began: float, progress: Progress | None) -> Settled:
    design, terms = question.design, Terms(time.monotonic() + limit)
    of = [o for o in design.operands if o.name in question.fixed]
    for variable, bit in bits_of(question.fixed, of).items():
        terms.fix(variable, bit)
    wrong = question.wrong(terms)
    space = Space.of(design, question.fixed)
    if wrong in (FALSE, TRUE):
        zeros = dict.fromkeys((name for name, _ in space.widths), 0)
        found = None if wrong == FALSE else zeros
        return question.told(found, Evidence("structure"), "structure", began, detail="structure")
    seconds = _seconds_for(terms, wrong, space)
    until = min(terms.deadline, time.monotonic() + limit)
    if seconds > PATIENCE:
        possible = seconds <= until - time.monotonic()
        proved = question.proved(limit, began, _FIRST if possible else None)
        if proved.outcome != "undecided" or not possible:
            return proved
    return question.gone_through(terms, wrong, space, began, _Timed(until, progress))


@dataclass(frozen=True, slots=True)
class _Question:
    """What is to be settled, and the ways to settle it."""

    design: Design
    truth: Node
    fixed: Mapping[str, int]

    @property
    def widths(self) -> Mapping[str, int]:
        return {operand.name: operand.width for operand in self.design.operands}

    @property
    def free(self) -> list[Operand]:
        return [o for o in self.design.operands if o.name not in self.fixed]

    @property
    def last(self) -> int:
        """The last row that the truth speaks of."""
        whens = [timed.when for timed in times(self.truth)]
        return max((when.value for when in whens if isinstance(when, Number)), default=0)

    def right(self, terms: Terms, rows: Sequence[Row]) -> Term:
        """Where the truth has a value and is true."""
        scope = Grounded(self.design, Words(terms), rows, given(self.design, terms))
        value = lower(self.truth, terms, scope)
        if isinstance(value, Whole):
            raise Unsupported(Message("number-not-truth", found=show(self.truth)))
        return terms.both(value.one, value.unknown ^ 1)

    def wrong(self, terms: Terms) -> Term:
        return self.right(terms, unroll(self.design, terms, self.last)) ^ 1

    def gone_through(
        self, terms: Terms, wrong: Term, space: Space, began: float, progress: Progress | None
    ) -> Settled:
        """Every set, one after the other."""
        maker = compiler.best()
        how = Evidence("sets", space.sets, tuple(operand.name for operand in self.free))
        if not compiler.some(terms, wrong, space, maker=maker, progress=progress):
            return self.told(None, how, "native", began, detail=maker.name)
        asked = self.asked(_SMALLEST_IN)
        found = asked.counterexample
        if found and found.smallest:
            smallest: Mapping[str, int] = {n: found.operands[n] for n, _ in space.widths}
        else:
            smallest = _smallest(terms, wrong, space)
        return self.told(smallest, how, "native", began, detail=maker.name)

    def proved(self, limit: float, began: float, conflicts: int | None = None) -> Settled:
        """By SAT; `conflicts` as in `edgewise.engines.sat.bounded.prove`."""
        asked = self.asked(max(limit - (time.perf_counter() - began), 0.0), conflicts)
        if asked.outcome == "undecided":
            left = Evidence("undecided", seconds=limit)
            spent = time.perf_counter() - began
            return Settled("undecided", left, "proof", spent, detail=_size(asked))
        found = asked.counterexample
        return self.told(
            found.operands if found else None,
            Evidence("sat" if found is None else "refuted"),
            "proof",
            began,
            detail=_size(asked),
            smallest=found is None or found.smallest,
        )

    def asked(self, limit: float, conflicts: int | None = None) -> Proof:
        return bounded.prove(
            self.design,
            self.right,
            last=self.last,
            given=self.fixed,
            seconds=limit,
            conflicts=conflicts,
        )

    def told(  # the parts of what is told
        self,
        found: Mapping[str, int] | None,
        how: Evidence,
        engine: str,
        began: float,
        *,
        detail: str,
        smallest: bool = True,
    ) -> Settled:
        """What came out; a counterexample only after the reference engine has confirmed it."""
        operands = None
        if found is not None:
            operands = {name: {**self.fixed, **found}[name] for name in self.widths}
            self.replay(operands)
        outcome: Outcome = "proved" if found is None else "refuted"
        spent = time.perf_counter() - began
        return Settled(outcome, how, engine, spent, operands, smallest, detail)

    def replay(self, operands: Mapping[str, int]) -> None:
        """Run a counterexample on the reference engine, which must find it false too."""
        try:
            confirmed = evaluate(self.truth, Scope(Run(self.design, operands))) is False
        except UnknownBit:
            confirmed = True
        assert confirmed, f"{self.design.name}, {operands}: the reference engine finds it true"


def _size(asked: Proof) -> str:
    return f"{asked.clauses:,} clauses over {asked.variables:,} variables"


def _smallest(terms: Terms, wrong: Term, space: Space) -> Mapping[str, int]:
    """The failing set with the fewest ones, then the smallest, by going through all of them."""
    bits = [terms.variable(variable) for variable in space.variables]
    low, high = 0, len(bits)  # fails for some set with at most `high` ones
    while low < high:
        middle = (low + high) // 2
        fewer = at_least(terms, bits, middle + 1)[middle] ^ 1
        if compiler.some(terms, terms.both(wrong, fewer), space):
            high = middle
        else:
            low = middle + 1
    fewest = at_least(terms, bits, low + 1)[low] ^ 1 if low < len(bits) else TRUE
    (number,) = compiler.first(terms, terms.both(wrong, fewest), space)
    return space.decode(number)


def _seconds_for(terms: Terms, wrong: Term, space: Space) -> float:
    """Seconds to go through all sets, about."""
    bits, nodes = sum(width for _, width in space.widths), len(terms.reached([wrong]))
    if bits > LARGEST or nodes > _LARGEST:
        return math.inf
    if not isinstance(compiler.best(), compiler.Vectors):
        return (1 << bits) * nodes / 5e6 if nodes < 5e3 else math.inf
    if bits <= _FEW:
        return (1 << bits) // _LANES * nodes / _RATE + nodes * _COMPILING
    plan = plan_freely(terms, [wrong], space, _LANES.bit_length() - 1)
    return plan.work / _RATE + len(plan.terms.nodes) * _COMPILING


@dataclass(frozen=True, slots=True)
class _Timed:
    """Progress that is passed on, until the time is up."""

    until: float
    progress: Progress | None

    def __call__(self, done: int, total: int) -> None:
        if self.progress is not None:
            self.progress(done, total)
        if done < total and time.monotonic() >= self.until:
            raise TimeUp(Message("time-up"))
