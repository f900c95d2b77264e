"""The F distribution: how likely a ratio of variances is by chance alone.

Through the regularised incomplete beta function, by its continued fraction: NIST Digital Library of
Mathematical Functions, 8.17.22, evaluated as W. J. Lentz does (Applied Optics 15(3), 1976).
"""

from __future__ import annotations

from math import exp, lgamma, log, log1p
from typing import Final

_TINY: Final = 1e-300
_EXACT: Final = 1e-15
_STEPS: Final = 10_000


def beta(x: float, a: float, b: float) -> float:
    """The regularised incomplete beta function I_x(a, b).

    Examples
    --------
    >>> round(beta(0.5, 2, 2), 12), round(beta(0.25, 1, 3), 6)
    (0.5, 0.578125)
    """
    if x <= 0 or x >= 1:
        return float(x >= 1)
    if x > (a + 1) / (a + b + 2):  # where the fraction converges slowly
        return 1 - beta(1 - x, b, a)
    front = exp(lgamma(a + b) - lgamma(a) - lgamma(b) + a * log(x) + b * log1p(-x)) / a
    c, d, value = 1.0, 0.0, 1.0
    for step in range(_STEPS):
        m = step // 2
        if step == 0:
            term = 1.0
        elif step % 2 == 0:
            term = m * (b - m) * x / ((a + 2 * m - 1) * (a + 2 * m))
        else:
            term = -(a + m) * (a + b + m) * x / ((a + 2 * m) * (a + 2 * m + 1))
        d = 1 / ((1 + term * d) or _TINY)
        c = (1 + term / c) or _TINY
        value *= c * d
        if abs(c * d - 1) < _EXACT:
            break
    return front * (value - 1)


def upper(f: float, between: float, within: float) -> float:
    """The probability of a larger ratio, for these degrees of freedom.

    Examples
    --------
    The tabled 5 % point for 3 and 20 degrees of freedom is 3.10:

    >>> round(upper(3.0984, 3, 20), 4)
    0.05
    """
    return beta(within / (within + between * f), within / 2, between / 2) if f > 0 else 1.0


def point(probability: float, between: float, within: float) -> float:
    """The ratio that is exceeded with a probability between 0 and 1.

    Examples
    --------
    >>> round(point(0.05, 3, 20), 2)
    3.1
    """
    low, high = 0.0, 1.0
    while upper(high, between, within) > probability and high < 1e12:
        low, high = high, 2 * high
    while high - low > _EXACT * high:
        middle = (low + high) / 2
        if not low < middle < high:
            break
        if upper(middle, between, within) > probability:
            low = middle
        else:
            high = middle
    return (low + high) / 2
