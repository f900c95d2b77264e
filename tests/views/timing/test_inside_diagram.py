"""Timing diagrams of what happens inside clock periods."""

from __future__ import annotations

import random
import re
from fractions import Fraction
from itertools import pairwise

import pytest

from edgewise import blueprint, catalogue, run
from edgewise.errors import EdgewiseError
from edgewise.inside import Inside
from edgewise.study.cost import models
from edgewise.study.inside import Manner, inside
from edgewise.views.drawing import theme
from edgewise.views.drawing.column import column, fitting
from edgewise.views.drawing.shapes import Group, Line, Path, Rectangle, Text
from edgewise.views.drawing.svg import Drawing, svg
from edgewise.views.registry import Wish, figure, possible
from edgewise.views.text.alt_text import MOST
from edgewise.views.timing.inside_diagram import inside_timing
from edgewise.views.timing.inside_plan import names_of, plan_of
from edgewise.words import messages
from tests.conftest import Golden
from tests.views.measures import faults, texts

NAMES = ["A", "C", "FA.sum", "FA.carry-out", "S"]
TRAYS = """\
circuit: tray counter
inputs: {tray: 1}
parts:
  gate: {part: and, in: [clock, tray]}
  G: {part: counter, width: 2, clock: gate.out}
  E: {part: counter, width: 2, enable: tray}
outputs: {gated: G, enabled: E}
procedure:
  - {phase: empty, edges: 2, tray: 0}
  - {phase: passing, edges: 1, tray: 1}
  - {phase: gap, edges: 2, tray: 0}
computes: {gated: 1, enabled: 1}
"""


def adder(first: int = 8, last: int = 9, **manner: object) -> Inside:
    trace = run(catalogue.design("serial-adder", n=6), a=22, b=43)
    return inside(trace, first, last, Manner(**manner))  # type: ignore[arg-type]


def fast() -> Inside:
    """A clock that is too fast for the adder in parts of the series 74HC."""
    return adder(model=models.technology("74hc"), period=Fraction(36))


def trays() -> Inside:
    design = blueprint.from_text(TRAYS, "tray.yaml").design()
    return inside(run(design), 2, 4, Manner(when={"tray": Fraction(6)}))


def groups(drawing: Drawing, kind: str) -> list[Group]:
    return [item for item in drawing.items if isinstance(item, Group) and item.kind == kind]


def written(drawing: Drawing, kind: str) -> list[str]:
    return [i.text for group in groups(drawing, kind) for i in group.items if isinstance(i, Text)]


def test_two_periods(golden: Golden) -> None:
    golden("figure-inside-serial-adder.svg", svg(inside_timing(adder(), NAMES, legend=True)))


def test_times_not_kept(golden: Golden) -> None:
    golden("figure-inside-too-fast.svg", svg(inside_timing(fast(), width=column("85mm").room)))


def test_a_gated_clock_in_german(golden: Golden) -> None:
    drawn = inside_timing(trays(), ["tray", "gate.out", "G", "E"], words=messages.of("de"))
    golden("figure-inside-gated-clock.svg", svg(drawn))


@pytest.mark.parametrize("name", catalogue.ORDER)
@pytest.mark.parametrize("model", ["unit-gate", "74hc"])
def test_no_text_meets_another_and_a_column_of_paper_is_enough(name: str, model: str) -> None:
    design, draw = catalogue.design(name), random.Random(1)  # noqa: S311  # cases, no secrets
    trace = run(
        design, **{one.name: one.number(draw.getrandbits(one.width)) for one in design.operands}
    )
    first = min(trace.edges, 3)
    moment = inside(trace, first, min(trace.edges, 4), Manner(models.technology(model)))
    paper = column("85mm")
    drawing = inside_timing(moment, legend=False, width=paper.room)
    assert not faults(drawing)
    fitting(drawing.width, paper)
    assert len(drawing.description) <= MOST


