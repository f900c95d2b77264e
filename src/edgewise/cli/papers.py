"""Commands for papers: paper, import."""

from __future__ import annotations

import json
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

import typer

from edgewise.circuit.parts import count
from edgewise.cli.options import (
    Json,
    app,
    examples,
    print_sentences,
    print_table,
    refuse_file,
    refuse_idle,
)
from edgewise.errors import EdgewiseError, Place, raise_all

if TYPE_CHECKING:
    from edgewise.practice.paper import Papers
    from edgewise.publish.qti.item import Item
    from edgewise.publish.qti.package import Package


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
        print(f"Not in the package, since no platform can mark them: {', '.join(left)}.")
    for path in written:
        print(path)


@app.command(
    "import",
    epilog=examples(
        "import build/three-gauges-paper-qti-3.0.zip",
        "import exam-qti-2.1.zip --paper exam.md --qti 3.0 -o build",
    ),
)
def import_(  # the options of a command
    context: typer.Context,
    package: Annotated[
        Path, typer.Argument(metavar="PACKAGE", help="A package that paper --qti has written.")
    ],
    paper: Annotated[
        Path | None,
        typer.Option("--paper", metavar="PAPER", help="Hold its questions against this file."),
    ] = None,
    qti: Annotated[
        str, typer.Option(metavar="VERSION", help="Write it again, as 2.1 or 3.0.")
    ] = "",
    out: Annotated[
        Path, typer.Option("-o", "--out", metavar="DIR", help="Folder for that.")
    ] = Path("build"),
    as_json: Json = False,
) -> None:
    """Read a package of questions for course platforms back, and say whether it was changed."""
    from edgewise.practice.paper import read_paper
    from edgewise.publish import output
    from edgewise.publish import papers as publisher
    from edgewise.publish.qti import against
    from edgewise.publish.qti import package as packages

    refuse_file(out, "import-file", "exam")
    if not qti:
        refuse_idle(context, "without --qti", "--out")
    version = publisher.version_of(qti) if qti else None
    found = packages.opened(package)
    changed = tuple(against.compared(found.items, read_paper(paper))) if paper else ()
    if changed:
        raise_all(EdgewiseError(told, Place(str(package))) for told in changed)
    written = []
    if version is not None:
        name = package.stem.removesuffix(f"-qti-{found.version}")
        path = out / f"{name}-qti-{version}.zip"
        written.append(output.write(path, packages.packed(found.items, version)))
    if as_json:
        print(json.dumps(_imported(found, written), indent=1))
        return
    print_table([("item", "marks", "asks for"), *map(_line, found.items)])
    print()
    again = "they are as they were packed" if found.unchanged else "other text is around them"
    print(f"{count(len(found.items), 'item')} of QTI {found.version}; {again}.")
    if paper:
        print("All are as the paper makes them.")
    for path in written:
        print(path)


def _line(one: Item) -> tuple[str, str, str]:
    asks = count(len(one.choices), "choice") if one.choices else count(len(one.fields), "field")
    return one.identifier, str(one.marks), asks


def _imported(found: Package, written: list[Path]) -> dict[str, Any]:
    return {
        "qti": found.version,
        "unchanged": found.unchanged,
        "items": [
            {
                "identifier": one.identifier,
                "title": one.title,
                "marks": one.marks,
                "answers": {one.right: one.right} if one.choices else _answers(one),
            }
            for one in found.items
        ],
        "files": [str(path) for path in written],
    }


def _answers(one: Item) -> dict[str, list[str]]:
    return {field.label: list(field.right) for field in one.fields}


def _data(made: Papers, written: tuple[Path, ...]) -> dict[str, Any]:
    return {**made.data(), "files": [str(path) for path in written]}
