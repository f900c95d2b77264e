"""The formulas that a law is sought among, the plainest first."""

from __future__ import annotations

import itertools
import re
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Final, TypeAlias

Point: TypeAlias = tuple[int, ...]
"""One number for each parameter of a grid."""
Counted: TypeAlias = tuple[Point, int]
"""A design and its count."""


@dataclass(frozen=True, slots=True)
class Unit:
    """A product of powers of parameters and logarithms, one summand of a formula."""

    factors: tuple[tuple[str, int], ...]
    """Text of each factor with its exponent: ``(("n", 2), ("ceil_log2(n)", 1))``."""
    value: Callable[[Point], int]


Atoms: TypeAlias = Mapping[str, Callable[[int], int]]
"""What formulas are made of: the text of each, with ``p`` for the parameter, and its value."""


def _log(value: int) -> int:
    return (value - 1).bit_length()


_ATOMS: Final[tuple[Atoms, ...]] = (
    # Trees of two: bits of a counter, levels of a network that joins pairs.
    {"floor_log2(p)": lambda p: p.bit_length() - 1},
    {"ceil_log2(p)": _log},
    # The same where the last place is a special case, or the last level not full.
    {"ceil_log2(p)": _log, "ceil_log2(p - 1)": lambda p: _log(p - 1)},
    {"ceil_log2(p)": _log, "2**ceil_log2(p)": lambda p: 1 << _log(p)},
    # Counters that go all the way round.
    {"2**p": lambda p: 1 << p},
    # Groups of four: how many, what is left over, levels of lookahead.
    {"(p mod 4)": lambda p: p % 4},
    {"(p div 4)": lambda p: p // 4},
    {"((p + 3) div 4)": lambda p: (p + 3) // 4},
    {"((ceil_log2(p) + 1) div 2)": lambda p: (_log(p) + 1) // 2},
)
"""What a formula may have beside the parameters themselves, of one parameter at a time."""


def _plain(names: Sequence[str]) -> dict[str, Callable[[Point], int]]:
    return {name: (lambda point, i=i: point[i]) for i, name in enumerate(names)}  # type: ignore[misc]


def _others(
    names: Sequence[str], numbers: Mapping[str, Sequence[int]]
) -> Iterator[dict[str, Callable[[Point], int]]]:
    for (i, name), atoms in itertools.product(enumerate(names), _ATOMS):
        if min(numbers[name]) < (2 if any("p - 1" in text for text in atoms) else 1):
            continue  # a logarithm would have no value
        if any(_straight(of, numbers[name]) for of in atoms.values()):
            continue  # here it is a number or a multiple of p, and would say nothing
        yield {
            re.sub(r"\bp\b", name, text): (lambda point, i=i, of=of: of(point[i]))  # type: ignore[misc]
            for text, of in atoms.items()
        }


def _straight(of: Callable[[int], int], numbers: Sequence[int]) -> bool:
    """Whether an atom lies on a straight line for these numbers of its parameter."""
    first, *rest = sorted(set(numbers))
    slopes = {Fraction(of(p) - of(first), p - first) for p in rest}
    return len(slopes) < 2


def _products(atoms: Mapping[str, Callable[[Point], int]], degree: int) -> list[Unit]:
    """All products of at most `degree` atoms, the highest first, 1 the last."""
    units = []
    for total in range(degree, -1, -1):
        for chosen in itertools.combinations_with_replacement(atoms, total):
            powers = {name: chosen.count(name) for name in dict.fromkeys(chosen)}

            def value(point: Point, chosen: tuple[str, ...] = chosen) -> int:
                product = 1
                for name in chosen:
                    product *= atoms[name](point)
                return product

            units.append(Unit(tuple(powers.items()), value))
    return units


def families(
    names: Sequence[str], numbers: Mapping[str, Sequence[int]]
) -> Iterator[tuple[Unit, ...]]:
    """Sets of summands to try, the plainest first; the first that fits is taken.

    Polynomials up to degree 3; those with more atoms, of degree 1, then with products of two
    different ones, then of degree 2. Atoms that are constant or straight over the numbers of
    their parameter are left out.

    Parameters
    ----------
    names : sequence of str
        The parameters.
    numbers : mapping of str to sequence of int
        The numbers of each.

    Examples
    --------
    >>> found = families(["n"], {"n": [1, 2, 3, 4]})
    >>> [unit.factors for unit in list(found)[1]]
    [(('n', 1),), ()]
    """
    plain = _plain(names)
    for degree in (0, 1, 2, 3):
        yield tuple(_products(plain, degree))
    others = list(_others(names, numbers))
    for other in others:
        yield tuple(_products({**plain, **other}, 1))
    for other in others:
        units = _products({**plain, **other}, 2)
        yield tuple(unit for unit in units if all(power == 1 for _, power in unit.factors))
    for other in others:
        yield tuple(_products({**plain, **other}, 2))
