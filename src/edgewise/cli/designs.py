# ruff: noqa: ARG001  # what is about time is read from a command's context
"""Commands that show designs and their runs: list, show, trace, draw."""

from __future__ import annotations

import json
import sys
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Final

import typer

from edgewise.cli.inside import (
    Before,
    Inside,
    Late,
    Outcome,
    Period,
    Pulses,
    Resolve,
    Seed,
    Spread,
    When,
    moment_of,
    refuse_without,
)
from edgewise.cli.options import (
    Json,
    Name,
    Operands,
    With,
    app,
    blueprint_of,
    examples,
    names_of,
    numbers,
    print_sentences,
    print_table,
    refuse_idle,
    refused,
    rows_of,
    run_of,
    terminal_width,
)
from edgewise.cli.streams import exactly
from edgewise.cli.waveforms import Until, Waveforms, drawn_of, in_time, response_of
from edgewise.errors import Message

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from edgewise.blueprint import Blueprint
    from edgewise.inside import Inside as Moment
    from edgewise.response import Response
    from edgewise.study.cost.critical_path import Path as CriticalPath
    from edgewise.study.cost.true_delay import TrueDelay
    from edgewise.trace import Trace


@app.command("list", epilog=examples("list", "list multiplier", "list --json"))
def list_(
    word: Annotated[
        str, typer.Argument(metavar="[WORD]", help="Only those whose name or text has this word.")
    ] = "",
    as_json: Json = False,
) -> None:
    """List the designs of the catalogue, or those that a word fits."""
    from edgewise import catalogue

    groups = {entry.name: group for group, entry in catalogue.listed()}
    entries = [
        e
        for e in map(catalogue.find, groups)
        if word.lower() in " ".join((e.name, e.title, e.about, groups[e.name])).lower()
    ]
    if not entries:
        raise refused("list-none", word=word)
    if as_json:
        print(
            json.dumps(
                [
                    {
                        "design": e.name,
                        "title": e.title,
                        "about": e.about,
                        "group": groups[e.name],
                    }
                    for e in entries
                ],
                indent=1,
            )
        )
        return
    _print_groups(entries, groups)


def _print_groups(entries: Sequence[Blueprint], groups: Mapping[str, str]) -> None:
    """Each group with its designs and what they are."""
    import textwrap

    left = max(len(entry.name) for entry in entries) + 4
    before = ""
    for entry in entries:
        if groups[entry.name] != before:
            print("\n" * bool(before) + groups[entry.name])
            before = groups[entry.name]
        lines = textwrap.wrap(entry.about, terminal_width() - left)
        print(f"  {entry.name.ljust(left - 2)}{lines[0]}")
        for line in lines[1:]:
            print(" " * left + line)


@app.command(
    epilog=examples(
        "show serial-adder",
        "show ripple-carry-adder --with n=4 --json",
        "show serial-adder --text > my-adder.yaml",
        "show serial-adder --operands a=22,b=43 --coverage",
    )
)
def show(  # noqa: PLR0913, PLR0917  # each is an option of its own
    context: typer.Context,
    name: Name,
    with_: With = "",
    operands: Operands = "",
    as_json: Json = False,
    as_text: Annotated[
        bool, typer.Option("--text", help="Print it as circuit text, to start one's own from.")
    ] = False,
    coverage: Annotated[
        bool, typer.Option("--coverage", help="Show what an example (--operands) lets one see.")
    ] = False,
) -> None:
    """Show what a design is, or what an example of it shows."""
    from edgewise import catalogue, designtext, sheet

    if as_text:
        refuse_idle(context, Message("idle-show-text"), "--json", "--coverage", "--operands")
    if coverage or operands:
        _show_coverage(run_of(name, with_, operands), as_json=as_json)
        return
    blueprint = blueprint_of(name)
    design = blueprint.design(numbers(with_, "--with"))
    if as_text:
        as_written = catalogue.text(name) if name in catalogue.ORDER and not with_ else None
        told = as_written or designtext.text(design, blueprint.about, blueprint.source)
        exactly(told, Message("printed-circuit"))
    elif as_json:
        print(json.dumps(sheet.data(blueprint, design), indent=1))
    else:
        print(sheet.text(blueprint, design, terminal_width()))


