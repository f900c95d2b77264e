"""Claims about time, against every run looked into by itself."""

from __future__ import annotations

from fractions import Fraction
from itertools import product

import pytest

from edgewise import catalogue, formula, run
from edgewise.errors import EdgewiseError
from edgewise.formula import TimeClaim
from edgewise.study.claims.run import Run
from edgewise.study.cost import models
from edgewise.study.inside import Manner, inside
from edgewise.study.inside.time_claim import TimeVerdict, settle, settle_moment
from edgewise.words import messages

ADDER = Run(catalogue.design("serial-adder", n=3), {"a": 3, "b": 5})
RIPPLE = Run(catalogue.design("ripple-carry-adder-without-carry-in", n=2), {"a": 1, "b": 3})


def claim(text: str) -> TimeClaim:
    read: TimeClaim = formula.parse(text, "time_claim")
    return read


def settled(text: str, of: Run = ADDER, manner: Manner | None = None) -> TimeVerdict:
    return settle(claim(text), of, manner or Manner())


@pytest.mark.parametrize("name", ["S", "FA.sum", "FA.carry-out", "C"])
def test_the_least_time_that_is_true_is_that_of_the_slowest_run(name: str) -> None:
    """Of all operands, each edge; one hundredth less is false."""
    times = []
    for a, b in product(range(8), repeat=2):
        moment = inside(run(ADDER.design, a=a, b=b), 1, 6)
        nets = moment.nets(name)
        times += [Fraction(moment.settled(edge, nets) or 0, moment.ticks) for edge in range(1, 7)]
    least = max(times)
    assert settled(f"settled({name}) within {least} gate delays for all a, b").holds
    false = settled(f"settled({name}) within {float(least) - 0.01} gate delays for all a, b")
    assert not false.holds
    assert false.why is not None
    assert false.why.time == str(least)
    # What it names fails in a run by itself.
    alone = inside(run(ADDER.design, **false.counterexample), false.why.edge)
    assert Fraction(alone.settled(false.why.edge, alone.nets(name)) or 0, alone.ticks) == least


def test_a_circuit_without_edges_is_claimed_for_all_changes_of_its_operands() -> None:
    times = []
    for a, b, c, d in product(range(4), repeat=4):
        moment = inside(run(RIPPLE.design, a=a, b=b), 0, before=run(RIPPLE.design, a=c, b=d))
        times.append(moment.settled(0, moment.nets("sum")) or 0)
    least = Fraction(max(times), 100)
    # No path is that short, so every change is run.
    verdict = settled(f"settled(sum) within {least} gate delays for all a, b", RIPPLE)
    assert verdict.holds
    assert verdict.evidence.way in {"paths", "sets-settled"}
    false = settled(f"settled(sum) within {float(least) - 0.01} gate delays for all a, b", RIPPLE)
    assert set(false.counterexample) == {"a", "b", "a before", "b before"}


def test_false_paths_are_proved_not_to_count() -> None:
    """The carry-skip adder: 38 along its critical path, 22 its true delay.

    The figures are those of `edgewise.study.cost.true_delay`, which has its own tests from outside.
    """
    skip = Run(catalogue.design("carry-skip-adder", n=16), {"a": 1, "b": 3})
    verdict = settled("settled(sum, carry) within 22 gate delays for all a, b", skip)
    assert verdict.evidence.way == "sat"
    assert verdict.how == (
        "proved for all operands by a SAT solver: no change comes later than 22 gate delays,"
        " whatever stood before (delays of unit-gate)"
    )
    with pytest.raises(EdgewiseError, match="each run in time"):
        settled("settled(sum, carry) within 21 gate delays for all a, b", skip)


def test_glitches_of_all_runs() -> None:
    assert settled("no glitch on S, C for all a, b").evidence.way == "stored"
    glitching = set()
    for a, b in product(range(8), repeat=2):
        moment = inside(run(ADDER.design, a=a, b=b), 1, 6)
        (sum_,) = moment.nets("FA.sum")
        if any(one.net == sum_ for one in moment.glitches):
            glitching.add((a, b))
    false = settled("no glitch on FA.sum for all a, b")
    ones = min(glitching, key=lambda of: (sum(map(int.bit_count, of)), of))
    assert tuple(false.counterexample.values()) == ones
    calm = next((a, b) for a, b in product(range(8), repeat=2) if (a, b) not in glitching)
    alone = Run(ADDER.design, dict(zip("ab", calm, strict=True)))
    assert settled("no glitch on FA.sum", alone).holds


def test_what_a_gated_clock_does_is_a_glitch() -> None:
    design = catalogue.design("serial-adder-gated-clock", n=2)
    trace = run(design, a=1, b=2)
    moment = inside(trace, 2)
    assert settle_moment(claim("no glitch on gate.out"), moment, Manner()).holds


