"""What the marks of a class say: of the questions, of the ideas behind errors, of the variants.

Facts only, and no learner's name among them.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import asdict, dataclass
from statistics import fmean
from typing import Any

from edgewise.practice.marking import item_statistics
from edgewise.practice.marking.batch import counted
from edgewise.practice.marking.beliefs import Names
from edgewise.practice.marking.class_marks import Cells, ClassMarks
from edgewise.practice.marking.diagnosis import Status
from edgewise.practice.marking.item_statistics import Interval, Variance
from edgewise.practice.marking.mark_sheet import Marked
from edgewise.practice.table_question import Cell


@dataclass(frozen=True, slots=True)
class Item:
    """A question and how the class did.

    Parameters
    ----------
    name : str
    marks : int
    learners : int
        Who wrote the paper that it is in.
    facility : float
        Mean marks that count, as a share of all.
    answers : float
        The same without follow-through.
    discrimination : float, optional
    """

    name: str
    marks: int
    learners: int
    facility: float
    answers: float
    discrimination: float | None


@dataclass(frozen=True, slots=True)
class CellItem:
    """A cell and how the class did.

    Parameters
    ----------
    question : str
    cell : Cell
    asked, right, followed, began : int
        Learners who were asked, who are right, whose wrong answer follows from their own rows, and
        whose error begins here.
    """

    question: str
    cell: Cell
    asked: int
    right: int
    followed: int
    began: int


@dataclass(frozen=True, slots=True)
class VariantItem:
    """A variant, by its code: how many wrote it, and their mean share of the marks."""

    code: str
    learners: int
    share: float


@dataclass(frozen=True)
class ClassReport:
    """The figures of a class.

    Parameters
    ----------
    learners, without_paper, blank : int
        All rows; those whose code is of no paper; those with no answer that can be read. The
        figures are of the others.
    shares : tuple of float
        Of all marks, learner by learner, the lowest first.
    items : tuple of Item
    cells : tuple of CellItem
    alpha : Interval, optional
        Over the questions.
    kr_20 : Interval, optional
        Over single cells, where all learners were asked for the same.
    statuses : mapping of Status to int
    ideas : tuple of (tuple of Names, int)
        What was told, the most frequent first, and to how many.
    variants : tuple of VariantItem
    equally_hard : Variance, optional
    source : str
        Whether learners wrote a ``paper``, or tried rows on a ``page``.
    """

    learners: int
    without_paper: int
    blank: int
    shares: tuple[float, ...]
    items: tuple[Item, ...]
    cells: tuple[CellItem, ...]
    alpha: Interval | None
    kr_20: Interval | None
    statuses: Mapping[Status, int]
    ideas: tuple[tuple[tuple[Names, ...], int], ...]
    variants: tuple[VariantItem, ...]
    equally_hard: Variance | None
    source: str = "paper"

    @property
    def counted(self) -> int:
        """Learners of whom the figures are."""
        return len(self.shares)

    def data(self) -> dict[str, Any]:
        """The figures as plain dictionaries and lists."""
        return {
            "learners": self.learners,
            "without paper": self.without_paper,
            "blank": self.blank,
            "mean share": fmean(self.shares) if self.shares else None,
            "questions": [asdict(item) for item in self.items],
            "cells": [{**asdict(one), "cell": str(one.cell)} for one in self.cells],
            "alpha": self.alpha and asdict(self.alpha),
            "KR-20": self.kr_20 and asdict(self.kr_20),
            "statuses": {status.value: number for status, number in self.statuses.items()},
            "ideas": [
                {"any of": [list(names) for names in told], "learners": number}
                for told, number in self.ideas
            ],
            "variants": [asdict(one) for one in self.variants],
            "equally hard": self.equally_hard and asdict(self.equally_hard),
        }


def of(marked: ClassMarks, rows: Sequence[Marked]) -> ClassReport:
    """The figures of a class, with what a marker has overruled."""
    with_paper = [row for row in rows if row.result.scores]
    writing = [number for number, row in enumerate(rows) if _wrote(row)]
    wrote = [rows[number] for number in writing]
    diagnoses = [row.result.diagnosis for row in wrote if row.result.diagnosis is not None]
    told = Counter(one.names for one in diagnoses if one.names)
    by_code: dict[str, list[float]] = {}
    for row in wrote:
        by_code.setdefault(row.result.learner.code, []).append(_share(row))
    return ClassReport(
        len(rows),
        len(rows) - len(with_paper),
        len(with_paper) - len(wrote),
        tuple(sorted(map(_share, wrote))),
        _items(wrote),
        tuple(item for cells in marked.cells for item in _cells(cells, set(writing))),
        item_statistics.alpha(_by_question(wrote)),
        _kr_20(marked.cells, writing),
        Counter(one.status for one in diagnoses),
        tuple(told.most_common()),
        tuple(VariantItem(code, len(s), fmean(s)) for code, s in sorted(by_code.items())),
        item_statistics.equally_hard(by_code),
    )


def _wrote(row: Marked) -> bool:
    return any(score.blank + score.unread < score.asked for score in row.result.scores)


def _share(row: Marked) -> float:
    return float(row.total / row.most) if row.most else 0.0


def _names(rows: Sequence[Marked]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(score.name for row in rows for score in row.result.scores))


def _by_question(rows: Sequence[Marked]) -> list[list[float]]:
    """For each question that everybody was asked, the marks that count, learner by learner."""
    found: dict[str, list[float]] = {}
    for row in rows:
        for score in row.result.scores:
            found.setdefault(score.name, []).append(float(row.counted(score)))
    return [marks for marks in found.values() if len(marks) == len(rows)]


def _items(rows: Sequence[Marked]) -> tuple[Item, ...]:
    names, items = _names(rows), []
    marks = _by_question(rows)
    complete = len(marks) == len(names)
    for number, name in enumerate(names):
        asked = [(row, s) for row in rows for s in row.result.scores if s.name == name]
        most = max(score.marks for _, score in asked)
        counted = [float(row.counted(score) / score.marks) for row, score in asked]
        answers = [float(score.answers / score.marks) for _, score in asked]
        apart = item_statistics.discrimination(marks, number) if complete else None
        items.append(Item(name, most, len(asked), fmean(counted), fmean(answers), apart))
    return tuple(items)


def _cells(cells: Cells, writing: set[int]) -> list[CellItem]:
    batch = cells.answered.batch
    counting = sum(
        1 << i for i, learner in enumerate(cells.answered.learners) if learner in writing
    )
    found, before = [], 0
    for number, cell in enumerate(batch.cells):
        right = batch.right[number] & counting
        followed = batch.followed[number] & ~batch.right[number] & counting
        wrong = batch.given[number] & counting & ~right & ~followed
        began = (wrong & ~before).bit_count()
        before |= wrong
        found.append(
            CellItem(
                cells.name,
                cell,
                counting.bit_count(),
                right.bit_count(),
                followed.bit_count(),
                began,
            )
        )
    return found


def _kr_20(cells: Sequence[Cells], writing: Sequence[int]) -> Interval | None:
    """Over all cells, if every learner was asked for the same ones."""
    wanted = set(writing)
    totals, right = dict.fromkeys(writing, 0), []
    for one in cells:
        learners, batch = one.answered.learners, one.answered.batch
        if not wanted <= set(learners):
            return None
        counting = sum(1 << place for place, each in enumerate(learners) if each in wanted)
        right += [(mask & counting).bit_count() for mask in batch.right]
        for learner, number in zip(learners, counted(batch.right, batch.size), strict=True):
            if learner in totals:
                totals[learner] += number
    return item_statistics.kr_20(right, list(totals.values()))
