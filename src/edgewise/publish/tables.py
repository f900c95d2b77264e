"""Edge tables and figures of a page: views, framed with captions and boxes that scroll."""

from __future__ import annotations

import html
from collections.abc import Sequence
from typing import Final

from edgewise.lesson.blocks import EdgeTable, Figure
from edgewise.lesson.broken import Broken
from edgewise.lesson.covered import Covered
from edgewise.trace import Trace
from edgewise.views.table import edge_table_html

KEY: Final = (
    '<ul class="key"><li><i class="one">1</i> one</li><li><i>0</i> zero</li>'
    '<li><i class="unknown">X</i> unknown</li><li><i class="changed"></i> changed at this edge'
    "</li></ul>\n"
)
"""What the cells of a table mean."""


def edge_table(trace: Trace, table: EdgeTable, language: str = "", *, keyed: bool = False) -> str:
    """An edge table in its own box; `keyed` adds what the cells mean."""
    caption = table.caption or given(trace, table.rows)
    marked = edge_table_html(trace, table.columns, table.rows, caption=caption)
    return (
        f'<figure{language}>\n<div class="box" role="region" aria-label="{html.escape(caption)}"'
        f' tabindex="0">\n{marked}</div>\n{KEY if keyed else ""}</figure>\n'
    )


def figure(trace: Trace, drawn: Figure, language: str = "", *, repeated: bool = False) -> str:
    """A drawing, and the values in it as a table that can be opened.

    A `repeated` one is left out where the stage behind it runs, which begins with the same.
    """
    caption = html.escape(drawn.caption or moment(trace, drawn.rows))
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
    from edgewise.views.drawing import svg

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


def given(trace: Trace, rows: tuple[int, ...]) -> str:
    """What a table without a caption of its own shows."""
    numbers = {**trace.design.parameters, **trace.operands}
    values = ", ".join(f"{name}\u00a0=\u00a0{value}" for name, value in numbers.items())
    values = f" ({values})" if values else ""
    if not trace.edges:
        return f"The words, MSB left{values}"
    if len(rows) == 1:
        when = f"after edge {rows[0]}" if rows[0] else "before the first edge"
        return f"The words {when}, MSB left{values}"
    return f"The words after each edge, with the inputs that the next one samples; MSB left{values}"


def moment(trace: Trace, rows: tuple[int, ...]) -> str:
    """What a figure without a caption of its own shows."""
    if not trace.edges:
        return trace.design.circuit.name[:1].upper() + trace.design.circuit.name[1:]
    if len(rows) > 1:
        return f"Edges {rows[0]} to {rows[-1]}"
    phase = trace.phase(rows[0])
    when = f"After edge {rows[0]}" if rows[0] else "Before the first edge"
    return f"{when}, with the inputs of phase {phase.name}" if phase else when
