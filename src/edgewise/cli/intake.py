"""The command that takes in what comes from outside: import."""

from __future__ import annotations

import json
import sys
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any, Final

import typer

from edgewise.cli.options import (
    Json,
    app,
    examples,
    print_table,
    refuse_file,
    refuse_idle,
    refused,
)
from edgewise.errors import EdgewiseError, Message, Place, raise_all
from edgewise.listing import clauses

if TYPE_CHECKING:
    from edgewise.publish.qti.item import Item
    from edgewise.publish.qti.package import Package

PACKAGE: Final = ".zip"
"""How packages of questions end."""
_FOLDER: Final = Path("build")
"""Where a package is written again, unless -o says otherwise."""


@app.command(
    "import",
    epilog=examples(
        "import lab.vhd --top serial_adder -o serial-adder.yaml",
        "import build/three-gauges-paper-qti-3.0.zip --paper examples/three-gauges-paper.md",
        "import exam-qti-2.1.zip --qti 3.0 -o build",
    ),
)
def import_(  # noqa: PLR0913, PLR0917  # each is an option of its own
    context: typer.Context,
    file: Annotated[
        Path,
        typer.Argument(
            metavar="FILE",
            help="SystemVerilog .sv, Verilog .v, VHDL .vhd; or a package of questions, .zip.",
        ),
    ],
    top: Annotated[
        str,
        typer.Option("--top", metavar="NAME", help="A description's outermost module or entity."),
    ] = "",
    paper: Annotated[
        Path | None,
        typer.Option("--paper", metavar="PAPER", help="Hold a package against this file."),
    ] = None,
    qti: Annotated[
        str, typer.Option(metavar="VERSION", help="Write a package again, as 2.1 or 3.0.")
    ] = "",
    out: Annotated[
        Path | None,
        typer.Option(
            "-o",
            "--out",
            metavar="OUT",
            help="The circuit text, else it is printed; or the folder for a package, else build.",
        ),
    ] = None,
    as_json: Json = False,
) -> None:
    """Take in a file by its kind: a hardware description becomes circuit text.

    A package of questions for course platforms is read back: whether it was changed, whether its
    questions are still as the paper makes them.
    """
    from edgewise.hdl.sources import SUFFIXES

    suffix = file.suffix.lower()
    if suffix == PACKAGE:
        refuse_idle(context, Message("idle-package"), "--top")
        if not qti:
            refuse_idle(context, Message("idle-without", option="--qti"), "--out")
        _package(file, paper, qti, out or _FOLDER, as_json=as_json)
    elif suffix in SUFFIXES:
        refuse_idle(context, Message("idle-description"), "--paper", "--qti", "--json")
        _description(file, top, out)
    else:
        known = ", ".join(SUFFIXES)
        raise refused("import-kind", file=str(file), known=known, package=PACKAGE)


def _description(file: Path, top: str, out: Path | None) -> None:
    """Print or write the circuit text of a hardware description."""
    from edgewise import designtext, files
    from edgewise.hdl.reading import read
    from edgewise.lab import export
    from edgewise.shelf import read_file

    found = read(read_file(file, str(file)), str(file), top)
    for note in found.notes:
        told = Message("note-at", place=str(note.place or file), told=note.sentence)
        print(told, file=sys.stderr)
    about = str(clauses(note.sentence for note in found.notes))
    text = designtext.text(found.design(file.stem).check(), about)
    if out is None:
        print(text, end="")
        return
    files.check_suffix(out, (".yaml", ".yml"), Message("written-circuit"))
    for path in export.write({out: text}):
        print(path)


def _package(package: Path, paper: Path | None, qti: str, out: Path, *, as_json: bool) -> None:
    """Tell what is in a package of questions, and write it again if that is wanted."""
    from edgewise.practice.paper import read_paper
    from edgewise.publish import output
    from edgewise.publish import papers as publisher
    from edgewise.publish.qti import against
    from edgewise.publish.qti import package as packages

    refuse_file(out, "import-file", "exam")
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
        print(json.dumps(_data(found, written), indent=1))
        return
    heads = tuple(str(Message(f"package-{head}")) for head in ("item", "marks", "asks"))
    print_table([heads, *map(_line, found.items)])
    print()
    state = "unchanged" if found.unchanged else "changed"
    print(Message("package-told", count=len(found.items), version=found.version, state=state))
    if paper:
        print(Message("package-of-paper"))
    for path in written:
        print(path)


def _line(one: Item) -> tuple[str, str, str]:
    message, asked = ("choices", one.choices) if one.choices else ("fields", one.fields)
    asks = Message(f"package-{message}", count=len(asked))
    return one.identifier, str(one.marks), str(asks)


def _data(found: Package, written: list[Path]) -> dict[str, Any]:
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
