"""The answers to a handout: blanks by number, what is wrong, tables and figures in full."""

from __future__ import annotations

from collections.abc import Iterator

from edgewise.lesson.pieces import EdgeTable, Figure
from edgewise.publish import captions
from edgewise.publish.handout import questions
from edgewise.publish.handout.pdf import quoted
from edgewise.publish.handout.prose import Answer, content
from edgewise.publish.handout.render import Riddle, Sheet
from edgewise.study.faults.first_difference import parting
from edgewise.views.registry import Wish
from edgewise.words.messages import Words


def told(asked: Sheet, sheet: Sheet) -> str:
    """The typst of an answer sheet.

    Parameters
    ----------
    asked : Sheet
        The handout, written, with what it left out.
    sheet : Sheet
        Of the answers; nothing is left out in it.
    """
    made = [
        *_blanks(asked.answers, sheet.words),
        *_riddles(asked.riddles, sheet),
        *_pieces(asked, sheet),
        *(questions.solved(sheet, piece) for piece in asked.asked),
    ]
    if not made:
        made.append(f"#{quoted(sheet.words('handout-no-blanks'))};\n\n")
    return "".join(made)


def _heading(text: str, level: int = 1) -> str:
    return f"#heading(level: {level}){content(text)}\n\n"


def _blanks(answers: list[Answer], words: Words) -> Iterator[str]:
    if not answers:
        return
    cells = "".join(
        f"[#{quoted(f'({answer.number})')};], [#raw({quoted(answer.formula)});],"
        f" [#value({quoted(answer.value)});], "
        for answer in answers
    )
    heads = ", ".join(
        content(words(f"handout-{column}")) for column in ("blank", "formula", "answer")
    )
    yield _heading(words("handout-blanks"))
    yield f"#own-table(3, (right + top, start + top, start + top), ({heads}), {cells})\n\n"


def _riddles(riddles: list[Riddle], sheet: Sheet) -> Iterator[str]:
    """What is wrong in each broken circuit, and in which row it is first detected."""
    if riddles:
        yield _heading(sheet.words("handout-wrong"))
    for riddle in riddles:
        broken, fault = riddle.broken, riddle.broken.fault
        yield _heading(riddle.table, 2)
        if broken.solution:
            yield sheet.broken(riddle)
            continue
        right = sheet.report.trace
        found = parting(right, broken.trace, broken.table.columns, broken.table.rows)
        name, sentence = fault.called(sheet.words), fault.told(sheet.words)
        yield f"#strong{content(f'{name}.')};#{quoted(f' {sentence}')};\n\n"
        said = (found.told(sheet.words), *fault.warnings(sheet.words))
        yield "".join(f"#{quoted(one)};\n\n" for one in said)
        row = broken.trace.edges if found.row is None else found.row
        wish = Wish(after=row, mark=fault.where, fault=name, words=sheet.words)
        caption = captions.broken(fault, row, sheet.words)
        columns = broken.table.columns
        yield sheet.drawn(
            riddle.figure, Figure(broken.trace, "diagram", wish, (row,), columns, caption)
        )


def _pieces(asked: Sheet, sheet: Sheet) -> Iterator[str]:
    if asked.withheld:
        yield _heading(sheet.words("handout-tables-and-figures"))
    for called, piece in asked.withheld:
        if isinstance(piece, EdgeTable):
            yield sheet.run_table(called, piece)
        else:
            yield sheet.drawn(called, piece)
