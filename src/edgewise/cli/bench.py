"""The commands for the bench: wire, capture."""

from __future__ import annotations

import json
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

import typer

from edgewise.cli.options import (
    Json,
    Name,
    Operands,
    With,
    app,
    assignments,
    blueprint_of,
    examples,
    language_of,
    numbers,
    print_sentences,
    print_table,
    refuse_idle,
    refused,
)
from edgewise.errors import Message
from edgewise.listing import either

if TYPE_CHECKING:
    from edgewise.lab.wiring.check import Checked
    from edgewise.lab.wiring.sheet import Sheet

FAMILIES = ("74hc",)
SHEETS = (".pdf", ".html")


@app.command(
    epilog=examples(
        "wire serial-adder --with n=4 --operands a=5,b=6",
        "wire serial-adder --with n=4 --operands a=5,b=6 -o bench.pdf",
        "wire binary-counter -o bench.html --language de",
        "wire shift-add-multiplier --check",
    )
)
def wire(  # noqa: PLR0913, PLR0917  # each is an option of its own
    context: typer.Context,
    name: Name,
    parts: Annotated[
        str, typer.Option("--parts", metavar="FAMILY", help="The family of packages: 74hc.")
    ] = "74hc",
    with_: With = "",
    operands: Operands = "",
    check: Annotated[
        bool, typer.Option("--check", help="Only say whether the packages compute the design.")
    ] = False,
    out: Annotated[
        Path | None,
        typer.Option("-o", "--out", metavar="FILE", help="Write a bench sheet, .pdf or .html."),
    ] = None,
    language: Annotated[str, typer.Option("--language", help="Of the sheet: en or de.")] = "en",
    paper: Annotated[str, typer.Option("--paper", help="a4 or letter.")] = "a4",
    as_json: Json = False,
) -> None:
    """Wire a design on the bench: packages, pin-to-pin wires, and the run to compare.

    The packages are as few as they can be, and it is proved that they compute the design as wired.
    Without operands those are taken that show most.
    """
    from edgewise import files
    from edgewise.publish.handout.pdf import check_paper
    from edgewise.words import messages

    if parts not in FAMILIES:
        raise refused("wire-family", found=parts, known=", ".join(FAMILIES))
    if out is not None:
        files.check_suffix(
            out, SHEETS, Message("written-as", kind="sheet", suffixes=either(SHEETS))
        )
    else:
        refuse_idle(context, Message("idle-without", option="-o"), "--language", "--paper")
    if check:
        refuse_idle(context, Message("idle-with", option="--check"), "--operands", "--out")
    check_paper(paper, "sheet")
    if language not in messages.LANGUAGES:
        raise refused("wire-language", found=language, known=either(messages.LANGUAGES))
    sheet, checked = _wired(name, with_, operands)
    if as_json:
        print(json.dumps(_data(sheet, checked), indent=1))
    elif check or not checked.equal:
        print_sentences(_verdict(sheet, checked))
    if not checked.equal:
        raise typer.Exit(1)
    if out is not None:
        from edgewise.publish import bench

        bench.write(sheet, checked, out, messages.of(language), paper)
        print(out)
    elif not (check or as_json):
        _tell(sheet, checked)


def _wired(name: str, with_: str, operands: str) -> tuple[Sheet, Checked]:
    from edgewise.engines import reference
    from edgewise.lab.wiring import check, placement
    from edgewise.lab.wiring.sheet import Sheet

    design = blueprint_of(name).design(numbers(with_, "--with"))
    board = placement.wired(design)
    given: Any = assignments(operands, "--operands")
    if not given and design.operands:
        from edgewise.study.operands import choose

        given = choose.choose(design, most=1).examples[0].operands
    trace = reference.run(design, design.values(given))
    return Sheet(board, trace), check.check(board)


def _verdict(sheet: Sheet, checked: Checked) -> list[str]:
    from edgewise.words.messages import ENGLISH

    if checked.equal:
        return [ENGLISH("bench-equal", count=checked.compared)]
    return [
        str(
            Message(
                "within",
                what=sheet.board.design.name,
                told=ENGLISH(f"bench-finding-{one.fault}", where=one.where),
            )
        )
        for one in checked.findings
    ]


def _tell(sheet: Sheet, checked: Checked) -> None:
    """Packages, wires and the run, for a terminal."""
    from edgewise.publish.bench import blocks
    from edgewise.publish.blocks import Heading, Paragraph
    from edgewise.words.messages import ENGLISH

    print(blocks.title(sheet, ENGLISH))
    print(", ".join(blocks.facts(sheet, ENGLISH)))
    heading = ""
    for block in blocks.blocks(sheet, checked, ENGLISH):
        if heading and not isinstance(block, blocks.Picture):
            print(heading)
        heading = ""
        match block:
            case Heading(text):
                heading = f"\n{text}"
            case Paragraph(text=text):
                print_sentences([text])
            case blocks.Points(texts=texts):
                print_sentences(f"- {text}" for text in texts)
            case blocks.Table():
                print_table([block.heads, *block.lines])


def _data(sheet: Sheet, checked: Checked) -> dict[str, Any]:
    board = sheet.board
    return {
        "design": board.design.name,
        "parameters": dict(board.design.parameters),
        "operands": dict(sheet.trace.operands),
        "fewest": board.proved,
        "equal": checked.equal,
        "findings": [{"fault": one.fault, "where": one.where} for one in checked.findings],
        "packages": [
            {
                "name": one.name,
                "chip": one.chip.name,
                "pins": {
                    str(number): {"pin": pin, "net": one.nets.get(pin)}
                    for number, pin in enumerate(one.chip.pins, 1)
                },
            }
            for one in board.packages
        ],
        "wires": [
            {"from": str(w.start), "to": str(w.end), "net": w.net, "stage": w.stage}
            for w in board.wires
        ],
        "columns": [
            {"kind": one.shown, "name": one.name, "places": list(one.places)}
            for one in sheet.columns
        ],
        "rows": [
            {"row": one.row, "phase": one.phase or None, "words": list(one.words)}
            for one in sheet.pushes
        ],
    }


@app.command(
    epilog=examples(
        "capture analyser.vcd --design serial-adder --with n=4 --operands a=5,b=6",
        "capture states.csv --design binary-counter --json",
    )
)
def capture(
    measured: Annotated[
        Path, typer.Argument(metavar="FILE", help="What was recorded, .vcd or .csv.")
    ],
    design: Annotated[
        str, typer.Option("--design", metavar="DESIGN", help="A catalogue name, or a circuit file.")
    ],
    with_: With = "",
    operands: Operands = "",
    language: Annotated[str, typer.Option("--language", help="en or de.")] = "en",
    as_json: Json = False,
) -> None:
    """Compare what a logic analyser recorded with the run, and explain what differs.

    Exit code 1: something is wrong.
    """
    from edgewise.lab.capture import explanation, file, report
    from edgewise.words import messages

    words = messages.of(language_of(language))
    of = blueprint_of(design).design(numbers(with_, "--with"))
    given = of.values(assignments(operands, "--operands"))
    found = explanation.explain(of, given, file.read(measured))
    if as_json:
        print(json.dumps(report.data(found), indent=1))
    else:
        for said in report.report(found, words):
            if isinstance(said, str):
                print_sentences([said])
            else:
                title, lines = said
                print(f"\n{title}")
                print_table(lines)
    if not found.as_it_should:
        raise typer.Exit(1)
