"""The commands. No logic: each reads its arguments, calls one room, prints the answer."""

from __future__ import annotations

import json
import os
import shutil
import sys
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, TypeVar

import typer

from edgewise.errors import EdgewiseError, TextError, raise_all

if TYPE_CHECKING:
    from edgewise.blueprint import Blueprint
    from edgewise.trace import Trace

Made = TypeVar("Made")

app = typer.Typer(
    add_completion=False,
    rich_markup_mode=None,
    pretty_exceptions_enable=False,
    no_args_is_help=True,
    help="Clocked arithmetic circuits, computed edge by edge, made into checked lessons.",
    epilog="edgewise COMMAND --help shows the options and examples of a command.",
)

Name = Annotated[
    str, typer.Argument(metavar="DESIGN", help="A catalogue name, or the path of a circuit file.")
]
With = Annotated[
    str, typer.Option("--with", metavar="n=6,…", help="Parameters; defaults for the rest.")
]
Operands = Annotated[
    str,
    typer.Option(
        "--operands", metavar="a=22,b=43", help="The run's numbers; a family as w=[5,9,3]."
    ),
]
Json = Annotated[bool, typer.Option("--json", help="Print JSON for a program to read.")]


def examples(*lines: str) -> str:
    """The examples under a command's help, one a line."""
    return "\b\nExamples:\n" + "\n".join(f"  edgewise {line}" for line in lines)


def main() -> None:
    """Run the command line: exit code 0, 1 (a claim is false) or 2 (bad input)."""
    try:
        code = app(standalone_mode=False)
    except EdgewiseError as wrong:
        for single in wrong.parts():
            print(single, file=sys.stderr)
        code = wrong.exit_code
    except (KeyboardInterrupt, typer.Abort):
        code = 130
    except BrokenPipeError:  # the reader, such as head, has gone
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        code = 0
    except Exception as wrong:
        if not hasattr(wrong, "exit_code") or not hasattr(wrong, "show"):
            raise
        wrong.show()  # a usage error of the command line itself
        code = wrong.exit_code
    sys.exit(code)


def blueprint_of(name: str) -> Blueprint:
    """The design a command was given: a circuit file, or a name of the catalogue."""
    if name.endswith((".yaml", ".yml")) or os.sep in name:
        from edgewise import blueprint

        return blueprint.from_file(Path(name))
    from edgewise import catalogue

    return catalogue.find(name)


def numbers(text: str, option: str) -> dict[str, int]:
    """Read ``n=6,x=2``."""
    found: dict[str, int] = {}
    for name, value in assignments(text, option).items():
        if not isinstance(value, int):
            raise TextError(f"{option}: {name} is one number, not a list")
        found[name] = value
    return found


def assignments(text: str, option: str) -> dict[str, int | list[int]]:
    """Read ``a=22,b=43`` or ``w=[5,9,3]``; numbers may be written 0b1101.

    Examples
    --------
    >>> assignments("a=22,w=[5,0b11]", "--operands")
    {'a': 22, 'w': [5, 3]}
    """
    import re

    found: dict[str, int | list[int]] = {}
    for item in re.split(r",(?![^\[]*\])", text) if text.strip() else ():
        name, equals, value = (piece.strip() for piece in item.partition("="))
        listed = value.startswith("[") and value.endswith("]")
        values: list[int] = []
        try:
            values = [int(v, 0) for v in (value[1:-1].split(",") if listed else [value])]
        except ValueError:
            equals = ""
        if not equals or not name:
            raise TextError(
                f"{option}: found {item.strip()!r}; expected NAME=NUMBER, as in a=22,b=43"
                " or w=[5,9,3]"
            )
        if name in found:
            raise TextError(f"{option}: {name} is given twice")
        found[name] = values if listed else values[0]
    return found


def run_of(name: str, with_: str, operands: str) -> Trace:
    """The run that a command was asked for."""
    from edgewise.engines import reference

    design = blueprint_of(name).design(numbers(with_, "--with"))
    return reference.run(design, design.values(assignments(operands, "--operands")))


