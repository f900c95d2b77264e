"""A lesson on slides: a presentation to be shown and changed, and a PDF with the same slides."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from itertools import chain
from pathlib import Path
from typing import TYPE_CHECKING, Final

from edgewise import lesson
from edgewise.errors import EdgewiseError, Message, Place, TextError
from edgewise.lesson import Report
from edgewise.lesson.picking import Note
from edgewise.publish import output
from edgewise.publish.handout.build import place_of
from edgewise.publish.handout.pdf import NoGlyph
from edgewise.publish.slides import presentation, shape, template
from edgewise.publish.slides.content import deck
from edgewise.publish.slides.deck import Deck
from edgewise.publish.slides.figures import Show, shown
from edgewise.publish.slides.pages import pages
from edgewise.publish.slides.placing import placed

if TYPE_CHECKING:
    from edgewise.study.cost.sweep import Progress

__all__ = ["SUFFIXES", "Manner", "build", "shown", "slides"]
MOST_STEPS: Final = 400
"""Of one presentation, as of a stage."""
LEGIBLE: Final = 9.0
"""Points of letters below which a teacher is told."""
SUFFIXES: Final = (".pptx", "-slides.pdf")


@dataclass(frozen=True, slots=True)
class Manner:
    """How slides are made.

    Parameters
    ----------
    shape : str
        ``16:9`` or ``4:3``.
    show : {"diagram", "table", "timing"}
        What a step shows.
    template : Path, optional
        A presentation whose layouts, type and size the slides take.
    """

    shape: str = "16:9"
    show: Show = "diagram"
    template: Path | None = None


def build(
    path: Path,
    out: Path,
    tell: Callable[[Note], None] | None = None,
    manner: Manner | None = None,
    progress: Progress | None = None,
) -> tuple[Path, ...]:
    """Check a lesson and write its slides.

    Parameters
    ----------
    path : Path
        The lesson.
    out : Path
        Folder for them; made if need be.
    tell : function, optional
        Is given each note on the lesson's example.
    manner : Manner, optional
    progress : function, optional
        Is told how many slides are written, and how many there are.

    Returns
    -------
    tuple of Path
        ``NAME.pptx`` and ``NAME-slides.pdf``.

    Raises
    ------
    EdgewiseError or Problems
        Everything that is wrong with the lesson, python-pptx is missing, or the template can't be
        used; nothing is written then.
    """
    manner = manner or Manner()
    presentation.needed()
    shape.find(manner.shape)
    report = lesson.check(path)
    files = [out / f"{path.stem}{suffix}" for suffix in SUFFIXES]
    if manner.template is not None and manner.template.resolve() == files[0].resolve():
        raise EdgewiseError(Message("overwrites-template"), Place(str(files[0])))
    made, *packed = _made(report, manner, progress)
    written = tuple(output.write(*pair) for pair in zip(files, packed, strict=True))
    if tell is not None:
        for note in (*report.notes, *_small(report, made.letters)):
            tell(note)
    return written


def _small(report: Report, letters: float) -> Iterator[Note]:
    """That figures can't be read from the last row."""
    if letters < LEGIBLE:
        named = report.lesson.front.design
        yield Note(
            "warning",
            str(Message("slides-letters-small", points=round(letters))),
            report.lesson.front.place if named is None else named.place,
        )


def slides(report: Report, manner: Manner) -> tuple[bytes, bytes]:
    """The presentation and the PDF of a checked lesson.

    Raises
    ------
    EdgewiseError
        The template can't be used, or a character that the typefaces don't have.
    """
    _, shown, printed = _made(report, manner)
    return shown, printed


def _made(
    report: Report, manner: Manner, progress: Progress | None = None
) -> tuple[Deck, bytes, bytes]:
    presentation.needed()
    if len(report.steps) > MOST_STEPS:
        raise EdgewiseError(
            Message("slides-steps-many", count=len(report.steps), most=MOST_STEPS),
            Place(report.lesson.file),
        )
    own = manner.template
    size = shape.find(manner.shape) if own is None else template.shape_of(template.read(own))
    made = deck(report, size, manner.show)
    pieces = tuple(chain.from_iterable(placed(one, size, report.words) for one in made.slides))
    try:
        printed = pages(made, pieces, size)
    except NoGlyph as wrong:
        raise TextError(wrong.told, place_of(report, wrong.text)) from None
    shown = presentation.presentation(made, pieces, size, own, progress)
    return made, shown, printed
