"""Claims: the statements in a lesson that are checked, one a line."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING, cast

from edgewise import formula
from edgewise.blueprint import Blueprint
from edgewise.errors import EdgewiseError, Message, Place, TextError, raise_all
from edgewise.formula import Claim, TimeClaim, show
from edgewise.lesson.document import Block
from edgewise.lesson.expression import Run
from edgewise.lesson.memory import Memory
from edgewise.lesson.patience import Patience
from edgewise.study.claims.decision import LIMIT
from edgewise.study.claims.finding import shown
from edgewise.study.claims.verdict import Verdict, settle
from edgewise.words.lists import equations
from edgewise.yamltext import Scalar

if TYPE_CHECKING:  # few lessons speak of time
    from edgewise.study.inside.time_claim import TimeVerdict


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
    claim: Claim | TimeClaim
    place: Place


@dataclass(frozen=True, slots=True)
class Checked:
    """The claims of one block, all true, and how each was checked."""

    statements: tuple[Statement, ...]
    verdicts: tuple[Verdict | TimeVerdict, ...]


def check(
    block: Block,
    blueprint: Blueprint | None,
    run: Run | None,
    patience: Patience | None = None,
    memory: Memory | None = None,
    model: Scalar | None = None,
) -> Checked | None:
    """Settle every claim of a block, as far as the lesson's `patience` goes.

    Claims about time hold with the delays of `model`.

    Raises
    ------
    FalseClaim, EdgewiseError or Problems
        All that are false or can't be read. Without a design they are only read.
    """
    errors: list[EdgewiseError] = []
    statements: list[Statement] = []
    verdicts: list[Verdict | TimeVerdict] = []
    untried: list[Place] = []
    patience, memory = patience or Patience(), memory or Memory()
    for text, place in lines(block):
        try:
            statement = read(text, place)
            statements.append(statement)
            if isinstance(statement.claim, TimeClaim):
                require_model(model, place)
            if blueprint is None or run is None:
                continue
            if patience.out:
                untried.append(place)
                continue
            limit = min(LIMIT, patience.left)
            verdict = _verdict(statement, blueprint, run, limit, memory, model)
            verdicts.append(verdict)
            refuse(statement, verdict)
        except EdgewiseError as wrong:
            errors += wrong.parts()
    if untried:
        told = Message("claims-untried", more=len(untried) - 1, why=patience.told)
        errors.append(OpenClaim(told, untried[0]))
    raise_all(errors)
    return Checked(tuple(statements), tuple(verdicts)) if len(verdicts) == len(statements) else None


def read(text: str, place: Place) -> Statement:
    """A claim as written, about rows or about time."""
    start = "time_claim" if formula.of_time(text) else "claim"
    return Statement(" ".join(text.split()), formula.parse(text, start, place), place)


def require_model(model: Scalar | None, place: Place) -> None:
    """See that it is known whose delays a claim about time means."""
    if model is None:
        from edgewise.study.cost.models import names

        raise TextError(Message("claim-time-model", known=", ".join(names())), place)


def refuse(statement: Statement, verdict: Verdict | TimeVerdict) -> None:
    """Raise the error of a claim that is false or not known to be true."""
    claim, place = statement.claim, statement.place
    if isinstance(claim, TimeClaim):
        timed = cast("TimeVerdict", verdict)
        if timed.undecided:
            told = Message("claim-time-open", claim=statement.text, why=timed.how)
            raise OpenClaim(told, place)
        if not timed.holds:
            rows = "" if timed.moment is None else timed.moment.text(timed.names)
            raise FalseClaim(false_in_time(statement, timed), place, rows)
        return
    plain = cast("Verdict", verdict)
    if plain.undecided:
        raise OpenClaim(_open(claim, plain), place)
    if not plain.holds:
        rows = shown(claim.truth, plain.run) if plain.run else ""
        raise FalseClaim(refusal(claim, plain), place, rows)


def false_in_time(statement: Statement, verdict: TimeVerdict) -> Message:
    """The message about a false claim about time: where it fails, and what is true."""
    return Message(
        "claim-time-false",
        claim=statement.text,
        count=len(verdict.counterexample),
        case=equations(verdict.counterexample.items(), "="),
        why="" if verdict.why is None else verdict.why.told(),
    )


def _verdict(  # the claim, and what it is settled in
    statement: Statement,
    blueprint: Blueprint,
    run: Run,
    limit: float,
    memory: Memory,
    model: Scalar | None,
) -> Verdict | TimeVerdict:
    key = (
        statement.text,
        blueprint,
        tuple(run.design.parameters.items()),
        tuple(run.design.chosen),
        tuple(sorted(run.given.items())),
        model.text if model else "",
    )
    claim, place = statement.claim, statement.place

    def settled() -> Verdict | TimeVerdict:
        if isinstance(claim, TimeClaim):
            from edgewise.study.cost import models
            from edgewise.study.inside import Manner, time_claim

            assert model is not None
            manner = Manner(models.technology(model.text, model.place))
            return time_claim.settle(claim, run, manner, place, limit=limit)
        return settle(claim, blueprint, run.design.chosen, run.given, place, limit=limit)

    verdict: Verdict | TimeVerdict = memory.verdicts.of(
        key, settled, worth=lambda made: not made.undecided
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


def _open(claim: Claim, verdict: Verdict) -> Message:
    return Message(
        "claim-open",
        claim=show(claim.truth),
        how=verdict.how,
        count=len(verdict.parameters),
        case=equations(verdict.parameters.items(), "="),
    )


def refusal(claim: Claim, verdict: Verdict) -> Message:
    """The message about a false claim: where it fails, what is true, at which edges it holds.

    Examples
    --------
    >>> from edgewise.bits import Word
    >>> from edgewise.study.claims.evidence import Evidence
    >>> from edgewise.study.claims.explanation import Contrast, Reason
    >>> claim = formula.parse("S after 11 == 1", "claim")
    >>> why = Reason((Contrast("S after 11", Word(6, 2), "==", 1),))
    >>> verdict = Verdict(False, Evidence("falsified"), why=why)
    >>> print(refusal(claim, verdict))
    the claim "S after 11 == 1" is false: S after 11 is 000010 (2), expected 1.
    """
    values = {**verdict.parameters, **verdict.counterexample}
    return Message(
        "claim-false",
        claim=show(claim.truth),
        count=len(values),
        case=equations(values.items(), "="),
        why=str(verdict.why),
        instead=f" {verdict.instead}" if verdict.instead else "",
    )
