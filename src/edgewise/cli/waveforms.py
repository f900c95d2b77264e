"""What a circuit does in time, as ``trace --inside 0`` is asked for it with waveforms."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Annotated

import typer

from edgewise.cli.inside import MANNER, edges, manner_of, time
from edgewise.cli.options import blueprint_of, numbers, refuse_idle, refused
from edgewise.errors import Message

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
    return study.follow(
        design,
        manner_of(**{option: given[option] for option in MANNER}),
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
