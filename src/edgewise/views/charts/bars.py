"""Bar charts: how many or how much of each of some things, each with its number at its end."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from edgewise.views.charts.canvas import finished, inline
from edgewise.views.drawing import theme
from edgewise.words.messages import ENGLISH, Words

WIDTH: Final = 300
"""Of the longest bar, px."""
_STEP: Final = 22


@dataclass(frozen=True, slots=True)
class Bar:
    """One thing: its name, its amount, and that as it is written; `strong` ones are solid."""

    name: str
    amount: float
    written: str
    strong: bool = True


def bars(drawn: Sequence[Bar], title: str, most: float = 0, words: Words = ENGLISH) -> str:
    """Bars from the left, in the order given, as SVG.

    Parameters
    ----------
    drawn : sequence of Bar
        At least one; no two of one name.
    title : str
    most : float
        What the longest bar could be; 0: what the longest is.
    words : Words

    Examples
    --------
    >>> chart = bars([Bar("carry-dropped", 7, "7"), Bar("careless", 2, "2", False)], "Ideas")
    >>> chart.startswith("<svg"), "carry-dropped 7, careless 2." in chart
    (True, True)
    """
    import altair as alt

    end = most or max(bar.amount for bar in drawn) or 1
    names = [bar.name for bar in drawn]
    y = alt.Y(
        "name:N",
        sort=names,
        axis=alt.Axis(title=None, ticks=False, domain=True, labelLimit=260, labelPadding=6),
        scale=alt.Scale(paddingInner=0.35, paddingOuter=0.2),
    )
    x = alt.X("amount:Q", scale=alt.Scale(domain=[0, end], nice=False), axis=None)
    layers = []
    for strong, fill in ((True, theme.INK), (False, theme.PAPER)):
        rows = [{"name": bar.name, "amount": bar.amount} for bar in drawn if bar.strong is strong]
        if rows:
            mark = alt.Chart(inline(rows)).mark_bar(
                fill=fill, stroke=theme.INK, strokeWidth=theme.OUTLINE
            )
            layers.append(mark.encode(x=x, y=y))
    told = [{"name": b.name, "amount": b.amount, "written": b.written} for b in drawn]
    layers.append(
        alt.Chart(inline(told))
        .mark_text(
            align="left",
            baseline="middle",
            dx=6,
            fontSize=theme.SIZE_SMALL + 1,
            color=theme.INK,
        )
        .encode(x=x, y=y, text="written:N")
    )
    listed = ", ".join(f"{bar.name} {bar.written}" for bar in drawn)
    about = words("chart-about-bars", title=title, bars=listed)
    return finished(layers, _STEP * len(drawn) + 8, title, about, words, WIDTH)
