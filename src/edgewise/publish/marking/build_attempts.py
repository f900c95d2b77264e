"""What learners tried on a page, marked in one go from a folder of what they handed in."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from pathlib import Path

from edgewise.lesson.report import Report
from edgewise.practice import identity
from edgewise.practice.marking import (
    attempt_folder,
    attempts,
    class_report,
    mark_sheet,
    spreadsheet,
)
from edgewise.practice.marking.answer_sheet import Learner
from edgewise.practice.marking.attempt_folder import HandedIn
from edgewise.practice.marking.attempts import Tried
from edgewise.practice.marking.class_marks import ClassMarks, Result
from edgewise.practice.marking.class_report import CellItem
from edgewise.practice.marking.diagnosis import Diagnosis
from edgewise.practice.marking.feedback import Told, Verdict, began
from edgewise.practice.marking.table import Line
from edgewise.publish.marking import report_page
from edgewise.publish.marking.build import Built, Wanted, begun, told
from edgewise.publish.marking.feedback_sheet import Sheets
from edgewise.publish.stage.sizes import sizes
from edgewise.study.cost.sweep import Progress

Cells = Mapping[str, tuple[Told, ...]]
"""What a learner tried, row by row."""


def build(
    folder: Path,
    report: Report,
    out: Path,
    wanted: Wanted,
    progress: Progress | None = None,
) -> Built:
    """Mark what learners handed in from the page of a lesson.

    Parameters
    ----------
    folder : Path
        Of text files, one a learner.
    report : Report
        The lesson, checked.
    out : Path
    wanted : Wanted
    progress : function, optional

    Raises
    ------
    EdgewiseError or Problems
        A folder that can't be read, or a table of marks that can't be.
    """
    path, old = begun(folder, out, wanted)
    design, words = report.trace.design, report.words
    known = [Tried(one) for one in sizes(design, report.blueprint)]
    handed = attempt_folder.read(folder, identity.short(design), known)
    cells = [attempts.told(one.steps) for one in handed]
    diagnoses = attempts.diagnosed([one.steps for one in handed])
    results = map(_result, handed, cells, diagnoses)
    marked = ClassMarks(tuple(results), ())
    rows = mark_sheet.overruled(marked, old)
    table = [mark_sheet.sheet(rows, old), mark_sheet.about()]
    kept = spreadsheet.replace(path, spreadsheet.content(table, path.suffix))
    figures = replace(
        class_report.of(marked, rows),
        cells=tuple(_items(cells)),
        variants=(),
        equally_hard=None,
        source="page",
    )
    front = report.lesson.front
    sheets = Sheets(front.title, marked, rows, words, front.language, dict(enumerate(cells)))
    page = report_page.html_of(figures, front.title, words)
    written = [path, *told(page, sheets, out, wanted, progress)]
    return Built(marked, rows, figures, tuple(written), kept, 0)


def _result(handed: HandedIn, cells: Cells, diagnosis: Diagnosis) -> Result:
    code = handed.codes[0].rpartition(".")[2] if handed.codes else ""
    line = Line(handed.number, ())
    learner = Learner(line, handed.name, code, None, "; ".join(handed.faults))
    scores = tuple(attempts.score(name, of) for name, of in cells.items())
    return Result(learner, scores, diagnosis if scores else None)


def _items(cells: Sequence[Cells]) -> Iterator[CellItem]:
    """Each word of each row, and how those who tried it did."""
    names = {name: None for of in cells for name in of}
    for name in sorted(names, key=lambda one: int(one[1:])):
        tried = [of[name] for of in cells if name in of]
        first = [began(of) for of in tried]
        places = dict.fromkeys(one.cell for of in tried for one in of)
        for cell in places:
            found = [one.verdict for of in tried for one in of if one.cell == cell]
            errors = sum(one is not None and one.cell == cell for one in first)
            right, follows = (found.count(v) for v in (Verdict.RIGHT, Verdict.FOLLOWS))
            yield CellItem(name, cell, len(found), right, follows, errors)
