"""Questions of a page: what is asked, a hint and the worked solution to be opened."""

from __future__ import annotations

import html

from edgewise.bits import Word
from edgewise.lesson.pieces import EdgeTable, Figure
from edgewise.lesson.question import Asked
from edgewise.practice import wording, worked
from edgewise.practice.question import CellsQuestion, ChoiceQuestion, Question
from edgewise.publish.html import tables
from edgewise.publish.lanes import without_lane
from edgewise.views.drawing.svg import svg
from edgewise.views.registry import Wish
from edgewise.words.messages import Words


def question(
    piece: Asked, words: Words, language: str = "", *, solution: bool = True, prefix: str = ""
) -> str:
    """A question; without `solution` there is no answer anywhere in it."""
    asked = piece.question
    head = html.escape(wording.heading(asked, words))
    facts = html.escape(wording.facts(asked, words))
    made = [
        f'<section class="question"{language}>\n<h2>{head} <small>{facts}</small></h2>\n',
        f"<p>{html.escape(wording.asked(asked, words))}</p>\n",
        _shown(asked, words, prefix),
    ]
    if isinstance(asked, ChoiceQuestion):
        made.append(_options(asked, words))
    if asked.hint:
        made.append(_opened(words("question-hint"), f"<p>{html.escape(asked.hint)}</p>\n"))
    if solution:
        made.append(_opened(words("question-solution"), _solved(piece, words, prefix)))
    return "".join([*made, "</section>\n"])


def _opened(summary: str, body: str) -> str:
    return f"<details><summary>{html.escape(summary)}</summary>\n{body}</details>\n"


def _shown(asked: Question, words: Words, prefix: str) -> str:
    where = f"{prefix}{wording.heading(asked, words)}: "
    match asked:
        case CellsQuestion(kind="lane"):
            drawn = without_lane(_lane(asked, words).drawing(), asked.cells[0].column, words)
            made = svg(drawn, prefix=f"{prefix}{asked.name}-")
            return tables.framed(made, _edges(asked, words), where=where)
        case CellsQuestion():
            blank = frozenset((cell.row, cell.column) for cell in asked.cells)
            table = EdgeTable(asked.trace, asked.columns, asked.rows)
            return tables.edge_table(table, words, blank=blank, where=where)
        case ChoiceQuestion(kind="fault"):
            caption = words("fault-table", what=words("fault-hidden"))
            table = EdgeTable(asked.trace, asked.columns, asked.rows, caption)
            return tables.edge_table(table, words, where=where)
    return ""


def _lane(asked: CellsQuestion, words: Words) -> Figure:
    wish = Wish(names=asked.columns, rows=asked.rows, words=words)
    return Figure(asked.trace, "timing", wish, asked.rows, asked.columns)


def _edges(asked: CellsQuestion, words: Words) -> str:
    return words("caption-edges", first=asked.rows[0], last=asked.rows[-1])


def _options(asked: ChoiceQuestion, words: Words) -> str:
    items = []
    for _, one in asked.lettered:
        text = html.escape(wording.option(one, words))
        told = f"<code>{text}</code>" if isinstance(one.what, Word | str) else text
        items.append(f"<li>{told}</li>\n")
    return f'<ol class="options" type="a">\n{"".join(items)}</ol>\n'


def _solved(piece: Asked, words: Words, prefix: str) -> str:
    asked = piece.question
    made = [_complete(asked, words, prefix)]
    items = "".join(f"<li>{html.escape(one)}</li>\n" for one in wording.solution(piece, words))
    made.append(f"<ul>\n{items}</ul>\n" if items else "")
    if not isinstance(asked, CellsQuestion):
        label, answer = words("question-answer"), wording.answer(asked, words)
        made.append(f"<p>{html.escape(label)}: <strong>{html.escape(answer)}</strong></p>\n")
    return "".join(made)


def _complete(asked: Question, words: Words, prefix: str) -> str:
    """What a question shows, nothing left out; of a value, the rows that lead to it."""
    where = f"{prefix}{wording.heading(asked, words)}, {words('question-solution')}: "
    if isinstance(asked, CellsQuestion) and asked.kind == "lane":
        made = svg(_lane(asked, words).drawing(), prefix=f"{prefix}{asked.name}-solved-")
        return tables.framed(made, _edges(asked, words), where=where)
    shown = worked.table(asked)
    return tables.edge_table(EdgeTable(asked.trace, *shown), words, where=where) if shown else ""
