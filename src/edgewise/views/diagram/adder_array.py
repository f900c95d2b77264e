"""Array: adders in columns by weight, the MSB left, and rows one below the other.

It is found in the nets: each adder adds bits of one weight, and its carry weighs twice as much.
Bits of weight are products of two bits of words (an AND gate), bits of a word, sums and carries. A
carry goes on in its row, or to the next row where all of them are saved. Products stand over their
adders with the names of both bits, so that no word is wired across the figure::

          a(1)      a(0)
          b(1)      b(1)
           ▢  ▢      ▢  ▢
      ┌──[ FA ]◄────[ HA ]
    ▢ │▢    │         │
    [ FA ]◄─...       │
"""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import Final

from edgewise.circuit.parts import function
from edgewise.views.diagram.elements import Element, Pin
from edgewise.views.diagram.nets import Scene

_MOST: Final = 300
"""Adders of an array; one of more could not be read."""


class _NoArray(Exception):
    """There is something in the scene that an array of adders does not have."""


@dataclass(frozen=True, slots=True)
class AdderArray:
    """Adders in their places.

    Parameters
    ----------
    column, row : dict of str to int
        Of each adder; the column is the weight, the LSB's 0.
    products : dict of str to (str, str)
        Of each AND gate the names of the bits that it takes in.
    sideways : frozenset of str
        The adders whose carry leaves at the side: it stays in the row, or none stands there.
    """

    column: dict[str, int]
    row: dict[str, int]
    products: dict[str, tuple[str, str]]
    sideways: frozenset[str]


def find(scene: Scene) -> AdderArray | None:
    """The array that a scene is, or nothing.

    Examples
    --------
    >>> find(Scene((), ())) is None
    True
    """
    adders = [element for element in scene.elements if element.role == "adder"]
    others = {e.role for e in scene.elements} - {"adder", "gate", "input", "output", "tie"}
    if not 2 <= len(adders) <= _MOST or others or any(element.inside for element in scene.elements):
        return None
    try:
        return _Search(scene, adders).found()
    except _NoArray:
        return None


