"""Sheets of learners as a page: one for each, or all of a class to be printed from a browser."""

from __future__ import annotations

import html
from collections.abc import Iterable, Iterator, Sequence
from typing import Final

from edgewise.publish.blocks import Heading, Paragraph
from edgewise.publish.html import page
from edgewise.publish.html.page import Frame, Policy
from edgewise.publish.marking.feedback_sheet import Sheet, Sheets, Table

_STYLE: Final = """\
main > section + section { margin-top: 3.5em; border-top: 2px solid var(--ink); }
section code { overflow-wrap: anywhere; }
@media print { main > section + section { break-before: page; margin-top: 0; border: 0; } }
"""


def html_of(sheets: Sheets, numbers: Iterable[int]) -> str:
    """The page with the sheets of some learners."""
    body = "".join(_section(sheets.sheet(number)) for number in numbers)
    style = page.style() + _STYLE
    around = Frame(sheets.heading, sheets.words.language, "", "", sheets.words("feedback-footer"))
    return page.framed(around, body, style, "", policy=Policy(styles=(page.hashed(style),)))


def _section(sheet: Sheet) -> str:
    facts = f"<p>{html.escape(sheet.facts)}</p>\n" if sheet.facts else ""
    blocks = "".join(_blocks(sheet))
    return f"<section>\n<h2>{html.escape(sheet.name)}</h2>\n{facts}{blocks}</section>\n"


def _blocks(sheet: Sheet) -> Iterator[str]:
    of = sheet.name
    for block in sheet.blocks:
        match block:
            case Heading(text):
                of = f"{sheet.name}, {text}"
                yield f"<h3>{html.escape(text)}</h3>\n"
            case Paragraph(text):
                yield f"<p>{html.escape(text)}</p>\n"
            case Table():
                yield _table(block, of)


def _table(table: Table, of: str) -> str:
    heads = "".join(f'<th scope="col">{html.escape(text)}</th>' for text in table.headings)
    lines = "".join(map(_line, table.lines))
    return (
        f'<div class="box" role="region" aria-label="{html.escape(of)}" tabindex="0">'
        f'<table class="plain">\n<thead><tr>{heads}</tr></thead>\n<tbody>\n{lines}</tbody>\n'
        "</table></div>\n"
    )


def _line(cells: Sequence[str]) -> str:
    where, wrote, read, right, follows, verdict = map(html.escape, cells)
    own = f"<code>{wrote}</code>" + (f" {read}" if read else "")
    bits = "".join(
        f"<td><code>{word}</code></td>" if word else "<td></td>" for word in (right, follows)
    )
    return f'<tr><th scope="row">{where}</th><td>{own}</td>{bits}<td>{verdict}</td></tr>\n'
