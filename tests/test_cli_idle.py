# ruff: noqa: E501  # whole messages on one line
"""Options without effect are refused, each with what to do."""

from __future__ import annotations

import pytest

from edgewise.cli import main

RUN = ["serial-adder", "--operands", "a=1,b=2"]


@pytest.mark.parametrize(
    ("command", "told"),
    [
        (
            ["draw", *RUN, "--rows", "1..2"],
            "--rows has no effect in a diagram; it shows one row, --after K, and all its nets",
        ),
        (
            ["draw", *RUN, "--columns", "A", "--rows", "1"],
            "--rows and --columns have no effect in a diagram; it shows one row, --after K, and all its nets",
        ),
        (
            ["draw", *RUN, "--figure", "timing", "--after", "3"],
            "--after has no effect in a timing diagram; choose --rows and --columns",
        ),
        (
            ["draw", *RUN, "--figure", "timing", "--clock", "wires"],
            "--clock wires has no effect in a timing diagram; expected wedge or hidden",
        ),
        (
            ["draw", *RUN, "--figure", "table", "--clock", "hidden", "--path"],
            "--clock and --path have no effect in a table; choose --rows and --columns",
        ),
        (
            ["draw", *RUN, "--figure", "filmstrip", "--columns", "A"],
            "--columns has no effect in a filmstrip; choose --rows",
        ),
        (["draw", *RUN, "--model", "cmos"], "--model has no effect without --path or --inside"),
        (
            ["draw", *RUN, "--scale", "3"],
            "--scale has no effect on an SVG; it is for a PNG, -o FILE.png",
        ),
        (
            ["draw", *RUN, "--text", "-o", "x.png"],
            "--text has no effect on a PNG; it is for an SVG",
        ),
        (
            ["show", "serial-adder", "--text", "--json"],
            "--json has no effect with --text, which prints the circuit",
        ),
        (
            ["build", "rain.md", "--blanks"],
            "--blanks has no effect without --handout; a page has no paper and no blanks",
        ),
        (
            ["build", "rain.md", "--paper", "a4", "--blanks"],
            "--paper and --blanks have no effect without --handout; a page has no paper and no blanks",
        ),
        (
            ["law", "serial-adder", "--table", "--json"],
            "--table has no effect with --json, which has all counts",
        ),
        (
            ["choose", "serial-adder", "--misconceptions", "--json"],
            "--misconceptions has no effect with --json, which has every misconception",
        ),
        (
            ["break", *RUN, "-o", "x.svg"],
            "--out has no effect without --draw, which names the fault to draw",
        ),
        (
            ["break", *RUN, "--draw", "C stuck at 0", "--json"],
            "--json has no effect with --draw, which draws one fault",
        ),
    ],
)
def test_an_option_without_effect_is_refused(
    command: list[str],
    told: str,
    capsys: pytest.CaptureFixture[str],
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr("sys.argv", ["edgewise", *command])
    with pytest.raises(SystemExit) as left:
        main()
    assert left.value.code == 2
    out, wrong = capsys.readouterr()
    assert out == ""
    assert wrong == f"{told}\n"
