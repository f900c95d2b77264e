"""The look of pages and handouts, made from that of the figures: `views/drawing/theme` has it.

A style sheet takes each colour, weight and typeface by its name (``var(--ink)``), `handout.typ`
likewise (``ink``), and neither has one of its own.
"""

from __future__ import annotations

from functools import lru_cache
from typing import Final

from edgewise.views.drawing import theme
from edgewise.views.drawing.shapes import number

COLOURS: Final = {
    "ink": theme.INK,
    "paper": theme.PAPER,
    "panel": theme.PANEL,
    "rule": theme.RULE,
    "amber": theme.AMBER,
    "amber-turned": theme.AMBER_TURNED,
    "violet": theme.VIOLET,
    "slate": theme.SLATE,
    "slate-dark": theme.SLATE_DARK,
    "brick": theme.BRICK,
    "brick-pale": theme.BRICK_PALE,
    "hatch": theme.HATCH_LINE,
}
WEIGHTS: Final = {
    "thin": theme.THIN,
    "thick": theme.THICK,
    "bus": theme.BUS,
    "light": theme.LIGHT,
    "light-one": theme.LIGHT_ONE,
    "high": theme.HIGH,
    "hair": theme.HAIR,
    "outline": theme.OUTLINE,
    "cell-line": theme.CELL_LINE,
    "band-line": theme.BAND_LINE,
    "size-text": theme.SIZE_TEXT,
    "size-small": theme.SIZE_SMALL,
}
"""Weights of strokes and sizes of letters in a figure, px."""


@lru_cache(maxsize=8)
def css(selector: str) -> str:
    """The look as custom properties of what ``selector`` chooses.

    The format is that of W3C CSS Custom Properties for Cascading Variables, level 1.

    Examples
    --------
    >>> css(":root").splitlines()[:3]
    [':root {', '  --ink: #1b2430;', '  --paper: #ffffff;']
    """
    found: dict[str, str] = {
        **COLOURS,
        **{name: number(weight) for name, weight in WEIGHTS.items()},
        "dash": " ".join(map(number, theme.DASH)),
        **_families(),
        "unknown": _hatched("var(--paper)", "var(--hatch)"),
        "closed": _hatched("transparent", "var(--rule)"),
        "unknown-printed": _printed(),
    }
    lines = "".join(f"  --{name}: {value};\n" for name, value in found.items())
    return f"{selector} {{\n{lines}}}\n"


def _families() -> dict[str, str]:
    return {
        name: family.replace("'", '"').replace(",", ", ") for name, family in theme.FAMILIES.items()
    }


def _hatched(ground: str, line: str) -> str:
    """The hatch of a small cell on a screen."""
    step, weight = theme.SMALL_HATCH
    free, whole = number(step - weight), number(step)
    return f"repeating-linear-gradient(-45deg, {ground} 0 {free}px, {line} {free}px {whole}px)"


def _printed() -> str:
    """The hatch of a small cell on paper, as strokes.

    A browser prints each repeating gradient as an image of its own: 35 MB for a lesson.
    """
    strokes = "M0 6 6 0M0 12 12 0M0 18 18 0M0 24 18 6M6 24 18 12M12 24 18 18"
    colour = theme.HATCH_LINE.replace("#", "%23")
    return (
        "url(\"data:image/svg+xml,%3Csvg xmlns='http://www.w3.org/2000/svg' viewBox='0 0 18 24'"
        f" preserveAspectRatio='none'%3E%3Cpath d='{strokes}' stroke='{colour}'/%3E%3C/svg%3E\")"
    )


@lru_cache(maxsize=1)
def typst() -> str:
    """The look as typst definitions, lengths in pt.

    Examples
    --------
    >>> print(typst().splitlines()[0])
    #let ink = rgb("#1b2430")
    """
    cell = theme.SHEET_CELL
    step, weight = theme.SHEET_HATCH
    lengths = {
        "hatch-step": step,
        "hatch-weight": weight,
        "cell-width": cell.width,
        "cell-height": cell.height,
        "cell-digit": cell.digit,
        "cell-band": cell.band,
        "cell-gap": cell.gap,
        "cell-line": theme.SHEET_LINE,
        "band-inset": theme.SHEET_BAND_INSET,
        "band-line": theme.SHEET_BAND_LINE,
    }
    families = {name: family.split(",")[0].strip("'") for name, family in theme.FAMILIES.items()}
    return "".join(
        [
            *(f'#let {name} = rgb("{colour}")\n' for name, colour in COLOURS.items()),
            *(f"#let {name} = {number(length)}pt\n" for name, length in lengths.items()),
            f'#let bits = ("{families["bits"]}", "{families["text"]}")\n',
            f'#let plain = ("{families["text"]}", "{families["bits"]}")\n',
        ]
    )
