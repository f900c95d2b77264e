"""Charts: where names stand, what scales hold, and that the same figures give the same picture."""

from __future__ import annotations

import subprocess
import sys
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st
from lxml import etree

from edgewise.views.charts.axes import LINE, Scale, spread
from edgewise.views.charts.curves import Axis, Chart, Curve, Spot, curves, plane
from edgewise.views.drawing import export, theme
from edgewise.words import messages

SVG = "{http://www.w3.org/2000/svg}"
CURVES = [
    Curve("tide table", ((4.0, 10.0), (8.0, 18.0), (16.0, 34.0))),
    Curve("bakery counter", ((4.0, 9.0), (8.0, 11.0), (16.0, 13.0))),
    Curve("ferry gate", ((4.0, 9.0), (8.0, 11.5), (16.0, 13.0))),
]
SPOTS = [
    Spot("a", 28, 10, best=True),
    Spot("b", 40, 8, best=True),
    Spot("c", 90, 90),
    Spot("d", 90, 90),
]


def test_numbers_are_written_as_the_language_does() -> None:
    high = [Curve("tide table", ((4, 1000.5), (8, 1.5)))]
    for language, sign in (("en", ","), ("de", ".")):
        words = messages.of(language)
        chart = Chart(tuple(high), Axis("n"), Axis("t", log=False), "T", words)
        texts = {text.text for text in etree.fromstring(chart.svg().encode()).iter(f"{SVG}text")}
        assert f"1{sign}000" in texts
        assert words.decimal("1,000.5") in chart.about


def test_the_same_figures_give_the_same_picture() -> None:
    script = (
        "from tests.views.charts.test_curves import *;"
        "print(curves(CURVES, Axis('n'), Axis('t'), 'T')"
        " + plane(SPOTS, Axis('a'), Axis('t'), 'P'), end='')"
    )
    done = subprocess.run(
        [sys.executable, "-c", script], capture_output=True, text=True, check=True
    )
    assert done.stdout == curves(CURVES, Axis("n"), Axis("t"), "T") + plane(
        SPOTS, Axis("a"), Axis("t"), "P"
    )


def test_our_typefaces_and_colours_alone() -> None:
    chart = curves(CURVES, Axis("n"), Axis("t"), "T") + plane(SPOTS, Axis("a"), Axis("t"), "P")
    families = {part.split('"')[0] for part in chart.split('font-family="')[1:]}
    assert families == {theme.FAMILIES["text"]}
    colours = {part[:6] for part in chart.split('="#')[1:]}
    ours = {theme.INK, theme.PAPER, theme.RULE, theme.SLATE}
    assert {f"#{colour}" for colour in colours} <= ours
    sizes = {part.split("px")[0] for part in chart.split('font-size="')[1:]}
    assert min(map(float, sizes)) >= theme.SIZE_SMALL


@pytest.mark.parametrize(
    "chart",
    [
        curves(CURVES, Axis("n"), Axis("t, ns"), "T & U"),
        plane(SPOTS, Axis("a"), Axis("t"), "T & U"),
    ],
    ids=["curves", "plane"],
)
def test_title_and_description(chart: str) -> None:
    root = etree.fromstring(chart.encode())
    title, about = root.find(f"{SVG}title"), root.find(f"{SVG}desc")
    assert title is not None
    assert about is not None
    assert root.get("aria-labelledby") == f"{title.get('id')} {about.get('id')}"
    assert title.text == "T & U"
    assert (about.text or "").startswith("T & U. ")
    assert export.png(chart)[:4] == b"\x89PNG"


def test_the_description_tells_the_figures() -> None:
    root = etree.fromstring(curves(CURVES[:2], Axis("n"), Axis("t"), "T").encode())
    assert root.findtext(f"{SVG}desc") == (
        "T. tide table: 10 at n = 4, 34 at n = 16. bakery counter: 9 at n = 4, 13 at n = 16."
    )
    root = etree.fromstring(plane(SPOTS[:3], Axis("area"), Axis("time"), "P").encode())
    assert root.findtext(f"{SVG}desc") == (
        "P. a: area 28, time 10. b: area 40, time 8. c: area 90, time 90. Beaten by nothing in"
        " both: a, b."
    )


@given(st.lists(st.floats(0, 340), min_size=1, max_size=20))
def test_names_stand_a_line_apart_and_in_order(wanted: list[float]) -> None:
    height = max(340.0, LINE * len(wanted))
    found = spread(wanted, height)
    assert all(low + LINE <= high + 0.11 for low, high in pairwise(sorted(found)))
    assert all(-0.1 <= place <= height + 0.1 for place in found)
    for i, a in enumerate(wanted):
        for j, b in enumerate(wanted):
            if a < b:
                assert found[i] < found[j]


