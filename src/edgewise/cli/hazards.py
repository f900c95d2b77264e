"""The command that looks for hazards."""

from __future__ import annotations

from typing import Annotated

import typer

from edgewise.cli.designs import Model
from edgewise.cli.options import (
    Json,
    Name,
    With,
    app,
    blueprint_of,
    examples,
    numbers,
    print_sentences,
    print_table,
)


@app.command(
    epilog=examples(
        "hazards ripple-carry-adder --with n=2",
        "hazards carry-skip-adder --with n=4 --output carry --model 74hc",
    )
)
def hazards(
    name: Name,
    with_: With = "",
    output: Annotated[
        str, typer.Option(metavar="sum(1)", help="An output or one bit of it; all unless given.")
    ] = "",
    model: Model = "unit-gate",
    as_json: Json = False,
) -> None:
    """Find the pulses that may come out while one input changes, and gates that prevent them.

    For a circuit without flip-flops: each output, with the smallest operands that show a hazard.
    """
    import json

    from edgewise.study.cost import models
    from edgewise.study.inside import hazards as study

    design = blueprint_of(name).design(numbers(with_, "--with"))
    found = study.of(design, models.technology(model), output)
    if as_json:
        print(json.dumps(found.data(), indent=1))
        return
    if found.found:
        print_table(found.cells())
        print()
    print_sentences(found.sentences())