def test_every_change_stands_at_its_time() -> None:
    """The slopes of a bit's line, against the events; the axis says where 0 and 10 are."""
    moment = adder()
    drawing = inside_timing(moment, ["FA.sum", "FA.carry-out", "C"])
    plan = plan_of(moment, ["FA.sum", "FA.carry-out", "C"])
    (axis,) = groups(drawing, "axis")
    zero, ten = (
        next(i for i in axis.items if isinstance(i, Text) and i.text == t) for t in ["0", "10"]
    )
    pitch = (ten.x - zero.x) / (10 * moment.ticks)
    assert pitch == pytest.approx(plan.scale.pitch)
    for signal in groups(drawing, "signal"):
        paths = [item for item in signal.items if isinstance(item, Path) and item.stroke]
        found = sorted(
            float(x) for path in paths for x in re.findall(r"M([\d.]+) [\d.]+L", path.data)
        )
        changes = [change.time for change in moment.of(moment.nets(signal.name))]
        assert found == [pytest.approx(zero.x + pitch * time, abs=0.01) for time in changes]


def test_glitches_are_marked_where_they_are() -> None:
    moment = adder()
    drawing = inside_timing(moment, NAMES)
    assert [
        (group.name, [i.text for i in group.items if isinstance(i, Text)])
        for group in groups(drawing, "marks")
    ] == [
        ("FA.sum", ["glitch"]),
        ("FA.carry-out", ["glitch"]),
    ]
    plan = plan_of(moment, NAMES)
    for group in groups(drawing, "marks"):
        bracket = next(item for item in group.items if isinstance(item, Line))
        (glitch,) = (one for one in moment.glitches if one.net in moment.nets(group.name))
        ends = [plan.lines[0].x(change.time) for change in (glitch.changes[0], glitch.changes[-1])]
        assert [bracket.points[0][0], bracket.points[-1][0]] == ends


def test_glitches_without_room_are_counted() -> None:
    """Sum bits that glitch at once share a bracket; together they are as many as there are."""
    design = catalogue.design("ripple-carry-adder", n=8)
    before = run(design, a=0, b=0, carry_in=0)
    moment = inside(run(design, a=255, b=1, carry_in=0), 0, before=before)
    shown = [one for one in moment.glitches if one.net in moment.nets("sum")]
    assert len(shown) > 1
    drawing = inside_timing(moment, ["sum"])
    assert written(drawing, "marks") == [f"{len(shown)} glitches"]


def test_the_settled_time_is_that_of_the_facts() -> None:
    moment = adder()
    facts = [moment.figure(moment.settled(edge) or 0) for edge in (8, 9)]
    assert written(inside_timing(moment), "settled") == [f"settled: {time}" for time in facts]


def test_a_period_that_ends_too_soon_has_no_settled_time() -> None:
    moment = fast()
    assert [moment.rests(edge) for edge in (8, 9)] == [False, True]
    assert len(written(inside_timing(moment), "settled")) == 1


def test_windows_stand_around_edges_and_those_not_kept_in_brick() -> None:
    moment = fast()
    drawing = inside_timing(moment, ["FA.sum", "C"])
    rims = [
        item
        for group in groups(drawing, "signal")
        for part in group.items
        if isinstance(part, Group)
        for item in part.items
        if isinstance(item, Rectangle)
    ]
    x = plan_of(moment, ["FA.sum", "C"]).lines[0].x
    (sum_,) = moment.nets("FA.sum")
    own = {(one.begin, one.end): one.edge for one in moment.windows if one.net == sum_}
    broken = {one.edge for one in moment.violations if one.net == sum_}
    assert [(r.x, r.stroke == theme.BRICK) for r in rims] == [
        (x(begin), edge in broken) for (begin, _), edge in own.items()
    ]
    assert [r.x + r.width for r in rims] == [pytest.approx(x(end)) for _, end in own]
    assert broken
    assert written(drawing, "marks")[0] == "set-up time not kept"
    # The figures of the series 74HC: set-up 13 ns, hold 3 ns, as the sentences say.
    assert {(e - b, n - e) for b, n, e in ((*k, v) for k, v in own.items())} == {(1300, 300)}


