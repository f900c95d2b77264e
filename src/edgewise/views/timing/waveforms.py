"""Levels: how one net or word runs over time.

A bit is a line, thick and high for 1, thin and low for 0; a word is a chain of lozenges
with its value in them; what is unknown is hatched. A change leaves its edge on a slope.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from itertools import groupby
from typing import Final

from edgewise.bits import Bit, Word, X
from edgewise.views.drawing import text_metrics, theme
from edgewise.views.drawing.shapes import Item, Line, Path, Rectangle, Text, line_data
from edgewise.views.drawing.theme import INK, PAPER

HEIGHT: Final = 20.0
"""From the low level to the high one."""
SLOPE: Final = 5.0
"""Px that a change takes to the right of its edge."""
_KNOCK_OUT: Final = 3.0
"""Paper around digits that stand on the hatch."""


@dataclass(frozen=True, slots=True)
class Span:
    """One value from `start` to `end`, px; `readable` begins where its text may."""

    word: Word
    start: float
    end: float
    readable: float

    @property
    def slope(self) -> float:
        """Px that the change to it takes: a pulse that is too short for the whole of one peaks."""
        return min(SLOPE, self.end - self.start)


def spans(words: Sequence[Word], xs: Sequence[float], readable: float) -> tuple[Span, ...]:
    """Join equal neighbours; ``words[i]`` holds from ``xs[i]`` to ``xs[i + 1]``.

    Examples
    --------
    >>> low, high = Word(1), Word(1, 1)
    >>> [(str(span.word), span.end) for span in spans([low, low, high], [0, 9, 18, 27], 0)]
    [('0', 18), ('1', 27)]
    """
    result = []
    for word, run in groupby(range(len(words)), key=lambda i: words[i]):
        places = list(run)
        start, end = xs[places[0]], xs[places[-1] + 1]
        result.append(Span(word, start, end, max(start, readable)))
    return tuple(result)


def levels(runs: Sequence[Span], top: float) -> tuple[Item, ...]:
    """The line of a single bit; `top` is its high level.

    Examples
    --------
    >>> line = levels(spans([Word(1), Word(1, 1)], [0, 20, 40], 0), 10)
    >>> [item.data for item in line]
    ['M0 30H20M20 30L25 10', 'M25 10H40']
    """
    low = top + HEIGHT
    bits: list[Bit] = [span.word.bit(0) for span in runs]
    strokes = _Strokes()
    for i, (span, bit) in enumerate(zip(runs, bits, strict=True)):
        before = bits[i - 1] if i else None
        after = bits[i + 1] if i + 1 < len(runs) else None
        if bit == X:
            slope = runs[i + 1].slope if i + 1 < len(runs) else SLOPE
            _unknown(strokes, span, (before, after), top, slope)
            continue
        start = span.start if before is None else span.start + span.slope
        y, other = (top, low) if bit else (low, top)
        (strokes.thick if bit else strokes.thin).append(line_data(((start, y), (span.end, y))))
        if after in (0, 1):
            slope = runs[i + 1].slope
            strokes.thin.append(line_data(((span.end, y), (span.end + slope, other))))
    return strokes.items()


@dataclass(slots=True)
class _Strokes:
    """Path data while it is gathered: grounds first, lines over them."""

    hatched: list[str] = field(default_factory=list)
    plain: list[str] = field(default_factory=list)
    thin: list[str] = field(default_factory=list)
    thick: list[str] = field(default_factory=list)

    def items(self) -> tuple[Item, ...]:
        paths = (
            Path("".join(self.plain), fill=PAPER),
            Path("".join(self.hatched), fill=theme.HATCH),
            Path("".join(self.thin), stroke=INK, weight=theme.THIN),
            Path("".join(self.thick), stroke=INK, weight=theme.HIGH),
        )
        return tuple(path for path in paths if path.data)


def _unknown(
    strokes: _Strokes, span: Span, beside: tuple[Bit | None, Bit | None], top: float, slope: float
) -> None:
    """The hatched room of an unknown bit: it opens on a slope and closes on the next one."""
    low = top + HEIGHT
    before, after = beside
    own = span.slope
    left = [(span.start + own * (before == 0), top), (span.start + own * (before == 1), low)]
    right = [(span.end + slope * (after == 1), top), (span.end + slope * (after == 0), low)]
    strokes.hatched.append(line_data((left[0], right[0], right[1], left[1]), closed=True))
    # A side of the room is drawn where the value comes or goes, not where the figure ends.
    strokes.thin.append(line_data((left[0], right[0])))
    strokes.thin.append(line_data((left[1], right[1])))
    if before is not None:
        strokes.thin.append(line_data(tuple(left)))
    if after is not None:
        strokes.thin.append(line_data(tuple(right)))


def lozenges(
    runs: Sequence[Span], top: float, texts: Sequence[str], size: float
) -> tuple[Item, ...]:
    """The chain of a word's values; open where the figure begins and ends.

    Parameters
    ----------
    runs : sequence of Span
    top : float
    texts : sequence of str
        What stands in each; empty for nothing.
    size : float
        Of the texts.

    Examples
    --------
    >>> chain = lozenges(spans([Word(2), Word(2, 1)], [0, 40, 80], 0), 10, ["00", "01"], 12)
    >>> [item.text for item in chain if isinstance(item, Text)]
    ['00', '01']
    """
    strokes = _Strokes()
    lettered: list[Item] = []
    last = len(runs) - 1
    for i, (span, text) in enumerate(zip(runs, texts, strict=True)):
        _lozenge(strokes, span, top, (i == 0, i == last), runs[min(i + 1, last)].slope)
        if not text:
            continue
        middle = (span.readable + (SLOPE if i else 0.0) + span.end) / 2
        if not span.word.known:
            wide = text_metrics.width(text, size, "bits") + 2 * _KNOCK_OUT
            lettered.append(Rectangle(middle - wide / 2, top + 2.5, wide, HEIGHT - 5, fill=PAPER))
        y = top + HEIGHT / 2 + theme.MIDDLE * size
        lettered.append(Text(middle, y, text, size, family="bits", anchor="middle"))
    return (*strokes.items(), *lettered)


def _lozenge(
    strokes: _Strokes, span: Span, top: float, outer: tuple[bool, bool], slope: float
) -> None:
    """One value; neighbours meet in a point half-way down the crossing slopes."""
    low, middle = top + HEIGHT, top + HEIGHT / 2
    start, end = span.start, span.end
    opens, ends = outer
    left = [(start, low), (start, top)]
    if not opens:
        own = span.slope
        left = [(start + own, low), (start + own / 2, middle), (start + own, top)]
    right = [(end, top), (end, low)]
    if not ends:
        right = [(end, top), (end + slope / 2, middle), (end, low)]
    ground = strokes.plain if span.word.known else strokes.hatched
    ground.append(line_data((*left, *right), closed=True))
    if opens and ends:
        strokes.thin.append(line_data((left[1], right[0])) + line_data((left[0], right[1])))
    elif opens:
        strokes.thin.append(line_data((left[1], *right, left[0])))
    elif ends:
        strokes.thin.append(line_data((right[-1], *left, right[0])))
    else:
        strokes.thin.append(line_data((*left, *right), closed=True))


def guide(x: float, top: float, bottom: float) -> Line:
    """The light upright line of an edge."""
    return Line(((x, top), (x, bottom)), theme.RULE, theme.HAIR)
