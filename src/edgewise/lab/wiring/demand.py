"""What a design demands of packages: for each piece the ways to make it, and what these need."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from math import ceil
from typing import Final, TypeAlias

from edgewise.lab.wiring import sections

RAILS: Final = ("0", "1")
"""Names of the nets of the rails."""
Pins: TypeAlias = tuple[tuple[str, str], ...]
"""Roles of a section, each with the net that it is wired to."""


@dataclass(frozen=True, slots=True)
class Use:
    """One section of a package: what it shares with its neighbours, and what it does not.

    `keeps` names, for a role that is a stored bit, the flip-flop of the design that it is.
    """

    section: str
    shared: Pins
    pins: Pins
    keeps: Pins = ()

    @property
    def group(self) -> tuple[str, Pins]:
        """Uses of the same group fit into one package."""
        return self.section, self.shared


@dataclass(frozen=True, slots=True)
class Option:
    """One way: the sections that it takes, and the names of further demands."""

    uses: tuple[Use, ...]
    needs: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Demand:
    """One piece of the design, and the ways to make it."""

    name: str
    options: tuple[Option, ...]


Demands: TypeAlias = Mapping[str, Demand]
Choice: TypeAlias = Mapping[str, int]
"""For each demand the number of the option."""


def active(roots: tuple[str, ...], demands: Demands, choice: Choice) -> dict[str, Option]:
    """The option of each demand that is one, those that options need included, in their order."""
    found: dict[str, Option] = {}
    waiting = list(reversed(roots))
    while waiting:
        name = waiting.pop()
        if name not in found:
            found[name] = demands[name].options[choice[name]]
            waiting += reversed(found[name].needs)
    return found


def cost(options: Mapping[str, Option]) -> tuple[int, int]:
    """Packages, and pins that are wired to something that changes."""
    counts: dict[tuple[str, Pins], int] = {}
    pins = 0
    for option in options.values():
        for use in option.uses:
            counts[use.group] = counts.get(use.group, 0) + 1
            pins += sum(net not in RAILS for _, net in use.pins)
    packages = sum(ceil(n / sections.SECTIONS[name].holds) for (name, _), n in counts.items())
    shared = sum(
        ceil(n / sections.SECTIONS[name].holds) * len(sections.SECTIONS[name].shared[role])
        for (name, nets), n in counts.items()
        for role, net in nets
        if net not in RAILS
    )
    return packages, pins + shared
