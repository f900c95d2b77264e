"""The command that makes papers: paper."""

from __future__ import annotations

import json
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

import typer

from edgewise.cli.options import Json, app, examples, print_sentences, refuse_file
from edgewise.errors import Message

if TYPE_CHECKING:
    from edgewise.practice.paper import Papers


@app.command(
    epilog=examples(
        "paper examples/three-gauges-paper.md --variants 30 --seed 5",
        "paper examples/three-gauges-paper.md --variants 25 -o exam --paper letter --qti 3.0",
    )
)
def paper(  # noqa: PLR0913, PLR0917  # the options of a command
    questions: Annotated[
        Path, typer.Argument(metavar="PAPER", help="A Markdown file of questions.")
    ],
    variants: Annotated[int, typer.Option(min=1, max=1000, help="How many papers.")] = 1,
    seed: Annotated[
        int, typer.Option(min=0, max=999_999_999, help="The same seed, the same papers.")
    ] = 1,
    out: Annotated[
        Path, typer.Option("-o", "--out", metavar="DIR", help="Folder for what is built.")
    ] = Path("build"),
    sheet: Annotated[str, typer.Option("--paper", help="a4 or letter.")] = "a4",
    qti: Annotated[
        str,
        typer.Option(metavar="VERSION", help="A package for course platforms too: 2.1 or 3.0."),
    ] = "",
    as_json: Json = False,
) -> None:
    """Make equally hard papers from a file of questions, with key and worked solutions."""
    from edgewise.practice.paper import read_paper
    from edgewise.progress import Progress
    from edgewise.publish import papers as publisher
    from edgewise.publish.qti import item

    refuse_file(out, "paper-file", "exam")
    with Progress("files") as progress:
        made = read_paper(questions).variants(variants, seed)
        written = publisher.build(made, out, paper=sheet, qti=qti, progress=progress)
    if as_json:
        print(json.dumps(_data(made, written), indent=1))
        return
    print_sentences(made.sentences())
    if qti and (left := item.items(made.variants[0])[1]):
        print(Message("paper-unpacked", questions=", ".join(left)))
    for path in written:
        print(path)


def _data(made: Papers, written: tuple[Path, ...]) -> dict[str, Any]:
    return {**made.data(), "files": [str(path) for path in written]}
