"""Tables in files: CSV as spreadsheets write it, XLSX, ODS, and what is no table."""

from __future__ import annotations

from pathlib import Path

import pytest
import xlsxwriter

from edgewise.errors import EdgewiseError
from edgewise.practice.marking import table
from edgewise.practice.marking.table import Line

ROWS = [["learner", "code", "q1: S after 6"], ["Zoë", "K7", "001011"], ["Bo", "K8", "22"]]


@pytest.mark.parametrize("separator", [",", ";", "\t"])
@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16", "cp1252"])
@pytest.mark.parametrize("ending", ["\n", "\r\n"])
def test_csv_as_spreadsheets_write_it(
    tmp_path: Path, separator: str, encoding: str, ending: str
) -> None:
    file = tmp_path / "answers.csv"
    file.write_bytes((ending.join(separator.join(row) for row in ROWS) + ending).encode(encoding))
    found = table.read(file)
    assert found.headings == tuple(ROWS[0])
    assert found.lines == (Line(2, tuple(ROWS[1])), Line(3, tuple(ROWS[2])))


def test_empty_rows_are_passed_over_and_rows_keep_their_numbers() -> None:
    found = table.of_text('code,note\n\n ,\nK7,"two\nlines"\nK8\n', "answers.csv")
    assert found.lines == (Line(4, ("K7", "two\nlines")), Line(6, ("K8", "")))


def test_a_spreadsheet_keeps_texts_numbers_and_rows(tmp_path: Path) -> None:
    file = tmp_path / "answers.xlsx"
    book = xlsxwriter.Workbook(str(file))
    book.add_worksheet("empty")
    sheet = book.add_worksheet("answers")
    sheet.write_row(0, 0, ["code", "a", "b", "c"])
    sheet.write_row(2, 0, ["K7", 10110, 1.5, True])
    sheet.write_string(2, 4, "beyond the headings")
    sheet.write(3, 0, 101010101010101010)
    sheet.write_formula(3, 1, "=1+1", None, 2)
    book.close()
    found = table.read(file)
    assert found.headings == ("code", "a", "b", "c")
    assert found.lines == (
        Line(3, ("K7", "10110", "1.5", "TRUE")),
        Line(4, ("1.010101e+17", "2", "", "")),
    )


def test_a_sheet_that_claims_millions_of_cells_is_refused(tmp_path: Path) -> None:
    file = tmp_path / "answers.xlsx"
    book = xlsxwriter.Workbook(str(file))
    sheet = book.add_worksheet()
    sheet.write(0, 0, "code")
    sheet.write(1_048_575, 16_383, "far away")
    book.close()
    with pytest.raises(EdgewiseError) as caught:
        table.read(file)
    assert str(caught.value) == (
        f"{file}: can't be read as a spreadsheet: it is damaged, locked by a password, or too"
        " large; open it, and save it again as XLSX, ODS or CSV"
    )


@pytest.mark.parametrize(
    ("name", "content", "message"),
    [
        ("answers.pdf", b"", "is no table that can be read here; expected .csv, .xlsx or .ods"),
        (
            "answers.csv",
            b"\n \n",
            "is empty; expected a row of headings and a row for each learner",
        ),
        (
            "answers.ods",
            b"PK\3\4 no spreadsheet",
            "can't be read as a spreadsheet: it is damaged, locked by a password, or too large;"
            " open it, and save it again as XLSX, ODS or CSV",
        ),
    ],
)
def test_what_is_no_table_is_told(tmp_path: Path, name: str, content: bytes, message: str) -> None:
    file = tmp_path / name
    file.write_bytes(content)
    with pytest.raises(EdgewiseError) as caught:
        table.read(file)
    assert str(caught.value) == f"{file}: {message}"


def test_a_file_that_is_not_there(tmp_path: Path) -> None:
    with pytest.raises(EdgewiseError) as caught:
        table.read(tmp_path / "answers.csv")
    assert str(caught.value) == (
        f"{tmp_path / 'answers.csv'}: can't be read: No such file or directory"
    )


def test_too_much_is_told(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(table, "MOST_BYTES", 30)
    file = tmp_path / "answers.csv"
    file.write_text("code\n" + "K7\n" * 20)
    with pytest.raises(EdgewiseError) as caught:
        table.read(file)
    assert str(caught.value) == f"{file}: has 65 bytes; the limit for a table is 30"
    monkeypatch.setattr(table, "MOST_COLUMNS", 2)
    with pytest.raises(EdgewiseError) as caught:
        table.of_text("a,b,c\n", "x.csv")
    assert str(caught.value) == "x.csv: has 3 columns; the limit is 2"
    monkeypatch.setattr(table, "MOST_ROWS", 3)
    with pytest.raises(EdgewiseError) as caught:
        table.of_text("code\n" + "K7\n" * 20, "x.csv")
    assert str(caught.value) == "x.csv: has more than 3 rows of 1 columns; mark it in parts"


def test_a_row_that_is_no_csv_is_told() -> None:
    with pytest.raises(EdgewiseError) as caught:
        table.of_text('code,note\nK7,"' + "x" * 200_000, "x.csv")
    assert str(caught.value) == (
        "x.csv:2: this row can't be read: a quotation mark is not closed, or a cell is longer than"
        " 131,072 characters; save the table again as CSV"
    )
