"""Circuits followed in time: ripple counters, two clocks, a bouncing switch, races.

Outside: the states that a ripple counter passes, 0111 0110 0100 0000 1000, and the highest
frequency at which it is still read rightly, 1 / (n t), t from one stage's clock to the next one's
(T. Floyd, *Digital Fundamentals*, ch. on counters, from memory); the synchroniser of two flip-flops
(W. Dally and J. Poulton, *Digital Systems Engineering*, ch. 10, from memory); the latch behind a
changeover switch (P. Horowitz and W. Hill, *The Art of Electronics*, from memory).
"""

from __future__ import annotations

import time
from fractions import Fraction
from pathlib import Path
from typing import Final

import pytest

from edgewise import blueprint, designtext
from edgewise.bits import X
from edgewise.errors import DesignError
from edgewise.response import Response
from edgewise.response.report import data, sentences
from edgewise.study.cost import models
from edgewise.study.inside import Manner, follow
from edgewise.waveform import given
from edgewise.words import messages

HERE: Final = Path(__file__).parents[3] / "examples"
LAB: Final = Manner(models.technology("74hc"))
CLOCK_TO_Q, INVERTER = 14, 7
"""Of a 74HC74 and a 74HC04, typical, in ns."""


def turnstile(n: int, period: int) -> Response:
    waves = given(f"arm: period {period}, pulses {2**n}", "")
    return follow(blueprint.from_file(HERE / "turnstile.yaml").made({"n": n}), LAB, waves)


