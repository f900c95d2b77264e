"""Comparisons on a page: a table, sentences, a chart, a critical path."""

from __future__ import annotations

import html
from math import ceil
from typing import Final

from edgewise.lesson.compared import NAMES, Compared
from edgewise.publish import captions
from edgewise.publish.html import tables
from edgewise.views.charts.curves import Chart, size
from edgewise.words.messages import Words

FIGURES: Final = (2, 3)
"""The columns of a critical path in which figures stand."""
_FIELD: Final = (110, 170)
"""Px between the axes of a chart on a phone: at least where names are long, and at most."""


def _slim(chart: Chart) -> str:
    """A chart for a phone; what its names take is not known before it is drawn."""
    least, most = _FIELD
    made = chart.svg(most)
    over = ceil(size(made)[0] - tables.PHONE)
    return made if over <= 0 else chart.svg(max(most - over, least))


def comparison(shown: Compared, words: Words, language: str = "") -> str:
    """A comparison as HTML."""
    lines = shown.lines(words)
    figures = [at for at in range(len(lines[0])) if at != NAMES] if lines else []
    made = tables.plain(lines, shown.title(words), figures) if lines else ""
    said = [html.escape(captions.unbroken(text)) for text in shown.sentences(words)]
    answer = "".join(f"<p>{text}</p>\n" for text in said)
    if len(said) > 1:
        answer = f"<ul>\n{''.join(f'<li>{text}</li>' for text in said)}</ul>\n"
    notes = [html.escape(captions.unbroken(text)) for text in shown.notes(words)]
    told = f"<figcaption>{''.join(f'<p>{text}</p>' for text in notes)}</figcaption>\n"
    made = f'<figure class="comparison"{language}>\n{made}{answer}{told}</figure>\n'
    if (chart := shown.chart(words)) is not None:
        made += tables.framed(
            tables.either(chart.svg(), _slim(chart)), captions.charted(shown, words), language
        )
    if shown.path is not None:
        path, drawn = shown.path.path, shown.path.figure
        note = captions.unbroken(shown.path.note(words))
        listed = tables.plain(path.cells(words), note, FIGURES)
        made += tables.drawing(drawn, language, between=listed)
    return made