def terminal_width() -> int:
    """Columns to write in."""
    return max(60, min(shutil.get_terminal_size().columns, 110))


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
    )
)
def show(
    name: Name,
    with_: With = "",
    as_json: Json = False,
    as_text: Annotated[
        bool, typer.Option("--text", help="Print it as circuit text, to start one's own from.")
    ] = False,
) -> None:
    """Show what a design is: parameters, parts, procedure, what it computes, its size."""
    from edgewise import catalogue, designtext, sheet

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
    )
)
def draw(  # noqa: PLR0913, PLR0917  each is an option of its own
    name: Name,
    out: Annotated[
        Path, typer.Option("-o", "--out", metavar="FILE", help="Ends in .svg, .png or .pdf.")
    ],
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
    scale: Annotated[float, typer.Option(help="PNG: pixels for each px of the figure.")] = 2.0,
    outlined: Annotated[
        bool, typer.Option("--outlined", help="SVG: text as outlines of its letters.")
    ] = False,
) -> None:
    """Draw a figure of a run: block diagram, timing diagram, edge table, or filmstrip."""
    from edgewise.views import render
    from edgewise.views.figures import Wish
    from edgewise.views.figures import figure as drawn

    wish = Wish(
        after,
        rows_of(rows),
        names_of(columns),
        names_of(open_) or (),
        clock,
        symbols,
        legend,
    )
    run = run_of(name, with_, operands)
    render.write(drawn(run, figure, wish), out, scale=scale, outlined=outlined)
    print(out)


def names_of(text: str) -> list[str] | None:
    """Read ``A,C,S``; nothing for an empty text."""
    return [name.strip() for name in text.split(",")] if text.strip() else None


def rows_of(text: str) -> list[int] | None:
    """Read ``6..12`` or ``0,6,12``; nothing for an empty text.

    Examples
    --------
    >>> rows_of("2..4"), rows_of("0,6")
    ([2, 3, 4], [0, 6])
    """
    if not text.strip():
        return None
    rows: list[int] = []
    for piece in text.split(","):
        first, dots, last = piece.strip().partition("..")
        if not (first.isdecimal() and (last.isdecimal() or not dots)):
            raise TextError(f"--rows: found {piece.strip()!r}; expected 6..12 or 0,6,12")
        rows += range(int(first), int(last or first) + 1)
    return rows


@app.command(epilog=examples("check examples/rain-gauges.md"))
def check(
    lessons: Annotated[list[Path], typer.Argument(metavar="LESSON…", help="Lesson files.")],
    as_json: Json = False,
) -> None:
    """Check lessons: every value, table and claim in them; nothing is written."""
    from edgewise import lesson

    reports = _each(lessons, lesson.check)
    if as_json:
        print(json.dumps([report.data() for _, report in reports], indent=1))
    else:
        for path, report in reports:
            print(f"{path}: {report}")


@app.command(
    epilog=examples("new tide-hut --design serial-adder", "new lessons/total --design my-adder.yaml")
)
def new(
    name: Annotated[Path, typer.Argument(metavar="NAME", help="The lesson file; .md is added.")],
    design: Annotated[
        str, typer.Option(metavar="DESIGN", help="A catalogue name, or a circuit file beside.")
    ] = "serial-adder",
    with_: With = "",
    operands: Operands = "",
) -> None:
    """Write a first lesson: it builds as it stands, and shows its own format by example."""
    from edgewise.lesson import scaffold

    given = numbers(with_, "--with"), assignments(operands, "--operands")
    path = scaffold.write(name, blueprint_of(design), design, *given)
    print(f"{path}\nNow open it in an editor, and in another window: edgewise watch {path}")


@app.command(
    epilog=examples(
        "build examples/rain-gauges.md -o pages",
        "build examples/rain-gauges.md --handout --blanks --paper letter",
    )
)
def build(  # noqa: PLR0913  each is an option of its own
    lessons: Annotated[list[Path], typer.Argument(metavar="LESSON…", help="Lesson files.")],
    out: Annotated[
        Path, typer.Option("-o", "--out", metavar="DIR", help="Folder for what is built.")
    ] = Path("build"),
    handout: Annotated[
        bool, typer.Option("--handout", help="A PDF to print in place of the page.")
    ] = False,
    paper: Annotated[str, typer.Option(help="Handout: a4 or letter.")] = "a4",
    blanks: Annotated[
        bool, typer.Option("--blanks", help="Handout: values to fill in, and an answer sheet.")
    ] = False,
) -> None:
    """Build lessons into pages; a lesson with a false claim or an error is not written."""
    from edgewise.publish import page

    def made(path: Path) -> tuple[Path, ...]:
        if not handout:
            return (page.build(path, out),)
        from edgewise.publish import handout as sheets

        return sheets.build(path, out, paper=paper, blanks=blanks)

    for path, written in _each(lessons, made):
        print(f"{path} -> {', '.join(map(str, written))}")


