"""Laws: an exact formula for a count, found on a grid of parameters and checked on it.

The formula is a rational polynomial in the parameters, if need be with floor and ceiling of
a binary logarithm. It is solved for from as few designs as determine it and then has to give
the exact count of every other design on the grid. That is evidence, never a proof for all
parameters, and is worded so.
"""

from __future__ import annotations

import itertools
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import lcm
from typing import Any, Final

from edgewise.blueprint import Blueprint
from edgewise.design import Design
from edgewise.errors import DesignError, EdgewiseError, Place, nearest
from edgewise.formula import Node, parse
from edgewise.study import size
from edgewise.study.families import FAMILY, Point, Unit, families

MOST: Final = 5000
"""Designs on one grid, at most."""
_SPARE: Final = 2
"""For each design that determines a formula at least so many others must check it."""
_SKIPPED: Final = 3
"""Numbers of a parameter that a hint may leave out at the low end."""

QUANTITIES: Final[Mapping[str, tuple[Callable[[Design], int], str]]] = {
    "edges": (lambda design: design.edges, "clock edges of the whole procedure"),
    "gates": (lambda design: size.gates(design.netlist), "gates; inverters don't count"),
    "flip-flops": (lambda design: size.flip_flops(design.netlist), "flip-flops"),
    "depth": (lambda design: size.depth(design.netlist), "gates on the longest path"),
}
"""What a law can be about: how it is counted, and what it is."""


@dataclass(frozen=True, slots=True)
class Law:
    """What was found.

    Parameters
    ----------
    design, quantity : str
    ranges : tuple of (str, int, int)
        Each parameter of the grid with its first and last number.
    text : str
        The formula, in the formula language; empty where none of the family fits.
    counts : tuple of (Point, int)
        The count of each design on the grid.
    solved : int
        Number of designs that determined the formula; all others checked it.
    fixed : tuple of (str, int)
        Other parameters that have one number in all of them, given or by default.
    hint : str
        Where no formula is found: what stands in the way, if that is known.
    """

    design: str
    quantity: str
    ranges: tuple[tuple[str, int, int], ...]
    text: str
    counts: tuple[tuple[Point, int], ...]
    solved: int = 0
    fixed: tuple[tuple[str, int], ...] = ()
    hint: str = ""

    @property
    def formula(self) -> Node | None:
        """The formula as a tree, or nothing."""
        node: Node | None = parse(self.text) if self.text else None
        return node

    @property
    def checked(self) -> str:
        """How far it was checked: ``checked on 480 designs, n = 1 to 32, x = 2 to 16``."""
        over = [f"{name} = {low} to {high}" for name, low, high in self.ranges]
        over += [f"{name} = {value}" for name, value in self.fixed]
        return f"checked on {len(self.counts):,} designs, {', '.join(over)}"

    def __str__(self) -> str:
        if self.text:
            rest = len(self.counts) - self.solved
            return (
                f"{self.quantity} = {self.text}\n{self.checked}\n"
                f"{self.solved} of them determined the formula, the other {rest:,} agree with it"
            )
        of = f"the {self.quantity} of {self.design}"
        told = f"no formula found for {of}" if self.hint else f"no formula of the family fits {of}"
        return (
            f"{told}\ncounted on {self.checked.removeprefix('checked on ')}\n{self.hint or FAMILY}"
        )

    def text_table(self) -> str:
        """The counts: one parameter down, and of two or more the last across.

        Examples
        --------
        >>> from edgewise import catalogue
        >>> grid = {"n": (1, 3), "x": (2, 4)}
        >>> print(find(catalogue.find("serial-accumulator"), "edges", grid).text_table())
        n  x=2  x=3  x=4
        1    3    4    5
        2    6    8   10
        3    9   12   15
        """
        *down, across = [name for name, _, _ in self.ranges]
        if not down:
            pairs = [(str(point[0]), str(count)) for point, count in self.counts]
            return _aligned([(across, self.quantity), *pairs])
        tops = list(dict.fromkeys(point[-1] for point, _ in self.counts))
        rows: dict[Point, list[str]] = {}
        for point, count in self.counts:
            rows.setdefault(point[:-1], []).append(str(count))
        heading = [*down, *(f"{across}={top}" for top in tops)]
        return _aligned([heading, *([*map(str, p), *counts] for p, counts in rows.items())])

    def data(self) -> dict[str, Any]:
        """The law as plain dictionaries and lists."""
        names = [name for name, _, _ in self.ranges]
        return {
            "design": self.design,
            "quantity": self.quantity,
            "over": {name: [low, high] for name, low, high in self.ranges},
            "with": dict(self.fixed),
            "formula": self.text or None,
            "hint": self.hint or None,
            "checked": self.checked,
            "designs": len(self.counts),
            "determined by": self.solved,
            "counts": [
                {**dict(zip(names, point, strict=True)), self.quantity: count}
                for point, count in self.counts
            ],
        }


