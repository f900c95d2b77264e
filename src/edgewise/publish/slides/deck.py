"""Deck: the slides of a lesson, before they are written in any format.

A slide has a title, lines of text, figures and a table, in their reading order, and what is said
while it is shown.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, TypeAlias

from edgewise.views.drawing.svg import Drawing, svg

Style: TypeAlias = Literal["plain", "bullet", "formula", "note"]
"""Of a line: a paragraph, an item of a list, bits or code, or what stands small under a line."""


@dataclass(frozen=True, slots=True)
class Line:
    """A line of text, as long as it may be."""

    text: str
    style: Style = "plain"


@dataclass(frozen=True, slots=True)
class Picture:
    """A figure as SVG, and what it shows for who can't see it.

    Parameters
    ----------
    svg : str
        With text as text.
    outlined : str
        The same with letters as outlines, for readers that lack the typefaces.
    about : str
    width, height : float
        Px.
    scale : float
        Points in a px; 0: as large as fits.
    room : float
        Px that are kept free for it from its left side on, as it is to grow; 0: its width.
    """

    svg: str
    outlined: str
    about: str
    width: float
    height: float
    scale: float = 0.0
    room: float = 0.0


@dataclass(frozen=True, slots=True)
class Slide:
    """One slide.

    Parameters
    ----------
    title : str
    lines : tuple of Line
        Above the figures.
    pictures : tuple of Picture
        One below the other.
    table : tuple of tuples of str
        Below the lines, its heading first; empty: none.
    notes : str
        What is said.
    own : bool
        Whether that is the author's, in the language of the lesson.
    opening : bool
        Whether it is the title slide, on which `lines` stand under the title.
    """

    title: str
    lines: tuple[Line, ...] = ()
    pictures: tuple[Picture, ...] = ()
    table: tuple[tuple[str, ...], ...] = ()
    notes: str = ""
    own: bool = False
    opening: bool = False


@dataclass(frozen=True, slots=True)
class Deck:
    """All slides of a lesson.

    Parameters
    ----------
    title : str
    language, spoken : str
        Of the lesson's text, and of our own words.
    slides : tuple of Slide
    letters : float
        Points of the smallest letters in the figures of its steps.
    """

    title: str
    language: str
    spoken: str
    slides: tuple[Slide, ...]
    letters: float = 0.0


def pictured(drawing: Drawing, scale: float = 0.0, room: float = 0.0) -> Picture:
    """A drawing as a picture of a slide."""
    about = f"{drawing.title.rstrip('.')}. {drawing.description}".strip()
    made = svg(drawing), svg(drawing, outlined=True)
    return Picture(*made, about, drawing.width, drawing.height, scale, room)
