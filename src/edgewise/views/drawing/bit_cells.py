"""Cells: a word as a row of bit cells, MSB left, each bit shown by weight and fill.

1 is solid with a white digit, 0 is empty, X is hatched; an amber band lies under each bit
that changed at the last edge::

    ┌─┬─┬─┐
    │0│1│X│
    └─┴─┴─┘
       ▬▬▬
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field

from edgewise.bits import Bit, Word, X
from edgewise.views.drawing import theme
from edgewise.views.drawing.shapes import Group, Item, Letters, Path, Text, number, rectangle_data
from edgewise.views.drawing.theme import DIAGRAM_CELL, INK, PAPER, CellSize
from edgewise.words.messages import ENGLISH, Words


@dataclass(frozen=True, slots=True)
class Placed:
    """A word and the top left corner of its first cell.

    Parameters
    ----------
    word : Word
        At least one bit.
    x, y : float
    changed : Word, optional
        Has a 1 at each bit to be marked with the band; see `Trace.changed`.
    """

    word: Word
    x: float
    y: float
    changed: Word | None = None


def cells(  # noqa: PLR0913, PLR0917  # a word, its place, its looks
    word: Word,
    x: float,
    y: float,
    changed: Word | None = None,
    size: CellSize = DIAGRAM_CELL,
    name: str = "",
    words: Words = ENGLISH,
) -> Group:
    """The cells of a word; a word of more than `theme.FOLD` bits is folded.

    A folded word shows its first and last bits, an ellipsis between, and its value below.

    Parameters
    ----------
    word, x, y, changed
        See `Placed`.
    size : CellSize
    name : str
        What the word is the value of: ``S``, ``FA.sum``.
    words : Words
        The language of what stands below a folded word.

    Returns
    -------
    Group
        Of class ``cells``; as wide as `cells_width`, as high as `cells_height`.

    Examples
    --------
    >>> group = cells(Word.parse("0110"), 0, 0, Word.parse("0010"))
    >>> [type(item).__name__ for item in group.items]
    ['Path', 'Path', 'Path', 'Letters', 'Path']
    >>> group.items[3].text
    '0110'
    """
    return sheet((Placed(word, x, y, changed),), size, name=name, words=words)


def sheet(
    placed: Iterable[Placed],
    size: CellSize = DIAGRAM_CELL,
    kind: str = "cells",
    name: str = "",
    words: Words = ENGLISH,
) -> Group:
    """The cells of many words that don't overlap, in few elements.

    Examples
    --------
    >>> words = [Placed(Word.of(2, 3), 0, 0), Placed(Word.of(5, 3), 0, 40)]
    >>> [item.text for item in sheet(words).items if isinstance(item, Letters)]
    ['010', '101']
    """
    layers = _Layers(size, words)
    for one in placed:
        _lay(layers, one)
    paths = (
        Path("".join(layers.frames), fill=PAPER, stroke=INK, weight=theme.CELL_LINE),
        Path("".join(layers.ones), fill=INK),
        Path("".join(layers.hatched), fill=theme.HATCH, stroke=INK, weight=theme.CELL_LINE),
        Path("".join(layers.between), stroke=PAPER, weight=theme.HAIR),
        *layers.texts,
        Path("".join(layers.bands), fill=theme.AMBER, stroke=INK, weight=theme.BAND_LINE),
    )
    return Group(
        tuple(item for item in paths if not isinstance(item, Path) or item.data), kind, name
    )


def value(word: Word, words: Words = ENGLISH) -> str:
    """What stands below a folded word: its value, or how much of it is unknown.

    Examples
    --------
    >>> value(Word.of(22, 16)), value(Word.parse("X0X1")), value(Word.parse("XX"))
    ('= 22', '2 of 4 bits unknown', 'all 2 bits unknown')
    """
    if word.readable:
        return f"= {word.value}"
    if word.known:
        return str(word)
    unknown = word.unknown.bit_count()
    if unknown == word.width:
        return words("figure-all-bits-unknown", width=unknown)
    return words("figure-bits-unknown", unknown=unknown, width=word.width)


def cells_width(width: int, size: CellSize = DIAGRAM_CELL) -> float:
    """Px that the cells of a word of `width` bits take from left to right.

    Examples
    --------
    >>> cells_width(6), cells_width(12), cells_width(40)
    (144, 288, 384)
    """
    return size.width * min(width, theme.FOLD)


def cells_height(width: int, size: CellSize = DIAGRAM_CELL) -> float:
    """Px from the top of the cells to the end of the band, or of the value if folded.

    Examples
    --------
    >>> cells_height(6), cells_height(40) > cells_height(6)
    (35, True)
    """
    below = theme.SIZE_SMALL + 5 if width > theme.FOLD else 0
    return size.pitch_down + below


@dataclass(slots=True)
class _Layers:
    """Path data and texts while they are gathered, from the lowest layer up."""

    size: CellSize
    words: Words
    frames: list[str] = field(default_factory=list)
    ones: list[str] = field(default_factory=list)
    hatched: list[str] = field(default_factory=list)
    between: list[str] = field(default_factory=list)
    """Light lines that keep two neighbouring ones apart."""
    texts: list[Item] = field(default_factory=list)
    bands: list[str] = field(default_factory=list)


def _lay(layers: _Layers, placed: Placed) -> None:
    word, x, y, size = placed.word, placed.x, placed.y, layers.size
    marks = placed.changed.ones if placed.changed else 0
    bits: list[Bit] = list(word)[::-1]
    banded = [bool(marks >> i & 1) for i in reversed(range(word.width))]
    if word.width <= theme.FOLD:
        _run(layers, bits, banded, x, y)
        return
    left, right = theme.FOLD - 1 - theme.FOLD_LOW, theme.FOLD_LOW
    _run(layers, bits[:left], banded[:left], x, y)
    _run(layers, bits[-right:], banded[-right:], x + (left + 1) * size.width, y)
    if any(banded[left:-right]):
        layers.bands.append(_band(x + left * size.width, y, size))
    middle, low = x + (left + 0.5) * size.width, y + size.height / 2 + theme.MIDDLE * size.digit / 2
    base = y + size.pitch_down + theme.ASCENT * theme.SIZE_SMALL + 3
    layers.texts += (
        Text(middle, low, "…", size.digit, anchor="middle"),
        Text(
            x,
            base,
            value(word, layers.words),
            theme.SIZE_SMALL,
            family="bits" if word.known else "text",
        ),
    )


def _run(layers: _Layers, bits: list[Bit], banded: list[bool], x: float, y: float) -> None:
    """Cells side by side, without folding."""
    size = layers.size
    w, h = size.width, size.height
    top, down = number(y), f"v{number(h)}"
    layers.frames.append(rectangle_data(x, y, w * len(bits), h))
    before = 0
    for i, bit in enumerate(bits):
        left = x + i * w
        if i:
            layers.frames.append(f"M{number(left)} {top}{down}")
        if bit == 1:
            layers.ones.append(rectangle_data(left, y, w, h))
            if before == 1:
                layers.between.append(f"M{number(left)} {number(y + 2)}v{number(h - 4)}")
        elif bit == X:
            layers.hatched.append(rectangle_data(left, y, w, h))
        if banded[i]:
            layers.bands.append(_band(left, y, size))
        before = bit
    layers.texts.append(
        Letters(
            tuple(x + (i + 0.5) * w for i in range(len(bits))),
            y + h / 2 + theme.MIDDLE * size.digit,
            "".join("01X"[bit] for bit in bits),
            tuple(PAPER if bit == 1 else INK for bit in bits),
            size.digit,
        )
    )


def _band(x: float, y: float, size: CellSize) -> str:
    inset = theme.BAND_INSET
    return rectangle_data(x + inset, y + size.height + size.gap, size.width - 2 * inset, size.band)
