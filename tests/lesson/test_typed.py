"""Typed numbers: those that look like a computed one are pointed out."""

from __future__ import annotations

from pathlib import Path

import pytest

from edgewise import lesson
from edgewise.lesson import checking, scaffold, typed

HEAD = "---\ntitle: T\ndesign: serial-adder\nwith: {n: 6}\noperands: {a: 22, b: 43}\n---\n"


def warned(text: str, folder: Path) -> list[str]:
    report = checking.check_text(HEAD + text, "rain.md", folder)
    return [str(note) for note in report.notes if "typed" in note.text]


def test_equal_and_nearly_equal_numbers_are_told_with_their_line(tmp_path: Path) -> None:
    found = warned("The sum is `? a + b`.\n\nIt is 65,\nor 64, and 22 tips.\n", tmp_path)
    assert found == [
        "rain.md:9:1: warning: 65 is typed, and a + b is 65 too: if that is meant, write"
        " `? a + b`, so that it follows; a typed number is not checked".replace("9:1", "9"),
        "rain.md:10: warning: 64 is typed, but a + b is 65: if that is meant, write `? a + b`;"
        " a typed number is not checked",
        "rain.md:10: warning: 22 is typed, and a is 22 too: if that is meant, write `? a`, so that"
        " it follows; a typed number is not checked",
    ]


@pytest.mark.parametrize(
    "text",
    [
        "Six columns, 6 of them, and 80 tips.",  # words, small, and far from all
        "Code `65` and `? 65` are computed or code: `? a + b`.",
        "```text\n65\n```\n",
        "Version 65.3, the 65th, A65, 65:1.",  # no whole numbers of their own
    ],
)
def test_other_numbers_are_left_alone(text: str, tmp_path: Path) -> None:
    assert warned(f"`? a + b`\n\n{text}\n", tmp_path) == []


def test_a_formula_behind_an_equals_sign_is_told_once(tmp_path: Path) -> None:
    text = "Code is `= 3 +`, `== a`, `a = 22`, `= x`.\n\nHere\n`=A after 6` and `= b`.\n"
    report = checking.check_text(HEAD + text, "rain.md", tmp_path)
    assert [str(note) for note in report.notes] == [
        "rain.md:10: warning: `= A after 6` is shown as code, and A after 6 is 010110: if that is"
        " meant, write `? A after 6`"
    ]
    assert report.values == {}


def test_small_numbers_that_count_what_a_run_counts_are_told(tmp_path: Path) -> None:
    head = HEAD.replace("n: 6", "n: 4").replace("22", "2").replace("43", "3")
    text = (
        "After 8 clock edges, or 7 pulses, both words of 4 bits are added.\n"
        "Nach 8 Taktflanken sind Wörter von 4 Bits addiert.\n\n"
        "In 2 columns, 3 tips, 5 edges of the table, step 8, 6 bits, a 4-bit group.\n\n"
        "```edge-table\ncaption: The sum after 8 edges\n```\n"
    )
    report = checking.check_text(head + text, "rain.md", tmp_path)
    found = [str(note) for note in report.notes if "typed" in note.text]
    same = "too: if that is meant, write `? {0}`, so that it follows; a typed number is not checked"
    edges, bits = same.format("edges"), same.format("n")
    assert found == [
        f"rain.md:7: warning: 8 is typed, and edges is 8 {edges}",
        "rain.md:7: warning: 7 is typed, but edges is 8: if that is meant, write `? edges`; a typed"
        " number is not checked",
        f"rain.md:7: warning: 4 is typed, and n is 4 {bits}",
        f"rain.md:8: warning: 8 is typed, and edges is 8 {edges}",
        f"rain.md:8: warning: 4 is typed, and n is 4 {bits}",
        f"rain.md:13: warning: 8 is typed, and edges is 8 {edges}"
        "; a caption computes nothing, so say it in the text beside",
    ]


def test_within_one_percent_is_nearly_equal() -> None:
    assert typed._like("1010", {1000: "x"}) == ("x", 1000, False)
    assert typed._like("1011", {1000: "x"}) is None


def test_a_strict_lesson_is_not_stopped_by_a_typed_number(tmp_path: Path) -> None:
    head = HEAD.replace("title: T", "title: T\nexamples: strict").replace("22", "27")
    report = checking.check_text(f"{head}`? a`, 27.\n", "rain.md", tmp_path)
    assert any("27 is typed" in note.text for note in report.notes)


@pytest.mark.parametrize("path", sorted(Path("examples").glob("*.md")), ids=lambda p: p.stem)
def test_the_demo_lessons_have_no_such_number(path: Path) -> None:
    assert not [n.text for n in lesson.check(path).notes if n.kind == "warning"]


def test_a_first_lesson_has_none_either(tmp_path: Path) -> None:
    from edgewise import catalogue

    path = scaffold.write(tmp_path / "one", catalogue.find("serial-adder"), "serial-adder")
    assert not [n.text for n in lesson.check(path).notes if n.kind == "warning"]
