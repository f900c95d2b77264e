"""Inside clock periods: what happens there ends in the rows of the trace."""

from __future__ import annotations

import random
from fractions import Fraction

import pytest

from edgewise import catalogue, run
from edgewise.errors import DesignError, EdgewiseError
from edgewise.study.cost import models
from edgewise.study.inside import Manner, inside
from edgewise.trace import Trace

MODELS = ("gate-count", "unit-gate", "cmos", "74hc", "74hc-worst")


def at_random(name: str, seed: int = 1) -> Trace:
    design, draw = catalogue.design(name), random.Random(seed)  # noqa: S311  # cases, no secrets
    return run(
        design, **{one.name: one.number(draw.getrandbits(one.width)) for one in design.operands}
    )


@pytest.mark.parametrize("name", catalogue.ORDER)
def test_a_slow_clock_gives_the_rows_of_the_trace(name: str) -> None:
    """Whatever the delays: the whole run at once, each period from where the last one ended."""
    trace = at_random(name)
    for at, model in enumerate(MODELS):
        manner = Manner(models.technology(model), spread=20, seed=at)
        first, last = min(trace.edges, 1), min(trace.edges, 60)
        moment = inside(trace, first, last, manner)
        assert moment.quiet
        assert moment.astray == ()
        assert moment.violations == ()


def test_each_edge_by_itself_ends_as_the_row_does() -> None:
    trace = at_random("serial-adder")
    for edge in range(1, trace.edges + 1):
        moment = inside(trace, edge)
        nets = [net for nets in trace.design.netlist.outputs.values() for net in nets]
        assert [moment.at(moment.end)[net] for net in nets] == [trace.rows[edge][n] for n in nets]


def test_the_last_change_is_never_later_than_the_critical_path() -> None:
    from edgewise.study.cost.critical_path import longest

    for name in ("ripple-carry-adder", "carry-skip-adder", "kogge-stone-adder"):
        trace, before = at_random(name, 2), at_random(name, 3)
        settled = inside(trace, 0, before=before).settled(0) or 0
        length = longest(trace.design.netlist).length
        assert settled <= length * Manner().ticks


def test_a_clock_that_is_too_fast_is_told() -> None:
    trace = run(catalogue.design("ripple-carry-adder", n=4), a=1, b=15, carry_in=0)
    before = run(catalogue.design("ripple-carry-adder", n=4), a=0, b=15, carry_in=0)
    moment = inside(trace, 0, manner=Manner(period=Fraction(4)), before=before)
    assert not moment.quiet
    assert moment.sentences()[-1] == (
        "changes are still to come at the end: the period is too short, or the circuit never"
        " settles"
    )


def test_a_late_clock_loses_a_bit() -> None:
    """The last stage of a shift register, clocked late, takes the bit that was on its way."""
    trace = run(catalogue.design("serial-in-serial-out", n=4), w=0b0101)
    assert inside(trace, 1, 4).astray == ()
    late = inside(trace, 1, 4, Manner(late={"R(0)": Fraction(9)}))
    assert late.astray != ()
    assert late.violations == ()


@pytest.mark.parametrize(
    ("ask", "message"),
    [
        ({"first": 0}, "there is no edge 0 to look behind; the edges are 1..8"),
        ({"first": 9}, "there is no edge 9 to look behind; the edges are 1..8"),
        ({"first": 3, "last": 2}, "there is no edge 3..2 to look behind; the edges are 1..8"),
        (
            {"first": 1, "manner": Manner(when={"a_inn": Fraction(1)})},
            "there is no input a_inn; did you mean a_in?",
        ),
        (
            {"first": 1, "manner": Manner(late={"D": Fraction(1)})},
            "there is no D here; there is: A, B, C, S, a_in, b_in, carry, shift, sum",
        ),
        (
            {"first": 1, "manner": Manner(late={"a_in": Fraction(1)})},
            "a_in does not store: the clock does not come to it",
        ),
        (
            {"first": 1, "manner": Manner(period=Fraction(0))},
            "the period is too short; give more than 0",
        ),
        (
            {"first": 1, "manner": Manner(period=Fraction(1, 1000))},
            "the period is 0.001; expected 0 or more gate delays, with two decimals at most",
        ),
        (
            {"first": 1, "manner": Manner(when={"a_in": Fraction(99)})},
            "input a_in is to change 99 gate delays after the edge, but the period is 26 gate"
            " delays; make the period longer",
        ),
    ],
)
def test_what_can_not_be_looked_into(ask: dict[str, object], message: str) -> None:
    trace = run(catalogue.design("serial-adder", n=4), a=9, b=6)
    with pytest.raises(EdgewiseError) as caught:
        inside(trace, **ask)  # type: ignore[arg-type]
    assert str(caught.value) == message


def test_too_many_periods() -> None:
    trace = run(catalogue.design("serial-adder", n=64), a=9, b=6)
    with pytest.raises(DesignError, match=r"^101 clock periods are too many to look into; the"):
        inside(trace, 1, 101)
