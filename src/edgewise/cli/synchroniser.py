"""The command that tells how often a synchroniser fails."""

from __future__ import annotations

import re
from fractions import Fraction
from typing import Annotated, Final

import typer

from edgewise.cli.options import app, examples, refused
from edgewise.yamltext import shortened

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
