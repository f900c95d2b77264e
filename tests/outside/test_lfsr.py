"""Periods of linear feedback shift registers.

Outside: the taps of P. Alfke, XAPP052, 1996 (`data/lfsr_taps.json`; from memory, checked); S.
Golomb, *Shift Register Sequences* (from memory); the number of maximal polynomials, phi(2**n - 1)
/ n (OEIS A011260, from memory); C. Maxfield's count of maximal tap sets for 10 bits, by number of
taps; the library galois for primitive polynomials.
"""

from __future__ import annotations

import json
from collections import Counter
from collections.abc import Sequence
from itertools import groupby
from pathlib import Path

import galois
import pytest

from edgewise import catalogue
from edgewise.catalogue import lfsr
from edgewise.engines.reference import run

TAPS = json.loads((Path(__file__).parent / "data" / "lfsr_taps.json").read_text("utf-8"))


def states(n: int, edges: int, taps: int = 0) -> list[int]:
    design = catalogue.design("lfsr", n=n, taps=taps, k=edges)
    trace = run(design, {})
    return [trace.word("state", row).value for row in range(edges + 1)]


def polynomial(n: int, taps: Sequence[int]) -> galois.Poly:
    """The polynomial x**n + x**(n - tap) + … + 1 of the recurrence."""
    return galois.Poly.Degrees([n, *(n - tap for tap in taps)])


def test_taps_of_the_table() -> None:
    assert {str(n): list(lfsr.taps(n)) for n in range(3, 65)} == {
        n: row["taps"] for n, row in TAPS.items()
    }


@pytest.mark.parametrize("n", range(2, 13))
def test_the_period_is_maximal(n: int) -> None:
    period = (1 << n) - 1
    found = states(n, period)
    assert found[-1] == found[0]
    assert len(set(found)) == period
    assert 0 not in found


@pytest.mark.parametrize("n", range(2, 33))
def test_polynomials_are_primitive(n: int) -> None:
    assert polynomial(n, lfsr.taps(n)).is_primitive()


@pytest.mark.parametrize(("n", "number"), [(2, 1), (3, 2), (4, 2), (5, 6), (6, 6), (7, 18)])
def test_number_of_maximal_tap_sets(n: int, number: int) -> None:
    """phi(2**n - 1) / n of them; each is tried by running the register."""
    period = (1 << n) - 1
    maximal = [
        taps for taps in range(1 << n - 1, 1 << n) if len(set(states(n, period, taps))) == period
    ]
    assert len(maximal) == number


def test_maximal_tap_sets_of_ten_bits() -> None:
    """2 of two taps, 20 of four, 28 of six, 10 of eight (Maxfield)."""
    found: Counter[int] = Counter()
    for taps in range(1 << 9, 1 << 10):
        chosen = lfsr.taps(10, taps)
        if polynomial(10, chosen).is_primitive():
            found[len(chosen)] += 1
    assert found == {2: 2, 4: 20, 6: 28, 8: 10}


@pytest.mark.parametrize("n", [4, 7, 9])
def test_golombs_postulates(n: int) -> None:
    """In a period 2**(n-1) ones; half the runs are of length 1, a quarter of length 2, …."""
    period = (1 << n) - 1
    bits = [state >> n - 1 for state in states(n, period)[:-1]]
    assert sum(bits) == 1 << n - 1
    turn = next(i for i in range(period) if bits[i] != bits[i - 1])
    runs = Counter(len(list(group)) for _, group in groupby(bits[turn:] + bits[:turn]))
    total = sum(runs.values())
    assert all(runs[length] == total >> length for length in range(1, n - 1))


def test_irreducible_is_not_primitive() -> None:
    """Exponents 8 4 3 1 0 (irreducible) give period 51, exponents 8 4 3 2 0 (primitive) 255."""
    short, full = (
        sum(1 << 8 - degree - 1 for degree in degrees) for degrees in ((4, 3, 1, 0), (4, 3, 2, 0))
    )
    assert len(set(states(8, 255, short))) == 51
    assert len(set(states(8, 255, full))) == 255


def test_it_stays_in_zero() -> None:
    design = catalogue.design("lfsr", n=5, start=0, k=7)
    assert run(design, {}).word("state", 7).value == 0
