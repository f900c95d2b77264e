"""Models: what gates and flip-flops cost, and how long they take, each model in a file of its own.

A file here has its models under `TECHNOLOGIES`; that is all there is to adding one.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace
from functools import cache
from importlib import import_module
from types import MappingProxyType
from typing import Final

from edgewise import catalogue
from edgewise.circuit.netlist import Netlist
from edgewise.errors import DesignError, Message, Place, nearest
from edgewise.guests import Group, Guest, modules
from edgewise.study.cost.technology import Technology, Timing


@cache
def _own() -> Mapping[str, Technology]:
    """The models in the files of this folder, by name."""
    found = [import_module(f"{__name__}.{module}").TECHNOLOGIES for module in modules(__name__)]
    return MappingProxyType({one.name: one for several in found for one in several})


def _guarded(guest: Guest, model: Technology) -> Technology:
    """A model of another package, with its functions guarded."""
    area_of = guest.guarded(model.area, tuple, of=int)
    timing_of = guest.guarded(model.timing, Timing)

    def area(netlist: Netlist) -> tuple[int, int]:
        made: tuple[int, ...] = area_of(netlist)
        if len(made) != 2 or not 0 <= made[1] <= made[0]:
            raise guest.error("guest-area", found=str(made))
        return made[0], made[1]

    def timing(netlist: Netlist) -> Timing:
        made = timing_of(netlist)
        gates, stored = len(netlist.gates), len(netlist.flip_flops)
        if (len(made.gates), len(made.clock_to_q), len(made.setup)) != (gates, stored, stored):
            raise guest.error("guest-timing")
        return made

    return replace(model, area=area, timing=timing)


def _try(model: Technology) -> None:
    """Measure a netlist with gates and flip-flops."""
    netlist = catalogue.design("serial-adder", n=2).netlist
    model.area(netlist)
    model.timing(netlist)


GUESTS: Final = Group("edgewise.cost_models", "cost model", Technology, _own, _guarded, _try)
"""Models that other packages bring."""


def names() -> tuple[str, ...]:
    """The name of every model that there is.

    Examples
    --------
    >>> names()
    ('cmos', 'gate-count', 'unit-gate', '74hc', '74hc-worst')
    """
    return (*_own(), *GUESTS.names())


def technologies() -> Iterator[Technology]:
    """Every model; what is wrong with one of another package is a warning."""
    yield from _own().values()
    yield from GUESTS.all()


def technology(name: str, place: Place | None = None) -> Technology:
    """The model of this name.

    Raises
    ------
    DesignError
        If there is none; the nearest name is suggested.
    GuestError
        Another package brings it, but it can't be used.

    Examples
    --------
    >>> technology("unit-gate").time_unit
    'gate delays'
    """
    found = _own().get(name) or GUESTS.find(name)
    if found is None:
        raise DesignError(
            Message("cost-model-unknown", name=name, suggestion=nearest(name, names())), place
        )
    return found
