"""``edgewise draw --figure timing --inside``: whole commands, whole messages."""

from __future__ import annotations

from pathlib import Path

import pytest
from lxml import etree

from edgewise.cli import main

SVG = "{http://www.w3.org/2000/svg}"
RUN = ["draw", "serial-adder", "--operands", "a=22,b=43"]


def call(*given: str) -> object:
    """Run a command; give its exit code."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr("sys.argv", ["edgewise", *given])
        with pytest.raises(SystemExit) as left:
            main()
    return left.value.code or 0


def test_it_draws_what_trace_lists(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    out = tmp_path / "inside.svg"
    look = ["--inside", "8..9", "--model", "74hc"]
    assert call(*RUN, "--figure", "timing", *look, "-o", str(out)) == 0
    assert capsys.readouterr().out == f"{out}\n"
    about = etree.parse(out).getroot().findtext(f"{SVG}desc") or ""
    assert call("trace", *RUN[1:], *look) == 0
    told = capsys.readouterr().out.splitlines()
    for sentence in told[told.index("") + 1 :]:
        assert f"{sentence[:1].upper()}{sentence[1:]}." in about


def test_a_column_of_paper(tmp_path: Path) -> None:
    out = tmp_path / "inside.svg"
    figure = ["--figure", "timing", "--inside", "8", "--width", "85mm"]
    assert call(*RUN, *figure, "-o", str(out)) == 0
    assert float(etree.parse(out).getroot().get("width", "").removesuffix("mm")) <= 85


@pytest.mark.parametrize(
    ("given", "message"),
    [
        (
            ["--inside", "8"],
            "--inside has no effect in a diagram; draw it with --figure timing",
        ),
        (
            ["--figure", "timing", "--inside", "8", "--rows", "3"],
            "--rows has no effect with --inside; it names the edges",
        ),
        (
            ["--figure", "timing", "--period", "8", "--late", "C=1"],
            "--period and --late have no effect without --inside",
        ),
        (
            ["--figure", "timing", "--inside", "13"],
            "there is no edge 13 to look behind; the edges are 1..12",
        ),
        (
            ["--figure", "timing", "--inside", "8", "--width", "20mm"],
            "this figure needs 64mm for letters of 6 pt; in 20mm they would have 1.9 pt: choose"
            " --width 64mm, fewer bits, fewer rows or columns",
        ),
    ],
)
def test_what_is_refused(
    given: list[str], message: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert call(*RUN, *given) == 2
    assert capsys.readouterr().err == f"{message}\n"
