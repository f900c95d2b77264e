"""What clocks do inside a period: windows, false edges, cut pulses."""

from __future__ import annotations

from fractions import Fraction

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