@pytest.mark.parametrize("n", [3, 4, 6])
def test_a_ripple_counter_takes_a_clock_to_q_for_each_stage(n: int) -> None:
    response = turnstile(n, 1000)
    assert response.slowest is not None
    ripple = n * CLOCK_TO_Q + (n - 1) * INVERTER
    decoder = max(0, response.slowest[0] // response.ticks - ripple)
    history = response.history(response.nets("count"))
    last = {time - response.stretches[-2].begin for time, _ in history[-1:]}
    assert last == {ripple * response.ticks}  # all ones to zero goes through all stages
    assert 0 < decoder <= 21  # the NOR gate behind them, of three inputs, in two packages


def test_the_states_that_it_passes() -> None:
    response = turnstile(4, 1000)
    words = [[str(word) for _, word in one.words] for one in response.passages]
    assert ["0111", "0110", "0100", "0000", "1000"] in words
    assert ["1111", "1110", "1100", "1000", "0000"] in words
    assert len(words) == 8  # every odd count


def read_rightly(n: int, period: int) -> bool:
    """Whether the count is right at each edge, when the next one comes."""
    response = turnstile(n, period)
    rises = range(period // 2, period // 2 + 2**n * period, period)
    seen = [response.word("count", rise * response.ticks - 1) for rise in rises]
    return [word.value if word.known else None for word in seen] == list(range(2**n))


@pytest.mark.parametrize("n", [3, 4])
def test_the_highest_frequency_at_which_it_is_read_rightly(n: int) -> None:
    slow = n * CLOCK_TO_Q + (n - 1) * INVERTER
    least = next(period for period in range(2 * CLOCK_TO_Q, 200, 2) if read_rightly(n, period))
    assert slow <= least <= slow + 3
    assert not read_rightly(n, least - 4)


def test_faster_than_that_no_pulse_is_lost() -> None:
    response = turnstile(4, 44)
    ripple = 4 * CLOCK_TO_Q + 3 * INVERTER
    # The last pulse comes at 22 + 15 x 44 and falls 22 later; then the inputs stand still.
    history = response.history(response.nets("count"))
    assert history[-1][0] == (22 + 15 * 44 + ripple) * response.ticks
    assert response.slowest is not None
    assert response.slowest[1] == (22 + 15 * 44 + 22) * response.ticks
    assert response.busy
    assert str(response.word("count", response.end)) == "0000"
    assert not read_rightly(4, 44)


def quays(outcome: str, resolve: int, seed: int = 1) -> Response:
    manner = Manner(
        models.technology("74hc"),
        outcome=outcome,  # type: ignore[arg-type]
        resolve=Fraction(resolve),
        seed=seed,
    )
    return follow(blueprint.from_file(HERE / "two-quays.yaml").made(), manner)


@pytest.mark.parametrize("outcome", ["old", "new"])
def test_a_second_flip_flop_waits_until_the_first_has_resolved(outcome: str) -> None:
    response = quays(outcome, 20)
    (kept_waiting,) = response.violations
    assert (kept_waiting.kind, kept_waiting.edge) == ("setup", 115 * response.ticks)
    meet, safe = (dict(response.history(response.nets(name))) for name in ("meet", "safe"))
    assert [
        str(meet[time * response.ticks]) for time in (129, 149 if outcome == "new" else 129)
    ] == (["X", "1"] if outcome == "new" else ["X", "X"])
    assert "X" not in {str(word) for word in safe.values()}
    assert str(response.word("safe", response.end)) == "0"


def test_either_comes_a_clock_earlier_or_later() -> None:
    rises = {
        next(time for time, word in response.history(response.nets("safe")) if str(word) == "1")
        // response.ticks
        for response in (quays("either", 20, seed) for seed in range(12))
    }
    assert rises == {199, 269}  # one period of the second clock, 70 ns, apart


def test_an_x_that_stands_for_a_whole_period_passes_on() -> None:
    response = quays("new", 80)
    assert "X" in {str(word) for _, word in response.history(response.nets("safe"))}


def test_a_latch_takes_no_notice_of_bounces() -> None:
    response = follow(blueprint.from_file(HERE / "lamp-button.yaml").made(), LAB)
    ends = {name: response.word(name, response.end).value for name in ("raw", "pressed")}
    assert ends == {"raw": 3, "pressed": 1}  # the switch touches its contact three times


GATE: Final = """\
circuit: many switches
inputs: {x: 7, go: 1}
parts:
  F: {part: register, width: 7, d: x, clock: go}
outputs: {y: F}
waveforms: {x: [0, 127 after 10], go: [0, 1 after 10]}
"""


def test_more_inputs_than_are_tried_are_told() -> None:
    response = follow(blueprint.from_text(GATE, "").made())
    assert [time // response.ticks for time in response.unlooked] == [10]
    said = "so many inputs change at 10 that their order was not looked into"
    assert said in sentences(response)
    spoken = sentences(response, messages.of("de"))
    assert (
        "bei 10 ändern sich so viele Eingänge, dass ihre Reihenfolge nicht untersucht wurde"
        in spoken
    )


def test_data_and_clock_together_are_a_race() -> None:
    text = GATE.replace("x: 7", "x: 1").replace("width: 7", "width: 1").replace("127", "1")
    response = follow(blueprint.from_text(text, "").made())
    race = "race at 10: x and go change together; x first: y = 1; go first: y = 0"
    assert race in sentences(response)
    assert data(response)["races"] == [{"time": "10", "nets": ["x", "go"], "ends": ["1", "0"]}]


def test_a_time_that_ends_before_all_is_at_rest() -> None:
    text = "circuit: g\ninputs: {x: 1}\nparts: {A: {part: nand, in: [x, x]}}\noutputs: {y: A.out}\n"
    design = blueprint.from_text(text, "").made()
    response = follow(design, waveforms=given("x: 0, 1 after 5", ""), until=Fraction("5.5"))
    assert not response.quiet
    assert response.slowest is None
    assert sentences(response) == ["changes are still to come at 5.5"]


def test_a_pulse_too_short_for_its_latch_is_told_as_a_race() -> None:
    """The gates are asked for every order: the state that the pulse leaves may end either way."""
    design = blueprint.from_file(HERE / "weir-alarm.yaml").made()
    response = follow(
        design,
        waveforms=given("high_n: 0, 1 after 10, 0 after 20, 1 after 21; seen_n: 0, 1 after 10", ""),
    )
    assert response.start[response.nets("alarm")[0]] != X
    assert response.races


def test_more_changes_than_are_followed_end_it() -> None:
    response = follow(blueprint.from_file(HERE / "weir-alarm.yaml").made(), until=Fraction(10**6))
    assert response.end == response.changes[-1].time
    (swing,) = response.oscillations
    assert swing.end == response.end


def test_more_steps_than_are_followed() -> None:
    text = "circuit: g\ninputs: {x: 64}\noutputs: {y: x}\n"
    with pytest.raises(DesignError) as wrong:
        follow(
            blueprint.from_text(text, "").made(), waveforms=given("x: period 2, pulses 2000", "")
        )
    said = "the waveforms have more than 200,000 steps of one bit in all"
    assert str(wrong.value) == said


def test_waveforms_are_written_as_circuit_text() -> None:
    design = blueprint.from_file(HERE / "lamp-button.yaml").made()
    again = blueprint.from_text(designtext.text(design), "again.yaml").made()
    assert again.waveforms == design.waveforms


def test_a_long_chain_of_gates_is_at_rest_at_once() -> None:
    """In text order the last gate comes first: again and again through all would be slow."""
    text = "circuit: chain\ninputs: {x: 1}\nnets: {c: 4001}\njoin: {c(0): x}\nparts:\n"
    text += "  N(i = 0..3999): {part: not, in: c(3999 - i), out: c(4000 - i)}\n"
    text += "outputs: {y: c(4000)}\nwaveforms: {x: [0, 1 after 9]}\n"
    began = time.process_time()
    response = follow(blueprint.from_text(text, "").made(), LAB)
    assert str(response.word("y", response.end)) == "1"
    assert response.slowest == (4000 * INVERTER * response.ticks, 9 * response.ticks)
    assert time.process_time() - began < 5
