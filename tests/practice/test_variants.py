"""Operands that are as hard as an author's: counted by going through all of them one by one."""

from __future__ import annotations

from itertools import combinations, pairwise, product

import pytest

from edgewise import catalogue, run
from edgewise.practice.believers import Believers, spot_of
from edgewise.practice.table_question import Cell
from edgewise.practice.variants import TIERS, Features, Inquiry, Subject
from edgewise.study.coverage.measured import coverage

ADDER = catalogue.design("serial-adder", n=3)
TELLS = ("carry-dropped", "or-for-sum", "wrong-end", "msb-first")


@pytest.fixture(scope="module")
def subject() -> Subject:
    spots = (spot_of(ADDER, Cell(6, "S")),)
    return Subject(Believers(ADDER), {"a": 3, "b": 5}, (Inquiry(spots, TELLS),))


def features(subject: Subject, a: int, b: int) -> Features:
    """The features of a run, counted on the run itself and on the runs of misconceptions."""
    operands = {"a": a, "b": b}
    shown = coverage(ADDER, operands).carries
    assert shown is not None
    trace = run(ADDER, **operands)
    spots, tells, believers = subject.asked[0].spots, subject.asked[0].tells, subject.believers
    truth = trace.word("S", 6)
    words = {idea: believers.word(idea, spots[0], operands) for idea in believers.ideas}
    special = {0, 1, 2, 4, 7}
    return Features(
        generated=shown.generated,
        propagated=shown.propagated,
        killed=shown.killed,
        chain=shown.longest,
        special=sum(value in special for value in (a, b)),
        told=sum(word != truth for word in words.values()),
        apart=sum(words[one] != words[other] for one, other in combinations(tells, 2)),
    )


def test_features_are_those_of_the_run(subject: Subject) -> None:
    for a, b in product(range(8), repeat=2):
        assert subject.features({"a": a, "b": b}) == features(subject, a, b), (a, b)


def test_every_equally_hard_set_is_found_and_no_other(subject: Subject) -> None:
    wanted = features(subject, 3, 5)
    believers, spots, tells = subject.believers, subject.asked[0].spots, subject.asked[0].tells

    def told(a: int, b: int) -> list[bool]:
        truth = run(ADDER, a=a, b=b).word("S", 6)
        operands = {"a": a, "b": b}
        return [believers.word(idea, spots[0], operands) != truth for idea in believers.ideas]

    def apart(a: int, b: int) -> list[bool]:
        words = [believers.word(idea, spots[0], {"a": a, "b": b}) for idea in tells]
        return [one != other for one, other in combinations(words, 2)]

    def carries(found: Features) -> tuple[int, ...]:
        return found.generated, found.propagated, found.killed, found.chain, found.special

    def changes(a: int, b: int) -> int:
        carries = [str(run(ADDER, a=a, b=b).word("FA.carry-out", row)) for row in range(7)]
        return sum(one != other for one, other in pairwise(carries))

    sets = list(product(range(8), repeat=2))
    loose = [s for s in sets if carries(features(subject, *s)) == carries(wanted)]
    middle = [s for s in loose if told(*s) == told(3, 5)]
    tight = [s for s in middle if (apart(*s), changes(*s)) == (apart(3, 5), changes(3, 5))]
    for tier, expected in zip(TIERS, (tight, middle, loose), strict=True):
        numbers = subject.pools[tier].numbers
        found = [tuple(subject.space.decode(number).values()) for number in numbers]
        assert found == expected, tier
    assert (3, 5) in tight


def test_a_seed_shuffles_always_the_same_way(subject: Subject) -> None:
    pool = subject.pools["carries"]
    assert pool.order(5) == pool.order(5)
    assert sorted(pool.order(5)) == sorted(pool.order(6)) == list(pool.numbers)


def test_of_too_many_sets_some_are_drawn_and_the_authors_own_is_among_them() -> None:
    adder = catalogue.design("serial-adder", n=13)
    subject = Subject(Believers(adder), {"a": 4711, "b": 2999})
    assert not subject.exhaustive
    pool = subject.pools["alike"]
    assert subject.space.number(subject.operands) in pool.numbers
    wanted = subject.features(subject.operands)
    for number in pool.order(1)[:5]:
        assert subject.features(subject.space.decode(number)) == wanted


def test_a_design_without_operands_has_one_variant() -> None:
    ring = catalogue.design("ring-counter")
    subject = Subject(Believers(ring), {})
    assert subject.pools["alike"].numbers == (0,)
