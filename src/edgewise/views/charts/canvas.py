"""What charts share: their look, typefaces, title and description, and how they become SVG."""

from __future__ import annotations

import re
import zlib
from collections.abc import Mapping, Sequence
from functools import lru_cache
from pathlib import Path
from typing import Any, Final

from edgewise.views.drawing import text_metrics, theme
from edgewise.views.drawing.svg import escape
from edgewise.words.messages import Words

WIDTH: Final = 460
"""Of the field between the axes, px."""
_BESIDE: Final = 220
"""By how much a line of the title may be wider than the field, px."""
_VEGA_LITE: Final = "6.4"


def inline(rows: Sequence[Mapping[str, Any]]) -> Any:
    """Rows that stand in the chart itself."""
    import altair as alt

    return alt.InlineData(values=list(rows))


def finished(  # what is drawn, how large, what is said of it, in which language
    layers: Sequence[Any], height: int, title: str, about: str, words: Words, width: int = WIDTH
) -> str:
    """The SVG of some layers in our look, with a title and a description."""
    import altair as alt

    text = {"font": "Source Sans 3", "color": theme.INK}
    axis = {
        "labelFont": "Source Sans 3",
        "titleFont": "Source Sans 3",
        "labelFontSize": theme.SIZE_SMALL,
        "titleFontSize": theme.SIZE_SMALL + 1,
        "titleFontWeight": theme.REGULAR,
        "labelColor": theme.INK,
        "titleColor": theme.INK,
        "domainColor": theme.INK,
        "tickColor": theme.INK,
        "gridColor": theme.RULE,
        "gridOpacity": 0.55,
        "gridWidth": theme.HAIR,
        "titlePadding": theme.GAP,
        "labelFlush": False,
    }
    chart: Any = (
        alt.layer(*layers)
        .properties(
            width=width,
            height=height,
            padding={
                "left": theme.MARGIN,
                "right": theme.MARGIN,
                "top": theme.MARGIN,
                "bottom": theme.MARGIN,
            },
            title=alt.TitleParams(
                list(text_metrics.wrapped(title, width + _BESIDE, theme.SIZE_NAME)),
                anchor="start",
                fontSize=theme.SIZE_NAME,
                fontWeight=theme.STRONG,
                offset=14,
            ),
            autosize=alt.AutoSizeParams(type="pad", contains="content"),
        )
        .configure(font="Source Sans 3", background=theme.PAPER)
        .configure_view(stroke=None)
        .configure_axis(**axis)
        .configure_title(**text)
    )
    spec = chart.to_dict(validate=False)
    signs = {"decimal": words("number-decimal"), "thousands": words("number-thousands")}
    spec["config"]["locale"] = {"number": {**signs, "grouping": [3], "currency": ["", ""]}}
    return _headed(_rendered(spec), title, about)


@lru_cache(maxsize=1)
def _fonts_known() -> bool:
    import vl_convert

    vl_convert.register_font_directory(str(_fonts()))
    return True


def _fonts() -> Path:
    return Path(text_metrics.font_file("text", theme.REGULAR)).parent


def _rendered(spec: dict[str, Any]) -> str:
    from edgewise.views.charts import converter

    most = converter.limit()
    if most is not None:
        return converter.drawn(spec, _VEGA_LITE, _fonts(), most)
    import vl_convert

    _fonts_known()
    text: str = vl_convert.vegalite_to_svg(spec, vl_version=_VEGA_LITE)
    return text


_FONT: Final = re.compile(r'font-family="[^"]*"')
_SPOKEN: Final = re.compile(r' (?:role|aria-[a-z]+)="[^"]*"')
"""What the chart library says of each mark, in English; readers are told the whole in words."""


def _headed(svg: str, title: str, about: str) -> str:
    """The chart with title and description, and our list of typefaces."""
    start, _, body = svg.partition(">")
    prefix = f"f{zlib.crc32(f'{start} {about}'.encode()):08x}"
    body = _FONT.sub(f'font-family="{theme.FAMILIES["text"]}"', _SPOKEN.sub("", body))
    return (
        f'{start} role="img" aria-labelledby="{prefix}-title {prefix}-desc">'
        f'<title id="{prefix}-title">{escape(title)}</title>'
        f'<desc id="{prefix}-desc">{escape(about)}</desc>{body}\n'
    )
