"""Marks of a class: with follow-through, as they stand, overruled, and never lost."""

from __future__ import annotations

import io
import zipfile
from fractions import Fraction
from pathlib import Path

import pytest

from edgewise.engines import reference
from edgewise.practice.marking import (
    answer_sheet,
    class_marks,
    feedback,
    mark_sheet,
    overrules,
    spreadsheet,
    table,
)
from edgewise.practice.marking.class_marks import ClassMarks
from edgewise.practice.marking.diagnosis import Status
from edgewise.practice.marking.feedback import Verdict
from edgewise.practice.marking.spreadsheet import Sheet
from tests.practice.marking.classes import adder, asked, paper

CELLS = asked(range(5, 9), ["C", "S"])
PAPER = paper(adder(4), CELLS, {"K7": {"a": 7, "b": 5}, "K8": {"a": 3, "b": 6}}, marks=4)
RIGHT = {
    code: [variant.questions[0].expected(h) for h in variant.questions[0].headings]
    for code, variant in PAPER.variants.items()
}
HEAD = ",".join(["learner", "code", *PAPER.variants["K7"].questions[0].headings])


def marked(*rows: str) -> ClassMarks:
    text = "\n".join([HEAD, *rows])
    return class_marks.mark(answer_sheet.of_table(table.of_text(text, "gauges.csv"), PAPER))


def row(name: str, code: str, **wrong: str) -> str:
    """All right but for some cells, by number: ``c2="1"``."""
    words = list(RIGHT[code])
    for place, word in wrong.items():
        words[int(place[1:])] = word
    return ",".join([name, code, *words])


def test_one_error_is_paid_for_once() -> None:
    """A carry forgotten at edge 6 of 7 + 5: the sum is 4 less, 1000, and follows."""
    trace = reference.run(adder(4), {"a": 7, "b": 5})
    assert [str(trace.word("C", edge)) for edge in range(5, 9)] == ["1", "1", "1", "0"]
    found = marked(row("Bo", "K7", c2="0", c5="0000", c7="1000"))
    (score,) = found.results[0].scores
    assert (score.asked, score.right, score.followed) == (8, 5, 7)
    assert (score.method, score.answers) == (Fraction(7, 2), Fraction(5, 2))


def test_a_right_cell_counts_also_where_the_row_before_it_is_wrong() -> None:
    (score,) = marked(row("Bo", "K7", c2="0")).results[0].scores
    assert (score.right, score.followed) == (7, 7)


def test_learners_of_two_variants_are_marked_by_their_own() -> None:
    found = marked(row("Ada", "K7"), row("Bo", "K8"), row("Cy", "K7").replace("K7", "K8"))
    assert [one.scores[0].right for one in found.results][:2] == [8, 8]
    assert found.results[2].scores[0].right < 8
    assert len(found.cells) == 1  # side by side all the same


def test_blank_unread_and_strange() -> None:
    found = marked(
        ",".join(["Di", "K7", *[""] * 8]),
        ",".join(["Ed", "K7", *["?"] * 8]),
        row("Flo", "K7").replace("K7", "Z9"),
    )
    blank, unread, strange = found.results
    assert (blank.scores[0].blank, blank.scores[0].unread) == (8, 0)
    assert (unread.scores[0].blank, unread.scores[0].unread) == (0, 8)
    assert (strange.scores, strange.diagnosis) == ((), None)
    assert blank.diagnosis is not None
    assert blank.diagnosis.status is Status.NOTHING


def test_words_in_decimal_are_read_by_who_writes_them_so() -> None:
    """10 is ten for one who writes 12 for 1100, and two for one who writes bits."""
    decimal = [str(int(word, 2)) for word in RIGHT["K7"]]
    sheet = marked(",".join(["Ada", "K7", *decimal]), row("Bo", "K7", c1="10"))
    readings = sheet.cells[0].readings
    assert [column[0].digits for column in readings] == RIGHT["K7"]
    assert readings[1][1].digits == "0010"
    doubts = feedback.doubts(sheet)
    assert [(one.number, one.heading, one.reading.text) for one in doubts] == [
        (1, "q1: S after 5", "10")
    ]


def test_each_cell_is_told_with_what_follows() -> None:
    found = marked(row("Bo", "K7", c2="0", c5="0000", c7="?"))
    told = feedback.told(found.cells[0], 0)
    assert [one.verdict for one in told] == [
        Verdict.RIGHT,
        Verdict.RIGHT,
        Verdict.WRONG,
        Verdict.RIGHT,
        Verdict.RIGHT,
        Verdict.FOLLOWS,
        Verdict.RIGHT,
        Verdict.UNREAD,
    ]
    first = feedback.began(told)
    assert first is not None
    assert (str(first.cell), first.right, first.follows) == ("C after 6", "1", "1")
    assert (told[5].right, told[5].follows) == ("1000", "0000")


# ---------------------------------------------------------------------- the table of marks


def written(found: ClassMarks, path: Path) -> Path | None:
    """Write the table of marks as the command does; where the old one was kept."""
    old = overrules.read(path)
    rows = mark_sheet.overruled(found, old)
    sheets = [mark_sheet.sheet(rows, old), mark_sheet.about()]
    return spreadsheet.replace(path, spreadsheet.content(sheets, path.suffix))


