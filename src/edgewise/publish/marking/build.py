"""A class marked in one go: the table of marks, a sheet for each learner."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Final

from edgewise.errors import EdgewiseError
from edgewise.practice.marking import (
    answer_sheet,
    class_marks,
    class_report,
    feedback,
    mark_sheet,
    overrules,
    spreadsheet,
    table,
)
from edgewise.practice.marking.asked import Paper
from edgewise.practice.marking.class_marks import ClassMarks
from edgewise.practice.marking.class_report import ClassReport
from edgewise.practice.marking.mark_sheet import Marked
from edgewise.practice.marking.spreadsheet import Sheet
from edgewise.publish import output
from edgewise.publish.handout import pdf
from edgewise.publish.marking import report_page
from edgewise.publish.marking.feedback_sheet import Sheets
from edgewise.study.cost.sweep import Here, Progress, Workplace
from edgewise.words.messages import Words

FORMATS: Final = ("xlsx", "csv")
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
    each : bool
        Every sheet in a file of its own.
    paper : str
        What it is printed on.
    place : Workplace
        Where diagnoses are made; every place gives the same.
    """

    table: str = "xlsx"
    feedback: bool = True
    each: bool = False
    paper: str = "a4"
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
    if wanted.table not in FORMATS:
        raise EdgewiseError(
            f"there is no table of marks as {wanted.table}; expected {' or '.join(FORMATS)}"
        )
    pdf.check_paper(wanted.paper, "expected")
    path = out / f"marks.{wanted.table}"
    if path.resolve() == answers.resolve():
        raise EdgewiseError(
            f"{path} would take the place of the answers; choose another folder with -o"
        )
    old = overrules.read(path)
    sheet = answer_sheet.of_table(table.read(answers), of.paper)
    marked = class_marks.mark(sheet, wanted.place, progress)
    rows = mark_sheet.overruled(marked, old)
    doubts = feedback.doubts(marked)
    readings = _readings(marked, doubts)
    sheets = [mark_sheet.sheet(rows, old), readings, mark_sheet.about()]
    kept = spreadsheet.replace(path, spreadsheet.content(sheets, path.suffix))
    report = class_report.of(marked, rows)
    told = report_page.html_of(report, of.title, of.words)
    written = [path]
    if path.suffix == ".csv" and doubts:  # which has no second sheet
        content = spreadsheet.content([readings], path.suffix)
        written.append(output.write(out / "readings.csv", content))
    written.append(output.write(out / "report.html", told))
    if wanted.feedback:
        made = Sheets(of.title, marked, rows, of.words, of.language, wanted.paper)
        sheets_of = _each if wanted.each else _together
        written += sheets_of(made, out, progress)
    return Built(marked, rows, report, tuple(written), kept, len(doubts))


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


def _each(sheets: Sheets, out: Path, progress: Progress | None) -> Iterator[Path]:
    """Each learner's sheet in a file of its own, called after its row and its learner."""
    count = len(sheets.rows)
    for number, row in enumerate(sheets.rows):
        learner = row.result.learner
        name = "-".join(_LETTERS.findall(learner.name.lower()))[:_LONGEST_NAME]
        path = out / "feedback" / f"{learner.line.number:04}-{name}".rstrip("-")
        yield output.write(path.with_name(f"{path.name}.pdf"), pdf.pdf(sheets.source([number]), {}))
        if progress is not None:
            progress(number + 1, count)


def _together(sheets: Sheets, out: Path, progress: Progress | None) -> Iterator[Path]:
    """The sheets of all learners, in files of `TOGETHER`."""
    count = len(sheets.rows)
    for first in range(0, count, TOGETHER):
        numbers = range(first, min(first + TOGETHER, count))
        ending = "" if count <= TOGETHER else f"-{first // TOGETHER + 1}"
        yield output.write(out / f"feedback{ending}.pdf", pdf.pdf(sheets.source(numbers), {}))
        if progress is not None:
            progress(numbers[-1] + 1, count)
