"""The reading copy: the script with its times, as text and in large type on paper."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator, Sequence
from itertools import accumulate
from typing import TYPE_CHECKING, Final

from edgewise.errors import TextError
from edgewise.publish.film.script import Scene
from edgewise.publish.film.transcript import minutes
from edgewise.publish.handout import pdf
from edgewise.publish.handout.build import place_of
from edgewise.publish.handout.pdf import PAPERS, NoGlyph, quoted

if TYPE_CHECKING:
    from edgewise.lesson import Report

_MARGIN: Final = 16
"""Characters for time and step."""
_LARGE: Final = 19
"""Points: to be read at arm's length."""


def lines(scenes: Sequence[Scene], seconds: Sequence[float], width: int) -> Iterator[str]:
    """The script as text.

    Examples
    --------
    >>> scene = Scene("title", None, "Good morning, all of you.", "Rain", "Rain", "")
    >>> for line in lines([scene, scene], [3.0, 2.0], 32):
    ...     print(line)
       0:00  title  Good morning, all of
                    you.
       0:03  title  Good morning, all of
                    you.
       0:05  end
    """
    for scene, start in _spoken(scenes, seconds):
        head = f"{minutes(start):>7}  {scene.label:<5}  "
        said = textwrap.wrap(scene.said or "–", max(width - _MARGIN, 20), break_on_hyphens=False)
        yield head + said[0]
        yield from (" " * len(head) + line for line in said[1:])
    yield f"{minutes(sum(seconds)):>7}  end"


def printed(
    report: Report, scenes: Sequence[Scene], seconds: Sequence[float], paper: str = "a4"
) -> bytes:
    """The script as a PDF in large type; no scene is broken between two pages.

    Raises
    ------
    TextError
        A character that the typefaces don't have, with its place.
    """
    front = report.lesson.front
    language = quoted(front.language[:2].lower())
    source = [
        f"#show: setup.with(title: {quoted(front.title)}, lang: {language}, region: none,"
        f" paper: {quoted(PAPERS[paper][0])}, foot: {quoted(front.title)})\n",
        f"#title[#{quoted(front.title)};]\n#set text({_LARGE}pt)\n#set par(leading: .8em)\n",
    ]
    for scene, start in _spoken(scenes, seconds):
        head = f"{minutes(start)}  {scene.heading if scene.kind != 'title' else ''}"
        source.append(
            f"#block(breakable: false, below: 1.6em)[#text(11pt, fill: slate-dark,"
            f" {quoted(head)})\\\n#{quoted(scene.said or '–')};]\n"
        )
    try:
        return pdf.pdf("".join(source), {})
    except NoGlyph as wrong:
        raise TextError(wrong.told, place_of(report, wrong.text)) from None


def _spoken(scenes: Sequence[Scene], seconds: Sequence[float]) -> Iterator[tuple[Scene, float]]:
    """The scenes and when they begin, without a title that nothing is said to."""
    starts = accumulate(seconds, initial=0.0)
    for scene, start in zip(scenes, starts, strict=False):
        if scene.said or scene.kind != "title":
            yield scene, start
