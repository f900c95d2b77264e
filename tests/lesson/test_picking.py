"""Operands that the builder picks: what it picks, what it says of it, and wrong wishes."""

from __future__ import annotations

from pathlib import Path

import pytest

from edgewise import cache as kept_results
from edgewise import lesson
from edgewise.errors import EdgewiseError
from edgewise.lesson import picking
from edgewise.study.operands import choose

FRONT = """\
---
title: Two rain gauges
design: serial-adder
with: {n: 6}
operands: %s
---
"""


def checked(wish: str) -> lesson.Report:
    return lesson.check_text(FRONT % wish, "rain.md", Path())


def wrong(wish: str) -> str:
    with pytest.raises(EdgewiseError) as caught:
        checked(wish)
    return str(caught.value)


@pytest.fixture(autouse=True)
def cache(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("EDGEWISE_CACHE", str(tmp_path / "cache"))


def test_the_builder_picks_and_says_what() -> None:
    report = checked("choose")
    assert report.trace.operands == {"a": 3, "b": 22}
    told = (
        "chosen: a = 3, b = 22, because they show 6 of the 8 truth-table rows of the full adder"
        " and a carry chain of 2 places"
    )
    assert report.data()["chosen"] == told
    assert [str(note) for note in report.notes] == [
        f"rain.md:5:11: note: {told}; 13 of 16 misconceptions give a wrong answer"
    ]


def test_it_picks_what_choose_puts_first() -> None:
    report = checked("choose")
    best = choose.choose(report.trace.design, most=1).examples[0]
    assert report.trace.operands == best.operands


def test_a_choice_is_kept(monkeypatch: pytest.MonkeyPatch) -> None:
    first = checked("choose")
    monkeypatch.setattr(choose, "choose", None)
    assert checked("choose").notes == first.notes


def test_wishes_come_true() -> None:
    report = checked("{choose: [carry chain 4, row 011], a: 22, between: 20..60, sum: overflows}")
    a, b = report.trace.operands["a"], report.trace.operands["b"]
    assert a == 22
    assert 20 <= b <= 60
    assert a + b > 63
    assert report.chosen is not None
    assert report.chosen.coverage.carries is not None
    assert report.chosen.coverage.carries.longest >= 4
    assert "011" in report.chosen.coverage.rows


def test_a_seed_picks_others_that_teach_as_well() -> None:
    plain, one, again, other = (
        checked(f"{{choose: {wish}}}").chosen
        for wish in ("", "[], seed: 4", "'', seed: 4", "[], seed: 9")
    )
    assert plain is not None
    assert one is not None
    assert other is not None
    assert one == again
    assert len({tuple(found.operands.values()) for found in (plain, one, other)}) == 3
    assert {len(found.coverage.rows) for found in (plain, one, other)} == {6}


def test_a_family_can_be_fixed_or_picked() -> None:
    text = "---\ntitle: T\ndesign: serial-accumulator\nwith: {n: 4, x: 2}\noperands: %s\n---\n"
    fixed = lesson.check_text(text % "{choose: no carry, w: [1, 2]}", "t.md", Path())
    assert fixed.trace.operands == {"w(1)": 1, "w(2)": 2}
    picked = lesson.check_text(text % "choose", "t.md", Path())
    assert picked.chosen is not None
    assert picked.trace.operands == picked.chosen.operands


def test_no_carry_is_not_warned_of_where_it_is_wished() -> None:
    notes = checked("{choose: no carry}").notes
    assert [note.kind for note in notes] == ["note"]


@pytest.mark.parametrize(
    ("wish", "message"),
    [
        (
            "chose",
            "5:11: operands: found chose, expected choose, or operands such as {a: 22, b: 43}",
        ),
        (
            "{choose: [carry chains 4]}",
            "5:21: carry chains 4 is not a feature; did you mean carry chain 4?",
        ),
        (
            "{choose: [row 011, carry chain 9]}",
            "5:12: there are no operands of serial-adder with row 011, carry chain 9; the longest"
            " carry chain is then 6 places",
        ),
        (
            "{choose: [row 011, misconception carry-droped]}",
            "5:30: misconception carry-droped: none of that name applies here; did you mean"
            " carry-dropped?",
        ),
        (
            "{choose: {a: 1}}",
            "5:20: choose: found keys and values, expected a list, as in [carry chain 4]",
        ),
        ("{choose: , sum: fit}", "5:27: sum: found fit, expected fits or overflows"),
        ("{choose: , between: 20}", "5:31: between: found 20, expected low..high: 20..99"),
        ("{choose: , between: 9..2}", "5:31: between: found 9..2, expected low..high: 20..99"),
        ("{choose: , seed: x}", "5:28: seed: found x, expected a number: 7"),
        ("{choose: , c: 4}", "5:22: there is no operand c; there is: a, b"),
        (
            "{choose: , a: 64}",
            "5:25: operand a is 64, which is too large; the range is 0..63 in 6 bits",
        ),
    ],
)
def test_wrong_wishes_are_told_at_their_places(wish: str, message: str) -> None:
    assert wrong(wish) == f"rain.md:{message}"


def test_a_design_without_operands_has_none_to_choose() -> None:
    text = "---\ntitle: T\ndesign: ring-counter\noperands: choose\n---\n"
    with pytest.raises(EdgewiseError) as caught:
        lesson.check_text(text, "t.md", Path())
    assert str(caught.value) == "t.md:4:11: ring-counter has no operands to choose"


def test_the_source_is_left_as_it_is(tmp_path: Path) -> None:
    path = tmp_path / "rain.md"
    path.write_text(FRONT % "choose", "utf-8")
    lesson.check(path)
    assert path.read_text("utf-8") == FRONT % "choose"


def test_what_has_nothing_to_show_is_said_plainly() -> None:
    report = lesson.check_text(
        "---\ntitle: T\ndesign: carry-lookahead-adder\noperands: choose\n---\n", "t.md", Path()
    )
    assert report.chosen is not None
    assert picking.chosen(report.chosen).endswith("because no others show more")


@pytest.mark.parametrize(
    "kept",
    [
        *("", "{", "[]", "null", "3", '{"a": 3}', '{"a": 3, "b": "x"}', '{"a": 3, "b": null}'),
        *('{"a": 3, "b": 22, "c": 1}', '{"a": 3, "b": 4096}', '{"a": -1, "b": 22}'),
        '{"a": 5, "b": 2}',  # operands of the design, but with a short carry chain
    ],
)
def test_a_kept_choice_that_is_not_what_was_asked_for_is_none(
    kept: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    wish = "{choose: carry chain 4}"
    first = checked(wish).trace.operands
    recall = kept_results.recall
    monkeypatch.setattr(
        kept_results,
        "recall",
        lambda room, key: kept.encode() if room == "chosen" else recall(room, key),
    )
    assert checked(wish).trace.operands == first
