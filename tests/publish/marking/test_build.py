"""A class marked in one go: what is written, and the report as a page."""

from __future__ import annotations

import csv
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from edgewise.errors import EdgewiseError
from edgewise.practice.marking import beliefs, table
from edgewise.publish.marking import build
from edgewise.publish.marking.build import Built, Of, Wanted
from edgewise.study.cost import sweep
from edgewise.words import messages
from tests.outside.test_html_validity import complaints
from tests.practice.marking.classes import adder, asked, believed, paper

if TYPE_CHECKING:
    from playwright.sync_api import Page

CELLS = asked(range(6, 13), ["A", "C", "S"])
OPERANDS = {"K7": {"a": 0b011011, "b": 0b010111}, "K8": {"a": 0b011101, "b": 0b001111}}
PAPER = paper(adder(6), CELLS, OPERANDS, marks=10)
HEADINGS = PAPER.variants["K7"].questions[0].headings
BELIEFS = (beliefs.truth(adder(6)), *beliefs.singles(adder(6))[:8])


def answers(folder: Path, learners: int = 20) -> Path:
    """A class in which everybody has an idea of their own."""
    lines = [",".join(["learner", "code", *HEADINGS])]
    for number in range(learners):
        code = f"K{7 + number % 2}"
        words = believed(BELIEFS[number % len(BELIEFS)], CELLS, OPERANDS[code])
        lines.append(",".join([f"Learner-{number}", code, *words]))
    file = folder / "answers.csv"
    file.write_text("\n".join(lines))
    return file


def built(folder: Path, wanted: Wanted | None = None, language: str = "en") -> Built:
    of = Of(PAPER, "Rain gauges", messages.of(language), language)
    return build.build(answers(folder), of, folder / "marked", wanted or Wanted())


def test_what_is_written(tmp_path: Path) -> None:
    made = built(tmp_path)
    out = tmp_path / "marked"
    assert made.written == (out / "marks.xlsx", out / "report.html", out / "feedback.pdf")
    assert made.kept is None
    marks = table.read(out / "marks.xlsx")
    assert [line.cells[0] for line in marks.lines] == [f"Learner-{n}" for n in range(20)]
    assert built(tmp_path, Wanted("csv", feedback=False)).written == (
        out / "marks.csv",
        out / "report.html",
    )


def test_a_gradebook_is_plain_csv_of_the_marks_that_count(tmp_path: Path) -> None:
    """Read by pandas, whose reader of RFC 4180 nobody here wrote."""
    import pandas as pd

    names = ("Tide, Ada", 'Bo "Surge"', "=1+1", "Zoë")
    right = believed(BELIEFS[0], CELLS, OPERANDS["K7"])
    lines = [["learner", "code", *HEADINGS], *([name, "K7", *right] for name in names[:-1])]
    file = tmp_path / "answers.csv"
    with file.open("w", newline="", encoding="utf-8") as out:
        csv.writer(out).writerows([*lines, [names[-1], "no such paper", *right]])
    of, wanted = Of(PAPER, "Rain gauges", messages.ENGLISH), Wanted(feedback=False, gradebook=True)
    made = build.build(file, of, tmp_path, wanted)
    book = tmp_path / "gradebook.csv"
    assert made.written[-1] == book
    text = book.read_bytes()
    assert text.startswith(b"learner,q1,total,of\r\n")
    assert text.count(b"\r\n") == text.count(b"\n") == 5
    found = pd.read_csv(book, keep_default_na=False).to_numpy().tolist()
    assert [line[0] for line in found] == ["Tide, Ada", 'Bo "Surge"', "'=1+1", "Zoë"]
    assert [line[1:] for line in found] == [["10", "10", "10"]] * 3 + [["", "", ""]]
    book.write_text("learner,q1\nAda,typed\n")
    build.build(file, of, tmp_path, wanted)
    assert book.read_bytes() == text
    assert "typed" in (tmp_path / "gradebook-1.csv").read_text()


