# ruff: noqa: E501  # whole messages on one line
"""The block that follows a circuit in time."""

from __future__ import annotations

from pathlib import Path

import pytest

from edgewise import lesson
from edgewise.errors import EdgewiseError
from edgewise.lesson.composed import Composed, Grid, Listing
from edgewise.lesson.pieces import Figure

HERE = Path(__file__).parents[2] / "examples"


def checked(folder: Path, block: str, language: str = "en") -> Composed:
    (folder / "weir-alarm.yaml").write_text((HERE / "weir-alarm.yaml").read_text("utf-8"), "utf-8")
    text = f"---\ntitle: A weir\nlanguage: {language}\ndesign: binary-counter\n---\nA latch.\n\n```in-time\n{block}\n```\n"
    path = folder / "weir.md"
    path.write_text(text, "utf-8")
    (piece,) = [one for one in lesson.check(path).pieces.values() if isinstance(one, Composed)]
    return piece


def test_a_table_sentences_and_diagrams(tmp_path: Path) -> None:
    piece = checked(
        tmp_path,
        "design: weir-alarm.yaml\nuntil: 45\nfrom: 10\nto: 20\ncolumns: [alarm]\nat: [5, 12]\ncaption: High",
    )
    grid, told, *figures = piece.content
    assert grid == Grid(("time (gate delays)", "alarm"), (("11", "1"),), "High", right=(0,))
    assert isinstance(told, Listing)
    assert told.items == (
        (
            "once the inputs stand still all nets have settled within 2 gate delays; that long it takes at 10",
        ),
    )
    states = []
    for figure in figures:
        assert isinstance(figure, Figure)
        states.append((figure.caption, str(figure.trace.word("alarm", 0)), figure.drawing().title))
    assert states == [
        ("alarm at a weir at 5 gate delays", "X", "Block diagram: alarm at a weir"),
        ("alarm at a weir at 12 gate delays", "1", "Block diagram: alarm at a weir"),
    ]


def test_a_timing_diagram_with_other_waveforms(tmp_path: Path) -> None:
    (figure,) = checked(
        tmp_path,
        "design: weir-alarm.yaml\nwaveforms: {high_n: [1, 0 after 5], seen_n: 1}\nshow: timing\nmodel: 74hc",
    ).content
    assert isinstance(figure, Figure)
    assert figure.caption == "alarm at a weir in time, delays of 74hc"
    said = figure.drawing().description
    assert "alarm is unknown at first, 1 from 12 ns" in said


def test_in_german(tmp_path: Path) -> None:
    piece = checked(tmp_path, "design: weir-alarm.yaml\nuntil: 45\nat: 12", "de")
    _, told, figure = piece.content
    assert isinstance(told, Listing)
    assert isinstance(figure, Figure)
    assert piece.language == "de"
    assert told.items[0][0] == (
        "sobald die Eingänge stillstehen, sind nach höchstens 2 Gatterlaufzeiten alle Netze eingeschwungen; so lange dauert es bei 10"
    )
    assert figure.caption == "alarm at a weir bei 12 Gatterlaufzeiten"


@pytest.mark.parametrize(
    ("block", "message"),
    [
        ("design: wier-alarm.yaml", "9:9: there is no circuit file wier-alarm.yaml beside the lesson; did you mean weir-alarm.yaml?"),
        ("design: weir-alarm.yaml\nuntil: soon", "10:8: until: found soon, expected 12.5"),
        ("design: weir-alarm.yaml\nuntil: 20\nat: 21", "9:1: at 21: the circuit was followed to 20; give a later until"),
        ("design: weir-alarm.yaml\nmodel: 74h", "9:1: there is no cost model 74h; did you mean 74hc?"),
        ("design: weir-alarm.yaml\nshow: picture", "10:7: show: found picture, expected both or table or sentences or timing or diagram"),
        ("design: weir-alarm.yaml\nwaveforms: {high: 1}", "10:19: there is no input high for the waveform; did you mean high_n?"),
        ("design: weir-alarm.yaml\nwaveforms: {high_n: [0, 1]}", "10:21: waveform of high_n: found 1, expected 1, 0 after 10, 1 after 20"),
        ("design: weir-alarm.yaml\ncolumns: [alam]", "10:11: there is no alam here; did you mean alarm?"),
        ("design: weir-alarm.yaml\nopen: [G1]", "10:8: G1 is a nand; it has no inside"),
        ("design: weir-alarm.yaml\nevery: 3", "10:1: in-time has no entry every; there is: at, caption, columns, design, from, model, open, show, symbols, to, until, waveforms, …"),
        ("design: weir-alarm.yaml\nuntil: 600", "9:1: 552 rows are too many for a table in a lesson; the limit is 400: choose from and to, or fewer columns"),
        ("until: 10", "9:1: no waveform feeds clock; add one: waveforms, clock: period 20, pulses 8"),
    ],
)  # fmt: skip
def test_what_is_refused(tmp_path: Path, block: str, message: str) -> None:
    with pytest.raises(EdgewiseError) as wrong:
        checked(tmp_path, block)
    assert str(wrong.value).removeprefix(f"{tmp_path}/weir.md:") == message


WIDE = "circuit: wide\ninputs: {x: 1000, go: 1}\noutputs: {y: x, z: go}\n"


def test_what_is_too_large_or_too_much(tmp_path: Path) -> None:
    (tmp_path / "wide.yaml").write_text(WIDE, "utf-8")
    waves = "waveforms: {x: 0, go: [period 2, pulses 180]}"
    with pytest.raises(EdgewiseError) as wrong:
        checked(tmp_path, f"design: wide.yaml\n{waves}\ncolumns: [x, y, go]\nshow: table")
    assert (
        wrong.value.message == "the block shows too much; choose a shorter time, or fewer columns"
    )
    (tmp_path / "wide.yaml").write_text((HERE / "turnstile.yaml").read_text("utf-8"), "utf-8")
    (told,) = checked(tmp_path, "design: wide.yaml\nwith: {n: 7}\nshow: sentences").content
    assert isinstance(told, Listing)
    assert (len(told.items), told.items[-1]) == (41, ("57 more",))
