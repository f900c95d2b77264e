"""What is written down for a question is bounded in time and size."""

from __future__ import annotations

import time

import pytest

from edgewise import blueprint, catalogue
from edgewise.engines.exhaustive import check
from edgewise.engines.sat import bounded
from edgewise.engines.sat.aside import Aside
from edgewise.engines.symbolic.arithmetic import Words
from edgewise.engines.symbolic.terms import Exhausted, Terms, TimeUp
from edgewise.engines.symbolic.variables import Variable


def _large(terms: Terms) -> None:
    words = Words(terms)
    number = words.unsigned(terms.variable(Variable("x", i)) for i in range(64))
    words.power(number, 40)


def test_terms_are_not_made_beyond_their_number() -> None:
    with pytest.raises(Exhausted, match="more than 5,000 operations; take smaller"):
        _large(Terms(most=5000))


def test_terms_are_not_made_beyond_their_time() -> None:
    with pytest.raises(TimeUp):
        _large(Terms(time.monotonic() - 1))


def test_a_proof_without_time_to_write_it_down_is_undecided() -> None:
    found = bounded.computes(catalogue.design("shift-add-multiplier", n=32), seconds=0)
    assert (found.outcome, str(found.reason)) == ("undecided", "the limit of 0 s was reached")


def test_what_goes_wrong_aside_is_raised_where_it_is_awaited() -> None:
    def wrong() -> None:
        raise ValueError("tide")

    with pytest.raises(ValueError, match="tide"):
        Aside(wrong).result()
    assert not Aside(lambda: time.sleep(0.5)).finished(0)


def test_a_purpose_may_be_a_comparison_of_a_member_of_a_family() -> None:
    """Counted by Python: 10 of 16 values are at most 9."""
    text = (
        "{circuit: gauge, inputs: {a: 4}, operands: {w(i = 1..1): 4}, outputs: {y: 1},"
        " join: {y: %s}, procedure: [{phase: hold, edges: 1, a: w(1)}],"
        " computes: {y: w(1) <= 9}}"
    )
    found = check.check(blueprint.from_text(text % "a(3)", "gauge.yaml").design())
    assert (found.holds, found.checked) == (False, 16)
    assert found.failures == sum((value >> 3) != (value <= 9) for value in range(16))
