"""A claim about time, settled by ``edgewise prove``."""

from __future__ import annotations

import json
from dataclasses import replace
from typing import TYPE_CHECKING, Any

from edgewise.cli.options import assignments, blueprint_of, numbers, refused
from edgewise.words.lists import equations

if TYPE_CHECKING:
    from edgewise.study.inside.time_claim import TimeVerdict


def settle(
    name: str, with_: str, claim: str, operands: str, model: str, limit: float
) -> TimeVerdict:
    """Find out whether a claim about time is true, for all operands that keep no value.

    Raises
    ------
    EdgewiseError
        No model, or what can't be read or settled.
    """
    from edgewise import formula
    from edgewise.errors import Place
    from edgewise.study.claims.run import Run
    from edgewise.study.cost import models
    from edgewise.study.inside import Manner, time_claim

    if not model:
        raise refused("prove-model", known=", ".join(models.names()))
    place = Place("the claim", 1, 1)
    read: formula.TimeClaim = formula.parse(claim, "time_claim", place)
    design = blueprint_of(name).design(numbers(with_, "--with"))
    fixed = assignments(operands, "--operands")
    families = {one.name: one.name.partition("(")[0] for one in design.operands}
    if not read.for_all:
        free = dict.fromkeys(of for name, of in families.items() if {name, of}.isdisjoint(fixed))
        read = replace(read, for_all=tuple(free))
    zeros = {name: 0 for name, of in families.items() if not {name, of}.isdisjoint(read.for_all)}
    given = design.values({**zeros, **fixed})
    manner = Manner(models.technology(model))
    return time_claim.settle(read, Run(design, given), manner, place, limit=limit)


def text(claim: str, verdict: TimeVerdict) -> str:
    """What was claimed and how it came out; of what is false the changes that show it."""
    if verdict.holds or verdict.undecided:
        return f"{claim}: {verdict.how}"
    case = equations(verdict.counterexample.items(), "=")
    why = verdict.why.told() if verdict.why else ""
    told = f"{claim}: false{f' for {case}' if case else ''}: {why}"
    shown = verdict.moment.text(verdict.names) if verdict.moment else ""
    return f"{told}\n\n{shown}"


def data(claim: str, verdict: TimeVerdict) -> dict[str, Any]:
    """The same for programs."""
    return {
        "claim": claim,
        "outcome": "undecided" if verdict.undecided else "true" if verdict.holds else "false",
        "how": verdict.how,
        "model": verdict.evidence.model,
        "operands": dict(verdict.counterexample),
        "why": verdict.why.told() if verdict.why else None,
    }


def printed(claim: str, verdict: TimeVerdict, *, as_json: bool) -> str:
    """What is printed of a verdict."""
    told = " ".join(claim.split())
    return json.dumps(data(told, verdict), indent=1) if as_json else text(told, verdict)
