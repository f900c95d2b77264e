"""The simulation in time: pulses, set-up and hold times, skew, loops."""

from __future__ import annotations

from collections.abc import Sequence

import pytest
from hypothesis import given
from hypothesis import strategies as st

from edgewise.bits import X
from edgewise.circuit.netlist import CLOCK_NET, FlipFlop, Gate, Netlist
from edgewise.engines.timed.delays import Delays, Stored
from edgewise.engines.timed.simulation import Run, Stimulus, simulate
from edgewise.errors import DesignError

A, B, OUT, Q = 4, 5, 6, 7
START = [0, 1, X, 0, 0, 0, 0, 0]


def one_gate(operator: str, times: tuple[int, int], *, transport: bool = False) -> Run:
    """A pulse of 3 ticks at a gate whose other input is 1."""
    netlist = Netlist(8, {"a": (A,), "b": (B,)}, {}, (Gate(operator, (A, B), OUT, "G"),), (), {})
    start = START.copy()
    start[B] = 1
    pulse = [Stimulus(10, A, 1), Stimulus(13, A, 0)]
    return simulate(netlist, Delays((times,), (), transport), start, pulse, until=100)


@pytest.mark.parametrize(
    ("times", "transport", "seen"),
    [
        ((2, 2), False, [(12, 1), (15, 0)]),
        ((3, 3), False, [(13, 1), (16, 0)]),
        ((4, 4), False, []),
        ((4, 4), True, [(14, 1), (17, 0)]),
        ((2, 5), False, [(12, 1), (18, 0)]),
    ],
    ids=["passes", "as long as the delay", "swallowed", "transport", "falls late"],
)
def test_a_pulse(*, times: tuple[int, int], transport: bool, seen: list[tuple[int, int]]) -> None:
    run = one_gate("and", times, transport=transport)
    assert [(c.time, c.after) for c in run.changes if c.net == OUT] == seen
    assert run.quiet


def flip_flop(
    stimuli: Sequence[Stimulus], *, outcome: str = "X", late: int = 0, enable: int | None = None
) -> Run:
    """A flip-flop with d = A: clock-to-Q 5, set-up time 3, hold time 2; edges at 20 and 60."""
    one = FlipFlop("Q", A, Q, enable, None, None, 0)
    netlist = Netlist(8, {"a": (A,), "b": (B,)}, {}, (), (one,), {})
    delays = Delays((), (Stored(5, (3, 3, 3), 2, late),), outcome=outcome)  # type: ignore[arg-type]
    clock = [Stimulus(t, CLOCK_NET, bit) for t, bit in ((20, 1), (40, 0), (60, 1), (80, 0))]
    return simulate(netlist, delays, START, [*clock, *stimuli], until=100)


def shown(run: Run) -> list[tuple[int, int]]:
    return [(change.time, change.after) for change in run.changes if change.net == Q]


def test_what_stands_long_enough_is_stored() -> None:
    run = flip_flop([Stimulus(17, A, 1), Stimulus(22, A, 0)])
    assert shown(run) == [(25, 1), (65, 0)]
    assert run.violations == ()


@pytest.mark.parametrize("change", [18, 19, 20])
@pytest.mark.parametrize(("outcome", "stored"), [("X", X), ("old", 0), ("new", 1)])
def test_the_setup_time(change: int, outcome: str, stored: int) -> None:
    run = flip_flop([Stimulus(change, A, 1)], outcome=outcome)
    assert dict(shown(run)).get(25, 0) == stored
    (found,) = run.violations
    assert (found.kind, found.edge, found.change, found.needed) == ("setup", 20, change, 3)


@pytest.mark.parametrize(("outcome", "stored"), [("X", X), ("old", 0), ("new", 1)])
def test_the_hold_time(outcome: str, stored: int) -> None:
    run = flip_flop([Stimulus(21, A, 1)], outcome=outcome)
    assert dict(shown(run)).get(25, 0) == stored
    (found,) = run.violations
    assert (found.kind, found.edge, found.change, found.needed) == ("hold", 20, 21, 2)


def test_a_change_that_is_not_stored_needs_no_time() -> None:
    run = flip_flop([Stimulus(19, A, 1)], enable=B)  # b is 0: the flip-flop holds its bit
    assert (shown(run), run.violations) == ([], ())


def test_a_clock_that_comes_late_takes_what_came_meanwhile() -> None:
    run = flip_flop([Stimulus(23, A, 1)], late=10)
    assert shown(run)[0] == (35, 1)


def test_a_clock_that_may_have_risen_leaves_x_where_it_matters() -> None:
    one = FlipFlop("Q", A, Q, None, None, B, 0)
    netlist = Netlist(8, {"a": (A,), "b": (B,)}, {}, (), (one,), {})
    delays = Delays((), (Stored(5),))
    unsure = [Stimulus(0, A, 1), Stimulus(20, B, X)]
    assert shown(simulate(netlist, delays, START, unsure, until=50)) == [(25, X)]


