"""The proof engine: claims about all operands, settled by a SAT solver.

The procedure is unrolled to terms, the terms become clauses, and the solver looks for
operands that break the claim. There are none: proved. There are some: the fewest ones, then
the smallest value, are sought, and run on the reference engine. Time is up: undecided.
Two designs are compared in `edgewise.engines.sat.equivalence`; claims about every edge for ever
are in `edgewise.engines.sat.k_induction`.
"""

from __future__ import annotations

import time
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any, Final, Self, TypeAlias, TypeVar

from edgewise.design import Design, Operand
from edgewise.engines import reference
from edgewise.engines.replay import bits_of, rows_of, truths, variant
from edgewise.engines.sat.aside import Aside
from edgewise.engines.sat.cnf import Clauses
from edgewise.engines.sat.outcome import Counterexample, Proof
from edgewise.engines.symbolic import specification
from edgewise.engines.symbolic.cardinality import at_least
from edgewise.engines.symbolic.terms import FALSE, TRUE, Exhausted, Term, Terms, TimeUp
from edgewise.engines.symbolic.unrolling import Logic, Row, unroll
from edgewise.engines.symbolic.variables import Variable
from edgewise.errors import DesignError, Message, nearest, raise_all

Key = TypeVar("Key")
Claim: TypeAlias = Callable[[Terms, Sequence[Row]], Term]
"""What is claimed of a run: a term over the nets of its rows and the operand bits."""
RowClaim: TypeAlias = Callable[[Logic, Row], Term]
"""What is claimed of one row, the same for each."""

SECONDS: Final = 20.0
"""How long a question may take unless the caller says otherwise."""
_SLICE: Final = 500
"""Conflicts between two looks at the clock."""
_GRACE: Final = 0.5
"""Seconds that the end of a question waits for a solver still at work."""


class Session:
    """One solver over one set of terms; what it has learned stays between questions.

    Parameters
    ----------
    terms : Terms
        May grow between questions.
    deadline : float
        On the clock of `time.monotonic`.
    """

    def __init__(self, terms: Terms, deadline: float) -> None:
        from pysat.solvers import Cadical195

        self.terms, self.deadline = terms, deadline
        self.clauses = Clauses(terms)
        # In the main thread the solver would catch Ctrl-C by a long jump out of its own code.
        self._solver: Any = Cadical195()
        self._slice: Aside[bool | None] | None = None
        self._conflicts = 0
        self._model: frozenset[int] = frozenset()

    def __enter__(self) -> Self:
        return self

    def __exit__(self, *_: object) -> None:
        # A solver still at work can't be taken away; it ends with its slice, or the process.
        if self._slice is None or self._slice.finished(_GRACE):
            self._solver.delete()

    @property
    def size(self) -> tuple[int, int, int]:
        """Clauses, variables, and how often the solver had to turn back, so far."""
        return self.clauses.written, self.clauses.variables, self._conflicts

    def require(self, term: Term) -> None:
        """From now on `term` holds."""
        self.clauses.add((self.clauses.literal(term),))

    def ask(self, *wanted: Term, conflicts: int | None = None) -> bool | None:
        """Whether all of `wanted` can hold at once; None if that was not known in time.

        `conflicts`: how often the solver may turn back for it, about; any number unless given.
        """
        if FALSE in wanted:
            return False
        literals = [self.clauses.literal(term) for term in wanted if term != TRUE]
        if self._slice is not None and not self._slice.finished(0):
            return None  # time was up in the midst of the question before
        for number, clause in enumerate(self.clauses.take()):
            if not number & _SLICE:
                self.terms.watch()
            self._solver.add_clause(clause)
        answer: bool | None = None
        begun = self._conflicts
        while answer is None:
            left = self.deadline - time.monotonic()
            if left <= 0 or (conflicts is not None and self._conflicts - begun >= conflicts):
                return None
            self._solver.conf_budget(_SLICE)
            self._slice = Aside(lambda: self._solver.solve_limited(assumptions=literals))
            if not self._slice.finished(left):
                return None
            answer = self._slice.result()
            self._conflicts = int(self._solver.accum_stats()["conflicts"])
        if answer:
            self._model = frozenset(self._solver.get_model())
        return answer

    def bits(self, terms: Mapping[Key, Term]) -> dict[Key, int]:
        """What terms were when a question was last answered by yes; they had literals then."""
        return {key: int(self.clauses.literal(t) in self._model) for key, t in terms.items()}


