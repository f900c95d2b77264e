"""The transcript: the film on a page, with all that is said and to be seen, and when."""

from __future__ import annotations

import html
from typing import TYPE_CHECKING, Final
from urllib.parse import quote

from edgewise.publish import look
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
<track kind="captions" src="{stem}.vtt" srclang="{language}" label="{captions}" default>
<track kind="chapters" src="{stem}.chapters.vtt" srclang="{foreign}" label="{chapters}">
<track kind="descriptions" src="{stem}.descriptions.vtt" srclang="{foreign}" label="{descriptions}">
</video>
{body}</main>
</body>
</html>
"""
_STYLE: Final = """
video { width: 100%; height: auto; border: 1px solid var(--rule); }
ol.said { list-style: none; padding: 0; }
ol.said li { display: grid; grid-template-columns: 4.5rem 1fr; gap: 0 1rem; margin-block: 1rem; }
ol.said a { font-variant-numeric: tabular-nums; }
ol.said p { margin: 0 0 .3rem; grid-column: 2; }
ol.said .seen { color: var(--slate-dark, #4d5b6b); font-size: .9em; }
"""


def page(report: Report, plan: Plan, film: str) -> str:
    """The page, to stand beside the film and its captions."""
    words, front = report.words, report.lesson.front
    name = quote(film)
    stem = quote(film.rpartition(".")[0])
    style = f"\n{pages.typefaces()}\n{look.css(':root')}{pages.sheet()}{_STYLE}"
    policy = Policy(styles=(pages.hashed(style),), further=("media-src 'self'",))
    return _PAGE.format(
        language=html.escape(front.language),
        foreign=html.escape(words.language),
        policy=html.escape(str(policy), quote=False),
        title=html.escape(front.title),
        style=style,
        film=name,
        stem=stem,
        captions=html.escape(words("film-captions")),
        chapters=html.escape(words("film-chapters")),
        descriptions=html.escape(words("film-descriptions")),
        body="".join(_chapters(plan, name)),
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
