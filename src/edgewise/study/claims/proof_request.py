"""Proving that a design is right, a claim true, or two designs the same, for all operands."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from functools import reduce

from edgewise.arithmetic import evaluate
from edgewise.blueprint import Blueprint
from edgewise.design import Design, Given, Purpose
from edgewise.engines.exhaustive.parallel import Progress
from edgewise.engines.sat import equivalence
from edgewise.engines.sat.outcome import Counterexample
from edgewise.errors import DesignError, EdgewiseError, Message, Place, nearest
from edgewise.formula import Binary, Claim, Name, Node, Number, Timed, parse, show
from edgewise.study.claims import every_row
from edgewise.study.claims import verdict as verdicts
from edgewise.study.claims.carry_leak import leak
from edgewise.study.claims.decision import LIMIT
from edgewise.study.claims.evidence import Evidence, Way
from edgewise.study.claims.finding import (
    Difference,
    Failure,
    Finding,
    Question,
    around,
    called,
    columns,
    free,
    last_row,
    words_in,
)
from edgewise.study.claims.holding_edges import Elsewhere
from edgewise.study.claims.partial_evaluation import ground
from edgewise.study.claims.run import Run
from edgewise.study.claims.scope import Scope
from edgewise.study.claims.verdict import Verdict


def prove(  # noqa: PLR0913  # what is asked, of what, and how long
    blueprint: Blueprint,
    numbers: Mapping[str, int],
    claim: str | None = None,
    against: Blueprint | None = None,
    operands: Mapping[str, int | Sequence[int]] | None = None,
    *,
    limit: float = LIMIT,
    always: bool = False,
    progress: Progress | None = None,
    place: Place | None = None,
) -> Finding:
    """Settle for all operands whether a design is right, a claim true, or two designs the same.

    Parameters
    ----------
    blueprint : Blueprint
    numbers : mapping of str to int
        Parameters; with `against` of both designs, each taking those that it has.
    claim : str, optional
        What is claimed, ``for all`` operands that are not given; that the design computes
        what it says, unless given. ``for n in 1..8`` settles each.
    against : Blueprint, optional
        Another design, which is to give the same answers.
    operands : mapping of str to int, optional
        Operands that keep one value.
    limit : float
        Seconds for proofs; when they are up the finding is ``undecided``, never a guess.
    always : bool
        Whether the claim is made of every row, for ever; `edgewise.study.claims.every_row`.
    progress : function, optional
        Told (operand sets done, operand sets in all).
    place : Place, optional
        Where the claim stands, for errors; "the claim" unless given.

    Raises
    ------
    EdgewiseError
        Parameters, operands or a claim that don't fit the design.

    Examples
    --------
    >>> from edgewise import catalogue
    >>> finding = prove(catalogue.find("serial-accumulator"), {"n": 4, "x": 3})
    >>> finding.outcome, dict(finding.operands), finding.row
    ('refuted', {'w(1)': 8, 'w(2)': 8, 'w(3)': 0}, 12)
    >>> prove(catalogue.find("serial-accumulator-cleared"), {"n": 4, "x": 3}).how
    'checked on all 4,096 sets of operands'
    """
    if always and (claim is None or against is not None):
        raise EdgewiseError(Message("every-row-of-one"))
    if against is not None:
        if claim is not None:
            raise EdgewiseError(Message("claim-and-design"))
        return _compared(blueprint, against, numbers, operands or {}, limit)
    design = blueprint.design(numbers)
    given = _given(design, operands or {})
    if always and claim is not None:
        return every_row.always(design, claim, given, limit=limit, place=place)
    place = None if claim is None else place or Place("the claim", 1, 1)
    whole = purpose_of(design) if claim is None else parse(claim, "claim", place)
    asked = _for_all(whole, design, given, place)
    found = verdicts.settle(
        asked, blueprint, design.chosen, given, place, limit=limit, progress=progress
    )
    return _of_claim(asked, blueprint, design, given, found)


def purpose_of(design: Design) -> Claim:
    """The claim that a design computes what it says.

    Raises
    ------
    DesignError
        If it does not say what it computes.

    Examples
    --------
    >>> from edgewise import catalogue
    >>> show(purpose_of(catalogue.design("serial-accumulator")).truth)
    'sum after 24 == total(w) mod 2**n'
    """
    if not design.computes:
        raise DesignError(Message("computes-missing-prove", design=design.name), design.place)
    said = [_said(design, purpose) for purpose in design.computes]
    return Claim(reduce(lambda left, right: Binary("and", left, right), said))


def _said(design: Design, purpose: Purpose) -> Node:
    row = design.edges if purpose.after is None else purpose.after
    name = Name(purpose.output)
    word: Node = Timed("after", name, Number(row)) if design.edges else name
    if _is_truth(design, purpose):
        word = Binary("==", word, Number(1))
    return Binary("==", word, purpose.formula)


def _is_truth(design: Design, purpose: Purpose) -> bool:
    ones = dict.fromkeys((operand.name for operand in design.operands), 1)
    try:
        return isinstance(evaluate(purpose.formula, Given(design, ones)), bool)
    except EdgewiseError:
        return False


def _given(design: Design, operands: Mapping[str, int | Sequence[int]]) -> dict[str, int]:
    """Operands that keep one value, the members of a family one by one; found to fit."""
    zeros = {operand.name: 0 for operand in design.operands}
    design.values({**zeros, **operands})
    flat: dict[str, int] = {}
    for name, value in operands.items():
        if isinstance(value, int):
            flat[name] = value
        else:
            flat.update(zip(design.families[name], value, strict=True))
    return flat


def _for_all(claim: Claim, design: Design, given: Mapping[str, int], place: Place | None) -> Claim:
    """The claim for all operands that were not given, unless it speaks of no run at all."""
    members = {m: family for family, all_ in design.families.items() for m in all_}
    said = set(claim.for_all)
    names = [*claim.for_all, *(n for n in free(design, given) if members.get(n) not in said)]
    zeros = Run(design, {**{operand.name: 0 for operand in design.operands}, **given})
    if not claim.for_all and not _reads_a_run(ground(claim.truth, Scope(zeros, place=place))):
        names = []
    return replace(claim, for_all=tuple(dict.fromkeys(names)))


def _reads_a_run(node: Node) -> bool:
    match node:
        case Timed() | Name():
            return True
        case Binary(left=left, right=right):
            return _reads_a_run(left) or _reads_a_run(right)
    inner = getattr(node, "operand", None)
    return inner is not None and _reads_a_run(inner)


# ---------------------------------------------------------------------- findings


def _of_claim(
    claim: Claim, blueprint: Blueprint, design: Design, given: Mapping[str, int], found: Verdict
) -> Finding:
    varying = {span.name for span in claim.ranges}
    # A default may follow what varies, so it is no number of the whole claim.
    stay = design.chosen if varying else design.parameters
    numbers = {name: value for name, value in stay.items() if name not in varying}
    asked = Question((called(design, numbers),), _told(claim), given)
    outcome = "proved" if found.holds else "undecided" if found.undecided else "refuted"
    whole = Finding(
        asked=asked,
        outcome=outcome,  # type: ignore[arg-type]
        evidence=found.evidence,
        engine=found.engine,
        seconds=found.seconds,
        detail=found.detail,
        parameters=blueprint.numbers({**design.chosen, **found.parameters}),
        smallest=found.smallest,
    )
    run = found.run
    if run is None:
        return whole
    failure = Failure(found.why, found.parameters, found.instead)
    reads = bool(claim.for_all) or _reads_a_run(ground(claim.truth, Scope(run)))
    if not reads:
        return replace(whole, failure=replace(failure, instead=Elsewhere()))
    answer = last_row(claim.truth, run) or 0
    leaked = leak(run.trace, claim.truth)
    row = leaked.row if leaked else answer
    names = (*words_in(claim.truth, run), *([leaked.part] if leaked else ()))
    return replace(
        whole,
        parameters=dict(run.design.parameters),
        operands={o.name: run.operands[o.name] for o in run.design.operands},
        failure=failure,
        trace=run.trace,
        row=row,
        columns=columns(run.trace, names),
        rows=around(row, answer, run.trace),
        leak=leaked,
    )


def _told(claim: Claim) -> str:
    """The claim as it would be written."""
    told = show(claim.truth)
    if claim.ranges:
        told += " for " + ", ".join(
            f"{r.name} in {show(r.low)}..{show(r.high)}" for r in claim.ranges
        )
    if claim.for_all:
        told += f", for all {', '.join(claim.for_all)}"
    return told


def _compared(
    blueprint: Blueprint,
    against: Blueprint,
    numbers: Mapping[str, int],
    operands: Mapping[str, int | Sequence[int]],
    limit: float,
) -> Finding:
    has = [{parameter.name for parameter in one.parameters} for one in (blueprint, against)]
    for name in numbers:
        if name not in has[0] | has[1]:
            raise DesignError(
                Message(
                    "parameter-of-neither",
                    first=blueprint.name,
                    second=against.name,
                    name=name,
                    suggestion=nearest(name, has[0] | has[1]),
                )
            )
    design = blueprint.design({n: v for n, v in numbers.items() if n in has[0]})
    # What the first has by default the second has too, so that their operands are alike.
    shared = {**design.parameters, **numbers}
    other = against.design({n: v for n, v in shared.items() if n in has[1]})
    given = _of_either(design, other, operands)
    proof = equivalence.same(design, other, given=given, seconds=limit)
    asked = Question(tuple(called(d, d.parameters) for d in (design, other)), given=given)
    structure = proof.method == "structure"
    ways: Mapping[str, Way] = {"undecided": "undecided", "refuted": "refuted"}
    way = ways.get(proof.outcome, "structure" if structure else "sat")
    detail = f"{proof.clauses:,} clauses over {proof.variables:,} variables" * (not structure)
    finding = Finding(
        asked=asked,
        outcome=proof.outcome,
        evidence=Evidence(way, seconds=limit),
        engine="structure" if structure else "proof",
        seconds=proof.seconds,
        detail=detail,
        parameters=dict(design.parameters),
    )
    shown = proof.counterexample
    return finding if shown is None else _differing(finding, shown)


def _of_either(
    design: Design, other: Design, operands: Mapping[str, int | Sequence[int]]
) -> dict[str, int]:
    """Operands that keep one value, in one design or both."""
    flat: dict[str, int] = {}
    for name, value in operands.items():
        if isinstance(value, int):
            flat[name] = value
            continue
        family = design.families.get(name) or other.families.get(name) or ()
        if len(family) != len(value):
            raise DesignError(
                Message("family-values", name=name, found=len(value), count=len(family))
            )
        flat.update(zip(family, value, strict=True))
    return flat


def _differing(finding: Finding, shown: Counterexample) -> Finding:
    trace, other = shown.trace, shown.other
    assert other is not None
    answers = []
    for run in (trace, other):
        row = next(
            (
                p.after
                for p in run.design.computes
                if p.output == shown.what and p.after is not None
            ),
            run.edges,
        )
        word = run.bits(run.design.netlist.outputs[shown.what], row)
        value = f" ({word.value})" if word.readable and word.width > 1 else ""
        answers.append((run.design.name, row if run.edges else 0, f"{word}{value}"))
    first, second = answers
    return replace(
        finding,
        operands=dict(shown.operands),
        smallest=shown.smallest,
        failure=Difference(shown.what, (first, second)),
        trace=trace,
        other=other,
        row=shown.row,
        columns=columns(trace, (shown.what,)),
        rows=around(shown.row, shown.row, trace),
    )