@pytest.mark.parametrize(("outcome", "stored"), [("old", 0), ("new", 1)])
def test_an_x_that_resolves(outcome: str, stored: int) -> None:
    """Metastability: X for a stated time, then a bit, which stands until the next edge."""
    one = FlipFlop("Q", A, Q, None, None, None, 0)
    netlist = Netlist(8, {"a": (A,)}, {}, (), (one,), {})
    delays = Delays((), (Stored(5, (3, 3, 3), 2),), outcome=outcome, resolving=9)  # type: ignore[arg-type]
    stimuli = [Stimulus(18, A, 1), Stimulus(20, CLOCK_NET, 1)]
    run = simulate(netlist, delays, START, stimuli, until=50)
    assert shown(run) == [(25, X), (34, stored)]


def test_either_is_drawn_by_lot() -> None:
    one = FlipFlop("Q", A, Q, None, None, None, 0)
    netlist = Netlist(8, {"a": (A,)}, {}, (), (one,), {})
    stimuli = [Stimulus(18, A, 1), Stimulus(20, CLOCK_NET, 1)]
    seen = []
    for seed in range(40):
        delays = Delays((), (Stored(5, (3, 3, 3), 2),), outcome="either", seed=seed)
        seen.append(shown(simulate(netlist, delays, START, stimuli, until=50)))
    assert {*map(len, seen)} == {0, 1}
    assert 5 < sum(map(len, seen)) < 35


def forced(stimuli: Sequence[Stimulus]) -> list[tuple[int, int]]:
    """A flip-flop of clock-to-Q 5 with d = 1, clear = A, preset = B; edges at 20 and 60."""
    one = FlipFlop("Q", 1, Q, None, None, None, 0, reset=A, preset=B)
    netlist = Netlist(8, {"a": (A,), "b": (B,)}, {}, (), (one,), {})
    clock = [Stimulus(t, CLOCK_NET, bit) for t, bit in ((20, 1), (40, 0), (60, 1), (80, 0))]
    return shown(simulate(netlist, Delays((), (Stored(5),)), START, [*clock, *stimuli], until=100))


@pytest.mark.parametrize(
    ("stimuli", "seen"),
    [
        ([], [(25, 1)]),
        ([(30, A, 1), (32, A, 0)], [(25, 1), (35, 0), (65, 1)]),
        ([(30, A, 1), (62, A, 0)], [(25, 1), (35, 0)]),
        ([(10, B, 1), (12, B, 0)], [(15, 1)]),
        ([(10, B, 1), (30, A, 1)], [(15, 1)]),
        ([(30, A, 1), (40, B, 1), (50, B, 0)], [(25, 1), (35, 0), (45, 1), (55, 0)]),
        ([(22, A, 1)], [(25, 1), (27, 0)]),
        ([(30, A, X)], [(25, 1), (35, X)]),
        ([(10, A, X)], [(25, X)]),
        ([(10, A, 1), (30, A, X)], [(65, X)]),
    ],
    ids=[
        "neither",
        "a pulse clears",
        "no edge while cleared",
        "a pulse presets",
        "preset wins",
        "clear goes on after preset",
        "cleared just after an edge",
        "perhaps cleared",
        "0 however that is",
        "perhaps still cleared at an edge",
    ],
)
def test_preset_and_clear_wait_for_no_edge(
    stimuli: list[tuple[int, int, int]], seen: list[tuple[int, int]]
) -> None:
    """As the function tables of 7474 have it (D-type with preset and clear), active high here."""
    assert forced([Stimulus(*one) for one in stimuli]) == seen


def inverter(delay: int) -> Netlist:
    del delay
    return Netlist(8, {}, {}, (Gate("not", (OUT,), OUT, "N"),), (), {})


def test_an_inverter_on_itself_swings() -> None:
    run = simulate(inverter(5), Delays(((5, 5),), ()), START, [], until=23)
    assert [(c.time, c.after) for c in run.changes] == [(5, 1), (10, 0), (15, 1), (20, 0)]
    assert not run.quiet


def test_one_without_delay_is_told_and_ends() -> None:
    assert not simulate(inverter(0), Delays(((0, 0),), ()), START, [], until=23).quiet


def test_more_changes_than_the_limit_end_it() -> None:
    run = simulate(inverter(1), Delays(((1, 1),), ()), START, [], until=10**9, most=100)
    assert (len(run.changes), run.quiet) == (100, False)


def test_a_spread_out_of_range() -> None:
    with pytest.raises(DesignError, match=r"^the spread is 91 %; expected 0\.\.90$"):
        Delays(((1, 1),), ()).spread(91, 1)


@given(st.integers(0, 90), st.integers(0, 9), st.integers(0, 10**6))
def test_a_spread_stays_within_its_percentage(percent: int, seed: int, ticks: int) -> None:
    (moved,) = Delays((), (Stored(ticks),)).spread(percent, seed).flip_flops
    assert abs(moved.clock_to_q - ticks) <= ticks * percent // 100
    assert bool(moved.clock_to_q) == bool(ticks)
