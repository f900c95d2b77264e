"""Charts: a quantity over a parameter, and one quantity against another.

Every curve is named where it ends, so that there is no legend to hunt in. Curves are told apart by
their names, dashes and weight; the first is the thickest. Scales are logarithmic where that helps.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any, Final

from edgewise.views.charts.axes import LINE, Scale, spread
from edgewise.views.charts.canvas import WIDTH, finished, inline
from edgewise.views.drawing import theme
from edgewise.words.messages import ENGLISH, Words

HEIGHT: Final = 340
GAP: Final = 26
"""From the field to the names; the leaders run here."""
_DASHES: Final = ((1, 0), (7, 3), (2, 2), (10, 3, 2, 3), (4, 4), (12, 4))
_SIZE: Final = {name: re.compile(rf'^<svg[^>]* {name}="([\d.]+)"') for name in ("width", "height")}


@dataclass(frozen=True, slots=True)
class Curve:
    """A name and its points (x, y), x rising."""

    name: str
    points: tuple[tuple[float, float], ...]


@dataclass(frozen=True, slots=True)
class Spot:
    """A name and where it stands; `best` if nothing beats it in both directions."""

    name: str
    x: float
    y: float
    best: bool = False


@dataclass(frozen=True, slots=True)
class Axis:
    """What an axis says, and its scale.

    `log` None leaves the scale to the figures.
    """

    title: str
    log: bool | None = None


@dataclass(frozen=True, slots=True)
class Chart:
    """A chart to be drawn: curves over a parameter, or spots in a plane.

    Examples
    --------
    >>> chart = Chart((Spot("ripple", 28, 10, True),), Axis("area"), Axis("time"), "n = 4")
    >>> chart.about
    'n = 4. ripple: area 28, time 10. Beaten by nothing in both: ripple.'
    """

    drawn: tuple[Curve | Spot, ...]
    x: Axis
    y: Axis
    title: str
    words: Words = ENGLISH

    @property
    def about(self) -> str:
        """What it shows, for those who can't see it."""
        return _about(self.drawn, self.x, self.y, self.title, self.words)

    def svg(self) -> str:
        """The chart as SVG."""
        spots = [one for one in self.drawn if isinstance(one, Spot)]
        lines = [one for one in self.drawn if isinstance(one, Curve)]
        if spots:
            return plane(spots, self.x, self.y, self.title, self.words)
        return curves(lines, self.x, self.y, self.title, self.words)


def size(chart: str) -> tuple[float, float]:
    """Width and height of a chart, px, as its drawing library made it.

    Examples
    --------
    >>> size('<svg width="640" height="420" class="marks">')
    (640.0, 420.0)
    """
    wide, high = (_SIZE[name].search(chart) for name in ("width", "height"))
    assert wide is not None
    assert high is not None
    return float(wide[1]), float(high[1])


