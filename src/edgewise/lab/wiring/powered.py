"""A board under power: levels put on pins, and what its chips then show, event by event.

Levels are 0, 1 and X, as in `edgewise.bits`. A stored bit changes at a rising edge of its clock
pin, from what stood before; what a chip drives is followed until nothing changes.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from edgewise.bits import Bit, X
from edgewise.circuit.truth import KLEENE, Truth, compiled
from edgewise.errors import EdgewiseError, Message
from edgewise.lab.wiring.board import Board, Package, Pin
from edgewise.lab.wiring.chip import Chip, Stored
from edgewise.lab.wiring.continuity import Wiring
from edgewise.lab.wiring.pieces import RESET

_MOST: Final = 200
"""Rounds until nothing changes, at most."""


class PoweredChip:
    """One chip with its stored bits, unknown at first.

    Examples
    --------
    >>> from edgewise.lab.wiring import hc74
    >>> chip = PoweredChip(hc74.chip("74HC00"))
    >>> chip.apply({"1A": 1, "1B": 1, "2A": 0})
    >>> chip.level("1Y"), chip.level("2Y"), chip.level("3Y")
    (0, 1, 2)
    """

    def __init__(self, chip: Chip) -> None:
        self.chip = chip
        self.held: dict[str, Bit] = {bit.name: X for bit in chip.stored}
        self.pins: dict[str, Bit] = dict.fromkeys(chip.inputs, X)

    def apply(self, pins: Mapping[str, Bit]) -> None:
        """Put levels on input pins, all at once; edges and asynchronous inputs do their work."""
        before = dict(self.pins)
        self.pins |= pins
        taken = {
            bit.name: self._truth(bit.next, before)
            for bit in self.chip.stored
            if before[bit.clock] == 0 and self.pins[bit.clock] == 1
        }
        self.held |= taken
        self._at_once()

    def _at_once(self) -> None:
        found = {bit.name: self._forced(bit) for bit in self.chip.stored}
        self.held |= found

    def _forced(self, bit: Stored) -> Bit:
        for condition, value in bit.at_once:
            acts = self._truth(condition, self.pins)
            if acts == 1:
                return self._truth(value, self.pins)
            if acts == X:
                given = self._truth(value, self.pins)
                return given if given == self.held[bit.name] else X
        return self.held[bit.name]

    def level(self, pin: str) -> Bit | None:
        """What stands at an output; None where it is switched off."""
        enabled = self.chip.enabled.get(pin)
        if enabled is not None and self._truth(enabled, self.pins) == 0:
            return None
        return self._truth(self.chip.outputs[pin], self.pins)

    def _truth(self, truth: Truth, pins: Mapping[str, Bit]) -> Bit:
        reads = self.chip.reads(truth)
        bits = [self.held[name] if name in self.held else pins[name] for name in reads]
        return compiled(truth, {name: i for i, name in enumerate(reads)}, KLEENE)(bits)


class PoweredBoard:
    """A board under power; switches open, the button released, nothing cleared.

    Parameters
    ----------
    board : Board
        Wired in any way: what is wrong with it is what it does.
    """

    def __init__(self, board: Board) -> None:
        self.board, self.wiring = board, Wiring(board)
        self.chips = {package.name: PoweredChip(package.chip) for package in board.packages}
        self.given: dict[str, Bit] = {}
        for one in board.beside:
            if one.what in {"switch", "clear"}:
                self.given[one.net] = 1
            elif one.what == "button":
                self.given |= {one.net: 1, one.other: 0}
        self.settle()

    def put(self, **levels: Bit) -> None:
        """Set switches, by the nets that they drive."""
        self.set(levels)

    def set(self, levels: Mapping[str, Bit]) -> None:
        """Set what stands beside the packages, by nets."""
        self.given |= levels
        self.settle()

    def clear(self) -> None:
        """Press and release the power-up clear, if there is one."""
        if any(self.board.of("clear")):
            for level in (0, 1):
                self.set({RESET: level})

    def press(self, bounces: int = 0) -> None:
        """Press the button and release it; its contacts bounce so often each time."""
        button = next(self.board.of("button"))
        for touched, left in ((button.net, button.other), (button.other, button.net)):
            self.set({left: 1})
            for _ in range(bounces):
                self.set({touched: 0})
                self.set({touched: 1})
            self.set({touched: 0})

    def light(self, name: str) -> Bit:
        """What a light shows."""
        return self.levels()[self.wiring.net(Pin(name, 1))]

    def at(self, pin: Pin) -> Bit:
        """What stands at a pin; X where nothing drives it."""
        return self.levels().get(self.wiring.net(pin), X)

    def levels(self) -> dict[Pin, Bit]:
        """What stands on each net that something drives; outputs that disagree give X."""
        found: dict[Pin, Bit] = {}
        for net, ends in self.wiring.drivers.items():
            bits = {self._driven(of, end) for of, end in ends} - {None}
            only = bits.pop() if len(bits) == 1 else X
            found[net] = X if only is None else only
        return found

    def _driven(self, of: str, end: str) -> Bit | None:
        if of in ("GND", "VCC"):
            return int(of == "VCC")
        return self.chips[of].level(end) if of in self.chips else self.given[end]

    def settle(self) -> None:
        """Follow levels until nothing changes.

        Raises
        ------
        EdgewiseError
            They never come to rest.
        """
        for _ in range(_MOST):
            levels = self.levels()
            moved = False
            for package in self.board.packages:
                moved |= self._follow(package, levels)
            if not moved:
                return
        raise EdgewiseError(Message("board-oscillates"))

    def _follow(self, package: Package, levels: Mapping[Pin, Bit]) -> bool:
        chip = self.chips[package.name]
        now = {pin: levels.get(self.wiring.net(package.pin(pin)), X) for pin in package.chip.inputs}
        if now == chip.pins:
            return False
        chip.apply(now)
        return True
