"""A bench sheet as a page that stands by itself: boxes can be ticked in it."""

from __future__ import annotations

import html
from importlib import resources

from edgewise.lab.wiring.check import Checked
from edgewise.lab.wiring.sheet import Sheet
from edgewise.publish.bench import blocks
from edgewise.publish.bench.blocks import Block, Picture, Points, Table
from edgewise.publish.blocks import Heading, Paragraph
from edgewise.publish.html import page
from edgewise.publish.html.page import Frame, Policy
from edgewise.views.drawing.svg import svg
from edgewise.words.messages import Words


def html_of(sheet: Sheet, checked: Checked, words: Words) -> str:
    """The page."""
    body = "".join(_block(block, words) for block in blocks.blocks(sheet, checked, words))
    told = "".join(f"<li>{html.escape(fact)}</li>" for fact in blocks.facts(sheet, words))
    style = page.style() + (resources.files(__package__ or "") / "bench.css").read_text("utf-8")
    around = Frame(
        blocks.title(sheet, words),
        words.language,
        f'<ul class="facts">{told}</ul>',
        "",
        words("bench-footer"),
    )
    return page.framed(around, body, style, "", policy=Policy(styles=(page.hashed(style),)))


def _block(block: Block, words: Words) -> str:
    match block:
        case Heading():
            return f"<h2>{html.escape(block.text)}</h2>\n"
        case Paragraph():
            return f"<p>{html.escape(block.text)}</p>\n"
        case Points():
            return _points(block)
        case Table():
            return _table(block, words)
        case Picture():
            caption = html.escape(block.caption)
            under = f"<figcaption>{caption}</figcaption>" if caption else ""
            told = html.escape(block.drawing.title)
            return (
                f'<figure class="drawing"><div class="box" role="region" tabindex="0"'
                f' aria-label="{told}">\n{svg(block.drawing)}</div>{under}</figure>\n'
            )


def _points(block: Points) -> str:
    if not block.ticked:
        items = "".join(f"<li>{html.escape(text)}</li>\n" for text in block.texts)
        return f"<ul>\n{items}</ul>\n"
    items = "".join(
        f'<li><label><input type="checkbox"> {html.escape(text)}</label></li>\n'
        for text in block.texts
    )
    return f'<ul class="ticks">\n{items}</ul>\n'


def _table(block: Table, words: Words) -> str:
    done = html.escape(words("bench-column-done"))
    heads = "".join(f'<th scope="col">{html.escape(head)}</th>' for head in block.heads)
    rows = []
    for line in block.lines:
        cells = "".join(
            f"<td><code>{html.escape(cell)}</code></td>"
            if column in block.bits
            else f"<td>{html.escape(cell)}</td>"
            for column, cell in enumerate(line)
        )
        named = html.escape(" ".join(line[:3]))
        box = f'<td><input type="checkbox" aria-label="{done}: {named}"></td>'
        rows.append(f"<tr>{box}{cells}</tr>\n")
    caption = html.escape(block.caption)
    return (
        f'<div class="box" role="region" aria-label="{caption}" tabindex="0">\n'
        f'<table class="plain bench"><caption>{caption}</caption>\n'
        f'<thead><tr><th scope="col">{done}</th>{heads}</tr></thead>\n'
        f"<tbody>\n{''.join(rows)}</tbody></table>\n</div>\n"
    )
