"""A sheet for each learner: their answers, where an error began, the idea behind it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Final

from edgewise.practice.marking import spreadsheet
from edgewise.practice.marking.class_marks import Cells, ClassMarks
from edgewise.practice.marking.diagnosis import Diagnosis, Status
from edgewise.practice.marking.feedback import Told, Verdict, began, told
from edgewise.practice.marking.mark_sheet import Marked
from edgewise.practice.marking.score import Score
from edgewise.practice.marking.whole_answer import WholeAnswer
from edgewise.publish.handout.pdf import PAPERS, quoted
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


@dataclass(frozen=True)
class Sheets:
    """The sheets of a class.

    Parameters
    ----------
    title : str
        Of the paper.
    marked : ClassMarks
    rows : sequence of Marked
    words : Words
    language : str
        Of the paper, as a language tag.
    paper : str
        What it is printed on: one of `PAPERS`.
    """

    title: str
    marked: ClassMarks
    rows: Sequence[Marked]
    words: Words
    language: str = "en"
    paper: str = "a4"

    def source(self, numbers: Sequence[int]) -> str:
        """The typst of some learners' sheets, each on a page of its own."""
        title = self.words("feedback-title", title=self.title)
        primary = self.language.partition("-")[0].lower()
        opening = (
            f"#show: setup.with(title: {quoted(title)}, lang: {quoted(primary)},"
            f" paper: {quoted(PAPERS[self.paper][0])}, foot: {quoted(title)})\n"
        )
        places = self._places()
        pages = [self._page(number, places.get(number, ())) for number in numbers]
        return opening + "#pagebreak()\n".join(pages)

    def _places(self) -> Mapping[int, Sequence[tuple[Cells, int]]]:
        """For each learner, the questions that ask for cells, and their place in each batch."""
        found: dict[int, list[tuple[Cells, int]]] = {}
        for cells in self.marked.cells:
            for place, learner in enumerate(cells.answered.learners):
                found.setdefault(learner, []).append((cells, place))
        return found

    def _page(self, number: int, asked: Sequence[tuple[Cells, int]]) -> str:
        row, words = self.rows[number], self.words
        learner = row.result.learner
        facts = f"facts([], {quoted(words('paper-code', code=_shown(learner.code)))})"
        lines = [f"#title[#{quoted(_shown(learner.name))};]\n#{facts}\n"]
        if not row.result.scores:
            return lines[0] + _paragraph(words("feedback-no-paper"))
        lines.append(_paragraph(self._total(row)))
        if row.result.diagnosis is not None:
            lines += [_paragraph(text) for text in idea(row.result.diagnosis, words)]
        cells = {one.name: told(one, place) for one, place in asked}
        for score in row.result.scores:
            lines.append(self._question(row, score))
            whole = self.marked.wholes.get((number, score.name))
            if whole is not None:
                lines.append(_paragraph(self._whole(whole, row, score)))
            else:
                lines += self._cells(cells.get(score.name, ()))
        return "".join(lines)

    def marks(self, number: Fraction) -> str:
        """A number of marks as it is written in the language."""
        return self.words.decimal(spreadsheet.written(number))

    def _total(self, row: Marked) -> str:
        return self.words("feedback-total", marks=self.marks(row.total), most=row.most)

    def _question(self, row: Marked, score: Score) -> str:
        given = self.words(
            "feedback-question",
            number=score.name.removeprefix("q"),
            marks=self.marks(row.counted(score)),
            most=score.marks,
        )
        return f"#heading(level: 1)[#{quoted(given)};]\n"

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

    def _cells(self, cells: Sequence[Told]) -> Iterator[str]:
        """Of one question: how many are right, where an error began, what follows from it."""
        words, counts = self.words, {v: sum(c.verdict is v for c in cells) for v in Verdict}
        yield _paragraph(words("feedback-right", right=counts[Verdict.RIGHT], count=len(cells)))
        first = began(cells)
        if first is not None:
            known = {
                "cell": str(first.cell),
                "wrote": first.reading.digits,
                "follows": first.follows,
            }
            yield _paragraph(words("feedback-began", **known))
        for verdict, message in _COUNTED.items():
            if counts[verdict]:
                yield _paragraph(words(message, count=counts[verdict]))
        shown = [c for c in cells if c.verdict is not Verdict.RIGHT or c.reading.doubtful]
        if shown:
            yield self._table(shown[:MOST_CELLS])
        if len(shown) > MOST_CELLS:
            yield _paragraph(words("feedback-more", count=len(shown) - MOST_CELLS))

    def _table(self, cells: Sequence[Told]) -> str:
        heads = [f"[#{quoted(self.words(f'feedback-column-{name}'))};]" for name in _TABLE]
        lines = [", ".join(self._line(one)) for one in cells]
        aligned = ", ".join(["left"] * len(_TABLE))
        return (
            f"#own-table({len(_TABLE)}, ({aligned}), ({', '.join(heads)},),\n  "
            + ",\n  ".join(lines)
            + ")\n"
        )

    def _line(self, one: Told) -> tuple[str, ...]:
        wrote = f"#value({quoted(_shown(one.reading.text, _WIDEST))});"
        if one.reading.word is not None and one.reading.digits != one.reading.text.strip():
            wrote += f"#{quoted(' ' + self.words('feedback-read-as', word=one.reading.digits))};"
        follows = one.follows if one.follows != one.right else ""
        verdict = self.words(f"feedback-verdict-{one.verdict.value}")
        bits = (f"[#value({quoted(word)});]" for word in (one.right, follows))
        return f"[#{quoted(str(one.cell))};]", f"[{wrote}]", *bits, f"[#{quoted(verdict)};]"


_COUNTED: Final = {
    Verdict.FOLLOWS: "feedback-follows",
    Verdict.BLANK: "feedback-blank",
    Verdict.UNREAD: "feedback-unread",
}


def _shown(text: str, most: int = _LONGEST) -> str:
    """What somebody typed, cut to what is printed, with ``?`` for letters that can't be."""
    plain = " ".join(text.split())
    cut = plain if len(plain) <= most else f"{plain[: most - 1]}…"
    return text_metrics.lettered(cut)


def _paragraph(text: str) -> str:
    return f"#{quoted(text)};\n\n"


def idea(found: Diagnosis, words: Words) -> Iterator[str]:
    """What is said of the idea behind the wrong cells; no more than was counted."""
    if found.status is Status.UNEXPLAINED:
        yield words("feedback-unexplained")
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
