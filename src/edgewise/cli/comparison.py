"""The command that compares designs: what they cost, how long they take, which satisfies a need."""

from __future__ import annotations

import json
import re
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from edgewise.cli.options import (
    Json,
    app,
    blueprint_of,
    examples,
    numbers,
    print_sentences,
    refused,
    spans,
)
from edgewise.listing import both
from edgewise.yamltext import shortened

if TYPE_CHECKING:
    from collections.abc import Sequence

    from edgewise.blueprint import Blueprint
    from edgewise.study.compare.comparison import Comparison

_HIGHEST = 10**18
Spans = dict[str, tuple[int, int]]
DEFAULT = Path("chart.svg")
"""Where a chart goes unless told."""


@app.command(
    epilog=examples(
        "compare serial-adder ripple-carry-adder carry-lookahead-adder --over n=4..64",
        "compare ripple-carry-adder kogge-stone-adder --over n=4..32 --chart time -o time.svg",
        "compare '*-adder' --need 'n = 32, gates <= 200, time <= 100 gate delays'",
        "compare --over n=4..64 --model cmos --workers 2 --json",
    )
)
def compare(  # noqa: PLR0913, PLR0917  # each is an option of its own
    names: Annotated[
        list[str] | None,
        typer.Argument(
            metavar="[DESIGN]…",
            help="Catalogue names, also as '*-adder', or circuit files; all that fit, if none.",
        ),
    ] = None,
    over: Annotated[
        str, typer.Option(metavar="n=4..64", help="One parameter, with its range.")
    ] = "",
    with_: Annotated[
        str,
        typer.Option("--with", metavar="c=1,…", help="Other parameters; defaults for the rest."),
    ] = "",
    model: Annotated[
        str,
        typer.Option(
            metavar="MODEL", help="gate-count, unit-gate, cmos, 74hc, 74hc-worst, or of a package."
        ),
    ] = "unit-gate",
    need: Annotated[
        str, typer.Option(metavar="NEED", help="Conditions; lists what satisfies them.")
    ] = "",
    chart: Annotated[
        str, typer.Option(metavar="WHAT", help="time, area, area-delay, … as a chart.")
    ] = "",
    out: Annotated[
        Path | None,
        typer.Option(
            "-o", "--out", metavar="FILE", help="The chart: .svg, .png or .pdf; else chart.svg."
        ),
    ] = None,
    at: Annotated[
        int | None,
        typer.Option(metavar="N", help="Chart area-delay: at which number; the last unless given."),
    ] = None,
    activity: Annotated[
        bool, typer.Option("--activity", help="Count toggles over random results too.")
    ] = False,
    workers: Annotated[
        int | None,
        typer.Option(metavar="N", help="Processes to measure in; what pays unless given."),
    ] = None,
    cluster: Annotated[
        str, typer.Option(metavar="ADDRESS", help="A Dask scheduler to measure on.")
    ] = "",
    as_json: Json = False,
) -> None:
    """Compare designs over a parameter: figures, ranks, and where which is better."""
    from edgewise.progress import Progress
    from edgewise.study.compare import comparison, needs
    from edgewise.study.cost import sweep

    grid, fixed = ranges(over, with_)
    _check_options(chart, out, at, need, grid, activity=activity)
    activity = activity or (chart == "toggles" and not need)
    parameter = next(iter(grid), "n")
    asked = _asked(names or (), comparison.comparable(parameter), parameter)
    _check_designs(asked, chart, grid, workers, cluster)
    low, high = grid.get(parameter, (1, 1))
    many = sweep.workers_for(len(asked) * (high - low + 1))
    here = (1 if cluster else many) if workers is None else workers
    place = sweep.workplace(here, cluster)
    told: Comparison | needs.Answer
    with Progress("designs") as progress:
        if need:
            answer = needs.need(asked, need, grid, model, fixed, workplace=place, progress=progress)
            found, told = answer.comparison, answer
        else:
            found = comparison.compare(
                asked,
                grid,
                model,
                fixed,
                activity=activity,
                workplace=place,
                progress=progress,
            )
            told = found
    if as_json:
        print(json.dumps(told.data(), indent=1))
    else:
        _print(told.table(), told.sentences(), told.notes(), apart=told is found)
    if chart:
        _draw(found, chart, at, out or DEFAULT, told=not as_json)


