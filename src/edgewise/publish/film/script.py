"""The script: what is shown and said in a film, scene by scene, before anything has its time."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal, TypeAlias

from edgewise.publish import captions
from edgewise.publish.film.animation import Shown
from edgewise.publish.stage import telling
from edgewise.views.text import alt_text
from edgewise.words.lists import listed

if TYPE_CHECKING:
    from edgewise.lesson import Report

Kind: TypeAlias = Literal["title", "ask", "step"]


@dataclass(frozen=True, slots=True)
class Scene:
    """One thing shown and said.

    Parameters
    ----------
    kind : {"title", "ask", "step"}
        The title; a question on the row to come, which is not shown yet; a step.
    shown : Shown, optional
        What the picture shows; None for the title.
    said : str
        Empty: nothing, or what was said before goes on.
    heading : str
        The moment that is shown.
    chapter : str
        Section and phase, or the lesson's title.
    described : str
        What is to be seen, for those who don't see it.
    """

    kind: Kind
    shown: Shown | None
    said: str
    heading: str
    chapter: str
    described: str

    @property
    def label(self) -> str:
        """A short name: ``title``, ``7``, ``7?``.

        Examples
        --------
        >>> Scene("ask", Shown(6), "What will C hold?", "After edge 6", "add", "").label
        '7?'
        """
        if self.shown is None:
            return "title"
        row = self.shown.row
        return f"{row + 1}?" if self.kind == "ask" else str(row)


def scenes(report: Report) -> tuple[Scene, ...]:
    """The scenes of a lesson: its title, then its steps, before some of them a question."""
    return (_title(report), *_steps(report))


def _title(report: Report) -> Scene:
    title = report.lesson.front.title
    about = alt_text.title(report.trace.design, report.words)
    said = " ".join(report.opening.split())
    return Scene("title", None, said, title, title, f"{title}. {about[:1].upper()}{about[1:]}.")


def _steps(report: Report) -> Iterator[Scene]:
    trace, words = report.trace, report.words
    before: Shown | None = None
    for told in telling.of(report):
        step = told.step
        phase = step.phase or (words("table-start") if trace.edges else "")
        chapter = " · ".join(filter(None, (step.section, phase))) or told.heading
        if step.predict and step.row:
            asked = words("slides-predict", names=listed(step.predict, words), edge=step.row)
            shown = Shown(step.row - 1, step.section, step.predict, asked)
            heading = captions.moment(trace, (step.row - 1,), words)
            yield Scene("ask", shown, asked, heading, chapter, asked)
            before = shown
        shown = Shown(step.row, step.section, step.points)
        said = " ".join(told.said.split())
        seen = _described(report, before, shown)
        yield Scene("step", shown, said, told.heading, chapter, seen)
        before = shown


def _described(report: Report, before: Shown | None, now: Shown) -> str:
    """What a row shows: all that it holds, or behind the row before it what has changed."""
    trace, words = report.trace, report.words
    names = trace.columns
    if before is not None and now.row == before.row + 1:
        names = tuple(name for name in names if trace.changed(name, now.row).ones)
    values = [trace.word(name, now.row) for name in names]
    if not names:
        return words("film-unchanged", edge=now.row)
    return alt_text.state(names, values, now.row if trace.edges else None, words=words)
