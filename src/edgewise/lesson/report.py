"""A report: a lesson in which everything was computed and every claim is true."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any

from edgewise.arithmetic import Value
from edgewise.bits import Word
from edgewise.blueprint import Blueprint
from edgewise.errors import Place
from edgewise.lesson import picking, steps
from edgewise.lesson.blocks import Piece
from edgewise.lesson.claims import Checked, Statement
from edgewise.lesson.document import Lesson
from edgewise.lesson.inside import Opened
from edgewise.lesson.law import FoundLaw
from edgewise.lesson.memory import Memory
from edgewise.lesson.picking import Note
from edgewise.lesson.proof import Proved
from edgewise.lesson.question import Asked
from edgewise.lesson.steps import Step
from edgewise.study.claims.verdict import Verdict
from edgewise.trace import Trace
from edgewise.words import messages
from edgewise.words.commands import say
from edgewise.words.messages import Words

if TYPE_CHECKING:
    from edgewise.study.inside.time_claim import TimeVerdict
    from edgewise.study.operands.report import Example


@dataclass(frozen=True, slots=True)
class Report:
    """A lesson in which everything was computed and every claim is true.

    Parameters
    ----------
    lesson : Lesson
    blueprint : Blueprint
    trace : Trace
        The lesson's run.
    values : mapping of Place to value
        Each computed value, by the place of its formula.
    pieces : mapping of Place to piece
        What each block became, by the place of its fence.
    pictures : mapping of str to str
        Each picture as a data URL, by its name in the lesson.
    chosen : Example, optional
        The operands that were picked, and what they show; none: they are the lesson's own.
    notes : tuple of Note
        What is to be said of the example: what was picked, what it leaves idle.
    memory : Memory
        What building it made and may be used again.
    """

    lesson: Lesson
    blueprint: Blueprint
    trace: Trace
    values: Mapping[Place, Value]
    pieces: Mapping[Place, Piece]
    pictures: Mapping[str, str]
    chosen: Example | None = None
    notes: tuple[Note, ...] = ()
    memory: Memory = field(default_factory=Memory, compare=False, repr=False)

    @property
    def words(self) -> Words:
        """Our own words, in the lesson's language if there are any."""
        return messages.of(self.lesson.front.language)

    @property
    def claims(self) -> tuple[Checked, ...]:
        """The claims, block by block."""
        return tuple(p for p in self.pieces.values() if isinstance(p, Checked))

    @property
    def steps(self) -> tuple[Step, ...]:
        """What is shown and said, in order: those of its blocks ``steps``, else every row."""
        return steps.of(self.lesson, self.trace, self.pieces, self.values)

    @property
    def opening(self) -> str:
        """What is said before the first step; empty if nothing is."""
        return steps.opening(self.pieces)

    def __str__(self) -> str:
        """One line for what was computed, and one for each claim and how it was checked."""
        settled = self._told()
        told = [say("checked", values=len(self.values), claims=len(settled))]
        told += [f"  {say('within', what=text, told=how)}" for text, how in settled]
        asked = [piece.question for piece in self.pieces.values() if isinstance(piece, Asked)]
        if asked:
            marks = sum(question.marks for question in asked)
            told.append(say("asked", questions=len(asked), marks=marks))
        return "\n".join(told)

    def _told(self) -> list[tuple[str, str]]:
        """Everything that was claimed, laws and proofs too, and how it was settled."""
        told: list[tuple[str, str]] = []
        for piece in self.pieces.values():
            match piece:
                case Checked():
                    pairs = zip(piece.statements, piece.verdicts, strict=True)
                    told += [(statement.text, verdict.how) for statement, verdict in pairs]
                case Opened():
                    told += piece.claimed()
                case FoundLaw(law=law, text=text) if text:
                    told.append((f"{law.quantity} = {text}", piece.how))
                case Proved(finding=finding):
                    how = finding.how if finding.holds else say("false-as-expected")
                    told.append((finding.asked.line(), how))
        return told

    def _all(self) -> list[tuple[Statement, Verdict | TimeVerdict]]:
        return [
            pair
            for block in self.claims
            for pair in zip(block.statements, block.verdicts, strict=True)
        ]

    def data(self) -> dict[str, Any]:
        """The report as plain dictionaries and lists."""
        places = {wanted.place: wanted.formula for wanted in self.lesson.values}
        return {
            "lesson": self.lesson.file,
            "title": self.lesson.front.title,
            "design": self.blueprint.name,
            "parameters": dict(self.trace.design.parameters),
            "operands": dict(self.trace.operands),
            "chosen": None if self.chosen is None else picking.chosen(self.chosen),
            "warnings": [
                {"line": note.place.line, "column": note.place.column, "warning": note.text}
                for note in self.notes
                if note.kind == "warning"
            ],
            "values": [
                {
                    "line": place.line,
                    "column": place.column,
                    "formula": places[place],
                    "value": str(value) if isinstance(value, Word) else value,
                }
                for place, value in self.values.items()
            ],
            "claims": [
                {
                    "line": statement.place.line,
                    "claim": statement.text,
                    "holds": verdict.holds,
                    "how": verdict.how,
                    "engine": verdict.engine,
                }
                for statement, verdict in self._all()
            ],
        }
