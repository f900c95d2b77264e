"""The options of a look inside clock periods, and how they are read."""

from __future__ import annotations

import re
from fractions import Fraction
from typing import TYPE_CHECKING, Annotated, Final, get_args

import typer

from edgewise.cli.options import (
    assignments,
    blueprint_of,
    numbers,
    refuse_idle,
    refused,
)
from edgewise.errors import Message
from edgewise.listing import choice
from edgewise.numerals import whole
from edgewise.yamltext import shortened

if TYPE_CHECKING:
    from edgewise.inside import Inside as Moment
    from edgewise.study.inside import Manner
    from edgewise.trace import Trace

Inside = Annotated[
    str,
    typer.Option(
        "--inside",
        metavar="8",
        help="Look inside clock periods: behind this edge, or behind those of a range, 8..9.",
    ),
]
Period = Annotated[
    str,
    typer.Option(
        metavar="TIME", help="--inside: from edge to edge; twice the critical path unless given."
    ),
]
Pulses = Annotated[
    str,
    typer.Option(
        metavar="WHICH",
        help="--inside: inertial (gates swallow pulses shorter than their delay) or transport.",
    ),
]
Spread = Annotated[
    int, typer.Option(metavar="PERCENT", help="--inside: move each delay by up to so much.")
]
Seed = Annotated[int, typer.Option(metavar="NUMBER", help="--spread: which of all such moves.")]
When = Annotated[
    str,
    typer.Option(
        metavar="shift=9,…", help="--inside: how long after the edge these inputs change."
    ),
]
Late = Annotated[
    str,
    typer.Option(
        metavar="B=5,…", help="--inside: how much later the clock reaches what stores there."
    ),
]
Outcome = Annotated[
    str,
    typer.Option(
        metavar="WHAT",
        help="--inside: what is stored if set-up or hold time is not kept: X, old, new or either.",
    ),
]
Before = Annotated[
    str,
    typer.Option(
        metavar="a=0,b=0",
        help="--inside 0: the operands that stood before, in a circuit without clock edges.",
    ),
]
Resolve = Annotated[
    str,
    typer.Option(
        metavar="TIME", help="--outcome: for how long X stands before that; 0 unless given."
    ),
]
OPTIONS: Final = (
    "--period",
    "--pulses",
    "--spread",
    "--seed",
    "--when",
    "--late",
    "--outcome",
    "--resolve",
    "--before",
    "--waveforms",
    "--until",
)
MANNER: Final = ("model", "pulses", "spread", "seed", "late", "outcome", "resolve")
"""What says how to look into time, with or without clock periods."""
_TIME: Final = re.compile(r"\d{1,9}(\.\d{1,2})?", re.ASCII)


def refuse_without(context: typer.Context, inside: str, *more: str) -> None:
    """Refuse options that say nothing without ``--inside``."""
    if not inside:
        refuse_idle(context, Message("idle-without", option="--inside"), *OPTIONS, *more)
        return
    outcome = context.params["outcome"]
    if not context.params["spread"] and outcome != "either":
        refuse_idle(context, Message("idle-without", option="--spread"), "--seed")
    if outcome == "X":
        refuse_idle(context, Message("idle-outcome"), "--resolve")


def manner_of(  # noqa: PLR0913  each is an option
    *,
    model: str,
    period: str = "",
    pulses: str,
    spread: int,
    seed: int,
    when: str = "",
    late: str,
    outcome: str,
    resolve: str,
) -> Manner:
    """How a command was asked to look into time."""
    from edgewise.engines.timed.delays import Outcome as Allowed
    from edgewise.study.cost import models
    from edgewise.study.inside import Manner

    _one_of("--pulses", pulses, ("inertial", "transport"))
    _one_of("--outcome", outcome, get_args(Allowed))
    return Manner(
        models.technology(model),
        time(period, "--period") if period else None,
        pulses == "transport",
        spread,
        seed,
        _times(when, "--when"),
        _times(late, "--late"),
        outcome,  # type: ignore[arg-type]  # one of them, as was seen
        time(resolve, "--resolve") if resolve else Fraction(0),
    )


def moment_of(context: typer.Context, run: Trace) -> Moment:
    """What a command was asked to look into."""
    from edgewise.engines import reference
    from edgewise.study import inside as study

    given = context.params
    first, last = edges(given["inside"])
    manner = manner_of(**{option: given[option] for option in (*MANNER, "period", "when")})
    stood = None
    if given["before"]:
        if first:
            raise refused("inside-before")
        design = blueprint_of(given["name"]).design(numbers(given["with_"], "--with"))
        stood = reference.run(design, design.values(assignments(given["before"], "--before")))
    return study.inside(run, first, last, manner, before=stood)


def _one_of(option: str, found: str, allowed: tuple[str, ...]) -> None:
    if found not in allowed:
        raise refused("value-expected", name=option, found=found, expected=choice(allowed))


def edges(text: str) -> tuple[int, int]:
    """Read ``8`` or ``8..9``.

    Examples
    --------
    >>> edges("8"), edges("8..9")
    ((8, 8), (8, 9))
    """
    first, dots, last = (piece.strip() for piece in text.partition(".."))
    low = whole(first, "--inside")
    high = whole(last, "--inside") if dots else low
    if low is None or high is None or min(low, high) < 0:
        raise refused("option-edge", option="--inside", found=repr(shortened(text)))
    if high < low:
        raise refused("option-edges", option="--inside", low=low, high=high)
    return low, high


def time(text: str, option: str) -> Fraction:
    """Read ``12.5``."""
    if not _TIME.fullmatch(text.strip()):
        raise refused("option-time-alone", option=option, found=repr(shortened(text)))
    return Fraction(text.strip())


def _times(text: str, option: str) -> dict[str, Fraction]:
    """Read ``shift=9,run=12.5``.

    Examples
    --------
    >>> _times("shift=9, run=12.5", "--when")
    {'shift': Fraction(9, 1), 'run': Fraction(25, 2)}
    """
    found: dict[str, Fraction] = {}
    for item in text.split(",") if text.strip() else ():
        name, _, at = (piece.strip() for piece in item.partition("="))
        if not name or not _TIME.fullmatch(at):
            raise refused("option-time", option=option, found=repr(shortened(item)))
        if name in found:
            raise refused("option-twice", option=option, name=name)
        found[name] = Fraction(at)
    return found
