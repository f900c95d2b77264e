"""Commands that ask something of a design: prove, law, choose, break."""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, TypeVar

import typer

from edgewise.cli.options import (
    Json,
    Name,
    Operands,
    With,
    app,
    assignments,
    blueprint_of,
    examples,
    numbers,
    print_sentences,
    print_table,
    refuse_idle,
    refused,
    run_of,
    span,
    spans,
)
from edgewise.errors import Message
from edgewise.listing import either
from edgewise.spelling import close

if TYPE_CHECKING:
    from edgewise.design import Design
    from edgewise.study.faults.fault import Fault
    from edgewise.trace import Trace

Word = TypeVar("Word", bound=str)
_DAY = 86_400
"""Seconds that a proof may be given, at most."""


@app.command(
    epilog=examples(
        "prove serial-accumulator",
        "prove serial-accumulator --with n=6,m=4",
        'prove serial-adder --with n=16 --claim "S after 31 == (a + b) mod 2**n"',
        "prove lfsr --with n=8 --claim 'S != 0' --always",
        "prove serial-adder --claim 'settled(S) within 14 ns' --model 74hc",
        "prove serial-adder --with n=64 --against ripple-carry-adder --operands carry_in=0",
    )
)
def prove(  # noqa: PLR0913, PLR0917  # each is an option of its own
    context: typer.Context,
    name: Name,
    with_: With = "",
    claim: Annotated[
        str, typer.Option(metavar="CLAIM", help="What is claimed; else, what it computes.")
    ] = "",
    against: Annotated[
        str, typer.Option(metavar="OTHER", help="A design that is to give the same answers.")
    ] = "",
    always: Annotated[
        bool, typer.Option("--always", help="Claim it of every row, for ever.")
    ] = False,
    operands: Annotated[
        str, typer.Option(metavar="a=22,…", help="Operands that keep one value.")
    ] = "",
    limit: Annotated[float, typer.Option(metavar="SECONDS", min=0, help="Time for proofs.")] = 20,
    draw: Annotated[
        Path | None,
        typer.Option(metavar="FILE", help="If false, a figure of the row where it goes wrong."),
    ] = None,
    model: Annotated[
        str,
        typer.Option(metavar="MODEL", help="A claim about time: whose delays, as of compare."),
    ] = "",
    as_json: Json = False,
) -> None:
    """Settle for all operands whether a design is right, or a claim about it true.

    A claim can be about time: "settled(S) within 14 ns", "no glitch on FA.sum".

    Exit code 0: true; 1: false, or undecided when the time was up; 2: bad input.
    """
    from edgewise import formula
    from edgewise.progress import Progress
    from edgewise.study.claims import proof_request

    _check(draw)
    if not limit <= _DAY:  # nor is what is no number
        raise refused("prove-limit", limit=f"{limit:g}", most=_DAY)
    if formula.of_time(claim):
        from edgewise.cli import time_claims

        refuse_idle(context, Message("idle-time-claim"), "--against", "--always", "--draw")
        found = time_claims.settle(name, with_, claim, operands, model, limit)
        print(found.printed(as_json=as_json))
        raise typer.Exit(0 if found.verdict.holds else 1)
    refuse_idle(context, Message("idle-no-time-claim"), "--model")
    with Progress("operand-sets") as progress:
        finding = proof_request.prove(
            blueprint_of(name),
            numbers(with_, "--with"),
            claim or None,
            blueprint_of(against) if against else None,
            assignments(operands, "--operands"),
            limit=limit,
            always=always,
            progress=progress,
        )
    print(json.dumps(finding.data(), indent=1) if as_json else finding.text())
    if draw is not None and finding.trace is not None:
        from edgewise.views.diagram.block_diagram import diagram
        from edgewise.views.drawing.export import write

        write(diagram(finding.trace, after=finding.row), draw)
    if not finding.holds:
        raise typer.Exit(1)


@app.command(
    epilog=examples(
        "law serial-accumulator edges --over n=1..32,x=2..16",
        "law ripple-carry-adder depth --over n=1..24 --table",
    )
)
def law(  # noqa: PLR0913, PLR0917  # each is an option of its own
    context: typer.Context,
    name: Name,
    count: Annotated[
        str,
        typer.Argument(
            metavar="COUNT", help="edges, gates, flip-flops or depth (gates on the critical path)."
        ),
    ] = "edges",
    over: Annotated[
        str, typer.Option(metavar="n=1..32,…", help="Parameters, each with its range.")
    ] = "",
    with_: With = "",
    table: Annotated[bool, typer.Option("--table", help="Show all counts.")] = False,
    as_json: Json = False,
) -> None:
    """Find the exact formula for a count in the parameters, and say how far it was checked."""
    from edgewise.progress import Progress
    from edgewise.study.laws import fit

    if as_json:
        refuse_idle(context, Message("idle-json-counts"), "--table")
    grid = spans(over, "--over")
    with Progress("designs") as progress:
        found = fit.find(blueprint_of(name), count, grid, numbers(with_, "--with"), progress)
    if as_json:
        print(json.dumps(found.data(), indent=1))
        return
    print(found)
    if table or not found.text:
        print(f"\n{found.text_table()}")


