"""The commands for the lab: export, verify."""

from __future__ import annotations

from collections import Counter
from pathlib import Path
from typing import Annotated

import typer

from edgewise.cli.designs import warn_of_gating
from edgewise.cli.options import (
    Name,
    Operands,
    With,
    app,
    assignments,
    blueprint_of,
    examples,
    numbers,
    print_table,
    refuse_idle,
    refused,
)


@app.command(
    epilog=examples(
        "export serial-adder --hdl systemverilog --operands a=22,b=43 -o adder.sv",
        "export serial-adder --hdl vhdl --with n=16",
        "export serial-adder --operands a=22,b=43 --wave run.vcd",
    )
)
def export(  # noqa: PLR0913, PLR0917  # each is an option of its own
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
    wave: Annotated[
        Path | None,
        typer.Option("--wave", metavar="FILE", help="Write the run as a value change dump, .vcd."),
    ] = None,
) -> None:
    """Write a design in a hardware description language, or a run as a value change dump.

    With operands a bench comes beside the description, as NAME_bench, which compares each row.
    """
    from edgewise.engines import reference
    from edgewise.lab import dump, language
    from edgewise.lab import export as descriptions

    if not hdl and wave is None:
        raise refused("export-nothing")
    if not hdl:
        refuse_idle(context, "without --hdl", "--out")
    blueprint = blueprint_of(name)
    files: dict[Path, str] = {}
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
    if used:
        text, bench = descriptions.description(blueprint, design, hdl, run)
        files[target] = text
        if bench:
            files[target.with_stem(f"{target.stem}_bench")] = bench
    if wave is not None and run is not None:
        files[wave] = dump.text(run)
    for path in descriptions.write(files):
        print(path)


@app.command(
    epilog=examples(
        "verify lab.vhd --against serial-adder", "verify *.sv --against serial-adder --with n=8"
    )
)
def verify(
    files: Annotated[
        list[Path],
        typer.Argument(metavar="SUBMISSION…", help="HDL files, or a folder."),
    ],
    against: Annotated[
        str, typer.Option("--against", metavar="DESIGN", help="What they are to equal.")
    ],
    with_: With = "",
    workers: Annotated[
        int, typer.Option("--workers", metavar="N", help="Processes to judge in.")
    ] = 1,
) -> None:
    """Judge hardware descriptions: proved equal to a design, or wrong for which operands and why.

    The exit code is 1 unless all of them are right.
    """
    from edgewise.lab import submission
    from edgewise.study.cost import sweep

    design = blueprint_of(against).design(numbers(with_, "--with"))
    paths = submission.gathered(files)
    groups: Counter[str] = Counter()
    for verdict in submission.judged(paths, design, sweep.workplace(workers)):
        groups[f"{verdict.outcome} {', '.join(verdict.diagnosis)}".strip()] += 1
        for line in verdict.sentences():
            print(line)
        if len(paths) == 1 and verdict.runs:
            print_table(verdict.table())
    if len(paths) > 1:
        print()
        for group, number in groups.most_common():
            print(f"{number:4}  {group}")
    if set(groups) != {"right"}:
        raise typer.Exit(1)