@given(st.lists(st.floats(0.01, 1e7), min_size=1, max_size=9))
def test_scales_hold_all_figures(figures: list[float]) -> None:
    scale = Scale.of(figures)
    for figure in figures:
        assert -1e-6 <= scale.at(figure, 100) <= 100 + 1e-6
    assert len(scale.whole) >= 2
    assert all(low < high for low, high in pairwise(scale.whole))
    assert 2 <= len(scale.labelled(340)) <= 17


def test_scales_by_wish() -> None:
    assert Scale.of([4, 64], log=False).whole == (0, 10, 20, 30, 40, 50, 60, 70)
    assert Scale.of([3, 5], log=True).log
    assert not Scale.of([0, 500]).log
    assert Scale.of([0, 0]).whole == (0, 1)
    assert Scale.of([-4, 4]).whole[0] <= -4


def test_many_names_make_the_chart_taller() -> None:
    many = [Curve(f"design {i}", ((1.0, 1.0 + i), (2.0, 2.0 + i))) for i in range(33)]
    root = etree.fromstring(curves(many, Axis("n"), Axis("t"), "T").encode())
    assert float(root.get("height") or 0) > 33 * LINE


def test_one_point() -> None:
    single = [Curve("one", ((4.0, 3.0),)), Curve("two", ((4.0, 3.0),))]
    chart = curves(single, Axis("n"), Axis("t"), "T")
    assert "mark-symbol" in chart
    assert "one: 3 t at n 4." in chart


def markers(chart: str) -> list[tuple[str, str]]:
    """Shape and fill of each marker, those of a curve or spot together, then before its name."""
    paths = [
        group.findall(f"{SVG}path")
        for group in etree.fromstring(chart.encode()).iter(f"{SVG}g")
        if "mark-symbol" in (group.get("class") or "")
    ]
    return [(p[0].get("d") or "", p[0].get("fill") or "") for p in paths]


def test_twenty_designs_are_told_apart_without_colour_or_shade() -> None:
    many = [
        Curve(f"design {i}", tuple((float(x), 5.0 + i % 3) for x in range(1, 30)))
        for i in range(20)
    ]
    found = markers(curves(many, Axis("n"), Axis("t"), "T"))
    beside, along = found[:20], found[20:]
    assert len(set(along)) == 20
    assert beside == along
    strokes = {
        path.get("stroke")
        for path in etree.fromstring(curves(many, Axis("n"), Axis("t"), "T").encode()).iter()
        if path.get("stroke-width") in ("1.1", "2.75")
    }
    assert strokes == {theme.INK}


def test_a_staircase_joins_the_best_of_each_group_and_never_rises() -> None:
    spots = [
        Spot("a", 20, 90, best=True, group=0),
        Spot("b", 40, 30, best=True, group=0),
        Spot("c", 60, 10, best=True, group=0),
        Spot("d", 50, 95, group=0),
        Spot("e", 30, 50, best=True, group=1),
        Spot("f", 70, 20, best=True, group=1),
        Spot("g", 80, 80, best=True, group=2),
    ]
    root = etree.fromstring(plane(spots, Axis("a"), Axis("t"), "P").encode())
    lines = [path.get("d") for path in root.iter(f"{SVG}path") if path.get("stroke-width") == "2"]
    assert len(lines) == 2  # the third group has one alone
    for line in lines:
        points = [tuple(map(float, p.split(","))) for p in (line or "").strip("M").split("L")]
        xs, ys = zip(*points, strict=True)
        assert list(xs) == sorted(xs)
        assert list(ys) == sorted(ys)  # y grows downwards


def test_a_narrow_chart_has_the_same_letters() -> None:
    chart = Chart(tuple(CURVES), Axis("n"), Axis("t"), "A title that is long enough to be folded")
    wide, slim = (etree.fromstring(text.encode()) for text in (chart.svg(), chart.svg(170)))
    assert float(slim.get("width") or 0) < 434 < float(wide.get("width") or 0)
    for root in (wide, slim):
        sizes = [t.get("font-size") or "" for t in root.iter(f"{SVG}text", f"{SVG}tspan")]
        assert min(float(size.removesuffix("px")) for size in sizes if size) >= theme.SIZE_SMALL
    assert slim.get("aria-labelledby") != wide.get("aria-labelledby")
