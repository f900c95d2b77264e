"""Papers made, written and marked, as a teacher does it with a class of six."""

from __future__ import annotations

import csv
import json
import re
from pathlib import Path

import pytest
import xlsxwriter

from edgewise.practice import formula_guard
from edgewise.practice import paper as papers
from edgewise.practice.marking import table
from edgewise.practice.paper import Paper, Variant
from scripts import make_class
from tests.conftest import Edgewise

PAPER = make_class.PAPER
RUBBISH = ("?!", "<script>", "=1+1", "9" * 30, "n\u00f6", "\U0001f600", "-", "1e9", "0b2", "0xZZ")


@pytest.fixture(scope="module")
def paper() -> Paper:
    return papers.read_paper(PAPER)


@pytest.fixture(scope="module")
def variants(paper: Paper) -> tuple[Variant, ...]:
    return paper.variants(6, seed=5).variants


def of_class(variants: tuple[Variant, ...]) -> list[list[str]]:
    """Six learners: perfect, carry dropped, one bit, empty, rubbish, a code of no paper."""
    headings = variants[0].headings
    answers = [
        make_class.right(variants[0]),
        make_class.dropped(variants[1]),
        make_class.careless(variants[2]),
        {},
        dict(zip(headings, RUBBISH * 3, strict=False)),
        make_class.right(variants[5]),
    ]
    codes = [one.code for one in variants[:5]] + ["XXXXX"]
    names = ("Ada", "Bo", "Cy", "Di", "Ed", "Flo")
    lines = [
        [name, code, *(one.get(heading, "") for heading in headings)]
        for name, code, one in zip(names, codes, answers, strict=True)
    ]
    return [["learner", "code", *headings], *lines]


def test_the_class_of_the_examples_has_written_the_paper_that_is_there(paper: Paper) -> None:
    shipped = make_class.ANSWERS.read_text("utf-8")
    assert shipped == make_class.text(paper), "run PYTHONPATH=. python scripts/make_class.py"


def as_csv(folder: Path, lines: list[list[str]]) -> Path:
    file = folder / "answers.csv"
    with file.open("w", newline="", encoding="utf-8") as out:
        csv.writer(out).writerows(lines)
    return file


def as_xlsx(folder: Path, lines: list[list[str]]) -> Path:
    """As typed: what looks like a number is one, its zeros on the left gone."""
    file = folder / "answers.xlsx"
    book = xlsxwriter.Workbook(str(file), {"strings_to_formulas": False})
    sheet = book.add_worksheet()
    for number, line in enumerate(lines):
        for column, text in enumerate(line):
            typed = re.fullmatch(r"[0-9]{1,12}", text) is not None
            sheet.write(number, column, int(text) if typed else text)
    book.close()
    return file


@pytest.mark.parametrize("write", [as_csv, as_xlsx])
def test_a_class_of_six(
    tmp_path: Path, edgewise: Edgewise, variants: tuple[Variant, ...], write: object
) -> None:
    assert callable(write)
    file = write(tmp_path, of_class(variants))
    answer = edgewise("mark", str(file), "--paper", str(PAPER), "-o", str(tmp_path / "marked"))
    assert answer.code == 0, answer.err
    ideas = dict(re.findall(r"^(\S[\w -]*?) {2,}(\d+) *$", answer.out, re.MULTILINE))
    assert ideas == {
        "careless": "1",
        "carry-dropped": "1",
        "no paper": "1",
        "right": "1",
        "nothing to read": "2",
    }
    assert not re.search("Ada|Bo|Cy|Flo", answer.out + answer.err)
    out = tmp_path / "marked"
    assert {path.name for path in out.iterdir()} == {"marks.xlsx", "report.html", "feedback.pdf"}
    found = table.read(out / "marks.xlsx")
    rows = {
        line.cells[0]: dict(zip(found.headings, line.cells, strict=True)) for line in found.lines
    }
    assert rows["Ada"]["total"] == rows["Ada"]["of"] == str(variants[0].marks)
    assert rows["Bo"]["explained"] == rows["Bo"]["wrong cells"] != "0"
    assert rows["Cy"]["wrong cells"] == "1"
    assert float(rows["Cy"]["total"]) > 0.9 * variants[2].marks
    assert rows["Di"]["total"] == "0"
    assert rows["Flo"]["total"] == ""
    assert rows["Flo"]["note"].startswith("XXXXX is no code of this paper")


def test_what_a_marker_typed_is_kept(
    tmp_path: Path, edgewise: Edgewise, variants: tuple[Variant, ...]
) -> None:
    file = as_csv(tmp_path, of_class(variants))
    out = tmp_path / "marked"
    options = ("--paper", str(PAPER), "-o", str(out), "--table", "csv", "--no-feedback")
    command = ("mark", str(file), *options)
    edgewise(*command)
    marks = out / "marks.csv"
    lines = list(csv.reader(marks.read_text("utf-8-sig").splitlines()))
    lines[5][lines[0].index("q1 overrule")] = "1"
    lines[5][lines[0].index("remark")] = "we talked about it"
    with marks.open("w", newline="", encoding="utf-8") as typed:
        csv.writer(typed).writerows(lines)
    answer = edgewise(*command)
    assert answer.code == 0
    assert f"the table of marks as it was is kept as {out / 'marks-1.csv'}" in answer.err
    assert re.search("^[0-9]+ answers to look at: see readings.csv$", answer.err, re.MULTILINE)
    looked_at = table.read(out / "readings.csv")
    assert looked_at.headings == ("learner", "column", "written", "read as", "how")
    assert {line.cells[0] for line in looked_at.lines} == {"Ed"}
    assert "=1+1" in [formula_guard.unguarded(line.cells[2]) for line in looked_at.lines]
    again = list(csv.reader(marks.read_text("utf-8-sig").splitlines()))
    row = dict(zip(again[0], again[5], strict=True))
    assert (row["learner"], row["total"]) == ("Ed", "1")
    assert (row["q1 overrule"], row["remark"]) == ("1", "we talked about it")


