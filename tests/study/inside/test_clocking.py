"""What clocks do inside a period: windows, false edges, cut pulses."""

from __future__ import annotations

from fractions import Fraction
from itertools import product

import pytest

from edgewise import blueprint, catalogue, run
from edgewise.inside import Inside
from edgewise.study.cost import models
from edgewise.study.inside import Manner, inside
from edgewise.words import messages
from tests.views.timing.test_inside_diagram import TRAYS


def trays(after: int, first: int = 1, last: int = 5, **manner: object) -> Inside:
    design = blueprint.from_text(TRAYS, "tray.yaml").design()
    when = {"tray": Fraction(after)}
    return inside(run(design), first, last, Manner(when=when, **manner))  # type: ignore[arg-type]


@pytest.mark.parametrize("after", range(15))
def test_false_and_cut_exactly_while_the_clock_is_high(after: int) -> None:
    """What gates the clock rises after edge 2 and falls after edge 3, at any time.

    The clock is high for 10 of 20 gate delays: rising then makes an edge that is none row by row,
    falling then ends a pulse early (Mano and Ciletti, Digital Design, sec. 5.4: a gated clock must
    be stable while the clock is high; from memory). The counter with an enable never minds.
    """
    moment = trays(after)
    half = 10
    assert moment.period == 2 * half * moment.ticks
    false = [pulse.edge for pulse in moment.pulses if pulse.false]
    cut = [pulse.edge for pulse in moment.pulses if pulse.cut]
    # In the very tick in which the clock falls the gate never sees both of them 1.
    assert false == ([2] if after < half else [])
    assert cut == ([3] if 0 < after < half - 1 else [])
    e = moment.nets("E")
    assert [moment.at(moment.end)[net] for net in e] == [1, 0]
    g = [moment.at(moment.end)[net] for net in moment.nets("G")]
    # At 0 both come at once: the edge that should come finds the tray gone, so one takes the
    # other's place.
    assert g == ([0, 1] if 0 < after < half else [1, 0])


def test_sentences_in_both_languages() -> None:
    moment = trays(6, 2, 3)
    assert moment.sentences()[2:4] == [
        "false edge: gate.out rises 7 gate delays after edge 2; row by row no edge arrives there",
        "cut pulse: gate.out is high for 6 gate delays after edge 3; the clock is high for 10",
    ]
    assert moment.sentences(messages.of("de"))[2:4] == [
        "falsche Flanke: gate.out steigt 7 Gatterlaufzeiten nach Flanke 2; Zeile für Zeile kommt"
        " dort keine Flanke an",
        "abgeschnittener Impuls: gate.out ist nach Flanke 3 für 6 Gatterlaufzeiten auf 1; der Takt"
        " ist es für 10",
    ]


def test_a_clock_gated_by_the_falling_edge_is_neither_false_nor_cut() -> None:
    for name in ("serial-adder-gated-clock",):
        moment = inside(run(catalogue.design(name, n=4), a=11, b=6), 1, 8)
        assert len(moment.pulses) == 8
        assert not any(pulse.false or pulse.cut for pulse in moment.pulses)


def test_windows_are_those_of_the_model() -> None:
    trace = run(catalogue.design("serial-adder", n=4), a=11, b=6)
    hc = models.technology("74hc")
    moment = inside(trace, 3, 5, Manner(hc, late={"C": Fraction(2)}))
    (carry,) = moment.nets("FA.carry-out")
    timing = hc.timing(trace.design.netlist)
    setup = max(
        at[0]
        for at, f in zip(timing.setup, trace.design.netlist.flip_flops, strict=True)
        if f.d == carry
    )
    edges = [at * moment.period + 2 * moment.ticks for at in range(3)]
    own = [window for window in moment.windows if window.net == carry]
    assert [window.edge for window in own] == edges
    assert {window.edge - window.begin for window in own} == {100 * setup}
    assert {window.end - window.edge for window in own} == {100 * timing.hold}


