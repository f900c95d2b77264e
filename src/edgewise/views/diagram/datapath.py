"""Datapath: a row of adders as one box of n bits, the registers under it side by side.

It is found in the nets, as a row of cells whose adders are all alike: each port takes in the bits
of one word in their order, straight or through gates all alike.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from edgewise.views.diagram.cell_row import Cell, CellRow
from edgewise.views.diagram.elements import Element, Pin
from edgewise.views.diagram.nets import Scene


@dataclass(frozen=True, slots=True)
class Gates:
    """Gates all alike before one port of the adders.

    Parameters
    ----------
    first : Element
        That of the LSB.
    word : str
        Id of the pin from which each takes its bit; of an input or a register.
    control : str
        Id of the pin from which all take the same bit.
    """

    first: Element
    word: str
    control: str


@dataclass(frozen=True, slots=True)
class Datapath:
    """A row of adders as one.

    Parameters
    ----------
    row : CellRow
    words : dict of str to str
        By the port of the adder that takes it in: the pin from which a word comes straight.
    gates : dict of str to Gates
        By port.
    lower : int
        By how many places the sums come lower in the register under the row.
    """

    row: CellRow
    words: dict[str, str]
    gates: dict[str, Gates]
    lower: int


def find(scene: Scene, row: CellRow) -> Datapath | None:
    """The datapath that a row of cells is, or nothing."""
    return _Search(scene, row).found()


class _Search:
    def __init__(self, scene: Scene, row: CellRow) -> None:
        self.row = row
        self.pins = scene.pins
        self.home = {pin.id: element for element in scene.elements for pin in element.pins}
        self.source = {end: t.source for t in scene.threads for end in t.targets}

    def found(self) -> Datapath | None:
        cells = self.row.cells
        kinds = {cell.adder.kind for cell in cells}
        plain = all(link.store is None and "carry" in link.source for link in self.row.links)
        if len(kinds) > 1 or not plain or any(cell.loop for cell in cells):
            return None
        words: dict[str, str] = {}
        gates: dict[str, Gates] = {}
        for port in ("a", "b"):
            ends = [self._pin(cell, port) for cell in cells]
            if {port in cell_ports for cell_ports in self._gated()} == {True}:
                made = self._gates([cell.gates[f"{cell.adder.id}.{port}"] for cell in cells])
                if made is None:
                    return None
                gates[port] = made
                continue
            word = self._word([end for end in ends if end])
            if word is None or None in ends:
                return None
            words[port] = word
        lower = self._lower()
        return None if lower is None else Datapath(self.row, words, gates, lower)

    def _gated(self) -> Iterator[set[str]]:
        """For every cell: the ports with gates."""
        for cell in self.row.cells:
            yield {pin.rpartition(".")[2] for pin in cell.gates}

    def _pin(self, cell: Cell, port: str) -> str | None:
        return next((p.id for p in cell.adder.pins if p.port == port and p.id in self.source), None)

    def _word(self, ends: list[str]) -> str | None:
        """The pin whose bits, in their order, come to these."""
        sources = {self.source[end] for end in ends}
        if len(sources) != 1:
            return None
        (source,) = sources
        nets = self.pins[source].nets
        return source if nets == tuple(self.pins[end].nets[0] for end in ends) else None

    def _gates(self, gates: list[Element]) -> Gates | None:
        """Gates all alike, one input of each a bit of a word, the other common to all."""
        if len({gate.kind for gate in gates}) > 1:
            return None
        for place in (0, 1):
            ins = [[pin for pin in gate.pins if pin.id in self.source] for gate in gates]
            word = self._word([pins[place].id for pins in ins])
            controls = {self.source[pins[1 - place].id] for pins in ins}
            if word is not None and len(controls) == 1:
                return Gates(gates[0], word, controls.pop())
        return None

    def _lower(self) -> int | None:
        """By how many places the sums come lower in the register that takes them in."""
        register = self.row.below
        if register is None:
            return 0
        found = set()
        for pin in register.pins:
            source = self.source.get(pin.id)
            if source is None or not pin.which or self.home[source].role != "adder":
                continue
            place = self._place(self.home[source])
            carry = source.endswith(".carry-out")
            found.add(place + carry - int(pin.which.strip("()")))
        return found.pop() if len(found) == 1 else None

    def _place(self, adder: Element) -> int:
        return next(i for i, cell in enumerate(self.row.cells) if cell.adder.id == adder.id)


def word_pin(ident: str, port: str, pins: list[Pin]) -> Pin:
    """The pins of one port of a row as one, the LSB first."""
    return Pin(ident, port, tuple(pin.nets[0] for pin in pins))
