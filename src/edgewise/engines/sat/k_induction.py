"""Claims about every edge, for ever, by k-induction.

If k rows in a row for which the claim holds are always followed by one for which it holds,
whatever the state they start from, and it holds for the first k rows that can occur, it holds
for ever (M. Sheeran, S. Singh, G. Stålmarck, "Checking safety properties using induction and
a SAT-solver", FMCAD 2000, from memory). k grows until that works.
"""

from __future__ import annotations

import time
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Final, Protocol, TypeAlias

from edgewise.circuit.model import Circuit, Tie
from edgewise.circuit.netlist import Netlist
from edgewise.design import Design
from edgewise.engines.replay import left_free, prolonged
from edgewise.engines.run_loop import Machine
from edgewise.engines.sat.bounded import SECONDS, Item, RowClaim, replayed, smallest, value_order
from edgewise.engines.sat.outcome import Counterexample, Outcome, Proof
from edgewise.engines.sat.session import Session
from edgewise.engines.symbolic.cardinality import at_least
from edgewise.engines.symbolic.terms import FALSE, TRUE, Term, Terms
from edgewise.engines.symbolic.unrolling import Logic, Rail, Row, constant
from edgewise.engines.symbolic.variables import Variable
from edgewise.errors import DesignError, Fact, Message

LARGEST_K: Final = 32
"""How far k may grow unless the caller says otherwise."""

_Inputs: TypeAlias = Mapping[str, Sequence[Rail]]
_Feeding: TypeAlias = Callable[[Terms, int], _Inputs]


class _Course(Protocol):
    """How the inputs go on for ever."""

    @property
    def netlist(self) -> Netlist:
        """The circuit."""
        ...

    @property
    def steady(self) -> int:
        """The first row from which on all rows get their inputs alike."""
        ...

    def inputs(self, terms: Terms, row: int) -> _Inputs:
        """What the inputs are in a row, counted from the start."""
        ...

    def later(self, terms: Terms, row: int) -> _Inputs:
        """What they may be in a row at or after `steady`, counted from anywhere."""
        ...

    def design(self, last: int) -> Design:
        """A design whose run has rows 0 … `last`, to show a counterexample."""
        ...


@dataclass(frozen=True, slots=True)
class _Procedure:
    """The procedure, whose last phase then goes on for ever."""

    of: Design

    @property
    def netlist(self) -> Netlist:
        return self.of.netlist

    @property
    def steady(self) -> int:
        return self.of.edges

    def inputs(self, terms: Terms, row: int) -> _Inputs:
        fed = self.of.schedule[min(row, self.of.edges)]
        return {
            name: [
                constant(s.bit)
                if isinstance(s, Tie)
                else Rail(terms.variable(Variable(s.operand, s.index)))
                for s in sources
            ]
            for name, sources in fed.items()
        }

    def later(self, terms: Terms, row: int) -> _Inputs:
        return self.inputs(terms, max(row, self.steady))

    def design(self, last: int) -> Design:
        return prolonged(self.of, last)


@dataclass(frozen=True, slots=True)
class _Free:
    """Any inputs in every row, from the initial state on."""

    circuit: Circuit
    of: Design

    @property
    def netlist(self) -> Netlist:
        return self.of.netlist

    @property
    def steady(self) -> int:
        return 0

    def inputs(self, terms: Terms, row: int) -> _Inputs:
        return {
            name: [Rail(terms.variable(Variable(f"{name}({row})", i))) for i in range(len(bits))]
            for name, bits in self.netlist.inputs.items()
        }

    def later(self, terms: Terms, row: int) -> _Inputs:
        return self.inputs(terms, row)

    def design(self, last: int) -> Design:
        return left_free(self.circuit, max(last, 1))


