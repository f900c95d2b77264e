"""The command states: every state of a circuit, recovered from its gates and flip-flops."""

from __future__ import annotations

import json

from edgewise.cli.options import Json, Name, With, app, blueprint_of, examples, numbers


@app.command(
    epilog=examples(
        "states johnson-counter --with n=3",
        "states modulo-counter --with m=6 --json",
    )
)
def states(name: Name, with_: With = "", as_json: Json = False) -> None:
    """List a circuit's states: reached and unused ones, loops, and what follows each.

    For circuits with up to 12 flip-flops, whatever their procedure does.
    """
    from edgewise.study.states import survey

    found = survey(blueprint_of(name).design(numbers(with_, "--with")))
    if as_json:
        print(json.dumps(found.data(), indent=1))
        return
    print(found)
    print(*found.sentences(), "", found.table(), sep="\n")
