"""Charts: a quantity over a parameter, and one quantity against another.

Every curve is named where it ends, so that there is no legend to hunt in. Curves and spots are told
apart by markers, which stand before the names, too, never by colour or shade; the first curve is
the thickest. Scales are logarithmic where that helps.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Any, Final, cast

from edgewise.views.charts.axes import LINE, Scale, spread
from edgewise.views.charts.canvas import WIDTH, finished, inline
from edgewise.views.charts.markers import marks, spaced
from edgewise.views.drawing import theme
from edgewise.words.messages import ENGLISH, Words

HEIGHT: Final = 340
GAP: Final = 26
"""From the field to the names; the leaders run here."""
_GLYPH: Final = 12
"""From the marker before a name to the name."""
_DASHES: Final = ((1, 0), (6, 3), (2, 2), (10, 3, 2, 3))
"""Of the lines through what nothing beats, one for each group."""
_SIZE: Final = {name: re.compile(rf'^<svg[^>]* {name}="([\d.]+)"') for name in ("width", "height")}


@dataclass(frozen=True, slots=True)
class Curve:
    """A name and its points (x, y), x rising."""

    name: str
    points: tuple[tuple[float, float], ...]


@dataclass(frozen=True, slots=True)
class Spot:
    """A name and where it stands; `best` if nothing of its group beats it in both directions."""

    name: str
    x: float
    y: float
    best: bool = False
    group: int = 0


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

    def svg(self, width: int = WIDTH) -> str:
        """The chart as SVG, the field between its axes `width` px wide."""
        spots = [one for one in self.drawn if isinstance(one, Spot)]
        lines = [one for one in self.drawn if isinstance(one, Curve)]
        if spots:
            return plane(spots, self.x, self.y, self.title, self.words, width)
        return curves(lines, self.x, self.y, self.title, self.words, width)


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


def curves(  # what is drawn, its scales, and what is said of it
    drawn: Sequence[Curve],
    x: Axis,
    y: Axis,
    title: str,
    words: Words = ENGLISH,
    width: int = WIDTH,
) -> str:
    """Curves over a parameter as an SVG chart.

    Parameters
    ----------
    drawn : sequence of Curve
        The first is the one that the others are held against.
    x, y : Axis
    title : str
    words : Words
    width : int
        Of the field between the axes, px.

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
    x_axis, y_axis = _encoding(xs, "x", x, width), _encoding(ys, "y", y, height)
    layers = []
    for i, curve in enumerate(drawn):
        line = alt.Chart(inline(_rows(curve.points))).mark_line(
            interpolate="linear",
            strokeCap="butt",
            strokeJoin="round",
            clip=False,
            color=theme.INK,
            strokeWidth=1.1 if i else 2.75,
        )
        layers.append(line.encode(x=x_axis, y=y_axis))
    layers += [
        marks(i, _rows(spaced(curve.points, i)), x_axis, y_axis) for i, curve in enumerate(drawn)
    ]
    ends = [curve.points[-1] for curve in drawn]
    starts = [(xs.at(px, width), height - ys.at(py, height)) for px, py in ends]
    places = spread([at for _, at in starts], height)
    names = [_Name(c.name, i, i == 0) for i, c in enumerate(drawn)]
    layers = [*_names(names, starts, places, width), *layers]
    return finished(layers, height, title, _about(drawn, x, y, title, words), words, width)


