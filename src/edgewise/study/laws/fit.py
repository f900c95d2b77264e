"""Laws: an exact formula for a count, found on a grid of parameters and checked on it.

The formula is a rational polynomial in the parameters, if need be with floor and ceiling of
a binary logarithm. It is solved for from as few designs as determine it and then has to give
the exact count of every other design on the grid, and of some beyond it: a formula that fits
by accident on a small grid fails there. That is evidence, never a proof for all parameters,
and is worded so.
"""

from __future__ import annotations

import itertools
from collections.abc import Callable, Iterator, Mapping, Sequence
from typing import Final

from edgewise.blueprint import Blueprint
from edgewise.design import Design
from edgewise.errors import DesignError, EdgewiseError, Message, Place, nearest
from edgewise.study.cost import gate_counts
from edgewise.study.laws.formula_families import Counted, Point, families
from edgewise.study.laws.hint import Accident, Hint, Later, TooFew
from edgewise.study.laws.law import Law
from edgewise.study.laws.solving import Fit, fit

MOST: Final = 5000
"""Designs on one grid, at most."""
_SPARE: Final = 2
"""For each design that determines a formula at least so many others must check it."""
_SKIPPED: Final = 3
"""Numbers of a parameter that a hint may leave out at the low end."""
_NEAR: Final = 4
"""Numbers of a parameter next to its range that are tried beyond it."""
_DOUBLINGS: Final = 2
"""Powers of two beyond a range that are tried, each with the next number: there logarithms rise."""
_BEYOND: Final = 20_000
"""Gates of all designs beyond a grid together, unless the grid itself has more."""

QUANTITIES: Final[Mapping[str, tuple[Callable[[Design], int], str]]] = {
    "edges": (lambda design: design.edges, "clock edges of the whole procedure"),
    "gates": (lambda design: gate_counts.gates(design.netlist), "gates; inverters don't count"),
    "flip-flops": (lambda design: gate_counts.flip_flops(design.netlist), "flip-flops"),
    "depth": (lambda design: gate_counts.depth(design.netlist), "gates on the critical path"),
}
"""What a law can be about: how it is counted, and what it is."""


def find(
    blueprint: Blueprint,
    quantity: str,
    over: Mapping[str, tuple[int, int]],
    fixed: Mapping[str, int] | None = None,
    progress: Callable[[int, int], None] | None = None,
    place: Place | None = None,
) -> Law:
    """Find the law of a count over a grid of parameters.

    Parameters
    ----------
    blueprint : Blueprint
    quantity : str
        One of `QUANTITIES`.
    over : mapping of str to (int, int)
        Parameters with their first and last number.
    fixed : mapping of str to int, optional
        Other parameters.
    progress : function, optional
        Told (designs done, designs in all).

    Raises
    ------
    DesignError
        Unknown quantity or parameter; an empty, too small or too large grid.

    Examples
    --------
    >>> from edgewise import catalogue
    >>> grid = {"n": (1, 8), "x": (2, 5)}
    >>> print(find(catalogue.find("serial-accumulator"), "edges", grid))
    edges = n*(x + 1)
    checked on 32 designs, n = 1 to 8, x = 2 to 5; on 26 beyond, with n up to 33, x up to 17
    6 of them determined the formula, the other 52 agree with it
    """
    if quantity not in QUANTITIES:
        raise DesignError(
            Message("count-unknown", name=quantity, suggestion=nearest(quantity, QUANTITIES)), place
        )
    for name in over:
        if name in (fixed or {}):
            raise DesignError(Message("range-and-number", name=name), place)
    names, points = _grid(blueprint, over, quantity, place)
    counting = _Counting(blueprint, quantity, names, fixed or {}, place)
    counts = []
    for done, point in enumerate(points, 1):
        counts.append((point, counting.at(point)))
        if progress:
            progress(done, len(points))
    given = counting.fixed
    ranges = tuple((name, *over[name]) for name in names)
    beyond = tuple(counting.beyond(over))
    found, hint = _sought(names, counts, beyond)
    if found is None and len(names) == 1:
        hint = _later(names[0], counts, beyond, quantity) or hint
    text, solved = (found.text, found.solved) if found else ("", 0)
    return Law(blueprint.name, quantity, ranges, text, tuple(counts), solved, given, hint, beyond)


