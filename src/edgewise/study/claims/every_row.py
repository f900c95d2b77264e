"""Claims about every row: what holds however long a circuit is clocked.

A claim about one run ends with its procedure. "Never 0" and "exactly one 1" are meant for ever:
the last phase goes on without end, and the claim is settled by induction over rows
(`edgewise.engines.sat.k_induction`).
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import reduce

from edgewise.design import Design
from edgewise.engines.sat import k_induction
from edgewise.engines.sat.bounded import RowClaim
from edgewise.engines.sat.outcome import Counterexample, Proof
from edgewise.engines.symbolic.arithmetic import Truth, Words
from edgewise.engines.symbolic.specification import given as known
from edgewise.engines.symbolic.specification import lower
from edgewise.engines.symbolic.terms import Term
from edgewise.engines.symbolic.unrolling import Logic, Row
from edgewise.errors import Message, Place, TextError
from edgewise.formula import Binary, Name, Node, Number, parse, show
from edgewise.study.claims.decision import LIMIT, Grounded
from edgewise.study.claims.evidence import Evidence
from edgewise.study.claims.explanation import reason
from edgewise.study.claims.finding import (
    Failure,
    Finding,
    Question,
    around,
    called,
    columns,
    free,
    words_in,
)
from edgewise.study.claims.holding_edges import Elsewhere
from edgewise.study.claims.partial_evaluation import ground
from edgewise.study.claims.run import Run
from edgewise.study.claims.scope import Scope, times


def always(
    design: Design,
    claim: str,
    given: Mapping[str, int] | None = None,
    *,
    limit: float = LIMIT,
    place: Place | None = None,
) -> Finding:
    """Settle whether a claim holds in every row, from the start on and for ever.

    The procedure is run, and its last phase goes on without end: what it holds at an input stays
    there.

    Parameters
    ----------
    design : Design
    claim : str
        Of one row, so without ``after``: ``R != 0``. It is claimed for all operands.
    given : mapping of str to int, optional
        Operands that keep one value.
    limit : float
        Seconds; when they are up, the finding is ``undecided``.
    place : Place, optional
        Where the claim stands, for errors; "the claim" unless given.

    Raises
    ------
    EdgewiseError
        A claim that speaks of an edge, or does not fit the design.

    Examples
    --------
    >>> from edgewise import catalogue
    >>> always(catalogue.design("lfsr", n=4), "S != 0").how
    'proved for every row by induction, the last phase going on for ever'
    >>> found = always(catalogue.design("binary-counter", n=3, k=2), "CNT < 6")
    >>> found.outcome, found.row, found.why
    ('refuted', 6, ('CNT after 6 is 110 (6), expected less than 6.',))
    """
    place = place or Place("the claim", 1, 1)
    whole = parse(claim, "claim", place)
    if whole.ranges or whole.for_all:
        raise TextError(Message("every-row-of-many"), place)
    if any(times(whole.truth)):
        raise TextError(Message("every-row-timed", found=show(whole.truth)), place)
    asked = _Asked(design, whole.truth, given or {}, place)
    proof = k_induction.always(design, asked.in_row(), since=0, seconds=limit)
    return asked.finding(proof, limit)


@dataclass(frozen=True, slots=True)
class _Asked:
    design: Design
    truth: Node
    given: Mapping[str, int]
    place: Place

    def at(self, run: Run, row: int) -> Node:
        """The claim made of a row of a run."""
        return ground(self.truth, Scope(run, row=row, place=self.place))

    def in_row(self) -> RowClaim:
        """The claim as a term of one row; where operands are not those given, it is true."""
        zeros = Run(self.design, {**{o.name: 0 for o in self.design.operands}, **self.given})
        grounded, design = self.at(zeros, 0), self.design
        if not any(times(grounded)):
            raise TextError(Message("every-row-unread", found=show(self.truth)), self.place)
        if self.given:
            others = (Binary("!=", Name(name), Number(n)) for name, n in self.given.items())
            grounded = Binary("or", reduce(lambda a, b: Binary("or", a, b), others), grounded)

        def claim(logic: Logic, row: Row) -> Term:
            scope = Grounded(design, Words(logic.terms), (row,), known(design, logic.terms))
            value = lower(grounded, logic.terms, scope)
            if not isinstance(value, Truth):
                raise TextError(Message("number-not-truth", found=show(self.truth)), self.place)
            return logic.terms.both(value.one, value.unknown ^ 1)

        return claim

    def finding(self, proof: Proof, limit: float) -> Finding:
        """What came of it."""
        undecided = proof.outcome == "undecided"
        time_up = undecided and (proof.k or 0) < k_induction.LARGEST_K
        way = {"proved": "induction", "refuted": "refuted"}.get(
            proof.outcome, "undecided" if time_up else "not-inductive"
        )
        found = Finding(
            asked=Question(
                (called(self.design, self.design.parameters),), self._told(), self.given
            ),
            outcome=proof.outcome,
            evidence=Evidence(way, seconds=limit),  # type: ignore[arg-type]
            engine="proof",
            seconds=proof.seconds,
            detail=f"{proof.clauses:,} clauses over {proof.variables:,} variables",
            parameters=dict(self.design.parameters),
        )
        shown = proof.counterexample
        return found if shown is None else self._refuted(found, shown)

    def _told(self) -> str:
        """The claim, and the operands that it is made for."""
        names = ", ".join(free(self.design, self.given))
        told = f"{show(self.truth)}, in every row"
        return f"{told}, for all {names}" if names else told

    def _refuted(self, found: Finding, shown: Counterexample) -> Finding:
        trace, row = shown.trace, shown.row
        run = Run(trace.design, shown.operands)
        grounded = self.at(run, row)
        return replace(
            found,
            operands=dict(shown.operands),
            smallest=shown.smallest,
            failure=Failure(reason(grounded, Scope(run)), {}, Elsewhere()),
            trace=trace,
            row=row,
            columns=columns(trace, words_in(grounded, run)),
            rows=around(row, row, trace),
        )
