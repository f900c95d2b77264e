"""Edge tables and figures of a page: views, framed with captions and boxes that scroll."""

from __future__ import annotations

import html
from collections.abc import Sequence
from typing import Final

from edgewise.lesson.blocks import EdgeTable, Figure
from edgewise.lesson.broken import Broken
from edgewise.lesson.covered import Covered
from edgewise.publish import captions
from edgewise.trace import Trace
from edgewise.views.table.edge_table import edge_table_html

KEY: Final = (
    '<ul class="key"><li><i class="one">1</i> one</li><li><i>0</i> zero</li>'
    '<li><i class="unknown">X</i> unknown</li><li><i class="changed"></i> changed at this edge'
    "</li></ul>\n"
)
"""What the cells of a table mean."""


def edge_table(trace: Trace, table: EdgeTable, language: str = "", *, keyed: bool = False) -> str:
    """An edge table in its own box; `keyed` adds what the cells mean."""
    caption = table.caption or captions.given(trace, table.rows)
    marked = edge_table_html(trace, table.columns, table.rows, caption=caption)
    return (
        f'<figure{language}>\n<div class="box" role="region" aria-label="{html.escape(caption)}"'
        f' tabindex="0">\n{marked}</div>\n{KEY if keyed else ""}</figure>\n'
    )


def figure(trace: Trace, drawn: Figure, language: str = "", *, repeated: bool = False) -> str:
    """A drawing, and the values in it as a table that can be opened.

    A `repeated` one is left out where the stage behind it runs, which begins with the same.
    """
    caption = html.escape(drawn.caption or captions.moment(trace, drawn.rows))
    table = edge_table(trace, EdgeTable(drawn.names, drawn.rows))
    kind = "drawing repeated" if repeated else "drawing"
    return (
        f'<figure class="{kind}"{language}>\n<div class="box" role="region"'
        f' aria-label="{caption}" tabindex="0">\n{drawn.svg}\n</div>\n'
        f"<figcaption>{caption}\n"
        f"<details><summary>The values as a table</summary>\n{table}</details>\n"
        "</figcaption>\n</figure>\n"
    )


def broken(shown: Broken, language: str = "") -> str:
    """A drawing, then the table of the broken run; nothing in them names the fault."""
    from edgewise.views.drawing.svg import svg

    caption = html.escape(shown.drawn)
    # Ids must differ even where a lesson shows the same figure twice.
    prefix = f"fault-{'-'.join(map(str, (*shown.rows[:1], len(shown.rows), shown.row)))}-"
    drawing = (
        f'<figure class="drawing"{language}>\n<div class="box" role="region"'
        f' aria-label="{caption}" tabindex="0">\n{svg(shown.drawing, prefix=prefix)}\n</div>\n'
        f"<figcaption>{caption}</figcaption>\n</figure>\n"
    )
    table = EdgeTable(shown.columns, shown.rows, shown.told)
    return drawing + edge_table(shown.trace, table, language)


def coverage(shown: Covered, language: str = "") -> str:
    """What an example shows: a table, then sentences."""
    caption = html.escape(shown.title)
    made = ""
    if shown.lines:
        heading, *lines = shown.lines
        heads = "".join(
            f'<th scope="col"{_aligned(i)}>{html.escape(name)}</th>'
            for i, name in enumerate(heading)
        )
        rows = "".join(f"<tr>{_cells(line)}</tr>\n" for line in lines)
        made = (
            f'<div class="box" role="region" aria-label="{caption}" tabindex="0">\n'
            f'<table class="plain"><caption>{caption}</caption>\n<thead><tr>{heads}</tr></thead>\n'
            f"<tbody>\n{rows}</tbody></table>\n</div>\n"
        )
    if shown.sentences:
        items = "".join(f"<li>{html.escape(text)}</li>\n" for text in shown.sentences)
        made = made or f"<figcaption>{caption}</figcaption>\n"
        made += f"<ul>\n{items}</ul>\n"
    return f'<figure class="coverage"{language}>\n{made}</figure>\n'


def _cells(line: Sequence[str]) -> str:
    what, seen, of, unseen = map(html.escape, line)
    bits = f"<code>{unseen}</code>" if unseen else ""
    numbers = f'<td class="right">{seen}</td><td class="right">{of}</td>'
    return f'<th scope="row">{what}</th>{numbers}<td>{bits}</td>'


def _aligned(column: int) -> str:
    return ' class="right"' if column in (1, 2) else ""
