"""Adders at work: which rows of their truth tables are met, and how far carries go.

All of it is said in terms over a run's rows, so that the same words serve one run (where
every term folds to true or false) and all operands at once.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from edgewise.circuit.model import Circuit
from edgewise.circuit.netlist import FlipFlop, Netlist
from edgewise.circuit.parts import function
from edgewise.design import Design
from edgewise.engines.symbolic.terms import FALSE, TRUE, Term, Terms
from edgewise.engines.symbolic.unrolling import Rail, Row


@dataclass(frozen=True, slots=True)
class Adder:
    """One adder of a design.

    Parameters
    ----------
    name : str
        Path of the part: ``FA``, ``FA(3)``.
    kind : str
        Name of the part: ``full-adder``.
    inputs : tuple of int
        Net numbers, in the order of a truth table: a, b, carry-in.
    sum, carry : int
        Net numbers of the outputs.
    """

    name: str
    kind: str
    inputs: tuple[int, ...]
    sum: int
    carry: int

    @property
    def full(self) -> bool:
        """Whether it takes a carry too."""
        return len(self.inputs) > 2

    @property
    def rows(self) -> tuple[str, ...]:
        """The rows of its truth table: ``000`` to ``111``, a left."""
        width = len(self.inputs)
        return tuple(f"{row:0{width}b}" for row in range(1 << width))


def adders(design: Design) -> tuple[Adder, ...]:
    """The adders of a design, each after those whose carry it takes in the same row.

    Those inside parts of the house, as a counter's, are not counted; those inside circuits
    used as parts are.

    Examples
    --------
    >>> from edgewise import catalogue
    >>> [adder.name for adder in adders(catalogue.design("ripple-carry-adder", n=3))]
    ['FA(0)', 'FA(1)', 'FA(2)']
    """
    netlist = design.netlist
    turn = {gate.output: i for i, gate in enumerate(netlist.gates)}

    def found(circuit: Circuit, path: str) -> Iterator[Adder]:
        for part in circuit.parts:
            name, kind = path + part.name, part.kind
            if (adds := kind.adds) is not None:
                ins = tuple(netlist.names[f"{name}.{port}"][0] for port in adds.inputs)
                total, carry = (netlist.names[f"{name}.{p}"][0] for p in (adds.sum, adds.carry))
                yield Adder(name, kind.name, ins, total, carry)
            elif kind.inside is not None and kind.role == "circuit":
                yield from found(kind.inside, f"{name}.")

    return tuple(sorted(found(design.circuit, ""), key=lambda adder: turn.get(adder.carry, -1)))


# ---------------------------------------------------------------------- what reaches the answer


@dataclass(frozen=True, slots=True)
class Reach:
    """From where and when a value can still get into the answer.

    Parameters
    ----------
    nets : tuple of dict
        For each row, the nets from which a path leads to an answer, with a term that says
        for which operands. A path goes through gates of any kind, through the chosen input
        of a multiplexer, and through what a flip-flop really takes at the edge.
    stored : tuple of Term
        For each edge 1 … (at index edge - 1): whether it stores anything that counts.
    """

    nets: tuple[dict[int, Term], ...]
    stored: tuple[Term, ...]


def reach(design: Design, terms: Terms, rows: Sequence[Row]) -> Reach:
    """What of a run can get into the answer; without a purpose, into the last row's outputs."""
    netlist = design.netlist
    nets: list[dict[int, Term]] = [{} for _ in rows]
    last = len(rows) - 1
    ends = [(p.output, last if p.after is None else p.after) for p in design.computes]
    for output, row in ends or [(output, last) for output in netlist.outputs]:
        nets[row].update(dict.fromkeys(netlist.outputs[output], TRUE))
    stored = [FALSE] * last
    for row in range(last, -1, -1):
        mark = _Marks(terms, nets[row])
        _through_gates(netlist, mark, rows[row])
        if row:
            before = _Marks(terms, nets[row - 1])
            stored[row - 1] = terms.any_of(
                _through_edge(flip_flop, nets[row][flip_flop.q], before, rows[row - 1])
                for flip_flop in netlist.flip_flops
                if flip_flop.q in nets[row]
            )
    return Reach(tuple(nets), tuple(stored))


@dataclass(frozen=True, slots=True)
class _Marks:
    terms: Terms
    nets: dict[int, Term]

    def __call__(self, net: int | None, when: Term) -> None:
        if net is not None and when != FALSE:
            self.nets[net] = self.terms.either(self.nets.get(net, FALSE), when)

    def may(self, rail: Rail) -> Term:
        """Where a bit is not known to be 0."""
        return self.terms.either(rail.one, rail.unknown)


def _through_gates(netlist: Netlist, mark: _Marks, row: Row) -> None:
    for gate in reversed(netlist.gates):
        when = mark.nets.get(gate.output, FALSE)
        if when == FALSE:
            continue
        if function(gate.operator).plain == "choose":
            select, when_0, when_1 = gate.inputs
            mark(select, when)
            mark(when_0, mark.terms.both(when, row[select].one ^ 1))
            mark(when_1, mark.terms.both(when, mark.may(row[select])))
        else:
            for net in gate.inputs:
                mark(net, when)


def _through_edge(flip_flop: FlipFlop, when: Term, mark: _Marks, row: Row) -> Term:
    """Mark what a flip-flop whose bit counts takes at the edge after `row`; whether it does."""
    both, hold = mark.terms.both, FALSE
    for control in (flip_flop.gate, flip_flop.clear, flip_flop.enable):
        if control is None:
            continue
        mark(control, when)
        if control == flip_flop.clear:
            when = both(when, row[control].one ^ 1)
        else:
            hold = mark.terms.either(hold, both(when, row[control].one ^ 1))
            when = both(when, mark.may(row[control]))
    mark(flip_flop.q, hold)
    mark(flip_flop.d, when)
    return when


