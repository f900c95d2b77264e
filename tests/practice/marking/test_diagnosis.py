"""What is said of a learner: each status, ties, margins, answers that are right as a whole."""

from __future__ import annotations

import pytest

from edgewise.practice.marking import beliefs
from edgewise.practice.marking.batch import Batch
from edgewise.practice.marking.diagnosis import (
    Diagnosis,
    Fit,
    Status,
    careless_at_most,
    judged,
)
from edgewise.practice.marking.evidence import Answered, Whole, diagnosed
from tests.practice.marking.classes import adder, asked, believed

DESIGN = adder(6)
CELLS = asked(range(6, 13), ["A", "C", "S"])
OPERANDS = {"a": 0b011011, "b": 0b010111}
HELD = {belief.names: belief for belief in (*beliefs.singles(DESIGN), *beliefs.pairs(DESIGN))}


def said(words: list[str], wholes: tuple[Whole, ...] = ()) -> Diagnosis:
    batch = Batch(DESIGN, CELLS, (OPERANDS,), tuple((word,) for word in words))
    (found,) = diagnosed([Answered(batch, (0,))], 1, wholes)
    return found


def right() -> list[str]:
    return believed(beliefs.truth(DESIGN), CELLS, OPERANDS)


def test_all_right_blank_and_one_careless_cell() -> None:
    assert said(right()).status is Status.RIGHT
    assert said(["." * len(word) for word in right()]) == Diagnosis(Status.NOTHING)
    words = right()
    words[10] = "1" if words[10] == "0" else "0"
    found = said(words)
    assert (found.status, found.wrong, found.names) == (Status.CARELESS, 1, ())


@pytest.mark.parametrize("name", ["carry-dropped", "or-for-sum", "wrong-end", "unknown-as-0"])
def test_an_idea_is_told_with_its_evidence(name: str) -> None:
    words = believed(HELD[name,], CELLS, OPERANDS)
    wrong = sum(one != other for one, other in zip(words, right(), strict=True))
    found = said(words)
    assert (found.status, found.names) == (Status.MISCONCEPTION, ((name,),))
    assert (found.read, found.wrong, found.explained) == (len(CELLS), wrong, wrong)
    assert found.ideas[0].against == 0
    assert found.margin >= 1


def test_two_ideas_held_together() -> None:
    names = ("wrong-end", "or-for-sum")
    found = said(believed(HELD[names], CELLS, OPERANDS))
    assert (found.status, found.names, found.ideas[0].against) == (
        Status.MISCONCEPTION,
        (names,),
        0,
    )


def test_blanks_neither_help_nor_harm() -> None:
    words = believed(HELD["carry-dropped",], CELLS, OPERANDS)
    words[-1], words[0] = "." * len(words[-1]), "." * len(words[0])
    found = said(words)
    assert (found.names, found.read) == ((("carry-dropped",),), len(CELLS) - 2)


def test_ideas_that_the_cells_do_not_tell_apart_are_told_together() -> None:
    fits = [Fit((), 6, 0), Fit(("one",), 0, 0), Fit(("other",), 0, 0), Fit(("third",), 3, 1)]
    found = judged(20, 6, fits)
    assert (found.names, found.margin) == ((("one",), ("other",)), 4)


@pytest.mark.parametrize(
    ("truth", "idea", "status"),
    [
        (1, 0, Status.CARELESS),  # one cell is never an idea
        (2, 0, Status.MISCONCEPTION),
        (3, 2, Status.CARELESS),
        (9, 3, Status.MISCONCEPTION),
        (9, 4, Status.UNEXPLAINED),  # more than carelessness leaves of 30
    ],
)
def test_an_idea_must_earn_its_place(truth: int, idea: int, status: Status) -> None:
    assert judged(30, 12, [Fit((), truth, 0), Fit(("one",), idea, 0)]).status is status


def test_what_an_idea_would_have_made_wrong_speaks_against_it() -> None:
    found = judged(30, 4, [Fit((), 4, 0), Fit(("one",), 0, 5)])
    assert (found.status, found.names) == (Status.UNEXPLAINED, ())


def test_two_must_earn_more_than_one() -> None:
    fits = [Fit((), 9, 0), Fit(("one",), 1, 0), Fit(("one", "other"), 0, 0)]
    assert judged(30, 9, fits).names == (("one",),)


def test_how_many_careless_cells_there_may_be() -> None:
    """Binomial distribution, 2 % a cell; the values by SciPy's binom.ppf(0.99, n, 0.02)."""
    assert [careless_at_most(n) for n in (8, 20, 50, 100, 200, 1000)] == [2, 2, 4, 6, 9, 31]


def test_answers_that_are_right_as_a_whole_speak_too() -> None:
    """One wrong cell alone is careless; with a choice that only the idea leads to it is none."""
    tells = frozenset({"carry-dropped"})
    words = right()
    words[10] = "1" if words[10] == "0" else "0"
    idea = believed(HELD["carry-dropped",], CELLS, OPERANDS)
    gives = Whole(0, right=False, gives=tells, tells=tells)
    spares = Whole(0, right=True, gives=frozenset(), tells=tells)
    assert said(idea, (gives,)).margin == said(idea).margin + 1
    assert said(idea, (spares,)).ideas[0].contradicted == 1
    assert said(right(), (gives,)).status is Status.CARELESS
    alone = diagnosed([], 1, [gives, gives])
    assert alone[0].names == (("carry-dropped",),)
