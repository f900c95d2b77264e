"""What marks say of the questions: facility, discrimination, reliability, equal variants.

Definitions as in F. M. Lord and M. R. Novick, *Statistical Theories of Mental Test Scores*, 1968,
chapters 4 and 15 (from memory); each function names its own.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import sqrt
from statistics import fmean

from edgewise.practice.marking import f_distribution

LEVEL = 0.95
"""Of the interval of alpha."""
Scores = Sequence[Sequence[float]]
"""For each item, the score of each learner."""


@dataclass(frozen=True, slots=True)
class Interval:
    """A number and the ends of its interval."""

    value: float
    low: float
    high: float


@dataclass(frozen=True, slots=True)
class Variance:
    """Whether groups differ by more than chance.

    Parameters
    ----------
    ratio : float
        F, of the variance between groups to that within.
    between, within : int
        Degrees of freedom.
    probability : float
        Of a ratio at least as large by chance.
    """

    ratio: float
    between: int
    within: int
    probability: float


def facility(scores: Sequence[float], most: float) -> float | None:
    """The mean score as a share of all there is to get; 1 is easy.

    Examples
    --------
    >>> facility([4, 2, 0, 2], 4)
    0.5
    """
    return fmean(scores) / most if scores else None


def correlation(one: Sequence[float], other: Sequence[float]) -> float | None:
    """Pearson's r; None where one of the two is the same for all.

    Where `one` is 0 or 1 it is the point-biserial correlation.

    Examples
    --------
    >>> correlation([0, 0, 1, 1], [1, 2, 3, 4]), correlation([1, 1], [2, 3])
    (0.8944271909999159, None)
    """
    if len(one) < 2:
        return None
    mean, mean_other = fmean(one), fmean(other)
    apart = [value - mean for value in one]
    apart_other = [value - mean_other for value in other]
    size = sum(value * value for value in apart) * sum(value * value for value in apart_other)
    if size < 1e-18:
        return None
    return sum(a * b for a, b in zip(apart, apart_other, strict=True)) / sqrt(size)


def discrimination(items: Scores, item: int) -> float | None:
    """The correlation of an item with the sum of the others; high where good learners get it.

    The item itself is left out of the sum, which it would otherwise agree with (R. L. Ebel and
    D. A. Frisbie, *Essentials of Educational Measurement*, 1991, chapter 13, from memory).

    Examples
    --------
    >>> discrimination([[0, 0, 1, 1], [0, 1, 1, 1], [0, 0, 0, 1]], 0)
    0.7071067811865475
    """
    others = [scores for number, scores in enumerate(items) if number != item]
    if not others:
        return None
    return correlation(items[item], [sum(scores) for scores in zip(*others, strict=True)])


def alpha(items: Scores) -> Interval | None:
    """Cronbach's alpha, how far the items measure one thing, with its interval at `LEVEL`.

    L. J. Cronbach, Psychometrika 16(3), 1951, 297-334; where every score is 0 or 1 it is the
    formula 20 of G. F. Kuder and M. W. Richardson, Psychometrika 2(3), 1937, 151-160. The interval:
    L. S. Feldt, Psychometrika 30(3), 1965, 357-370. None for fewer than two items or three
    learners, or where all have the same sum.

    Examples
    --------
    >>> found = alpha([[0, 0, 1, 1], [0, 1, 1, 1], [0, 0, 0, 1]])
    >>> round(found.value, 4), found.low < found.value < found.high
    (0.75, True)
    """
    if len(items) < 2:
        return None
    totals = [sum(scores) for scores in zip(*items, strict=True)]
    return _alpha(len(items), sum(map(_variance, items)) if totals[1:] else 0, totals)


def kr_20(right: Sequence[int], totals: Sequence[int]) -> Interval | None:
    """The same for items that are right or wrong.

    Parameters
    ----------
    right : sequence of int
        How many learners have each item right.
    totals : sequence of int
        How many items each learner has right.

    Examples
    --------
    >>> kr_20([2, 3, 1], [0, 1, 2, 3]) == alpha([[0, 0, 1, 1], [0, 1, 1, 1], [0, 0, 0, 1]])
    True
    """
    learners = len(totals)
    if len(right) < 2 or learners < 3:
        return None
    spread = sum(n * (learners - n) for n in right) / (learners * (learners - 1))
    return _alpha(len(right), spread, totals)


def _alpha(count: int, spread: float, totals: Sequence[float]) -> Interval | None:
    """Alpha of so many items, from the sum of their variances and the sums of the learners."""
    learners = len(totals)
    if learners < 3 or (total := _variance(totals)) < 1e-12:
        return None
    value = count / (count - 1) * (1 - spread / total)
    between, within = learners - 1, (learners - 1) * (count - 1)
    tail = (1 - LEVEL) / 2
    low, high = (f_distribution.point(p, between, within) for p in (tail, 1 - tail))
    return Interval(value, 1 - (1 - value) * low, 1 - (1 - value) * high)


def _variance(values: Sequence[float]) -> float:
    mean = fmean(values)
    return sum((value - mean) ** 2 for value in values) / (len(values) - 1)


def equally_hard(totals: Mapping[str, Sequence[float]]) -> Variance | None:
    """Whether the marks of the variants differ by more than chance: one-way analysis of variance.

    R. A. Fisher, *Statistical Methods for Research Workers*, 1925, chapter 7. None where there are
    fewer than two variants that two learners or more have written, or where all marks in each are
    the same.

    Examples
    --------
    >>> found = equally_hard({"K7": [6, 8, 4, 5, 3, 4], "K8": [8, 12, 9, 11, 6, 8]})
    >>> found.ratio, found.between, found.within, round(found.probability, 3)
    (12.0, 1, 10, 0.006)
    """
    groups = [values for values in totals.values() if len(values) >= 2]
    if len(groups) < 2:
        return None
    everyone = [value for values in groups for value in values]
    mean = fmean(everyone)
    between, within = len(groups) - 1, len(everyone) - len(groups)
    explained = sum(len(values) * (fmean(values) - mean) ** 2 for values in groups)
    left = sum((value - fmean(values)) ** 2 for values in groups for value in values)
    if left < 1e-12:
        return None
    ratio = explained / between / (left / within)
    return Variance(ratio, between, within, f_distribution.upper(ratio, between, within))
