"""Charts of comparisons."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from lxml import etree

from edgewise import catalogue
from edgewise.errors import DesignError
from edgewise.lesson import charts
from edgewise.study.compare.comparison import Comparison, compare

Golden = Callable[[str, str], None]
NAMES = ("carry-lookahead-adder", "ripple-carry-adder", "serial-adder", "brent-kung-adder")


def found(low: int = 4, high: int = 32, *, activity: bool = False) -> Comparison:
    return compare([catalogue.find(n) for n in NAMES], {"n": (low, high)}, activity=activity)


def test_whole_charts(golden: Golden) -> None:
    golden("chart-time.svg", charts.chart(found(), "time").svg())
    golden("chart-area-delay.svg", charts.chart(found(), "area-delay").svg())


@pytest.mark.parametrize("kind", [kind for kind in charts.KINDS if kind != "period"])
@pytest.mark.parametrize("high", [4, 9])
def test_every_chart_names_every_design(kind: str, high: int) -> None:
    chart = charts.chart(found(4, high, activity=True), kind).svg()
    written = {text for text in etree.fromstring(chart.encode()).itertext() if text}
    assert set(NAMES) <= written


def test_errors() -> None:
    with pytest.raises(DesignError) as caught:
        charts.chart(found(4, 5), "tme")
    assert str(caught.value) == "there is no chart tme; did you mean time?"
    with pytest.raises(DesignError) as caught:
        charts.chart(found(4, 5), "area-delay", 9)
    assert str(caught.value) == "n = 9 was not compared; expected 4..5"
    with pytest.raises(DesignError) as caught:
        charts.chart(found(4, 5), "toggles")
    assert str(caught.value) == "toggles were not counted; compare with activity"


def test_a_design_without_a_clock_has_no_period() -> None:
    chart = charts.chart(found(4, 9), "period").svg()
    written = {text for text in etree.fromstring(chart.encode()).itertext() if text}
    assert written & set(NAMES) == {"serial-adder"}
    adders = [catalogue.find(name) for name in NAMES[:2]]
    with pytest.raises(DesignError) as caught:
        charts.chart(compare(adders, {"n": (4, 5)}), "period")
    assert str(caught.value) == "chart: period: no design here has a clock"