class _Counting:
    """Designs counted one by one."""

    def __init__(
        self,
        blueprint: Blueprint,
        quantity: str,
        names: Sequence[str],
        fixed: Mapping[str, int],
        place: Place | None,
    ) -> None:
        self.count = QUANTITIES[quantity][0]
        # Edges need no circuit.
        self.bare = quantity == "edges"
        self.make = blueprint.timetable if self.bare else blueprint.design
        self.names, self.given, self.place = names, fixed, place
        self.order = [parameter.name for parameter in blueprint.parameters]
        self.gates = 0
        self.same: set[tuple[str, int]] | None = None

    def design(self, point: Point) -> Design:
        design = self.make({**self.given, **dict(zip(self.names, point, strict=True))})
        if not self.bare:
            self.gates += len(design.netlist.gates)
        return design

    def at(self, point: Point) -> int:
        """The count of a design that was asked for."""
        try:
            design = self.design(point)
        except EdgewiseError as wrong:
            case = ", ".join(f"{n}={v}" for n, v in zip(self.names, point, strict=True))
            raise DesignError(
                Message("within", what=case, told=wrong.parts()[0].told), self.place
            ) from None
        these = {item for item in design.parameters.items() if item[0] not in self.names}
        self.same = these if self.same is None else self.same & these
        return self.count(design)

    @property
    def fixed(self) -> tuple[tuple[str, int], ...]:
        """Other parameters that have one number in all designs asked for."""
        return tuple(sorted(self.same or (), key=lambda item: self.order.index(item[0])))

    def beyond(self, over: Mapping[str, tuple[int, int]]) -> Iterator[Counted]:
        """Designs with larger parameters, near ones first, while they are few gates together."""
        most = max(_BEYOND, self.gates)
        self.gates = 0
        for point in _further(over):
            if self.gates > most:
                return
            try:
                yield point, self.count(self.design(point))
            except EdgewiseError:
                continue  # no such design: the range of a parameter ends


def _further(over: Mapping[str, tuple[int, int]]) -> Iterator[Point]:
    """Points beyond a grid: each parameter by itself, the others at an end, then all together."""
    lows, highs = (tuple(ends) for ends in zip(*over.values(), strict=True))
    told = {highs}
    ways = [_after(high) for high in highs]
    for turn in range(max(map(len, ways))):
        row = tuple(way[min(turn, len(way) - 1)] for way in ways)
        others = lows if turn % 2 else highs
        alone = [(*others[:i], row[i], *others[i + 1 :]) for i in range(len(row))]
        for point in (*alone, row):
            if point not in told:
                told.add(point)
                yield point


def _after(high: int) -> list[int]:
    """Numbers beyond the last of a parameter, near ones first.

    Examples
    --------
    >>> _after(6)
    [7, 8, 9, 10, 12, 16, 17]
    """
    power = 1 << high.bit_length()
    powers = [power << i for i in range(_DOUBLINGS)]
    middle = power + power // 2
    return sorted({*range(high + 1, high + 1 + _NEAR), middle, *powers, *(p + 1 for p in powers)})


def _sought(
    names: Sequence[str],
    counts: Sequence[Counted],
    beyond: Sequence[Counted],
) -> tuple[Fit | None, Hint | None]:
    """The plainest formula that fits here and beyond; or a hint at why there is none."""
    numbers = {name: [point[i] for point, _ in counts] for i, name in enumerate(names)}
    hint: Hint | None = None
    for family in families(names, numbers):
        found = fit(family, counts)
        if found is None or found.solved == len(counts):
            continue  # as many unknowns as designs: the counts told anew, no law
        wrong = next((one for one in beyond if found.value(one[0]) != one[1]), None)
        if wrong:
            point, count = wrong
            case = tuple(zip(names, point, strict=True))
            hint = hint or Accident(found.text, len(counts), case, found.value(point), count)
            continue
        needed = found.solved + _checks(found.solved)
        if len(counts) + len(beyond) >= needed:
            return found, None
        # A formula with more in it would be no better founded.
        return None, TooFew(found.text, len(counts) + len(beyond), found.solved, needed)
    return None, hint


def _checks(solved: int) -> int:
    """How many designs must agree with a formula that so many determined."""
    return max(4, _SPARE * solved)


def _later(
    name: str,
    counts: Sequence[Counted],
    beyond: Sequence[Counted],
    quantity: str,
) -> Hint | None:
    """A hint at a formula that fits all but the first few numbers of the one parameter."""
    for skipped in range(1, min(_SKIPPED, len(counts) - 1) + 1):
        rest = counts[skipped:]
        found, _ = _sought([name], rest, beyond)
        if found:
            return Later(name, rest[0][0][0], f"{quantity} = {found.text}")
    return None


def _grid(
    blueprint: Blueprint, over: Mapping[str, tuple[int, int]], quantity: str, place: Place | None
) -> tuple[tuple[str, ...], list[Point]]:
    known = [parameter.name for parameter in blueprint.parameters]
    if not known:
        one = QUANTITIES[quantity][0](blueprint.design())
        raise DesignError(
            Message("law-parameters-none", design=blueprint.name, quantity=quantity, count=one),
            place,
        )
    if not over:
        raise DesignError(
            Message("law-over-missing", design=blueprint.name, names=", ".join(known)), place
        )
    size_ = 1
    for name, (low, high) in over.items():
        if name not in known:
            raise DesignError(
                Message(
                    "parameter-unknown",
                    owner=blueprint.name,
                    name=name,
                    suggestion=nearest(name, known),
                ),
                place,
            )
        if low > high:
            raise DesignError(Message("range-empty", name=name, low=low, high=high), place)
        size_ *= high - low + 1
    if not 4 <= size_ <= MOST:
        raise DesignError(
            Message("law-grid-designs", count=size_, most=MOST),
            place,
        )
    spans = [range(low, high + 1) for low, high in over.values()]
    return tuple(over), list(itertools.product(*spans))
