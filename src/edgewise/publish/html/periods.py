"""Clock periods opened up, in a page: the figure, what is to be said, every event."""

from __future__ import annotations

import html
from dataclasses import replace

from edgewise.lesson.inside import Opened
from edgewise.publish.html import tables
from edgewise.words.messages import Words


def opened(piece: Opened, words: Words, language: str = "", *, prefix: str = "") -> str:
    """HTML of an opened period."""
    title = piece.title(words)
    said = "".join(f"<li>{html.escape(one)}</li>\n" for one in piece.sentences(words))
    summary = html.escape(words("inside-events"))
    where = f"{words('inside-events')}: "
    table = tables.plain(piece.lines(words), title, (0, 1, 3, 4), where=where)
    below = f"\n<details><summary>{summary}</summary>\n{table}</details>\n"
    svg = replace(piece.figure, caption=title).svg(prefix=prefix)
    return tables.framed(svg, title, language, below=below) + f"<ul{language}>\n{said}</ul>\n"
