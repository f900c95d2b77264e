"""Writing the report on judged submissions: a page and a table."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import Final

from edgewise.design import Design
from edgewise.lab.judging.groups import Group
from edgewise.lab.judging.verdict import Verdict, named
from edgewise.practice.formula_guard import guarded
from edgewise.publish import output
from edgewise.publish.submissions import page
from edgewise.words.lists import equations
from edgewise.words.messages import ENGLISH, Words

COLUMNS: Final = (
    "file",
    "verdict",
    "error",
    "explanation",
    "operands",
    "output",
    "edge",
    "found",
    "expected",
    "remarks",
    "reason",
)
"""Of the table, which is for programs: in English."""


def build(groups: Sequence[Group], design: Design, out: Path, words: Words) -> tuple[Path, ...]:
    """Write ``submissions.html`` and ``submissions.csv`` into a folder.

    Parameters
    ----------
    groups : sequence of Group
    design : Design
        What they were held against.
    out : Path
        The folder; it is made if need be.
    words : Words
        Of the page.
    """
    made = page.html_of(groups, design, words).encode()
    return (
        output.write(out / "submissions.html", made),
        output.write(out / "submissions.csv", table(groups).encode()),
    )


def table(groups: Sequence[Group]) -> str:
    """The table: a line for each submission, in the order of their names."""
    numbers = {
        verdict.file: number
        for number, group in enumerate((one for one in groups if one.outcome == "wrong"), 1)
        for verdict in group.verdicts
    }
    verdicts = sorted((v for group in groups for v in group.verdicts), key=lambda one: one.file)
    text = io.StringIO()
    writer = csv.writer(text, lineterminator="\n")
    writer.writerow(COLUMNS)
    for one in verdicts:
        writer.writerow(guarded(cell) for cell in _cells(one, numbers.get(one.file)))
    return text.getvalue()


def _cells(verdict: Verdict, number: int | None) -> Iterator[str]:
    yield from (verdict.file, verdict.outcome, str(number or ""), named(verdict.explanations))
    facts = verdict.refuted.facts() if verdict.refuted else {}
    operands = verdict.refuted.operands if verdict.refuted else {}
    yield equations(operands.items())
    yield from (str(facts.get(name, "")) for name in ("answer", "edge", "found", "should"))
    yield "; ".join(f"{one.place}: {one.said(ENGLISH)}" for one in verdict.remarks)
    yield verdict.reason
