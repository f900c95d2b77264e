"""A lesson as one self-contained HTML file that makes no request."""

from __future__ import annotations

import base64
import contextlib
import hashlib
import html
import os
import re
import tempfile
from collections.abc import Callable
from functools import lru_cache
from importlib import resources
from pathlib import Path
from typing import TYPE_CHECKING, Final

from edgewise import lesson
from edgewise.errors import EdgewiseError, Place
from edgewise.lesson import Report
from edgewise.lesson.picking import Note
from edgewise.publish import markup, script, stage

if TYPE_CHECKING:
    from edgewise.study.sweep import Progress

TYPEFACES: Final = (
    ("Edgewise Sans", "sans-400", 400, "normal"),
    ("Edgewise Sans", "sans-400-italic", 400, "italic"),
    ("Edgewise Sans", "sans-600", 600, "normal"),
    ("Edgewise Mono", "mono-400", 400, "normal"),
    ("Edgewise Mono", "mono-600", 600, "normal"),
)
"""Family, file in ``fonts/page``, weight, style."""
_POLICY: Final = (
    "default-src 'none'; script-src {scripts}; style-src {styles}; img-src data:; font-src data:;"
    " base-uri 'none'; form-action 'none'"
)
_PAGE: Final = """\
<!doctype html>
<html lang="{language}">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="{policy}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="referrer" content="no-referrer">
<title>{title}</title>
<style>{style}</style>
</head>
<body>
<header>
<h1>{title}</h1>
{facts}
</header>
<main>
{body}</main>
<footer>
<p{english}>Every value set as a computed one, every table of a run and every figure drawn from \
the circuit was computed from it, its procedure and the operands, and every claim was checked as \
it says. Other numbers in the text were typed and not checked. Figures are for teaching, not for \
signing off hardware.</p>
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
        raise EdgewiseError(
            "the page would overwrite the lesson; choose another folder", Place(str(page))
        )
    if progress is not None:
        stage.prepare(report, progress)
    written = write(page, html_of(report))
    if tell is not None:
        for note in report.notes:
            tell(note)
    return written


def html_of(report: Report, body: str = "") -> str:
    """The page of a checked lesson; the same lesson gives the same bytes.

    Parameters
    ----------
    report : Report
    body : str
        Its text as HTML; made if it is empty.
    """
    front = report.lesson.front
    body = body or markup.body(report)
    sheet = style() + stage.style() if stage.TAG in body else style()
    module = stage.module() if stage.TAG in body else ""
    # A figure may bring a style sheet of its own; the policy names each by its digest.
    sheets = [sheet, *re.findall(r"<style[^>]*>(.*?)</style>", body, re.DOTALL)]
    digests = dict.fromkeys(f"'sha256-{digest(text)}'" for text in sheets)
    return _PAGE.format(
        language=html.escape(front.language),
        policy=html.escape(
            _POLICY.format(
                styles=" ".join(digests),
                scripts=f"'sha256-{digest(module)}'" if module else "'none'",
            ),
            quote=False,
        ),
        title=html.escape(front.title),
        style=sheet,
        facts=markup.facts(report),
        body=body,
        script=f'<script type="module">{module}</script>\n' if module else "",
        english=markup.english(report),
    )


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
    return f"\n{typefaces()}\n{script.source('table.css')}{own}"


def write(page: Path, text: str | bytes) -> Path:
    """Write a file beside and then rename it: whatever happens, the old or the new is whole.

    Raises
    ------
    EdgewiseError
        If it can't be written.
    """
    try:
        page.parent.mkdir(parents=True, exist_ok=True)
        handle, beside = tempfile.mkstemp(dir=page.parent, prefix=f".{page.stem}-", suffix=".new")
        try:
            with os.fdopen(handle, "wb") as file:
                file.write(text.encode() if isinstance(text, str) else text)
                file.flush()
                os.fsync(file.fileno())
            Path(beside).chmod(0o666 & ~_mask())
            Path(beside).replace(page)
        except BaseException:
            with contextlib.suppress(OSError):
                Path(beside).unlink()
            raise
    except OSError as wrong:
        raise EdgewiseError(f"can't be written: {wrong.strerror}", Place(str(page))) from None
    return page


def _mask() -> int:
    """The user's file mode mask, which can only be read by setting it."""
    mask = os.umask(0o022)
    os.umask(mask)
    return mask