def _aligned(lines: Sequence[Sequence[str]]) -> str:
    widths = [max(len(line[i]) for line in lines) for i in range(len(lines[0]))]
    return "\n".join(
        "  ".join(cell.rjust(width) for cell, width in zip(line, widths, strict=True))
        for line in lines
    )


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
    checked on 32 designs, n = 1 to 8, x = 2 to 5
    6 of them determined the formula, the other 26 agree with it
    """
    if quantity not in QUANTITIES:
        raise DesignError(f"there is no count {quantity}{nearest(quantity, QUANTITIES)}", place)
    for name in over:
        if name in (fixed or {}):
            raise DesignError(f"{name} has a range and a number as well; leave one out", place)
    names, points = _grid(blueprint, over, place)
    counts, given = _counted(blueprint, quantity, names, points, fixed or {}, progress, place)
    ranges = tuple((name, *over[name]) for name in names)
    text, solved, hint = _sought(names, counts)
    if not text and not hint and len(names) == 1:
        hint = _later(names[0], counts, quantity)
    return Law(blueprint.name, quantity, ranges, text, tuple(counts), solved, given, hint)


def _counted(  # noqa: PLR0913, PLR0917  # what `find` was asked
    blueprint: Blueprint,
    quantity: str,
    names: Sequence[str],
    points: Sequence[Point],
    fixed: Mapping[str, int],
    progress: Callable[[int, int], None] | None,
    place: Place | None,
) -> tuple[list[tuple[Point, int]], tuple[tuple[str, int], ...]]:
    """The count of each design, and the other parameters that are the same in all of them."""
    count = QUANTITIES[quantity][0]
    # Edges need no circuit.
    make = blueprint.timetable if quantity == "edges" else blueprint.design
    counts: list[tuple[Point, int]] = []
    same: set[tuple[str, int]] | None = None
    for done, point in enumerate(points):
        chosen = dict(zip(names, point, strict=True))
        try:
            design = make({**fixed, **chosen})
        except EdgewiseError as wrong:
            case = ", ".join(f"{name}={value}" for name, value in chosen.items())
            raise DesignError(f"{case}: {wrong.parts()[0].message}", place) from None
        counts.append((point, count(design)))
        these = {item for item in design.parameters.items() if item[0] not in chosen}
        same = these if same is None else same & these
        if progress:
            progress(done + 1, len(points))
    order = [parameter.name for parameter in blueprint.parameters]
    return counts, tuple(sorted(same or (), key=lambda item: order.index(item[0])))


def _sought(names: Sequence[str], counts: Sequence[tuple[Point, int]]) -> tuple[str, int, str]:
    """The formula, how many designs determined it, and a hint where they are too few to tell."""
    lowest = {name: min(point[i] for point, _ in counts) for i, name in enumerate(names)}
    hint = ""
    for family in families(names, lowest):
        found = _solve(family, counts)
        if not found:
            continue
        coefficients, solved = found
        text, needed = _written(family, coefficients), solved + _checks(solved)
        if len(counts) >= needed:
            return text, solved, ""
        if not hint and len(counts) >= 2 * solved:
            hint = (
                f"too few to tell: {text} agrees with all {len(counts)}, but {solved} of them"
                f" determined it; a law like this needs {needed} designs or more"
            )
    return "", 0, hint


def _checks(solved: int) -> int:
    """How many designs must agree with a formula that so many determined."""
    return max(4, _SPARE * solved)


def _later(name: str, counts: Sequence[tuple[Point, int]], quantity: str) -> str:
    """A hint at a formula that fits all but the first few numbers of the one parameter."""
    for skipped in range(1, _SKIPPED + 1):
        rest = counts[skipped:]
        text = _sought([name], rest)[0] if rest else ""
        if text:
            return (
                f"from {name} = {rest[0][0][0]} on, {quantity} = {text} fits, so let {name} begin"
                " there"
            )
    return ""


def _grid(
    blueprint: Blueprint, over: Mapping[str, tuple[int, int]], place: Place | None
) -> tuple[tuple[str, ...], list[Point]]:
    known = [parameter.name for parameter in blueprint.parameters]
    if not over:
        raise DesignError(
            f"say over which parameters, for example n=1..16; {blueprint.name} has"
            f" {', '.join(known) or 'none'}",
            place,
        )
    size_ = 1
    for name, (low, high) in over.items():
        if name not in known:
            raise DesignError(
                f"{blueprint.name} has no parameter {name}{nearest(name, known)}", place
            )
        if low > high:
            raise DesignError(f"{name} = {low}..{high} is empty; write low..high", place)
        size_ *= high - low + 1
    if not 4 <= size_ <= MOST:
        raise DesignError(
            f"this grid has {size_:,} design{'s' * (size_ != 1)}; a law needs 4 to {MOST:,} of"
            " them",
            place,
        )
    spans = [range(low, high + 1) for low, high in over.values()]
    return tuple(over), list(itertools.product(*spans))


# ---------------------------------------------------------------------- solving


def _solve(
    family: Sequence[Unit], counts: Sequence[tuple[Point, int]]
) -> tuple[list[Fraction], int] | None:
    """Coefficients that give every count exactly, and how many designs determined them.

    All others checked them; the caller judges whether those are enough.

    Designs are taken one by one into a triangular system of equations; one that says nothing
    new about the coefficients must agree with them, and so checks them.
    """
    width = len(family)
    pivots: dict[int, list[Fraction]] = {}
    for point, count in counts:
        row = [Fraction(unit.value(point)) for unit in family] + [Fraction(count)]
        for column in range(width):
            if row[column] and column in pivots:
                factor = row[column]
                row = [a - factor * b for a, b in zip(row, pivots[column], strict=True)]
        lead = next((c for c in range(width) if row[c]), None)
        if lead is not None:
            pivots[lead] = [a / row[lead] for a in row]
        elif row[-1]:
            return None
    coefficients = [Fraction(0)] * width  # what the grid leaves open is taken as 0
    for column in sorted(pivots, reverse=True):
        row = pivots[column]
        rest = sum((row[c] * coefficients[c] for c in range(column + 1, width)), start=Fraction(0))
        coefficients[column] = row[-1] - rest
    return coefficients, len(pivots)


# ---------------------------------------------------------------------- writing


def _written(family: Sequence[Unit], coefficients: Sequence[Fraction]) -> str:
    """The formula as text: over one denominator, with a common factor taken out."""
    terms = [(dict(u.factors), c) for u, c in zip(family, coefficients, strict=True) if c]
    if not terms:
        return "0"
    below = lcm(*(c.denominator for _, c in terms))
    whole = [(factors, int(c * below)) for factors, c in terms]
    shared = {
        name: least
        for name in whole[0][0]
        if (least := min(factors.get(name, 0) for factors, _ in whole))
    }
    if len(whole) == 1 or not shared:
        text = _sum(whole)
    else:
        inner = [
            ({n: e - shared.get(n, 0) for n, e in factors.items() if e > shared.get(n, 0)}, c)
            for factors, c in whole
        ]
        text = f"{_product(shared, 1)}*({_sum(inner)})"
    return f"({text}) div {below}" if below > 1 else text


def _sum(terms: Sequence[tuple[Mapping[str, int], int]]) -> str:
    text = ""
    for factors, coefficient in terms:
        sign = (" - " if coefficient < 0 else " + ") if text else ("-" if coefficient < 0 else "")
        text += sign + _product(factors, abs(coefficient))
    return text


def _product(factors: Mapping[str, int], coefficient: int) -> str:
    texts = [f"{name}**{power}" if power > 1 else name for name, power in factors.items()]
    if coefficient != 1 or not texts:
        texts.insert(0, str(coefficient))
    return "*".join(texts)
