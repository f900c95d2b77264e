"""Operands that are as hard as an author's: how many there are, and which papers take.

Two sets of operands are as hard as each other if as many carries are generated, propagated and
killed, the longest carry chain is as long, as many operands are special numbers, and, where the
questions ask, carries change as often and the same misconceptions are told from the truth and
from one another (which features count is common practice, no source).
"""

from __future__ import annotations

import random
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import combinations
from typing import Final

from edgewise.engines.exhaustive import compiler
from edgewise.engines.exhaustive.operand_space import Space
from edgewise.engines.replay import bits_of, truths
from edgewise.engines.symbolic.cardinality import at_least
from edgewise.engines.symbolic.terms import Term, Terms
from edgewise.engines.symbolic.variables import Variable
from edgewise.practice.believers import Believers, Spot
from edgewise.study.coverage.adder_usage import Addition, adders, additions, longest_runs
from edgewise.study.operands import legibility
from edgewise.study.operands.criteria import differ

TIERS: Final = ("alike", "told", "carries")
"""How equal operands are, the most equal first: in all that counts; but not in how often carries
change and which misconceptions are told from one another; in the carries of the run alone."""
_EXHAUSTIVE: Final = 24
"""Operand bits up to which every set is looked at."""
_BLOCK: Final = 1 << 16
_BLOCKS: Final = 64
"""Blocks of sets, drawn at random, that are looked at beyond."""
_SPECIAL: Final = 3
"""Bits from which on a number can be special."""


@dataclass(frozen=True, slots=True)
class Features:
    """What operands make of a run.

    Parameters
    ----------
    generated, propagated, killed : int
        Places that generate a carry, hand one on, and end one.
    chain : int
        Places of the longest carry chain.
    special : int
        Operands that are 0, 1, a power of two or all ones.
    told : int
        Misconceptions that the questions tell from the truth.
    apart : int
        Pairs of misconceptions that they tell from one another.
    """

    generated: int = 0
    propagated: int = 0
    killed: int = 0
    chain: int = 0
    special: int = 0
    told: int = 0
    apart: int = 0


@dataclass(frozen=True, slots=True)
class Inquiry:
    """What one question asks of a run.

    Parameters
    ----------
    spots : tuple of Spot
        The words.
    tells : tuple of str
        The misconceptions that it tells from the truth.
    given : int
        The last row that is known to the learner.
    """

    spots: tuple[Spot, ...]
    tells: tuple[str, ...] = ()
    given: int = 0


