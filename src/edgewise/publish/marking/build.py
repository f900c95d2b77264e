"""A class marked in one go: the table of marks, a report, a sheet for each learner."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from pathlib import Path
from typing import Final

from edgewise.errors import EdgewiseError, Message
from edgewise.listing import choice, either
from edgewise.practice.marking import (
    answer_sheet,
    class_marks,
    class_report,
    feedback,
    mark_sheet,
    overrules,
    results,
    spreadsheet,
    table,
)
from edgewise.practice.marking.asked import Paper
from edgewise.practice.marking.class_marks import ClassMarks
from edgewise.practice.marking.class_report import ClassReport
from edgewise.practice.marking.mark_sheet import Marked
from edgewise.practice.marking.overrules import Overrules
from edgewise.practice.marking.spreadsheet import Sheet
from edgewise.publish import output
from edgewise.publish.handout import pdf
from edgewise.publish.marking import report_page, sheet_page, sheet_print
from edgewise.publish.marking.feedback_sheet import Sheets
from edgewise.study.cost.sweep import Here, Progress, Workplace
from edgewise.words.messages import Words

FORMATS: Final = ("xlsx", "csv")
SHEETS: Final = ("pdf", "page", "both")
_LETTERS: Final = re.compile(r"\w+")
_LONGEST_NAME: Final = 40
"""Letters of a learner's name in the name of a file."""
TOGETHER: Final = 100
"""Sheets in one PDF, at most."""


@dataclass(frozen=True, slots=True)
class Of:
    """What is marked.

    Parameters
    ----------
    paper : Paper
    title : str
        Of the paper.
    words : Words
        In its language.
    language : str
        Its language tag.
    """

    paper: Paper
    title: str
    words: Words
    language: str = "en"


@dataclass(frozen=True, slots=True)
class Wanted:
    """What is made besides the table.

    Parameters
    ----------
    table : str
        One of `FORMATS`.
    feedback : bool
        A sheet for each learner.
    sheets : str
        What it is: one of `SHEETS`.
    each : bool
        Every sheet in a file of its own.
    paper : str
        What it is printed on.
    gradebook : bool
        The marks that count as a plain CSV.
    place : Workplace
        Where diagnoses are made; every place gives the same.
    """

    table: str = "xlsx"
    feedback: bool = True
    sheets: str = "pdf"
    each: bool = False
    paper: str = "a4"
    gradebook: bool = False
    place: Workplace = Here


@dataclass(frozen=True, slots=True)
class Built:
    """What was made.

    Parameters
    ----------
    marked : ClassMarks
    rows : tuple of Marked
    report : ClassReport
    written : tuple of Path
    kept : Path, optional
        Where the table is that was there before, if it was typed into.
    doubts : int
        Answers whose reading is to be looked at.
    """

    marked: ClassMarks
    rows: tuple[Marked, ...]
    report: ClassReport
    written: tuple[Path, ...]
    kept: Path | None
    doubts: int


def build(
    answers: Path,
    of: Of,
    out: Path,
    wanted: Wanted = Wanted(),
    progress: Progress | None = None,
) -> Built:
    """Mark the answers of a class and write what is wanted into a folder.

    Raises
    ------
    EdgewiseError or Problems
        Answers that can't be read, or a table of marks in the folder that can't be.
    """
    path, old = begun(answers, out, wanted)
    given = table.read(answers)
    if results.is_results(given):
        given = results.answers(given, of.paper)
    sheet = answer_sheet.of_table(given, of.paper, of.words)
    marked = class_marks.mark(sheet, wanted.place, progress)
    rows = mark_sheet.overruled(marked, old)
    doubts = feedback.doubts(marked, of.words)
    readings = _readings(marked, doubts)
    sheets = [mark_sheet.sheet(rows, old), readings, mark_sheet.about()]
    report = class_report.of(marked, rows)
    with ThreadPoolExecutor(max_workers=1) as beside:  # charts are drawn without Python
        page = beside.submit(report_page.html_of, report, of.title, of.words)
        kept = spreadsheet.replace(path, spreadsheet.content(sheets, path.suffix))
    written = [path]
    if path.suffix == ".csv" and doubts:  # which has no second sheet
        content = spreadsheet.content([readings], path.suffix)
        written.append(output.write(out / "readings.csv", content))
    made = Sheets(of.title, marked, rows, of.words, of.language)
    written += told(page.result(), made, out, wanted, progress)
    return Built(marked, rows, report, tuple(written), kept, len(doubts))