def always(
    design: Design,
    claim: RowClaim,
    *,
    since: int | None = None,
    distinct: bool = True,
    most: int = LARGEST_K,
    seconds: float = SECONDS,
) -> Proof:
    """Settle whether a claim holds in every row for ever, for all operands.

    The procedure is run, and its last phase goes on without end: what it holds at an input
    stays there, what it feeds bit by bit is 0 from its end on.

    Parameters
    ----------
    design : Design
    claim : function
        Of the logic and one row, as `exactly_one`.
    since : int, optional
        The first row for which the claim is made; after the whole procedure unless given.
    distinct : bool
        Whether rows in which the whole state returns are left out of the step, which is
        sound (a shortest way to a wrong row has none) and makes every true claim provable.
    most : int
        How far k may grow.
    seconds : float
        Time limit. Beyond either limit the outcome is ``undecided``.

    Raises
    ------
    DesignError
        If `since` lies after the procedure, or an operand is not fed to its end.

    Examples
    --------
    >>> from edgewise import catalogue
    >>> design = catalogue.design("serial-adder", n=4)
    >>> (carry,) = design.netlist.find("C")
    >>> always(design, lambda logic, row: row[carry].unknown ^ 1).outcome
    'refuted'
    """
    begun = design.edges if since is None else since
    if not 0 <= begun <= design.edges:
        raise DesignError(
            Message("claim-begins-outside", row=begun, last=design.edges), design.place
        )
    last = design.schedule[-1]
    serial = {f.input for p in design.procedure[-1:] for f in p.feeds if f.order != "held"}
    for name in sorted(serial):
        if not all(isinstance(source, Tie) for source in last[name]):
            raise DesignError(
                Message("input-not-fed-to-end", name=name), design.procedure[-1].place
            )
    return _Induction(_Procedure(design), claim, begun, distinct, seconds).settle(most)


def always_in(
    circuit: Circuit,
    claim: RowClaim,
    *,
    distinct: bool = True,
    most: int = LARGEST_K,
    seconds: float = SECONDS,
) -> Proof:
    """Settle whether a claim holds in every row from the initial state on, whatever the inputs.

    Parameters
    ----------
    circuit : Circuit
    claim, distinct, most, seconds
        As in `always`. Operands of a counterexample are the inputs row by row: ``x(0)``,
        ``x(1)``…

    Examples
    --------
    >>> from edgewise.circuit.builder import Builder
    >>> b = Builder("stays 0 once 0")
    >>> q, kept = b.net("q"), b.input("keep")
    >>> both = b.part("G", "and", {"in": (*q, *kept)})
    >>> _ = b.part("Q", "flip-flop", {"d": both["out"], "q": q})
    >>> b.output("out", q)
    >>> circuit = b.circuit()
    >>> (net,) = left_free(circuit, 0).netlist.find("q")
    >>> always_in(circuit, lambda logic, row: row[net].one ^ 1).outcome
    'proved'
    """
    course = _Free(circuit, left_free(circuit, 0))
    return _Induction(course, claim, 0, distinct, seconds).settle(most)


