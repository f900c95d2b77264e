"""Packing: a design in some sizes, as data for a page, each thing in it once.

::

    circuits   netlist, names, roles and figures; sizes that differ in the procedure share one
    flats      the netlists of those who have a wrong idea; many ideas share one
    sizes      parameters, operands, procedure, purposes, and where the rest is

``web/sizes.js`` puts a size together when it is asked for.
"""

from __future__ import annotations

import json
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from typing import Any, Final

from edgewise.circuit.model import Circuit
from edgewise.design import Design
from edgewise.engines import reference
from edgewise.errors import EdgewiseError
from edgewise.lesson.pieces import Stage
from edgewise.practice import next_row
from edgewise.publish.stage import design_data, figure_template
from edgewise.publish.stage.adder_rows import adders
from edgewise.publish.stage.design_data import Data
from edgewise.publish.stage.feedback import feedback
from edgewise.publish.stage.selection import selectors
from edgewise.publish.stage.word_names import WordNames
from edgewise.trace import Trace
from edgewise.views.drawing.column import column
from edgewise.views.drawing.gate_symbols import Style
from edgewise.views.text import alt_text
from edgewise.words.messages import ENGLISH, Words

OF_CIRCUIT: Final = (*design_data.OF_FLAT, "outputs", "names")
"""What a circuit decides, whatever is done with it."""
SYMBOLS: Final[tuple[Style, ...]] = ("distinctive", "rectangular")
MOST_DRAWN: Final = 60_000
"""Characters of a figure that is packed in the other symbols too."""


@dataclass
class Packing:
    """What is packed so far.

    Parameters
    ----------
    wish : Stage
        Columns, opened parts, and the way to draw.
    deep : bool
        Whether the names of what is inside parts are packed too.
    words : Words
        In which wrong ideas are told.
    points : tuple of str
        What steps point at in the first of the sizes, the lesson's own.
    """

    wish: Stage
    deep: bool = False
    words: Words = ENGLISH
    points: tuple[str, ...] = ()
    circuits: list[Data] = field(default_factory=list)
    flats: list[Data] = field(default_factory=list)
    sizes: list[Data] = field(default_factory=list)
    _met: list[Circuit] = field(default_factory=list)
    _places: dict[str, int] = field(default_factory=dict)

    def data(self) -> Data:
        """Everything, as plain lists."""
        return {"circuits": self.circuits, "flats": self.flats, "sizes": self.sizes}

    def add(self, design: Design) -> None:
        """Pack one more size.

        Examples
        --------
        >>> from edgewise import catalogue
        >>> packing = Packing(Stage())
        >>> for words in (2, 5):
        ...     packing.add(catalogue.design("serial-accumulator", n=4, x=words))
        >>> [len(packing.sizes), len(packing.circuits)]
        [2, 1]
        """
        trace = reference.run(design, {operand.name: 0 for operand in design.operands})
        made = design_data.design(design, self.words)
        if design.circuit not in self._met:
            self._met.append(design.circuit)
            self.circuits.append(self._circuit(trace, made))
        self.sizes.append(
            {
                "circuit": self._met.index(design.circuit),
                **{key: value for key, value in made.items() if key not in OF_CIRCUIT},
                "title": alt_text.title(design, self.words),
                "columns": design_data.words(design, _columns(trace, self.wish.columns)),
                "misconceptions": list(self._misconceptions(design)),
            }
        )

    def _circuit(self, trace: Trace, made: Data) -> Data:
        design = trace.design
        names, words = design.netlist.names, WordNames(design)
        return {
            **{key: made[key] for key in OF_CIRCUIT},
            **({"names": {name: list(names[name]) for name in names}} if self.deep else {}),
            "stores": [store.data() for store in words.stores],
            "adders": [row.data() for row in adders(design, words)],
            "feedback": [one.data() for one in feedback(design, words)],
            "selectors": [one.data() for one in selectors(design, words)],
            # One for a phone only of the lesson's own: a first page waits for each.
            "figures": list(self._figures(trace, first=not self.circuits)),
        }

    def _figures(self, trace: Trace, *, first: bool) -> Iterator[Data]:
        """The figure as wished, then with parts closed, and each in the other symbols.

        All of them have the layout of the first, or of the same with its parts closed: symbols of
        either style have the same size.
        """
        wish = self.wish
        wanted = tuple(name for name in wish.opened if trace.design.circuit.part(name))
        points = self.points if first else ()
        wide = 0.0
        for opened in (wanted, ()) if wanted else ((),):
            for symbols in sorted(SYMBOLS, key=lambda style: style != wish.symbols):
                made = figure_template.skeleton(
                    trace,
                    opened=opened,
                    clock=wish.clock,
                    symbols=symbols,
                    points=points,
                    words=self.words,
                )
                wide = max(wide, made.width)
                if symbols == wish.symbols or len(made.svg) <= MOST_DRAWN:
                    yield {"symbols": symbols, "opened": list(opened), **made.data()}
        if first:
            yield from self._narrow(trace, wide, points)

    def _narrow(self, trace: Trace, width: float, points: Sequence[str]) -> Iterator[Data]:
        """The figure for a phone, if the other one is too wide and this one is not."""
        room, wish = column("phone").room, self.wish
        if width > room:
            made = figure_template.skeleton(
                trace,
                clock=wish.clock,
                symbols=wish.symbols,
                points=points,
                words=self.words,
                room=room,
            )
            if made.width <= room:
                yield {"symbols": wish.symbols, "opened": [], "narrow": True, **made.data()}

    def _misconceptions(self, design: Design) -> Iterator[list[Any]]:
        """Each wrong idea that changes the next row: its thought and how it computes one."""
        names = [flip_flop.name for flip_flop in design.netlist.flip_flops]
        for misconception, believed in next_row.ideas(design):
            theirs = [flip_flop.name for flip_flop in believed.netlist.flip_flops]
            flat, *fed = _step(believed)
            order = [theirs.index(name) for name in names]
            yield [misconception.said(self.words), self._flat(flat), *fed, order]

    def _flat(self, flat: Data) -> int:
        """Where a netlist is among those packed."""
        place = self._places.setdefault(json.dumps(flat), len(self.flats))
        if place == len(self.flats):
            self.flats.append(flat)
        return place


def _step(design: Design) -> tuple[Data, list[list[int]], list[int]]:
    """What computes the next row: netlist, feeds, schedule."""
    return design_data.flat(design.netlist), *design_data.schedule(design)


def _columns(trace: Trace, wanted: Sequence[str]) -> list[str]:
    """The wanted columns that are there at this size; the usual ones if none is."""
    found = []
    for name in wanted:
        try:
            trace.design.netlist.find(name)
        except EdgewiseError:
            continue
        found.append(name)
    return found or list(trace.columns)
