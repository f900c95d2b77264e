"""The command for the lab: export."""

from __future__ import annotations

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