@app.command(epilog=examples("watch examples/rain-gauges.md", "watch tide-hut.md --port 8123"))
def watch(
    lesson: Annotated[Path, typer.Argument(metavar="LESSON", help="The lesson file.")],
    port: Annotated[
        int, typer.Option(min=0, max=65535, help="Port on this machine; 0: any that is free.")
    ] = 0,
    opened: Annotated[
        bool, typer.Option("--open/--no-open", help="Open the page in the browser.")
    ] = True,
) -> None:
    """Show a lesson in the browser and keep it up to date while you write; end with Ctrl-C."""
    from edgewise import serve

    serve.watch(lesson, port, opened=opened, tell=print)


@app.command(
    epilog=examples(
        "prove serial-accumulator",
        "prove serial-accumulator --with n=6,m=4",
        'prove serial-adder --with n=16 --claim "S after 31 == (a + b) mod 2**n"',
        "prove serial-adder --with n=64 --against ripple-carry-adder --operands carry_in=0",
    )
)
def prove(  # noqa: PLR0913, PLR0917  # each is an option of its own
    name: Name,
    with_: With = "",
    claim: Annotated[
        str, typer.Option(metavar="CLAIM", help="What is claimed; else, what it computes.")
    ] = "",
    against: Annotated[
        str, typer.Option(metavar="OTHER", help="A design that is to give the same answers.")
    ] = "",
    operands: Annotated[
        str, typer.Option(metavar="a=22,…", help="Operands that keep one value.")
    ] = "",
    limit: Annotated[
        float, typer.Option(metavar="SECONDS", min=0, help="Time for proofs.")
    ] = 20,
    draw: Annotated[
        Path | None,
        typer.Option(metavar="FILE", help="If false, a figure of the row where it goes wrong."),
    ] = None,
    as_json: Json = False,
) -> None:
    """Settle for all operands whether a design is right, or a claim about it true.

    Exit code 0: true; 1: false, or undecided when the time was up; 2: bad input.
    """
    from edgewise.progress import Progress
    from edgewise.study import proving

    with Progress("operand sets") as progress:
        finding = proving.prove(
            blueprint_of(name),
            numbers(with_, "--with"),
            claim or None,
            blueprint_of(against) if against else None,
            assignments(operands, "--operands"),
            limit=limit,
            progress=progress,
        )
    print(json.dumps(finding.data(), indent=1) if as_json else finding.text())
    if draw is not None and finding.trace is not None:
        from edgewise.views.diagram import diagram
        from edgewise.views.render import write

        write(diagram(finding.trace, after=finding.row), draw)
    if not finding.holds:
        raise typer.Exit(1)


@app.command(
    epilog=examples(
        "law serial-accumulator edges --over n=1..32,x=2..16",
        "law ripple-carry-adder depth --over n=1..24 --table",
    )
)
def law(
    name: Name,
    count: Annotated[
        str, typer.Argument(metavar="COUNT", help="edges, gates, flip-flops or depth.")
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
    from edgewise.study import laws

    grid = spans(over, "--over")
    with Progress("designs") as progress:
        found = laws.find(blueprint_of(name), count, grid, numbers(with_, "--with"), progress)
    if as_json:
        print(json.dumps(found.data(), indent=1))
        return
    print(found)
    if table or not found.text:
        print(f"\n{found.text_table()}")


def spans(text: str, option: str) -> dict[str, tuple[int, int]]:
    """Read ``n=1..32,x=2..16``.

    Examples
    --------
    >>> spans("n=1..32, x=2..16", "--over")
    {'n': (1, 32), 'x': (2, 16)}
    """
    import re

    found: dict[str, tuple[int, int]] = {}
    for item in text.split(",") if text.strip() else ():
        read = re.fullmatch(r"\s*(\w+)\s*=\s*(\d+)\s*\.\.\s*(\d+)\s*", item)
        if not read:
            raise TextError(
                f"{option}: found {item.strip()!r}; expected NAME=LOW..HIGH, as in n=1..32,x=2..16"
            )
        if read[1] in found:
            raise TextError(f"{option}: {read[1]} is given twice")
        found[read[1]] = (int(read[2]), int(read[3]))
    return found


def _each(paths: list[Path], action: Callable[[Path], Made]) -> Iterator[tuple[Path, Made]]:
    """Do it for every lesson, also after one has failed; then raise all that went wrong."""
    errors: list[EdgewiseError] = []
    for path in paths:
        try:
            made = action(path)
        except EdgewiseError as wrong:
            errors.append(wrong)
        else:
            yield path, made
    raise_all(errors)
