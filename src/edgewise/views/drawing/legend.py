"""Legend: what weights and fills mean, in one line.

::

    1 ▬▬▬ [1]    0 ─── [0]    unknown - - - [X]    changed at this edge ▬
"""

from __future__ import annotations

from edgewise.bits import Bit, Word, X
from edgewise.views.drawing import text_metrics, theme
from edgewise.views.drawing.bit_cells import cells
from edgewise.views.drawing.shapes import Circle, Group, Item, Line, Rectangle, Text
from edgewise.views.drawing.theme import INK, CellSize
from edgewise.words.messages import ENGLISH, Words


def entries(words: Words) -> tuple[tuple[str, Bit], ...]:
    """What a bit can be."""
    return ("1", 1), ("0", 0), (words("key-unknown"), X)


def legend(  # noqa: PLR0913  # a place, and what is to be explained
    x: float,
    y: float,
    size: CellSize = theme.TABLE_CELL,
    *,
    wires: bool = True,
    banded: bool = True,
    nodes: bool = False,
    words: Words = ENGLISH,
) -> Group:
    """The legend, its top left corner at (`x`, `y`), as large as `legend_size`.

    Parameters
    ----------
    x, y : float
    size : CellSize
    wires : bool
        Show the weights of wires beside the fills of cells.
    banded : bool
        Explain the band.
    nodes : bool
        Explain the nodes of a prefix graph.
    words : Words

    Examples
    --------
    >>> group = legend(0, 0)
    >>> [item.text for item in group.items if isinstance(item, Text)]
    ['1', '0', 'unknown', 'changed at this edge']
    """
    items: list[Item] = []
    left, middle = x, y + size.height / 2
    for word, bit in entries(words):
        items.append(_label(word, left, middle))
        left += text_metrics.width(word, weight=theme.STRONG) + theme.GAP
        if wires:
            weight, dash = theme.wire(bit)
            points = ((left, middle), (left + theme.LEGEND_WIRE, middle))
            items.append(Line(points, INK, weight, dash))
            left += theme.LEGEND_WIRE + theme.GAP
        items.append(cells(Word.from_bits([bit]), left, y, size=size))
        left += size.width + theme.LEGEND_GAP
    if banded:
        changed = words("key-changed")
        items.append(_label(changed, left, middle))
        left += text_metrics.width(changed, weight=theme.STRONG) + theme.GAP
        items.append(
            Rectangle(
                left,
                middle - size.band / 2,
                theme.LEGEND_BAND,
                size.band,
                fill=theme.AMBER,
                stroke=INK,
                weight=theme.BAND_LINE,
            )
        )
        left += theme.LEGEND_BAND + theme.LEGEND_GAP
    for word, fill in _nodes(words) if nodes else ():
        radius = size.height / 2 - theme.OUTLINE
        items.append(Circle(left + radius, middle, radius, fill, INK, theme.OUTLINE))
        left += 2 * radius + theme.GAP
        items.append(_label(word, left, middle))
        left += text_metrics.width(word, weight=theme.STRONG) + theme.LEGEND_GAP
    return Group(tuple(items), kind="legend")


def legend_size(
    size: CellSize = theme.TABLE_CELL,
    *,
    wires: bool = True,
    banded: bool = True,
    nodes: bool = False,
    words: Words = ENGLISH,
) -> tuple[float, float]:
    """Width and height of the legend, px.

    Examples
    --------
    >>> legend_size(wires=False)[0] < legend_size()[0]
    True
    """
    one = theme.GAP + size.width + theme.LEGEND_GAP
    if wires:
        one += theme.LEGEND_WIRE + theme.GAP
    wide = sum(text_metrics.width(word, weight=theme.STRONG) + one for word, _ in entries(words))
    if banded:
        changed = text_metrics.width(words("key-changed"), weight=theme.STRONG)
        wide += changed + theme.GAP + theme.LEGEND_BAND + theme.LEGEND_GAP
    for word, _ in _nodes(words) if nodes else ():
        node = size.height - 2 * theme.OUTLINE + theme.GAP
        wide += node + text_metrics.width(word, weight=theme.STRONG) + theme.LEGEND_GAP
    return wide - theme.LEGEND_GAP, size.height


def _nodes(words: Words) -> tuple[tuple[str, str], ...]:
    """What the nodes of a prefix graph give, and their fill."""
    return (words("key-black-node"), INK), (words("key-grey-node"), theme.RULE)


def _label(text: str, x: float, middle: float) -> Text:
    return Text(x, middle + theme.MIDDLE * theme.SIZE_TEXT, text, weight=theme.STRONG)
