"""Blocks that look inside clock periods, and claims about time, in lessons."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import pytest

from edgewise.errors import EdgewiseError, Place
from edgewise.lesson import Report, check, check_text, claims
from edgewise.lesson.inside import Opened
from edgewise.publish.handout import build as handout
from edgewise.publish.html.page import html_of
from edgewise.publish.slides import content
from edgewise.publish.slides.shape import SHAPES
from edgewise.study.inside import Manner, inside
from edgewise.study.inside.time_claim import TimeEvidence, TimeVerdict
from edgewise.words import messages

EXAMPLES = Path(__file__).parents[2] / "examples"
HEAD = """\
---
title: Inside
design: serial-adder
with: {n: 4}
operands: {a: 11, b: 6}
"""
PLAIN = HEAD.replace("serial-adder", "ripple-carry-adder").replace("b: 6", "b: 6, carry_in: 0")


def checked(block: str, head: str = HEAD, kind: str = "inside") -> Report:
    text = f"{head}---\nText\n\n```{kind}\n{block}\n```\n"
    return check_text(text, "l.md", Path())


def opened(block: str, head: str = HEAD) -> Opened:
    (piece,) = checked(block, head).pieces.values()
    assert isinstance(piece, Opened)
    return piece


def wrong(block: str, head: str = HEAD, kind: str = "inside") -> str:
    with pytest.raises(EdgewiseError) as caught:
        checked(block, head, kind)
    return str(caught.value)


def test_it_opens_what_is_asked_for() -> None:
    piece = opened("edges: load + 2\ncolumns: [A, FA.sum]\nwhen: {a_in: 5.5}\nlate: {C: 1}")
    manner = Manner(when={"a_in": Fraction("5.5")}, late={"C": Fraction(1)})
    assert piece.inside == inside(piece.inside.trace, 6, manner=manner)
    assert piece.figure.names == ("A", "FA.sum")
    assert piece.title() == "What happens after edge 6, delays of unit-gate"
    assert piece.sentences()[0] == "After edge 6 all nets have settled within 8 gate delays."


def test_the_model_of_the_lesson_holds_unless_the_block_names_one() -> None:
    head = f"{HEAD}model: 74hc\n"
    assert opened("edges: 6..7", head).inside.model == "74hc"
    assert opened("edges: 6\nmodel: cmos", head).inside.model == "cmos"


def test_a_circuit_without_edges() -> None:
    piece = opened("before: {a: 0, b: 0, carry_in: 0}\ncolumns: [sum]", PLAIN)
    assert piece.inside.first == 0
    assert piece.inside.start[piece.inside.nets("a")[0]] == 0
    assert piece.title() == "What happens when the inputs change, delays of unit-gate"


def test_every_change_that_is_shown_is_listed() -> None:
    piece = opened("edges: 6\ncolumns: [FA.sum]")
    assert piece.lines() == [
        ["edge", "time", "net", "from", "to"],
        ["6", "6", "FA.sum", "0", "1"],
        ["6", "8", "FA.sum", "1", "0"],
    ]


def test_many_sentences_are_counted() -> None:
    head = PLAIN.replace("n: 4", "n: 16").replace("a: 11, b: 6", "a: 65535, b: 1")
    piece = opened("before: {a: 0, b: 0, carry_in: 0}", head)
    said = piece.inside.sentences()
    assert len(said) > 12
    assert piece.sentences()[-1] == f"{len(said) - 12} more are among the events."
    german = piece.sentences(messages.of("de"))[-1]
    assert german == f"{len(said) - 12} weitere Ergebnisse stehen bei den Ereignissen."


def test_claims_of_a_block() -> None:
    piece = opened("edges: 6..7\nclaim: settled(FA.sum) within 8 gate delays")
    assert piece.claimed() == [
        (
            "settled(FA.sum) within 8 gate delays",
            "checked on this run in time: no change comes later than 8 gate delays (delays of"
            " unit-gate)",
        )
    ]
    claims = "[no glitch on FA.sum, settled(FA.sum) within 7 gate delays]"
    block = f"edges: 6\nclaim: {claims}\nexpect: false"
    assert [how for _, how in opened(block).claimed(messages.of("de"))] == [
        "falsch, wie die Lektion erwartet: nach Flanke 6 ist FA.sum 0 1 0",
        "falsch, wie die Lektion erwartet: nach Flanke 6 ändert sich FA.sum noch nach 8"
        " Gatterlaufzeiten",
    ]


def test_the_cooling_belt_does_what_its_lesson_says() -> None:
    """Its prose: shift changes while the clock is high, G moves twice, E once, as the belt does."""
    report = check(EXAMPLES / "cooling-belt.md")
    hurt, cured = (piece for piece in report.pieces.values() if isinstance(piece, Opened))
    ends = [
        [str(one.inside.history(one.inside.nets(name))[-1][1]) for name in "GE"]
        for one in (hurt, cured)
    ]
    assert ends == [["1100", "1000"], ["1000", "1000"]]
    assert [(p.edge, p.false, p.cut) for p in hurt.inside.pulses] == [
        (2, True, False),
        (3, False, True),
    ]
    assert [(p.edge, p.false, p.cut) for p in cured.inside.pulses] == [(3, False, False)]
    shift = hurt.inside.nets("shift")
    for change in hurt.inside.of(shift):  # while the clock is high
        assert change.time % hurt.inside.period < hurt.inside.period // 2
    for change in cured.inside.of(shift):  # at the falling edge
        assert change.time % cured.inside.period == cured.inside.period // 2


def test_claims_about_time_among_others() -> None:
    head = f"{HEAD}model: 74hc\n"
    report = checked(
        "value(S after end) == (a + b) mod 16\nsettled(S) within 14 ns for all a, b", head, "claim"
    )
    assert [entry["how"] for entry in report.data()["claims"]] == [
        "checked on this run",
        "proved for all operands: no path takes longer than 14 ns (delays of 74hc)",
    ]
    page = html_of(report)
    assert "settled(S) within 14 ns for all a, b" in page


@pytest.mark.parametrize("language", ["en", "de"])
def test_every_publisher_has_figure_sentences_and_claims(language: str, tmp_path: Path) -> None:
    head = f"{HEAD}language: {language}\n"
    block = "edges: 6..7\ncolumns: [FA.sum]\nclaim: no glitch on FA.sum\nexpect: false"
    report = checked(block, head)
    (piece,) = report.pieces.values()
    assert isinstance(piece, Opened)
    page = html_of(report)
    for sentence in piece.sentences(report.words):
        assert sentence in page
    assert piece.claimed(report.words)[0][1] in page
    assert f"<summary>{report.words('inside-events')}</summary>" in page
    shown = [
        s
        for s in content.deck(report, SHAPES["16:9"]).slides
        if s.title == piece.title(report.words)
    ]
    assert [bool(slide.pictures) for slide in shown] == [True, False]
    assert [line.text for line in shown[1].lines] == piece.sentences(report.words)
    path = tmp_path / "l.md"
    path.write_text(f"{head}---\nText\n\n```inside\n{block}\n```\n", "utf-8")
    assert handout.build(path, tmp_path)


@pytest.mark.parametrize(
    ("block", "head", "message"),
    [
        (
            "columns: [A]",
            HEAD,
            "l.md:10:1: inside needs the edges behind which it looks, as in edges: 8 or edges:"
            " 8..9",
        ),
        ("edges: 9", HEAD, "l.md:10:8: there is no row 9: the rows are 0..8"),
        ("edges: 0", HEAD, "l.md:10:8: there is no edge 0: the edges are 1..8"),
        ("edges: 7..6", HEAD, "l.md:10:8: edges 7..6 is empty; write low..high"),
        ("edges: 6-7", HEAD, "l.md:10:8: edges: found 6-7; write 6..7"),
        (
            "edges: 1",
            PLAIN,
            "l.md:10:8: edges: ripple-carry-adder has no clock edges; leave the entry out",
        ),
        (
            "edges: 6\nmodel: 74hx",
            HEAD,
            "l.md:11:8: there is no cost model 74hx; did you mean 74hc?",
        ),
        (
            "edges: 6\nperiod: soon",
            HEAD,
            "l.md:11:9: period: found soon, expected a time of 0 or more in units of the model,"
            " with two decimals at most",
        ),
        (
            "edges: 6\nwhen: {a_in: 1.234}",
            HEAD,
            "l.md:11:14: a_in: found 1.234, expected a time of 0 or more in units of the model,"
            " with two decimals at most",
        ),
        (
            "edges: 6\nspread: -3",
            HEAD,
            "l.md:11:9: spread: found -3, expected a number of 0 or more",
        ),
        ("edges: 6\nseed: 3", HEAD, "l.md:10:1: seed has no effect without spread"),
        ("edges: 6\nexpect: false", HEAD, "l.md:10:1: expect has no effect without claim"),
        (
            "edges: 6\npulses: short",
            HEAD,
            "l.md:11:9: pulses: found short, expected inertial or transport",
        ),
        (
            "edges: 6\ncolumns: [T]",
            HEAD,
            "l.md:11:11: there is no T here; there is: A, B, C, S, a_in, b_in, carry, shift, sum",
        ),
        (
            "edges: 6\nwhen: {T: 3}",
            HEAD,
            "l.md:10:1: there is no input T; there is: a_in, b_in, shift",
        ),
        (
            "edges: 6\nbefore: {a: 1}",
            HEAD,
            "l.md:11:9: before is for a circuit without clock edges; the row before an edge is"
            " known",
        ),
        ("before: {a: x}", PLAIN, "l.md:10:13: a: found x, expected a number"),
        (
            "edges: 6\nclaim: S after 6 == 1",
            HEAD,
            "l.md:11:8: claim: found S after 6 == 1, expected a claim about time, as in settled(S)"
            " within 12 ns or no glitch on FA.sum; others stand in a claim block",
        ),
        (
            "edges: 6\nclaim: no glitch on C\nexpect: false",
            HEAD,
            'l.md:11:8: expected false, but the claim "no glitch on C" is true: checked on this run'
            " in time (delays of unit-gate)",
        ),
        (
            "edges: 6\nclaim: settled(FA.sum) within 7 gate delays",
            HEAD,
            'l.md:11:8: the claim "settled(FA.sum) within 7 gate delays" is false: after edge 6'
            " FA.sum changes as late as 8 gate delays",
        ),
        (
            "edge: 6",
            HEAD,
            "l.md:10:1: inside has no entry edge; did you mean edges?",
        ),
    ],
)
def test_what_can_not_be_opened(block: str, head: str, message: str) -> None:
    assert wrong(block, head) == message


@pytest.mark.parametrize(
    ("claim", "head", "message"),
    [
        (
            "settled(S) within 4 gate delays",
            HEAD,
            "l.md:10:1: a claim about time holds with some delays only; write model: 74hc in the"
            " front matter, or another of cmos, gate-count, unit-gate, 74hc, 74hc-worst",
        ),
        (
            "settled(FA.sum) within 7 gate delays",
            f"{HEAD}model: unit-gate\n",
            'l.md:11:1: the claim "settled(FA.sum) within 7 gate delays" is false: after edge 4'
            " FA.sum changes as late as 8 gate delays",
        ),
        (
            "settled(FA.sum) within 7 ns",
            f"{HEAD}model: unit-gates\n",
            "l.md:6:8: there is no cost model unit-gates; did you mean unit-gate?",
        ),
    ],
)
def test_claims_that_are_refused(claim: str, head: str, message: str) -> None:
    assert wrong(claim, head, "claim") == message


def test_a_claim_whose_time_was_up_is_not_told_as_true() -> None:
    place = Place("l.md", 11, 1)
    statement = claims.read("no glitch on FA.sum for all a, b", place)
    verdict = TimeVerdict(
        holds=False, evidence=TimeEvidence("undecided", "unit-gate", "gate delays"), undecided=True
    )
    with pytest.raises(claims.OpenClaim) as caught:
        claims.refuse(statement, verdict)
    assert str(caught.value) == (
        'l.md:11:1: the claim "no glitch on FA.sum for all a, b" is undecided: time was up; claim'
        " it for smaller words"
    )
