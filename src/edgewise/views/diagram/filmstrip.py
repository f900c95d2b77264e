"""Filmstrip: one block diagram in several rows, side by side or one below the other.

All strips have the same scale and the same places. Only what changed at the edge is in full
ink; cells that kept their bit are lighter.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from math import ceil
from typing import Final

from edgewise.errors import EdgewiseError, Message
from edgewise.trace import Trace
from edgewise.views.diagram.block_diagram import heading, sentences
from edgewise.views.diagram.block_diagram import title as diagram_title
from edgewise.views.diagram.options import Clock, manner
from edgewise.views.diagram.picture import HEADING, Picture, when
from edgewise.views.drawing import text_metrics, theme
from edgewise.views.drawing.gate_symbols import Style
from edgewise.views.drawing.legend import Key
from edgewise.views.drawing.shapes import Group, Item, Line
from edgewise.views.drawing.svg import Drawing
from edgewise.views.text import alt_text
from edgewise.views.text.selection import choose
from edgewise.words.messages import ENGLISH, Words

MOST: Final = 64
"""Strips of one figure, at most."""
WIDTH: Final = 1100.0
"""Px that strips side by side may take."""


def check(rows: Sequence[int], across: int | None) -> None:
    """See that there are not too many rows for one filmstrip.

    Raises
    ------
    EdgewiseError
        There are, or no strip at all is to stand in a line.
    """
    if len(rows) > MOST:
        raise EdgewiseError(
            Message("strips-many", count=len(rows), most=MOST, first=rows[0], last=rows[0] + 5)
        )
    if across is not None and across < 1:
        raise EdgewiseError(Message("strips-across", count=across))


def filmstrip(  # noqa: PLR0913  # one signature for every view
    trace: Trace,
    rows: Iterable[int],
    *,
    across: int | None = None,
    open: Iterable[str] = (),  # noqa: A002  # the word of the lesson's option
    clock: Clock = "wedge",
    symbols: Style = "distinctive",
    legend: bool = False,
    room: float | None = None,
    words: Words = ENGLISH,
) -> Drawing:
    """The block diagram of a run in several of its rows.

    Parameters
    ----------
    trace : Trace
    rows : iterable of int
        In the order in which they are drawn.
    across : int, optional
        Strips side by side; as many as are about a page wide if left out.
    open, clock, symbols, legend, room, words
        As in `edgewise.views.diagram.block_diagram.diagram`.

    Returns
    -------
    Drawing

    Raises
    ------
    EdgewiseError or Problems
        No row at all, too many, or one that is not there; no such part or option.

    Examples
    --------
    >>> from edgewise import catalogue, run
    >>> trace = run(catalogue.design("serial-adder", n=4), a=6, b=3)
    >>> filmstrip(trace, range(5, 8)).title
    'Block diagram after edges 5, 6 and 7: bit-serial adder, n = 4, a = 6, b = 3'
    """
    chosen = choose(trace, rows=rows).rows
    check(chosen, across)
    picture = Picture(trace, manner(trace.design.circuit, open, clock, symbols), words=words)
    picture = picture.fitted(room, breaks=True)
    heads = [when(trace, row, words) for row in chosen]
    wide = max(picture.size[0], *(text_metrics.width(head) + 2 * theme.MARGIN for head in heads))
    high = picture.size[1] + (HEADING if heads[0] else 0.0)
    beside = min(across or max(1, int((room or WIDTH) // wide)), len(chosen))
    lines = ceil(len(chosen) / beside)
    items = list(_strips(picture, chosen, heads, (beside, wide, high)))
    width, height = wide * beside, high * lines
    if legend:
        inner = room and room - 2 * theme.MARGIN
        key = Key(ports=picture.shortened, room=inner, words=words)
        items.append(key.drawn(theme.MARGIN, height + theme.GAP))
        width, height = max(width, key.size[0] + 2 * theme.MARGIN), height + key.size[1] + 24
    about = alt_text.bounded(sentences(trace, chosen, words), words=words)
    return Drawing(ceil(width), ceil(height), _title(trace, chosen, words), about, tuple(items))


def _strips(
    picture: Picture,
    rows: Sequence[int],
    heads: Sequence[str],
    grid: tuple[int, float, float],
) -> Iterator[Item]:
    """Every strip in its place, rules between them."""
    beside, wide, high = grid
    for number, (row, head) in enumerate(zip(rows, heads, strict=True)):
        x, y = wide * (number % beside), high * (number // beside)
        items = heading(head, theme.MARGIN)
        strip = Group(tuple(picture.items(row, emphasis=True)), y=HEADING if head else 0.0)
        yield Group((*items, strip), "strip", head, x, y)
        if x:
            yield Line(((x, y + 12), (x, y + high - 12)), theme.RULE, theme.HAIR)
        if y:
            yield Line(((x + 12, y), (x + wide - 12, y)), theme.RULE, theme.HAIR)


def _title(trace: Trace, rows: Sequence[int], words: Words) -> str:
    """What the strips show: ``after edges 2, 5 and 7``, ``from edge 4 to edge 8``."""
    first, last = rows[0], rows[-1]
    edges = [str(row) for row in rows if row]
    if len(rows) == 1 or not edges:
        return diagram_title(trace, first, words)
    subject = alt_text.subject(trace, words)
    if len(rows) > 3 and list(rows) == list(range(first, last + 1)):
        if first:
            return words("figure-strips-from-edge", first=first, last=last, subject=subject)
        return words("figure-strips-from-start", last=last, subject=subject)
    listed = edges[-1]
    if len(edges) > 1:
        listed = words("figure-last-of-list", list=", ".join(edges[:-1]), last=listed)
    which = "figure-strips-after" if len(edges) == len(rows) else "figure-strips-start-and-after"
    return words(which, count=len(edges), edges=listed, subject=subject)
