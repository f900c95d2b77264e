"""Typed numbers: those in prose and captions that look like a computed one, and don't follow it.

A number of two digits or more is held against every quantity of the lesson; a smaller one, which is
as often a mere word ("in 2 columns"), only where it counts what a run has a count of.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping
from typing import TYPE_CHECKING, Final, TypeAlias

from edgewise.arithmetic import Value
from edgewise.bits import Word
from edgewise.errors import EdgewiseError, Message, Place
from edgewise.lesson.document import Computed, Lesson
from edgewise.lesson.expression import compute, shown
from edgewise.lesson.mark import equation_in
from edgewise.lesson.picking import Note
from edgewise.study.claims.run import Run
from edgewise.trace import Trace

if TYPE_CHECKING:
    from markdown_it.token import Token

LEAST: Final = 10
"""Smaller numbers are looked at before one of `COUNTED` only."""
COUNTED: Final = {
    "edges": re.compile(
        r"\s*(?:(?:rising |clock |active )*(?:edges?|pulses?|cycles?)|clocks"
        r"|(?:Takt)?flanken?|Takte?n?|Taktimpulse?n?)\b"
    ),
    "n": re.compile(r"\s+(?:bits|Bits)\b"),
}
"""What behind a small number says that it counts this quantity, in the languages of `words`."""
_CAPTION: Final = re.compile(r"^\s*caption:(.*)$")
_NEAR: Final = 100
"""A number is nearly another if they differ by 1, or by a part of this many."""
_NUMBER: Final = re.compile(r"(?<![\w.,:/−-])\d+(?:[,\u202f\u00a0']\d{3})*(?![\w:/]|[.,]\d)")


def notes(lesson: Lesson, trace: Trace, values: Mapping[Place, Value]) -> Iterator[Note]:
    """A warning for each typed number that equals, or nearly equals, a computed quantity.

    Prose is read, and what blocks have for a caption.

    Parameters
    ----------
    lesson : Lesson
    trace : Trace
        The lesson's run; its parameters, operands and edges are quantities.
    values : mapping of Place to value
        The computed values of the prose.
    """
    known = _quantities(lesson.values, trace, values)
    counts = {"edges": trace.edges, **trace.design.parameters}
    for text, place, where in _every_text(lesson):
        for found in _NUMBER.finditer(text):
            like = _like(found[0], known) or _counting(found, counts)
            if like:
                formula, number, same = like
                told = Message(
                    "typed-number",
                    typed=found[0],
                    formula=formula,
                    number=number,
                    same="yes" if same else "no",
                    where=where,
                )
                yield Note("warning", str(told), place)


def equations(lesson: Lesson, run: Run) -> Iterator[Note]:
    """A warning for the first code span that is an equals sign and a formula of this run.

    Who means its value begins it with the mark.
    """
    inline = (token for token in lesson.tokens if token.type == "inline")
    for span, place in (found for token in inline for found in _placed(token, lesson.file)):
        formula = equation_in(span.content) if span.type == "code_inline" else None
        value = _value(formula, run) if formula else ""
        if formula and value:
            yield Note(
                "warning", str(Message("typed-equation", formula=formula, value=value)), place
            )
            return


def _value(formula: str, run: Run) -> str:
    """What a formula would show; empty if it is none of this run's."""
    try:
        value = compute(formula, run)
    except EdgewiseError:
        return ""
    return "" if value is None else shown(value)


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


_Like: TypeAlias = tuple[str, int, bool]
"""A formula, its number, and whether it is the one that was typed."""


def _like(typed: str, known: Mapping[int, str]) -> _Like | None:
    """What a typed number is like; None if it is like no other."""
    number = int(re.sub(r"\D", "", typed))
    if number < LEAST:
        return None
    if number in known:
        return known[number], number, True
    near = min(known, key=lambda one: abs(one - number), default=number)
    if near != number and abs(near - number) <= max(1, near // _NEAR):
        return known[near], near, False
    return None


def _counting(found: re.Match[str], counts: Mapping[str, int]) -> _Like | None:
    """What a small number that counts something is like; None if it is right to."""
    number = int(re.sub(r"\D", "", found[0]))
    for name, noun in COUNTED.items():
        small = 0 < number < LEAST and name in counts
        if not small or not noun.match(found.string, found.end()):
            continue
        if number == counts[name]:
            return name, number, True
        if abs(number - counts[name]) == 1:
            return name, counts[name], False
    return None


def _every_text(lesson: Lesson) -> Iterator[tuple[str, Place, str]]:
    """The texts of the prose, then those of captions, with what else is to be said of them."""
    for token in lesson.tokens:
        if token.type == "inline":
            yield from ((text, place, "prose") for text, place in _texts(token, lesson.file))
    for block in lesson.blocks:
        for number, line in enumerate(block.text.splitlines(), block.first_line):
            caption = _CAPTION.match(line)
            if caption:
                yield caption[1], Place(lesson.file, number), "caption"


def _texts(token: Token, file: str) -> Iterator[tuple[str, Place]]:
    """The texts of a paragraph without its code, each with its line."""
    return ((part.content, place) for part, place in _placed(token, file) if part.type == "text")


def _placed(token: Token, file: str) -> Iterator[tuple[Token, Place]]:
    """The parts of a paragraph, each with its line."""
    line = (token.map or (0, 0))[0] + 1
    for child in token.children or ():
        yield child, Place(file, line)
        if child.type in ("softbreak", "hardbreak"):
            line += 1