def begun(answers: Path, out: Path, wanted: Wanted) -> tuple[Path, Overrules]:
    """Where the table of marks goes, and what a marker typed into the one that is there.

    Raises
    ------
    EdgewiseError
        Something is wanted that there is not, or the old table can't be read.
    """
    if wanted.table not in FORMATS:
        raise EdgewiseError(
            Message("marks-table-unknown", found=wanted.table, known=either(FORMATS))
        )
    if wanted.sheets not in SHEETS:
        raise EdgewiseError(
            Message("marks-sheets-unknown", found=wanted.sheets, known=choice(SHEETS))
        )
    pdf.check_paper(wanted.paper, "marks")
    path = out / f"marks.{wanted.table}"
    if path.resolve() == answers.resolve():
        raise EdgewiseError(Message("marks-overwrite-answers", path=str(path)))
    return path, overrules.read(path)


def told(
    page: str, sheets: Sheets, out: Path, wanted: Wanted, progress: Progress | None = None
) -> Iterator[Path]:
    """Write the report on a class, which is there as a page, and what else is wanted."""
    yield output.write(out / "report.html", page)
    if wanted.gradebook:
        book = spreadsheet.plain(mark_sheet.gradebook(sheets.rows))
        spreadsheet.replace(out / "gradebook.csv", book)
        yield out / "gradebook.csv"
    if wanted.feedback:
        ways = SHEETS[:-1] if wanted.sheets == "both" else (wanted.sheets,)
        shares = _each(sheets) if wanted.each else _together(sheets)
        for done, (name, numbers) in enumerate(shares, 1):
            for way in ways:
                made = _printed(sheets, numbers, way, wanted.paper)
                yield output.write(out / f"{name}.{_ENDINGS[way]}", made)
            if progress is not None:
                count = len(sheets.rows)
                progress(min(done * (1 if wanted.each else TOGETHER), count), count)


_ENDINGS: Final = {"pdf": "pdf", "page": "html"}


def _printed(sheets: Sheets, numbers: Sequence[int], way: str, paper: str) -> bytes | str:
    if way == "pdf":
        return pdf.pdf(sheet_print.source(sheets, numbers, paper), {})
    return sheet_page.html_of(sheets, numbers)


def _each(sheets: Sheets) -> Iterator[tuple[str, Sequence[int]]]:
    """Each learner's sheet in a file of its own, called after its row and its learner."""
    for number, row in enumerate(sheets.rows):
        learner = row.result.learner
        name = "-".join(_LETTERS.findall(learner.name.lower()))[:_LONGEST_NAME]
        yield f"feedback/{learner.line.number:04}-{name}".rstrip("-"), [number]


def _together(sheets: Sheets) -> Iterator[tuple[str, Sequence[int]]]:
    """The sheets of all learners, in files of `TOGETHER`."""
    count = len(sheets.rows)
    for first in range(0, count, TOGETHER):
        ending = "" if count <= TOGETHER else f"-{first // TOGETHER + 1}"
        yield f"feedback{ending}", range(first, min(first + TOGETHER, count))


def _readings(marked: ClassMarks, doubts: Sequence[feedback.Doubt]) -> Sheet:
    """Answers whose reading is to be looked at."""
    headings = ("learner", "column", "written", "read as", "how")
    lines = [
        (
            marked.results[doubt.number].learner.name,
            doubt.heading,
            doubt.reading.text,
            doubt.reading.digits,
            doubt.reading.way.value,
        )
        for doubt in doubts
    ]
    return Sheet("readings", headings, tuple(lines))