def test_a_false_edge_and_a_cut_pulse_are_marked() -> None:
    moment = trays()
    drawing = inside_timing(moment, ["tray", "gate.out", "G", "E"])
    assert written(drawing, "marks") == ["false edge", "cut pulse"]
    assert drawing.description.startswith(
        "After edge 2 all nets have settled within 14 gate delays."
        " After edge 3 all nets have settled within 9 gate delays."
        " After edge 4 no net but the clock changes."
        " False edge: gate.out rises 7 gate delays after edge 2; row by row no edge arrives there."
        " Cut pulse: gate.out is high for 6 gate delays after edge 3; the clock is high for 10."
    )


def test_a_late_clock_is_marked_where_it_comes(golden: Golden) -> None:
    trace = run(catalogue.design("serial-in-serial-out", n=4), w=0b0101)
    moment = inside(trace, 3, 4, Manner(late={"R(0)": Fraction(9)}))
    drawing = inside_timing(moment, ["R(2)", "R(1)", "R(0)"])
    assert written(drawing, "marks") == ["late clock", "late clock"]
    golden("figure-inside-skew.svg", svg(drawing))


def test_long_periods_break_into_lines_of_equal_scale() -> None:
    moment = adder(7, 10, model=models.technology("74hc"))
    drawing = inside_timing(moment, NAMES, width=300)
    lines = groups(drawing, "axis")
    assert len(lines) == 4
    places = [
        [i.x for i in line.items if isinstance(i, Text) and i.text in {"0", "50"}] for line in lines
    ]
    assert len({b - a for line in places for a, b in pairwise(line)}) == 1


def test_a_circuit_without_clock_is_drawn_until_it_is_quiet() -> None:
    design = catalogue.design("ripple-carry-adder", n=4)
    before = run(design, a=0, b=15, carry_in=0)
    drawing = inside_timing(inside(run(design, a=1, b=15, carry_in=0), 0, before=before))
    assert not groups(drawing, "clock")
    assert drawing.title == (
        "Inside, delays of unit-gate: ripple-carry adder, n = 4, a = 1, b = 15, carry_in = 0"
    )
    assert "edge" not in [text.text for text in texts(drawing)]


def test_what_is_shown_unless_it_is_said() -> None:
    assert names_of(fast()) == fast().trace.columns


@pytest.mark.parametrize(
    ("names", "message"),
    [
        (
            [],
            "no net was chosen; name at least one of: shift, a_in, b_in, A, B, FA.sum,"
            " FA.carry-out, C, S",
        ),
        (["FA.sun"], "there is no FA.sun here; did you mean FA.sum?"),
    ],
)
def test_what_can_not_be_drawn(names: list[str], message: str) -> None:
    with pytest.raises(EdgewiseError) as caught:
        inside_timing(adder(), names)
    assert str(caught.value) == message


def test_more_lines_than_a_figure_has() -> None:
    trace = run(catalogue.design("serial-adder", n=40), a=2**40 - 1, b=1)
    moment = inside(trace, 1, 80)
    with pytest.raises(EdgewiseError) as caught:
        possible(trace, "timing", Wish(inside=moment, names=["FA.sum"], room=200))
    assert str(caught.value) == (
        "the 80 clock periods need 80 lines; a figure has up to 40: draw fewer edges, or wider"
    )


def test_the_registry_draws_it() -> None:
    moment = adder()
    wish = Wish(inside=moment, names=["FA.sum"], clock="hidden")
    drawing = figure(moment.trace, "timing", wish)
    assert not groups(drawing, "clock")
    assert drawing.title == inside_timing(moment).title
