"""The transcript: the film on a page, with all that is said and to be seen, and when."""

from __future__ import annotations

import base64
import html
from collections.abc import Iterator
from typing import TYPE_CHECKING, Final
from urllib.parse import quote

from edgewise.publish.film.captions import vtt
from edgewise.publish.film.plan import Plan, Shot
from edgewise.publish.html import page as pages
from edgewise.publish.html.page import Policy

if TYPE_CHECKING:
    from edgewise.lesson import Report

_PAGE: Final = """\
<!doctype html>
<html lang="{language}">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="{policy}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>{title}</title>
<style>{style}</style>
</head>
<body>
<header><h1>{title}</h1></header>
<main>
<video controls preload="metadata" src="{film}">
{tracks}</video>
{body}</main>
</body>
</html>
"""
_STYLE: Final = """
video { display: block; width: 100%; height: auto; border: 1px solid var(--rule); }
ol.said { list-style: none; padding: 0; }
ol.said li { display: grid; grid-template-columns: 4.5rem 1fr; gap: 0 1rem; margin-block: 1rem; }
ol.said a { font-variant-numeric: tabular-nums; }
ol.said p { margin: 0 0 .3rem; grid-column: 2; }
ol.said .seen { color: var(--slate-dark, #4d5b6b); font-size: .9em; }
"""


def page(report: Report, plan: Plan, film: str) -> str:
    """The page, to stand beside the film and its captions."""
    front = report.lesson.front
    name = quote(film)
    style = pages.style() + _STYLE
    policy = Policy(styles=(pages.hashed(style),), further=("media-src 'self' data: file:",))
    return _PAGE.format(
        language=html.escape(front.language),
        policy=html.escape(str(policy), quote=False),
        title=html.escape(front.title),
        style=style,
        film=name,
        tracks="".join(_tracks(report, plan)),
        body="".join(_chapters(plan, name)),
    )


def _tracks(report: Report, plan: Plan) -> Iterator[str]:
    """The tracks, in the page itself: of a file beside it a browser would not read them."""
    words, own = report.words, report.lesson.front.language
    for kind, cues, language in (
        ("captions", plan.captions(), own),
        ("chapters", plan.chapters(), words.language),
        ("descriptions", plan.descriptions(), words.language),
    ):
        data = base64.b64encode(vtt(cues).encode()).decode()
        shown = " default" if kind == "captions" else ""
        yield (
            f'<track kind="{kind}" src="data:text/vtt;base64,{data}"'
            f' srclang="{html.escape(language)}" label="{html.escape(words(f"film-{kind}"))}"'
            f"{shown}>\n"
        )


def _chapters(plan: Plan, film: str) -> list[str]:
    """Under each chapter what is said in it."""
    made: list[str] = []
    chapter = ""
    for shot in plan.shots:
        if shot.scene.chapter != chapter:
            chapter = shot.scene.chapter
            made += ["</ol>\n"] * bool(made)
            made.append(f'<h2>{html.escape(chapter)}</h2>\n<ol class="said">\n')
        made.append(_scene(plan, shot, film))
    return [*made, "</ol>\n"]


def _scene(plan: Plan, shot: Shot, film: str) -> str:
    seconds = shot.first / plan.rate
    said = f"<p>{html.escape(shot.scene.said)}</p>" if shot.scene.said else ""
    seen = f'<p class="seen">{html.escape(shot.scene.described)}</p>'
    link = f'<a href="{film}#t={seconds:.2f}">{minutes(seconds)}</a>'
    return f"<li>{link}{said}{seen}</li>\n"


def minutes(seconds: float) -> str:
    """A time as people read it.

    Examples
    --------
    >>> minutes(62.6), minutes(3723)
    ('1:02', '1:02:03')
    """
    whole, second = divmod(int(seconds), 60)
    hour, minute = divmod(whole, 60)
    return f"{hour}:{minute:02}:{second:02}" if hour else f"{minute}:{second:02}"
