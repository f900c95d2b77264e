"""Comparisons on a page: a table, sentences, a chart, a longest path."""

from __future__ import annotations

import html

from edgewise.lesson.compared import Compared
from edgewise.publish import captions
from edgewise.publish.html import tables
from edgewise.words.messages import Words


def comparison(shown: Compared, words: Words, language: str = "") -> str:
    """A comparison as HTML."""
    lines = shown.lines
    figures = [at for at, name in enumerate(lines[0]) if name != "design"] if lines else []
    made = tables.plain(lines, shown.title, figures) if lines else ""
    items = "".join(f"<li>{html.escape(text)}</li>\n" for text in shown.sentences)
    notes = "".join(f"<p>{html.escape(text)}</p>\n" for text in shown.notes)
    told = f"<figcaption>{notes}</figcaption>\n" if notes else ""
    made = f'<figure class="comparison"{language}>\n{made}<ul>\n{items}</ul>\n{told}</figure>\n'
    if shown.chart is not None:
        made += tables.framed(shown.chart.svg(), captions.charted(shown, words), language)
    if shown.longest is not None:
        path = html.escape(shown.longest.path.text())
        listed = f'<pre class="box" tabindex="0"><code>{path}</code></pre>'
        made += tables.drawing(shown.longest.figure, language, between=listed)
    return made
