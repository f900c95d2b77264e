"""A claim about time, asked of a design for all operands, and what became of it."""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from typing import Any

from edgewise import formula
from edgewise.blueprint import Blueprint
from edgewise.errors import Place
from edgewise.formula import TimeClaim
from edgewise.study.claims.run import Run
from edgewise.study.cost.technology import Technology
from edgewise.study.inside.moment import Manner
from edgewise.study.inside.time_claim import TimeVerdict, settle
from edgewise.words.lists import equations
from edgewise.words.messages import ENGLISH


@dataclass(frozen=True, slots=True)
class Finding:
    """What was asked, and what became of it."""

    asked: tuple[str, str]
    """The design with its parameters; the claim as it is asked."""
    verdict: TimeVerdict

    def text(self) -> str:
        """How it came out; of what is false the changes that show it."""
        return "\n".join([*self.asked, "", *self._answer()])

    def _answer(self) -> Iterator[str]:
        verdict, words = self.verdict, ENGLISH
        if verdict.undecided:
            yield words("finding-undecided", why=words("time-claim-undecided"), ran="")
            yield words("finding-more-time")
            return
        if verdict.holds or verdict.why is None:
            yield words("finding-true", how=verdict.how, ran="")
            return
        given = equations(verdict.counterexample.items(), "=")
        kind = "fewest" if given else "any"
        yield words("finding-false", kind=kind, operands=given, ran="")
        why = verdict.why.told()
        yield words("finding-why", why=f"{why[:1].upper()}{why[1:]}")
        if verdict.moment is not None:
            yield f"\n{verdict.moment.text(verdict.names)}"

    def data(self) -> dict[str, Any]:
        """The same for programs."""
        verdict = self.verdict
        outcome = "proved" if verdict.holds else "undecided" if verdict.undecided else "refuted"
        return {
            "asked": list(self.asked),
            "outcome": outcome,
            "holds": verdict.holds,
            "how": verdict.how,
            "engine": verdict.engine,
            "model": verdict.evidence.model,
            "operands": dict(verdict.counterexample),
            "why": verdict.why.told() if verdict.why else None,
        }

    def printed(self, *, as_json: bool) -> str:
        """What is printed of it."""
        return json.dumps(self.data(), indent=1) if as_json else self.text()


def prove(
    blueprint: Blueprint,
    numbers: Mapping[str, int],
    claim: str,
    technology: Technology,
    fixed: Mapping[str, int | list[int]],
    *,
    limit: float,
) -> Finding:
    """Find out whether a claim about time is true, for all operands that keep no value.

    Raises
    ------
    EdgewiseError
        What can't be read or settled.

    Examples
    --------
    >>> from edgewise import catalogue
    >>> from edgewise.study.cost.models import technology
    >>> adder, text = catalogue.find("serial-adder"), "settled(S) within 4 gate delays"
    >>> found = prove(adder, {"n": 4}, text, technology("unit-gate"), {}, limit=20)
    >>> found.asked
    ('serial-adder, n=4', 'settled(S) within 4 gate delays, for all a, b')
    """
    place = Place("the claim", 1, 1)
    read: TimeClaim = formula.parse(claim, "time_claim", place)
    design = blueprint.design(numbers)
    families = {one.name: one.name.partition("(")[0] for one in design.operands}
    free: dict[str, None] = {}
    if not read.for_all:
        free = dict.fromkeys(of for name, of in families.items() if {name, of}.isdisjoint(fixed))
        read = replace(read, for_all=tuple(free))
    zeros = {name: 0 for name, of in families.items() if not {name, of}.isdisjoint(read.for_all)}
    run = Run(design, design.values({**zeros, **fixed}))
    verdict = settle(read, run, Manner(technology), place, limit=limit)
    title = ", ".join([blueprint.name, *(f"{n}={of}" for n, of in design.parameters.items())])
    over = f", for all {', '.join(free)}" if free else ""
    kept = equations(fixed.items(), "=")
    asked = " ".join(claim.split()) + over
    asked = ENGLISH("finding-with", claim=asked, given=kept) if kept else asked
    return Finding((title, asked), verdict)
