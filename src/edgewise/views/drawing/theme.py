"""The look: every colour, length and typeface of our figures.

Values are shown by weight and fill, never by hue, so that figures stay readable in black
and white: 1 is solid or thick, 0 is empty or thin, X is hatched or dashed. Lengths are px
(CSS: 96 to the inch).
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final, Literal, TypeAlias

from edgewise.bits import Bit, X

# ---------------------------------------------------------------- colours

INK: Final = "#1b2430"
"""Text, outlines, and the fill of a 1."""
PAPER: Final = "#ffffff"
"""The ground, and the fill of a 0."""
PANEL: Final = "#f6f4ee"
"""A warm ground behind what belongs together."""
RULE: Final = "#c9ced6"
"""Thin rules and guide lines; never text."""
AMBER: Final = "#f2a900"
"""The band under what changed at the last edge; never text."""
AMBER_TURNED: Final = "#984f00"
"""Becomes a bright amber where light is turned into dark: the hue stays, the light does not."""
VIOLET: Final = "#6a3fb5"
"""The carry path."""
SLATE: Final = "#5b6b7d"
"""Clock and enable nets, captions, port names."""
SLATE_DARK: Final = "#4d5b6b"
"""Captions in small print and on a tinted ground, which need more contrast."""
BRICK: Final = "#b3261e"
"""Errors, and nothing else."""
BRICK_PALE: Final = "#fdf3f2"
"""The ground of an error's text."""
TRAIL: Final = "#b5dbe9"
"""The mark under a path: pale, so that wires and figures are read on it."""
HATCH_LINE: Final = "#a9b2bf"
"""The strokes of the hatch: light enough for an ink X to be read on it."""

HATCH: Final = "hatch"
"""Stands in a `fill` for the hatch of an unknown bit."""
NONE: Final = "none"

HATCH_STEP: Final = 6.0
"""Px between two strokes of the hatch, measured across them."""
HATCH_WEIGHT: Final = 1.5
SMALL_HATCH: Final = (4.2, 1.2)
"""Step and weight in the small cells of a page's tables."""
SHEET_HATCH: Final = (3.4, 0.55)
"""Step and weight on a handout, pt."""

# ---------------------------------------------------------------- strokes

THIN: Final = 1.25
"""A wire or level that holds 0."""
THICK: Final = 3.5
"""A wire or level that holds 1."""
HIGH: Final = 3.0
"""A high level in a timing diagram."""
OUTLINE: Final = 1.5
"""Outlines of boxes."""
HAIR: Final = 0.75
"""Guide lines and rules."""
DASH: Final = (5.0, 4.0)
"""A wire that holds X."""
BUS: Final = (THIN + THICK) / 2
"""A wire of several bits: between a 0 and a 1."""
DOT: Final = 3.5
"""Radius of the dot where wires are joined."""
LIGHT: Final = 1.0
"""Clock and enable nets."""
LIGHT_ONE: Final = THICK
"""An enable net that holds 1: no lighter than any other 1."""
TRAIL_WEIGHT: Final = 10.0
"""The mark under a path."""


def wire(bit: Bit) -> tuple[float, tuple[float, ...]]:
    """Stroke width and dashes of a wire that holds `bit`.

    Examples
    --------
    >>> wire(1), wire(0), wire(X)
    ((3.5, ()), (1.25, ()), (1.25, (5.0, 4.0)))
    """
    if bit == X:
        return THIN, DASH
    return (THICK, ()) if bit else (THIN, ())


def fill(bit: Bit) -> str:
    """Fill of a cell that holds `bit`.

    Examples
    --------
    >>> fill(1), fill(0), fill(X)
    ('#1b2430', '#ffffff', 'hatch')
    """
    return HATCH if bit == X else (INK if bit else PAPER)


# ---------------------------------------------------------------- text

Family: TypeAlias = Literal["text", "bits"]
"""``text``: names and sentences; ``bits``: digits, words, values."""

FAMILIES: Final[dict[Family, str]] = {
    "text": "'Source Sans 3','Edgewise Sans',sans-serif",
    "bits": "'IBM Plex Mono','Edgewise Mono',monospace",
}
"""As they stand in an SVG: the whole fonts, else their subsets on a page (`fonts/README.md`).

A name that ends in a digit needs its quotes.
"""

FONT_FILES: Final[dict[tuple[Family, int], str]] = {
    ("text", 400): "SourceSans3-Regular.ttf",
    ("text", 600): "SourceSans3-Semibold.ttf",
    ("bits", 400): "IBMPlexMono-Regular.ttf",
    ("bits", 600): "IBMPlexMono-SemiBold.ttf",
}
"""The shipped file of each family and weight."""

REGULAR: Final = 400
STRONG: Final = 600

SIZE_TEXT: Final = 14.0
SIZE_NAME: Final = 16.0
"""Names of parts."""
SIZE_SMALL: Final = 12.0
"""Port names, captions, edge numbers; nothing is smaller."""
SIZE_DIGIT: Final = 14.0

ASCENT: Final = 0.75
"""Height of the tallest letters over the base line, in parts of the size; both families."""
DESCENT: Final = 0.22
"""Depth of the deepest letters below the base line."""
MIDDLE: Final = 0.345
"""From the middle of digits and capitals down to their base line, in parts of the size."""

# ---------------------------------------------------------------- cells


@dataclass(frozen=True, slots=True)
class CellSize:
    """The lengths of one bit cell, px.

    Examples
    --------
    >>> TABLE_CELL.pitch_down >= TABLE_CELL.height
    True
    """

    width: float
    height: float
    digit: float
    """Size of its digit."""
    band: float
    """Height of the amber band."""
    gap: float
    """Between the cell and its band."""

    @property
    def pitch_down(self) -> float:
        """Cell, gap and band together."""
        return self.height + self.gap + self.band


DIAGRAM_CELL: Final = CellSize(width=24, height=28, digit=17, band=4, gap=3)
TABLE_CELL: Final = CellSize(width=15, height=20, digit=14, band=3, gap=2)

CELL_LINE: Final = 1.25
"""Outlines of cells."""
BAND_INSET: Final = 2.0
"""A band is this much shorter than its cell at either end."""
BAND_LINE: Final = 0.6
"""Ink around a band: amber alone is too pale for a print in grey."""

SHEET_CELL: Final = CellSize(width=8.4, height=11.4, digit=8.6, band=1.9, gap=1)
"""A cell on a handout, pt."""
SHEET_LINE: Final = 0.7
SHEET_BAND_INSET: Final = 0.9
SHEET_BAND_LINE: Final = 0.3

FOLD: Final = 16
"""A word of more cells than this is folded: no bit is hidden to save a few cells."""
FOLD_LOW: Final = 8
"""Cells of a folded word right of the ellipsis; one less stands left of it."""

# ---------------------------------------------------------------- spacing

MARGIN: Final = 16.0
"""Around every figure."""
GAP: Final = 8.0
"""Between things that belong together; twice that between others."""
RADIUS: Final = 3.0
"""Corners of boxes."""

LEGEND_WIRE: Final = 36.0
LEGEND_GAP: Final = 24.0
"""Between two entries of a legend."""
LEGEND_BAND: Final = 24.0
