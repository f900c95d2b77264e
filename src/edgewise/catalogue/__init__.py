"""Ready designs: circuit texts beside this file, and Python builders of what text can't say."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace
from functools import lru_cache
from importlib import import_module, resources
from typing import Final

from edgewise import blueprint
from edgewise.blueprint import Blueprint
from edgewise.design import Design
from edgewise.errors import DesignError, Fact, Message, Suggestion
from edgewise.guests import Group, Guest
from edgewise.parameter import Parameter
from edgewise.spelling import close

GROUPS: Final = {
    "serial adders": (
        "serial-adder",
        "serial-adder-parallel-load",
        "serial-adder-gated-clock",
        "digit-serial-adder",
        "serial-subtractor",
        "serial-adder-subtractor",
        "serial-accumulator",
        "serial-accumulator-cleared",
        "carry-save-accumulator",
    ),
    "adders without a clock": (
        "ripple-carry-adder",
        "ripple-carry-adder-without-carry-in",
        "carry-lookahead-adder",
        "carry-lookahead-adder-without-carry-in",
        "carry-skip-adder",
        "carry-select-adder",
        "carry-increment-adder",
        "sklansky-adder",
        "kogge-stone-adder",
        "brent-kung-adder",
        "han-carlson-adder",
        "ladner-fischer-adder",
        "ripple-carry-adder-subtractor",
        "twos-complement-adder-subtractor",
    ),
    "multipliers": (
        "shift-add-multiplier",
        "bit-serial-multiplier",
    ),
    "shift registers": (
        "serial-in-serial-out",
        "serial-in-parallel-out",
        "parallel-in-serial-out",
        "universal-shift-register",
    ),
    "counters and feedback registers": (
        "ring-counter",
        "johnson-counter",
        "binary-counter",
        "modulo-counter",
        "lfsr",
        "crc-register",
    ),
}
"""The names of all designs by kind, in the order in which a list shows them."""
ORDER: Final = tuple(name for names in GROUPS.values() for name in names)
"""The names of all designs, in the order in which a list shows them."""

_BUILT = {
    "carry-lookahead-adder": "lookahead",
    "carry-lookahead-adder-without-carry-in": "lookahead",
    "digit-serial-adder": "digits",
    "carry-skip-adder": "grouped",
    "carry-select-adder": "grouped",
    "carry-increment-adder": "grouped",
    "sklansky-adder": "prefix",
    "kogge-stone-adder": "prefix",
    "brent-kung-adder": "prefix",
    "han-carlson-adder": "prefix",
    "ladner-fischer-adder": "prefix",
    "lfsr": "lfsr",
    "crc-register": "crc",
}
"""The designs made by a Python builder, and the file it stands in."""


def _guarded(guest: Guest, one: Blueprint) -> Blueprint:
    """A design of another package, with its functions guarded."""
    guest.all_of(one, "parameters", Parameter)
    timetable = one.make_timetable
    return replace(
        one,
        make=guest.guarded(one.make, Design),
        make_timetable=timetable and guest.guarded(timetable, Design),
    )


GUESTS: Final = Group(
    "edgewise.designs", "design", Blueprint, lambda: ORDER, _guarded, Blueprint.design
)
"""Designs that other packages bring."""


def names() -> tuple[str, ...]:
    """The name of every design, those that other packages bring too."""
    return (*ORDER, *GUESTS.names())


def listed() -> Iterator[tuple[str, Blueprint]]:
    """Every design, with the group in which a list shows it.

    What is wrong with one of another package is a warning.

    Examples
    --------
    >>> next((group, one.name) for group, one in listed())
    ('serial adders', 'serial-adder')
    """
    for group, members in GROUPS.items():
        for name in members:
            yield group, find(name)
    packages = {guest.name: guest.package for guest in GUESTS.guests()}
    for guest in GUESTS.all():
        yield f"of the package {packages[guest.name]}", find(guest.name)


@lru_cache(maxsize=64)
def find(name: str) -> Blueprint:
    """The blueprint of a catalogue design.

    Raises
    ------
    DesignError
        If there is none of that name; the nearest is suggested.
    GuestError
        Another package brings it, but it can't be used.

    Examples
    --------
    >>> find("serial-adder").title
    'bit-serial adder'
    """
    if name not in ORDER:
        guest = GUESTS.find(name)
        if guest is None:
            raise DesignError(Message("design-unknown", name=name, hint=_meant(name)))
        return guest
    if name in _BUILT:
        made: Blueprint = import_module(f"edgewise.catalogue.{_BUILT[name]}").blueprint(name)
        return made
    return blueprint.from_text(_file(name), f"{name}.yaml", name=name)


def _meant(name: str) -> Fact:
    """What may be meant: the nearest name, or those with a word of it; else where they are."""
    near = close(name, names())
    if near:
        return Suggestion(near)
    words = {word for word in re.split(r"\W+", name.lower()) if len(word) > _SHORT}
    alike = [known for known in names() if words & {*known.split("-")}]
    if alike and len(alike) <= _ALIKE:
        return Suggestion(there=tuple(alike))
    return Message("designs-listed")


_SHORT: Final = 3
"""Letters of a word that is not looked for."""
_ALIKE: Final = 6
"""Names that are listed in place of one that is not there, at most."""


def text(name: str) -> str | None:
    """The circuit text of a design as it stands in the catalogue; nothing for a built one.

    Examples
    --------
    >>> (text("serial-adder") or "").splitlines()[0], text("carry-lookahead-adder")
    ('circuit: bit-serial adder', None)
    """
    find(name)
    return _file(name) if name in ORDER and name not in _BUILT else None


def _file(name: str) -> str:
    return resources.files(__name__).joinpath(f"{name}.yaml").read_text("utf-8")


def design(name: str, **parameters: int) -> Design:
    """A catalogue design for given parameters, the defaults for the rest.

    Examples
    --------
    >>> design("serial-adder", n=4).edges
    8
    """
    return find(name).design(parameters)
