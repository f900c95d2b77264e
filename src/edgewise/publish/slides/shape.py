"""Shape: how large a slide is, and where on it title, content and number stand."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from edgewise.errors import EdgewiseError, Message, Suggestion
from edgewise.listing import either
from edgewise.spelling import close


@dataclass(frozen=True, slots=True)
class Box:
    """A rectangle on a slide, in points from its top left corner."""

    x: float
    y: float
    width: float
    height: float


@dataclass(frozen=True, slots=True)
class Shape:
    """A slide's size and its areas, in points.

    Parameters
    ----------
    width, height : float
    title, content, number : Box
    """

    width: float
    height: float
    title: Box
    content: Box
    number: Box


_MARGIN: Final = 30.0
_HEIGHT: Final = 540.0
_TITLE: Final = (14.0, 58.0)
"""Top and height of a title."""
_TOP: Final = 80.0
_BOTTOM: Final = 508.0
"""Of the content."""


def _shape(width: float) -> Shape:
    room = width - 2 * _MARGIN
    return Shape(
        width,
        _HEIGHT,
        Box(_MARGIN, _TITLE[0], room, _TITLE[1]),
        Box(_MARGIN, _TOP, room, _BOTTOM - _TOP),
        Box(width - _MARGIN - 80, _BOTTOM + 2, 80, 24),
    )


SHAPES: Final = {"16:9": _shape(960.0), "4:3": _shape(720.0)}
"""7.5 inches high, as is usual (common practice, no source)."""


def find(name: str) -> Shape:
    """The shape of this name.

    Raises
    ------
    EdgewiseError
        There is none.

    Examples
    --------
    >>> find("4:3").width
    720.0
    >>> find("16:10")
    Traceback (most recent call last):
    edgewise.errors.EdgewiseError: slides are not 16:10; did you mean 16:9?
    """
    if name not in SHAPES:
        meant = close(name, SHAPES)
        there = Message("slide-shapes", names=either(SHAPES))
        raise EdgewiseError(
            Message("slide-shape-unknown", found=name, hint=Suggestion(meant) if meant else there)
        )
    return SHAPES[name]