@pytest.mark.parametrize("model", ["unit-gate", "74hc"])
@pytest.mark.parametrize("late", [{}, {"C": Fraction(2)}, {"S(2)": Fraction(3), "A": Fraction(1)}])
def test_the_least_period_keeps_every_set_up_time_and_no_shorter_one_does(
    model: str, late: dict[str, Fraction]
) -> None:
    """Of a bit-serial adder, where every path is a true one: all operands, all edges."""
    design, known = catalogue.design("serial-adder", n=3), models.technology(model)
    least = inside(run(design, a=1, b=1), 1, manner=Manner(known, late=late)).least
    assert least is not None
    kept = []
    for ticks in (least, least - 1):
        manner = Manner(known, Fraction(ticks, 100), late=late)
        moments = (
            inside(run(design, a=a, b=b), 1, 6, manner) for a, b in product(range(8), repeat=2)
        )
        kept.append(not any(v.kind == "setup" for one in moments for v in one.violations))
    assert kept == [True, False]


def test_the_least_period_is_the_critical_path_where_nothing_is_late() -> None:
    from edgewise.study.cost.critical_path import longest

    for name in ("serial-adder", "johnson-counter", "serial-accumulator", "lfsr"):
        design = catalogue.design(name)
        trace = run(design, **{one.name: 1 for one in design.operands})
        moment = inside(trace, 1)
        assert moment.least is not None
        assert moment.least <= longest(design.netlist).length * moment.ticks


def test_no_least_period_of_gated_clocks_and_of_circuits_without_storage() -> None:
    gated = inside(run(catalogue.design("serial-adder-gated-clock", n=3), a=1, b=2), 1)
    adder = inside(run(catalogue.design("ripple-carry-adder", n=3), a=1, b=2, carry_in=0), 0)
    assert (gated.least, adder.least) == (None, None)


def test_a_clock_that_is_too_fast_says_which_would_do() -> None:
    trace = run(catalogue.design("serial-adder", n=6), a=22, b=43)
    moment = inside(trace, 8, 9, Manner(models.technology("74hc"), Fraction(36)))
    told = (
        "every set-up time is kept, along whatever path, from a period of 51 ns on; this one is 36"
    )
    assert moment.sentences()[-3] == told
    assert moment.sentences(messages.of("de"))[-3] == (
        "jede Setup-Zeit wird eingehalten, auf jedem Pfad, ab einer Periode von 51 ns; diese hat 36"
    )


@pytest.mark.parametrize("late", range(8))
def test_a_shift_register_with_a_late_clock_loses_a_bit_once_it_is_later_than_clock_to_q(
    late: int,
) -> None:
    """Clock-to-Q is 4 gate delays, the hold time 0.

    Skew may be as much as clock-to-Q less the hold time: Weste and Harris, CMOS VLSI Design,
    4th ed., sec. 10.2.5 (from memory).
    """
    trace = run(catalogue.design("serial-in-serial-out", n=4), w=0b0101)
    manner = Manner(late={"R(0)": Fraction(late)} if late else {})
    moment = inside(trace, 1, 4, manner)
    assert bool(moment.late_bits) == (late > 4)
    # In the tick in which the bit changes nobody knows which one is stored.
    assert bool(moment.astray) == (late >= 4)
    for one in moment.late_bits:
        edge = moment.edge_of(one.begin)
        net = trace.design.netlist.flip_flops[one.flip_flop].d
        assert one.net == net
        assert one.before == trace.rows[edge - 1][net]
        assert one.after == moment.at(one.begin + late * moment.ticks - 1)[net] != one.before


def test_skew_in_both_languages() -> None:
    trace = run(catalogue.design("serial-in-serial-out", n=4), w=0b0101)
    moment = inside(trace, 3, 4, Manner(late={"R(0)": Fraction(9)}))
    assert moment.sentences()[2:5] == [
        "the clock comes 9 gate delays late to R(0)",
        "too late: at edge 3 R.bit(0) finds R(1) at 1, not at 0; it changed 4 gate delays after the"
        " edge",
        "too late: at edge 4 R.bit(0) finds R(1) at 0, not at 1; it changed 4 gate delays after the"
        " edge",
    ]
    assert moment.sentences(messages.of("de"))[2:4] == [
        "der Takt kommt 9 Gatterlaufzeiten zu spät an R(0)",
        "zu spät: an Flanke 3 findet R.bit(0) R(1) bei 1, nicht bei 0; es änderte sich 4"
        " Gatterlaufzeiten nach der Flanke",
    ]
    whole = inside(trace, 3, 4, Manner(late={"R": Fraction(9)}))
    assert whole.sentences()[2] == "the clock comes 9 gate delays late to R(0), R(1), R(2) and R(3)"
