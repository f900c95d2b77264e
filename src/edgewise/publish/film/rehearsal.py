"""The rehearsal: the projected stage with the script under it, and the cues of its presses.

The page holds the scenes as the steps of a stage of its own, one for one, so that a press goes on
by a scene. What it sends back is untrusted: it is read as times, and becomes a file of cues.
"""

from __future__ import annotations

import html
import json
from collections.abc import Sequence
from itertools import pairwise
from typing import TYPE_CHECKING, Final

from edgewise.errors import EdgewiseError, Message, Place
from edgewise.lesson.pieces import Stage
from edgewise.lesson.steps import Step
from edgewise.publish.film.script import Scene
from edgewise.publish.film.times import shortened_speech
from edgewise.publish.html import page as pages
from edgewise.publish.html.page import Policy
from edgewise.publish.stage import custom_element, javascript

if TYPE_CHECKING:
    from edgewise.lesson import Report

SUFFIX: Final = ".cues"
LARGEST: Final = 64 * 1024
"""Bytes that the page may send."""
_LONGEST: Final = 24 * 3600 * 1000
_WORDS: Final = ("begin", "next", "last", "clock", "script", "saving", "lost")
_PAGE: Final = """\
<!doctype html>
<html lang="{language}">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>{title}</title>
<style>{style}</style>
</head>
<body>
<header><h1>{title}</h1></header>
<main>
{stage}</main>
<script type="application/json" data-rehearsal>{script}</script>
<script type="module">{module}</script>
</body>
</html>
"""
_HEADING: Final = """\
# When each step of {lesson} begins, in seconds from the first word of the recording on.
# edgewise film {lesson} --voice RECORDING --cues THIS-FILE
"""


def page(report: Report, scenes: Sequence[Scene], seconds: Sequence[float]) -> tuple[str, Policy]:
    """The page, and its policy.

    Raises
    ------
    EdgewiseError
        The design is too large for a stage.
    """
    front = report.lesson.front
    wish = next((p for p in report.pieces.values() if isinstance(p, Stage)), Stage())
    stage = custom_element.element(
        report.trace,
        report.blueprint,
        wish=wish,
        words=report.words,
        memory=report.memory,
        steps=tuple(_step(scene, report) for scene in scenes),
    )
    if not stage:
        raise EdgewiseError(Message("rehearsal-stage-large"), Place(report.lesson.file))
    lines = [
        {"said": scene.said, "seconds": round(length, 3)}
        for scene, length in zip(scenes, seconds, strict=True)
    ]
    words = {name: report.words(f"film-rehearse-{name}") for name in _WORDS}
    style = pages.style() + custom_element.style() + javascript.source("rehearsal.css")
    module = f"\n{javascript.script('rehearsal')}"
    policy = Policy(
        (pages.hashed(module),),
        (pages.hashed(style),),
        ("connect-src 'self'", "frame-ancestors 'none'"),
    )
    made = _PAGE.format(
        language=html.escape(front.language),
        title=html.escape(front.title),
        style=style,
        stage=stage,
        script=json.dumps({"lines": lines, "words": words}).replace("<", "\\u003c"),
        module=module,
    )
    return made, policy


def _step(scene: Scene, report: Report) -> Step:
    """A scene as a step of the stage; a title stands before the first row that is shown."""
    if scene.shown is None:
        return Step(report.steps[0].row, said=scene.said)
    return Step(scene.shown.row, scene.shown.points, scene.said)


def cues(scenes: Sequence[Scene], sent: bytes, lesson: str) -> tuple[str, float]:
    """The file of cues that a page has sent, and how many seconds the rehearsal took.

    Raises
    ------
    EdgewiseError
        It is not a time for each scene, each behind the one before.

    Examples
    --------
    >>> scene = Scene("step", None, "Look at C.", "After edge 7", "add", "")
    >>> text, took = cues([scene, scene], b'{"starts": [0, 2500], "end": 4000}', "tide.md")
    >>> print(text.splitlines()[-1], took)
    +2.500   title  Look at C. 4.0
    """
    starts = _sent(sent, len(scenes))
    lines = [_HEADING.format(lesson=lesson)]
    for scene, start in zip(scenes, starts, strict=False):
        time = f"+{start / 1000:.3f}"
        lines.append(f"{time:<9}{scene.label:>5}  {shortened_speech(scene.said)}".rstrip() + "\n")
    return "".join(lines), starts[-1] / 1000


def _sent(sent: bytes, scenes: int) -> list[int]:
    """The starts, and behind them the end, in milliseconds."""
    try:
        told = json.loads(sent)
        times = [*told["starts"], told["end"]]
    except (ValueError, TypeError, KeyError, RecursionError):
        raise EdgewiseError(Message("cues-strange")) from None
    whole = all(type(time) is int and 0 <= time <= _LONGEST for time in times)
    if not whole or len(times) != scenes + 1 or times[0]:
        raise EdgewiseError(Message("cues-expected", scenes=scenes))
    if any(later <= earlier for earlier, later in pairwise(times)):
        raise EdgewiseError(Message("cues-back"))
    return times
