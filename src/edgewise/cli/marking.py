"""The command for answers: mark."""

from __future__ import annotations

import json
import sys
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from edgewise.cli.options import Json, app, examples, print_table, refuse_file, refuse_idle
from edgewise.errors import Message

if TYPE_CHECKING:
    from edgewise.publish.marking.build import Built, Wanted


@app.command(
    epilog=examples(
        "mark examples/three-gauges-answers.csv --paper examples/three-gauges-paper.md",
        "mark answers.xlsx --paper exam.md -o marked --table csv --no-feedback",
        "mark handed-in --paper examples/rain-gauges.md",
    )
)
def mark(  # noqa: PLR0913, PLR0917  # each is an option of its own
    context: typer.Context,
    answers: Annotated[
        Path,
        typer.Argument(metavar="ANSWERS", help="CSV, XLSX or ODS, or a folder of codes."),
    ],
    paper: Annotated[
        Path,
        typer.Option("--paper", metavar="PAPER", help="The paper, or the lesson of the page."),
    ],
    out: Annotated[
        Path, typer.Option("-o", "--out", metavar="DIR", help="Folder for what is made.")
    ] = Path("marked"),
    table: Annotated[str, typer.Option(help="The table of marks: xlsx or csv.")] = "xlsx",
    feedback: Annotated[
        bool, typer.Option("--feedback/--no-feedback", help="A sheet for each learner.")
    ] = True,
    sheets: Annotated[str, typer.Option(help="These sheets: pdf, page or both.")] = "pdf",
    each: Annotated[
        bool, typer.Option("--each", help="Each of these sheets in a file of its own.")
    ] = False,
    gradebook: Annotated[
        bool, typer.Option("--gradebook", help="The marks that count as a plain CSV, too.")
    ] = False,
    print_on: Annotated[str, typer.Option("--on", help="Feedback: a4 or letter.")] = "a4",
    workers: Annotated[int, typer.Option(metavar="N", help="Processes to diagnose in.")] = 1,
    cluster: Annotated[
        str, typer.Option(metavar="ADDRESS", help="A Dask scheduler to diagnose on.")
    ] = "",
    as_json: Json = False,
) -> None:
    """Mark a class: marks with follow-through, the idea behind errors, feedback, a report.

    A folder holds what learners copied or saved from a lesson's page, a .txt file each.

    What a marker types into the table of marks (overrule, remark, columns of their own) is kept
    when marking runs again.
    """
    from edgewise.publish.marking.build import Wanted
    from edgewise.study.cost import sweep

    if not feedback:
        refuse_idle(
            context, Message("idle-with", option="--no-feedback"), "--on", "--each", "--sheets"
        )
    if sheets == "page":
        refuse_idle(context, Message("idle-sheets-page"), "--on")
    if answers.is_dir():
        refuse_idle(context, Message("idle-folder"), "--workers", "--cluster")
    refuse_file(out, "mark-file", "marked")
    place = sweep.workplace(workers, cluster)
    wanted = Wanted(
        table,
        feedback=feedback,
        sheets=sheets,
        each=each,
        paper=print_on,
        gradebook=gradebook,
        place=place,
    )
    built = _built(answers, paper, out, wanted)
    if as_json:
        files = [str(path) for path in built.written]
        print(json.dumps({**built.report.data(), "files": files}, indent=1))
    else:
        _tell(built)
    if built.doubts:
        print(Message("mark-doubts", count=built.doubts, table=table), file=sys.stderr)
    if built.kept is not None:
        print(Message("mark-kept", path=str(built.kept)), file=sys.stderr)


def _built(answers: Path, paper: Path, out: Path, wanted: Wanted) -> Built:
    from edgewise import lesson
    from edgewise.practice.paper import read_paper
    from edgewise.progress import Progress
    from edgewise.publish.marking import build, build_attempts

    with Progress("sheets") as progress:
        if answers.is_dir():
            return build_attempts.build(answers, lesson.check(paper), out, wanted, progress)
        written = read_paper(paper)
        front = written.report.lesson.front
        of = build.Of(written, front.title, written.report.words, front.language)
        return build.build(answers, of, out, wanted, progress)


def _tell(built: Built) -> None:
    """How it went, without a name."""
    from edgewise.practice.marking.mark_sheet import idea

    found: dict[str, int] = {}
    nothing = str(Message(f"mark-no-{built.report.source}"))
    for result in built.marked.results:
        told = idea(result.diagnosis) if result.diagnosis is not None else nothing
        found[told] = found.get(told, 0) + 1
    lines = sorted(found.items(), key=lambda line: (-line[1], line[0]))
    heads = (str(Message("mark-idea")), str(Message("mark-learners")))
    print_table([heads, *((told, str(number)) for told, number in lines)])
    print()
    sheets = {path.parent for path in built.written if path.parent.name == "feedback"}
    for path in (*(path for path in built.written if path.parent not in sheets), *sheets):
        print(path)
