"""What a question and its solution say, from the facts that they hold."""

from __future__ import annotations

import re
from collections.abc import Iterator

from edgewise.bits import Word
from edgewise.lesson.question import Asked
from edgewise.practice.kinds.count import FormulaTask
from edgewise.practice.kinds.statement import StatementTask
from edgewise.practice.question import (
    CellsQuestion,
    ChoiceQuestion,
    EdgesQuestion,
    FormulaQuestion,
    OperandsQuestion,
    Option,
    Question,
    ValueQuestion,
)
from edgewise.practice.table_question import Cell
from edgewise.practice.worked import Added, Step, Stored, steps
from edgewise.study.claims.explanation import reason
from edgewise.study.claims.run import Run
from edgewise.study.claims.scope import Scope
from edgewise.study.faults.first_difference import parting
from edgewise.study.misconceptions import registry
from edgewise.words.lists import equations, listed
from edgewise.words.messages import Words

_RUNS = re.compile(r"carry chain (\d{1,4})(?: places?)?")
_ROW = re.compile(r"row ([01]{3})")
_MISCONCEPTION = re.compile(r"misconception (\S+)")
BETWEEN = "\u00a0=\u00a0"
"""Between a name and its number."""


def heading(question: Question, words: Words) -> str:
    """``Question 3``."""
    return words("question-heading", number=int(question.name[1:]))


def facts(question: Question, words: Words) -> str:
    """``4 marks, level 3 of 5``."""
    marks = words("question-marks", count=question.marks)
    return words("question-facts", marks=marks, level=question.level.number)


def asked(question: Question, words: Words) -> str:
    """What is asked, in the author's words or in ours."""
    said = question.wording or _asked(question, words)
    if not question.own:
        return said
    numbers = tuple(question.trace.operands.items())
    return words("question-own", given=equations(numbers, BETWEEN), asked=said)


def _asked(question: Question, words: Words) -> str:
    match question:
        case CellsQuestion(kind="lane"):
            return words("question-lane", lane=question.cells[0].column)
        case CellsQuestion():
            return words("question-cells", count=len(question.cells))
        case ValueQuestion():
            return words(f"question-value{_when(question)}", **_cell(question.cell))
        case ChoiceQuestion(kind="choice", cell=Cell() as cell):
            return words(f"question-choice{_when(question)}", **_cell(cell))
        case ChoiceQuestion(kind="fault"):
            return words("question-fault")
        case ChoiceQuestion():
            return words("question-false-statement")
        case EdgesQuestion(numbers=numbers):
            given = equations(numbers.items(), BETWEEN)
            return words("question-edges", given=given) if given else words("question-edges-plain")
        case FormulaQuestion(quantity=quantity):
            names = listed([name for name, _, _ in question.over], words)
            return words("question-formula", quantity=quantity, names=names)
        case OperandsQuestion():
            return _operands(question, words)
    raise AssertionError(question.kind)


def _when(question: ValueQuestion | ChoiceQuestion) -> str:
    """Which message asks for a word: after an edge, before any, or where there are none."""
    if question.cell is not None and question.cell.row:
        return ""
    return "-start" if question.trace.edges else "-plain"


def _cell(cell: Cell) -> dict[str, int | str]:
    return {"what": cell.column, "edge": cell.row} if cell.row else {"what": cell.column}


def _operands(question: OperandsQuestion, words: Words) -> str:
    shown = [feature(one, words) for one in question.wish.features]
    if question.wish.sum:
        shown.append(words(f"feature-sum-{question.wish.sum}"))
    facts = {"names": listed(question.asked, words), "shown": listed(shown, words)}
    ranges = tuple(
        (operand.name, f"{operand.numbers[0]}…{operand.numbers[-1]}")
        for operand in question.design.operands
        if operand.name in question.asked
    )
    each = len(ranges) > 1
    room = ", ".join(f"{name}: {ends}" if each else ends for name, ends in ranges)
    given = equations(question.wish.fixed.items(), BETWEEN)
    if given:
        return words("question-operands-given", given=given, range=room, **facts)
    return words("question-operands", range=room, **facts)


def feature(text: str, words: Words) -> str:
    """What operands are to show: ``carry chain 4`` as a part of a sentence."""
    plain = " ".join(text.split())
    if match := _RUNS.fullmatch(plain):
        return words("feature-carry-runs", count=int(match[1]))
    if match := _ROW.fullmatch(plain):
        a, b, carry = list(match[1])
        return words("feature-row", a=a, b=b, carry=carry)
    if match := _MISCONCEPTION.fullmatch(plain):
        return words("feature-misconception", thought=thought(match[1], words))
    return words({"no carry": "feature-no-carry", "all rows": "feature-all-rows"}[plain])


