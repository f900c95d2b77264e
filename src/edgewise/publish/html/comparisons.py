"""Comparisons on a page: a table, sentences, a chart, a critical path."""

from __future__ import annotations

import html

from edgewise.lesson.compared import NAMES, Compared
from edgewise.publish import captions
from edgewise.publish.html import tables
from edgewise.words.messages import Words


def comparison(shown: Compared, words: Words, language: str = "") -> str:
    """A comparison as HTML."""
    lines = shown.lines(words)
    figures = [at for at in range(len(lines[0])) if at != NAMES] if lines else []
    made = tables.plain(lines, shown.title(words), figures) if lines else ""
    items = "".join(f"<li>{html.escape(text)}</li>\n" for text in shown.sentences(words))
    notes = "".join(f"<p>{html.escape(text)}</p>\n" for text in shown.notes(words))
    told = f"<figcaption>{notes}</figcaption>\n" if notes else ""
    listed = f"<ul>\n{items}</ul>\n"
    made = f'<figure class="comparison"{language}>\n{made}{listed}{told}</figure>\n'
    if (chart := shown.chart(words)) is not None:
        made += tables.framed(chart.svg(), captions.charted(shown, words), language)
    if shown.path is not None:
        path = html.escape(shown.path.path.text(words))
        listed = f'<pre class="box" tabindex="0"><code>{path}</code></pre>'
        made += tables.drawing(shown.path.figure, language, between=listed)
    return made
