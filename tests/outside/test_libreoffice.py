"""Spreadsheets read and written by LibreOffice Calc: a program that nobody here wrote.

Source: LibreOffice 7.4 (Debian's libreoffice-calc-nogui), its import and export of OOXML
(ISO/IEC 29500), ODF 1.3 (ISO/IEC 26300) and CSV.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from pathlib import Path

import pytest

from edgewise.practice import formula_guard
from edgewise.practice.marking import answer_sheet, class_marks, spreadsheet, table
from edgewise.practice.marking.spreadsheet import Sheet
from tests.outside.office import converted
from tests.practice.marking.classes import adder, asked, paper

CELLS = asked(range(5, 9), ["C", "S"])
PAPER = paper(adder(4), CELLS, {"K7": {"a": 7, "b": 5}}, marks=4)
QUESTION = PAPER.variants["K7"].questions[0]
RIGHT = [QUESTION.expected(heading) for heading in QUESTION.headings]


def saved(file: Path, kind: str, profile: str) -> Path:
    """The file, opened and saved as another kind."""
    utf_8 = ["--infilter=CSV:44,34,76,1"] if file.suffix == ".csv" else []
    return converted(file, kind, file.parent / f"saved-{kind}", profile, *utf_8)


def right(file: Path) -> Sequence[int]:
    """How many cells each learner has right."""
    marked = class_marks.mark(answer_sheet.of_table(table.read(file), PAPER))
    return [result.scores[0].right for result in marked.results]


@pytest.mark.slow
@pytest.mark.parametrize("kind", ["xlsx", "ods"])
def test_answers_saved_by_it_are_read(tmp_path: Path, profile: str, kind: str) -> None:
    """It takes 0100 for the number 100, whose zero is gone; decimal and hexadecimal stay."""
    decimal = [str(int(word, 2)) for word in RIGHT]
    hexadecimal = [f"0x{int(word, 2):X}" for word in RIGHT]
    lines = [
        ["learner", "code", *QUESTION.headings],
        ["Zo\u00eb", "K7", *RIGHT],
        ["Bo", "k7", *decimal],
        ["Cy", "K7", *hexadecimal],
        ["Di", "K7"],
        ["Ed", "K7", "TRUE", *RIGHT[1:]],
    ]
    file = tmp_path / "answers.csv"
    file.write_text("\n".join(",".join(line) for line in lines), encoding="utf-8")
    made = saved(file, kind, profile)
    assert table.read(made).headings == tuple(lines[0])
    assert [line.cells[0] for line in table.read(made).lines] == [
        "Zo\u00eb",
        "Bo",
        "Cy",
        "Di",
        "Ed",
    ]
    assert right(made) == [8, 8, 8, 0, 8]


@pytest.mark.slow
@pytest.mark.parametrize("kind", ["csv", "ods"])
def test_our_table_is_read_by_it_and_runs_nothing(tmp_path: Path, profile: str, kind: str) -> None:
    names = ["=1+1", "+1+1", "-1+1", "@SUM(A1)", "Zo\u00eb", "007"]
    rows = tuple((name, Fraction(7, 2)) for name in names)
    sheet = Sheet("marks", ("learner", "q1"), rows)
    file = tmp_path / "marks.xlsx"
    file.write_bytes(spreadsheet.content([sheet], ".xlsx"))
    found = table.read(saved(file, kind, profile))
    assert [line.cells for line in found.lines] == [(name, "3.5") for name in names]


@pytest.mark.slow
def test_our_csv_is_read_by_it_and_runs_nothing(tmp_path: Path, profile: str) -> None:
    """What begins with an apostrophe is no formula; read again here, the apostrophe is gone."""
    names = ["=1+1", "+1+1", "-1+1", "@SUM(A1)"]
    sheet = Sheet("marks", ("learner", "q1"), tuple((name, Fraction(7, 2)) for name in names))
    file = tmp_path / "marks.csv"
    file.write_bytes(spreadsheet.content([sheet], ".csv"))
    found = table.read(saved(file, "xlsx", profile))
    assert [formula_guard.unguarded(line.cells[0]) for line in found.lines] == names


@pytest.mark.slow
def test_a_table_that_it_saved_counts_as_typed_into(tmp_path: Path, profile: str) -> None:
    sheet = Sheet("marks", ("learner", "q1"), (("Ada", Fraction(4)),))
    file = tmp_path / "marks.xlsx"
    file.write_bytes(spreadsheet.content([sheet], ".xlsx"))
    assert spreadsheet.untouched(file.read_bytes())
    assert not spreadsheet.untouched(saved(file, "xlsx", profile).read_bytes())
