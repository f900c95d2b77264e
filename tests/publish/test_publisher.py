"""Publishers: one method for each kind of piece, and nothing drawn before they are asked."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path
from typing import get_args

import pytest

from edgewise import lesson
from edgewise.lesson.blocks import Piece
from edgewise.lesson.pieces import CircuitText, Figure
from edgewise.publish.handout.render import Sheet
from edgewise.publish.html import render
from edgewise.publish.publisher import METHODS, Publisher
from edgewise.views.registry import Wish
from tests.conftest import Edgewise

EXAMPLES = Path(__file__).parents[2] / "examples"


def test_every_kind_of_piece_has_a_method() -> None:
    assert set(METHODS) == set(get_args(Piece))
    for publisher in (Sheet, render._Rules):
        assert issubclass(publisher, Publisher)
        assert all(name in dir(publisher) for name in METHODS.values())


def test_a_publisher_that_lacks_a_method_is_refused_when_it_is_read() -> None:
    some = {name: lambda _, __: "" for name in METHODS.values() if name not in ("law", "proof")}
    with pytest.raises(TypeError) as caught:
        type("Slides", (Publisher,), some)
    assert str(caught.value) == "Slides publishes no law, proof"


def test_a_publisher_may_have_one_method_for_all_other_pieces() -> None:
    class Titles(Publisher[str]):
        def figure(self, piece: Figure) -> str:
            return piece.caption

        def other(self, piece: Piece) -> str:
            return type(piece).__name__

    assert Titles().piece(CircuitText("circuit: a")) == "CircuitText"
    trace = lesson.check(EXAMPLES / "rain-gauges.md").trace
    assert Titles().piece(Figure(trace, "diagram", Wish(), (), (), "The tide")) == "The tide"


@pytest.mark.parametrize("path", sorted(EXAMPLES.glob("*.md")), ids=lambda path: path.stem)
def test_checking_draws_nothing(path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    from edgewise.views.drawing import svg
    from edgewise.views.layout import elk

    def drawn(*_: object, **__: object) -> None:
        raise AssertionError("something was drawn")

    monkeypatch.setattr(svg, "svg", drawn)
    monkeypatch.setattr(elk, "lay_out", drawn)
    monkeypatch.setattr("edgewise.views.registry.figure", drawn)
    assert lesson.check(path).pieces


def test_the_command_that_checks_reads_no_library_that_draws() -> None:
    code = (
        "import sys\n"
        "from pathlib import Path\n"
        "from edgewise import lesson\n"
        "lesson.check(Path(sys.argv[1]))\n"
        "print(sorted({'quickjs', 'altair', 'vl_convert', 'typst', 'resvg_py'} & set(sys.modules)))"
    )
    for path in sorted(EXAMPLES.glob("*.md")):
        done = subprocess.run(
            [sys.executable, "-c", code, str(path)], capture_output=True, text=True, check=True
        )
        assert done.stdout == "[]\n", path


def test_a_figure_that_cannot_be_drawn_is_told_at_its_place(
    edgewise: Edgewise, tmp_path: Path
) -> None:
    path = tmp_path / "wide.md"
    (tmp_path / "sieve.yaml").write_text(
        "{circuit: sieve, inputs: {a: 402, b: 402}, operands: {a: 402, b: 402},"
        " parts: {G(i = 0..400): {part: and, in: [a(i), b(401 - i)]},"
        " H(i = 0..200): {part: or, in: [G(2 * i).out, b(i), a(401 - i)]}},"
        " outputs: {y: H(7).out}}",
        "utf-8",
    )
    path.write_text(
        "---\ntitle: Wide\ndesign: sieve.yaml\noperands: {a: 3, b: 5}\n"
        "---\nText.\n\n```diagram\ncaption: The sieve\n```\n",
        "utf-8",
    )
    assert edgewise("check", str(path)).code == 0
    told = (
        "this figure has 1,406 connections, too many to be laid out; the limit is 1,000: draw less"
        " in one figure, or leave some containers closed\n"
    )
    for options, place in (((), "3:9"), (("--handout",), "8:1")):
        answer = edgewise("build", str(path), *options, "--out", str(tmp_path / "out"))
        assert (answer.code, answer.err) == (2, f"{path}:{place}: {told}")
    assert not list((tmp_path / "out").glob("*"))
