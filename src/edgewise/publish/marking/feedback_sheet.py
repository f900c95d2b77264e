"""A sheet for each learner: their answers, where an error began, the idea behind it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property
from typing import Final, TypeAlias

from edgewise.practice.marking import spreadsheet
from edgewise.practice.marking.class_marks import Cells, ClassMarks
from edgewise.practice.marking.diagnosis import Diagnosis, Status
from edgewise.practice.marking.feedback import Told, Verdict, began, told
from edgewise.practice.marking.mark_sheet import Marked
from edgewise.practice.marking.score import Score
from edgewise.practice.marking.whole_answer import WholeAnswer
from edgewise.publish.blocks import Heading, Paragraph
from edgewise.study.misconceptions import registry
from edgewise.views.drawing import text_metrics
from edgewise.words.lists import listed
from edgewise.words.messages import Words

MOST_CELLS: Final = 40
"""Cells of a question that are told one by one."""
_LONGEST: Final = 60
"""Letters of a name or an answer that are printed."""
_WIDEST: Final = 24
"""Letters of an answer in a table."""
_TABLE: Final = ("cell", "wrote", "right", "follows", "verdict")


@dataclass(frozen=True, slots=True)
class Table:
    """Answers one by one.

    Parameters
    ----------
    headings : tuple of str
    lines : tuple of tuple of str
        Where, what was written and how it was read, what is right, what follows, the verdict.
    """

    headings: tuple[str, ...]
    lines: tuple[tuple[str, str, str, str, str, str], ...]


Block: TypeAlias = Heading | Paragraph | Table


@dataclass(frozen=True, slots=True)
class Sheet:
    """What one learner is told.

    Parameters
    ----------
    name : str
    facts : str
    blocks : tuple of Block
    """

    name: str
    facts: str
    blocks: tuple[Block, ...]


@dataclass(frozen=True)
class Sheets:
    """The sheets of a class.

    Parameters
    ----------
    title : str
        Of the paper or the lesson.
    marked : ClassMarks
    rows : sequence of Marked
    words : Words
    language : str
        Of the paper, as a language tag.
    tried : mapping of int to (mapping of str to sequence of Told)
        What learners tried on a page, by learner and row; nothing for a paper.
    """

    title: str
    marked: ClassMarks
    rows: Sequence[Marked]
    words: Words
    language: str = "en"
    tried: Mapping[int, Mapping[str, Sequence[Told]]] | None = None

    @property
    def heading(self) -> str:
        """Over all of them."""
        return self.words("feedback-title", title=self.title)

    @cached_property
    def _places(self) -> Mapping[int, Sequence[tuple[Cells, int]]]:
        """For each learner, the questions that ask for cells, and their place in each batch."""
        found: dict[int, list[tuple[Cells, int]]] = {}
        for cells in self.marked.cells:
            for place, learner in enumerate(cells.answered.learners):
                found.setdefault(learner, []).append((cells, place))
        return found

    def _told(self, number: int) -> Mapping[str, Sequence[Told]]:
        if self.tried is not None:
            return self.tried.get(number, {})
        return {one.name: told(one, place) for one, place in self._places.get(number, ())}

    def sheet(self, number: int) -> Sheet:
        """The sheet of one learner."""
        learner = self.rows[number].result.learner
        code = "" if self.tried is not None else self.words("paper-code", code=_shown(learner.code))
        return Sheet(_shown(learner.name), code, tuple(self._blocks(number)))

    def _blocks(self, number: int) -> Iterator[Block]:
        row, words = self.rows[number], self.words
        if not row.result.scores:
            missing = "paper" if self.tried is None else "code"
            yield Paragraph(words(f"feedback-no-{missing}"))
            return
        yield Paragraph(words("feedback-total", marks=self.marks(row.total), most=row.most))
        if row.result.diagnosis is not None:
            yield from map(Paragraph, idea(row.result.diagnosis, words))
        cells = self._told(number)
        for score in row.result.scores:
            yield Heading(self._question(row, score))
            whole = self.marked.wholes.get((number, score.name))
            if whole is not None:
                yield Paragraph(self._whole(whole, row, score))
            else:
                yield from self._cells(cells.get(score.name, ()))

    def marks(self, number: Fraction) -> str:
        """A number of marks as it is written in the language."""
        return self.words.decimal(spreadsheet.written(number))

    def _question(self, row: Marked, score: Score) -> str:
        return self.words(
            "feedback-question" if self.tried is None else "feedback-row",
            number=score.name[1:],
            marks=self.marks(row.counted(score)),
            most=score.marks,
        )

    def _whole(self, answer: WholeAnswer, row: Marked, score: Score) -> str:
        wrote = listed([_shown(text) for text in answer.texts if text], self.words)
        if answer.blank:
            return self.words("feedback-blank", count=1)
        if answer.right:
            return self.words("feedback-whole-right", wrote=wrote)
        if not answer.readable:
            return self.words("feedback-whole-unread", wrote=wrote)
        asked = row.result.learner.variant.questions if row.result.learner.variant else ()
        question = next(one for one in asked if one.name == score.name)
        right = listed([question.expected(heading) for heading in question.headings], self.words)
        return self.words("feedback-whole-wrong", wrote=wrote, right=right)

    def _cells(self, cells: Sequence[Told]) -> Iterator[Block]:
        """Of one question: how many are right, where an error began, what follows from it."""
        words, counts = self.words, {v: sum(c.verdict is v for c in cells) for v in Verdict}
        yield Paragraph(words("feedback-right", right=counts[Verdict.RIGHT], count=len(cells)))
        first = began(cells)
        if first is not None:
            known = {
                "cell": first.cell.said(words),
                "wrote": first.reading.digits,
                "follows": first.follows,
            }
            yield Paragraph(words("feedback-began", **known))
        for verdict, message in _COUNTED.items():
            if counts[verdict]:
                yield Paragraph(words(message, count=counts[verdict]))
        shown = [c for c in cells if c.verdict is not Verdict.RIGHT or c.reading.doubtful]
        if counts[Verdict.BLANK] == len(cells):  # the worked solutions have all of it
            return
        if shown:
            headings = tuple(words(f"feedback-column-{name}") for name in _TABLE)
            yield Table(headings, tuple(map(self._line, shown[:MOST_CELLS])))
        if len(shown) > MOST_CELLS:
            yield Paragraph(words("feedback-more", count=len(shown) - MOST_CELLS))

    def _line(self, one: Told) -> tuple[str, str, str, str, str, str]:
        read = ""
        if one.reading.word is not None and one.reading.digits != one.reading.text.strip():
            read = self.words("feedback-read-as", word=one.reading.digits)
        follows = one.follows if one.follows != one.right else ""
        verdict = self.words(f"feedback-verdict-{one.verdict.value}")
        wrote = _shown(one.reading.text, _WIDEST)
        return one.cell.said(self.words), wrote, read, one.right, follows, verdict


_COUNTED: Final = {
    Verdict.FOLLOWS: "feedback-follows",
    Verdict.BLANK: "feedback-blank",
    Verdict.UNREAD: "feedback-unread",
}


_SAID: Final = {
    Status.NOTHING: "feedback-nothing",
    Status.UNEXPLAINED: "feedback-unexplained",
    Status.UNREADABLE: "feedback-hardly-readable",
}


def _shown(text: str, most: int = _LONGEST) -> str:
    """What somebody typed, cut to what is printed, with ``?`` for letters that can't be."""
    plain = " ".join(text.split())
    cut = plain if len(plain) <= most else f"{plain[: most - 1]}…"
    return text_metrics.lettered(cut)


def idea(found: Diagnosis, words: Words) -> Iterator[str]:
    """What is said of the idea behind the wrong cells; no more than was counted."""
    if found.status in _SAID:
        yield words(_SAID[found.status])
    elif found.status is Status.CARELESS:
        yield words("feedback-careless", count=found.ideas[0].against)
    elif found.status is Status.MISCONCEPTION:
        yield words("feedback-idea", count=len(found.ideas), more=len(found.names[0]))
        for fit in found.ideas:
            thoughts = [registry.find(name).said(words) for name in fit.names]
            first, *second = [words("feedback-thought", thought=thought) for thought in thoughts]
            yield words("feedback-and", one=first, other=second[0]) if second else first
        yield words(
            "feedback-evidence",
            explained=found.explained,
            wrong=found.wrong,
            contradicted=found.ideas[0].contradicted,
        )
