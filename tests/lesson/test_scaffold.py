"""First lessons: of every catalogue design, they build as they stand."""

from __future__ import annotations

from pathlib import Path

import pytest

from edgewise import blueprint, catalogue, designtext, lesson
from edgewise.cli import main
from edgewise.errors import EdgewiseError
from edgewise.lesson import scaffold
from edgewise.publish.handout import build
from edgewise.publish.html import page
from edgewise.words import messages
from edgewise.words.messages import ENGLISH


def written(folder: Path, design: str, name: str = "tide-hut") -> Path:
    return scaffold.write(folder / name, catalogue.find(design), design)


@pytest.mark.parametrize("design", catalogue.ORDER)
def test_the_first_lesson_of_every_design_builds(design: str, tmp_path: Path) -> None:
    report = lesson.check(written(tmp_path, design))
    assert page.html_of(report).startswith("<!doctype html>")
    assert report.lesson.front.title == "Tide hut"
    assert report.lesson.values
    assert any(checked.statements for checked in report.claims)


@pytest.mark.parametrize("design", ["serial-adder", "kogge-stone-adder", "binary-counter"])
def test_the_first_lesson_prints_too(design: str, tmp_path: Path) -> None:
    report = lesson.check(written(tmp_path, design))
    assert [sheet[:5] for sheet in build.pdfs(report, blanks=True)] == [b"%PDF-"] * 2


@pytest.mark.parametrize(
    ("design", "parameters"),
    [
        ("serial-adder", {"n": 64}),
        ("serial-adder", {"n": 1}),
        ("serial-accumulator", {"n": 3, "m": 3, "x": 4}),
        ("carry-select-adder", {"n": 32}),
        ("lfsr", {"n": 16}),
        ("binary-counter", {"n": 1}),
    ],
)
def test_other_parameters_build_as_well(
    design: str, parameters: dict[str, int], tmp_path: Path
) -> None:
    path = scaffold.write(tmp_path / "hut.md", catalogue.find(design), design, parameters)
    report = lesson.check(path)
    assert parameters.items() <= dict(report.trace.design.parameters).items()


@pytest.mark.parametrize("design", ["serial-adder", "kogge-stone-adder", "binary-counter", "lfsr"])
def test_a_german_first_lesson_builds_and_is_german(design: str, tmp_path: Path) -> None:
    german, found = messages.of("de"), catalogue.find(design)
    path = scaffold.write(tmp_path / "pegel", found, design, words=german)
    text = path.read_text("utf-8")
    assert "\nlanguage: de\n---\n" in text
    report = lesson.check(path)
    assert report.lesson.front.language == "de"
    assert report.lesson.values
    assert report.claims
    made = page.html_of(report)
    assert '<html lang="de">' in made
    for message in ("given", "answer", "how", "how-front", "say"):
        assert ENGLISH(f"scaffold-{message}") not in " ".join(text.split())
        assert german(f"scaffold-{message}") in " ".join(text.split())


def test_the_command_takes_a_language(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(tmp_path)
    for language, code in (("de", None), ("fr", 2)):
        monkeypatch.setattr("sys.argv", ["edgewise", "new", "pegel", "--language", language])
        with pytest.raises(SystemExit) as done:
            main()
        assert done.value.code == code
    assert "## Das Ergebnis" in (tmp_path / "pegel.md").read_text("utf-8")
    assert capsys.readouterr().err == "--language: found 'fr', expected en or de\n"


def test_given_operands_are_taken(tmp_path: Path) -> None:
    found = catalogue.find("serial-accumulator")
    given: dict[str, int | list[int]] = {"w": [1, 2, 3]}
    path = scaffold.write(tmp_path / "hut.md", found, "serial-accumulator", None, given)
    assert "operands: {w: [1, 2, 3]}" in path.read_text("utf-8")
    assert list(lesson.check(path).trace.operands.values()) == [1, 2, 3]


def test_a_circuit_of_ones_own_gets_a_lesson(tmp_path: Path) -> None:
    file = tmp_path / "mine.yaml"
    design = catalogue.design("serial-adder", n=3)
    file.write_text(designtext.text(design, about="adds *two* [small] words"), "utf-8")
    path = scaffold.write(tmp_path / "hut", blueprint.from_file(file), str(file))
    assert "design: mine.yaml" in path.read_text("utf-8")
    told = page.html_of(lesson.check(path))
    assert "Bit-serial adder: adds *two* [small] words." in told


def test_a_circuit_in_another_folder_is_refused(tmp_path: Path) -> None:
    file = tmp_path / "mine.yaml"
    file.write_text(designtext.text(catalogue.design("serial-adder")), "utf-8")
    path = tmp_path / "lessons" / "hut"
    with pytest.raises(EdgewiseError) as wrong:
        scaffold.write(path, blueprint.from_file(file), str(file))
    assert str(wrong.value) == (
        f"{path}.md: a lesson finds mine.yaml only beside itself; put the two into one folder"
    )
    assert not path.parent.exists()


def test_nothing_is_overwritten(tmp_path: Path) -> None:
    path = written(tmp_path, "serial-adder")
    path.write_text("mine", "utf-8")
    with pytest.raises(EdgewiseError) as wrong:
        written(tmp_path, "serial-adder")
    assert str(wrong.value) == f"{path}: there is a file of this name already; choose another name"
    assert path.read_text("utf-8") == "mine"


def test_a_place_that_can_t_be_written_is_told(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("", "utf-8")
    with pytest.raises(EdgewiseError) as wrong:
        written(tmp_path / "file", "serial-adder")
    assert str(wrong.value) == f"{tmp_path}/file/tide-hut.md: can't be written: File exists"


@pytest.mark.parametrize(
    ("name", "title"),
    [
        ("tide-hut", "Tide hut"),
        ("two_gauges.md", "Two gauges"),
        ("7: odd #name", "7: odd #name"),
        ("--", "First lesson"),
    ],
)  # fmt: skip
def test_the_title_comes_from_the_name(name: str, title: str, tmp_path: Path) -> None:
    path = written(tmp_path, "binary-counter", name)
    assert lesson.check(path).lesson.front.title == title


def test_the_command_says_what_comes_next(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(tmp_path)
    monkeypatch.setattr("sys.argv", ["edgewise", "new", "tide-hut", "--design", "serial-adder"])
    with pytest.raises(SystemExit):
        main()
    assert capsys.readouterr().out == (
        "tide-hut.md\nNow open it in an editor, and in another window: edgewise watch tide-hut.md\n"
    )
