"""The ``question`` block: what a learner is asked, its answer computed and found to be fair."""

from __future__ import annotations

import random
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any, Final

from edgewise import formula
from edgewise.arithmetic import Numbers, evaluate_at, number
from edgewise.blueprint import Blueprint
from edgewise.errors import Message, TextError, nearest
from edgewise.lesson.document import Block
from edgewise.lesson.expression import Run
from edgewise.lesson.options import (
    Gathering,
    options_of,
    text_of,
)
from edgewise.lesson.question_kinds import READERS, Reading, words_of
from edgewise.numerals import whole
from edgewise.practice.believers import Believers
from edgewise.practice.question import Kind, Question
from edgewise.practice.task import MOST_MARKS, Task
from edgewise.yamltext import Mapping as Keys
from edgewise.yamltext import Sequence, Tree, mapping, scalar, shortened

EVERY: Final = ("ask", "marks", "text", "hint", "about")
"""The entries of any question."""
KINDS: Final[Mapping[Kind, tuple[str, ...]]] = {
    "next-rows": ("rows", "given", "columns", "operands"),
    "cells": ("rows", "columns", "blank", "operands"),
    "lane": ("rows", "columns", "lane", "operands"),
    "value": ("of", "after", "operands"),
    "edges": ("over",),
    "choice": ("of", "after", "operands"),
    "false-statement": ("statements", "operands"),
    "fault": ("fault", "among", "rows", "columns", "operands"),
    "operands": ("show", "sum", "given", "operands"),
    "formula": ("count", "over"),
}
"""What can be asked, with the entries that it has besides."""


@dataclass(slots=True)
class Asking:
    """The questions of one lesson so far, and what misconceptions make of its design."""

    count: int = 0
    believers: dict[int, Believers] = field(default_factory=dict)

    def next_name(self) -> str:
        """The name of the next question: ``q1``, then ``q2``."""
        self.count += 1
        return f"q{self.count}"

    def of(self, run: Run) -> Believers:
        """Of the design of a run, made once."""
        key = id(run.design)
        if key not in self.believers:
            self.believers[key] = Believers(run.design)
        return self.believers[key]


@dataclass(frozen=True, slots=True)
class Asked:
    """A question of a lesson.

    Parameters
    ----------
    task : Task
        What the author asks for.
    question : Question
        What comes of it with the author's operands.
    believers : Believers
    """

    task: Task
    question: Question
    believers: Believers


def read(
    block: Block, blueprint: Blueprint | None, run: Run | None, asking: Asking
) -> Asked | None:
    """The question of a block; without a run the block is only read.

    Raises
    ------
    Refused
        It would not be fair, or would tell nothing; with the reason.
    EdgewiseError or Problems
        Entries that can't be read.
    """
    name = asking.next_name()
    every = tuple(dict.fromkeys((*EVERY, *(key for keys in KINDS.values() for key in keys))))
    options = options_of(block, every)
    with Gathering() as gathering:
        kind = gathering.add(_kind, options)
        marks = gathering.add(_marks, options) or 1
        about = gathering.add(words_of, options.get("about"), "about") or ()
        wording = gathering.add(text_of, options, "text") or ""
        hint = gathering.add(text_of, options, "hint") or ""
        own = gathering.add(_own, options.get("operands"), run)
    if kind is None or blueprint is None or run is None:
        return None
    believers = asking.of(run)
    ran = run if own is None else Run(run.design, own)
    head = {
        "name": name,
        "marks": marks,
        "place": block.place,
        "wording": wording,
        "hint": hint,
        "about": about,
    }
    if "operands" in KINDS[kind]:
        head["operands"] = None if own is None else dict(ran.operands)
    task = READERS[kind](Reading(options, ran, blueprint, believers, head))
    tells = task.tells(believers, ran.trace)
    shuffle = random.Random(name)  # noqa: S311  # an order that can be repeated
    return Asked(task, task.question(believers, ran.trace, shuffle, tells), believers)


# ---------------------------------------------------------------------- entries of any question


def _kind(options: Keys) -> Kind:
    tree = options.get("ask")
    if tree is None:
        raise TextError(Message("question-ask-missing", example=next(iter(KINDS))), options.place)
    given = scalar(tree, "ask")
    for kind, known in KINDS.items():
        if kind == given.text:
            _refuse_others(options, kind, (*EVERY, *known))
            return kind
    close = nearest(given.text, KINDS)
    hint = close if close.meant else Message("question-kinds", names=", ".join(KINDS))
    raise TextError(
        Message("question-unknown", found=shortened(given.text), hint=hint), given.place
    )


def _refuse_others(options: Keys, kind: Kind, known: tuple[str, ...]) -> None:
    for key, _ in options.pairs:
        if key.text not in known:
            entries = ", ".join(known[len(EVERY) :])
            raise TextError(
                Message("question-no-entry", kind=kind, entry=key.text, known=entries), key.place
            )


def _marks(options: Keys) -> int:
    tree = options.get("marks")
    if tree is None:
        return 1
    given = scalar(tree, "marks")
    marks = whole(given.text, "marks")
    if marks is None or not 1 <= marks <= MOST_MARKS:
        found, expected = shortened(given.text), f"1..{MOST_MARKS}"
        told = Message("entry-expected", entry="marks", found=found, expected=expected)
        raise TextError(told, given.place)
    return marks


def _own(tree: Tree | None, run: Run | None) -> Mapping[str, int] | None:
    """The operands of a run of its own."""
    if tree is None or run is None:
        return None
    known = Numbers(run.design.parameters)

    def one(item: Tree, name: str) -> int:
        given = scalar(item, name)
        return number(evaluate_at(formula.parse(given.text, place=given.place), known, given.place))

    given: dict[str, Any] = {}
    for name, value in mapping(tree, "operands", "{a: 22, b: 43}").pairs:
        listed = isinstance(value, Sequence)
        items = value.items if isinstance(value, Sequence) else (value,)
        numbers = [one(item, name.text) for item in items]
        given[name.text] = numbers if listed else numbers[0]
    return run.design.values(given, tree.place)
