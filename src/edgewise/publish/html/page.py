"""A lesson as one self-contained HTML file that makes no request."""

from __future__ import annotations

import base64
import hashlib
import html
from collections.abc import Callable
from dataclasses import dataclass
from functools import lru_cache
from importlib import resources
from pathlib import Path
from typing import TYPE_CHECKING, Final

from edgewise import lesson
from edgewise.errors import EdgewiseError, Message, Place
from edgewise.lesson import Report
from edgewise.lesson.picking import Note
from edgewise.publish import look, output
from edgewise.publish.html import render
from edgewise.publish.stage import custom_element, javascript

if TYPE_CHECKING:
    from edgewise.study.cost.sweep import Progress

NOBODY: Final = "'none'"
TYPEFACES: Final = (
    ("Edgewise Sans", "sans-400", 400, "normal"),
    ("Edgewise Sans", "sans-400-italic", 400, "italic"),
    ("Edgewise Sans", "sans-600", 600, "normal"),
    ("Edgewise Mono", "mono-400", 400, "normal"),
    ("Edgewise Mono", "mono-600", 600, "normal"),
)
"""Family, file in ``fonts/page``, weight, style."""
_META: Final = '<meta http-equiv="Content-Security-Policy" content="{}">\n'
_PAGE: Final = """\
<!doctype html>
<html lang="{language}">
<head>
<meta charset="utf-8">
{policy}<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="referrer" content="no-referrer">
<title>{title}</title>
<style>{style}</style>
{links}</head>
<body>
<header>
<h1>{title}</h1>
{facts}
</header>
<main>
{body}</main>
<footer>
<p{foreign}>{footer}</p>
</footer>
{script}</body>
</html>
"""


def build(
    path: Path,
    out: Path,
    tell: Callable[[Note], None] | None = None,
    progress: Progress | None = None,
) -> Path:
    """Check a lesson and write its page.

    Parameters
    ----------
    path : Path
        The lesson.
    out : Path
        Folder for the page; made if need be.
    tell : function, optional
        Is given each note on the lesson's example.
    progress : function, optional
        Is told how many sizes of the design are packed, and how many there are.

    Returns
    -------
    Path
        The page, named after the lesson.

    Raises
    ------
    EdgewiseError or Problems
        Everything that is wrong with the lesson; nothing is written then.
    """
    report = lesson.check(path)
    page = out / f"{path.stem}.html"
    if page.resolve() == path.resolve():
        raise EdgewiseError(Message("page-overwrites-lesson"), Place(str(page)))
    if progress is not None:
        custom_element.prepare(report, progress)
    written = output.write(page, html_of(report))
    if tell is not None:
        for note in report.notes:
            tell(note)
    return written


@dataclass(frozen=True, slots=True)
class Policy:
    """Whence a page may take scripts and styles (Content Security Policy 3); from nowhere else.

    Examples
    --------
    >>> str(Policy(styles=("'self'",))).split("; ")[:3]
    ["default-src 'none'", "script-src 'none'", "style-src 'self'"]
    """

    scripts: tuple[str, ...] = ()
    styles: tuple[str, ...] = ()
    further: tuple[str, ...] = ()
    """Directives of a page that is served."""

    def __str__(self) -> str:
        told = [
            "default-src 'none'",
            f"script-src {' '.join(self.scripts) or NOBODY}",
            f"style-src {' '.join(self.styles) or NOBODY}",
            "img-src data:",
            "font-src data:",
            "base-uri 'none'",
            "form-action 'none'",
            *self.further,
        ]
        return "; ".join(told)


@dataclass(frozen=True, slots=True)
class Frame:
    """What stands around the body of a page.

    Parameters
    ----------
    title, language : str
    facts : str
        HTML of what stands under the title.
    foreign : str
        As of `render.language`.
    footer : str
        What was computed and checked, and what the figures are for.
    """

    title: str
    language: str
    facts: str
    foreign: str
    footer: str


def frame(report: Report) -> Frame:
    """What stands around the body of a checked lesson's page."""
    front = report.lesson.front
    return Frame(
        front.title,
        front.language,
        render.facts(report),
        render.language(report),
        report.words("page-footer"),
    )


def html_of(report: Report) -> str:
    """The page of a checked lesson; the same lesson gives the same bytes."""
    body = render.made(report)
    sheet = style() + custom_element.style() if body.staged else style()
    module = custom_element.module() if body.staged else ""
    policy = Policy(
        scripts=(hashed(module),) if module else (),
        styles=(hashed(sheet),),
    )
    told = "".join(part.html for part in body.parts)
    scripts = f'<script type="module">{module}</script>\n' if module else ""
    return framed(frame(report), told, sheet, scripts, policy=policy)


def framed(  # each is a piece of the page
    around: Frame,
    body: str,
    sheet: str,
    scripts: str,
    *,
    policy: Policy | None = None,
    links: str = "",
) -> str:
    """A page; without a policy of its own it is one that a server sends with it."""
    meta = "" if policy is None else _META.format(html.escape(str(policy), quote=False))
    return _PAGE.format(
        language=html.escape(around.language),
        policy=meta,
        title=html.escape(around.title),
        style=sheet,
        links=links,
        facts=around.facts,
        body=body,
        script=scripts,
        foreign=around.foreign,
        footer=html.escape(around.footer),
    )


def hashed(text: str) -> str:
    """A style sheet or script that stands in the page, as a policy names it."""
    return f"'sha256-{digest(text)}'"


def digest(text: str) -> str:
    """The SHA-256 of a style sheet or script, as a policy names it."""
    return base64.b64encode(hashlib.sha256(text.encode()).digest()).decode()


@lru_cache(maxsize=1)
def typefaces() -> str:
    """The typefaces, as rules of a style sheet with the fonts in them."""
    folder = resources.files("edgewise") / "fonts" / "page"
    faces = []
    for family, name, weight, slope in TYPEFACES:
        file = folder / f"{name}.woff2"
        if not file.is_file():  # the page falls back on the reader's own typefaces
            continue
        data = base64.b64encode(file.read_bytes()).decode()
        faces.append(
            f'@font-face{{font-family:"{family}";font-weight:{weight};font-style:{slope};'
            f"font-display:block;src:url(data:font/woff2;base64,{data})}}"
        )
    return "\n".join(faces)


@lru_cache(maxsize=1)
def style() -> str:
    """The style sheet, typefaces included."""
    # The rules for small screens and paper stand at the end of the page's own.
    own = (resources.files(__package__ or "") / "page.css").read_text("utf-8")
    return f"\n{typefaces()}\n{look.css(':root')}{javascript.source('table.css')}{own}"
