"""Statistics of questions against libraries and a textbook's worked example."""

from __future__ import annotations

import random
import warnings

import pytest
import scipy.stats

from edgewise.practice.marking import f_distribution, item_statistics


def class_of(items: int, learners: int, seed: int) -> list[list[float]]:
    """Scores of learners who differ in what they can do."""
    chance = random.Random(seed)  # noqa: S311  # cases, no secrets
    able = [chance.gauss(0, 1) for _ in range(learners)]
    return [
        [float(a + chance.gauss(0, 1.2) > item / 4 - 0.5) for a in able] for item in range(items)
    ]


@pytest.mark.parametrize("seed", range(8))
def test_the_f_distribution_is_scipys(seed: int) -> None:
    """SciPy, scipy.stats.f."""
    chance = random.Random(seed)  # noqa: S311  # cases, no secrets
    for _ in range(40):
        between, within = chance.randrange(1, 300), chance.randrange(1, 5000)
        ratio, probability = chance.uniform(0.01, 6), chance.uniform(0.005, 0.995)
        assert f_distribution.upper(ratio, between, within) == pytest.approx(
            scipy.stats.f.sf(ratio, between, within), abs=1e-9
        )
        assert f_distribution.point(probability, between, within) == pytest.approx(
            scipy.stats.f.isf(probability, between, within), rel=1e-8
        )


@pytest.mark.parametrize("seed", range(8))
def test_discrimination_is_scipys_point_biserial_correlation(seed: int) -> None:
    """SciPy, scipy.stats.pointbiserialr, with the sum of the other items."""
    items = class_of(6, 40, seed)
    for number, item in enumerate(items):
        rest = [sum(scores) - scores[number] for scores in zip(*items, strict=True)]
        expected = scipy.stats.pointbiserialr(item, rest).statistic
        assert item_statistics.discrimination(items, number) == pytest.approx(expected)


@pytest.mark.parametrize("seed", range(8))
def test_alpha_and_its_interval_are_pingouins(seed: int) -> None:
    """Pingouin, cronbach_alpha."""
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        import pandas as pd
        import pingouin

    items = class_of(7, 25 + 10 * seed, seed)
    table = pd.DataFrame({f"q{number}": item for number, item in enumerate(items)})
    expected, (low, high) = pingouin.cronbach_alpha(table)
    found = item_statistics.alpha(items)
    assert found is not None
    assert found.value == pytest.approx(expected)
    assert (found.low, found.high) == pytest.approx((low, high), abs=5e-4)  # it rounds to 3 places


def test_kr_20_is_what_its_formula_says() -> None:
    """Kuder and Richardson, Psychometrika 2(3), 1937, formula 20, over n as they have it."""
    items = class_of(9, 60, 3)
    learners, count = 60, len(items)
    shares = [sum(item) / learners for item in items]
    sums = [sum(scores) for scores in zip(*items, strict=True)]
    mean = sum(sums) / learners
    variance = sum((s - mean) ** 2 for s in sums) / learners
    kr_20 = count / (count - 1) * (1 - sum(p * (1 - p) for p in shares) / variance)
    found = item_statistics.alpha(items)
    assert found is not None
    assert found.value == pytest.approx(kr_20)


def test_equal_variants_are_scipys_one_way_analysis() -> None:
    """SciPy, scipy.stats.f_oneway."""
    chance = random.Random(9)  # noqa: S311  # cases, no secrets
    totals = {code: [chance.gauss(8, 2) for _ in range(12)] for code in ("K7", "M3", "R9")}
    found = item_statistics.equally_hard(totals)
    expected = scipy.stats.f_oneway(*totals.values())
    assert found is not None
    assert (found.ratio, found.probability) == pytest.approx((expected.statistic, expected.pvalue))


def test_what_has_no_value_has_none() -> None:
    assert item_statistics.alpha([[1, 0, 1]]) is None
    assert item_statistics.alpha([[1, 1, 1], [1, 1, 1]]) is None
    assert item_statistics.discrimination([[1, 1, 1], [0, 1, 1]], 0) is None
    assert item_statistics.equally_hard({"K7": [1.0, 2.0], "K8": [3.0]}) is None
    assert item_statistics.equally_hard({"K7": [1.0, 1.0], "K8": [3.0, 3.0]}) is None
    assert item_statistics.facility([], 4) is None