def smallest(
    session: Session, wrong: Term, order: Sequence[Variable]
) -> tuple[dict[Variable, int], bool]:
    """The smallest values of variables for which `wrong` holds, just after it was found to.

    Parameters
    ----------
    session : Session
        Its last question found `wrong` to be possible.
    wrong : Term
    order : sequence of Variable
        The most significant first.

    Returns
    -------
    tuple
        Bits with the fewest ones and then the smallest value, of those variables on which
        it can depend; and whether time sufficed to know that they are.
    """
    terms = session.terms
    held = {v: t for v in order if session.clauses.known(t := terms.variable(v))}
    session.require(wrong)
    values = _fewest(session, held)
    if values is None:
        return session.bits(held), False
    ones = sum(values.values())
    session.require(terms.any_of(at_least(terms, tuple(held.values()), ones + 1)[ones:]) ^ 1)
    for variable, term in held.items():
        if not ones:
            break  # all ones are placed
        if values[variable]:
            without = session.ask(term ^ 1)
            if without is None:
                return values, False
            if without:
                values = session.bits(held)
        session.require(term if values[variable] else term ^ 1)
        ones -= values[variable]
    return values, True


def _fewest(session: Session, held: Mapping[Variable, Term]) -> dict[Variable, int] | None:
    """A model with the fewest ones; None if time was up.

    The bound is doubled until it can be met, because a claim is mostly broken by few ones and
    small bounds are cheap; then it is lowered.
    """
    bound, possible = 0, False
    impossible = -1
    while bound < len(held) and not possible:
        counts = at_least(session.terms, tuple(held.values()), bound + 1)
        answer = session.ask(counts[bound] ^ 1)
        if answer is None:
            return None
        possible = answer
        if not possible:
            impossible, bound = bound, max(1, 2 * bound)
    values = session.bits(held)
    while (ones := sum(values.values())) - 1 > impossible:
        counts = at_least(session.terms, tuple(held.values()), ones)
        answer = session.ask(counts[ones - 1] ^ 1)
        if answer is None:
            return None
        if not answer:
            break
        values = session.bits(held)
    return values


@dataclass(frozen=True, slots=True)
class Item:
    """One thing that is claimed, and where it is seen."""

    term: Term
    row: int
    what: str = ""


Items: TypeAlias = Callable[[Terms, Sequence[Sequence[Row]]], list[Item]]
"""What is claimed of the rows of one or two designs."""


def prove(
    design: Design,
    claim: Claim,
    *,
    last: int | None = None,
    given: Mapping[str, int] | None = None,
    seconds: float = SECONDS,
    conflicts: int | None = None,
) -> Proof:
    """Settle a claim about a run for all operands.

    Parameters
    ----------
    design : Design
    claim : function
        Of the terms and the rows; the term must hold. Bits of an operand are
        ``terms.variable(Variable(operand, index))``.
    last : int, optional
        The last row that the claim speaks of; the last of the run unless given.
    given : mapping of str to int, optional
        Operands that have one value only.
    seconds : float
        Time limit; when it is up, the outcome is ``undecided``.
    conflicts : int, optional
        How often the solver may turn back, about, before it is ``undecided``.

    Raises
    ------
    DesignError
        A given operand that does not exist or does not fit.

    Examples
    --------
    >>> from edgewise import catalogue
    >>> design = catalogue.design("serial-adder", n=4)
    >>> (start,) = design.netlist.find("C")
    >>> proof = prove(design, lambda terms, rows: rows[5][start].one ^ 1)
    >>> proof.outcome, dict(proof.counterexample.operands)
    ('refuted', {'a': 1, 'b': 1})
    """
    end = design.edges if last is None else last

    def items(terms: Terms, runs: Sequence[Sequence[Row]]) -> list[Item]:
        return [Item(claim(terms, runs[0]), end)]

    return settled((design,), items, end, given, seconds, conflicts)


def throughout(
    design: Design,
    claim: RowClaim,
    rows: Iterable[int] | None = None,
    *,
    given: Mapping[str, int] | None = None,
    seconds: float = SECONDS,
) -> Proof:
    """Settle a claim about each of some rows (all unless given) for all operands.

    Parameters
    ----------
    design : Design
    claim : function
        Of the logic and one row.
    rows, given, seconds
        As in `prove`.

    Examples
    --------
    >>> from edgewise import catalogue
    >>> design = catalogue.design("serial-adder", n=4)
    >>> (carry,) = design.netlist.find("C")
    >>> throughout(design, lambda logic, row: row[carry].one ^ 1, range(5)).outcome
    'proved'
    """
    chosen = sorted(range(design.edges + 1) if rows is None else rows)

    def items(terms: Terms, runs: Sequence[Sequence[Row]]) -> list[Item]:
        return [Item(claim(Logic(terms), runs[0][row]), row) for row in chosen]

    return settled((design,), items, chosen[-1] if chosen else 0, given, seconds)