@pytest.mark.parametrize(
    ("text", "of", "told", "german"),
    [
        (
            "settled(S) within 4 gate delays for all a, b",
            ADDER,
            "proved for all operands: no path takes longer than 4 gate delays (delays of"
            " unit-gate)",
            "für alle Operanden bewiesen: kein Pfad dauert länger als 4 Gatterlaufzeiten"
            " (Laufzeiten von unit-gate)",
        ),
        (
            "no glitch on C for all a",
            ADDER,
            "proved for all operands: it follows an input or a flip-flop alone, which changes once"
            " an edge",
            "für alle Operanden bewiesen: es folgt allein einem Eingang oder einem Flipflop, die"
            " sich je Flanke einmal ändern",
        ),
        (
            "settled(C) after 4 within 5 gate delays",
            ADDER,
            "checked on this run in time: no change comes later than 4 gate delays (delays of"
            " unit-gate)",
            "an diesem Ablauf zeitlich geprüft: keine Änderung kommt später als nach 4"
            " Gatterlaufzeiten (Laufzeiten von unit-gate)",
        ),
        (
            "no glitch on FA.G1.out for all a, b",
            ADDER,
            "checked in time on all 64 runs (delays of unit-gate)",
            "an allen 64 Abläufen zeitlich geprüft (Laufzeiten von unit-gate)",
        ),
    ],
)
def test_how_it_was_found(text: str, of: Run, told: str, german: str) -> None:
    verdict = settled(text, of)
    assert verdict.holds
    assert verdict.how == told
    assert verdict.evidence.told(messages.of("de")) == german


def test_the_time_can_be_up() -> None:
    verdict = settle(claim("no glitch on FA.G1.out for all a, b"), ADDER, Manner(), limit=-1)
    assert (verdict.holds, verdict.undecided, verdict.how) == (
        False,
        True,
        "time was up",
    )


def test_other_delays_are_in_their_own_unit() -> None:
    hc = Manner(models.technology("74hc"))
    assert settled("settled(C) within 14 ns for all a, b", manner=hc).evidence.latest == "14"
    late = Manner(models.technology("74hc"), late={"C": Fraction(2)})
    assert settled("settled(C) within 14 ns", manner=late).why is not None


@pytest.mark.parametrize(
    ("text", "of", "message"),
    [
        (
            "settled(S) within 12",
            ADDER,
            "within 12 has no unit; the model unit-gate counts in gate delays: write within 12"
            " gate delays",
        ),
        (
            "settled(S) within 12 ns",
            ADDER,
            "within 12 ns: the model unit-gate counts in gate delays; write within 12 gate delays,"
            " or name another model",
        ),
        (
            "settled(S) within 1.234 gate delays",
            ADDER,
            "within 1.234 gate delays: a time has two decimals at most",
        ),
        (
            "settled(T) within 1 gate delay",
            ADDER,
            "there is no T here; there is: A, B, C, S, a_in, b_in, carry, shift, sum",
        ),
        ("no glitch on S after 0", ADDER, "there is no edge 0: the edges are 1..6"),
        (
            "no glitch on S after 7",
            ADDER,
            "S after 7: there is no edge 7; the edges are 0..6; 0 is the start",
        ),
        (
            "no glitch on FA.sum for all a, d",
            ADDER,
            "for all d: there is no operand d; there is: a, b",
        ),
        (
            "no glitch on sum",
            RIPPLE,
            "without clock edges it depends on what stood before: claim it for all operands, or in"
            " an inside block with before",
        ),
        (
            "no glitch on FA.sum for all a, b",
            Run(catalogue.design("serial-adder", n=7), {"a": 3, "b": 5}),
            "for all a, b means 2^14 = 16,384 runs in time; the limit is 2^12 = 4,096: claim it for"
            " smaller words, or for fewer operands",
        ),
        (
            "no glitch on sum for all a, b",
            Run(catalogue.design("ripple-carry-adder-without-carry-in", n=4), {"a": 1, "b": 3}),
            "for all a, b means 2^16 = 65,536 changes of operands, each run in time; the limit is"
            " 2^12 = 4,096: claim it for smaller words, or for fewer operands",
        ),
    ],
)
def test_what_can_not_be_claimed(text: str, of: Run, message: str) -> None:
    with pytest.raises(EdgewiseError) as caught:
        settled(text, of)
    assert caught.value.message == message


def test_a_block_is_about_its_edges_and_one_run() -> None:
    moment = inside(ADDER.trace, 3, 4)
    for text, message in (
        ("no glitch on S after 5", "the claim is about edge 5, the block about 3..4"),
        (
            "no glitch on S for all a",
            "an inside block is about one run; write the claim without for all, or in a claim"
            " block",
        ),
    ):
        with pytest.raises(EdgewiseError) as caught:
            settle_moment(claim(text), moment, Manner())
        assert caught.value.message == message


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("settled(S)", "the formula ends too early; expected an operator or within and a time"),
        ("settled(S) within ns", "found 'ns'; expected a time"),
        ("no glitch FA.sum", "found 'FA'; expected on"),
        ("settled(S) within 12 ns for n in 3..4", "found 'n in'; expected all"),
        (
            "no glitch on S before 3",
            "a claim about time is about what happens after an edge: write after",
        ),
    ],
)
def test_what_can_not_be_read(text: str, message: str) -> None:
    with pytest.raises(EdgewiseError) as caught:
        claim(text)
    assert caught.value.message == f"can't read {text!r}: {message}"
