"""Operands that the builder picks, and what is said of those that show little."""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final, Literal

from edgewise import cache
from edgewise.circuit.check import unread
from edgewise.design import Design
from edgewise.errors import EdgewiseError, Message, Place, TextError
from edgewise.lesson.front import Front, Wanted
from edgewise.study.claims.contradictions import contradictions
from edgewise.study.coverage import measured
from edgewise.study.coverage.report import PARTS
from edgewise.trace import Trace
from edgewise.words.lists import equations
from edgewise.words.messages import ENGLISH, Words

if TYPE_CHECKING:
    from edgewise.study.operands.report import Example
    from edgewise.study.operands.requirements import Wish

_ROOM: Final = "chosen"
_VERSION: Final = 2
"""To be raised when operands are chosen in another way, so that no old choice is kept."""


@dataclass(frozen=True, slots=True)
class Note:
    """Something to be said of a lesson that is no error.

    Examples
    --------
    >>> print(Note("warning", "C is never set.", Place("rain.md", 5, 11)))
    rain.md:5:11: warning: C is never set.
    """

    kind: Literal["warning", "note"]
    text: str
    place: Place

    def __str__(self) -> str:
        return f"{self.place}: {self.kind}: {self.text}"


def pick(design: Design, wanted: Wanted, fixed: Mapping[str, int]) -> Example:
    """The operands that `edgewise.study.operands.choose.choose` puts first.

    They are kept in the cache, so that a lesson of many bits is not slow at every save.

    Raises
    ------
    EdgewiseError or Problems
        A wish that can't be understood or fulfilled, at its place.
    """
    from edgewise.study.operands import choose
    from edgewise.study.operands.requirements import Wish

    wish = Wish(
        fixed,
        tuple(feature.text for feature in wanted.features),
        wanted.sum,
        wanted.low,
        wanted.high,
    )
    made_from = repr((_VERSION, design, wish, wanted.seed))
    kept = _recalled(design, wish, made_from)
    if kept is not None:
        return choose.example(design, kept)
    advice = choose.choose(design, wish, most=1, seed=wanted.seed)
    (example,) = advice.examples
    cache.keep(_ROOM, made_from, json.dumps(dict(example.operands)).encode())
    return example


def _recalled(design: Design, wish: Wish, made_from: str) -> dict[str, int] | None:
    """What was chosen before, if it is still what is asked for."""
    from edgewise.study.operands.requirements import fulfilled

    kept = cache.recall(_ROOM, made_from)
    if kept is None:
        return None
    try:
        found = {str(name): int(value) for name, value in json.loads(kept).items()}
        return found if fulfilled(design, wish, found) else None
    except (EdgewiseError, ValueError, TypeError, AttributeError):
        return None


def place_of(wrong: EdgewiseError, wanted: Wanted) -> Place:
    """Where the wish stands of which an error speaks first."""
    about = wrong.told.facts.get("feature") if isinstance(wrong.told, Message) else None
    for feature in wanted.features:
        if about is not None and feature.text.startswith(str(about)):
            return feature.place
    return wanted.place


def said(example: Example, words: Words, between: str = " = ") -> str:
    """What was chosen, and why, as a sentence for learners; `between` a name and its number."""
    operands = equations(example.operands.items(), between)
    return words("choice-said", operands=operands, because=example.reason(words))


def chosen(example: Example) -> str:
    """What was chosen, and why, for who writes the lesson.

    Examples
    --------
    >>> from edgewise import catalogue
    >>> from edgewise.study.operands import choose
    >>> example = choose.example(catalogue.design("serial-adder"), {"a": 0, "b": 22})
    >>> print(chosen(example))
    chosen: a = 0, b = 22, because they show 2 of the 8 truth-table rows of the full adder
    """
    return ENGLISH("choice-note", operands=example.title, because=example.because)


def notes(trace: Trace, front: Front, example: Example | None) -> Iterator[Note]:
    """What was chosen, and what the lesson's example leaves idle."""
    place = front.operands_place
    if example is not None:
        told = Message("note-chosen", chosen=chosen(example), hint=_misconceptions(example))
        yield Note("note", str(told), place)
    if not trace.operands:
        return
    dull = front.wanted is not None and any(f.text == "no carry" for f in front.wanted.features)
    parts = [part for part in PARTS if part != "carries" or not dull]
    for sentence in measured.of(trace).warnings(parts):
        yield Note("warning", sentence, place)


def _misconceptions(example: Example) -> Message:
    wrong = len(example.wrong)
    return Message("note-misconceptions", wrong=wrong, count=wrong + len(example.hidden))


def doubts(trace: Trace, front: Front) -> Iterator[Note]:
    """What is doubtful in the design, whatever its operands show."""
    for part in unread(trace.design.circuit):
        told = str(Message("note-unread", part=part.name))
        yield Note("warning", told, part.place or front.place)
    for one in contradictions(trace):
        yield Note("warning", str(one), front.operands_place)


def refused(notes: tuple[Note, ...], front: Front) -> Iterator[TextError]:
    """The warnings as errors, where the lesson says ``examples: strict``."""
    message = "strict-wanted" if front.wanted else "strict"
    for note in notes:
        if front.strict and note.kind == "warning":
            yield TextError(Message(message, warning=note.text), note.place)
