"""Complete sums: what the known bits alone decide of a part, where its gates leave it unknown.

A full adder with a = 1, b = X and a carry in of 1 gives a carry whatever b is, but its gates,
looked at one by one, say X: b AND a is unknown, and so is carry-in AND (b XOR a). The sum of *all*
prime implicants (A. Blake, *Canonical Expressions in Boolean Algebra*, 1937) knows: evaluated with
X it gives a known bit exactly where all completions of the X agree. For the carry that is
``a b + carry-in a + carry-in b``.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import product
from typing import TypeAlias

from edgewise.bits import Bit
from edgewise.circuit.truth import B, Logic

Literal: TypeAlias = int
"""Twice a net, plus 1: true where the net is 1; without the 1: where it is 0."""
Condition: TypeAlias = tuple[str, int, Bit]
"""A literal before nets have numbers: the net's name, its index, and the bit that makes it true."""


@dataclass(frozen=True, slots=True)
class Product:
    """True where all of `every` are, and any of `some` if there are some.

    Multiplied out, it stands for as many implicants as `some` has literals.
    """

    every: tuple[Literal, ...]
    some: tuple[Literal, ...] = ()


@dataclass(frozen=True, slots=True)
class Cover:
    """A complete sum over nets.

    Examples
    --------
    >>> from edgewise.circuit.truth import KLEENE
    >>> carry = Cover((Product((9, 11)), Product((13,), (9, 11))))  # of the nets 4, 5 and 6
    >>> sorted(carry.nets), carry.value({4: 1, 5: 2, 6: 1}, KLEENE)
    ([4, 5, 6], 1)
    """

    products: tuple[Product, ...]

    @property
    def nets(self) -> frozenset[int]:
        """The nets that it reads."""
        return frozenset(
            literal >> 1 for one in self.products for literal in (*one.every, *one.some)
        )

    def value(self, row: Sequence[B] | Mapping[int, B], logic: Logic[B]) -> B:
        """The bit that it gives for the bits of its nets."""

        def bit(literal: Literal) -> B:
            return row[literal >> 1] if literal & 1 else logic.bit_not(row[literal >> 1])

        return logic.any_of(
            [logic.constant(0)]
            + [
                logic.all_of(
                    [*map(bit, one.every)]
                    + ([logic.any_of([*map(bit, one.some)])] if one.some else [])
                )
                for one in self.products
            ]
        )

    def over(self, net: Callable[[int], int]) -> Cover:
        """The same over other nets: `net` of each."""

        def moved(literals: tuple[Literal, ...]) -> tuple[Literal, ...]:
            return tuple([2 * net(literal >> 1) + (literal & 1) for literal in literals])

        return Cover(tuple([Product(moved(one.every), moved(one.some)) for one in self.products]))


@dataclass(frozen=True, slots=True)
class Terms:
    """A product before its nets have numbers."""

    every: tuple[Condition, ...]
    some: tuple[Condition, ...] = ()


@dataclass(frozen=True, slots=True)
class Decided:
    """What decides one gate or flip-flop inside a part, beside its own inputs.

    Parameters
    ----------
    name : str
        Of the gate or flip-flop in the circuit inside the part.
    sum : tuple of Terms
        A complete sum over nets of that circuit.
    """

    name: str
    sum: tuple[Terms, ...]

    def cover(self, nets: Mapping[str, Sequence[int]]) -> Cover:
        """The sum over net numbers."""

        def numbered(conditions: tuple[Condition, ...]) -> tuple[Literal, ...]:
            return tuple([2 * nets[net][index] + bit for net, index, bit in conditions])

        return Cover(tuple([Product(numbered(t.every), numbered(t.some)) for t in self.sum]))


@lru_cache(maxsize=64)
def primes(function: Callable[..., Bit], inputs: int) -> tuple[tuple[tuple[int, Bit], ...], ...]:
    """All prime implicants of a function of few bits: positions with the bits they need.

    Examples
    --------
    >>> primes(lambda a, b, c: (a + b + c) // 2, 3)
    (((0, 1), (1, 1)), ((0, 1), (2, 1)), ((1, 1), (2, 1)))
    """
    cubes = sorted(product((0, 1, None), repeat=inputs), key=lambda cube: -cube.count(None))
    found: list[tuple[tuple[int, Bit], ...]] = []
    for cube in cubes:  # the widest first, so that one inside another is left out
        literals = tuple((i, bit) for i, bit in enumerate(cube) if bit is not None)
        if any(set(one) <= set(literals) for one in found):
            continue
        free = [(0, 1) if bit is None else (bit,) for bit in cube]
        if all(function(*bits) for bits in product(*free)):
            found.append(literals)
    return tuple(sorted(found))
