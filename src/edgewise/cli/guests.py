"""The command that lists what other packages bring: guests."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, Any, Final

from edgewise.cli.options import Json, app, examples, print_table
from edgewise.errors import EdgewiseError, Message, raise_all

if TYPE_CHECKING:
    from edgewise.guests import Group


_HEADS: Final = ("guests-kind", "guests-named", "guests-package")


@app.command(epilog=examples("guests", "guests --json"))
def guests(as_json: Json = False) -> None:
    """List what other packages bring: parts, designs, blocks, cost models and more."""
    found: list[dict[str, str]] = []
    errors: list[EdgewiseError] = []
    for group in _groups():
        for guest in group.guests():
            fault = ""
            try:
                group.check(guest)
            except EdgewiseError as wrong:
                errors.append(wrong)
                fault = wrong.message
            one = {"kind": guest.what, "name": guest.name, "package": guest.package}
            found.append({**one, "fault": fault})
    if as_json:
        print(json.dumps(found, indent=1))
    elif found:
        state = {True: "", False: str(Message("guests-unusable"))}
        print_table(
            [
                (*map(str, map(Message, _HEADS)), ""),
                *(
                    (one["kind"], one["name"], one["package"], state[not one["fault"]])
                    for one in found
                ),
            ]
        )
    else:
        print(Message("guests-none"))
    raise_all(errors)


def _groups() -> tuple[Group[Any], ...]:
    from edgewise import catalogue, importers
    from edgewise.circuit import parts
    from edgewise.lesson import blocks
    from edgewise.publish import formats
    from edgewise.study.cost import models
    from edgewise.study.misconceptions import registry

    rooms = (parts, catalogue, blocks, registry, models, importers, formats)
    return tuple(room.GUESTS for room in rooms)