@app.command(
    epilog=examples(
        "choose serial-adder --with n=6",
        "choose serial-adder --with n=8 --operands a=29 --feature 'carry chain 4' --sum fits",
        "choose serial-adder --with n=8 --most 5 --seed 7 --between 20..99",
    )
)
def choose(  # noqa: PLR0913, PLR0917  each is an option of its own
    context: typer.Context,
    name: Name,
    with_: With = "",
    operands: Annotated[
        str, typer.Option(metavar="a=22,…", help="Operands that keep one value.")
    ] = "",
    feature: Annotated[
        list[str] | None,
        typer.Option(
            metavar="FEATURE",
            help="What it must show: 'carry chain 4', 'no carry', 'all rows', 'row 011',"
            " 'misconception NAME'. May be given more than once.",
        ),
    ] = None,
    sum_: Annotated[str, typer.Option("--sum", help="fits or overflows.")] = "",
    between: Annotated[
        str, typer.Option(metavar="20..99", help="The range of each operand, in decimal.")
    ] = "",
    most: Annotated[int, typer.Option(min=1, max=50, help="How many examples.")] = 3,
    seed: Annotated[
        int | None, typer.Option(help="For a set of examples that differ from one another.")
    ] = None,
    misconceptions: Annotated[
        bool,
        typer.Option(
            "--misconceptions", help="Show the thought of each misconception, and its answer."
        ),
    ] = False,
    as_json: Json = False,
) -> None:
    """Choose operands that teach: what the best of all show, and what even they can't."""
    from edgewise.progress import Progress
    from edgewise.study.operands import choose as study
    from edgewise.study.operands.requirements import Wish

    if as_json:
        refuse_idle(context, Message("idle-json-misconceptions"), "--misconceptions")
    low, high = span(between, "--between") if between else (None, None)
    if low is not None and high is not None and low > high:
        raise refused("choose-between", range=between)
    blueprint = blueprint_of(name)
    design = blueprint.design(numbers(with_, "--with"))
    wish = Wish(
        _fixed(design, assignments(operands, "--operands")),
        tuple(feature or ()),
        one_of(sum_, ("fits", "overflows"), "--sum"),
        low,
        high,
    )
    with Progress("operand-sets") as progress:
        advice = study.choose(
            design, wish, blueprint=blueprint, most=most, seed=seed, progress=progress
        )
    if as_json:
        print(json.dumps(advice.data(), indent=1))
        return
    print_table(advice.table())
    for example in advice.examples:
        print(f"\n{example.title}")
        print_sentences(advice.about(example))
    print()
    print_sentences(advice.sentences())
    if misconceptions:
        print()
        print_table(advice.misconception_table(advice.examples[0]))


def _fixed(design: Design, given: Mapping[str, int | list[int]]) -> dict[str, int]:
    """Operands that keep one value, those of a family one by one."""
    fixed: dict[str, int] = {}
    for name, value in given.items():
        if isinstance(value, int):
            fixed[name] = value
            continue
        members = design.families.get(name, ())
        if len(members) != len(value):
            raise refused("choose-members", name=name, count=len(value), members=len(members))
        fixed.update(zip(members, value, strict=True))
    return fixed


def one_of(found: str, allowed: tuple[Word, ...], option: str) -> Word | None:
    """The one of `allowed` that was found; nothing for an empty text."""
    for word in allowed:
        if word == found:
            return word
    if found:
        raise refused("value-expected", name=option, found=found, expected=either(allowed))
    return None


@app.command(
    "break",
    epilog=examples(
        "break serial-adder --with n=4 --operands a=3,b=7",
        "break serial-adder --with n=4 --operands a=3,b=7 --draw 'C stuck at 0' -o broken.svg",
    ),
)
def break_(  # noqa: PLR0913, PLR0917  each is an option of its own
    context: typer.Context,
    name: Name,
    with_: With = "",
    operands: Operands = "",
    inside: Annotated[
        bool, typer.Option("--inside", help="Break what is inside the parts as well.")
    ] = False,
    draw: Annotated[
        str, typer.Option(metavar="FAULT", help="Draw one fault, by its name in the table.")
    ] = "",
    out: Annotated[
        Path | None, typer.Option("-o", "--out", metavar="FILE", help="Where to draw it.")
    ] = None,
    as_json: Json = False,
) -> None:
    """Break a design in one place at a time: which faults an example detects, which not."""
    from edgewise.progress import Progress
    from edgewise.study.faults import detection, models

    if draw:
        refuse_idle(context, Message("idle-draw"), "--json")
    else:
        refuse_idle(context, Message("idle-without-draw"), "--out")
    _check(out)
    run = run_of(name, with_, operands)
    tried = models.faults(run.design, inside=inside)
    if draw:
        _draw_fault(run, named(draw, tried), out or Path("broken.svg"))
        return
    with Progress("faults") as progress:
        found = detection.breakage(run.design, run.operands, tried, progress, inside=inside)
    if as_json:
        print(json.dumps(found.data(), indent=1))
        return
    print_table(found.table())
    print()
    print_sentences(found.sentences())


def named(name: str, faults: Sequence[Fault]) -> Fault:
    """The fault of this name; the nearest is suggested."""
    for fault in faults:
        if fault.name == name:
            return fault
    meant = close(name, [fault.name for fault in faults])
    raise (
        refused("break-fault", name=name, meant=meant)
        if meant
        else refused("break-faults", name=name)
    )


def _check(out: Path | None) -> None:
    """See that a figure can be written there, before anything is computed for it."""
    if out is not None:
        from edgewise.views.drawing import export

        export.check(out)


def _draw_fault(run: Trace, fault: Fault, out: Path) -> None:
    from edgewise.engines import reference
    from edgewise.views.diagram.block_diagram import diagram
    from edgewise.views.drawing.export import write

    broken = reference.run(fault.design, run.operands)
    write(diagram(broken, mark=fault.where, fault=fault.name), out)
    print_sentences([fault.sentence, *fault.cautions])
    print(out)
