"""A board: packages with their pins, what stands around them, and the wires in building order."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import Final, Literal, TypeAlias

from edgewise.design import Design
from edgewise.lab.wiring.chip import Chip

RAILS: Final = ("GND", "VCC")
"""The supply's rails; GND is a 0, VCC a 1."""


@dataclass(frozen=True, slots=True, order=True)
class Pin:
    """A pin of a package, or of what stands around them, where it has one pin alone.

    Examples
    --------
    >>> str(Pin("U1", 3)), str(Pin("GND"))
    ('U1-3', 'GND')
    """

    of: str
    number: int = 0

    def __str__(self) -> str:
        return f"{self.of}-{self.number}" if self.number else self.of


Stage: TypeAlias = Literal["power", "ties", "clock", "clear", "signals", "inputs", "outputs"]
STAGES: Final[tuple[Stage, ...]] = (
    "power",
    "ties",
    "clock",
    "clear",
    "signals",
    "inputs",
    "outputs",
)
"""In building order."""


@dataclass(frozen=True, slots=True)
class Wire:
    """A wire from pin to pin; `net` is what it carries."""

    start: Pin
    end: Pin
    net: str
    stage: Stage


@dataclass(frozen=True)
class Package:
    """A package on the board.

    Parameters
    ----------
    name : str
        ``U1``.
    chip : Chip
    nets : mapping of str to str
        The net at each pin that is used, by the pin's name.
    keeps : mapping of str to str
        The flip-flop of the design that a stored bit of the chip is.
    """

    name: str
    chip: Chip
    nets: Mapping[str, str]
    keeps: Mapping[str, str]

    def pin(self, name: str) -> Pin:
        """A pin by the name that the chip gives it."""
        return Pin(self.name, self.chip.number(name))


Around: TypeAlias = Literal["switch", "light", "button", "clear"]


@dataclass(frozen=True, slots=True)
class Beside:
    """What stands beside the packages: a switch, a light with its resistor, a push-button.

    Parameters
    ----------
    name : str
        ``SW1``, ``D3``, ``S1``.
    what : str
    net : str
        What it gives or shows; of the button the contact closed while it is pressed.
    other : str
        The button's other contact.

    A switch's pin 1 is its contact, 2 goes to GND; of the button 1 and 2 are its contacts, 3 is
    what moves between them; of a light 1 is the anode, 2 the cathode.
    """

    name: str
    what: Around
    net: str
    other: str = ""


@dataclass(frozen=True)
class Board:
    """A design wired up.

    Parameters
    ----------
    design : Design
    packages : tuple of Package
    beside : tuple of Beside
    wires : tuple of Wire
        In building order.
    proved : bool
        Whether no choice of packages among the ways that were tried takes fewer.
    """

    design: Design
    packages: tuple[Package, ...]
    beside: tuple[Beside, ...]
    wires: tuple[Wire, ...]
    proved: bool

    @cached_property
    def parts(self) -> Mapping[str, tuple[Package, ...]]:
        """The packages of each chip, by its name."""
        found: dict[str, tuple[Package, ...]] = {}
        for package in self.packages:
            found[package.chip.name] = (*found.get(package.chip.name, ()), package)
        return found

    @cached_property
    def drivers(self) -> Mapping[str, Pin]:
        """The pin that drives each net that has one: where it can be measured."""
        found: dict[str, Pin] = {}
        for one in self.beside:
            if one.what == "switch":
                found[one.net] = Pin(one.name, 1)
        for package in self.packages:
            for pin in package.chip.outputs:
                if pin in package.nets:
                    found[package.nets[pin]] = package.pin(pin)
        return found

    def of(self, what: Around) -> Iterator[Beside]:
        """What there is of a kind beside the packages."""
        return (one for one in self.beside if one.what == what)

    @property
    def spare(self) -> int:
        """Outputs of packages that nothing is wired to."""
        return sum(pin not in p.nets for p in self.packages for pin in p.chip.outputs)
