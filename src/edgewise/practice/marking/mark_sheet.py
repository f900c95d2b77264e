"""The table of marks: a row for each learner, columns for each question, and the marker's own."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Final

from edgewise.practice.marking.answer_sheet import CODE, LEARNER
from edgewise.practice.marking.class_marks import ClassMarks, Result
from edgewise.practice.marking.diagnosis import Diagnosis, Status
from edgewise.practice.marking.overrules import Overrules, marks
from edgewise.practice.marking.score import Score
from edgewise.practice.marking.spreadsheet import Sheet, Value, valued

ANSWERS: Final = "answers"
OVERRULE: Final = "overrule"
TOTAL: Final = "total"
REMARK: Final = "remark"
_FIGURES: Final = ("idea", "wrong cells", "explained", "against", "margin")
ABOUT: Final = (
    ("q1", "marks for the method: a cell counts if it is right or follows from the learner's own"),
    ("q1 answers", "marks for the answers as they stand: only right cells count"),
    ("q1 overrule", "yours to type: marks that count instead of those under q1"),
    ("e7", "of a page: the same for the row after edge 7 that was tried first, a mark each"),
    (TOTAL, "of all questions, with your overrules"),
    ("of", "all marks of the learner's paper"),
    ("idea", "the misconception, or two held together, that explains the wrong cells best"),
    ("wrong cells", "in all questions that ask for cells"),
    ("explained", "of these, those that the idea gives"),
    ("against", "cells against it: wrong ones that it does not give, right ones that it would not"),
    ("margin", "cells that tell it from the next candidate"),
    ("note", "why there are no marks, or why an overrule does not count"),
    (REMARK, "yours to type; columns that you add are kept as well"),
)


@dataclass(frozen=True, slots=True)
class Marked:
    """One learner's row of marks.

    Parameters
    ----------
    result : Result
    overrules : tuple of (str, Fraction)
        Question and marks, where a marker's marks count.
    notes : tuple of str
    """

    result: Result
    overrules: tuple[tuple[str, Fraction], ...] = ()
    notes: tuple[str, ...] = ()

    def counted(self, score: Score) -> Fraction:
        """The marks that count for a question."""
        return dict(self.overrules).get(score.name, score.method)

    @property
    def total(self) -> Fraction:
        """The marks that count."""
        return sum((self.counted(score) for score in self.result.scores), Fraction(0))

    @property
    def most(self) -> int:
        """All marks of the paper."""
        return sum(score.marks for score in self.result.scores)


def overruled(marked: ClassMarks, old: Overrules) -> tuple[Marked, ...]:
    """Each learner's marks with what a marker typed before."""
    return tuple(_overruled(result, old) for result in marked.results)


def _overruled(result: Result, old: Overrules) -> Marked:
    learner = result.learner
    counting, notes = [], [learner.fault] if learner.fault else []
    for score in result.scores:
        typed = old.at(learner.name, f"{score.name} {OVERRULE}")
        given = marks(typed, score.marks) if typed else None
        if given is not None:
            counting.append((score.name, given))
        elif typed:
            notes.append(
                f"{score.name} {OVERRULE} is not counted: expected marks from 0 to {score.marks}"
            )
    return Marked(result, tuple(counting), tuple(notes))


def gradebook(rows: Sequence[Marked]) -> Sheet:
    """The marks that count and nothing else: who, each question, the total, and of how many."""
    names = _questions(rows)
    lines = []
    for row in rows:
        found = {score.name: row.counted(score) for score in row.result.scores}
        sums = (row.total, row.most) if found else ("", "")
        lines.append((row.result.learner.name, *(found.get(name, "") for name in names), *sums))
    return Sheet("gradebook", (LEARNER, *names, TOTAL, "of"), tuple(lines))


def _questions(rows: Sequence[Marked]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(score.name for row in rows for score in row.result.scores))


def sheet(rows: Sequence[Marked], old: Overrules) -> Sheet:
    """The table, with all that a marker has typed before."""
    names = _questions(rows)
    questions = [
        heading for name in names for heading in (name, f"{name} {ANSWERS}", f"{name} {OVERRULE}")
    ]
    ours = (LEARNER, CODE, *questions, TOTAL, "of", *_FIGURES, "note", REMARK)
    added = tuple(heading for heading in old.headings if heading and heading not in ours)
    headings = (*ours, *added)
    typed = frozenset({*(f"{name} {OVERRULE}" for name in names), REMARK, *added})
    lines = [_line(row, headings, typed, old) for row in rows]
    known = {row.result.learner.name for row in rows}
    for learner, cells in old.rows.items():
        if learner not in known:  # whoever is not in the answers any more
            lines.append(tuple(_kept(cells.get(heading, ""), heading) for heading in headings))
    return Sheet("marks", headings, tuple(lines), typed)


def _line(
    row: Marked, headings: Sequence[str], typed: frozenset[str], old: Overrules
) -> tuple[Value, ...]:
    learner = row.result.learner
    found: dict[str, Value] = {LEARNER: learner.name, CODE: learner.code}
    for score in row.result.scores:
        found[score.name] = score.method
        found[f"{score.name} {ANSWERS}"] = score.answers
    if row.result.scores:
        found |= {TOTAL: row.total, "of": row.most}
    if row.result.diagnosis is not None:
        found |= zip(_FIGURES, _figures(row.result.diagnosis), strict=False)
    found["note"] = "; ".join(row.notes)
    found |= {h: _kept(old.at(learner.name, h), h) for h in typed if old.at(learner.name, h)}
    return tuple(found.get(heading, "") for heading in headings)


def _kept(text: str, heading: str) -> Value:
    return text if heading in (LEARNER, CODE) else valued(text)


def _figures(found: Diagnosis) -> Iterator[Value]:
    yield idea(found)
    if found.status is not Status.NOTHING:
        yield found.wrong
    if found.status is Status.MISCONCEPTION:
        yield found.explained
        yield found.ideas[0].against
        yield found.margin


def idea(found: Diagnosis) -> str:
    """The idea behind the wrong cells, by name, or what else there is to say in one word.

    Examples
    --------
    >>> from edgewise.practice.marking.diagnosis import Fit, judged
    >>> idea(judged(9, 4, [Fit((), 4, 0), Fit(("wrong-end",), 0, 0), Fit(("re-enters",), 0, 0)]))
    'wrong-end or re-enters'
    """
    told = " or ".join(" and ".join(names) for names in found.names)
    return told or found.status.value


def about() -> Sheet:
    """What the columns mean."""
    return Sheet("columns", ("column", "meaning"), ABOUT)
