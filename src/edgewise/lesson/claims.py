"""Claims: the statements in a lesson that are checked, one a line."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from edgewise import formula
from edgewise.blueprint import Blueprint
from edgewise.errors import EdgewiseError, Message, Place, raise_all
from edgewise.formula import Claim, show
from edgewise.lesson.document import Block
from edgewise.lesson.expression import Run
from edgewise.lesson.memory import Memory
from edgewise.lesson.patience import Patience
from edgewise.study.claims.decision import LIMIT
from edgewise.study.claims.finding import shown
from edgewise.study.claims.verdict import Verdict, settle
from edgewise.words.lists import equations


class FalseClaim(EdgewiseError):
    """A claim that is not true; it says what is true instead, and `details` shows the rows."""

    exit_code = 1

    def __init__(self, told: Message, place: Place | None = None, details: str = "") -> None:
        super().__init__(told, place)
        self.details = details


class OpenClaim(EdgewiseError):
    """A claim that could be neither proved nor refuted in the time there was."""

    exit_code = 1


@dataclass(frozen=True, slots=True)
class Statement:
    """One claim as written."""

    text: str
    claim: Claim
    place: Place


@dataclass(frozen=True, slots=True)
class Checked:
    """The claims of one block, all true, and how each was checked."""

    statements: tuple[Statement, ...]
    verdicts: tuple[Verdict, ...]


def check(
    block: Block,
    blueprint: Blueprint | None,
    run: Run | None,
    patience: Patience | None = None,
    memory: Memory | None = None,
) -> Checked | None:
    """Settle every claim of a block, as far as the lesson's `patience` goes.

    Raises
    ------
    FalseClaim, EdgewiseError or Problems
        All that are false or can't be read. Without a design they are only read.
    """
    errors: list[EdgewiseError] = []
    statements: list[Statement] = []
    verdicts: list[Verdict] = []
    untried: list[Place] = []
    patience, memory = patience or Patience(), memory or Memory()
    for text, place in lines(block):
        try:
            statement = Statement(
                " ".join(text.split()), formula.parse(text, "claim", place), place
            )
            statements.append(statement)
            if blueprint is None or run is None:
                continue
            if patience.out:
                untried.append(place)
                continue
            verdict = _verdict(statement, blueprint, run, min(LIMIT, patience.left), memory)
            verdicts.append(verdict)
            if verdict.undecided:
                errors.append(OpenClaim(_open(statement, verdict), place))
            elif not verdict.holds:
                rows = shown(statement.claim.truth, verdict.run) if verdict.run else ""
                errors.append(FalseClaim(refusal(statement, verdict), place, rows))
        except EdgewiseError as wrong:
            errors += wrong.parts()
    if untried:
        told = Message("claims-untried", more=len(untried) - 1, why=patience.told)
        errors.append(OpenClaim(told, untried[0]))
    raise_all(errors)
    return Checked(tuple(statements), tuple(verdicts)) if len(verdicts) == len(statements) else None


def _verdict(
    statement: Statement, blueprint: Blueprint, run: Run, limit: float, memory: Memory
) -> Verdict:
    key = (
        statement.text,
        blueprint,
        tuple(run.design.parameters.items()),
        tuple(run.design.chosen),
        tuple(sorted(run.given.items())),
    )
    verdict: Verdict = memory.verdicts.of(
        key,
        lambda: settle(
            statement.claim, blueprint, run.design.chosen, run.given, statement.place, limit=limit
        ),
        worth=lambda made: not made.undecided,
    )
    return verdict


def lines(block: Block) -> Iterator[tuple[str, Place]]:
    """The claims of a block, without comments and empty lines, with their places."""
    for number, line in enumerate(block.text.splitlines()):
        told = line.partition("#")[0]
        text = told.strip()
        if text:
            column = block.indent + len(told) - len(told.lstrip()) + 1
            yield text, Place(block.place.file, block.first_line + number, column)


def _open(statement: Statement, verdict: Verdict) -> Message:
    return Message(
        "claim-open",
        claim=show(statement.claim.truth),
        how=verdict.how,
        count=len(verdict.parameters),
        case=equations(verdict.parameters.items(), "="),
    )


def refusal(statement: Statement, verdict: Verdict) -> Message:
    """The message about a false claim: where it fails, what is true, at which edges it holds.

    Examples
    --------
    >>> from edgewise.bits import Word
    >>> from edgewise.study.claims.evidence import Evidence
    >>> from edgewise.study.claims.explanation import Contrast, Reason
    >>> claim = formula.parse("S after 11 == 1", "claim")
    >>> why = Reason((Contrast("S after 11", Word(6, 2), "==", 1),))
    >>> verdict = Verdict(False, Evidence("falsified"), why=why)
    >>> print(refusal(Statement("S after 11 == 1", claim, Place("rain.md", 4)), verdict))
    the claim "S after 11 == 1" is false: S after 11 is 000010 (2), expected 1.
    """
    values = {**verdict.parameters, **verdict.counterexample}
    return Message(
        "claim-false",
        claim=show(statement.claim.truth),
        count=len(values),
        case=equations(values.items(), "="),
        why=str(verdict.why),
        instead=f" {verdict.instead}" if verdict.instead else "",
    )
