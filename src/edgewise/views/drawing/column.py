"""Column: how wide a figure may be where it is to stand, and how small its letters.

A figure is laid out for its column, not scaled into it: `room` is the width it may have at its
own size, so that its smallest letters are still large enough when it has the width of the column.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Final

from edgewise.errors import EdgewiseError, Message
from edgewise.views.drawing import theme

_INCH: Final = 25.4
"""Millimetres; 96 px and 72 pt (CSS Values and Units 4, sec. 6.2)."""
_LEAST_PRINTED: Final = 6.0
"""Pt of the smallest letters in print; common practice of journals, no source."""
_NAMED: Final = {"slide": (338.0, 14.0, True), "phone": (360 / 96 * _INCH, 9 * 0.75, False)}
"""Width in mm, least letters in pt, whether what is narrower grows: a slide of 16:9, a phone of
360 px with letters of 9 px."""
_SHORTEST, _LONGEST = 20.0, 1000.0
_WRITTEN: Final = re.compile(r"(\d{1,4}(?:\.\d{1,2})?)(mm|cm)")


@dataclass(frozen=True, slots=True)
class Column:
    """A width on paper or on a screen.

    Parameters
    ----------
    name : str
        As it was written.
    millimetres : float
    least : float
        Pt of the smallest letters.
    grows : bool
        Whether a narrower figure is enlarged to this width.

    Examples
    --------
    >>> column("85mm").room
    481.88976377952764
    """

    name: str
    millimetres: float
    least: float
    grows: bool = False

    @property
    def pixels(self) -> float:
        """Its width, px."""
        return self.millimetres / _INCH * 96

    @property
    def room(self) -> float:
        """How wide a figure may be at its own size, px."""
        return self.pixels * theme.SIZE_SMALL * 0.75 / self.least

    def shown(self, width: float) -> float:
        """The width in mm of a figure that is this wide at its own size, px."""
        own = width / 96 * _INCH
        return self.millimetres if self.grows else min(self.millimetres, own)

    def needed(self, width: float) -> float:
        """The width in mm at which a figure this wide has letters of the least size."""
        return self.millimetres * width / self.room


def column(written: str) -> Column:
    """Read a width: ``85mm``, ``17cm``, ``slide`` or ``phone``.

    Raises
    ------
    EdgewiseError
        It is none of these, or no figure is that narrow or wide.

    Examples
    --------
    >>> column("17cm").millimetres, column("phone").least
    (170.0, 6.75)
    >>> column("85")
    Traceback (most recent call last):
    edgewise.errors.EdgewiseError: a width is 85; expected 85mm, 12cm, slide or phone
    """
    if written in _NAMED:
        return Column(written, *_NAMED[written])
    found = _WRITTEN.fullmatch(written)
    if found is None:
        raise EdgewiseError(Message("width-expected", found=written))
    millimetres = float(found[1]) * (10 if found[2] == "cm" else 1)
    if not _SHORTEST <= millimetres <= _LONGEST:
        raise EdgewiseError(
            Message("width-outside", found=written, least=f"{_SHORTEST:g}", most=f"{_LONGEST:g}")
        )
    return Column(written, millimetres, _LEAST_PRINTED)


def fitting(width: float, found: Column) -> None:
    """See that a figure this wide has letters that can be read in the column.

    Raises
    ------
    EdgewiseError
        They would be smaller.

    Examples
    --------
    >>> fitting(700, column("85mm"))
    Traceback (most recent call last):
    edgewise.errors.EdgewiseError: this figure needs 124mm for letters of 6 pt; in 85mm they would \
have 4.1 pt: choose --width 124mm, fewer bits, fewer rows or columns
    """
    if width <= found.room:
        return
    needed = int(found.needed(width)) + 1
    size = found.least * found.room / width
    raise EdgewiseError(
        Message(
            "figure-wide",
            needed=needed,
            least=f"{found.least:g}",
            column=found.name,
            size=f"{size:.1f}",
        )
    )
