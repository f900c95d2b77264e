"""Edge tables and figures of a page: views, framed with captions and boxes that scroll."""

from __future__ import annotations

import html
from typing import Final

from edgewise.lesson.blocks import EdgeTable, Figure
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


def figure(trace: Trace, drawn: Figure, language: str = "") -> str:
    """A drawing, and the values in it as a table that can be opened."""
    caption = html.escape(drawn.caption or moment(trace, drawn.rows))
    table = edge_table(trace, EdgeTable(drawn.names, drawn.rows))
    return (
        f'<figure class="drawing"{language}>\n<div class="box" role="region"'
        f' aria-label="{caption}" tabindex="0">\n{drawn.svg}\n</div>\n'
        f"<figcaption>{caption}\n"
        f"<details><summary>The values as a table</summary>\n{table}</details>\n"
        "</figcaption>\n</figure>\n"
    )


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
    return f"The words after each edge, MSB left{values}"


def moment(trace: Trace, rows: tuple[int, ...]) -> str:
    """What a figure without a caption of its own shows."""
    if not trace.edges:
        return trace.design.circuit.name[:1].upper() + trace.design.circuit.name[1:]
    if len(rows) > 1:
        return f"Edges {rows[0]} to {rows[-1]}"
    phase = trace.phase(rows[0])
    if phase is None:
        return "Before the first edge"
    return f"After edge {rows[0]}, phase {phase.name}"