def curves(drawn: Sequence[Curve], x: Axis, y: Axis, title: str, words: Words = ENGLISH) -> str:
    """Curves over a parameter as an SVG chart.

    Parameters
    ----------
    drawn : sequence of Curve
        The first is the one that the others are held against.
    x, y : Axis
    title : str

    Examples
    --------
    >>> lines = [Curve("ripple", ((4, 10), (8, 18))), Curve("prefix", ((4, 8), (8, 10)))]
    >>> chart = curves(lines, Axis("n"), Axis("gate delays"), "Time over n")
    >>> chart.startswith("<svg"), "ripple" in chart
    (True, True)
    """
    import altair as alt

    points = [point for curve in drawn for point in curve.points]
    xs, ys = (
        Scale.of([p[0] for p in points], log=x.log),
        Scale.of([p[1] for p in points], log=y.log),
    )
    height = _height(len(drawn))
    rows = [{"name": curve.name, "x": px, "y": py} for curve in drawn for px, py in curve.points]
    dash = {
        curve.name: [0, 0] if len(curve.points) == 1 else list(_DASHES[i % len(_DASHES)])
        for i, curve in enumerate(drawn)
    }
    names = list(dash)
    x_axis, y_axis = _encoding(xs, "x", x, WIDTH), _encoding(ys, "y", y, height)
    lines = (
        alt.Chart(inline(rows))
        .mark_line(interpolate="linear", strokeCap="butt", strokeJoin="round", clip=False)
        .encode(
            x=x_axis,
            y=y_axis,
            detail="name:N",
            strokeDash=alt.StrokeDash(
                "name:N", legend=None, scale=alt.Scale(domain=names, range=list(dash.values()))
            ),
            strokeWidth=alt.condition(alt.datum.name == names[0], alt.value(2.75), alt.value(1.5)),
            color=alt.condition(
                alt.datum.name == names[0], alt.value(theme.INK), alt.value(theme.SLATE)
            ),
        )
    )
    ends = [curve.points[-1] for curve in drawn]
    starts = [(xs.at(px, WIDTH), height - ys.at(py, height)) for px, py in ends]
    places = spread([at for _, at in starts], height)
    layers = [lines]
    alone = [{"x": px, "y": py} for c in drawn if len(c.points) == 1 for px, py in c.points]
    if alone:
        dots = alt.Chart(inline(alone)).mark_point(filled=True, size=40, color=theme.INK, opacity=1)
        layers.append(dots.encode(x=x_axis, y=y_axis))
    layers = [*_names(names, starts, places, strong={names[0]}), *layers]
    return finished(layers, height, title, _about(drawn, x, y, title, words), words)


def plane(spots: Sequence[Spot], x: Axis, y: Axis, title: str, words: Words = ENGLISH) -> str:
    """Spots in a plane as an SVG chart; those that nothing beats are joined by a staircase.

    Parameters
    ----------
    spots : sequence of Spot
    x, y : Axis
        Less is better on both.
    title : str

    Examples
    --------
    >>> spots = [Spot("ripple", 28, 10, True), Spot("prefix", 40, 8, True), Spot("serial", 90, 90)]
    >>> "prefix" in plane(spots, Axis("area"), Axis("time"), "Area against time, n = 4")
    True
    """
    import altair as alt

    xs, ys = Scale.of([s.x for s in spots], log=x.log), Scale.of([s.y for s in spots], log=y.log)
    height = _height(len(spots))
    x_axis, y_axis = _encoding(xs, "x", x, WIDTH), _encoding(ys, "y", y, height)
    best = sorted((spot for spot in spots if spot.best), key=_from_left)
    layers: list[Any] = []
    if best:
        corners = [{"x": best[0].x, "y": ys.whole[-1], "step": 0}]
        for spot in best:
            corners += [
                {"x": spot.x, "y": corners[-1]["y"], "step": len(corners)},
                {"x": spot.x, "y": spot.y, "step": len(corners) + 1},
            ]
        corners.append({"x": xs.whole[-1], "y": best[-1].y, "step": len(corners)})
        layers.append(
            alt.Chart(inline(corners))
            .mark_line(color=theme.INK, strokeWidth=1.25, strokeDash=[4, 3])
            .encode(x=x_axis, y=y_axis, order="step:Q")
        )
    for kind, fill in ((True, theme.INK), (False, theme.PAPER)):
        rows = [{"x": spot.x, "y": spot.y} for spot in spots if spot.best is kind]
        if rows:
            layers.append(
                alt.Chart(inline(rows))
                .mark_point(
                    shape="circle", size=64, fill=fill, stroke=theme.INK, strokeWidth=1.5, opacity=1
                )
                .encode(x=x_axis, y=y_axis)
            )
    ordered = sorted(spots, key=lambda spot: (-spot.y, spot.x))
    starts = [(xs.at(s.x, WIDTH), height - ys.at(s.y, height)) for s in ordered]
    places = spread([at for _, at in starts], height)
    strong = {spot.name for spot in best}
    names = [spot.name for spot in ordered]
    layers = [*_names(names, starts, places, strong=strong), *layers]
    return finished(layers, height, title, _about(spots, x, y, title, words), words)


# ---------------------------------------------------------------------- pieces