# ---------------------------------------------------------------------- additions


@dataclass(frozen=True, slots=True)
class Addition:
    """One adder in one row.

    Parameters
    ----------
    row : int
        Row k: what edge k+1 samples, or what is read as the answer.
    adder : Adder
    counts : Term
        Whether its sum can get into the answer (for an adder whose sum goes nowhere: its
        carry). The zeros that an adder adds while registers are loading don't count.
    cases : tuple of Term
        For each row of the truth table, whether it stands there.
    generated, propagated, killed : Term
        A carry is generated where a = b = 1; one that comes in is propagated where a and b
        differ, and killed where a = b = 0.
    runs : tuple of Term
        At index m - 1: whether the carry that goes out has run m places or more. A carry
        that goes no farther than from its birth into the next place has run 1.
    """

    row: int
    adder: Adder
    counts: Term
    cases: tuple[Term, ...]
    generated: Term
    propagated: Term
    killed: Term
    runs: tuple[Term, ...]


def additions(
    design: Design, terms: Terms, rows: Sequence[Row], known: Reach | None = None
) -> tuple[Addition, ...]:
    """Every adder in every row.

    Examples
    --------
    >>> from edgewise import catalogue, run
    >>> from edgewise.engines.replay import rows_of
    >>> trace = run(catalogue.design("serial-adder", n=4), a=6, b=3)
    >>> found = additions(trace.design, Terms(), rows_of(trace))
    >>> [one.cases.index(1) for one in found if one.counts]
    [2, 6, 5, 1]
    """
    all_adders = adders(design)
    if not all_adders:
        return ()
    nets = (known or reach(design, terms, rows)).nets
    by_sum = {a.name for a in all_adders if any(a.sum in row for row in nets)}
    carries = _Carries(design.netlist, terms, all_adders)
    found = []
    for number, row in enumerate(rows):
        carries.edge(rows[number - 1] if number else None)
        for adder in all_adders:
            told = adder.sum if adder.name in by_sum else adder.carry
            counts = nets[number].get(told, FALSE)
            found.append(carries.addition(number, adder, row, counts))
    return tuple(found)


class _Carries:
    """Follows carries from adder to adder, within a row and through flip-flops."""

    def __init__(self, netlist: Netlist, terms: Terms, all_adders: Sequence[Adder]) -> None:
        self.terms = terms
        followed = {adder.carry for adder in all_adders}
        self.stores: list[FlipFlop] = []
        grown = True
        while grown:
            more = [f for f in netlist.flip_flops if f.d in followed and f.q not in followed]
            self.stores += more
            followed |= {f.q for f in more}
            grown = bool(more)
        self.runs: dict[int, tuple[Term, ...]] = {}
        """For each net that holds a carry, how far it has run."""

    def edge(self, before: Row | None) -> None:
        """Take the carries over an edge; at the start there are none."""
        if before is None:
            return
        now = {}
        for f in self.stores:
            stored, held = self.runs.get(f.d, ()), self.runs.get(f.q, ())
            if f.enable is not None:
                stored = self._choose(before[f.enable].one, held, stored)
            if f.clear is not None:
                stored = self._choose(before[f.clear].one, stored, ())
            if f.gate is not None:
                stored = self._choose(before[f.gate].one, held, stored)
            now[f.q] = stored
        self.runs = now

    def _choose(
        self, select: Term, when_0: tuple[Term, ...], when_1: tuple[Term, ...]
    ) -> tuple[Term, ...]:
        if select in (FALSE, TRUE):
            return when_1 if select else when_0
        size = max(len(when_0), len(when_1))
        padded = ((*runs, *(FALSE,) * (size - len(runs))) for runs in (when_0, when_1))
        return tuple(self.terms.choose(select, *pair) for pair in zip(*padded, strict=True))

    def addition(self, number: int, adder: Adder, row: Row, counts: Term) -> Addition:
        """One adder in one row; from then on its carry-out is followed."""
        both, bits = self.terms.both, [row[net] for net in adder.inputs]
        ones = [bit.one for bit in bits]
        zeros = [self.terms.either(bit.one, bit.unknown) ^ 1 for bit in bits]
        cases = tuple(
            self.terms.all_of(
                (ones if digit == "1" else zeros)[i] for i, digit in enumerate(digits)
            )
            for digits in adder.rows
        )
        comes = ones[2] if len(bits) > 2 else FALSE
        generated = both(ones[0], ones[1])
        passes = self.terms.either(both(ones[0], zeros[1]), both(zeros[0], ones[1]))
        propagated = both(passes, comes)
        killed = both(both(zeros[0], zeros[1]), comes)
        came = self.runs.get(adder.inputs[2], ()) if len(bits) > 2 else ()
        runs = [self.terms.either(generated, propagated), *(both(passes, run) for run in came)]
        while runs and runs[-1] == FALSE:
            runs.pop()
        self.runs[adder.carry] = tuple(runs)
        return Addition(number, adder, counts, cases, generated, propagated, killed, tuple(runs))


def longest_runs(terms: Terms, found: Sequence[Addition]) -> tuple[Term, ...]:
    """At index m - 1: whether some carry that counts runs m places or more."""
    size = max((len(one.runs) for one in found), default=0)
    return tuple(
        terms.any_of(terms.both(one.counts, one.runs[m]) for one in found if m < len(one.runs))
        for m in range(size)
    )