@dataclass
class _Induction:
    """One claim on its way: rows from the start, rows from anywhere, a solver for each."""

    course: _Course
    claim: RowClaim
    since: int
    distinct: bool
    seconds: float
    begun: float = field(default_factory=time.monotonic)

    def settle(self, most: int) -> Proof:
        until = self.begun + self.seconds
        with Session(Terms(), until) as start, Session(Terms(), until) as step:
            first: list[Row] = []
            onward: list[Row] = [self._anywhere(step)]
            for k in range(1, most + 1):
                while len(first) < self.course.steady + k:
                    self._append(start.terms, first, self.course.inputs)
                    broken = self._broken(start, first[-1], len(first) - 1)
                    if broken is None:
                        return self._proof("undecided", k, start, step)
                    if broken:
                        shown = self._shown(start, first)
                        return self._proof("refuted", k, start, step, shown)
                step.require(self.claim(Logic(step.terms), onward[-1]))
                self._append(step.terms, onward, self.course.later)
                if self.distinct:
                    self._require_new_state(step, onward)
                leaves = step.ask(self.claim(Logic(step.terms), onward[-1]) ^ 1)
                if leaves is None:
                    return self._proof("undecided", k, start, step)
                if not leaves:
                    return self._proof("proved", k, start, step)
            return self._proof("undecided", most, start, step)

    def _append(self, terms: Terms, rows: list[Row], inputs: _Feeding) -> None:
        netlist, machine = self.course.netlist, Machine(Logic(terms))
        stored = [constant(flip_flop.start) for flip_flop in netlist.flip_flops]
        if rows:
            stored = machine.edge(netlist)(rows[-1])
        rows.append(machine.settle(netlist, stored, inputs(terms, len(rows))))

    def _broken(self, start: Session, row: Row, number: int) -> bool | None:
        if number < self.since:
            return False
        return start.ask(self.claim(Logic(start.terms), row) ^ 1)

    def _anywhere(self, step: Session) -> Row:
        """A row from any state; a bit may be X unless it never is from `steady` on."""
        netlist, terms = self.course.netlist, step.terms
        known = self._never_unknown()
        stored = []
        for number, flip_flop in enumerate(netlist.flip_flops):
            one = terms.variable(Variable(f"state of {flip_flop.name}", 0))
            unknown = FALSE
            if number not in known:
                unknown = terms.variable(Variable(f"state of {flip_flop.name}", 1))
                step.require(terms.both(one, unknown) ^ 1)
            stored.append(Rail(one, unknown))
        return Machine(Logic(terms)).settle(netlist, stored, self.course.later(terms, 0))

    def _never_unknown(self) -> frozenset[int]:
        """Flip-flops that hold no X in row `steady` and get none where none of them has one."""
        netlist, terms = self.course.netlist, Terms()
        machine, rows = Machine(Logic(terms)), list[Row]()
        while len(rows) <= self.course.steady:
            self._append(terms, rows, self.course.inputs)
        flip_flops, edge = netlist.flip_flops, machine.edge(netlist)
        known = {i for i, f in enumerate(flip_flops) if rows[-1][f.q].unknown == FALSE}
        while True:
            stored = [
                Rail(
                    terms.variable(Variable(f.name, 0)),
                    FALSE if i in known else terms.variable(Variable(f.name, 1)),
                )
                for i, f in enumerate(flip_flops)
            ]
            row = machine.settle(netlist, stored, self.course.later(terms, 0))
            after = edge(row)
            stay = {i for i in known if after[i].unknown == FALSE}
            if stay == known:
                return frozenset(known)
            known = stay

    def _require_new_state(self, step: Session, rows: Sequence[Row]) -> None:
        terms = step.terms
        nets = [f.q for f in self.course.netlist.flip_flops]
        now = rows[-1]
        for before in rows[:-1]:
            differences: list[Term] = []
            for net in nets:
                differences.append(terms.differ(before[net].one, now[net].one))
                differences.append(terms.differ(before[net].unknown, now[net].unknown))
            step.require(terms.any_of(differences))

    def _shown(self, start: Session, rows: Sequence[Row]) -> Counterexample:
        last = len(rows) - 1
        design = self.course.design(last)
        wrong = self.claim(Logic(start.terms), rows[-1]) ^ 1
        values, least = smallest(start, wrong, value_order(design.operands))

        def items(terms: Terms, runs: Sequence[Sequence[Row]]) -> list[Item]:
            return [Item(self.claim(Logic(terms), runs[0][last]), last)]

        return replayed((design,), items, values, least=least)

    def _proof(
        self,
        outcome: Outcome,
        k: int,
        start: Session,
        step: Session,
        shown: Counterexample | None = None,
    ) -> Proof:
        spent = time.monotonic() - self.begun
        reason: Fact = ""
        if outcome == "undecided":
            up = time.monotonic() >= start.deadline
            limit = Message("time-limit", seconds=f"{self.seconds:g}")
            reason = limit if up else Message("k-reached", k=k)
        clauses, variables, conflicts = map(sum, zip(start.size, step.size, strict=True))
        return Proof(outcome, "k-induction", spent, clauses, variables, conflicts, k, shown, reason)


def exactly_one(nets: Iterable[int]) -> RowClaim:
    """The claim that of these nets exactly one is 1, and the others 0.

    Examples
    --------
    >>> from edgewise import catalogue
    >>> design = catalogue.design("ring-counter", n=4)
    >>> proof = always(design, exactly_one(design.netlist.find("R")))
    >>> proof.outcome, proof.k
    ('proved', 1)
    """
    chosen = tuple(nets)

    def claim(logic: Logic, row: Row) -> Term:
        terms = logic.terms
        counts = at_least(terms, [row[net].one for net in chosen], 2)
        known = terms.any_of(row[net].unknown for net in chosen) ^ 1
        once = terms.both(counts[0], counts[1] ^ 1 if len(counts) > 1 else TRUE)
        return terms.both(known, once)

    return claim


def among(nets: Iterable[int], words: Iterable[int]) -> RowClaim:
    """The claim that these nets, LSB first, hold one of some words, with no X.

    Examples
    --------
    >>> from edgewise import catalogue
    >>> design = catalogue.design("ring-counter", n=3)
    >>> always(design, among(design.netlist.find("R"), (1, 2, 4))).outcome
    'proved'
    """
    chosen, allowed = tuple(nets), tuple(words)

    def claim(logic: Logic, row: Row) -> Term:
        terms = logic.terms
        known = terms.any_of(row[net].unknown for net in chosen) ^ 1
        found = terms.any_of(
            terms.all_of(row[net].one ^ 1 ^ (word >> i & 1) for i, net in enumerate(chosen))
            for word in allowed
        )
        return terms.both(known, found)

    return claim
