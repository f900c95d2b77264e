"""Comparisons on a page: a table, sentences, a chart, a longest path."""

from __future__ import annotations

import html
from collections.abc import Sequence

from edgewise.lesson.compared import Compared
from edgewise.publish import captions


def comparison(shown: Compared, language: str = "") -> str:
    """A comparison as HTML."""
    from edgewise.views.drawing.svg import svg

    caption = html.escape(shown.title)
    made = _table(shown.lines, caption) if shown.lines else ""
    items = "".join(f"<li>{html.escape(text)}</li>\n" for text in shown.sentences)
    notes = "".join(f"<p>{html.escape(text)}</p>\n" for text in shown.notes)
    told = f"<figcaption>{notes}</figcaption>\n" if notes else ""
    made = f'<figure class="comparison"{language}>\n{made}<ul>\n{items}</ul>\n{told}</figure>\n'
    if shown.chart:
        made += _figure(shown.chart, html.escape(captions.charted(shown)), language)
    if shown.longest is not None:
        path = html.escape(shown.longest.path.text())
        title = html.escape(shown.longest.title)
        listed = f'<pre class="box" tabindex="0"><code>{path}</code></pre>'
        drawing = svg(shown.longest.drawing)  # its ids come from what it shows
        made += _figure(drawing, title, language, listed)
    return made


def _figure(drawn: str, caption: str, language: str, more: str = "") -> str:
    return (
        f'<figure class="drawing"{language}>\n<div class="box" role="region"'
        f' aria-label="{caption}" tabindex="0">\n{drawn}\n</div>\n'
        f"{more}<figcaption>{caption}</figcaption>\n</figure>\n"
    )


def _table(lines: Sequence[Sequence[str]], caption: str) -> str:
    heading, *rows = lines
    heads = "".join(f'<th scope="col"{_side(name)}>{html.escape(name)}</th>' for name in heading)
    body = "".join(
        "<tr>"
        + "".join(
            f"<td{_side(name)}>{html.escape(cell)}</td>"
            for name, cell in zip(heading, line, strict=True)
        )
        + "</tr>\n"
        for line in rows
    )
    return (
        f'<div class="box" role="region" aria-label="{caption}" tabindex="0">\n'
        f'<table class="plain"><caption>{caption}</caption>\n<thead><tr>{heads}</tr></thead>\n'
        f"<tbody>\n{body}</tbody></table>\n</div>\n"
    )


def _side(heading: str) -> str:
    return "" if heading == "design" else ' class="right"'