def _show_coverage(run: Trace, *, as_json: bool) -> None:
    from edgewise.study.coverage import measured

    found = measured.of(run)
    if as_json:
        print(json.dumps(found.data(), indent=1))
        return
    table = found.table()
    if len(table) > 1:  # more than its heading
        print_table(table)
        print()
    print_sentences(found.sentences())


Model = Annotated[
    str,
    typer.Option(
        metavar="MODEL",
        help="Of delays: gate-count, unit-gate, cmos, 74hc, 74hc-worst, or another package's.",
    ),
]


@app.command(
    epilog=examples(
        "trace serial-adder --operands a=22,b=43",
        "trace serial-adder --with n=4 --operands a=9,b=6 --columns A,C,S --csv",
        "trace serial-adder --operands a=22,b=43 --inside 8 --model 74hc",
        "trace carry-skip-adder --operands a=1,b=15 --inside 0 --before a=0,b=15",
        'trace latch.yaml --inside 0 --waveforms "set: 0, 1 after 5, 0 after 9; reset: 0"',
    )
)
def trace(  # noqa: PLR0913, PLR0917  each is an option of its own
    context: typer.Context,
    name: Name,
    with_: With = "",
    operands: Operands = "",
    columns: Annotated[str, typer.Option(metavar="A,C,S", help="The nets and words to show.")] = "",
    as_json: Json = False,
    as_csv: Annotated[bool, typer.Option("--csv", help="Print comma-separated values.")] = False,
    inside: Inside = "",
    model: Model = "unit-gate",
    period: Period = "",
    pulses: Pulses = "inertial",
    spread: Spread = 0,
    seed: Seed = 1,
    when: When = "",
    late: Late = "",
    outcome: Outcome = "X",
    resolve: Resolve = "",
    before: Before = "",
    waveforms: Waveforms = "",
    until: Until = "",
) -> None:
    """Compute a run: what every register and net holds after every clock edge.

    With --inside, every change of every net between two edges, with the delays of a model; with
    waveforms, all that a circuit does in time.
    """
    if as_json and as_csv:
        raise refused("trace-both")
    refuse_without(context, inside, "--model")
    if inside and (response := response_of(context)):
        _print_response(response, names_of(columns), as_json=as_json, as_csv=as_csv)
        return
    run = run_of(name, with_, operands)
    shown: Trace | Moment = run
    if inside:
        shown = moment_of(context, run)
    else:
        warn_of_gating(run)
    chosen = names_of(columns)
    if as_json:
        print(shown.json(chosen))
    elif as_csv:
        exactly(shown.csv(chosen), Message("printed-table"))
    else:
        print(shown.text(chosen))
        if not inside:
            print(result(run))


def _print_response(
    found: Response, chosen: Sequence[str] | None, *, as_json: bool, as_csv: bool
) -> None:
    from edgewise import response

    if as_csv:
        exactly(response.csv(found, chosen), Message("printed-table"))
    else:
        print((response.json if as_json else response.text)(found, chosen))


def warn_of_gating(run: Trace) -> None:
    """Tell, beside the output, where the run disturbs a gated clock."""
    from edgewise.engines import gating

    for found in gating.disturbed(run):
        print(Message("warning", told=gating.warning(found)), file=sys.stderr)


