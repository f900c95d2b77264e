"""Results of a course platform: a table with a row for each response, made one of answers.

Columns are found by the terms of 1EdTech's *QTI Results Reporting* (2.1, 2015; from memory), in any
spelling of blanks, hyphens and capitals: who answered (``sourcedId``, ``candidate``), which item
(``item``, ``itemResult``), which of its responses (``responseVariable``; ``R1`` where there is no
such column), and what was answered (``candidateResponse``, ``response``, ``value``).
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from typing import Final

from edgewise.errors import EdgewiseError, Message, raise_all
from edgewise.practice.marking.answer_sheet import CODE, LEARNER
from edgewise.practice.marking.asked import Paper, Question
from edgewise.practice.marking.table import Line, Table

_COLUMNS: Final[Mapping[str, tuple[str, ...]]] = {
    "learner": ("sourcedid", "studentsourcedid", "candidate", "candidateid", "learner"),
    "item": ("item", "itemidentifier", "itemresult", "itemresultidentifier"),
    "response": ("responsevariable", "responseidentifier", "responsevariableidentifier"),
    "value": ("candidateresponse", "response", "value"),
}
_ITEM: Final = re.compile(r"paper-([0-9A-Za-z]{1,20})-(q[0-9]{1,4})")
_FIELD: Final = re.compile(r"R?([0-9]{1,4})")


def is_results(table: Table) -> bool:
    """Whether a table is such results, and no table of answers.

    Examples
    --------
    >>> from edgewise.practice.marking.table import of_text
    >>> is_results(of_text("sourcedId,item identifier,candidate response", "r.csv"))
    True
    >>> is_results(of_text("learner,code,q1", "a.csv"))
    False
    """
    found = _places(table)
    return {"learner", "item", "value"} <= found.keys() and CODE not in map(_key, table.headings)


def answers(table: Table, paper: Paper) -> Table:
    """The table of answers that results tell; a learner's row is that of their first response.

    Raises
    ------
    Problems
        A row whose item or response the paper does not have, or a learner with two papers.
    """
    places, wrong = _places(table), []
    rows: dict[str, dict[str, str]] = {}
    numbers: dict[str, int] = {}
    for line in table.lines:
        learner, item, value = (line.cells[places[name]] for name in ("learner", "item", "value"))
        field = line.cells[places["response"]] if "response" in places else "R1"
        try:
            code, heading = _asked(item, field, paper)
            row = rows.setdefault(learner, {CODE: code})
            numbers.setdefault(learner, line.number)
            if row[CODE] != code:
                raise EdgewiseError(  # noqa: TRY301  # told with the others, by its row
                    Message("papers-two", first=row[CODE], second=code)
                )
            row[heading] = value
        except EdgewiseError as told:
            wrong.append(told.placed(table.place(line.number)))
    raise_all(wrong)
    known = dict.fromkeys(heading for row in rows.values() for heading in row)
    variants = {code: paper.variant(code) for code in dict.fromkeys(r[CODE] for r in rows.values())}
    for variant in variants.values():
        known |= dict.fromkeys(h for question in variant.questions for h in question.headings)
    headings = (LEARNER, *known)
    lines = [
        Line(numbers[learner], (learner, *(row.get(heading, "") for heading in known)))
        for learner, row in rows.items()
    ]
    return Table(table.file, headings, tuple(lines))


def _asked(item: str, field: str, paper: Paper) -> tuple[str, str]:
    """The code of the paper and the heading that an item's response stands for."""
    found = _ITEM.fullmatch(item.strip())
    if found is None:
        raise EdgewiseError(Message("item-unknown", found=item[:40] or Message("nothing-found")))
    code, name = found[1].upper(), found[2]
    questions = {one.name: one for one in paper.variant(code).questions}
    if name not in questions:
        raise EdgewiseError(Message("paper-without-question", paper=code, question=name))
    return code, _heading(questions[name], field, item)


def _heading(question: Question, field: str, item: str) -> str:
    headings: Sequence[str] = question.headings
    number = _FIELD.fullmatch(field.strip())
    if number is None or not 1 <= int(number[1]) <= len(headings):
        raise EdgewiseError(
            Message(
                "response-unknown",
                item=item,
                found=field[:40] or Message("nothing-found"),
                last=len(headings),
            )
        )
    return headings[int(number[1]) - 1]


def _places(table: Table) -> dict[str, int]:
    found: dict[str, int] = {}
    for number, heading in enumerate(table.headings):
        for name, terms in _COLUMNS.items():
            if _key(heading) in terms:
                found.setdefault(name, number)
    return found


def _key(heading: str) -> str:
    return re.sub(r"[\s_.@-]+", "", heading).casefold()
