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
from typing import Final, TypeAlias

from edgewise.design import Design, Operand
from edgewise.engines import reference
from edgewise.engines.replay import bits_of, operands_of, rows_of, truths, variant
from edgewise.engines.sat.outcome import Counterexample, Proof
from edgewise.engines.sat.session import Session
from edgewise.engines.symbolic import specification
from edgewise.engines.symbolic.cardinality import at_least
from edgewise.engines.symbolic.readings import inside
from edgewise.engines.symbolic.terms import FALSE, Exhausted, Term, Terms, TimeUp
from edgewise.engines.symbolic.unrolling import Logic, Row, unroll
from edgewise.engines.symbolic.variables import Variable
from edgewise.errors import DesignError, Message, nearest, raise_all
from edgewise.operands import out_of_range

Claim: TypeAlias = Callable[[Terms, Sequence[Row]], Term]
"""What is claimed of a run: a term over the nets of its rows and the operand bits."""
RowClaim: TypeAlias = Callable[[Logic, Row], Term]
"""What is claimed of one row, the same for each."""

SECONDS: Final = 20.0
"""How long a question may take unless the caller says otherwise."""


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
        assert design.read(shown.what, word) != design.expected(shown.operands)[shown.what]
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
    premise = terms.both(
        terms.all_of(terms.variable(v) ^ 1 ^ bit for v, bit in fixed.items()),
        inside(terms, operands),
    )
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
    traces = [reference.run(design, operands_of(values, design.operands)) for design in designs]
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


def _fixed(operands: Sequence[Operand], given: Mapping[str, int]) -> dict[Variable, int]:
    """The bits of operands with one value; refuses those that don't exist or don't fit."""
    known = {operand.name: operand for operand in operands}
    errors = []
    for name, value in given.items():
        if name not in known:
            errors.append(
                DesignError(Message("operand-unknown", name=name, suggestion=nearest(name, known)))
            )
        elif value not in known[name].numbers:
            errors.append(DesignError(out_of_range(known[name], value)))
    raise_all(errors)
    return bits_of(given, [known[name] for name in given])