def _encoding(scale: Scale, name: str, axis: Axis, length: float) -> Any:
    """The channel x or y of a chart."""
    import altair as alt

    return (alt.X if name == "x" else alt.Y)(
        f"{name}:Q",
        scale=alt.Scale(
            type="log" if scale.log else "linear",
            domain=[scale.whole[0], scale.whole[-1]],
            nice=False,
            zero=False,
        ),
        axis=alt.Axis(title=axis.title, values=scale.labelled(length), labelExpr=_LABEL),
    )


_LABEL: Final = "format(datum.value, ',')"


def _from_left(spot: Spot) -> tuple[float, float]:
    return spot.x, -spot.y


def _height(names: int) -> int:
    return max(HEIGHT, LINE * names)


def _names(
    names: Sequence[str],
    starts: Sequence[tuple[float, float]],
    places: Sequence[float],
    strong: set[str],
) -> list[Any]:
    """The names right of the field, each with a leader to where its curve ends."""
    import altair as alt

    def px(channel: Any, name: str) -> Any:
        """A column of px, whatever the scale of the others."""
        return channel(f"{name}:Q", scale=None, axis=None)

    leaders, lines = [], []
    for name, (x, y), place in zip(names, starts, places, strict=True):
        bend = max(x, WIDTH)
        leaders.append({"x": x, "y": y, "x2": bend, "y2": y})
        leaders.append({"x": bend, "y": y, "x2": WIDTH + GAP - 5, "y2": place})
        lines.append({"name": name, "x": WIDTH + GAP, "y": place, "strong": name in strong})
    rules = (
        alt.Chart(inline(leaders))
        .mark_rule(color=theme.RULE, strokeWidth=theme.HAIR)
        .encode(x=px(alt.X, "x"), y=px(alt.Y, "y"), x2="x2:Q", y2="y2:Q")
    )
    layers = [rules]
    weights: tuple[tuple[Any, bool], ...] = ((theme.STRONG, True), (theme.REGULAR, False))
    for weight, kind in weights:
        rows = [line for line in lines if line["strong"] is kind]
        if rows:
            layers.append(
                alt.Chart(inline(rows))
                .mark_text(
                    align="left",
                    baseline="middle",
                    fontSize=theme.SIZE_SMALL + 1,
                    fontWeight=weight,
                    color=theme.INK,
                )
                .encode(x=px(alt.X, "x"), y=px(alt.Y, "y"), text="name:N")
            )
    return layers


def _about(
    drawn: Sequence[Curve | Spot], x: Axis, y: Axis, title: str, words: Words = ENGLISH
) -> str:
    lines = [_told(one, x, y, words) for one in drawn if isinstance(one, Curve)]
    spots = [one for one in drawn if isinstance(one, Spot)]
    lines += [
        words(
            "chart-about-spot",
            name=s.name,
            x_title=x.title,
            x=_figure(s.x, words),
            y_title=y.title,
            y=_figure(s.y, words),
        )
        for s in spots
    ]
    if spots:
        best = [spot.name for spot in sorted(spots, key=_from_left) if spot.best]
        lines.append(
            words("chart-about-best", names=", ".join(best))
            if best
            else words("chart-about-best-none")
        )
    return " ".join([words("chart-about", title=title), *lines])


def _told(curve: Curve, x: Axis, y: Axis, words: Words) -> str:
    (x1, y1), (x2, y2) = curve.points[0], curve.points[-1]
    if len(curve.points) == 1:
        return words(
            "chart-about-point",
            name=curve.name,
            x_title=x.title,
            x=_figure(x1, words),
            y_title=y.title,
            y=_figure(y1, words),
        )
    return words(
        "chart-about-curve",
        name=curve.name,
        x_title=x.title,
        first_x=_figure(x1, words),
        first_y=_figure(y1, words),
        last_x=_figure(x2, words),
        last_y=_figure(y2, words),
    )


def _figure(value: float, words: Words) -> str:
    return words.decimal(f"{value:,.0f}" if value == round(value) else f"{value:,.1f}")
