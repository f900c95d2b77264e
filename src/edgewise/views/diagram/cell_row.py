"""Row: adders side by side, each with its gates and flip-flops: one cell for each place.

It is found in the nets: adders are neighbours if a carry or a sum goes from one to the other,
straight or through a flip-flop. Each adder may have gates of its own above it, and a flip-flop
below it that gives back what it took. Words come from inputs or registers, bit by bit.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from typing import Final

from edgewise.circuit.model import CLOCK
from edgewise.views.diagram.elements import Element, Pin
from edgewise.views.diagram.nets import Scene

_LEAST: Final = 2
"""Cells in a row."""


@dataclass(frozen=True, slots=True)
class Link:
    """A net from one cell to a neighbour, or to itself, with the flip-flop on the way if any."""

    source: str
    """Id of a pin of an adder."""
    target: str
    store: Element | None = None


@dataclass(frozen=True, slots=True)
class Cell:
    """An adder with what belongs to it.

    Parameters
    ----------
    adder : Element
    gates : mapping of str to Element
        By the pin of the adder that each feeds.
    loop : Link, optional
        Through a flip-flop back to the adder.
    """

    adder: Element
    gates: Mapping[str, Element]
    loop: Link | None


@dataclass(frozen=True, slots=True)
class CellRow:
    """Cells from the LSB on, and the links between neighbours.

    Parameters
    ----------
    cells : tuple of Cell
    links : tuple of Link
    above : Element, optional
        The register whose bits the cells take in.
    below : Element, optional
        The register that takes in the sums, each bit from the cell `lower` places higher.
    last : Element, optional
        The register that takes in the sum of the LSB bit by bit.
    """

    cells: tuple[Cell, ...]
    links: tuple[Link, ...]
    above: Element | None
    below: Element | None
    last: Element | None
    lower: int = 1
    """By how many places the sums come lower in the register below."""
    flag: Element | None = None
    """The gate that takes in the last two carries: whether a sum with a sign has no word."""


class _NoRow(Exception):
    """There is something in the scene that a row of cells does not have."""


def find(scene: Scene) -> CellRow | None:
    """The row of cells that a scene is, or nothing.

    Examples
    --------
    >>> find(Scene((), ())) is None
    True
    """
    adders = [element for element in scene.elements if element.role == "adder"]
    ports = {pin.port for element in scene.elements for pin in element.pins}
    opened = any(element.inside for element in scene.elements)
    if len(adders) < _LEAST or opened or CLOCK in ports:
        return None
    try:
        return _Search(scene, adders).row()
    except _NoRow:
        return None


@dataclass(slots=True)
class _Search:
    scene: Scene
    adders: list[Element]
    home: dict[str, Element] = field(init=False)
    """The element of every pin."""
    source: dict[str, str] = field(init=False)
    """Of every target its source."""
    taken: set[str] = field(default_factory=set)
    """Ids of the elements that have a place."""

    def __post_init__(self) -> None:
        self.home = {pin.id: element for element in self.scene.elements for pin in element.pins}
        self.source = {end: t.source for t in self.scene.threads for end in t.targets}

    def row(self) -> CellRow:
        self.taken = {adder.id for adder in self.adders}
        links = list(self._links())
        loops = {self.home[one.target].id: one for one in links if self._is_loop(one)}
        links = [one for one in links if not self._is_loop(one)]
        cells = tuple(
            Cell(adder, dict(self._gates(adder)), loops.get(adder.id))
            for adder in self._order(links)
        )
        above = self._register(cells)
        below, last, lower = self._takers(cells)
        flag = self._flag(cells)
        self._check_rest()
        return CellRow(cells, tuple(links), above, below, last, lower, flag)

    def _flag(self, cells: tuple[Cell, ...]) -> Element | None:
        carries = {f"{cell.adder.id}.carry-out" for cell in cells[-2:]}
        last = f"{cells[-1].adder.id}.carry-out"
        for element in self.scene.elements:
            taken = [self.source[pin.id] for pin in self._inputs(element)]
            if element.role == "gate" and len(taken) == 2 and {*taken} == carries:
                if list(self.source.values()).count(last) > 1:
                    raise _NoRow
                self.taken.add(element.id)
                return element
        return None

    def _is_loop(self, link: Link) -> bool:
        return self.home[link.source].id == self.home[link.target].id

    def _inputs(self, element: Element) -> Iterator[Pin]:
        return (pin for pin in element.pins if pin.id in self.source)

    def _links(self) -> Iterator[Link]:
        for adder in self.adders:
            for pin in self._inputs(adder):
                start = self.source[pin.id]
                element = self.home[start]
                if element.role == "adder":
                    yield Link(start, pin.id)
                elif element.role == "storage" and len(element.word) == 1:
                    ports = {one.port: one.id for one in element.pins}
                    fed = self.source.get(ports.get("d", ""))
                    if {*ports} != {"d", "q"} or fed is None or self.home[fed].role != "adder":
                        raise _NoRow
                    if element.id in self.taken:
                        raise _NoRow
                    self.taken.add(element.id)
                    yield Link(fed, pin.id, element)

    def _order(self, links: list[Link]) -> list[Element]:
        """The adders from the LSB on: a carry goes one place up, a sum one place down."""
        above: dict[str, Element] = {}
        for link in links:
            start, end = self.home[link.source], self.home[link.target]
            carries = self._pin(link.source).port == "carry-out"
            low, high = (start, end) if carries else (end, start)
            if above.setdefault(low.id, high).id != high.id:
                raise _NoRow
        heads = {high.id for high in above.values()}
        first = [adder for adder in self.adders if adder.id not in heads]
        if len(first) != 1:
            raise _NoRow
        order = first
        while order[-1].id in above:
            order.append(above[order[-1].id])
        if len(order) != len(self.adders):
            raise _NoRow
        return order

    def _pin(self, name: str) -> Pin:
        return next(pin for pin in self.home[name].pins if pin.id == name)

    def _gates(self, adder: Element) -> Iterator[tuple[str, Element]]:
        targets = {t.source: t.targets for t in self.scene.threads}
        for pin in self._inputs(adder):
            start = self.source[pin.id]
            gate = self.home[start]
            if gate.role != "gate":
                continue
            inputs = list(self._inputs(gate))
            alike = not any(one.label for one in inputs)
            if len(targets[start]) > 1 or len(inputs) != 2 or not alike:
                raise _NoRow
            self.taken.add(gate.id)
            yield pin.id, gate

    def _register(self, cells: tuple[Cell, ...]) -> Element | None:
        """The register whose bits go to the gates, one to each place."""
        found: dict[str, Element] = {}
        for place, cell in enumerate(cells):
            for gate in cell.gates.values():
                for pin in self._inputs(gate):
                    start = self.home[self.source[pin.id]]
                    if start.role == "storage" and self.source[pin.id].endswith(".q"):
                        if start.word.index(pin.nets[0]) != place:
                            raise _NoRow
                        found[start.id] = start
        if len(found) > 1:
            raise _NoRow
        self.taken |= {*found}
        return next(iter(found.values()), None)

    def _takers(self, cells: tuple[Cell, ...]) -> tuple[Element | None, Element | None, int]:
        """The register below that takes in the sums, the one that takes the last, and how low."""
        below: Element | None = None
        last: Element | None = None
        lower: set[int] = set()
        for place, cell in enumerate(cells):
            outs = [pin.id for pin in cell.adder.pins if pin.port == "sum"]
            for end in (e for t in self.scene.threads if t.source in outs for e in t.targets):
                taker = self.home[end]
                if taker.role != "storage" or taker.id in self.taken - {getattr(below, "id", "")}:
                    continue
                if place == 0 and self._pin(end).port == "in":
                    last = taker
                else:
                    lower.add(place - taker.word.index(_stored(self._pin(end), taker)))
                    below = taker
                self.taken.add(taker.id)
        if lower not in (set(), {0}, {1}):
            raise _NoRow
        return below, last, min(lower, default=1)

    def _check_rest(self) -> None:
        """Whether there is nothing else but inputs, outputs and constants."""
        for element in self.scene.elements:
            if element.id not in self.taken and element.role not in ("input", "output", "tie"):
                raise _NoRow


def _stored(pin: Pin, register: Element) -> int:
    """The net that a bit of a register's input is stored as."""
    if not pin.which:
        raise _NoRow
    return register.word[int(pin.which.strip("()"))]
