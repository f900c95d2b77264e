"""One file of answers: a row a paper, a column for each thing that is asked."""

from __future__ import annotations

import csv
import io
from typing import Final

from edgewise.practice.formula_guard import guarded
from edgewise.practice.paper import Papers

CODE: Final = "code"
"""The heading of the column with the papers' codes."""


def answers(papers: Papers) -> str:
    """The right answers as comma-separated values (RFC 4180), with a heading.

    An answer that a spreadsheet would run as a formula begins with an apostrophe.
    """
    headings = papers.variants[0].titles
    rows = [
        [one.code, *(guarded(q.expected(heading)) for q in one.questions for heading in q.headings)]
        for one in papers.variants
    ]
    return _csv([[CODE, *headings], *rows])


def _csv(rows: list[list[str]]) -> str:
    file = io.StringIO()
    csv.writer(file, lineterminator="\r\n").writerows(rows)
    return file.getvalue()
