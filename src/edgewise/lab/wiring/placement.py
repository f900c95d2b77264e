"""Packages on the board: sections put into them, pins given their nets, and wires drawn."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from itertools import pairwise
from typing import Final

from edgewise.design import Design
from edgewise.errors import DesignError, Message
from edgewise.lab.wiring import mapping, packing, sections
from edgewise.lab.wiring.board import Beside, Board, Package, Pin, Stage, Wire
from edgewise.lab.wiring.chip import Section
from edgewise.lab.wiring.demand import Option, Pins, Use
from edgewise.lab.wiring.mapping import CLOCK
from edgewise.lab.wiring.nets import shown as net_shown
from edgewise.lab.wiring.pieces import HIGH, LOW, RESET, inverted

MOST_PACKAGES: Final = 32
"""On one sheet: what a session at the bench has time and room for (common practice, no source)."""
MOST_GATES: Final = 400
"""Gates and flip-flops for which packages are sought at all."""
PRESSED, RESTING = "button pressed", "button at rest"
_RAILS: Final = {LOW: "GND", HIGH: "VCC"}


def wired(design: Design) -> Board:
    """A design on the bench.

    Raises
    ------
    DesignError
        It takes more packages than a sheet holds, or has too many gates.

    Examples
    --------
    >>> from edgewise import catalogue
    >>> board = wired(catalogue.design("serial-adder", n=4))
    >>> [(package.name, package.chip.name) for package in board.packages][:2]
    [('U1', '74HC194'), ('U2', '74HC194')]
    """
    netlist = design.netlist
    size = len(netlist.gates) + len(netlist.flip_flops)
    if size > MOST_GATES:
        raise DesignError(
            Message("board-gates-many", design=design.name, count=size, most=MOST_GATES)
        )
    if not size:
        raise DesignError(Message("board-empty", design=design.name))
    found = packing.packed(mapping.needed(design))
    if found.packages > MOST_PACKAGES:
        raise DesignError(
            Message(
                "board-packages-many", design=design.name, count=found.packages, most=MOST_PACKAGES
            )
        )
    packages = tuple(_placed(found.options))
    beside = tuple(_beside(design, packages))
    wires = tuple(_wires(packages, beside))
    return Board(design, packages, beside, wires, found.proved)


# ---------------------------------------------------------------------- packages


def _placed(options: Mapping[str, Option]) -> Iterator[Package]:
    """Groups of sections, each in as few packages as it takes; the clock's button last."""
    groups: dict[tuple[str, Pins], list[Use]] = {}
    for option in options.values():
        for use in option.uses:
            groups.setdefault(use.group, []).append(use)
    number = 0
    for (name, shared), uses in sorted(groups.items(), key=lambda pair: _rank(pair[0][0])):
        section = sections.SECTIONS[name]
        for first in range(0, len(uses), section.holds):
            number += 1
            few = uses[first : first + section.holds]
            yield _package(f"U{number}", section, shared, few)


def _rank(section: str) -> tuple[int, str]:
    """What stores stands first, then adders and selectors, then gates."""
    chip = sections.SECTIONS[section].chip
    if chip.stored:
        return 0, section
    return (1 if chip.name in ("74HC283", "74HC153", "74HC157") else 2), section


def _package(name: str, section: Section, shared: Pins, uses: list[Use]) -> Package:
    chip = section.chip
    nets: dict[str, str] = {pin: (HIGH if bit else LOW) for pin, bit in section.ties.items()}
    keeps: dict[str, str] = {}
    for role, net in shared:
        nets |= dict.fromkeys(section.shared[role], net)
    for number, use in enumerate(uses):
        roles = section.sections[number]
        for role, net in use.pins:
            nets |= dict.fromkeys(roles[role], net)
        stores = section.stores[number] if section.stores else {}
        keeps |= {stores.get(role, role): flip_flop for role, flip_flop in use.keeps}
    for pin in chip.inputs:
        nets.setdefault(pin, HIGH if pin in chip.low else LOW)
    return Package(name, chip, nets, keeps)


# ---------------------------------------------------------------------- beside them


def _beside(design: Design, packages: Iterable[Package]) -> Iterator[Beside]:
    """A switch for each input bit that is read, a light for each output bit, and buttons."""
    netlist = design.netlist
    read = {net for package in packages for net in package.nets.values()}
    shown = net_shown(design)
    number = 0
    for bits in netlist.inputs.values():
        for net in bits:
            if netlist.labels[net] in read or netlist.labels[net] in shown:
                number += 1
                yield Beside(f"SW{number}", "switch", netlist.labels[net])
    for place, name in enumerate(shown, 1):
        yield Beside(f"D{place}", "light", name)
    if PRESSED in read:
        yield Beside("S1", "button", PRESSED, RESTING)
    if RESET in read:
        yield Beside("S2", "clear", RESET)


# ---------------------------------------------------------------------- wires


def _wires(packages: tuple[Package, ...], beside: tuple[Beside, ...]) -> Iterator[Wire]:
    """Stage by stage; a net's wires lead from its driver on from pin to pin."""
    yield from _supply(packages)
    ends = _ends(packages, beside)
    order: dict[str, Stage] = dict.fromkeys(_given(beside), "inputs")
    order |= dict.fromkeys((CLOCK, inverted(CLOCK), PRESSED, RESTING), "clock")
    order |= dict.fromkeys((RESET, inverted(RESET)), "clear")
    stages: tuple[Stage, ...] = ("clock", "clear", "signals", "inputs")
    for stage in stages:
        for net, pins in ends.items():
            if order.get(net, "signals") == stage:
                yield from (Wire(start, end, net, stage) for start, end in pairwise(pins))
    for one in beside:
        if one.what == "light":
            source = _RAILS.get(one.net)
            start = Pin(source) if source else ends[one.net][0]
            yield Wire(start, Pin(one.name, 1), one.net, "outputs")


def _supply(packages: tuple[Package, ...]) -> Iterator[Wire]:
    """The wires to the rails: of the supply, and of inputs that are tied."""
    for package in packages:
        for rail in ("VCC", "GND"):
            yield Wire(Pin(rail), package.pin(rail), rail, "power")
    for package in packages:
        for pin in package.chip.inputs:
            net = package.nets[pin]
            if net in _RAILS:
                yield Wire(Pin(_RAILS[net]), package.pin(pin), _RAILS[net], "ties")


def _given(beside: tuple[Beside, ...]) -> list[str]:
    """The nets that switches drive."""
    return [one.net for one in beside if one.what == "switch"]


def _ends(packages: tuple[Package, ...], beside: tuple[Beside, ...]) -> dict[str, list[Pin]]:
    """For each net its pins, the one that drives it first."""
    drives: dict[str, Pin] = {}
    reads: dict[str, list[Pin]] = {}
    for one in beside:
        if one.what in {"switch", "clear"}:
            drives[one.net] = Pin(one.name, 1)
        elif one.what == "button":
            drives[one.net], drives[one.other] = Pin(one.name, 1), Pin(one.name, 2)
    for package in packages:
        for pin, net in package.nets.items():
            if net in _RAILS:
                continue
            if pin in package.chip.outputs:
                drives[net] = package.pin(pin)
            else:
                reads.setdefault(net, []).append(package.pin(pin))
    return {net: [pin, *sorted(reads.get(net, ()), key=_along)] for net, pin in drives.items()}


def _along(pin: Pin) -> tuple[int, int]:
    """Packages in their order, so that no wire leads back over the board."""
    return int(pin.of[1:]), pin.number
