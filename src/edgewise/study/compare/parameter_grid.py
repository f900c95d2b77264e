"""The grid of a comparison: one parameter varies, the others stay."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Final

from edgewise.blueprint import Blueprint
from edgewise.errors import DesignError, Message, Place, nearest
from edgewise.listing import both

MOST: Final = 20_000
"""Designs measured in one comparison, at most."""


def grid(
    blueprints: Sequence[Blueprint],
    over: Mapping[str, tuple[int, int]],
    fixed: Mapping[str, int],
    place: Place | None,
) -> tuple[str, list[int], dict[str, int]]:
    """The parameter that varies, its numbers, and what stays.

    Parameters
    ----------
    blueprints : sequence of Blueprint
        All of them must have the parameter that varies.
    over : mapping of str to (int, int)
        First and last number; of one parameter they may differ.
    fixed : mapping of str to int
        Other parameters; at least one of the designs must have each.
    place : Place, optional

    Raises
    ------
    DesignError
        No design, one named twice, no range, two ranges, an unknown parameter, too many designs.

    Examples
    --------
    >>> from edgewise import catalogue
    >>> grid([catalogue.find("lfsr")], {"n": (4, 6)}, {"k": 9}, None)
    ('n', [4, 5, 6], {'k': 9})
    """
    names = [blueprint.name for blueprint in blueprints]
    twice = next((name for name in names if names.count(name) > 1), None)
    if not names or twice:
        wrong = Message("design-twice", name=twice) if twice else Message("designs-missing")
        raise DesignError(wrong, place)
    parameter = _varying(over, place)
    low, high = over[parameter]
    rest = {name: one for name, (one, _) in over.items() if name != parameter} | dict(fixed)
    for blueprint in blueprints:
        own = [p.name for p in blueprint.parameters]
        if parameter not in own:
            raise DesignError(
                Message(
                    "parameter-unknown",
                    owner=blueprint.name,
                    name=parameter,
                    suggestion=nearest(parameter, own),
                ),
                place,
            )
    known = {p.name for blueprint in blueprints for p in blueprint.parameters}
    for name in rest:
        if name not in known:
            raise DesignError(
                Message("parameter-of-none", name=name, suggestion=nearest(name, known)), place
            )
    all_ = (high - low + 1) * len(names)
    if all_ > MOST:
        raise DesignError(Message("designs-many", count=all_, most=MOST), place)
    return parameter, list(range(low, high + 1)), rest


def _varying(over: Mapping[str, tuple[int, int]], place: Place | None) -> str:
    """The one parameter with a range; the first if all have one number."""
    for name, (low, high) in over.items():
        if low > high:
            raise DesignError(Message("range-empty", name=name, low=low, high=high), place)
    if not over:
        raise DesignError(Message("compare-over-missing"), place)
    varying = [name for name, (low, high) in over.items() if low < high] or [next(iter(over))]
    if len(varying) > 1:
        raise DesignError(Message("compare-over-many", names=both(varying)), place)
    return varying[0]
