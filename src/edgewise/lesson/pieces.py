"""Pieces: what the blocks of a lesson become, before anybody publishes them.

A piece holds what was computed and what is to be drawn; nothing in it is drawn yet.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from edgewise.errors import EdgewiseError, Place
from edgewise.trace import Trace
from edgewise.views.registry import Wish

if TYPE_CHECKING:
    from edgewise.views.diagram.options import Clock
    from edgewise.views.drawing.gate_symbols import Style
    from edgewise.views.drawing.svg import Drawing


@dataclass(frozen=True, slots=True)
class EdgeTable:
    """Some words in some rows of a run; `columns` as named in the lesson, indices worked out."""

    trace: Trace
    columns: tuple[str, ...]
    rows: tuple[int, ...]
    caption: str = ""
    blank: tuple[int, ...] | None = None
    """Rows that a handout with blanks leaves empty, where the lesson says which."""


@dataclass(frozen=True, slots=True)
class Figure:
    """A figure of a run that a lesson asks for; who publishes it has it drawn.

    Parameters
    ----------
    trace : Trace
    kind : str
        One of `edgewise.views.registry.NAMES`.
    wish : Wish
        What it is to show, checked.
    rows : tuple of int
        The rows whose values it shows.
    names : tuple of str
        The words whose values it shows.
    caption : str
    place : Place, optional
        Of the block that asks for it.
    """

    trace: Trace
    kind: str
    wish: Wish
    rows: tuple[int, ...]
    names: tuple[str, ...]
    caption: str = ""
    place: Place | None = None

    def drawing(self) -> Drawing:
        """The figure, drawn.

        Raises
        ------
        EdgewiseError
            It is too large to be drawn; at the block's place.
        """
        from edgewise.views import registry

        try:
            return registry.figure(self.trace, self.kind, self.wish)
        except EdgewiseError as wrong:
            raise wrong.placed(self.place) from None

    def svg(self, drawing: Drawing | None = None, prefix: str = "") -> str:
        """The SVG of the figure, or of another `drawing` in its place.

        Its ids begin with `prefix`, where a page shows more than one run of a lesson.
        """
        from edgewise.views.drawing.svg import svg

        # Ids must differ even where a lesson shows the same figure twice.
        prefix += f"line{self.place.line}-" if self.place else ""
        return svg(drawing or self.drawing(), prefix=prefix)


@dataclass(frozen=True, slots=True)
class CircuitText:
    """The circuit of the lesson, as text."""

    text: str


@dataclass(frozen=True, slots=True)
class Stage:
    """A figure to step through.

    Parameters
    ----------
    columns : tuple of str
        Of its edge table and timing diagram; `Trace.columns` if empty.
    opened : tuple of str
        Parts drawn from inside.
    clock, symbols : str
        As in `edgewise.views.diagram.block_diagram.diagram`.
    row : int
        The row shown first.
    fade : int
        The last rows that a learner may leave out, at most; 0: any number.
    """

    columns: tuple[str, ...] = ()
    opened: tuple[str, ...] = ()
    clock: Clock = "wedge"
    symbols: Style = "distinctive"
    row: int = 0
    fade: int = 0


@dataclass(frozen=True, slots=True)
class Said:
    """What the teacher says while the figure above is projected; readers don't see it.

    Parameters
    ----------
    text : str
        Plain paragraphs.
    rows : tuple of int
        The rows during which it is said; empty for all.
    """

    text: str
    rows: tuple[int, ...] = ()