def computes(
    design: Design, *, given: Mapping[str, int] | None = None, seconds: float = SECONDS
) -> Proof:
    """Settle whether a design computes what it says, for all operands.

    An answer with an X in it is wrong.

    Raises
    ------
    DesignError
        If it does not say what it computes, or as in `prove`.
    Unsupported
        If a purpose has no form as terms.

    Examples
    --------
    >>> from edgewise import catalogue
    >>> computes(catalogue.design("serial-adder", n=8)).outcome
    'proved'
    """
    if not design.computes:
        raise DesignError(Message("computes-missing", design=design.name), design.place)

    def items(terms: Terms, runs: Sequence[Sequence[Row]]) -> list[Item]:
        found = []
        for one in design.computes:
            truth = specification.agreement(variant(design, computes=(one,)), terms, runs[0])
            right = terms.both(truth.one, truth.unknown ^ 1)
            found.append(Item(right, design.edges if one.after is None else one.after, one.output))
        return found

    proof = settled((design,), items, design.edges, given, seconds)
    if proof.counterexample:
        shown = proof.counterexample
        word = shown.trace.bits(design.netlist.outputs[shown.what], shown.row)
        assert not word.known or word.value != design.expected(shown.operands)[shown.what]
    return proof


def settled(
    designs: Sequence[Design],
    items: Items,
    last: int | None,
    given: Mapping[str, int] | None,
    seconds: float,
    conflicts: int | None = None,
) -> Proof:
    """Settle whether all items hold for all operands; what every question comes down to.

    Parameters
    ----------
    designs : sequence of Design
        One or two; operands of the same name are the same.
    items : function
        Of the terms and the rows of each design.
    last : int, optional
        The last row to unroll; None: the last of each design.
    given, seconds, conflicts
        As in `prove`.
    """
    begun = time.monotonic()
    try:
        return _settled(designs, items, last, given, begun + seconds, conflicts)
    except Exhausted as why:
        up = isinstance(why, TimeUp)
        reason = Message("time-limit", seconds=f"{seconds:g}") if up else why.told
        return Proof("undecided", "SAT", time.monotonic() - begun, *why.size, reason=reason)


def _settled(  # as `settled`
    designs: Sequence[Design],
    items: Items,
    last: int | None,
    given: Mapping[str, int] | None,
    deadline: float,
    conflicts: int | None,
) -> Proof:
    begun = time.monotonic()
    operands = tuple({operand.name: operand for d in designs for operand in d.operands}.values())
    fixed = _fixed(operands, given or {})
    terms = Terms(deadline)
    claimed = items(terms, [unroll(design, terms, last) for design in designs])
    premise = terms.all_of(terms.variable(v) ^ 1 ^ bit for v, bit in fixed.items())
    wrong = terms.both(premise, terms.all_of(item.term for item in claimed) ^ 1)
    if wrong == FALSE:
        return Proof("proved", "structure", time.monotonic() - begun)
    with Session(terms, deadline) as session:
        answer = session.ask(wrong, conflicts=conflicts)
        size = session.size
        shown = None
        if answer:
            values, least = smallest(
                session, wrong, [v for v in value_order(operands) if v not in fixed]
            )
            values.update(fixed)
            shown = replayed(designs, items, values, least=least)
    spent = time.monotonic() - begun
    if answer is None:
        if time.monotonic() >= deadline:
            raise TimeUp(Message("time-up"), size=size)
        reason = Message("solver-turned-back", count=size[2])
        return Proof("undecided", "SAT", spent, *size, reason=reason)
    return Proof("refuted" if answer else "proved", "SAT", spent, *size, counterexample=shown)


def replayed(
    designs: Sequence[Design], items: Items, values: Mapping[Variable, int], *, least: bool
) -> Counterexample:
    """Run what the solver found on the reference engine, which must find it false too."""
    traces = [
        reference.run(design, {o.name: _number(o, values) for o in design.operands})
        for design in designs
    ]
    terms = Terms()
    claimed = items(terms, [rows_of(trace) for trace in traces])
    holds = truths(terms, [item.term for item in claimed], values)
    assert not all(holds), "the reference engine does not confirm the solver's counterexample"
    failing = claimed[holds.index(False)]
    operands = {name: value for trace in traces for name, value in trace.operands.items()}
    other = traces[1] if len(traces) > 1 else None
    return Counterexample(operands, traces[0], failing.row, failing.what, other, least)


def value_order(operands: Sequence[Operand]) -> list[Variable]:
    """The bits of operands as they count in "smaller": the first operand most, MSB first."""
    return [Variable(o.name, i) for o in operands for i in reversed(range(o.width))]


def _number(operand: Operand, values: Mapping[Variable, int]) -> int:
    return sum(values.get(Variable(operand.name, i), 0) << i for i in range(operand.width))


def _fixed(operands: Sequence[Operand], given: Mapping[str, int]) -> dict[Variable, int]:
    """The bits of operands with one value; refuses those that don't exist or don't fit."""
    known = {operand.name: operand for operand in operands}
    errors = []
    for name, value in given.items():
        if name not in known:
            errors.append(
                DesignError(Message("operand-unknown", name=name, suggestion=nearest(name, known)))
            )
        elif value < 0 or value >> known[name].width:
            width = known[name].width
            errors.append(
                DesignError(
                    Message(
                        "operand-range", name=name, value=value, most=(1 << width) - 1, width=width
                    )
                )
            )
    raise_all(errors)
    return bits_of(given, [known[name] for name in given])