def result(run: Trace) -> str:
    """What the design was to compute, and what it gave, a line for each output."""
    expected = run.design.expected(run.operands)
    lines = [""]
    for purpose in run.design.computes:
        row = run.edges if purpose.after is None else purpose.after
        word = run.word(purpose.output, row)
        what = Message("result-after", output=purpose.output, row=row) if row else purpose.output
        value = expected[purpose.output]
        bits = str(word)
        read = Message("bracketed", what=bits, told=word.value) if word.readable else bits
        right = run.design.read(purpose.output, word) == value
        told = "result-right" if right else "result-wrong"
        lines.append(str(Message(told, what=what, read=read, expected=value)))
    return "\n".join(lines) if len(lines) > 1 else ""


def _refuse_inside(
    context: typer.Context, figure: str, inside: str, response: Response | None
) -> None:
    """What --inside can't be given with, and what can't be given without it."""
    from edgewise.views import registry

    refuse_without(context, inside)
    if not inside or response:
        return
    if figure in registry.NAMES and figure != "timing":
        raise refused("inside-figure", figure=figure)
    refuse_idle(context, Message("idle-inside-rows"), "--rows")


@app.command(
    epilog=examples(
        "draw serial-adder --operands a=22,b=43 --after 8 -o adder.svg",
        "draw serial-adder --operands a=22,b=43 --figure filmstrip --rows 6..9 -o strip.pdf",
        "draw ripple-carry-adder --operands a=9,b=6,carry_in=1 --open 'FA(0)' -o row.png",
        "draw ripple-carry-adder --operands a=9,b=6,carry_in=1 --path -o path.svg",
        "draw johnson-counter --with n=4 --figure states -o states.svg",
        "draw brent-kung-adder --operands a=22,b=43 --width 85mm -o column.pdf",
        "draw serial-adder --operands a=22,b=43 --figure timing --inside 8..9 --model 74hc",
        "draw latch.yaml --figure timing --inside 0 --model 74hc",
    )
)
def draw(  # noqa: PLR0913, PLR0917  each is an option of its own
    context: typer.Context,
    name: Name,
    out: Annotated[
        Path | None,
        typer.Option(
            "-o",
            "--out",
            metavar="FILE",
            help="Ends in .svg, .png, .pdf or .eps; else DESIGN-FIGURE.svg.",
        ),
    ] = None,
    with_: With = "",
    operands: Operands = "",
    figure: Annotated[
        str, typer.Option(help="diagram, timing, table, filmstrip or states.")
    ] = "diagram",
    after: Annotated[
        int | None,
        typer.Option(metavar="K", help="Diagram: the row, the last unless given; states: whose."),
    ] = None,
    rows: Annotated[
        str, typer.Option(metavar="6..12", help="Other figures: the rows; all unless given.")
    ] = "",
    columns: Annotated[
        str, typer.Option(metavar="A,C,S", help="Timing and table: the nets and words.")
    ] = "",
    open_: Annotated[
        str, typer.Option("--open", metavar="FA,…", help="Parts to show from inside.")
    ] = "",
    clock: Annotated[str, typer.Option(help="wedge, hidden or wires.")] = "wedge",
    symbols: Annotated[str, typer.Option(help="distinctive or rectangular.")] = "distinctive",
    legend: Annotated[bool, typer.Option("--legend", help="Add what the fills mean.")] = False,
    path: Annotated[
        bool, typer.Option("--path", help="Diagram: mark the critical path, and list it.")
    ] = False,
    model: Annotated[
        str,
        typer.Option(
            metavar="MODEL",
            help="--path, --inside: gate-count, unit-gate, cmos, 74hc, 74hc-worst, or another"
            " package's.",
        ),
    ] = "unit-gate",
    scale: Annotated[
        float | None,
        typer.Option(help="PNG: pixels for each px; 2 unless given, less for a very large figure."),
    ] = None,
    text: Annotated[
        bool, typer.Option("--text", help="SVG: keep text, which needs the typefaces to be read.")
    ] = False,
    width: Annotated[
        str,
        typer.Option(
            metavar="WIDTH",
            help="85mm, 17cm, slide or phone: laid out for it, no letters under 6 pt in print.",
        ),
    ] = "",
    inside: Inside = "",
    period: Period = "",
    pulses: Pulses = "inertial",
    spread: Spread = 0,
    seed: Seed = 1,
    when: When = "",
    late: Late = "",
    outcome: Outcome = "X",
    resolve: Resolve = "",
    before: Before = "",
    waveforms: Waveforms = "",
    until: Until = "",
) -> None:
    """Draw a figure of a run: block diagram, timing diagram, edge table, filmstrip, state diagram.

    A block diagram without operands shows the circuit at its start, its inputs unknown; a state
    diagram needs none unless a row is marked, --after K. A timing diagram with --inside shows what
    happens between two edges, to scale; with waveforms and --inside 0, all that happens in time,
    and a block diagram how it then stands.
    """
    from edgewise.views import registry
    from edgewise.views.drawing import column, export

    _refuse_idle(context, figure, clock, out, timed=path or bool(inside))
    response = drawn_of(context)
    _refuse_inside(context, figure, inside, response)
    opened, chosen = names_of(open_) or (), names_of(columns)
    wish = registry.Wish(after, rows_of(rows), chosen, opened, clock, symbols, legend)
    place = column.column(width) if width else None
    if place:
        wish = replace(wish, room=place.room)
    registry.check(figure, wish)
    out = out or Path(f"{Path(name).stem}-{figure}.svg")
    if response:
        run, wish = in_time(response, figure, wish)
    elif figure in ("diagram", "states") and not operands and after is None:
        from edgewise.engines.reference import at_rest

        run = at_rest(blueprint_of(name).design(numbers(with_, "--with")))
    else:
        run = run_of(name, with_, operands)
        if not inside:
            warn_of_gating(run)
    if figure == "states":
        from edgewise.engines.state_space import graph

        wish = replace(wish, graph=graph(run.design))
    found = _critical(run, model) if path else None
    true = _true(run, model) if path else None
    if found:
        wish = replace(wish, path=found.marks)
    if inside and response is None:
        wish = replace(wish, inside=moment_of(context, run))
    drawing = registry.figure(run, figure, wish)
    export.write(drawing, out, scale=scale, text=text, column=place)
    if found:
        print(found.text())
        for sentence in true.sentences() if true else ():
            print(sentence)
        print()
    print(out)


