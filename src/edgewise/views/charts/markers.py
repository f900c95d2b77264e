"""Markers: shapes by which curves and spots are told apart, in black and white too."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, Final, TypeVar

from edgewise.views.charts.canvas import inline
from edgewise.views.drawing import theme

_SHAPES: Final = (
    "circle",
    "M-.9-.9H.9V.9H-.9Z",
    "M0-1.15L1.1.85H-1.1Z",
    "M0-1.25L1.25 0 0 1.25-1.25 0Z",
    "M-.35-1.2H.35V-.35H1.2V.35H.35V1.2H-.35V.35H-1.2V-.35H-.35Z",
    "M0 1.15L1.1-.85H-1.1Z",
    "M-1.1-1.1H1.1L-1.1 1.1H1.1Z",
    "M0-1.3L.35-.4 1.25-.4.55.2.8 1.1 0 .55-.8 1.1-.55.2-1.25-.4-.35-.4Z",
    "M-1.1-1.1V1.1L1.1-1.1V1.1Z",
    "M-.6-1.05H.6L1.2 0 .6 1.05H-.6L-1.2 0Z",
    "M-1.15 0L.85-1.1V1.1Z",
    "M1.15 0L-.85-1.1V1.1Z",
)
"""Around (0, 0), about 2 wide; one for each name, then again from the first, filled otherwise."""
MOST: Final = 2 * len(_SHAPES)
"""Names that a marker tells apart."""
_SIZE: Final = 46
"""Px² of a marker."""
_SPACED: Final = 6
"""Markers on a curve, about."""
T = TypeVar("T")


def marks(
    number: int, rows: Sequence[dict[str, Any]], x: Any, y: Any, *, filled: bool | None = None
) -> Any:
    """The markers of the curve or spot of this number; alternately filled unless said."""
    import altair as alt

    solid = (number + number // len(_SHAPES)) % 2 == 0 if filled is None else filled
    mark = alt.Chart(inline(rows)).mark_point(
        shape=_SHAPES[number % len(_SHAPES)],
        size=_SIZE,
        fill=theme.INK if solid else theme.PAPER,
        stroke=theme.INK,
        strokeWidth=1.25,
        opacity=1,
    )
    return mark.encode(x=x, y=y)


def spaced(points: Sequence[T], number: int) -> Sequence[T]:
    """The points of a curve that have markers: about six, further on in every next curve.

    Examples
    --------
    >>> spaced(range(24), 0), spaced(range(24), 1), spaced([4, 8], 1)
    (range(0, 24, 4), range(1, 24, 4), [4, 8])
    """
    if len(points) <= _SPACED:
        return points
    step = len(points) // _SPACED
    return points[number % step :: step]
