"""What a circuit does in time, as ``trace --inside 0`` is asked for it with waveforms."""

from __future__ import annotations

import re
from dataclasses import replace
from fractions import Fraction
from typing import TYPE_CHECKING, Annotated, Final

import typer

from edgewise.cli.inside import edges, manner_of, time
from edgewise.cli.options import app, blueprint_of, examples, numbers, refuse_idle, refused
from edgewise.errors import Message
from edgewise.yamltext import shortened

if TYPE_CHECKING:
    from edgewise.response import Response
    from edgewise.trace import Trace
    from edgewise.views.registry import Wish

Waveforms = Annotated[
    str,
    typer.Option(
        metavar='"set: 1, 0 after 10; …"',
        help="--inside 0: what inputs are fed in time, in place of the text's waveforms.",
    ),
]
Until = Annotated[
    str, typer.Option(metavar="TIME", help="--inside 0: the last time looked at, with waveforms.")
]


def response_of(context: typer.Context) -> Response | None:
    """What a command was asked to follow in time; nothing, if rows are what it is about.

    A design is followed in time that has waveforms, or is given some, or has neither operands nor
    edges: what else could its inputs be fed?
    """
    from edgewise import waveform
    from edgewise.study import inside as study

    given = context.params
    _, last = edges(given["inside"])
    design = blueprint_of(given["name"]).made(numbers(given["with_"], "--with"))
    alone = not design.operands and not design.edges
    if given["waveforms"] and last:
        raise refused("inside-waveforms", inside=given["inside"])
    if last or not (given["waveforms"] or design.waveforms or alone):
        refuse_idle(context, Message("idle-without-waveforms"), "--until")
        return None
    idle = ("--operands", "--period", "--when", "--before")
    refuse_idle(context, Message("idle-waveforms"), *idle)
    options = ("model", "pulses", "spread", "seed", "late", "outcome", "resolve")
    return study.follow(
        design,
        manner_of(**{option: given[option] for option in options}),
        waveform.given(given["waveforms"], "--waveforms"),
        until=time(given["until"], "--until") if given["until"] else None,
    )


def drawn_of(context: typer.Context) -> Response | None:
    """What a figure is to show that was followed in time; nothing, if it is about rows."""
    given = context.params
    timed = given["inside"] and given["figure"] in ("diagram", "timing")
    response = response_of(context) if timed else None
    if response:
        refuse_idle(context, Message("idle-in-time"), "--after", "--path")
    return response


def in_time(response: Response, figure: str, wish: Wish) -> tuple[Trace, Wish]:
    """What a figure is drawn of: a timing diagram of all, a block diagram of the end."""
    from edgewise.response.timeline import timeline

    line = timeline(response)
    if figure == "timing":
        return line.trace, replace(wish, names=wish.names or response.columns, inside=line)
    return line.trace, replace(wish, after=0)


_NUMBER: Final = re.compile(r"\d{1,12}(\.\d{1,12})?(e[+-]?\d{1,2})?", re.ASCII)
_NANO: Final = Fraction(1, 10**9)
_MEGA: Final = 10**6


@app.command(
    epilog=examples("mtbf --resolve 10 --tau 0.135 --window 9.8e15 --clock 50 --changes 20")
)
def mtbf(
    resolve: Annotated[
        str, typer.Option(metavar="NS", help="The time left to decide before it is looked at.")
    ],
    tau: Annotated[str, typer.Option(metavar="NS", help="The part's time constant.")],
    window: Annotated[str, typer.Option(metavar="NS", help="The part's window, called T0, too.")],
    clock: Annotated[str, typer.Option(metavar="MHZ", help="How often edges come.")],
    changes: Annotated[str, typer.Option(metavar="MHZ", help="How often the data changes.")],
) -> None:
    """Tell how often a synchroniser is undecided still when its output is looked at.

    On the average once in exp(resolve / tau) / (window x clock x changes). The constants of a part
    are measured; take them from its data sheet.
    """
    from edgewise.study.inside.metastability import YEAR
    from edgewise.study.inside.metastability import mtbf as between
    from edgewise.words.messages import ENGLISH

    found = between(
        _number(resolve, "--resolve") * _NANO,
        _number(tau, "--tau") * _NANO,
        _number(window, "--window") * _NANO,
        _number(clock, "--clock") * _MEGA,
        _number(changes, "--changes") * _MEGA,
    )
    print(ENGLISH("response-mtbf", seconds=found.figure(), years=found.figure(YEAR)))


def _number(text: str, option: str) -> Fraction:
    if not _NUMBER.fullmatch(text.strip()):
        raise refused("option-decimal", option=option, found=repr(shortened(text)))
    return Fraction(text.strip())
