"""Commands that show designs and their runs: list, show, trace, draw."""

from __future__ import annotations

import json
import sys
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

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
    rows_of,
    run_of,
    terminal_width,
)
from edgewise.errors import TextError

if TYPE_CHECKING:
    from edgewise.study.paths import Path as LongestPath
    from edgewise.trace import Trace


@app.command("list", epilog=examples("list", "list --json"))
def list_(as_json: Json = False) -> None:
    """List the designs of the catalogue."""
    import textwrap

    from edgewise import catalogue

    entries = [catalogue.find(name) for name in catalogue.ORDER]
    if as_json:
        print(
            json.dumps(
                [{"design": e.name, "title": e.title, "about": e.about} for e in entries], indent=1
            )
        )
        return
    left = max(len(entry.name) for entry in entries) + 2
    for entry in entries:
        lines = textwrap.wrap(entry.about, terminal_width() - left)
        print(f"{entry.name.ljust(left)}{lines[0]}")
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
def show(
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

    if coverage or operands:
        _show_coverage(run_of(name, with_, operands), as_json=as_json)
        return
    blueprint = blueprint_of(name)
    design = blueprint.design(numbers(with_, "--with"))
    if as_text:
        as_written = catalogue.text(name) if name in catalogue.ORDER and not with_ else None
        told = as_written or designtext.text(design, blueprint.about, blueprint.source)
        sys.stdout.write(told)
    elif as_json:
        print(json.dumps(sheet.data(blueprint, design), indent=1))
    else:
        print(sheet.text(blueprint, design, terminal_width()))


def _show_coverage(run: Trace, *, as_json: bool) -> None:
    from edgewise.study import coverage

    found = coverage.of(run)
    if as_json:
        print(json.dumps(found.data(), indent=1))
        return
    print_table(found.table())
    print()
    print_sentences(found.sentences())


@app.command(
    epilog=examples(
        "trace serial-adder --operands a=22,b=43",
        "trace serial-adder --with n=4 --operands a=9,b=6 --columns A,C,S --csv",
    )
)
def trace(
    name: Name,
    with_: With = "",
    operands: Operands = "",
    columns: Annotated[str, typer.Option(metavar="A,C,S", help="The nets and words to show.")] = "",
    as_json: Json = False,
    as_csv: Annotated[bool, typer.Option("--csv", help="Print comma-separated values.")] = False,
) -> None:
    """Compute a run: what every register and net holds after every clock edge."""
    if as_json and as_csv:
        raise TextError("give --json or --csv, not both")
    run = run_of(name, with_, operands)
    chosen = names_of(columns)
    if as_json:
        print(run.json(chosen))
    elif as_csv:
        sys.stdout.write(run.csv(chosen))
    else:
        print(run.text(chosen))
        print(outcome(run))


def outcome(run: Trace) -> str:
    """What the design was to compute, and what it gave, a line for each output."""
    expected = run.design.expected(run.operands)
    lines = [""]
    for purpose in run.design.computes:
        row = run.edges if purpose.after is None else purpose.after
        word = run.word(purpose.output, row)
        when = f" after edge {row}" if row else ""
        value = expected[purpose.output]
        if word.known and word.value == value:
            lines.append(f"{purpose.output}{when}: {word} ({word.value}), as it should be")
        else:
            read = f"{word} ({word.value})" if word.known else str(word)
            lines.append(f"{purpose.output}{when}: {read}, but it should be {value}")
    return "\n".join(lines) if len(lines) > 1 else ""


@app.command(
    epilog=examples(
        "draw serial-adder --operands a=22,b=43 --after 8 -o adder.svg",
        "draw serial-adder --operands a=22,b=43 --figure filmstrip --rows 6..9 -o strip.pdf",
        "draw ripple-carry-adder --operands a=9,b=6,carry_in=1 --open 'FA(0)' -o row.png",
        "draw ripple-carry-adder --operands a=9,b=6,carry_in=1 --path -o path.svg",
    )
)
def draw(  # noqa: PLR0913, PLR0917  each is an option of its own
    name: Name,
    out: Annotated[
        Path | None,
        typer.Option(
            "-o",
            "--out",
            metavar="FILE",
            help="Ends in .svg, .png or .pdf; else DESIGN-FIGURE.svg.",
        ),
    ] = None,
    with_: With = "",
    operands: Operands = "",
    figure: Annotated[str, typer.Option(help="diagram, timing, table or filmstrip.")] = "diagram",
    after: Annotated[
        int | None, typer.Option(metavar="K", help="Diagram: the row; the last unless given.")
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
        bool, typer.Option("--path", help="Diagram: mark the longest path, and list it.")
    ] = False,
    model: Annotated[
        str,
        typer.Option(
            metavar="MODEL", help="--path: gate-count, unit-gate, cmos, 74hc or 74hc-worst."
        ),
    ] = "unit-gate",
    scale: Annotated[float, typer.Option(help="PNG: pixels for each px of the figure.")] = 2.0,
    outlined: Annotated[
        bool, typer.Option("--outlined", help="SVG: text as outlines of its letters.")
    ] = False,
) -> None:
    """Draw a figure of a run: block diagram, timing diagram, edge table, or filmstrip.

    A block diagram without operands shows the circuit at its start, its inputs unknown.
    """
    from edgewise.views import figures, render

    opened, chosen = names_of(open_) or (), names_of(columns)
    wish = figures.Wish(after, rows_of(rows), chosen, opened, clock, symbols, legend)
    figures.check(figure, wish)
    if path and figure != "diagram":
        raise TextError(f"--path marks a diagram; leave out --figure {figure} or --path")
    out = out or Path(f"{Path(name).stem}-{figure}.svg")
    if figure == "diagram" and not operands and after is None:
        from edgewise.engines.reference import at_rest

        run = at_rest(blueprint_of(name).design(numbers(with_, "--with")))
    else:
        run = run_of(name, with_, operands)
    found = _longest(run, model) if path else None
    if found:
        wish = replace(wish, path=found.marks)
    render.write(figures.figure(run, figure, wish), out, scale=scale, outlined=outlined)
    if found:
        print(found.text(), end="\n\n")
    print(out)


def _longest(run: Trace, model: str) -> LongestPath:
    from edgewise.study import cost, paths

    return paths.longest(run.design.netlist, cost.technology(model))