_IDLE: Final = {
    "diagram": ("--rows", "--columns"),
    "timing": ("--after", "--open", "--symbols", "--path"),
    "table": ("--after", "--open", "--symbols", "--path", "--clock"),
    "filmstrip": ("--after", "--columns", "--path"),
    "states": ("--rows", "--columns", "--open", "--clock", "--symbols", "--legend", "--path"),
}
"""What each figure has no use for."""


def _refuse_idle(
    context: typer.Context, figure: str, clock: str, out: Path | None, *, timed: bool
) -> None:
    """Refuse what has no effect in the figure asked for, or in its format."""
    if figure in _IDLE:
        refuse_idle(context, Message("idle-figure", figure=figure), *_IDLE[figure])
    if figure == "timing" and clock == "wires":
        raise refused("draw-clock")
    if not timed:
        refuse_idle(context, Message("idle-path-or-inside"), "--model")
    from edgewise.views.drawing.export import SUFFIXES

    suffix = out.suffix.lower() if out else ".svg"
    if suffix in SUFFIXES and suffix != ".png":
        refuse_idle(context, Message("idle-scale", suffix=suffix[1:]), "--scale")
    if suffix in SUFFIXES and suffix != ".svg":
        refuse_idle(context, Message("idle-text", suffix=suffix[1:]), "--text")


def _true(run: Trace, model: str) -> TrueDelay:
    from edgewise.study.cost import models, true_delay

    return true_delay.of(run.design, models.technology(model))


def _critical(run: Trace, model: str) -> CriticalPath:
    from edgewise.study.cost import critical_path, models

    return critical_path.longest(run.design.netlist, models.technology(model))
