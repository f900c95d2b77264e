"""The coverage block, and what a build says of an example that leaves something idle."""

from __future__ import annotations

import json
import sys
from pathlib import Path

import pytest

from edgewise import cli, lesson
from edgewise.errors import EdgewiseError
from edgewise.lesson.covered import Covered
from tests.conftest import Golden

FRONT = """\
---
title: Two rain gauges on a dry day
design: serial-adder
with: {n: 4}
operands: {a: 0, b: 5}
---
"""
CARRY = "The carry flip-flop C is never set: this example would look the same without it."
IDLE = "A never holds a 1."


def checked(text: str) -> lesson.Report:
    return lesson.check_text(text, "rain.md", Path())


def covered(block: str) -> Covered:
    (piece,) = checked(f"{FRONT}\n```coverage\n{block}```\n").pieces.values()
    assert isinstance(piece, Covered)
    return piece


def wrong(text: str) -> str:
    with pytest.raises(EdgewiseError) as caught:
        checked(text)
    return str(caught.value)


def test_the_block_tells_of_the_lessons_own_example(golden: Golden) -> None:
    piece = covered("")
    lines = [piece.title(), *(" | ".join(line) for line in piece.lines()), *piece.sentences()]
    golden("lesson-coverage.txt", "\n".join(lines) + "\n")


def test_parts_and_forms_can_be_chosen() -> None:
    piece = covered("show: sentences\nparts: [carries, rows]\ncaption: On a dry day\n")
    assert (piece.title(), piece.lines()) == ("On a dry day", ())
    assert piece.sentences() == (
        CARRY,
        "Only 2 of the 8 truth-table rows are covered by FA: 000 and 010 (a, b, carry-in).",
    )
    table = covered("show: table\nparts: gates\n")
    assert table.sentences() == ()
    assert table.lines() == (
        ("what", "covered", "of", "not covered"),
        ("gates taking both values", "2", "5", "FA.G1 FA.G2 FA.OR"),
    )


def test_wrong_options_are_told_all_at_once() -> None:
    block = "show: tabel\nparts: [row, gats]\ncapton: x\n"
    assert wrong(f"{FRONT}\n```coverage\n{block}```\n") == (
        "rain.md:11:1: coverage has no entry capton; did you mean caption?"
    )
    block = "show: tabel\nparts: [row, loops]\ncaption: [x]\n"
    assert wrong(f"{FRONT}\n```coverage\n{block}```\n") == (
        "rain.md:9:7: show: found tabel, expected both, table or sentences\n"
        "rain.md:10:9: an example has no row to show; did you mean rows?\n"
        "rain.md:10:14: an example has no loops to show; there is: carries, flip-flops, gates,"
        " nets, phases, rows\n"
        "rain.md:11:10: caption: found a list, expected a single value"
    )


# ---------------------------------------------------------------------- warnings


def test_a_dull_example_is_warned_of() -> None:
    report = checked(FRONT + "Dry.\n")
    assert [str(note) for note in report.notes] == [
        f"rain.md:5:11: warning: {CARRY}",
        f"rain.md:5:11: warning: {IDLE}",
    ]
    assert report.data()["warnings"] == [
        {"line": 5, "column": 11, "warning": CARRY},
        {"line": 5, "column": 11, "warning": IDLE},
    ]


def test_a_lively_example_is_not() -> None:
    report = checked(FRONT.replace("a: 0, b: 5", "a: 3, b: 7"))
    assert (report.notes, report.data()["warnings"]) == ((), [])


def test_strict_makes_it_an_error() -> None:
    front = FRONT.replace("operands", "examples: strict\noperands")
    hint = "Take other operands, or write operands: choose."
    assert wrong(front) == (
        f"rain.md:6:11: examples: strict. {CARRY} {hint}\n"
        f"rain.md:6:11: examples: strict. {IDLE} {hint}"
    )
    assert not checked(front.replace("a: 0, b: 5", "a: 3, b: 7")).notes


def test_only_strict_is_known() -> None:
    front = FRONT.replace("operands", "examples: quiet\noperands")
    assert wrong(front) == (
        "rain.md:5:11: examples: found quiet, expected strict, or no such entry"
    )


def test_wrong_operands_are_not_warned_of() -> None:
    assert wrong(FRONT.replace("b: 5", "b: 16")) == (
        "rain.md:5:21: operand b is 16, which is too large; the range is 0..15 in 4 bits"
    )


def test_a_circuit_without_operands_is_not_warned_of() -> None:
    assert not checked("---\ntitle: Ring\ndesign: ring-counter\n---\n").notes


@pytest.mark.parametrize("command", [("check",), ("build", "-o", "pages")])
def test_commands_say_so_on_stderr(
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
    command: tuple[str, ...],
) -> None:
    monkeypatch.chdir(tmp_path)
    Path("rain.md").write_text(FRONT, "utf-8")
    Path("strict.md").write_text(FRONT.replace("with", "examples: strict\nwith"), "utf-8")

    def run(*words: str) -> tuple[str, str, int]:
        monkeypatch.setattr(sys, "argv", ["edgewise", *words])
        with pytest.raises(SystemExit) as left:
            cli.main()
        printed = capsys.readouterr()
        return printed.out, printed.err, int(left.value.code or 0)

    name, *options = command
    out, err, code = run(name, "rain.md", *options)
    assert code == 0
    assert err == f"rain.md:5:11: warning: {CARRY}\nrain.md:5:11: warning: {IDLE}\n"
    assert out.startswith("rain.md")
    out, err, code = run(name, "strict.md", *options)
    assert (out, code) == ("", 2)
    assert err.startswith(f"strict.md:6:11: examples: strict. {CARRY}")
    if name == "check":
        out, err, _ = run("check", "rain.md", "--json")
        assert [one["warning"] for one in json.loads(out)[0]["warnings"]] == [CARRY, IDLE]
    else:
        assert not Path("pages/strict.html").exists()
