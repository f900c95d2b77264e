"""Questions on paper: what is asked, with room to write, and how it is worked out."""

from __future__ import annotations

from typing import Final, Literal, Protocol

from edgewise.bits import Word
from edgewise.lesson.pieces import EdgeTable, Figure
from edgewise.lesson.question import Asked
from edgewise.practice import wording, worked
from edgewise.practice.question import (
    CellsQuestion,
    ChoiceQuestion,
    FormulaQuestion,
    OperandsQuestion,
    Question,
    ValueQuestion,
)
from edgewise.publish.handout.pdf import quoted
from edgewise.publish.handout.prose import content
from edgewise.publish.handout.run_tables import Cells
from edgewise.publish.lanes import without_lane
from edgewise.views.drawing.svg import Drawing
from edgewise.views.registry import Wish
from edgewise.words.messages import Words

_SHORT: Final = 12
"""Rows and sentences of a question that stays on one page, at most."""
_LINE: Final = 220.0
"""Of a line to write a formula on, pt."""


class Sheet(Protocol):
    """What a question is set on: a handout or a paper."""

    counts: dict[str, int]

    @property
    def words(self) -> Words:
        """Its language."""

    def called(self, what: Literal["figure", "table"]) -> str:
        """The next figure or table by name and number."""

    def run_table(
        self,
        called: str,
        table: EdgeTable,
        empty: frozenset[int] = frozenset(),
        cells: Cells = frozenset(),
    ) -> str:
        """A table of a run."""

    def drawn(self, called: str, figure: Figure, drawing: Drawing | None = None) -> str:
        """A figure, or another `drawing` in its place."""


def asked(sheet: Sheet, piece: Asked) -> str:
    """A question, with room to write."""
    question, words = piece.question, sheet.words
    made = [_head(sheet, question), f"#asked({quoted(wording.asked(question, words))})\n\n"]
    made.append(_shown(sheet, question))
    if isinstance(question, ChoiceQuestion):
        made.append(_options(sheet, question))
    made.append(_room(sheet, question))
    if question.hint:
        hint = f"{words('question-hint')}: {question.hint}"
        made.append(f"#note({content(hint)})\n\n")
    return _together(len(getattr(question, "rows", ())), made)


def _together(lines: int, made: list[str]) -> str:
    """All of a question on one page, where it surely fits."""
    return f"#question({'true' if lines <= _SHORT else 'false'})[{''.join(made)}]\n\n"


def solved(sheet: Sheet, piece: Asked) -> str:
    """A question's answer and how one gets there."""
    question, words = piece.question, sheet.words
    made = [_head(sheet, question), f"#asked({quoted(wording.asked(question, words))})\n\n"]
    made.append(_complete(sheet, question))
    if isinstance(question, ChoiceQuestion):
        made.append(_options(sheet, question))
    sentences = wording.solution(piece, words)
    items = "".join(f"{content(one)}, " for one in sentences)
    made.append(f"#list({items})\n\n" if items else "")
    if not isinstance(question, CellsQuestion):
        label = f"{words('question-answer')}: "
        told = f"#strong({content(label)});{_value(wording.answer(question, words))}"
        made.append(f"{told}\n\n")
    shown = worked.table(question)
    lines = len(sentences) + (len(shown[1]) if shown else 0)
    return _together(lines, made)


def _value(text: str) -> str:
    return f"#value({quoted(text)});"


def _head(sheet: Sheet, question: Question) -> str:
    title = quoted(wording.heading(question, sheet.words))
    level = sheet.counts.get("level", 0) + 1
    return f"#question-head({level}, {title}, {quoted(wording.facts(question, sheet.words))})\n\n"


def _shown(sheet: Sheet, question: Question) -> str:
    """The table or the figure that a question shows."""
    match question:
        case CellsQuestion(kind="lane"):
            figure = lane(question, sheet)
            drawing = without_lane(figure.drawing(), question.cells[0].column, sheet.words)
            return sheet.drawn(sheet.called("figure"), figure, drawing)
        case CellsQuestion():
            table = EdgeTable(question.trace, question.columns, question.rows)
            cells = frozenset((cell.row, cell.column) for cell in question.cells)
            return sheet.run_table(sheet.called("table"), table, cells=cells)
        case ChoiceQuestion(kind="fault"):
            return _fault_table(sheet, question)
    return ""


def lane(question: CellsQuestion, sheet: Sheet) -> Figure:
    """The timing diagram of which a lane is to be drawn."""
    wish = Wish(names=question.columns, rows=question.rows, words=sheet.words)
    return Figure(question.trace, "timing", wish, question.rows, question.columns)


def _fault_table(sheet: Sheet, question: ChoiceQuestion) -> str:
    caption = sheet.words("fault-table", what=sheet.words("fault-hidden"))
    table = EdgeTable(question.trace, question.columns, question.rows, caption)
    return sheet.run_table(sheet.called("table"), table)


def _complete(sheet: Sheet, question: Question) -> str:
    """What a question shows, nothing left out; of a value, the rows that lead to it."""
    match question:
        case CellsQuestion(kind="lane"):
            return sheet.drawn(sheet.called("figure"), lane(question, sheet))
        case ChoiceQuestion(kind="fault"):
            return _fault_table(sheet, question)
    shown = worked.table(question)
    if shown is None:
        return ""
    return sheet.run_table(sheet.called("table"), EdgeTable(question.trace, *shown))


def _options(sheet: Sheet, question: ChoiceQuestion) -> str:
    items = []
    for letter, one in question.lettered:
        text = wording.option(one, sheet.words)
        if isinstance(one.what, Word):
            told = f"[#word({quoted(text)}, {quoted('0' * len(text))}, cell-width);]"
        elif isinstance(one.what, str):
            told = f"[#raw({quoted(text)});]"
        else:
            told = content(text)
        items.append(f"({quoted(letter)}, {told}), ")
    return f"#options({''.join(items)})\n\n"


def _room(sheet: Sheet, question: Question) -> str:
    """Where a learner writes the answer."""
    words = sheet.words
    match question:
        case CellsQuestion():
            return ""
        case OperandsQuestion(asked=names):
            fields = [(f"{name} =", 60.0) for name in names]
        case ValueQuestion(cell=cell):
            width = question.trace.word(cell.column, cell.row).width
            fields = [(f"{cell.column} =", 14.0 * width + 24)]
        case FormulaQuestion():
            fields = [(f"{question.quantity} =", _LINE)]
        case _:
            fields = [(f"{words('question-answer')}:", 70.0)]
    told = "".join(f"({quoted(label)}, {wide:.0f}pt), " for label, wide in fields)
    return f"#answer-room({told})\n\n"
