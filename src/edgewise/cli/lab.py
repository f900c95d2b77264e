"""The commands for the lab: export, verify."""

from __future__ import annotations

import json
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from edgewise.cli.designs import warn_of_gating
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
    print_table,
    refuse_file,
    refuse_idle,
    refused,
)
from edgewise.errors import Message

if TYPE_CHECKING:
    from edgewise.lab.judging.groups import Group
    from edgewise.lab.judging.verdict import Verdict
    from edgewise.words.messages import Words


@app.command(
    epilog=examples(
        "export serial-adder --hdl systemverilog --operands a=22,b=43 -o adder.sv",
        "export serial-adder --hdl vhdl --with n=16 --random 200",
        "export serial-adder --hdl vhdl --operands a=22,b=43 --laws",
        "export serial-adder --operands a=22,b=43 --wave run.vcd",
    )
)
def export(  # noqa: C901, PLR0913, PLR0917  # each is an option of its own
    context: typer.Context,
    name: Name,
    hdl: Annotated[
        str, typer.Option("--hdl", metavar="LANGUAGE", help="systemverilog or vhdl.")
    ] = "",
    out: Annotated[
        Path | None,
        typer.Option("-o", "--out", metavar="FILE", help="Where to; else DESIGN.sv or DESIGN.vhd."),
    ] = None,
    with_: With = "",
    operands: Operands = "",
    laws: Annotated[
        bool, typer.Option("--laws", help="The bench asserts what is computed, too.")
    ] = False,
    random: Annotated[
        int | None,
        typer.Option(
            min=1, max=10_000, metavar="ROWS", help="Another bench, of so many random rows."
        ),
    ] = None,
    seed: Annotated[
        int, typer.Option(min=0, max=999_999_999, help="The same seed, the same rows.")
    ] = 1,
    wave: Annotated[
        Path | None,
        typer.Option("--wave", metavar="FILE", help="Write the run as a value change dump, .vcd."),
    ] = None,
) -> None:
    """Write a design in a hardware description language, or a run as a value change dump.

    With operands a bench comes beside the description, as NAME_bench, which compares each row;
    with --random another one, as NAME_random.
    """
    from edgewise.engines import reference
    from edgewise.lab import dump, language, stimulus
    from edgewise.lab import export as descriptions

    if not hdl and wave is None:
        raise refused("export-nothing")
    if not hdl:
        refuse_idle(context, Message("idle-without", option="--hdl"), "--out", "--laws", "--random")
    if random is None:
        refuse_idle(context, Message("idle-without", option="--random"), "--seed")
    blueprint = blueprint_of(name)
    used = language.find(hdl) if hdl else None
    target = out or Path(f"{Path(name).stem}{used.suffixes[0] if used else ''}")
    if used:
        used.check(target)
    if wave is not None:
        dump.check(wave)
    design = blueprint.design(numbers(with_, "--with"))
    run = None
    if operands or wave is not None or not design.operands:
        run = reference.run(design, design.values(assignments(operands, "--operands")))
        warn_of_gating(run)
    if run is None:
        refuse_idle(context, Message("idle-without", option="--operands"), "--laws")
    files: dict[Path, str] = {}
    if used:
        text, bench = descriptions.description(blueprint, design, hdl, run, with_laws=laws)
        files |= {target: text} | ({_beside(target, "bench"): bench} if bench else {})
    if random is not None:
        drawn = stimulus.random_run(design, random, seed)
        warn_of_gating(drawn)
        made = descriptions.random_bench(design, hdl, drawn, seed)
        files[_beside(target, "random")] = made
    if wave is not None and run is not None:
        files[wave] = dump.text(run)
    for path in descriptions.write(files):
        print(path)


def _beside(target: Path, what: str) -> Path:
    """The name of a bench beside a description."""
    return target.with_stem(f"{target.stem}_{what}")


@app.command(
    epilog=examples(
        "verify lab.vhd --against serial-adder",
        "verify handed-in --against serial-adder --with n=8 --workers 2 -o judged",
        "verify lab.sv --against serial-adder --ports ports.yaml",
    )
)
def verify(  # noqa: PLR0913, PLR0917  # each is an option of its own
    files: Annotated[
        list[Path],
        typer.Argument(metavar="SUBMISSION…", help="HDL files, or a folder of them."),
    ],
    against: Annotated[
        str, typer.Option("--against", metavar="DESIGN", help="What they are to equal.")
    ],
    with_: With = "",
    ports: Annotated[
        Path | None,
        typer.Option("--ports", metavar="FILE", help="Which port is which, as YAML: shift: en."),
    ] = None,
    out: Annotated[
        Path | None,
        typer.Option("-o", "--out", metavar="DIR", help="Folder for a page and a table."),
    ] = None,
    seconds: Annotated[
        float, typer.Option(min=1, max=3600, metavar="S", help="For each submission.")
    ] = 60,
    language: Annotated[str, typer.Option("--language", help="en or de.")] = "en",
    workers: Annotated[
        int, typer.Option("--workers", metavar="N", help="Processes to judge in.")
    ] = 1,
    cluster: Annotated[
        str, typer.Option(metavar="ADDRESS", help="A Dask scheduler to judge on.")
    ] = "",
    as_json: Json = False,
) -> None:
    """Judge hardware descriptions: proved equal to a design, or wrong for which operands and why.

    A folder becomes a report: who is right, which have the same error. The exit code is 1 unless
    all of them are right.
    """
    from edgewise.lab.judging import groups, report, submission, warden
    from edgewise.lab.judging.ports import port_map
    from edgewise.progress import Progress
    from edgewise.publish.submissions import build
    from edgewise.shelf import read_file
    from edgewise.study.cost import sweep
    from edgewise.words import messages

    words = messages.of(language_of(language))
    if out is not None:
        refuse_file(out, "verify-file", "judged")
    design = blueprint_of(against).design(numbers(with_, "--with")).check()
    mapped = port_map(read_file(ports, str(ports)), str(ports)) if ports else {}
    place = sweep.workplace(workers, cluster)
    paths = submission.gathered(files)
    with Progress("submissions") as progress:
        verdicts = warden.judged(
            paths, design, place, ports=mapped, seconds=seconds, progress=progress
        )
    found = groups.groups(verdicts)
    written = build.build(found, design, out, words) if out else ()
    if as_json:
        files_ = [str(path) for path in written]
        print(json.dumps({**report.data(found), "files": files_}, indent=1))
    else:
        _tell(verdicts, found, words)
        if written:
            print()
        for path in written:
            print(path)
    if any(one.outcome != "right" for one in verdicts):
        raise typer.Exit(1)


def _tell(verdicts: list[Verdict], found: tuple[Group, ...], words: Words) -> None:
    """Each verdict; of a single one both runs, of several the groups."""
    from edgewise.lab.judging.verdict import named

    for verdict in verdicts:
        for line in verdict.sentences(words):
            print(line)
    if len(verdicts) == 1 and verdicts[0].refuted:
        here = words("judged-lane-submitted", name="{name}")
        heading, *rows = verdicts[0].refuted.table(here)
        print()
        print_table([(words("judged-column-edge"), *heading[1:]), *rows])
    if len(verdicts) > 1:
        print()
        for group in found:
            told = words(f"judged-verdict-{group.outcome}")
            why = named(group.verdicts[0].explanations)
            line = str(Message("within", what=told, told=why)) if why else told
            print(f"{len(group.verdicts):4} ", line)