def thought(idea: str, words: Words) -> str:
    """A misconception as a learner would say it."""
    return registry.find(idea).said(words)


def option(one: Option, words: Words) -> str:
    """An option as text."""
    match one.what:
        case Word() | str():
            return str(one.what)
        case fault:
            return fault.told(words)


# ---------------------------------------------------------------------- solutions


def answer(question: Question, words: Words) -> str:
    """The right answer on one line."""
    match question:
        case CellsQuestion():
            return "; ".join(
                f"{cell.said(words)}: {question.expected(head)}"
                for cell, head in zip(question.cells, question.headings, strict=True)
            )
        case ChoiceQuestion():
            letter = question.expected(question.name)
            return f"{letter}) {option(dict(question.lettered)[letter], words)}"
        case OperandsQuestion():
            example = ((name, question.example[name]) for name in question.asked)
            return words("answer-for-example", given=equations(tuple(example), BETWEEN))
        case _:
            return question.expected(question.name)


def solution(piece: Asked, words: Words) -> tuple[str, ...]:
    """How one gets there, a sentence for each row or each thought."""
    return tuple(_solution(piece, words))


def _solution(piece: Asked, words: Words) -> Iterator[str]:
    question, task = piece.question, piece.task
    given = isinstance(question, CellsQuestion)
    for one in steps(question):
        if one.stored or one.added:
            yield told(one, words, edges=bool(question.trace.edges), given=given)
    match question:
        case EdgesQuestion():
            yield _phases(piece, question, words)
        case FormulaQuestion() if isinstance(task, FormulaTask):
            yield words("solution-formula", quantity=question.quantity, formula=question.formula)
            yield words("solution-checked", how=task.law.how(words))
        case OperandsQuestion():
            yield words("solution-operands")
        case ChoiceQuestion(kind="fault", sound=sound) if sound is not None:
            found = parting(sound, question.trace, question.columns, question.rows)
            yield found.told(words)
            yield from _cautions(question, words)
        case ChoiceQuestion(kind="false-statement") if isinstance(task, StatementTask):
            false = task.statements[task.false]
            run = Run(question.trace.design, question.trace.operands)
            why = reason(false.node, Scope(run, place=false.place)).told(words)
            yield words("solution-false", text=false.text, why=why)
        case _:
            pass
    for idea, letter in question.wrong:
        if isinstance(question, ChoiceQuestion):
            yield words("solution-option", letter=letter, thought=thought(idea, words))


def _cautions(question: ChoiceQuestion, words: Words) -> Iterator[str]:
    """What is to be minded where the fault is put into a circuit on a bench."""
    for one in question.options:
        if one.right and not isinstance(one.what, Word | str):
            yield from one.what.warnings(words)


def _phases(piece: Asked, question: EdgesQuestion, words: Words) -> str:
    """The edges of each phase, added up."""
    from edgewise.practice.kinds.count import EdgesTask

    assert isinstance(piece.task, EdgesTask)
    design = piece.task.blueprint.timetable(question.numbers)
    spans = [(phase.name, phase.edges) for phase in design.procedure if phase.edges]
    each = listed(
        [words("solution-phase", phase=name, count=edges) for name, edges in spans], words
    )
    if len(spans) == 1:
        return words("solution-edges-one", each=each)
    sum_ = " + ".join(str(edges) for _, edges in spans)
    return words("solution-edges", each=each, sum=sum_, total=question.answer)


def told(step: Step, words: Words, *, edges: bool = True, given: bool = True) -> str:
    """A row of a solution: what the edge did, then what the adders make of it."""
    said = [_stored(one, words) for one in step.stored]
    said += [_added(one, words) for one in step.added]
    what = "; ".join(said)
    if not edges:
        return words("solution-plain", what=what)
    if not step.row:
        return words("solution-start", what=what)
    if not step.stored:
        return words("solution-given" if given else "solution-row", edge=step.row, what=what)
    return words("solution-edge", edge=step.row, what=what)


def _stored(one: Stored, words: Words) -> str:
    facts = {"store": one.store, "word": str(one.word)}
    if one.how == "shifted":
        return words("solution-shifted", came=str(one.came), **facts)
    return words(f"solution-{one.how}", **facts)


def _added(one: Added, words: Words) -> str:
    total = " + ".join(map(str, one.inputs))
    facts = {"sum": str(one.sum), "carry": str(one.carry)}
    return words("solution-added", adder=one.adder, inputs=total, **facts)