def _check_options(  # each is an option of its own
    chart: str, out: Path | None, at: int | None, need: str, over: Spans, *, activity: bool
) -> None:
    """Refuse what would have no effect or can't be done, before anything is measured."""
    from edgewise.lesson import charts
    from edgewise.views.drawing import export

    if out is not None and not chart:
        raise refused("comparing-chart-missing")
    if at is not None and chart != charts.PLANE:
        raise refused("comparing-at-idle")
    if need and activity:
        raise refused("comparing-activity-idle")
    if not chart:
        return
    charts.check(chart)
    if chart == "toggles" and need and not re.search(r"\btoggles\b", need):
        raise refused("comparing-chart-toggles")
    export.check(DEFAULT if out is None else out, chart=True)
    for name, (low, high) in over.items():
        if at is not None and not low <= at <= high:
            expected = f"{low}..{high}" if low < high else low
            raise refused("comparing-at-outside", name=name, at=at, expected=expected)


def _check_designs(
    asked: Sequence[Blueprint], chart: str, over: Spans, workers: int | None, cluster: str
) -> None:
    """Refuse options that mean nothing for these designs."""
    from edgewise import catalogue

    ready = catalogue.names()
    own = [o for o in asked if o.name not in ready or catalogue.find(o.name) is not o]
    if len(own) == len(asked) and (cluster or (workers or 1) > 1):
        option = "--cluster" if cluster else "--workers"
        raise refused("comparing-elsewhere", option=option)
    if chart == "period" and over and not any(_clocked(one, over) for one in asked):
        raise refused("comparing-chart-period")


def _clocked(blueprint: Blueprint, over: Spans) -> bool:
    """Whether a design has edges at the first number at which it is there."""
    from edgewise.errors import EdgewiseError

    known = {parameter.name for parameter in blueprint.parameters}
    given = {name: low for name, (low, _) in over.items() if name in known}
    try:
        return bool(blueprint.timetable(given).procedure)
    except EdgewiseError:
        return True  # that is told where it is measured


def ranges(over: str, with_: str) -> tuple[Spans, dict[str, int]]:
    """Read ``n=4..64`` and ``c=0``: the range, and single numbers.

    Without a range the first number is one.

    Examples
    --------
    >>> ranges("n=4..64", "c=0"), ranges("", "n=8")
    (({'n': (4, 64)}, {'c': 0}), ({'n': (8, 8)}, {}))
    """
    for item in with_.split(","):
        if ".." in item:
            raise refused("comparing-range", found=repr(shortened(item)))
    grid, fixed = spans(over, "--over"), numbers(with_, "--with")
    if any(high >= _HIGHEST for _, high in grid.values()):
        raise refused("comparing-digits", found=repr(shortened(over)))
    if len(grid) > 1:
        raise refused("comparing-ranges", count=len(grid))
    for name in grid.keys() & fixed.keys():
        raise refused("option-twice", option=both(("--over", "--with")), name=name)
    if not grid and fixed:
        first = next(iter(fixed))
        grid[first] = (fixed[first], fixed.pop(first))
    return grid, fixed


def _asked(names: Sequence[str], fitting: Sequence[Blueprint], parameter: str) -> list[Blueprint]:
    """The designs that are named; ``*`` stands for any letters, no name for all that fit."""
    from fnmatch import fnmatchcase

    if not names and not fitting:
        raise refused("comparing-none-over", parameter=parameter)
    found: list[Blueprint] = []
    for name in names or ("*",):
        if "*" not in name:
            found.append(blueprint_of(name))
            continue
        matching = [one for one in fitting if fnmatchcase(one.name, name)]
        if not matching:
            raise refused("comparing-none-called", name=name)
        found += [one for one in matching if one not in found]
    return found


def _print(
    table: Sequence[str], sentences: Sequence[str], notes: Sequence[str], *, apart: bool
) -> None:
    """A table as it stands, sentences wrapped, and notes, which may stand `apart`."""
    for line in [*table, *([""] if table else [])]:
        print(line)
    print_sentences(sentences)
    if apart:
        print()
    print_sentences(notes)


def _draw(found: Comparison, kind: str, at: int | None, out: Path, *, told: bool) -> None:
    from edgewise.lesson.charts import chart
    from edgewise.views.drawing.export import write

    write(chart(found, kind, at).svg(), out, scale=2)
    if told:
        print(f"\n{out}")
