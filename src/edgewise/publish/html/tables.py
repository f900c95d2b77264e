"""Edge tables and figures of a page: views, framed with captions and boxes that scroll."""

from __future__ import annotations

import html
from collections.abc import Callable, Container, Sequence
from dataclasses import replace
from typing import Final

from edgewise.lesson.covered import Covered
from edgewise.lesson.pieces import EdgeTable, Figure
from edgewise.publish import captions
from edgewise.response.timeline import Timeline
from edgewise.views.table.edge_table import edge_table_html
from edgewise.words.messages import Words


def key(words: Words) -> str:
    """What the cells of a table mean."""
    one, zero, unknown, changed = (
        html.escape(words(f"key-{name}")) for name in ("one", "zero", "unknown", "changed")
    )
    return (
        f'<ul class="key"><li><i class="one">1</i> {one}</li><li><i>0</i> {zero}</li>'
        f'<li><i class="unknown">X</i> {unknown}</li><li><i class="changed"></i> {changed}</li>'
        "</ul>\n"
    )


PHONE: Final = 434.0
"""Px of a figure that has letters of 9 px on a phone of 360: 12 px of them, on 326 of the page."""


def edge_table(
    table: EdgeTable,
    words: Words,
    language: str = "",
    *,
    keyed: bool = False,
    blank: Container[tuple[int, str]] = (),
    where: str = "",
) -> str:
    """An edge table in its own box; `keyed` adds what the cells mean, `blank` cells are open.

    `where` begins the name of the box, where a page has several of the same caption.
    """
    caption = table.caption or captions.given(table.trace, table.rows, words)
    marked = edge_table_html(
        table.trace, table.columns, table.rows, caption=caption, words=words, blank=blank
    )
    return (
        f"<figure{language}>\n"
        f'<div class="box" role="region" aria-label="{html.escape(where + caption)}"'
        f' tabindex="0">\n{marked}</div>\n{key(words) if keyed else ""}</figure>\n'
    )


def figure(
    drawn: Figure, words: Words, language: str = "", *, repeated: bool = False, prefix: str = ""
) -> str:
    """A figure, and the values in it as a table that can be opened.

    A `repeated` one is left out where the stage behind it runs, which begins with the same; a
    caption of its own is kept. Ids in it begin with `prefix`.
    """
    caption = captions.told(drawn, words)
    table = _values(drawn, caption, words)
    opened = html.escape(words("values-as-table"))
    values = f"<details><summary>{opened}</summary>\n{table}</details>\n"
    kind = "drawing repeated" if repeated else "drawing"
    if repeated and drawn.caption:
        kind += " told"
    picture = drawn.svg(prefix=prefix) if repeated else pictures(drawn, prefix)
    return framed(picture, caption, language, below=f"\n{values}", kind=kind)


def pictures(drawn: Figure, prefix: str = "") -> str:
    """A figure, and where it is wider than a phone the same for a phone, of which one is shown."""
    wide = drawn.drawing()
    if wide.width <= PHONE:
        return drawn.svg(wide, prefix)
    slim = replace(drawn, wish=replace(drawn.wish, room=PHONE)).drawing()
    if slim.width >= wide.width:
        return drawn.svg(wide, prefix)
    return either(drawn.svg(wide, prefix), drawn.svg(slim, f"{prefix}slim-"))


def either(wide: str, slim: str) -> str:
    """Two pictures of the same, of which a page shows the one that it has room for."""
    return f'<div class="wide">{wide}</div>\n<div class="slim">{slim}</div>'


def _values(drawn: Figure, caption: str, words: Words) -> str:
    if isinstance(drawn.wish.inside, Timeline):
        return plain(drawn.wish.inside.lines(drawn.names, words), caption, (0,))
    if drawn.wish.graph is None:
        return edge_table(EdgeTable(drawn.trace, drawn.names, drawn.rows), words)
    from edgewise.views.states.transition_table import lines  # few lessons need it

    return plain(lines(drawn.wish.graph, words), caption, ())


def drawing(drawn: Figure, language: str = "", between: str = "", prefix: str = "") -> str:
    """A figure without its values; `between` stands above its caption."""
    return framed(pictures(drawn, prefix), drawn.caption, language, between=between)


def framed(  # noqa: PLR0913  # what a figure has around it, each by its name
    picture: str,
    caption: str,
    language: str = "",
    *,
    between: str = "",
    below: str = "",
    kind: str = "drawing",
    where: str = "",
) -> str:
    """A picture in its own box, with its caption; `below` belongs to the caption.

    `where` begins the name of the box, as of `edge_table`.
    """
    told = html.escape(caption)
    return (
        f'<figure class="{kind}"{language}>\n<div class="box" role="region"'
        f' aria-label="{html.escape(where)}{told}" tabindex="0">\n{picture}\n</div>\n'
        f"{between}<figcaption>{told}{below}</figcaption>\n</figure>\n"
    )


def plain(
    lines: Sequence[Sequence[str]],
    caption: str,
    right: Container[int],
    cell: Callable[[int, str], str] | None = None,
    *,
    where: str = "",
) -> str:
    """A table of text, its heading first; `where` as of `edge_table`.

    Parameters
    ----------
    lines : sequence of sequences of str
    caption : str
    right : container of int
        The columns that are flush right.
    cell : function, optional
        Makes a cell of its column and text, where that is not a plain one.
    """
    heading, *rows = lines

    def side(column: int) -> str:
        return ' class="right"' if column in right else ""

    def plainly(column: int, text: str) -> str:
        return f"<td{side(column)}>{html.escape(text)}</td>"

    made = cell or plainly
    heads = "".join(
        f'<th scope="col"{side(column)}>{html.escape(name)}</th>'
        for column, name in enumerate(heading)
    )
    body = "".join(f"<tr>{''.join(made(*at) for at in enumerate(line))}</tr>\n" for line in rows)
    told = html.escape(caption)
    return (
        f'<div class="box" role="region" aria-label="{html.escape(where)}{told}" tabindex="0">\n'
        f'<table class="plain"><caption>{told}</caption>\n<thead><tr>{heads}</tr></thead>\n'
        f"<tbody>\n{body}</tbody></table>\n</div>\n"
    )


def coverage(shown: Covered, words: Words, language: str = "") -> str:
    """What an example shows: a table, then sentences."""
    lines, title, sentences = shown.lines(words), shown.title(words), shown.sentences(words)
    made = plain(lines, title, (1, 2), _seen) if lines else ""
    if sentences:
        items = "".join(f"<li>{html.escape(text)}</li>\n" for text in sentences)
        made = made or f"<figcaption>{html.escape(title)}</figcaption>\n"
        made += f"<ul>\n{items}</ul>\n"
    return f'<figure class="coverage"{language}>\n{made}</figure>\n'


def _seen(column: int, text: str) -> str:
    """A cell of what an example shows: what, seen, of how many, and what is left unseen."""
    told = html.escape(text)
    match column:
        case 0:
            return f'<th scope="row">{told}</th>'
        case 1 | 2:
            return f'<td class="right">{told}</td>'
        case _:
            return f"<td><code>{told}</code></td>" if told else "<td></td>"
