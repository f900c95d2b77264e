"""What makes operands teach well, as terms over all operands of a design at once."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import combinations

from edgewise.design import Design
from edgewise.engines.symbolic.terms import FALSE, Term, Terms
from edgewise.engines.symbolic.unrolling import Rail, Row, unroll
from edgewise.study.coverage.adder_usage import Addition, additions, longest_runs
from edgewise.study.misconceptions import registry
from edgewise.study.misconceptions.misconception import Misconception

ROWS = tuple(f"{row:03b}" for row in range(8))
"""The rows of the full adder's truth table: a, b, carry-in."""


@dataclass(frozen=True)
class Criteria:
    """What can be asked of an operand set.

    Parameters
    ----------
    terms : Terms
    rows : tuple of Term
        For each row of the full adder's truth table, whether some full adder covers it where
        it counts; empty for a design without.
    carries : tuple of Term
        Whether a carry is generated, propagated, killed.
    runs : tuple of Term
        At index m - 1: whether a carry chain has m places or more.
    moves : tuple of (str, Term)
        For each flip-flop, whether it toggles in both directions; for each gate of a design
        with edges, whether it takes both values.
    wrong : tuple of (Misconception, Term)
        For each misconception that applies, whether its answer differs from the truth.
    apart : tuple of (Misconception, Misconception, Term)
        For each pair of misconceptions, whether their answers differ.
    """

    terms: Terms
    rows: tuple[Term, ...]
    carries: tuple[Term, ...]
    runs: tuple[Term, ...]
    moves: tuple[tuple[str, Term], ...]
    wrong: tuple[tuple[Misconception, Term], ...]
    apart: tuple[tuple[Misconception, Misconception, Term], ...]


def criteria(design: Design) -> Criteria:
    """The criteria of a design.

    Examples
    --------
    >>> from edgewise import catalogue
    >>> asked = criteria(catalogue.design("serial-adder", n=4))
    >>> len(asked.rows), len(asked.wrong), len(asked.apart)
    (8, 16, 120)
    """
    terms = Terms()
    rows = unroll(design, terms)
    found = additions(design, terms, rows)
    truth = answer(design, rows)
    applied = [(idea, answer(d, unroll(d, terms))) for idea, d in registry.applicable(design)]
    return Criteria(
        terms,
        row_terms(terms, found),
        _carries(terms, found),
        longest_runs(terms, found),
        tuple(_moves(design, terms, rows)),
        tuple((idea, differ(terms, truth, word)) for idea, word in applied),
        tuple(
            (one, other, differ(terms, word, word_of_other))
            for (one, word), (other, word_of_other) in combinations(applied, 2)
        ),
    )


def answer(design: Design, rows: Sequence[Row]) -> tuple[Rail, ...]:
    """The bits of a run's answer, one output after the other; without a purpose, all outputs."""
    last = len(rows) - 1
    ends = [(p.output, last if p.after is None else p.after) for p in design.computes]
    ends = ends or [(output, last) for output in design.netlist.outputs]
    return tuple(rows[row][net] for output, row in ends for net in design.netlist.outputs[output])


def differ(terms: Terms, one: Sequence[Rail], other: Sequence[Rail]) -> Term:
    """Where two answers differ; an X is no answer, and differs from 0 and 1."""
    return terms.any_of(
        terms.either(terms.differ(a.one, b.one), terms.differ(a.unknown, b.unknown))
        for a, b in zip(one, other, strict=True)
    )


def row_terms(terms: Terms, found: Sequence[Addition]) -> tuple[Term, ...]:
    """For each row of the truth table, whether a full adder covers it where it counts."""
    full = [one for one in found if one.adder.full and one.counts != FALSE]
    if not full:
        return ()
    return tuple(
        terms.any_of(terms.both(one.counts, one.cases[row]) for one in full)
        for row in range(len(ROWS))
    )


def _carries(terms: Terms, found: Sequence[Addition]) -> tuple[Term, ...]:
    if not any(one.adder.full for one in found):
        return ()
    return tuple(
        terms.any_of(terms.both(one.counts, getattr(one, what)) for one in found)
        for what in ("generated", "propagated", "killed")
    )


def _moves(design: Design, terms: Terms, rows: Sequence[Row]) -> list[tuple[str, Term]]:
    netlist = design.netlist
    if len(rows) < 2:
        return []  # in a single row, nothing can change
    moves = []
    for f in netlist.flip_flops:
        bits = [row[f.q] for row in rows]
        ones = [bit.one for bit in bits]
        zeros = [terms.either(bit.one, bit.unknown) ^ 1 for bit in bits]
        rises = terms.any_of(map(terms.both, zeros, ones[1:]))
        falls = terms.any_of(map(terms.both, ones, zeros[1:]))
        moves.append((netlist.labels[f.q], terms.both(rises, falls)))
    for gate in netlist.gates:
        bits = [row[gate.output] for row in rows]
        one = terms.any_of(bit.one for bit in bits)
        zero = terms.any_of(terms.either(bit.one, bit.unknown) ^ 1 for bit in bits)
        moves.append((gate.name, terms.both(one, zero)))
    return moves