def cells(path: Path) -> dict[str, dict[str, str]]:
    found = table.read(path)
    return {
        line.cells[0]: {h: c for h, c in zip(found.headings, line.cells, strict=True) if c}
        for line in found.lines
    }


def typed(path: Path, learner: str, heading: str, text: str) -> None:
    """What a marker does in a spreadsheet: one cell more, and saved anew by another program."""
    found = table.read(path)
    headings = [*found.headings, *([] if heading in found.headings else [heading])]
    lines = [list(line.cells) + [""] * (len(headings) - len(line.cells)) for line in found.lines]
    for line in lines:
        if line[0] == learner:
            line[headings.index(heading)] = text
    if path.suffix == ".csv":
        path.write_text("\n".join(",".join(line) for line in [headings, *lines]))
        return
    import xlsxwriter

    book = xlsxwriter.Workbook(str(path))
    sheet = book.add_worksheet()
    for number, line in enumerate([headings, *lines]):
        for column, value in enumerate(line):
            sheet.write(number, column, value)
    book.close()


@pytest.mark.parametrize("suffix", [".xlsx", ".csv"])
def test_what_a_marker_typed_is_kept_and_counts(tmp_path: Path, suffix: str) -> None:
    path = tmp_path / f"marks{suffix}"
    found = marked(row("Ada", "K7"), row("Bo", "K7", c0="0", c1="0000"))
    assert written(found, path) is None
    assert cells(path)["Bo"]["total"] == cells(path)["Bo"]["q1"]
    for heading, text in (
        ("q1 overrule", "3.5"),
        ("remark", "was ill"),
        ("talked to", "Monday"),
        ("wrong cells", "mine"),
    ):
        typed(path, "Bo", heading, text)
    before = path.read_bytes()
    kept = written(found, path)
    assert kept == tmp_path / f"marks-1{suffix}"
    assert kept.read_bytes() == before  # what stood under a heading of ours is there still
    bo = cells(path)["Bo"]
    assert (bo["q1 overrule"], bo["total"], bo["remark"]) == ("3.5", "3.5", "was ill")
    assert (bo["talked to"], bo["wrong cells"]) == ("Monday", "1")


@pytest.mark.parametrize("suffix", [".xlsx", ".csv"])
def test_a_learner_who_is_gone_keeps_their_row(tmp_path: Path, suffix: str) -> None:
    path = tmp_path / f"marks{suffix}"
    written(marked(row("Ada", "K7"), row("Bo", "K7")), path)
    typed(path, "Bo", "q1 overrule", "2")
    written(marked(row("Ada", "K7")), path)
    assert cells(path)["Bo"]["q1 overrule"] == "2"
    written(marked(row("Bo", "K7"), row("Ada", "K7")), path)
    assert cells(path)["Bo"]["total"] == "2"


def test_a_table_nobody_typed_into_is_replaced(tmp_path: Path) -> None:
    path = tmp_path / "marks.xlsx"
    assert written(marked(row("Ada", "K7")), path) is None
    assert written(marked(row("Ada", "K7"), row("Bo", "K8")), path) is None
    assert list(tmp_path.iterdir()) == [path]


def test_an_overrule_that_is_no_mark_is_kept_but_does_not_count(tmp_path: Path) -> None:
    path = tmp_path / "marks.xlsx"
    found = marked(row("Ada", "K7"))
    written(found, path)
    for text in ("see me", "5", "-1"):
        typed(path, "Ada", "q1 overrule", text)
        written(found, path)
        ada = cells(path)["Ada"]
        assert (ada["q1 overrule"], ada["total"]) == (text, "4")
        assert ada["note"] == "q1 overrule is not counted: expected marks from 0 to 4"


def test_the_same_marks_give_the_same_bytes() -> None:
    sheet = Sheet("marks", ("learner", "q1"), (("Ada", Fraction(7, 2)),))
    assert spreadsheet.content([sheet], ".xlsx") == spreadsheet.content([sheet], ".xlsx")


ACTING = ("=1+1", "+1+1", "-1+1", "@SUM(A1)", "\t=1+1", "\r=1+1", "=HYPERLINK(1)", "http://x.y")
"""OWASP, "CSV Injection": how a cell begins that a spreadsheet would run."""


@pytest.mark.parametrize("text", ACTING)
def test_nothing_is_written_that_a_spreadsheet_would_run(text: str) -> None:
    sheet = Sheet("marks", ("learner", text), ((text, text),))
    with zipfile.ZipFile(io.BytesIO(spreadsheet.content([sheet], ".xlsx"))) as parts:
        page = parts.read("xl/worksheets/sheet1.xml").decode()
    assert "<f>" not in page
    assert "hyperlink" not in page
    assert page.count('t="s"') == 4  # all of them texts
    lines = spreadsheet.content([sheet], ".csv").decode("utf-8-sig")
    for cell in lines.replace('"', "").replace("\r\n", ",").split(",")[:-1]:
        assert not cell.startswith(("=", "+", "-", "@", "\t", "\r")), cell
