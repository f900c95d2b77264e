"""Continuity: the nets that wires make of pins, and what is wrong with wires alone."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import Literal, TypeAlias

from edgewise.lab.wiring.board import Board, Package, Pin

Fault: TypeAlias = Literal[
    "floating", "shorted", "no-supply", "loop", "clear", "start", "clock", "stored", "shown", "time"
]


@dataclass(frozen=True, slots=True)
class Finding:
    """Something that is wrong with a board: what, and where.

    ``floating``: nothing drives an input. ``shorted``: two outputs on one net. ``no-supply``: a
    pin of the supply is not at its rail. ``loop``: outputs that feed themselves. ``clear``: an
    asynchronous clear acts while the board runs. ``start``: the power-up clear does not give the
    initial state. ``clock``: an edge comes where the design has none, or stays away. ``stored``:
    a flip-flop takes another bit. ``shown``: a light shows another bit. ``time``: it was not
    settled in time.
    """

    fault: Fault
    where: str


class Wiring:
    """The nets that wires make of pins."""

    def __init__(self, board: Board) -> None:
        self.board = board
        self._joined: dict[Pin, Pin] = {}
        for wire in board.wires:
            start, end = self.net(wire.start), self.net(wire.end)
            if start != end:
                self._joined[start] = end

    def net(self, pin: Pin) -> Pin:
        """One pin that stands for all those that are joined."""
        while pin in self._joined:
            pin = self._joined[pin]
        return pin

    @cached_property
    def drivers(self) -> Mapping[Pin, tuple[tuple[str, str], ...]]:
        """What drives each net: a package and its output, a rail, a switch, a contact."""
        found: dict[Pin, list[tuple[str, str]]] = {}
        for rail in ("GND", "VCC"):
            found.setdefault(self.net(Pin(rail)), []).append((rail, ""))
        for one in self.board.beside:
            if one.what in ("switch", "clear"):
                found.setdefault(self.net(Pin(one.name, 1)), []).append((one.name, one.net))
            elif one.what == "button":
                for number, contact in enumerate((one.net, one.other), 1):
                    pin = self.net(Pin(one.name, number))
                    found.setdefault(pin, []).append((one.name, contact))
        for package in self.board.packages:
            for output in package.chip.outputs:
                pin = self.net(package.pin(output))
                found.setdefault(pin, []).append((package.name, output))
        return {pin: tuple(ends) for pin, ends in found.items()}

    def faults(self) -> Iterator[Finding]:
        """Inputs that float, outputs that are shorted, packages without supply."""
        for package in self.board.packages:
            yield from self._package_faults(package)
        for one in self.board.beside:
            if one.what == "light" and self.net(Pin(one.name, 1)) not in self.drivers:
                yield Finding("floating", one.name)
        for ends in self.drivers.values():
            if len(ends) > 1:
                yield Finding("shorted", ", ".join(f"{of} {pin}".strip() for of, pin in ends))

    def _package_faults(self, package: Package) -> Iterator[Finding]:
        for rail in ("GND", "VCC"):
            if self.net(package.pin(rail)) != self.net(Pin(rail)):
                yield Finding("no-supply", str(package.pin(rail)))
        for pin in package.chip.inputs:
            if self.net(package.pin(pin)) not in self.drivers:
                yield Finding("floating", str(package.pin(pin)))
