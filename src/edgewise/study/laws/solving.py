"""Fitting: the formula of a family that gives every count exactly, and how it is written."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import lcm

from edgewise.study.laws.formula_families import Counted, Point, Unit


@dataclass(frozen=True, slots=True)
class Fit:
    """A formula that gives every count exactly.

    Parameters
    ----------
    family : tuple of Unit
    coefficients : tuple of Fraction
        Of each unit.
    solved : int
        How many designs determined them; all others checked them.
    """

    family: tuple[Unit, ...]
    coefficients: tuple[Fraction, ...]
    solved: int

    def value(self, point: Point) -> Fraction:
        """What the formula gives for a design."""
        terms = zip(self.family, self.coefficients, strict=True)
        return sum((c * unit.value(point) for unit, c in terms if c), start=Fraction(0))

    @property
    def text(self) -> str:
        """The formula in the formula language: over one denominator, a common factor out."""
        return _written(self.family, self.coefficients)


def fit(family: Sequence[Unit], counts: Sequence[Counted]) -> Fit | None:
    """The formula of a family that gives every count exactly, if there is one.

    Designs are taken one by one into a triangular system of equations; one that says nothing
    new about the coefficients must agree with them, and so checks them. Where the designs leave
    a coefficient open, it is 0, and of units that can't be told apart the plainest is taken.

    Examples
    --------
    >>> from edgewise.study.laws.formula_families import families
    >>> *_, squares = list(families(["n"], {"n": [1, 2, 3, 4]}))[:3]
    >>> fit(squares, [((1,), 1), ((2,), 3), ((3,), 6), ((4,), 10)]).text
    '(n*(n + 1)) div 2'
    """
    family = family[::-1]  # the plainest first
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
    return Fit(tuple(family[::-1]), tuple(coefficients[::-1]), len(pivots))


def _written(family: Sequence[Unit], coefficients: Sequence[Fraction]) -> str:
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