def test_many_sheets_are_several_files(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(build, "TOGETHER", 8)
    names = [path.name for path in built(tmp_path).written[2:]]
    assert names == ["feedback-1.pdf", "feedback-2.pdf", "feedback-3.pdf"]


def test_each_sheet_in_a_file_of_its_own(tmp_path: Path) -> None:
    file = answers(tmp_path, 3)
    text = file.read_text().replace("Learner-0", '"../=1, Zoë"').replace("Learner-2", "\u4e2d")
    file.write_text(text, encoding="utf-8")
    of = Of(PAPER, "Rain gauges", messages.of("en"))
    made = build.build(file, of, tmp_path / "marked", Wanted(each=True))
    assert [str(path.relative_to(tmp_path / "marked")) for path in made.written[2:]] == [
        "feedback/0002-1-zoë.pdf",
        "feedback/0003-learner-1.pdf",
        "feedback/0004-\u4e2d.pdf",
    ]


def test_sheets_as_a_page_too(tmp_path: Path) -> None:
    both = built(tmp_path, Wanted(sheets="both")).written[2:]
    assert [path.name for path in both] == ["feedback.pdf", "feedback.html"]
    (tmp_path / "each").mkdir()
    each = built(tmp_path / "each", Wanted(sheets="page", each=True)).written[2:]
    assert each[0].name == "0002-learner-0.html"
    assert each[0].read_text("utf-8").count("<section>") == 1
    assert both[1].read_text("utf-8").count("<section>") == len(each)


def test_every_place_gives_the_same(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("edgewise.practice.marking.shares.SIZE", 7)
    here = built(tmp_path, Wanted(feedback=False)).marked.results
    pool = Wanted(feedback=False, place=sweep.workplace(2))
    assert [one.diagnosis for one in built(tmp_path, pool).marked.results] == [
        one.diagnosis for one in here
    ]


def test_no_name_is_in_the_report_or_the_cache(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("EDGEWISE_CACHE", str(tmp_path / "cache"))
    made = built(tmp_path)
    assert "Learner-" not in made.written[1].read_text("utf-8")
    for file in (tmp_path / "cache").rglob("*"):
        assert not file.is_file() or b"Learner-" not in file.read_bytes()


@pytest.mark.parametrize(
    ("wanted", "message"),
    [
        (Wanted("pdf"), "there is no table of marks as pdf; expected xlsx or csv"),
        (Wanted(sheets="card"), "there are no sheets as card; expected pdf, page or both"),
        (Wanted(paper="a9"), "there is no paper a9; expected a4 or letter"),
    ],
)
def test_what_is_not_made(tmp_path: Path, wanted: Wanted, message: str) -> None:
    with pytest.raises(EdgewiseError) as caught:
        built(tmp_path, wanted)
    assert str(caught.value) == message
    assert not (tmp_path / "marked").exists()


def test_the_answers_are_not_written_over(tmp_path: Path) -> None:
    file = answers(tmp_path).rename(tmp_path / "marks.csv")
    of = Of(PAPER, "Rain gauges", messages.of("en"))
    with pytest.raises(EdgewiseError) as caught:
        build.build(file, of, tmp_path, Wanted("csv"))
    assert str(caught.value) == (
        f"{file} would take the place of the answers; choose another folder with -o"
    )


@pytest.mark.parametrize("language", ["en", "de"])
def test_the_report_is_valid_html(tmp_path: Path, language: str) -> None:
    """html-validate, as for every page."""
    text = built(tmp_path, Wanted(feedback=False), language).written[1].read_text("utf-8")
    assert complaints(tmp_path, text) == []


@pytest.mark.browser
@pytest.mark.parametrize("language", ["en", "de"])
def test_the_report_in_a_browser(tmp_path: Path, page: Page, language: str) -> None:
    wrong: list[str] = []
    page.on("console", lambda said: wrong.append(said.text))
    path = built(tmp_path, Wanted(feedback=False), language).written[1]
    page.set_viewport_size({"width": 420, "height": 900})
    page.goto(path.as_uri())
    assert page.locator("h2").count() >= 6
    assert page.locator("svg").count() == 3
    assert page.evaluate("document.documentElement.scrollWidth") <= 420
    assert wrong == []
