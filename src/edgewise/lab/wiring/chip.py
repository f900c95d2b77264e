"""A chip: its pins, and what stands at its outputs, as truths that a check can follow.

Truths are those of `edgewise.circuit.truth`, over the names of input pins and of stored bits.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import Final, TypeAlias

from edgewise.circuit.truth import Truth, ports_of, refuse

POWER: Final = ("VCC", "GND")
"""Names of the supply's pins."""
UNUSED: Final = "NC"
"""Name of a pin that nothing inside is connected to."""
Roles: TypeAlias = Mapping[str, tuple[str, ...]]
"""What a use of a chip connects, by role, and the pins that this takes."""


@dataclass(frozen=True, slots=True)
class Stored:
    """A bit that a chip stores.

    Parameters
    ----------
    name : str
    clock : str
        The pin at whose rising edge it changes.
    next : Truth
        What it then takes, over input pins and stored bits.
    at_once : tuple of (Truth, Truth)
        Conditions that need no edge, the first that holds being the one that counts, each with
        what is then stored.
    """

    name: str
    clock: str
    next: Truth
    at_once: tuple[tuple[Truth, Truth], ...] = ()


@dataclass(frozen=True)
class Chip:
    """A package.

    Parameters
    ----------
    name : str
        ``74HC00``.
    pins : tuple of str
        Pin 1 first.
    outputs : mapping of str to Truth
        What stands at each output pin.
    low : frozenset of str
        Inputs that act when they are 0, and outputs that are complements.
    stored : tuple of Stored
    enabled : mapping of str to Truth
        Where an output may be switched off: 1 while it drives.
    source : str
        Whence pins and function.

    Examples
    --------
    >>> from edgewise.lab.wiring import hc74
    >>> chip = hc74.chip("74HC00")
    >>> chip.number("2Y"), chip.inputs[:2], chip.label("2Y")
    (6, ('1A', '1B'), '2Y')
    """

    name: str
    pins: tuple[str, ...]
    outputs: Mapping[str, Truth]
    low: frozenset[str] = frozenset()
    stored: tuple[Stored, ...] = ()
    enabled: Mapping[str, Truth] = field(default_factory=dict)
    source: str = ""

    def __post_init__(self) -> None:
        """Refuse a truth that reads what is no pin and no stored bit."""
        known = {*self.inputs, *(bit.name for bit in self.stored)}
        for truth in (*self.outputs.values(), *self.enabled.values()):
            refuse(truth, known)
        for bit in self.stored:
            for truth in (bit.next, *(one for pair in bit.at_once for one in pair)):
                refuse(truth, known)
            assert bit.clock in self.inputs, self.name

    @property
    def title(self) -> str:
        """The message that says what it is."""
        return f"chip-{self.name.lower()}"

    @property
    def inputs(self) -> tuple[str, ...]:
        """The pins at which it reads."""
        beside = {*POWER, UNUSED, *self.outputs}
        return tuple(pin for pin in self.pins if pin not in beside)

    def number(self, pin: str) -> int:
        """The number of a pin, from 1."""
        return self.pins.index(pin) + 1

    def label(self, pin: str) -> str:
        """How a pin is written: a stroke before the name of one that is active low."""
        return f"/{pin}" if pin in self.low else pin

    def reads(self, truth: Truth) -> Sequence[str]:
        """The pins and stored bits that a truth reads."""
        return tuple(dict.fromkeys(ports_of(truth)))


@dataclass(frozen=True)
class Section:
    """A way to use a chip: as many sections as there are, with what they share.

    Parameters
    ----------
    name : str
    chip : Chip
    sections : tuple of Roles
        Each with the pins of its roles.
    shared : Roles
        Roles that are the same for all sections of one package.
    ties : mapping of str to int
        Pins that are always tied.
    stores : tuple of mapping of str to str
        For each section the stored bit behind a role: ``{"q": "q1"}``.
    """

    name: str
    chip: Chip
    sections: tuple[Roles, ...]
    shared: Roles = field(default_factory=dict)
    ties: Mapping[str, int] = field(default_factory=dict)
    stores: tuple[Mapping[str, str], ...] = ()

    @property
    def holds(self) -> int:
        """Sections in a package."""
        return len(self.sections)
