"""Toggles of a sample against all there are, counted once more.

Outside: the definition of the standard error of a mean (common practice, no source), and Python's
`statistics`. All changes of small adders are counted one by one by functions written here; then
the means of many samples must scatter about the true mean as widely as their errors say.
"""

from __future__ import annotations

from fractions import Fraction
from itertools import product
from statistics import fmean, pstdev

import pytest

from edgewise import catalogue
from edgewise.study.cost import switching

SAMPLES = 150
RESULTS = 64


def ripple(a: int, b: int, n: int) -> list[int]:
    """Outputs of all gates of a half adder and n - 1 full adders of five gates each."""
    bits, carry = [], 0
    for i in range(n):
        x, y = a >> i & 1, b >> i & 1
        if i == 0:
            bits += [x ^ y, x & y]
            carry = x & y
        else:
            bits += [x ^ y, x & y, x ^ y ^ carry, (x ^ y) & carry]
            carry = x & y | (x ^ y) & carry
            bits.append(carry)
    return bits


def true_mean(n: int) -> Fraction:
    """Of all changes from one pair of operands to another, each as likely."""
    rows = [ripple(a, b, n) for a, b in product(range(1 << n), repeat=2)]
    ones = [sum(column) for column in zip(*rows, strict=True)]
    return sum((Fraction(2 * k * (len(rows) - k), len(rows) ** 2) for k in ones), Fraction(0))


def shifted(n: int) -> Fraction:
    """A word enters a register of zeros, LSB first: a stage toggles where a bit follows another.

    Of stage i, counted from the input, all bits but the last i come by: the first toggles it with
    probability 1/2 against the 0 that was there, and each further one against the bit before.
    """
    return Fraction(sum(n - i for i in range(n)), 2)


@pytest.mark.parametrize(
    ("name", "n", "mean"),
    [
        ("ripple-carry-adder-without-carry-in", 3, true_mean(3)),
        ("ripple-carry-adder-without-carry-in", 5, true_mean(5)),
        ("serial-in-parallel-out", 6, shifted(6)),
    ],
)
def test_errors_are_as_large_as_they_say(name: str, n: int, mean: Fraction) -> None:
    design = catalogue.design(name, n=n)
    found = [switching.toggles(design, RESULTS, seed) for seed in range(SAMPLES)]
    means = [float(one.mean) for one in found]
    errors = [float(one.variance) ** 0.5 for one in found]
    assert abs(fmean(means) - mean) < 4 * fmean(errors) / SAMPLES**0.5
    assert 0.8 < pstdev(means) / fmean(errors) < 1.2
    within = sum(abs(m - mean) <= 2 * e for m, e in zip(means, errors, strict=True))
    assert 0.9 < within / SAMPLES <= 1


def test_what_never_varies_has_no_error() -> None:
    found = switching.toggles(catalogue.design("binary-counter", n=4, k=16))
    assert found.variance == 0
    assert found.total % switching.RESULTS == 0