@dataclass(slots=True)
class _Search:
    scene: Scene
    adders: list[Element]
    home: dict[str, Element] = field(init=False)
    source: dict[str, str] = field(init=False)
    weights: dict[str, int | None] = field(default_factory=dict)
    """Of each adder and gate; None while it is being asked for."""
    products: dict[str, tuple[str, str]] = field(default_factory=dict)
    rows: dict[tuple[str, int], int] = field(default_factory=dict)

    def __post_init__(self) -> None:
        self.home = {pin.id: element for element in self.scene.elements for pin in element.pins}
        self.source = {end: t.source for t in self.scene.threads for end in t.targets}

    def found(self) -> AdderArray:
        column = {adder.id: self._weight(adder) for adder in self.adders}
        for gate in self.scene.elements:
            if gate.role == "gate":
                self._weight(gate)
        ways = [{one.id: self._row(one, saved=saved) for one in self.adders} for saved in (0, 1)]
        row = min(ways, key=self._mixed)
        spots = Counter((row[name], column[name]) for name in row)
        if max(spots.values()) > 1 or max(row.values()) == 0:
            raise _NoArray
        self._check_outputs()
        sideways = {
            name
            for name in row
            if (row[name], column[name] + 1) not in spots
            or {row[one] for one in self._carried(name)} <= {row[name]}
        }
        return AdderArray(column, row, self.products, frozenset(sideways))

    def _inputs(self, element: Element) -> Iterator[Pin]:
        return (pin for pin in element.pins if pin.id in self.source)

    def _weight(self, element: Element) -> int:
        """The weight of what an adder adds, or of what a gate gives."""
        if element.id in self.weights:
            known = self.weights[element.id]
            if known is None:
                raise _NoArray
            return known
        self.weights[element.id] = None
        found = self._product(element) if element.role == "gate" else self._added(element)
        self.weights[element.id] = found
        return found

    def _added(self, adder: Element) -> int:
        weights = set()
        for pin in self._inputs(adder):
            source = self.home[self.source[pin.id]]
            if source.role == "adder":
                weights.add(self._weight(source) + self.source[pin.id].endswith("carry-out"))
            elif source.role == "gate":
                weights.add(self._weight(source))
            elif source.role == "input":
                weights.add(self._bit(pin)[1])
        if len(weights) != 1:
            raise _NoArray
        return weights.pop()

    def _product(self, gate: Element) -> int:
        """An AND gate of two bits of words, named by them."""
        order = [element.id for element in self.scene.elements]
        pins = sorted(
            self._inputs(gate), key=lambda pin: order.index(self.home[self.source[pin.id]].id)
        )
        of = function(gate.kind)
        fed = [self.home[self.source[pin.id]] for pin in pins]
        if len(pins) != 2 or of.plain != "and" or any(one.role != "input" for one in fed):
            raise _NoArray
        (one, i), (other, j) = map(self._bit, pins)
        self.products[gate.id] = one, other
        return i + j

    def _bit(self, pin: Pin) -> tuple[str, int]:
        """The name and the place of a bit of an input."""
        element = self.home[self.source[pin.id]]
        nets = element.pins[0].nets
        place = nets.index(pin.nets[0])
        return (f"{element.label}({place})" if len(nets) > 1 else element.label), place

    def _fed(self, adder: Element) -> list[tuple[Element, bool]]:
        """The adders whose bits an adder takes in, and whether each is a carry."""
        found = []
        for pin in self._inputs(adder):
            source = self.source[pin.id]
            if self.home[source].role == "adder":
                found.append((self.home[source], source.endswith("carry-out")))
        return found

    def _row(self, adder: Element, *, saved: int) -> int:
        """The row under all that an adder takes in, or that of a carry that comes last.

        `saved`: a carry stays in its row only where no product is added, or another carry.
        """
        if (adder.id, saved) not in self.rows:
            fed = sorted(
                (self._row(one, saved=saved), not carried) for one, carried in self._fed(adder)
            )
            last = fed[-1] if fed else (-1, True)
            alone = len(fed) < 2 or fed[-2][0] < last[0]
            several = sum(carried for _, carried in self._fed(adder)) > 1
            stays = alone and not last[1] and not (saved and self._own(adder) and not several)
            self.rows[adder.id, saved] = last[0] + (not stays)
        return self.rows[adder.id, saved]

    def _own(self, adder: Element) -> list[str]:
        """The AND gates whose products an adder takes in."""
        fed = (self.home[self.source[pin.id]] for pin in self._inputs(adder))
        return [one.id for one in fed if one.role == "gate"]

    def _mixed(self, row: dict[str, int]) -> tuple[int, int]:
        """How many more bits of a word than one are multiplied in each row, squared; the rows."""
        shared: defaultdict[int, list[tuple[str, str]]] = defaultdict(list)
        for adder in self.adders:
            shared[row[adder.id]] += (self.products[name] for name in self._own(adder))
        ones = ({one for one, _ in pairs} for pairs in shared.values())
        others = ({other for _, other in pairs} for pairs in shared.values())
        more = (min(len(a), len(b)) - 1 for a, b in zip(ones, others, strict=True) if a)
        return sum(one**2 for one in more), max(row.values())

    def _carried(self, name: str) -> list[str]:
        """The adders that take in the carry of one."""
        ends = [end for end, source in self.source.items() if source == f"{name}.carry-out"]
        return [self.home[end].id for end in ends if self.home[end].role == "adder"]

    def _check_outputs(self) -> None:
        """Whether each output shows bits in the order of their weights."""
        for output in self.scene.elements:
            for pin in output.pins if output.role == "output" else ():
                source = self.home[self.source[pin.id]]
                if source.role not in ("adder", "gate") or len(pin.nets) > 1:
                    raise _NoArray