@dataclass(frozen=True)
class Subject:
    """One run of a paper, and what its questions ask of it.

    Parameters
    ----------
    believers : Believers
    operands : mapping of str to int
        The author's.
    asked : tuple of Inquiry
        What each question asks for.
    needs : tuple of Term
        What other operands must be like, so that the same can be asked of them.
    """

    believers: Believers
    operands: Mapping[str, int]
    asked: tuple[Inquiry, ...] = ()
    needs: tuple[Term, ...] = ()

    @cached_property
    def space(self) -> Space:
        """All operands."""
        return Space.of(self.believers.design)

    @property
    def exhaustive(self) -> bool:
        """Whether every set is looked at."""
        return self.space.bits <= _EXHAUSTIVE

    @cached_property
    def _counting(self) -> tuple[Addition, ...]:
        found = additions(self.believers.design, self.believers.terms, self.believers.rows)
        return tuple(found)

    @cached_property
    def _told(self) -> tuple[Term, ...]:
        return tuple(
            self.believers.told(idea, one.spots)
            for one in self.asked
            for idea in self.believers.ideas
        )

    @cached_property
    def _apart(self) -> tuple[Term, ...]:
        return tuple(
            self.believers.apart(*pair, one.spots)
            for one in self.asked
            for pair in combinations(one.tells, 2)
        )

    @cached_property
    def _unary(self) -> Mapping[str, tuple[Term, ...]]:
        """Each count of carries: at index m - 1, whether it is m or more."""
        terms, found = self.believers.terms, self._counting
        counts = {
            what: at_least(
                terms,
                [terms.both(one.counts, getattr(one, what)) for one in found],
                len(found),
            )
            for what in ("generated", "propagated", "killed")
        }
        return {**counts, "chain": longest_runs(terms, found), "special": _special(self)}

    @cached_property
    def _changes(self) -> tuple[tuple[Term, ...], ...]:
        """For each question, in unary, how often carries change from the row that is given."""
        terms, rows = self.believers.terms, self.believers.rows
        carries = [adder.carry for adder in adders(self.believers.design)]
        found = []
        for one in self.asked:
            last = max(spot.cell.row for spot in one.spots)
            changes = [
                differ(terms, [rows[row][net]], [rows[row - 1][net]])
                for row in range(one.given + 1, last + 1)
                for net in carries
            ]
            found.append(at_least(terms, changes, len(changes)))
        return tuple(found)

    def value(self, term: Term, operands: Mapping[str, int]) -> bool:
        """A term's value for some operands."""
        return self._values([term], operands)[0]

    def _values(self, roots: Sequence[Term], operands: Mapping[str, int]) -> tuple[bool, ...]:
        bits = bits_of(operands, self.believers.design.operands)
        return truths(self.believers.terms, roots, bits)

    def features(self, operands: Mapping[str, int]) -> Features:
        """What some operands make of the run."""
        counts = {what: sum(self._values(unary, operands)) for what, unary in self._unary.items()}
        told = sum(self._values(self._told, operands))
        apart = sum(self._values(self._apart, operands))
        return Features(**counts, told=told, apart=apart)

    @cached_property
    def pools(self) -> Mapping[str, Pool]:
        """For each of `TIERS` the operands that are as hard as the author's."""
        return {tier: Pool(self, term) for tier, term in self._equal().items()}

    def _equal(self) -> dict[str, Term]:
        terms = self.believers.terms
        unary = [term for counts in self._unary.values() for term in counts]
        changes = [term for counts in self._changes for term in counts]
        groups = {"carries": unary, "told": self._told, "alike": [*self._apart, *changes]}
        so_far, found = terms.all_of(self.needs), {}
        for tier, group in groups.items():
            values = self._values(group, self.operands)
            same = (term ^ (not value) for term, value in zip(group, values, strict=True))
            so_far = terms.both(so_far, terms.all_of(same))
            found[tier] = so_far
        return {tier: found[tier] for tier in TIERS}


def _special(subject: Subject) -> tuple[Term, ...]:
    terms = subject.believers.terms
    odd = [
        legibility.special(terms, [terms.variable(Variable(name, i)) for i in range(width)])
        for name, width in subject.space.widths
        if width >= _SPECIAL
    ]
    return at_least(terms, odd, len(odd))


@dataclass(frozen=True)
class Pool:
    """Operands for which a term holds.

    Parameters
    ----------
    subject : Subject
    term : Term
    """

    subject: Subject
    term: Term

    @cached_property
    def _terms(self) -> Terms:
        return self.subject.believers.terms

    @cached_property
    def numbers(self) -> tuple[int, ...]:
        """Of the sets that were found: all, or those in the blocks that were looked at."""
        if not self.subject.space.widths:
            return (0,)
        return tuple(number for start, stop in self._blocks() for number in self._ones(start, stop))

    def _blocks(self) -> Iterator[tuple[int, int]]:
        size = self.subject.space.size
        if self.subject.exhaustive:
            yield 0, size
            return
        draw = random.Random(0)  # noqa: S311  # the same blocks whenever a paper is read
        blocks = {draw.randrange(size // _BLOCK) for _ in range(_BLOCKS)}
        blocks.add(self.subject.space.number(self.subject.operands) // _BLOCK)
        for block in sorted(blocks):
            yield block * _BLOCK, (block + 1) * _BLOCK

    def _ones(self, start: int, stop: int) -> list[int]:
        (mask,) = compiler.masks(self._terms, [self.term], self.subject.space, start, stop)
        bits = bin(mask)[:1:-1]
        found, at = [], bits.find("1")
        while at >= 0:
            found.append(start + at)
            at = bits.find("1", at + 1)
        return found

    def order(self, seed: int) -> tuple[int, ...]:
        """The numbers in the order in which papers of a seed take them."""
        order = list(self.numbers)
        random.Random(seed).shuffle(order)  # noqa: S311  # a choice that can be repeated
        return tuple(order)
