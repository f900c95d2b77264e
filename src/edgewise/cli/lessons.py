"""Commands for lessons: new, check, build, watch."""

from __future__ import annotations

import json
import sys
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, TypeVar

import typer

from edgewise.cli.options import (
    Json,
    Operands,
    With,
    app,
    assignments,
    blueprint_of,
    examples,
    language_of,
    numbers,
    refuse_file,
    refuse_idle,
    refused,
)
from edgewise.errors import EdgewiseError, Message, raise_all

if TYPE_CHECKING:
    from edgewise.lesson import Report
    from edgewise.lesson.picking import Note

Made = TypeVar("Made")


@app.command(epilog=examples("check examples/rain-gauges.md"))
def check(
    lessons: Annotated[list[Path], typer.Argument(metavar="LESSON…", help="Lesson files.")],
    as_json: Json = False,
) -> None:
    """Check lessons: every value, table and claim in them; nothing is written."""
    from edgewise import lesson

    def checked(path: Path) -> Report:
        report = lesson.check(path)
        for note in report.notes:
            _tell(note)
        return report

    reports = _each(lessons, checked)
    if as_json:
        print(json.dumps([report.data() for _, report in reports], indent=1))
    else:
        for path, report in reports:
            print(Message("within", what=str(path), told=str(report)))


@app.command(
    epilog=examples(
        "new tide-hut --design serial-adder",
        "new lessons/total --design my-adder.yaml",
        "new pegel --language de",
    )
)
def new(
    name: Annotated[Path, typer.Argument(metavar="NAME", help="The lesson file; .md is added.")],
    design: Annotated[
        str, typer.Option(metavar="DESIGN", help="A catalogue name, or a circuit file beside.")
    ] = "serial-adder",
    with_: With = "",
    operands: Operands = "",
    language: Annotated[str, typer.Option(metavar="de", help="The language of the lesson.")] = "en",
) -> None:
    """Write a first lesson: it builds as it stands, and shows its own format by example."""
    from edgewise.lesson import scaffold
    from edgewise.words import messages

    words = messages.of(language_of(language))
    given = numbers(with_, "--with"), assignments(operands, "--operands")
    path = scaffold.write(name, blueprint_of(design), design, *given, words)
    print(f"{path}\n{Message('new-next', lesson=str(path))}")


@app.command(
    epilog=examples(
        "build examples/rain-gauges.md -o pages",
        "build examples/rain-gauges.md --handout --blanks --paper letter",
        "build examples/rain-gauges.md --slides --shape 4:3",
        "build examples/rain-gauges.md --as page",
    )
)
def build(  # noqa: PLR0913, PLR0917  # each is an option of its own
    context: typer.Context,
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
    slides: Annotated[
        bool,
        typer.Option("--slides", help="A presentation (PPTX) and its PDF in place of the page."),
    ] = False,
    shape: Annotated[str, typer.Option(metavar="16:9", help="Slides: 16:9 or 4:3.")] = "16:9",
    show: Annotated[
        str, typer.Option(metavar="WHAT", help="Slides: each step shows diagram, table or timing.")
    ] = "diagram",
    template: Annotated[
        Path | None,
        typer.Option(metavar="PPTX", help="Slides: a presentation of yours, for its look."),
    ] = None,
    as_: Annotated[
        str,
        typer.Option(
            "--as", metavar="FORMAT", help="page, handout, slides, or a format of another package."
        ),
    ] = "",
) -> None:
    """Build lessons into pages; a lesson with a false claim or an error is not written."""
    from edgewise.progress import Progress
    from edgewise.publish import formats
    from edgewise.publish.html import page

    wanted = [*["handout"] * handout, *["slides"] * slides, *[as_] * bool(as_)]
    if len(wanted) > 1:
        raise refused("build-two-formats")
    chosen = formats.find([*wanted, "page"][0]).name
    _refuse_idle_slides(context, chosen, template)
    if chosen != "handout":
        refuse_idle(context, Message("idle-page"), "--paper", "--blanks")
    lessons = _apart(lessons, out)

    def made(path: Path) -> tuple[Path, ...]:
        if chosen == "slides":
            from edgewise.publish.slides import build as decks

            manner = decks.Manner(shape, decks.shown(show), template)
            told: list[Note] = []  # when the bar has gone
            with Progress("slides") as progress:
                files = decks.build(path, out, told.append, manner, progress)
            for note in told:
                _tell(note)
            return files
        if chosen not in ("page", "handout"):
            return (formats.build(path, out, chosen, _tell),)
        if chosen == "page":
            notes: list[Note] = []  # told when the bar has gone
            with Progress("figures") as progress:
                written = page.build(path, out, notes.append, progress)
            for note in notes:
                _tell(note)
            return (written,)
        from edgewise.publish.handout import build as sheets

        return sheets.build(path, out, _tell, paper=paper, blanks=blanks)

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


def _refuse_idle_slides(context: typer.Context, chosen: str, template: Path | None) -> None:
    if chosen != "slides":
        refuse_idle(
            context, Message("idle-without", option="--slides"), "--shape", "--show", "--template"
        )
    elif template is not None:
        refuse_idle(context, Message("idle-template"), "--shape")


def _apart(lessons: list[Path], out: Path) -> list[Path]:
    """The lessons, each once; what is built from one must not take the place of another's."""
    refuse_file(out, "build-file", "pages")
    once = list({path.resolve(): path for path in reversed(lessons)}.values())[::-1]
    first: dict[str, Path] = {}
    errors: list[EdgewiseError] = []
    for path in once:
        other = first.setdefault(path.stem, path)
        if other is not path:
            errors.append(refused("build-same", path=str(path), other=str(other), out=str(out)))
    raise_all(errors)
    return once


def _tell(note: Note) -> None:
    print(note, file=sys.stderr)


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