def test_the_report_for_a_program(
    tmp_path: Path, edgewise: Edgewise, variants: tuple[Variant, ...]
) -> None:
    file = as_csv(tmp_path, of_class(variants))
    out = tmp_path / "marked"
    command = ("mark", str(file), "--paper", str(PAPER), "--no-feedback", "--json", "-o", str(out))
    told = json.loads(edgewise(*command).out)
    assert (told["learners"], told["without paper"], told["blank"]) == (6, 1, 2)
    assert told["ideas"] == [{"any of": [["carry-dropped"]], "learners": 1}]
    assert told["statuses"] == {"right": 1, "misconception": 1, "careless": 1}
    assert [one["name"] for one in told["questions"]] == [q.name for q in variants[0].questions]
    assert told["files"] == [str(out / "marks.xlsx"), str(out / "report.html")]


def test_workers_give_the_same(
    tmp_path: Path, edgewise: Edgewise, variants: tuple[Variant, ...]
) -> None:
    file = as_csv(tmp_path, of_class(variants))
    command = ("mark", str(file), "--paper", str(PAPER), "--no-feedback", "-o")
    edgewise(*command, str(tmp_path / "one"))
    edgewise(*command, str(tmp_path / "two"), "--workers", "2")
    for name in ("marks.xlsx", "report.html"):
        assert (tmp_path / "one" / name).read_bytes() == (tmp_path / "two" / name).read_bytes()


@pytest.mark.parametrize(
    ("arguments", "message"),
    [
        (
            ("answers.txt",),
            "answers.txt: is no table that can be read here; expected .csv, .xlsx or .ods\n",
        ),
        (("gone.csv",), "gone.csv: can't be read: No such file or directory\n"),
        (
            ("answers.csv", "--table", "pdf"),
            "there is no table of marks as pdf; expected xlsx or csv\n",
        ),
        (
            ("answers.csv", "--no-feedback", "--on", "a4"),
            "--on has no effect with --no-feedback\n",
        ),
        (("answers.csv", "--workers", "0"), "0 workers can't be had; expected 1..256\n"),
        (
            ("answers.csv",),
            "answers.csv:1: there is no column 'code'; there is: name\n"
            "answers.csv:1: there is no column 'learner'; there is: name\n",
        ),
    ],
)
def test_bad_input_is_told_and_nothing_written(
    tmp_path: Path,
    edgewise: Edgewise,
    monkeypatch: pytest.MonkeyPatch,
    arguments: tuple[str, ...],
    message: str,
) -> None:
    monkeypatch.chdir(tmp_path)
    Path("answers.csv").write_text("name\nAda\n")
    Path("answers.txt").write_text("name\nAda\n")
    answer = edgewise("mark", *arguments, "--paper", str(PAPER))
    assert (answer.code, answer.out, answer.err) == (2, "", message)
    assert not Path("marked").exists()


def test_the_name_of_a_file_is_no_folder(edgewise: Edgewise, tmp_path: Path) -> None:
    out = tmp_path / "marks.xlsx"
    answer = edgewise("mark", "answers.csv", "--paper", str(PAPER), "-o", str(out))
    assert (answer.out, answer.code) == ("", 2)
    assert answer.err == (
        f"{out} is the name of a file; -o names a folder, for the table of marks, the report and"
        f" the sheets: -o {tmp_path}\n"
    )
    assert not out.exists()


def test_a_german_paper_has_german_columns_and_english_ones_are_found_too(
    edgewise: Edgewise, tmp_path: Path
) -> None:
    german = tmp_path / "messer.md"
    german.write_text(PAPER.read_text("utf-8").replace("with:", "language: de\nwith:"), "utf-8")
    assert edgewise("paper", str(german), "-o", str(tmp_path)).code == 0
    made = (tmp_path / "messer-answers.csv").read_text("utf-8")
    assert "q1: A nach 13" in made
    assert " after " not in made
    heads, row = made.splitlines()
    totals = []
    for headings in (heads, heads.replace(" nach ", " after ")):
        file = tmp_path / "answers.csv"
        file.write_text(f"learner,{headings}\nAda,{row}\n", "utf-8")
        told = edgewise(
            *("mark", str(file), "--paper", str(german), "-o", str(tmp_path / "marked")),
            *("--table", "csv", "--no-feedback"),
        )
        assert told.code == 0, told.err
        (line,) = table.read(tmp_path / "marked" / "marks.csv").lines
        totals.append(line.cells)
    assert totals[0] == totals[1]
    assert "17" in totals[0]


@pytest.mark.parametrize(
    ("further", "told"),
    [
        (["--workers", "2"], "--workers has no effect with a folder\n"),
        (["--sheets", "page", "--on", "a4"], "--on has no effect with --sheets page\n"),
        (["--no-feedback", "--sheets", "page"], "--sheets has no effect with --no-feedback\n"),
    ],
)
def test_options_without_effect_on_a_folder_or_a_page(
    edgewise: Edgewise, tmp_path: Path, further: list[str], told: str
) -> None:
    answer = edgewise("mark", str(tmp_path), "--paper", str(PAPER), *further)
    assert (answer.err, answer.code) == (told, 2)