def plane(  # what is drawn, its scales, and what is said of it
    spots: Sequence[Spot],
    x: Axis,
    y: Axis,
    title: str,
    words: Words = ENGLISH,
    width: int = WIDTH,
) -> str:
    """Spots in a plane as an SVG chart; in each group a staircase joins those that nothing beats.

    Parameters
    ----------
    spots : sequence of Spot
    x, y : Axis
        Less is better on both.
    title : str
    words : Words
    width : int
        Of the field between the axes, px.

    Examples
    --------
    >>> spots = [Spot("ripple", 28, 10, True), Spot("prefix", 40, 8, True), Spot("serial", 90, 90)]
    >>> "prefix" in plane(spots, Axis("area"), Axis("time"), "Area against time, n = 4")
    True
    """
    import altair as alt

    xs, ys = Scale.of([s.x for s in spots], log=x.log), Scale.of([s.y for s in spots], log=y.log)
    height = _height(len(spots))
    x_axis, y_axis = _encoding(xs, "x", x, width), _encoding(ys, "y", y, height)
    layers: list[Any] = []
    for group, corners in enumerate(_staircases(spots)):
        dash = list(_DASHES[group % len(_DASHES)])
        line = alt.Chart(inline([{**c, "step": i} for i, c in enumerate(corners)])).mark_line(
            color=theme.INK, strokeWidth=2, strokeDash=dash
        )
        layers.append(line.encode(x=x_axis, y=y_axis, order="step:Q"))
    ordered = sorted(spots, key=lambda spot: (-spot.y, spot.x))
    for i, spot in enumerate(ordered):
        row = [{"x": spot.x, "y": spot.y}]
        layers.append(marks(i, row, x_axis, y_axis, filled=spot.best))
    starts = [(xs.at(s.x, width), height - ys.at(s.y, height)) for s in ordered]
    places = spread([at for _, at in starts], height)
    names = [_Name(spot.name, i, spot.best, spot.best) for i, spot in enumerate(ordered)]
    layers = [*_names(names, starts, places, width), *layers]
    return finished(layers, height, title, _about(spots, x, y, title, words), words, width)


def _rows(points: Sequence[tuple[float, float]]) -> list[dict[str, Any]]:
    return [{"x": px, "y": py} for px, py in points]


def _staircases(spots: Sequence[Spot]) -> Iterator[list[dict[str, Any]]]:
    """The corners of a line through the best spots of each group that has several."""
    for group in sorted({spot.group for spot in spots}):
        best = sorted((s for s in spots if s.best and s.group == group), key=_from_left)
        if len(best) < 2:
            continue
        corners = [{"x": best[0].x, "y": best[0].y}]
        for spot in best[1:]:
            corners += [{"x": spot.x, "y": corners[-1]["y"]}, {"x": spot.x, "y": spot.y}]
        yield corners


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


@dataclass(frozen=True, slots=True)
class _Name:
    """A name beside the field, the number of its marker, and how both look."""

    text: str
    number: int
    strong: bool
    filled: bool | None = None


def _names(
    names: Sequence[_Name],
    starts: Sequence[tuple[float, float]],
    places: Sequence[float],
    width: float,
) -> list[Any]:
    """The names right of the field, each with a leader to where its curve ends, and a marker."""
    import altair as alt

    def px(channel: Any, name: str) -> Any:
        """A column of px, whatever the scale of the others."""
        return channel(f"{name}:Q", scale=None, axis=None)

    across, down, at = px(alt.X, "x"), px(alt.Y, "y"), width + GAP
    leaders = []
    for (x, y), place in zip(starts, places, strict=True):
        bend = max(x, width)
        leaders.append({"x": x, "y": y, "x2": bend, "y2": y})
        leaders.append({"x": bend, "y": y, "x2": at - 6, "y2": place})
    rules = alt.Chart(inline(leaders)).mark_rule(color=theme.SLATE, strokeWidth=theme.HAIR / 2)
    layers = [rules.encode(x=across, y=down, x2="x2:Q", y2="y2:Q")]
    for name, place in zip(names, places, strict=True):
        text = alt.Chart(inline([{"name": name.text, "x": at + _GLYPH, "y": place}])).mark_text(
            align="left",
            baseline="middle",
            fontSize=theme.SIZE_SMALL + 1,
            fontWeight=cast("Any", theme.STRONG if name.strong else theme.REGULAR),
            color=theme.INK,
        )
        layers.append(text.encode(x=across, y=down, text="name:N"))
        row = [{"x": at + 1, "y": place}]
        layers.append(marks(name.number, row, across, down, filled=name.filled))
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
