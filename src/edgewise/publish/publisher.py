"""A publisher: what each kind of piece of a checked lesson becomes.

Every publisher (the page, the handout) is one class with one method for each kind of piece. One
that lacks a method is refused when its module is read, so a new kind of piece can't be forgotten.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, Final, Generic, TypeVar, get_args

from edgewise.lesson.blocks import Piece
from edgewise.lesson.broken import Broken
from edgewise.lesson.claims import Checked
from edgewise.lesson.compared import Compared
from edgewise.lesson.composed import Composed
from edgewise.lesson.covered import Covered
from edgewise.lesson.inside import Opened
from edgewise.lesson.law import FoundLaw
from edgewise.lesson.pieces import CircuitText, EdgeTable, Figure, Said, Stage
from edgewise.lesson.proof import Proved
from edgewise.lesson.question import Asked
from edgewise.lesson.steps import Steps

METHODS: Final[Mapping[type, str]] = {
    EdgeTable: "edge_table",
    Figure: "figure",
    Stage: "stage",
    Said: "said",
    Steps: "steps",
    CircuitText: "circuit",
    Checked: "claims",
    FoundLaw: "law",
    Proved: "proof",
    Covered: "coverage",
    Broken: "fault",
    Compared: "comparison",
    Opened: "inside",
    Composed: "composed",
    Asked: "question",
}
"""The method of a publisher for each kind of piece."""
assert set(METHODS) == set(get_args(Piece)), "a method for each kind of piece, and no other"


Made = TypeVar("Made")


class Publisher(Generic[Made]):
    """A lesson's pieces in one format: what each becomes is mostly text.

    One of another package may have a method `other` for pieces that it has no method for, such as
    kinds that are newer than it.

    Examples
    --------
    >>> class Titles(Publisher):  # doctest: +ELLIPSIS
    ...     def figure(self, piece: Figure) -> str:
    ...         return piece.caption
    Traceback (most recent call last):
    TypeError: Titles publishes no edge_table, stage, said, steps, circuit, claims, law, ...
    """

    __slots__ = ()

    def __init_subclass__(cls, **further: Any) -> None:
        """Refuse a publisher that lacks a method."""
        super().__init_subclass__(**further)
        missing = [name for name in METHODS.values() if not hasattr(cls, name)]
        if missing and not hasattr(cls, "other"):
            raise TypeError(f"{cls.__name__} publishes no {', '.join(missing)}")

    def piece(self, piece: Piece) -> Made:
        """What a piece becomes."""
        method = getattr(self, METHODS[type(piece)], None) or getattr(self, "other")  # noqa: B009
        made: Made = method(piece)
        return made
