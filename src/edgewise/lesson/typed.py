"""Typed numbers: those in the prose that look like a computed one, and do not follow it."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping
from typing import TYPE_CHECKING, Final

from edgewise.arithmetic import Value
from edgewise.bits import Word
from edgewise.errors import Place
from edgewise.lesson.document import Computed, Lesson
from edgewise.lesson.picking import Note
from edgewise.trace import Trace

if TYPE_CHECKING:
    from markdown_it.token import Token

LEAST: Final = 10
"""Smaller numbers are as often words ("in 2 columns") and are not looked at."""
_NEAR: Final = 100
"""A number is nearly another if they differ by 1, or by a part of this many."""
_NUMBER: Final = re.compile(r"(?<![\w.,:/−-])\d+(?:[,\u202f\u00a0']\d{3})*(?![\w:/]|[.,]\d)")


def notes(lesson: Lesson, trace: Trace, values: Mapping[Place, Value]) -> Iterator[Note]:
    """A warning for each typed number that equals, or nearly equals, a computed quantity.

    Parameters
    ----------
    lesson : Lesson
    trace : Trace
        The lesson's run; its parameters, operands and edges are quantities.
    values : mapping of Place to value
        The computed values of the prose.
    """
    known = _quantities(lesson.values, trace, values)
    for token in lesson.tokens:
        if token.type != "inline":
            continue
        for text, place in _texts(token, lesson.file):
            for found in _NUMBER.finditer(text):
                told = _like(found[0], known)
                if told:
                    yield Note("warning", told, place)


def _quantities(
    computed: Iterable[Computed], trace: Trace, values: Mapping[Place, Value]
) -> dict[int, str]:
    """Each number that a typed one may stand for, with the formula that gives it."""
    known: dict[int, str] = {}
    given = {"edges": trace.edges, **trace.operands, **trace.design.parameters}
    for name, number in given.items():
        known.setdefault(number, name)
    for wanted in computed:
        value = values.get(wanted.place)
        formula = " ".join(wanted.formula.split())
        if isinstance(value, Word):
            if value.known:
                known.setdefault(value.value, f"value({formula})")
        elif isinstance(value, int):
            known.setdefault(int(value), formula)
    return {number: formula for number, formula in known.items() if number >= LEAST}


def _like(typed: str, known: Mapping[int, str]) -> str:
    """What is to be said of a typed number; empty if it is like no other."""
    number = int(re.sub(r"\D", "", typed))
    if number < LEAST:
        return ""
    if number in known:
        formula = known[number]
        return (
            f"{typed} is typed, and {formula} is {number} too: if that is meant, write"
            f" `= {formula}`, so that it follows; a typed number is not checked"
        )
    near = min(known, key=lambda one: abs(one - number), default=number)
    if near != number and abs(near - number) <= max(1, near // _NEAR):
        formula = known[near]
        return (
            f"{typed} is typed, but {formula} is {near}: if that is meant, write `= {formula}`;"
            " a typed number is not checked"
        )
    return ""


def _texts(token: Token, file: str) -> Iterator[tuple[str, Place]]:
    """The texts of a paragraph without its code, each with its line."""
    line = (token.map or (0, 0))[0] + 1
    for child in token.children or ():
        if child.type == "text":
            yield child.content, Place(file, line)
        elif child.type in ("softbreak", "hardbreak"):
            line += 1
